import type { CountSystem } from "../../tables/count-systems";
import { convertCount } from "../counts/counts";
import { countDrawn } from "./draft";

/** One passage of a drawing set as it is ordered. */
export interface PlannedPassage {
  readonly doublings: number;
  readonly draft: number;
  readonly waste: number;
}

/** One passage worked out; both counts in the same system. */
export interface DrawnPassage {
  readonly countIn: number;
  readonly doublings: number;
  readonly draft: number;
  readonly countOut: number;
  readonly doublingsSoFar: number;
  readonly draftSoFar: number;
}

/** A whole drawing set: every passage takes what the one before it delivers. */
export function drawingPlan(
  countIn: number,
  system: CountSystem,
  passages: readonly PlannedPassage[],
  systemOut: CountSystem,
): DrawnPassage[] {
  let count = convertCount(countIn, system, systemOut);
  let doublingsSoFar = 1;
  let draftSoFar = 1;
  return passages.map(({ doublings, draft, waste }) => {
    const from = count;
    count = countDrawn(from, systemOut, draft, systemOut, { doublings, waste, contraction: 0 });
    doublingsSoFar *= doublings;
    draftSoFar *= draft;
    return { countIn: from, doublings, draft, countOut: count, doublingsSoFar, draftSoFar };
  });
}
