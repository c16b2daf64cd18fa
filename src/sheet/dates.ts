import { dateFromDigits, isDay, LAST_DAY } from "../trade/calendar";
import { refuse } from "../trade/refusal";
import { numberThat, type Kind } from "./kinds";

const daySerial = numberThat(`must be a date, a whole number from 1 to ${LAST_DAY}`, isDay);

/** A date as the sheet's serial number; one whose digits were typed as a number is answered with how to write it. */
export const dateSerial: Kind<number> = (cell, argument) => {
  const written = typeof cell === "number" && !isDay(cell) ? dateFromDigits(cell) : undefined;
  return written === undefined ? daySerial(cell, argument) : refuse(argument, String(cell), `write ${written}`);
};

export const wholeDays = numberThat(
  "must be a whole number of days, 0 or more",
  (value) => Number.isInteger(value) && value >= 0,
);
