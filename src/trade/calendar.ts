/** The sheet's last day, 31 December 9999. */
export const LAST_DAY = 2958465;

/** The sheet counts a 29 February 1900 that never was, as day 60. */
const DAY_THAT_NEVER_WAS = 60;
const MILLISECONDS_OF_DAY = 86400000;

export function isDay(value: number): boolean {
  return Number.isInteger(value) && value >= 1 && value <= LAST_DAY;
}

/** A day of the sheet as year, month and day, which reads the same in every country: 45352 is 2024-03-01. */
export function dayShown(day: number): string {
  if (day === DAY_THAT_NEVER_WAS) return "1900-02-29";
  const start = Date.UTC(1899, 11, day > DAY_THAT_NEVER_WAS ? 30 : 31);
  return new Date(start + day * MILLISECONDS_OF_DAY).toISOString().slice(0, 10);
}

/** How to write a date whose digits were typed as one number: 20240301 is DATE(2024,3,1). */
export function dateFromDigits(value: number): string | undefined {
  if (!Number.isInteger(value)) return undefined;
  const [year, month, day] = [Math.floor(value / 10000), Math.floor(value / 100) % 100, value % 100];
  const isDate = year >= 1900 && year <= 9999 && month >= 1 && month <= 12 && day >= 1 && day <= 31;
  return isDate ? `DATE(${year},${month},${day})` : undefined;
}
