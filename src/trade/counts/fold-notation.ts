import type { CountSystem } from "../../tables/count-systems";
import { canBePlies, PLIES_ALLOWED } from "./plausible-fold";
import { refuse, shortened } from "../refusal";

/**
 * How a trade designation is to be read: 2/30 with the ply first, 30/2 with the count first, or 60/2 as spun silk,
 * where the count is that of the finished yarn (TAYLOR: 40's-2 spun silk is two threads of 80's).
 */
export type FoldOrder = "ply/count" | "count/ply" | "silk";

/** "/" parts count and ply, but in direct systems also count and filaments; "x" multiplies. */
export type FoldMark = "/" | "x";

export interface FoldedYarn {
  readonly count: number;
  readonly plies: number;
  /** Is the count that of the finished yarn, not that of its single? */
  readonly isResultant: boolean;
}

/** Which of the numbers is the count; never a guess. Three numbers are folded and cabled: 30/2/3 or 3/2/30. */
export function foldedYarn(
  text: string,
  numbers: readonly number[],
  mark: FoldMark,
  system: CountSystem,
  order?: FoldOrder,
): FoldedYarn {
  const refused = (why: string, advice: string): never => refuse("text", `"${shortened(text)}", ${why}`, advice);
  if (numbers.some((number) => number === 0)) refused("with a 0 in it", "count and ply must be above 0");
  const last = numbers.length - 1;
  const countFirst = numbers.slice(1).every(canBePlies);
  const countLast = numbers.slice(0, last).every(canBePlies);
  // Only cotton count has two ways of folding: elsewhere "silk" leaves a text as open or as plain as it is.
  const isSilk = order === "silk" && system.word === "NeC";
  const named = order === "silk" ? undefined : order;
  const mayBeFilaments = mark === "/" && system.direct;
  let first: boolean;
  if (isSilk) {
    first = countFirst || refused("not written as spun silk", 'order "silk" reads the count first, as 60/2 NeC');
  } else if (mayBeFilaments) {
    first =
      (named ??
        refused("a ply or filaments", `write 30 ${system.word} x 2, or give order "ply/count" or "count/ply"`)) ===
      "count/ply";
  } else if (countFirst !== countLast) {
    // An order settles a doubt; where there is none it has nothing to settle, so one order serves a whole column.
    first = countFirst;
  } else if (countFirst) {
    first =
      (named ?? refused("where each number can be the ply", 'give order "ply/count" or "count/ply"')) === "count/ply";
  } else {
    return refused("where no number can be the ply", PLIES_ALLOWED);
  }
  const folds = first ? numbers.slice(1) : numbers.slice(0, last);
  if (!folds.every(canBePlies)) {
    refused(`${folds.map(String).join("/")} plies by the order given`, `check the order; ${PLIES_ALLOWED}`);
  }
  const plies = folds.reduce((product, fold) => product * fold, 1);
  return { count: numbers[first ? 0 : last] as number, plies, isResultant: isSilk };
}
