import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { isDateFormat, shownIn } from "../src/recalculate/number-format";

/**
 * What Excel saved as the value of TEXT(value, format) in workbooks among the test data of Apache POI
 * (test-data/spreadsheet; the file and cell stand on each line). The dates' workbook counts from 1904.
 */
const SAVED = readFileSync("tests/data/number-formats.jsonl", "utf8")
  .trim()
  .split("\n")
  .map(
    (line) => JSON.parse(line) as { format: string; value: number | boolean | string; shown: string; source: string },
  );

describe("number formats", () => {
  test("as Excel saved them", () => {
    expect(SAVED.length).toBeGreaterThan(300);
    const wrong = SAVED.filter(
      ({ format, value, shown, source }) => shownIn(format, value, { date1904: source.startsWith("Date") }) !== shown,
    );
    expect(wrong).toEqual([]);
  });

  // Microsoft Support, "Number format codes" and "Review guidelines for customizing a number format": their examples.
  test.each([
    ["####.#", 1234.59, "1234.6"],
    ["#.000", 8.9, "8.900"],
    ["0.#", 0.631, "0.6"],
    ["#.0#", 12, "12.0"],
    ["#.0#", 1234.568, "1234.57"],
    ["# ???/???", 5.25, "5   1/4  "],
    ["#,###", 12000, "12,000"],
    ["#,", 12000, "12"],
    ["0.0,,", 12200000, "12.2"],
    ["0.00%", 0.0285, "2.85%"],
    ["##0.0E+0", 12200000, "12.2E+6"],
    ["0.00E+00", 12200000, "1.22E+07"],
    ["[h]:mm", 1.04375, "25:03"],
    ["h:mm AM/PM", 0.1668, "4:00 AM"],
    ["dddd", 1, "Sunday"],
    ["mmmmm", 32, "F"],
    ["d-mmm-yy", 60, "29-Feb-00"],
    ["$#,##0.00_);($#,##0.00)", -12.5, "($12.50)"],
    ['$0.00" Surplus";$-0.00" Shortage"', -125.74, "$-125.74 Shortage"],
    ['0;-0;"nought";@" (text)"', 0, "nought"],
    ['0;-0;"nought";@" (text)"', "as it is", "as it is (text)"],
    ["000-00-0000", 123456789, "123-45-6789"],
    ["[$€-407] #,##0", 1234, "€ 1,234"],
    ["0", "a text", "a text"],
    ["0.00", 1.005, "1.01"],
    ["", 5, ""],
  ])("%s of %s is %s", (format, value, shown) => {
    expect(shownIn(format, value)).toBe(shown);
  });

  test("what no calendar holds cannot be shown as a date; every number can be in every other format", () => {
    expect(shownIn("yyyy-mm-dd", -1)).toBeUndefined();
    expect(shownIn("yyyy-mm-dd", 3e6)).toBeUndefined();
    for (const format of ["0.00", "#,##0;(#,##0)", "0%", "# ?/?", "0.00E+00", "General", "[>1]0;General", "[s]"]) {
      for (const value of [0, -0, 1e-300, 1e300, -1e21, 0.1 + 0.2, 123456789.987654321]) {
        expect(shownIn(format, value) ?? "", `${format} of ${value}`).not.toMatch(/NaN|undefined|Infinity/);
      }
    }
  });

  test("dates are told from numbers", () => {
    for (const format of ["yyyy-mm-dd", "h:mm", "[h]:mm", "d. mmmm", "mm/dd/yy;@"])
      expect(isDateFormat(format)).toBe(true);
    for (const format of ["0.00", "General", '0 "days"', "[Red]0", "#,##0.00 \\d", "@", "[$-409]0"]) {
      expect(isDateFormat(format)).toBe(false);
    }
  });
});
