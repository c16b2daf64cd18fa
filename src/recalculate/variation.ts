import { figuresOf, type Figures, type Limit, type Run } from "./figures";
import type { Shown } from "./model";
import type { Input } from "./ranges";
import type { Shows } from "./drawing";
import { blockOf, type Plan } from "./sampling";
import type { Setting } from "./vary-tasks";

/** What the runs of a workbook tell of one outcome. */
export interface Told {
  readonly outcome: string;
  readonly now: Shown;
  readonly runs: number;
  /** Nothing where no run gave a number. */
  readonly figures?: Figures;
  readonly sound: readonly Run[];
  readonly failures: readonly Failure[];
}

/** A run that gave no number, and its inputs. */
export interface Failure {
  readonly run: number;
  readonly error: string;
  readonly inputs: readonly number[];
}

/** The figures of every outcome, from all blocks of runs that are there. */
export function toldOf(
  setting: Pick<Setting, "inputs" | "outcomes" | "now" | "reached">,
  plan: Plan,
  shows: Shows,
  limits: ReadonlyMap<number, readonly Limit[]>,
): Told[] {
  const blocks = [...shows].sort(([one], [other]) => one - other);
  const drawn = blocks.map(([block]) => blockOf(plan, block, setting.inputs));
  return setting.outcomes.map(({ called }, place): Told => {
    const sound: Run[] = [];
    const failures: Failure[] = [];
    blocks.forEach(([block, shown], index) => {
      drawn[index]?.forEach((inputs, at) => {
        const value = shown[at]?.[place] as Shown;
        if (typeof value === "number") sound.push({ inputs, value, block });
        else failures.push({ run: block * plan.block + at, error: value.error, inputs });
      });
    });
    const moving = leadersOf(setting.inputs);
    const moves = (leader: number) =>
      (setting.reached[place] ?? []).some((one) => setting.inputs[one]?.follows === leader);
    return {
      outcome: called,
      now: setting.now[place] as Shown,
      runs: sound.length + failures.length,
      ...(sound.length === 0
        ? {}
        : { figures: withAll(figuresOf(sound, moving.filter(moves), limits.get(place)), moving) }),
      sound,
      failures,
    };
  });
}

/** An input that the outcome does not depend on has no part in it, and no chance to seem to have one. */
function withAll(figures: Figures, moving: readonly number[]): Figures {
  const { value: mean } = figures.mean;
  const none = (input: number) => ({ input, value: 0, error: 0, low: mean, high: mean });
  return {
    ...figures,
    parts: moving.map((input) => figures.parts.find((part) => part.input === input) ?? none(input)),
  };
}

/** The inputs that move by themselves; those that move with them are no other source of spread. */
export function leadersOf(inputs: readonly Input[]): number[] {
  return inputs.flatMap(({ follows }, index) => (follows === index ? [index] : []));
}

/** An input and those that move with it, as messages call them. */
export function nameOf(inputs: readonly Input[], leader: number): string {
  const others = inputs.filter(({ follows }, index) => follows === leader && index !== leader);
  return [inputs[leader], ...others].map((input) => input?.place.called ?? "").join(" with ");
}

/** The largest standard error of the mean and the percentiles as a share of the mean, and of the chance as it is. */
export function worstError({ figures }: Told): number {
  if (figures === undefined) return Infinity;
  const { mean, percentiles, chances } = figures;
  const errors = [mean, ...percentiles.values()].map(({ error }) => (error === 0 ? 0 : error / Math.abs(mean.value)));
  return Math.max(...errors, ...chances.map(({ error }) => error));
}
