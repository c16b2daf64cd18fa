import { absent } from "../refusal";
import { otherLights, type Light } from "../../tables/lights";
import { difference2000 } from "./shade-difference";
import { bestRecipes, type Found, type MatchWish, type Recipe, type Search } from "./shade-match";
import { labOf } from "./tristimulus";

/** Headings of the differences in the lights asked for after the first, and of the one that ranks. */
export function furtherHeadings([, ...further]: readonly Light[]): string[] {
  if (further.length === 0) return [];
  const each = further.map(({ word }) => `difference (CIEDE2000, ${word})`);
  return [...each, "difference that ranks (CIEDE2000, root mean square)"];
}

/** The differences under those headings. */
export function furtherDifferences(
  target: readonly number[],
  reflectance: ArrayLike<number>,
  lights: readonly Light[],
): number[] {
  if (lights.length < 2) return [];
  const each = lights.slice(1).map((light) => difference2000(labOf(target, light), labOf(reflectance, light)));
  return [...each, ranking({ target, lights })({ reflectance })];
}

/** The solids by their names, or by their numbers where they have none. */
export function solidNames(count: number, names: readonly string[] | undefined): string[] {
  return Array.from({ length: count }, (_, place) => names?.[place] ?? `solid ${place + 1}`);
}

const SEARCH_NOTES: Record<Search, string> = { all: "", "near-best": "near-best", heuristic: "heuristic" };

/** Two units away a shade is another shade. */
const OUT_OF_REACH = 2;

export function outOfReachNote(difference: number): string {
  return difference > OUT_OF_REACH ? `out of reach by ${difference.toFixed(1)}` : "";
}

/** A recipe so far off, in CIEDE2000, is none for this target; common practice, no source. */
const NO_RECIPE = 15;

/** The difference of the best recipe, where nothing else would tell of it. */
export function expectInReach(difference: number): void {
  if (difference <= NO_RECIPE) return;
  const off = `${difference.toFixed(1)} off the nearest recipe`;
  absent("target", off, `over ${NO_RECIPE}: check target and light; MIXCHOICES shows how near each comes`);
}

/** Notes as one cell holds them. */
export function noted(notes: readonly string[]): string {
  return notes.filter((note) => note !== "").join("; ");
}

/**
 * The nearest recipes, among them the best of each number of solids: what a simpler recipe costs in difference is worth
 * a line.
 */
export function choicesOfEachSize(wish: MatchWish): Found {
  const found = bestRecipes(wish);
  const rank = ranking(wish);
  const wanted = new Map<string, Recipe>();
  const want = (recipe: Recipe | undefined): void => {
    if (recipe) wanted.set(solidsOf(recipe), wanted.get(solidsOf(recipe)) ?? recipe);
  };
  want(found.recipes[0]);
  const least = wish.leastShares?.filter((share) => share > 0).length ?? 0;
  const largest = Math.min(wish.parts, wish.solids.length);
  for (let parts = largest - 1; parts >= Math.max(1, least) && largest - parts < wish.choices; parts--) {
    want(bestRecipes({ ...wish, parts, choices: 1 }).recipes[0]);
  }
  for (const recipe of found.recipes) if (wanted.size < wish.choices) want(recipe);
  // What no eye tells apart stays in the order found: a last digit is another in another runtime.
  const ranked = Array.from(wanted.values(), (recipe, place) => ({
    recipe,
    place,
    at: Math.round(rank(recipe) * 1e9),
  }));
  ranked.sort((a, b) => a.at - b.at || a.place - b.place);
  return { recipes: ranked.map(({ recipe }) => recipe), search: found.search };
}

function solidsOf({ shares }: Recipe): string {
  return shares.map((share) => (share > 0 ? 1 : 0)).join("");
}

/** The difference by which recipes are ranked: the root mean square of those in the lights. */
export function ranking({
  target,
  lights,
}: Pick<MatchWish, "target" | "lights">): (of: Pick<Recipe, "reflectance">) => number {
  const labs = lights.map((light) => labOf(target, light));
  return ({ reflectance }) => {
    const squares = lights.map((light, index) => difference2000(labs[index]!, labOf(reflectance, light)) ** 2);
    return Math.sqrt(squares.reduce((sum, square) => sum + square, 0) / lights.length);
  };
}

/** What the readings themselves make to be noted. */
export function readingNotes(measured: boolean, overWhite: boolean): string[] {
  return [measured ? "" : "L*a*b* only", overWhite ? "reflectance over 1: brightener or wrong reading" : ""];
}

/** What is to be known of the alternatives beside their shares. */
export interface ChoicesTerms {
  /** Were target and solids all measured reflectances? Otherwise another light tells nothing. */
  readonly measured: boolean;
  /** Is a reflectance above 1? */
  readonly overWhite: boolean;
  readonly names: readonly string[] | undefined;
  readonly prices: readonly number[] | undefined;
}

/**
 * The alternatives as a table: shares, predicted shade, difference, worst difference in another light, note, cost; with
 * several lights also the difference in each other one asked for, and the one that ranks.
 */
export function choicesTable(
  { target, lights }: Pick<MatchWish, "target" | "lights">,
  { recipes, search }: Found,
  { measured, overWhite, names, prices }: ChoicesTerms,
): (string | number)[][] {
  const light = lights[0] as Light;
  const rank = ranking({ target, lights });
  const isOut = recipes.every((recipe) => rank(recipe) > OUT_OF_REACH);
  const notes = [SEARCH_NOTES[search], ...readingNotes(measured, overWhite)];
  const noteOf = (recipe: Recipe): string => noted([...notes, isOut ? outOfReachNote(rank(recipe)) : ""]);
  const solids = solidNames(recipes[0]?.shares.length ?? 0, names).map((name) => `${name} (share)`);
  const header = [
    ...["choice", ...solids, "L*", "a*", "b*"],
    ...[`difference (CIEDE2000, ${light.word})`, "worst difference in another light (CIEDE2000)", "note"],
    ...(prices ? ["cost (per kg)"] : []),
    ...furtherHeadings(lights),
  ];
  const rows = recipes.map((recipe, index) => {
    const { shares, reflectance } = recipe;
    const differenceIn = (lamp: Light): number => difference2000(labOf(target, lamp), labOf(reflectance, lamp));
    return [
      ...[index + 1, ...shares, ...labOf(reflectance, light), differenceIn(light)],
      measured ? Math.max(...otherLights(light).map(differenceIn)) : "",
      noteOf(recipe),
      ...(prices ? [shares.reduce((sum, share, solid) => sum + share * prices[solid]!, 0)] : []),
      ...furtherDifferences(target, reflectance, lights),
    ];
  });
  return [header, ...rows];
}
