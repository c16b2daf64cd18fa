import { quotient, type Ratio } from "../tables/exact";
import { COUNT_SYSTEMS, type CountSystem } from "../tables/count-systems";

const TEX = COUNT_SYSTEMS.find((system) => system.word === "tex") as CountSystem;

/** One exact ratio for every pair of systems, worked out when first asked for. */
const RATIOS: (Ratio | undefined)[] = new Array<Ratio | undefined>(COUNT_SYSTEMS.length ** 2);

function sizeRatio(numerator: CountSystem, denominator: CountSystem): Ratio {
  const place = numerator.index * COUNT_SYSTEMS.length + denominator.index;
  return (RATIOS[place] ??= quotient(numerator.size, denominator.size));
}

/** The count in another system. The ratio of the two sizes is exact, so the result has two roundings at most. */
export function convertCount(value: number, from: CountSystem, to: CountSystem): number {
  const { numerator, denominator } = to.direct ? sizeRatio(from, to) : sizeRatio(to, from);
  return from.direct === to.direct ? (value * numerator) / denominator : numerator / (denominator * value);
}

export function texOf(count: number, system: CountSystem): number {
  return convertCount(count, system, TEX);
}

export function fromTex(tex: number, system: CountSystem): number {
  return convertCount(tex, TEX, system);
}

/** The count of a yarn that weighs `times` as much a metre. A direct count grows with the mass, an indirect one falls. */
export function heavier(count: number, times: number, system: CountSystem): number {
  return system.direct ? count * times : count / times;
}
