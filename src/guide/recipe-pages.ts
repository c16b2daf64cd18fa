import { cautionNamed } from "./cautions";
import { code, escaped, scrollingTable, type Page } from "./html";
import type { Implementation, Rows, Value } from "./page/values";
import { inTable, textOf } from "./page/written";
import { functionsIn, RECIPES, type Recipe } from "./recipes";
import { workedRecipe, type WorkedFormula } from "./recipes/worked";
import { valuesTable } from "./values-table";

/** The list of the recipes, then a page for each, worked out with the functions as they were built. */
export function recipePages(functions: ReadonlyMap<string, Implementation>): Page[] {
  return [listPage(), ...RECIPES.map((recipe) => recipePage(recipe, workedRecipe(recipe, functions)))];
}

function listPage(): Page {
  const items = RECIPES.map(
    ({ file, title, situation }) =>
      `<li><h2><a href="${file}">${escaped(title)}</a></h2><p>${escaped(situation)}</p></li>`,
  );
  return {
    file: "recipes.html",
    title: "Recipes · Yarn worksheet functions",
    description: "Cases that take two or three functions together, each worked out.",
    body: `<h1>Recipes</h1>
<p class="lead">Cases that take two or three functions together: the table as it stands in the sheet, the formulas, what comes out and how to read it. All figures are invented.</p>
<ul class="entries">${items.join("\n")}</ul>`,
  };
}

function recipePage(recipe: Recipe, worked: readonly WorkedFormula[]): Page {
  const { file, title, situation, cells, tables, reading, rests } = recipe;
  const ids = functionsIn(recipe).map((id) => `<li><a href="${id}.html">${id}</a></li>`);
  const sheet = [
    cells.length === 0
      ? ""
      : scrollingTable(
          "Cells with names",
          ["cell", "value", "meaning"],
          cells.map(({ name, value, meaning }) => [code(name), escaped(String(value)), escaped(meaning)]),
          [1],
        ),
    ...tables.map(
      ({ name, rows }) => `<p class="table-name">${code(name)}</p>${valuesTable(name, rows as unknown as Rows)}`,
    ),
  ];
  const cautions = recipe.cautions
    .map(cautionNamed)
    .map(({ anchor, title: name }) => `<a href="cautions.html#${anchor}">${escaped(name)}</a>`);
  return {
    file,
    title: `${title} · Yarn worksheet functions`,
    description: situation,
    body: `<p class="stage"><a href="recipes.html">Recipes</a></p>
<h1>${escaped(title)}</h1>
<p class="lead">${escaped(situation)}</p>
<section aria-labelledby="sheet"><h2 id="sheet">In the sheet</h2>
${sheet.join("\n")}</section>
<section aria-labelledby="formulas"><h2 id="formulas">The formulas</h2>
<p>Cells and results have names, so that a formula says what it reads. Where a result fills several cells, its name is defined with a # behind the first of them: <code>=Sheet1!$F$2#</code>.</p>
<ol class="worked-formulas">${worked.map(workedFormula).join("\n")}</ol></section>
<section aria-labelledby="reading"><h2 id="reading">How to read it</h2><p>${escaped(reading)}</p></section>
<p class="caution">${escaped(LAW)} Cautions: ${cautions.join(", ")}.</p>
<section aria-labelledby="rests"><h2 id="rests">What it rests on</h2><p>${escaped(rests)}</p></section>
<nav class="related" aria-labelledby="related"><h2 id="related">Functions in it</h2><ul>${ids.join("")}</ul></nav>`,
  };
}

const LAW = "Local codes, the contract and licensed practice decide; the figures are invented.";

function workedFormula({ name, formula, meaning, rows }: WorkedFormula): string {
  return `<li><p>${escaped(meaning)}, called ${code(name)}</p><p>${code(formula)}</p>${result(name, rows)}</li>`;
}

function result(name: string, rows: Rows): string {
  const written = rows.map((row) =>
    row.map((value): Value => (typeof value === "number" ? Number(inTable(value)) : value)),
  );
  const [only] = rows.length === 1 && rows[0]?.length === 1 ? (written[0] as [Value]) : [];
  if (only !== undefined)
    return `<p><span class="gives">gives</span> <strong class="value">${escaped(textOf(only))}</strong></p>`;
  return `<p class="gives">gives</p>${valuesTable(`What ${name} gives`, written)}`;
}
