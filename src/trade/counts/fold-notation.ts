import type { CountSystem } from "../../tables/count-systems";
import { quoted } from "./designation-words";
import { refuse } from "../refusal";

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

/**
 * A number that can be a ply at all: whole, 1 to 12. Common practice, no source: thicker folds are not written with a
 * stroke. 10/12 and 8/8 have two such numbers and are refused without an order.
 */
const MOST_PLIES = 12;

/** Which of the numbers is the count; never a guess. Three numbers are folded and cabled: 30/2/3 or 3/2/30. */
export function foldedYarn(
  text: string,
  numbers: readonly number[],
  mark: FoldMark,
  system: CountSystem,
  order?: FoldOrder,
): FoldedYarn {
  const refused = (why: string, advice: string): never => refuse("text", `"${quoted(text)}", ${why}`, advice);
  if (numbers.some((number) => number === 0)) refused("with a 0 in it", "count and ply must be above 0");
  if (mark === "/" && system.direct && order !== "ply/count" && order !== "count/ply") {
    refused("a ply or filaments", `write 30 ${system.word} x 2, or give order "ply/count" or "count/ply"`);
  }
  if (order === "silk" && system.word !== "NeC") refused("not cotton count", 'order "silk" reads NeC, as 60/2 NeC');
  const last = numbers.length - 1;
  const countFirst = numbers.slice(1).every(canBePly);
  const countLast = numbers.slice(0, last).every(canBePly);
  if (order === undefined && countFirst === countLast) {
    refused(
      countFirst ? "where each number can be the ply" : "where no number can be the ply",
      'give order "ply/count" or "count/ply"',
    );
  }
  const first = order === undefined ? countFirst : order !== "ply/count";
  const folds = first ? numbers.slice(1) : numbers.slice(0, last);
  const plies = folds.reduce((product, fold) => product * fold, 1);
  // An order settles a doubt; it does not make thirty plies of 2/30.
  if ((first ? countLast && !countFirst : countFirst && !countLast) || !folds.every(Number.isInteger)) {
    refused(`${folds.map(String).join("/")} plies by the order given`, "check the order");
  }
  return { count: numbers[first ? 0 : last] as number, plies, isResultant: order === "silk" };
}

function canBePly(number: number): boolean {
  return Number.isInteger(number) && number <= MOST_PLIES;
}
