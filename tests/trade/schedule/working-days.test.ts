import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { LAST_DAY } from "../../../src/trade/calendar";
import { WorkingDays } from "../../../src/trade/schedule/working-days";
import { refusalOf } from "../../support/refusals";

/** Friday, 1 March 2024. */
const FRIDAY = 45352;
const weekday = (day: number) => new Date((day - 25569) * 86400000).getUTCDay();

describe("days that are worked", () => {
  test("by the calendar: from a Friday on, with the Monday after it a holiday", () => {
    const days = new WorkingDays(FRIDAY, "working", 1, [FRIDAY + 3]);
    expect([1, 2, 3].map((number) => days.day(number) - FRIDAY)).toEqual([0, 4, 5]);
    const back = new WorkingDays(FRIDAY + 2, "working", -1, []);
    expect([1, 2, 6].map((number) => back.day(number) - FRIDAY)).toEqual([0, -1, -7]);
  });

  test("are Monday to Friday, no holidays, in order and without a gap", () => {
    const holidays = fc.array(fc.integer({ min: 45300, max: 45500 }), { maxLength: 30 });
    fc.assert(
      fc.property(
        fc.integer({ min: 45300, max: 45500 }),
        fc.constantFrom(1 as const, -1 as const),
        holidays,
        (date, step, off) => {
          const days = new WorkingDays(date, "working", step, off);
          const expected: number[] = [];
          for (let day = date; expected.length < 25; day += step)
            if (weekday(day) % 6 !== 0 && !off.includes(day)) expected.push(day);
          expect(expected.map((_, index) => days.day(index + 1))).toEqual(expected);
        },
      ),
    );
  });

  test("every day counts by the calendar", () => {
    expect(new WorkingDays(FRIDAY, "calendar", 1, [FRIDAY]).day(4)).toBe(FRIDAY + 3);
  });

  test("the sheet's first and last day are days, the last one a Friday", () => {
    expect(new WorkingDays(LAST_DAY, "calendar", 1, []).day(1)).toBe(LAST_DAY);
    expect(new WorkingDays(LAST_DAY, "working", 1, []).day(1)).toBe(LAST_DAY);
    expect(new WorkingDays(1, "calendar", -1, []).day(1)).toBe(1);
    expect(refusalOf(() => new WorkingDays(LAST_DAY, "working", 1, [LAST_DAY]))).toBe(
      "#NUM! date is too near the end of the sheet's days; the plan must lie between 1900 and 9999",
    );
  });

  test("a plan beyond the sheet's days has none", () => {
    expect(refusalOf(() => new WorkingDays(LAST_DAY, "calendar", 1, []).day(2))).toMatch(
      /^#NUM! date is too near the end/,
    );
    expect(refusalOf(() => new WorkingDays(1, "working", -1, []))).toMatch(/^#NUM! date is too near the end/);
  });
});
