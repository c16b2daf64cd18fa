import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { COUNT_SYSTEMS } from "../../src/tables/count-systems";
import { MASSES } from "../../src/tables/measures";
import { expectSystem, expectUnit, forgetUnits } from "../../src/sheet/heading-units";
import { dateSerial } from "../../src/sheet/dates";
import { anyNumber, notNegative, positive, regain, share, text } from "../../src/sheet/kinds";
import { countSystem, massUnit } from "../../src/sheet/units";
import { messageOf, sheet } from "../support/functions";

/** What the headings say, one after the other as in one call: the message of the first that is refused. */
function said(...headings: [written: string, key: string, kind?: Parameters<typeof expectUnit>[3]][]): string {
  forgetUnits();
  try {
    for (const [written, key, kind = notNegative] of headings) expectUnit("table", written, key, kind);
    return "";
  } catch (thrown) {
    return (thrown as Error).message;
  }
}

describe("what a heading says its figures are in", () => {
  test.each([
    ["hours", ["Time (min)", "hours (days)", "machine hours [minutes]", "time wks"]],
    ["days", ["Duration (h)", "duration (hrs)", "days (weeks)", "duration Hours"]],
  ])("must be %s, where the column holds them", (key, others) => {
    for (const heading of others) {
      expect(said([heading, key])).toBe(`table is headed "${heading}"; must be in ${key}`);
    }
  });

  test.each([
    [
      "hours",
      ["hours", "HOURS", "machine hours", "time (h)", "time (hrs)", "hours (Hours)", "hours (frame 3)", "time"],
    ],
    ["days", ["days", "working days", "duration (d)", "duration (working days)", "days (see note)", "days (of 8 h)"]],
  ])("may be %s in any spelling, or anything that is no time", (key, own) => {
    for (const heading of own) expect(said([heading, key])).toBe("");
  });

  test("must be grams of packing, and kilograms of lots", () => {
    expect(said(["tare (kg)", "tare"])).toBe('table is headed "tare (kg)"; must be in g');
    expect(said(["net mass (t)", "net"])).toBe('table is headed "net mass (t)"; must be in kg');
    expect(said(["packing (g)", "tare"])).toBe("");
    expect(said(["net (Kg)", "net"])).toBe("");
  });

  test("is no mass above shares, in any unit of mass, and no percent above amounts", () => {
    for (const [word] of MASSES) {
      for (const kind of [share, regain]) {
        expect(said([`loss (${word})`, "loss", kind])).toBe(
          `table is headed "loss (${word})"; must be fractions: 5% or 0.05`,
        );
      }
      expect(said([`mass (${word})`, "mass"])).toBe("");
      expect(said([`stage (${word})`, "stage", text])).toBe("");
    }
    expect(said(["loss (%)", "loss", share])).toBe("");
    expect(said(["share (kg per kg)", "share", share])).toBe("");
    expect(said(["amount (%)", "amount", anyNumber])).toBe('table is headed "amount (%)"; must be amounts');
    // A rate may be charged on the cost so far, as a percentage.
    expect(said(["rate (%)", "rate"])).toBe("");
  });

  test("is for one, not for a hundred; a year and a number are no unit", () => {
    for (const heading of ["rate (per 100)", "price (EUR/100 kg)", "rate (1000 JPY)"]) {
      expect(said([heading, "price", positive])).toContain("must be for one");
    }
    for (const heading of ["rate (2026)", "price (list 12)", "date (of 1999)"]) {
      expect(said([heading, "date", dateSerial])).toBe("");
    }
  });

  test("is one currency and one unit of mass for all headings of a call, whichever comes first", () => {
    const currencies = ["EUR", "USD", "GBP", "AUD"];
    const units = ["g", "kg", "t", "oz", "lb"];
    const some = <T>(of: readonly T[]) => fc.constantFrom(...of);
    fc.assert(
      fc.property(some(currencies), some(currencies), some(units), some(units), (one, other, unit, another) => {
        const message = said([`price (${one}/${unit})`, "price"], [`rate (${other}/${another})`, "rate"]);
        const alike = one === other && unit === another;
        expect(message).toBe(
          alike
            ? ""
            : `table is headed "rate (${other}/${another})"; beside the heading "price (${one}/${unit})"; bring both to one unit`,
        );
      }),
    );
  });

  test("contradicts nothing where two units have their reason", () => {
    // Weighed in one unit and sold in another; a rate of exchange; a price per kg of goods in a currency without a code.
    expect(said(["mass (kg)", "mass"], ["quantity (lb)", "quantity"])).toBe("");
    expect(said(["rate (USD for EUR)", "rate"], ["amount (EUR)", "amount"])).toBe("");
    expect(said(["rate (USD)", "rate"], ["currency rate (EUR)", "currency_rate"])).toBe("");
    expect(said(["price (€)", "price"], ["rate (EUR)", "rate"])).toBe("");
    // Pounds may be money, capitals a recipe, words behind brackets a place.
    expect(said(["price (pounds)", "price"], ["stock (kg)", "stock"])).toBe("");
    expect(said(["price (pound)", "price"], ["stock (kg)", "stock"])).toBe("");
    expect(said(["share (G)", "share", share], ["share (recipe T)", "share", share])).toBe("");
  });

  test("is a unit of mass in capitals too, as headings are written", () => {
    for (const unit of ["KG", "Kg", "LB", "Lbs"]) {
      const other = unit[0] === "K" ? "lb" : "kg";
      expect(said([`price (${unit})`, "price"], [`rate (${other})`, "rate"])).toContain(
        `the heading "price (${unit})"`,
      );
    }
  });

  test("is told again of the next call from nothing", () => {
    expect(said(["price (EUR)", "price"])).toBe("");
    expect(said(["price (USD)", "price"])).toBe("");
    const mixed = '=YARN.VARIANCE({"a (lb)";10},{"b (kg)";9},{8},{7})';
    expect(messageOf(mixed)).toContain("bring both to one unit");
    expect(sheet('=YARN.JOINTCOST(10,{"quantity (kg)";1;1},{"price (EUR/kg)";2;2})')).toEqual([[5], [5]]);
  });
});

describe("a count system above the counts", () => {
  const systems = COUNT_SYSTEMS.filter(({ word }) => !/^[\d(]/.test(word));
  test("is that of the call, under any of its names, or one of the same size", () => {
    const any = fc.constantFrom(...systems);
    fc.assert(
      fc.property(any, any, (own, other) => {
        const message = said([`count (${own.word})`, "count", positive]);
        expect(message).toBe("");
        const same =
          own.direct === other.direct &&
          own.size.numerator * other.size.denominator === other.size.numerator * own.size.denominator;
        const asked = (): void => expectSystem(other);
        if (same) expect(asked).not.toThrow();
        else
          expect(asked).toThrow(
            `system is "${other.word}"; beside the heading "count (${own.word})"; bring both to one unit`,
          );
      }),
    );
  });

  test("is asked of none whose heading says none", () => {
    for (const heading of ["count", "yarn count", "count (lot 3)", "count (of 2026)"]) {
      expect(said([heading, "count", positive])).toBe("");
      expect(() => expectSystem(countSystem("Nm", ""))).not.toThrow();
    }
  });

  test("a lone heading is one where it is nothing else: the name of a recipe is none", () => {
    forgetUnits();
    for (const heading of ["G", "T", "Recipe kg", "Moor", "lot lb"]) {
      expect(() => expectUnit("shares", heading, "share", share, false)).not.toThrow();
    }
    expect(() => expectUnit("shares", "g/l", "share", share, false)).toThrow("must be fractions");
    expect(massUnit("g", "")).toBe(1);
  });
});
