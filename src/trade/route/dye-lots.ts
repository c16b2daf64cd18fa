import { asShown, Decimal } from "../money";
import { refuse } from "../refusal";
import { wholeUp } from "../whole";

/** Equal lots: how many, the mass of each, and by how much that passes an equal part of the mass wanted. */
export interface DyeLots {
  readonly lots: number;
  readonly lotMass: Decimal;
  readonly lotSurplus: Decimal;
}

/** More lots than a sheet of instructions can hold: a unit slipped. */
const MOST_LOTS = 10000;

/** The fewest equal lots within the capacity; each raised to the minimum when it would fall below it. */
export function dyeLots(mass: number, capacity: number, minimum: number): DyeLots {
  if (asShown(minimum).gt(asShown(capacity)))
    refuse("minimum", String(minimum), `must not pass capacity, which is ${capacity}`);
  const lots = wholeUp(mass, capacity);
  if (lots.gt(MOST_LOTS)) refuse("mass", `${lots.toString()} lots`, `must need at most ${MOST_LOTS}; check the units`);
  const equal = new Decimal(mass).div(lots);
  const lotMass = Decimal.max(equal, minimum);
  return { lots: lots.toNumber(), lotMass, lotSurplus: lotMass.minus(equal) };
}
