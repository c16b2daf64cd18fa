import { asShown, Decimal } from "../money";
import { proportion } from "../proportion";
import { dividedByZero, refuse } from "../refusal";

/** One cost element (material, conversion …) of a process in a period. "Done" is a share, 0 to 1. */
export interface ProcessPeriod {
  readonly openingUnits: number;
  readonly openingDone: number;
  readonly completedUnits: number;
  readonly closingUnits: number;
  readonly closingDone: number;
  readonly openingCost: number;
  readonly addedCost: number;
}

export interface EquivalentUnits {
  readonly units: Decimal;
  /** Not rounded: nothing may be extended from a rounded unit cost. */
  readonly costPerUnit: Decimal;
  /** Completed and closing sum to opening and added exactly. */
  readonly completedCost: Decimal;
  readonly closingCost: Decimal;
}

export type ProcessMethod = "average" | "fifo";

export function equivalentUnits(method: ProcessMethod, period: ProcessPeriod): EquivalentUnits {
  const { openingUnits, openingDone, completedUnits, closingUnits, closingDone, openingCost, addedCost } = period;
  const closing = new Decimal(closingUnits).times(closingDone);
  const throughout = closing.plus(completedUnits);
  const cost = new Decimal(openingCost).plus(addedCost);
  if (method === "average") return shared(throughout, closing, cost, cost);
  if (asShown(completedUnits).lt(asShown(openingUnits))) {
    refuse("completed_units", String(completedUnits), `by fifo the opening ${openingUnits} are completed first`);
  }
  // The opening stock keeps its cost; this period's work is spread over this period's cost only.
  const units = throughout.minus(new Decimal(openingUnits).times(openingDone));
  return shared(units, closing, new Decimal(addedCost), cost);
}

function shared(units: Decimal, closing: Decimal, spread: Decimal, cost: Decimal): EquivalentUnits {
  if (units.isZero()) dividedByZero("the number of equivalent units", "0", "there is nothing to bear the cost");
  const closingCost = proportion(spread, closing, units);
  return { units, costPerUnit: spread.div(units), completedCost: cost.minus(closingCost), closingCost };
}
