import { Decimal as Package } from "decimal.js";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { Decimal, shownNumber } from "../../src/trade/decimal";

const Digits = Package.clone({ defaults: true, precision: 40 });

/** Short decimals, sums and products of them with their binary traces, quotients, and any double at all. */
const short = fc
  .tuple(fc.integer({ min: -9999999, max: 9999999 }), fc.integer({ min: 0, max: 7 }))
  .map(([units, places]) => Number(`${units}e-${places}`));
const figure = fc.oneof(
  short,
  fc.tuple(short, short).map(([a, b]) => a * b),
  fc.tuple(short, short).map(([a, b]) => a + b),
  fc.tuple(short, fc.integer({ min: 1, max: 999 })).map(([a, b]) => a / b),
  fc.tuple(fc.integer({ min: 1, max: 999999999999999 }), fc.integer({ min: -30, max: 30 })).map(([a, b]) => Number(`${a}5e${b}`)),
  fc.double({ noNaN: true, noDefaultInfinity: true }),
); // prettier-ignore
const step = fc.tuple(
  fc.constantFrom("plus", "minus", "times", "div", "round", "digits", "cut", "floor", "ceil", "shown"),
  figure,
  fc.integer({ min: 0, max: 6 }),
);

/** The same steps in decimal.js 10.6 with forty digits, which is no part of the library. */
function both(start: number, steps: readonly (readonly [string, number, number])[]): [Decimal, Package] {
  let ours = new Decimal(start);
  let theirs = new Digits(start);
  for (const [what, by, places] of steps) {
    if (what === "plus") [ours, theirs] = [ours.plus(by), theirs.plus(by)];
    else if (what === "minus") [ours, theirs] = [ours.minus(by), theirs.minus(by)];
    else if (what === "times") [ours, theirs] = [ours.times(by), theirs.times(by)];
    else if (what === "div") [ours, theirs] = [ours.div(by === 0 ? 3 : by), theirs.div(by === 0 ? 3 : by)];
    else if (what === "round") [ours, theirs] = [ours.toDecimalPlaces(places), theirs.toDecimalPlaces(places)];
    else if (what === "cut") [ours, theirs] = [ours.toDecimalPlaces(16 + places), theirs.toDecimalPlaces(16 + places)];
    else if (what === "digits") [ours, theirs] = [ours.toSignificantDigits(30), theirs.toSignificantDigits(30)];
    else if (what === "shown") [ours, theirs] = [ours.toSignificantDigits(15), theirs.toSignificantDigits(15)];
    else if (what === "floor") [ours, theirs] = [ours.floor(), theirs.floor()];
    else [ours, theirs] = [ours.ceil(), theirs.ceil()];
  }
  return [ours, theirs];
}

const same = (a: number, b: number): boolean => a === b || (Number.isNaN(a) && Number.isNaN(b));

describe("a decimal worked out in two doubles", () => {
  test("is decimal.js's to the last bit, whatever is done to it", () => {
    fc.assert(
      fc.property(figure, fc.array(step, { maxLength: 7 }), (start, steps) => {
        const [ours, theirs] = both(start, steps);
        expect(same(ours.toNumber(), theirs.toNumber() + 0), `${ours.toNumber()} ${theirs.toNumber()}`).toBe(true);
        expect(ours.isZero()).toBe(theirs.isZero());
        expect(ours.isNegative()).toBe(theirs.lt(0));
      }),
      { numRuns: 20_000 },
    );
  }, 600000);
});

test("what a cell shows of a double is its fifteen digits, as the language writes them", () => {
  let [asked, told] = [0, 0];
  fc.assert(
    fc.property(figure, (value) => {
      const shown = shownNumber(value);
      asked++;
      if (shown === undefined) return;
      told++;
      expect(shown).toBe(Number(value.toPrecision(15)) + 0);
    }),
    { numRuns: 5000 },
  );
  expect(told).toBeGreaterThan(asked / 5);
});

// Of a product with two decimals more than a cell shows, every fourth is a tie.
test("a tie is one as decimal.js has it, and is known without working digits out", () => {
  let ties = 0;
  for (let row = 0; row < 2000; row++) {
    const mass = Number((100.5 - row * 1.005e-7).toFixed(9));
    for (const [factor, sign] of [
      [1.1825, 1],
      [1.0125, -1],
      [2.5e-3, 1],
    ] as const) {
      const [ours, theirs] = [new Decimal(factor).times(sign * mass), new Digits(factor).times(sign * mass)];
      const wanted = theirs.toSignificantDigits(15);
      if (theirs.minus(wanted).abs().div(theirs.abs()).gt(4e-16)) ties++;
      const shown = ours.toSignificantDigits(15);
      expect(shown.toNumber()).toBe(wanted.toNumber());
      expect(shown.minus(wanted.toNumber()).isZero()).toBe(true);
    }
  }
  expect(ties).toBeGreaterThan(500);
});

test("nothing divided by something is nothing", () => {
  expect(new Decimal(0).div(new Decimal(7)).isZero()).toBe(true);
  expect(new Decimal(1).minus(1).div(new Decimal(1).div(3)).toNumber()).toBe(0);
  expect(() => new Decimal(0).div(0).toNumber()).toThrow("beyond what a cell can hold");
});
