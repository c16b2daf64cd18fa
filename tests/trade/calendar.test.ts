import fc from "fast-check";
import { expect, test } from "vitest";
import { dateFromDigits, dayShown, isDay, LAST_DAY } from "../../src/trade/calendar";

// Source: ECMA-376 part 1, 18.17.4.1: day 1 is 1 January 1900, day 60 the 29 February 1900 that never was, and
// 2958465 is 31 December 9999.
test.each([
  [1, "1900-01-01"],
  [59, "1900-02-28"],
  [60, "1900-02-29"],
  [61, "1900-03-01"],
  [25569, "1970-01-01"],
  [45352, "2024-03-01"],
  [LAST_DAY, "9999-12-31"],
])("day %d of the sheet is %s", (day, date) => expect(dayShown(day)).toBe(date));

test("from March 1900 on, days are counted as everywhere: those since 1970 and 25569", () => {
  fc.assert(
    fc.property(fc.integer({ min: 61, max: LAST_DAY }), (day) => {
      expect(Date.parse(`${dayShown(day)}T00:00:00Z`) / 86400000 + 25569).toBe(day);
    }),
  );
});

test("days are whole numbers from 1 to the last", () => {
  expect([1, LAST_DAY, 0, LAST_DAY + 1, 1.5, -1].map(isDay)).toEqual([true, true, false, false, false, false]);
});

test("digits that read as a date are told as one, others are not", () => {
  expect(dateFromDigits(20240301)).toBe("DATE(2024,3,1)");
  for (const [digits, date] of [
    [19000101, "DATE(1900,1,1)"],
    [20241231, "DATE(2024,12,31)"],
    [99991231, "DATE(9999,12,31)"],
  ] as const)
    expect(dateFromDigits(digits)).toBe(date);
  for (const other of [100000101, 20240015, 20241301, 20240300, 20240132, 18991231, 45352, 20240301.5])
    expect(dateFromDigits(other), String(other)).toBeUndefined();
});
