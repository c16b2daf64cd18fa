import type { Designation } from "./designation";
import { absent, shortened } from "../refusal";

/** What can be asked of a designation. Twists are in turns a metre. */
export const DESIGNATION_PARTS = [
  "resultant",
  "single",
  "plies",
  "twist single",
  "twist ply",
  "twist cable",
  "direction single",
  "direction ply",
  "direction cable",
] as const;

export type DesignationPart = (typeof DESIGNATION_PARTS)[number];

const STAGES: readonly string[] = ["single", "ply", "cable"];

/** One part of a designation; a twist that it does not state is absent, not 0. */
export function partOf(designation: Designation, part: DesignationPart, text: string): number | string {
  if (part === "resultant" || part === "single" || part === "plies") return designation[part];
  const [what, stage] = part.split(" ") as [string, string];
  const twist = designation.twists[STAGES.indexOf(stage)];
  const found = what === "twist" ? twist?.turns : twist?.direction;
  return found ?? absent("part", `"${part}"`, `"${shortened(text)}" does not state it`);
}
