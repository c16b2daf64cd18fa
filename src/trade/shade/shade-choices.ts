import { otherLights, type Light } from "../../tables/lights";
import { difference2000 } from "./shade-difference";
import type { MatchWish, Recipe, Search } from "./shade-match";
import { labOf } from "./tristimulus";

const SEARCH_NOTES: Record<Search, string> = { all: "", "near-best": "near-best", heuristic: "heuristic" };

/**
 * The alternatives as a table: shares, predicted shade, difference, worst difference in another light, note, cost.
 * `measured`: were target and solids all measured reflectances? Otherwise another light tells nothing.
 */
export function choicesTable(
  { target, lights }: Pick<MatchWish, "target" | "lights">,
  { recipes, search }: { readonly recipes: readonly Recipe[]; readonly search: Search },
  measured: boolean,
  names: readonly string[] | undefined,
  prices?: readonly number[],
): (string | number)[][] {
  const light = lights[0] as Light;
  const note = [SEARCH_NOTES[search], measured ? "" : "L*a*b* only"].filter((text) => text !== "").join("; ");
  const solids = (recipes[0]?.shares ?? []).map((_, index) => `${names?.[index] ?? `solid ${index + 1}`} (share)`);
  const header = [
    ...["choice", ...solids, "L*", "a*", "b*"],
    ...[`difference (CIEDE2000, ${light.word})`, "worst difference in another light (CIEDE2000)", "note"],
    ...(prices ? ["cost (per kg)"] : []),
  ];
  const rows = recipes.map(({ shares, reflectance }, index) => {
    const differenceIn = (lamp: Light): number => difference2000(labOf(target, lamp), labOf(reflectance, lamp));
    const worst = measured ? Math.max(...otherLights(light).map(differenceIn)) : "";
    const cost = prices ? [shares.reduce((sum, share, solid) => sum + share * prices[solid]!, 0)] : [];
    return [index + 1, ...shares, ...labOf(reflectance, light), differenceIn(light), worst, note, ...cost];
  });
  return [header, ...rows];
}
