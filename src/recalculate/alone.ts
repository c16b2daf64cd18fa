import type { Shown } from "./model";
import type { Input } from "./ranges";
import { endOf, shareAt, valueAt } from "./shapes";
import { leadersOf } from "./variation";

/** What an outcome shows with one input at its low and at its high and all others as they are. */
export interface Swing {
  /** The place of the input in the list. */
  readonly input: number;
  readonly atLow: Shown;
  readonly atHigh: Shown;
  /** From one to the other; nothing where one of the two is no number. */
  readonly width?: number;
}

/** For every input that moves by itself its low and then its high, with those that move with it. */
export function pointsAlone(inputs: readonly Input[]): number[][] {
  return leadersOf(inputs).flatMap((leader) => [atEnd(inputs, leader, "low"), atEnd(inputs, leader, "high")]);
}

function atEnd(inputs: readonly Input[], leader: number, end: "low" | "high"): number[] {
  const { shape: led } = inputs[leader] as Input;
  return inputs.map(({ shape, follows, now }, index) => {
    if (follows !== leader) return now;
    // Two lists go together value by value; two ranges of any shape have their ends together.
    const byShare = led.kind === "list" || shape.kind === "list";
    return index !== leader && byShare ? valueAt(shape, shareAt(led, end)) : endOf(shape, end);
  });
}

/** The swings of one outcome, the widest first; those without a width come last. */
export function swingsOf(
  inputs: readonly Input[],
  shown: readonly (readonly Shown[])[],
  outcome: number,
): readonly Swing[] {
  const swings = leadersOf(inputs).map((input, place): Swing => {
    const [atLow, atHigh] = [shown[2 * place]?.[outcome] as Shown, shown[2 * place + 1]?.[outcome] as Shown];
    const measured = typeof atLow === "number" && typeof atHigh === "number";
    return { input, atLow, atHigh, ...(measured ? { width: Math.abs(atHigh - atLow) } : {}) };
  });
  return swings.sort((one, other) => (other.width ?? -1) - (one.width ?? -1));
}
