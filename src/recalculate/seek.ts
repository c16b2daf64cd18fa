import type { Shown } from "./model";

/** A value of the input and what the outcome shows with it. */
export interface Tried {
  readonly input: number;
  readonly outcome: Shown;
}

/** What a search found between the two ends of where it looked. */
export type Sought =
  /** Every value between from and to gives the wanted outcome, as near as it comes; they are one where nothing is rounded. */
  | { readonly kind: "met"; readonly from: Tried; readonly to: Tried; readonly bracket: Bracket }
  /** Between two values that touch each other the outcome passes over what is wanted. */
  | { readonly kind: "passed over"; readonly below: Tried; readonly above: Tried; readonly bracket: Bracket }
  | { readonly kind: "several"; readonly brackets: readonly Bracket[] }
  /** The least and the most that the outcome shows, where it shows numbers at all. */
  | { readonly kind: "none"; readonly least?: Tried; readonly most?: Tried; readonly failed: readonly Tried[] }
  | { readonly kind: "broken"; readonly at: Tried; readonly bracket: Bracket };

/** Two values of the input between which the outcome passes what is wanted. */
export type Bracket = readonly [Tried, Tried];

export const STEPS = 64;
/** So near is met: the outcome may be rounded somewhere on its way. */
const NEAR = 1e-6;
/** So near is equal: the last digits are the computer's. */
const EQUAL = 1e-13;
/** So near are two values of the input that nobody types apart. */
const SAME = 1e-10;

/** Looks in equal steps for where the outcome passes what is wanted, and halves the one step in which it does. */
export function sought(outcomeAt: (input: number) => Shown, from: number, to: number, wanted: number): Sought {
  const tried = Array.from({ length: STEPS + 1 }, (_, step): Tried => {
    const input = step === STEPS ? to : from + ((to - from) * step) / STEPS;
    return { input, outcome: outcomeAt(input) };
  });
  const side = ({ outcome }: Tried) => sideOf(outcome, wanted);
  const brackets = bracketsIn(tried, side);
  if (brackets.length === 0) return nothing(tried);
  if (brackets.length > 1) return { kind: "several", brackets };
  const bracket = brackets[0] as Bracket;
  const [left, right] = bracket;
  const at = (input: number): Tried => ({ input, outcome: outcomeAt(input) });
  // From the left to where it is no longer as at the left end, from the right to where it is no longer as there.
  const asAt = (end: Tried) => (one: Tried) => side(one) === side(end);
  const [before, met] = side(left) === 0 ? [left, left] : halved(at, left, right, asAt(left));
  const passed = side(met) === side(right);
  const [after, stillMet] = passed ? [met, before] : halved(at, right, before, asAt(right));
  const broken = [met, stillMet].find((one) => Number.isNaN(side(one)));
  if (broken !== undefined) return { kind: "broken", at: broken, bracket };
  if (side(met) === 0 && side(stillMet) === 0) {
    const middle = at((met.input + stillMet.input) / 2);
    const one = Math.abs(stillMet.input - met.input) <= SAME * Math.abs(middle.input);
    return { kind: "met", from: one ? middle : met, to: one ? middle : stillMet, bracket };
  }
  const distance = ({ outcome }: Tried) => Math.abs((outcome as number) - wanted);
  const nearest = distance(before) < distance(after) ? before : after;
  if (distance(nearest) <= NEAR * Math.max(Math.abs(wanted), spreadOf(tried))) {
    return { kind: "met", from: nearest, to: nearest, bracket };
  }
  return { kind: "passed over", below: before, above: after, bracket };
}

/** -1, 0 or 1; no number where there is no outcome. */
function sideOf(outcome: Shown, wanted: number): number {
  if (typeof outcome !== "number") return NaN;
  return Math.abs(outcome - wanted) <= EQUAL * Math.abs(wanted) ? 0 : Math.sign(outcome - wanted);
}

function bracketsIn(tried: readonly Tried[], side: (one: Tried) => number): Bracket[] {
  const found: Bracket[] = [];
  for (let place = 0; place < tried.length; place++) {
    const one = tried[place] as Tried;
    const next = tried[place + 1];
    if (side(one) === 0) {
      const start = place;
      while (place + 1 < tried.length && side(tried[place + 1] as Tried) === 0) place++;
      found.push([beside(tried, start, -1, side), beside(tried, place, 1, side)]);
    } else if (next !== undefined && side(one) * side(next) < 0) found.push([one, next]);
  }
  return found;
}

/** The neighbour, where it shows a number. */
function beside(tried: readonly Tried[], place: number, step: 1 | -1, side: (one: Tried) => number): Tried {
  const next = tried[place + step];
  return next === undefined || Number.isNaN(side(next)) ? (tried[place] as Tried) : next;
}

/** Halves until the two touch: the last value that is as the start, and the first that is not. */
function halved(
  at: (input: number) => Tried,
  start: Tried,
  end: Tried,
  asStart: (one: Tried) => boolean,
): [Tried, Tried] {
  let [same, other] = [start, end];
  for (;;) {
    const middle = same.input + (other.input - same.input) / 2;
    const width = Math.abs(other.input - same.input);
    if (middle === same.input || middle === other.input || width <= EQUAL * Math.abs(middle)) return [same, other];
    const one = at(middle);
    if (asStart(one)) same = one;
    else other = one;
    if (typeof one.outcome !== "number") return [same, one];
  }
}

function nothing(tried: readonly Tried[]): Sought {
  const numbers = tried.filter(({ outcome }) => typeof outcome === "number");
  const failed = tried.filter(({ outcome }) => typeof outcome !== "number");
  const by = [...numbers].sort((one, other) => (one.outcome as number) - (other.outcome as number));
  const [least, most] = [by[0], by[by.length - 1]];
  return least === undefined || most === undefined ? { kind: "none", failed } : { kind: "none", least, most, failed };
}

function spreadOf(tried: readonly Tried[]): number {
  const numbers = tried.flatMap(({ outcome }) => (typeof outcome === "number" ? [outcome] : []));
  return Math.max(...numbers) - Math.min(...numbers);
}
