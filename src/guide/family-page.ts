import { FAMILIES, type DocumentedFunction } from "../documentation/docblocks.mjs";
import { cautionLinks } from "./cautions";
import { FAMILY_DRAWINGS } from "./drawings/families";
import { shown } from "./drawings/svg";
import { escaped, type Page } from "./html";
import { functionsIn, RECIPES } from "./recipes";
import { STAGE_PURPOSES } from "./stages";
import type { Work } from "./work";

export function familyFile(family: string): string {
  return `family-${family}.html`;
}

/** The page with which a family of functions opens: what it is for, a drawing, its functions and the recipes with them. */
export function familyPage(family: string, all: readonly DocumentedFunction[], work: Work): Page {
  const title = FAMILIES[family as keyof typeof FAMILIES];
  const own = all.filter((documented) => documented.family === family);
  const purpose = STAGE_PURPOSES[family] ?? "";
  const drawing = FAMILY_DRAWINGS[family];
  if (drawing === undefined) throw new Error(`the family ${family} has no drawing`);
  const recipes = RECIPES.filter((recipe) => functionsIn(recipe).some((id) => own.some((one) => one.id === id)));
  const links = recipes.map(({ file, title: name }) => `<li><a href="${file}">${escaped(name)}</a></li>`);
  return {
    file: familyFile(family),
    title: `${title} · Yarn worksheet functions`,
    description: purpose,
    body: `<p class="stage"><a href="index.html">All functions</a></p>
<h1>${escaped(title)}</h1>
<p class="lead">${escaped(purpose)}</p>
${shown(drawing(work), "drawing")}
<ul class="entries">
${own.map(({ id, description }) => `<li class="entry"><a href="${id}.html">${id}</a> <span>${escaped(description)}</span></li>`).join("\n")}
</ul>
${links.length === 0 ? "" : `<section aria-labelledby="recipes"><h2 id="recipes">Recipes</h2><ul>${links.join("")}</ul></section>`}
${cautionLinks(family)}`,
  };
}
