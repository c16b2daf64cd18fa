import { quotient } from "../../tables/exact";
import { COUNT_SYSTEMS, type CountSystem } from "../../tables/count-systems";

const TEX = COUNT_SYSTEMS.find((system) => system.word === "tex") as CountSystem;

/** How a count in one system becomes one in another: by the exact ratio of the two sizes. */
interface Conversion {
  readonly sameKind: boolean;
  readonly numerator: number;
  readonly denominator: number;
}

/** One for every pair of systems, worked out when first asked for. */
const CONVERSIONS: (Conversion | undefined)[][] = COUNT_SYSTEMS.map(() => []);

function conversion(from: CountSystem, to: CountSystem): Conversion {
  const { numerator, denominator } = to.direct ? quotient(from.size, to.size) : quotient(to.size, from.size);
  return { sameKind: from.direct === to.direct, numerator, denominator };
}

/** The count in another system. The ratio of the two sizes is exact, so the result has two roundings at most. */
export function convertCount(value: number, from: CountSystem, to: CountSystem): number {
  const conversions = CONVERSIONS[from.index] as (Conversion | undefined)[];
  const by = (conversions[to.index] ??= conversion(from, to));
  return by.sameKind ? (value * by.numerator) / by.denominator : by.numerator / (by.denominator * value);
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
