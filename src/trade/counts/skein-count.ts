import type { CountSystem } from "../../tables/count-systems";
import { fromTex } from "./counts";
import { refuse } from "../refusal";

/** Regain on weighing and regain of the standard; each may be left out, but not one alone. */
export interface Regains {
  readonly now: number | undefined;
  readonly standard: number | undefined;
}

/** Mass that the goods would have at standard regain. The dry mass is the same: mass / (1 + regain). */
export function massAtStandardRegain(grams: number, { now, standard }: Regains): number {
  if (now === undefined && standard === undefined) return grams;
  if (now === undefined) refuse("regain_now", "left out", "give both regains or neither");
  if (standard === undefined) refuse("regain_standard", "left out", "give both regains or neither");
  return (grams * (1 + standard)) / (1 + now);
}

/** Count of a measured length of yarn from its mass (the skein method). */
export function skeinCount(metres: number, grams: number, system: CountSystem, regains: Regains): number {
  return fromTex((massAtStandardRegain(grams, regains) * 1000) / metres, system);
}
