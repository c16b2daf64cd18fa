import { WOOL_GRADES, type WoolGrade } from "../../tables/wool-grades";
import { roundHalfAway } from "../money";

/** The table is written in hundredths of a micron. */
const DECIMALS = 2;

/**
 * US grade of grease wool by average diameter; a deviation above the grade's limit puts the wool one grade coarser.
 * Source: USDA-GRADES (limits and deviations); the drop of one grade and the two coarsest rows are recalled.
 */
export function woolGrade(micron: number, deviation: number | undefined): string {
  const diameter = roundHalfAway(micron, DECIMALS).toNumber();
  let place = WOOL_GRADES.length - 1;
  // The finest grade begins at 0.
  while (diameter < (WOOL_GRADES[place] as WoolGrade).from) place--;
  const { deviation: most } = WOOL_GRADES[place] as WoolGrade;
  const dropped = deviation !== undefined && roundHalfAway(deviation, DECIMALS).toNumber() > most;
  return (WOOL_GRADES[dropped ? place + 1 : place] as WoolGrade).word;
}
