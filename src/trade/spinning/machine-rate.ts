import { asShown } from "../money";
import { impossible } from "../refusal";
import { wholeUp } from "../whole";

/** Kilograms an hour of a machine that delivers so fast: m/min × 60 × tex × 10⁻⁶ a delivery. */
export function machineRate(metresPerMinute: number, tex: number, deliveries: number, efficiency: number): number {
  return metresPerMinute * 60 * tex * 1e-6 * deliveries * efficiency;
}

/** A lot on a spinning or winding machine, in packages taken off together. */
export interface DoffPlan {
  readonly packages: number;
  readonly doffs: number;
  readonly hoursPerDoff: number;
  readonly hours: number;
  /** Ends to be joined for each kilogram: one a package. */
  readonly endsPerKilogram: number;
}

/** More than any lot has: a unit slipped. */
const MOST_PACKAGES = 10_000_000;

/** `rate` in grams a spindle-hour. The last doff takes as long as the others, however few packages it brings. */
export function doffPlan(kilograms: number, spindles: number, packageGrams: number, rate: number): DoffPlan {
  const full = wholeUp(asShown(kilograms).times(1000), packageGrams);
  if (full.gt(MOST_PACKAGES)) impossible("mass_kg", `${full.toString()} packages`, `must be at most ${MOST_PACKAGES}`);
  const packages = full.toNumber();
  const doffs = wholeUp(packages, spindles).toNumber();
  const hoursPerDoff = packageGrams / rate;
  return { packages, doffs, hoursPerDoff, hours: doffs * hoursPerDoff, endsPerKilogram: 1000 / packageGrams };
}
