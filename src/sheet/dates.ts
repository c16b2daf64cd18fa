import { dateFromDigits, dayShown, isDay, LAST_DAY } from "../trade/calendar";
import { refuse } from "../trade/refusal";
import { shown } from "./cells";
import { wholeThat, type Kind } from "./kinds";

const daySerial = wholeThat(`must be a date, a whole number from 1 to ${LAST_DAY}`, isDay);

/** A date as the sheet's serial number; one whose digits were typed as a number is answered with how to write it. */
export const dateSerial: Kind<number> = (cell, argument) => {
  if (typeof cell === "string") refuse(argument, shown(cell), "must be a date of the sheet: write DATE(2026,3,1)");
  const written = typeof cell === "number" && !isDay(cell) ? dateFromDigits(cell) : undefined;
  return written === undefined ? daySerial(cell, argument) : refuse(argument, String(cell), `write ${written}`);
};

/** The date of something to be done: a day of the month or a year alone is a date in 1900 or 1905. */
export const planDate: Kind<number> = (cell, argument) => {
  const day = dateSerial(cell, argument);
  const isPart = day <= 366 || (day >= 1950 && day <= 2100);
  return isPart ? refuse(argument, `${day}, the date ${dayShown(day)}`, "write one as DATE(2026,3,1)") : day;
};

export const wholeDays = wholeThat("must be a whole number of days, 0 or more", (value) => value >= 0);
