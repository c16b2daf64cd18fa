import { Decimal } from "../money";
import { proportion } from "../proportion";
import { dividedByZero } from "../refusal";

/** A period's fixed overheads: what was planned, what was spent, and the hours that the output should have taken. */
export interface OverheadPeriod {
  readonly budgetCost: number;
  readonly budgetHours: number;
  readonly actualCost: number;
  readonly actualHours: number;
  readonly standardHours: number;
}

/** Money; above 0 is favourable. volume = efficiency + capacity and total = expenditure + volume, exactly. */
export interface OverheadVariances {
  readonly expenditure: Decimal;
  readonly efficiency: Decimal;
  readonly capacity: Decimal;
  readonly volume: Decimal;
  readonly total: Decimal;
}

/** Variances of fixed overheads that are charged to the output at budget cost over budget hours. */
export function overheadVariances(period: OverheadPeriod): OverheadVariances {
  const { budgetCost, budgetHours, actualCost, actualHours, standardHours } = period;
  if (budgetHours === 0) dividedByZero("budget_hours", "0", "must be above 0");
  const charged = (hours: Decimal) => proportion(new Decimal(budgetCost), hours, new Decimal(budgetHours));
  const expenditure = new Decimal(budgetCost).minus(actualCost);
  const volume = charged(new Decimal(standardHours).minus(budgetHours));
  const efficiency = charged(new Decimal(standardHours).minus(actualHours));
  // As the remainder it makes the two add up exactly; by itself it is (actual hours - budget hours) × the rate.
  return { expenditure, efficiency, capacity: volume.minus(efficiency), volume, total: expenditure.plus(volume) };
}
