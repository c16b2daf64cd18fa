import { describe, expect, test } from "vitest";
import { dateSerial, planDate, wholeDays } from "../../src/sheet/dates";
import { refusalOf } from "../support/refusals";

// Serials of the sheet, from the date functions of spreadsheets: 1 March 2026 is 46082, 1 January 1900 is 1.
const refusedDate = (cell: unknown, kind = dateSerial) => refusalOf(() => kind(cell, "from"));

describe("a date of the sheet", () => {
  test("is its serial number, from the first day to the last", () => {
    for (const day of [1, 60, 46_082, 2_958_465]) expect(dateSerial(day, "from")).toBe(day);
    for (const other of [0, -1, 2_958_466, 46_082.5]) {
      expect(refusedDate(other)).toBe(`#VALUE! from is ${other}; must be a date, a whole number from 1 to 2958465`);
    }
  });

  test("as text is answered with how to write it", () => {
    expect(refusedDate("2026-03-01")).toBe(
      '#VALUE! from is text "2026-03-01"; must be a date of the sheet: write DATE(2026,3,1)',
    );
  });

  test("typed as its digits is answered with the date they mean", () => {
    expect(refusedDate(20_260_301)).toBe("#VALUE! from is 20260301; write DATE(2026,3,1)");
    // Of a thirteenth month nothing is meant.
    expect(refusedDate(20_261_301)).toContain("must be a date, a whole number");
    expect(refusedDate(true)).toContain("must be a date, a whole number");
  });
});

describe("the date of something to be done", () => {
  test("may be no number that is a day of a year or a year alone", () => {
    for (const day of [367, 1949, 2101, 46_082]) expect(planDate(day, "start")).toBe(day);
    // 31 December 1900, 2 May 1905 and 29 September 1905 by the sheet's count, in which 1900 has a 29 February.
    const parts = { 366: "1900-12-31", 1950: "1905-05-03", 2100: "1905-09-30" };
    for (const [day, shown] of Object.entries(parts)) {
      expect(refusedDate(Number(day), planDate)).toBe(
        `#VALUE! from is ${day}, the date ${shown}; write one as DATE(2026,3,1)`,
      );
    }
    for (const part of [1, 31, 2026]) expect(refusedDate(part, planDate)).toContain("write one as DATE(2026,3,1)");
  });
});

test("days are counted whole, from none", () => {
  for (const days of [0, 1, 45]) expect(wholeDays(days, "days")).toBe(days);
  for (const other of [-1, 1.5]) {
    expect(refusedDate(other, wholeDays)).toBe(`#VALUE! from is ${other}; must be a whole number of days, 0 or more`);
  }
});
