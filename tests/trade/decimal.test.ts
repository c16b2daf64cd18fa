import { Decimal as Package } from "decimal.js";
import fc from "fast-check";
import { describe, expect, test, vi } from "vitest";
import { type Amount, Decimal, decimal, isOrdinary, quotient, shownNumber } from "../../src/trade/decimal";
import { Digits as OwnDigits } from "../../src/trade/digits";

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

type Both = readonly [ours: Decimal, theirs: Package];
const MODES = [
  [Decimal.ROUND_UP, Package.ROUND_UP],
  [Decimal.ROUND_DOWN, Package.ROUND_DOWN],
  [Decimal.ROUND_HALF_UP, Package.ROUND_HALF_UP],
  [Decimal.ROUND_HALF_EVEN, Package.ROUND_HALF_EVEN],
] as const;

const of = (value: number | string): Both => [new Decimal(value), new Digits(value)];
const over = ([a, b]: Both, [c, d]: Both): Both => [a.div(c), b.div(d)];
const times = ([a, b]: Both, [c, d]: Both): Both => [a.times(c), b.times(d)];
const plus = ([a, b]: Both, [c, d]: Both): Both => [a.plus(c), b.plus(d)];
const minus = ([a, b]: Both, [c, d]: Both): Both => [a.minus(c), b.minus(d)];

/** The same double, the same sign and the same forty digits. */
function expectSame([ours, theirs]: Both, what = ""): void {
  const written = ours.toFixed();
  const same =
    ours.isZero() === theirs.isZero() &&
    ours.isNegative() === theirs.lt(0) &&
    ours.toNumber() === theirs.toNumber() &&
    Number(ours) === theirs.toNumber() &&
    ours.eq(new Decimal(theirs.toString())) &&
    theirs.eq(ours.toString()) &&
    theirs.eq(written) &&
    written.indexOf("e") < 0;
  if (!same) expect(`${what} ${written}, ${ours.toNumber()}`).toBe(`${theirs.toString()}`);
}

/** And so for whatever is asked of it. */
function expectSameRounded(both: Both): void {
  const [ours, theirs] = both;
  expectSame([ours.floor(), theirs.floor()], "floor");
  expectSame([ours.ceil(), theirs.ceil()], "ceil");
  expectSame([ours.abs(), theirs.abs()], "abs");
  expectSame([ours.negated(), theirs.negated()], "negated");
  for (const [own, other] of MODES) {
    for (const decimals of [0, 1, 2, 5, 9, 15, 18, 21]) {
      expectSame(
        [ours.toDecimalPlaces(decimals, own), theirs.toDecimalPlaces(decimals, other)],
        `to ${decimals}, ${other}`,
      );
    }
    for (const tens of [1, 2, 3]) {
      expectSame([ours.toDecimalPlaces(-tens, own), theirs.toNearest(10 ** tens, other)], `to tens ${tens}, ${other}`);
    }
  }
  for (const digits of [1, 2, 7, 14, 15, 16, 17, 25, 30]) {
    expectSame([ours.toSignificantDigits(digits), theirs.toSignificantDigits(digits)], `digits ${digits}`);
  }
  expectSame(both);
}

/** Ends of short decimals, of whole doubles, of what is split, of doubles; ties; what is read from words. */
const PLAIN = [
  ...[0, 1, -1, 2, 0.1, -0.25, 0.3, 0.1 + 0.2, 2.5, -3.5, 0.05, 12345, -67890, 1234.5678, 99.99995, 1e-9, 3e-7, 1e-7],
  ...[9.9e-8, 123456789.123456, 999999999999999, 1e15, 1e15 + 2, 999999999999999.9, 2 ** 53 - 1, 2 ** 53, 2 ** 53 + 2],
  ...[90071992547409.91, 1 / 3, -2 / 7, Math.PI * 1e9, 1.15 * 3, 1e22, 1.5e23, 7e-130, -3e130, 5e-324, 1e300],
  ...["0.1000000000000000055511151231257827", "1.000000000000000111022302462515654042363", "-12.5", "1e-400"],
  ...[
    9.999999999999998, 99.99999999999999, 99999999.99999999, 10.000000000000002, 1000.0000000000001, 99999999999999.88,
    1.234567e-6,
  ],
  ...["9007199254740993", "0.99999999999999999999999999999999999999", "123456789012345.5", "2.5000000000000000000001"],
] as const;

describe("beside decimal.js of forty digits", () => {
  const plain = PLAIN.map(of);
  /** What two doubles do not tell from something else: thirds that make a whole less one in the last digit. */
  const crooked: Both[] = [];
  for (const a of [1, 2, 5, 10, 0.7, -4, 1e6 + 0.5])
    for (const b of [3, 7, 9, 11, 13, 0.7, 1.1]) crooked.push(times(over(of(a), of(b)), of(b)));

  test("every figure is itself", () => {
    for (const both of plain) expectSameRounded(both);
  });

  test("a quotient times its divisor is near the whole, and every rounding sees on which side", () => {
    for (const both of crooked) expectSameRounded(both);
    for (const both of crooked.slice(0, 20)) {
      expectSameRounded(plus(both, of(0.5)));
      expectSameRounded(minus(both, of(0.005)));
      expectSameRounded(times(both, of(1.5e-7)));
    }
  });

  test("what is left when a quotient is taken from itself has its sign", () => {
    for (const a of [1, 2, 5, 22, 1000.1]) {
      for (const b of [3, 7, 9, 11, 13, 17, 1.9, 0.23]) {
        const [whole, part] = [of(a), over(of(a), of(b))];
        expectSame(minus(times(part, of(b)), whole), "back");
        expectSame(minus(whole, times(part, of(b))), "back from the whole");
        expectSame(minus(times(part, over(of(b), whole)), of(1)), "times its inverse");
        expectSame(minus(over(of(1), over(of(b), whole)), part), "the inverse of the inverse");
        for (const by of [b, 1e-9, 1e9 + 7]) {
          expectSame(minus(times(of(by), part), over(of(a * by), of(b))), "times, the other way");
          expectSame(minus(over(part, of(by)), over(whole, times(of(b), of(by)))), "over twice");
          expectSame(minus(over(of(by), part), over(of(by * b), whole)), "something over it");
        }
        expectSame(minus(plus(plus(part, part), part), over(of(3 * a), of(b))), "three times");
        expectSame(times(minus(times(part, of(b)), whole), part), "times what is left");
        expectSame(over(of(1), plus(minus(times(part, of(b)), whole), of(1e-35))), "over what is left");
      }
    }
  });

  test("the nearest double is told where the digits end beside the middle of two", () => {
    const Exact = Package.clone({ precision: 60 });
    // Half a last bit above a double, and below 1 where the last bit is half as much, has more than forty digits.
    const middles = Array.from({ length: 60 }, (_, index) => Exact.add(1 + (((index + 1) * 7919) % 4099) / 4096, Exact.pow(2, -53))); // prettier-ignore
    middles.push(
      Exact.sub(1, Exact.pow(2, -54)),
      Exact.sub(4, Exact.pow(2, -52)),
      Exact.sub(-2, Exact.pow(2, -53).neg()),
    );
    for (const middle of middles) {
      // What is kept lies below or above it.
      for (const way of [Package.ROUND_DOWN, Package.ROUND_UP] as const) {
        const written = middle.toSignificantDigits(40, way).toString();
        const near = of(written);
        for (const by of [3, 7]) {
          expectSame(times(over(near, of(by)), of(by)));
          expectSame(minus(plus(near, of(by)), of(by)));
          expectSame(over(times(near, of(by)), of(by)));
        }
        expectSame(near);
      }
    }
  });

  test("each figure with each: sums, products, quotients, order", () => {
    const some = [...plain, ...crooked.slice(0, 8), ...crooked.slice(0, 6).map((one) => minus(one, of(1)))];
    const wrong: string[] = [];
    let asked = 0;
    for (const one of some) {
      for (const other of some) {
        const [[a, b], [c, d]] = [one, other];
        const order = b.cmp(d);
        const told = [a.cmp(c), a.eq(c), a.gt(c), a.gte(c), a.lt(c), a.lte(c), Decimal.max(a, c), Decimal.min(a, c)];
        const wanted = [order, order === 0, order > 0, order >= 0, order < 0, order <= 0, order < 0 ? c : a, order > 0 ? c : a]; // prettier-ignore
        if (!told.every((one, place) => one === wanted[place])) wrong.push(`${b.toString()} and ${d.toString()}`);
        if (asked++ % 7 > 0) continue;
        for (const both of [plus(one, other), minus(one, other)]) expectSame(both, "sum");
        if (Math.abs(b.e + d.e) < 300) expectSame(times(one, other), "product");
        if (!d.isZero() && Math.abs(b.e - d.e) < 300) expectSame(over(one, other), "quotient");
      }
    }
    expect(wrong).toEqual([]);
    // More decimals than powers are kept, and products and quotients from where doubles end.
    expectSame(times(of(1.234567e-6), of(1.234567e-6)));
    const eighth = times(of(0.0001), of(0.0001));
    expectSame(times(times(eighth, eighth), eighth));
    for (const a of [1, 1.1, -1.7, 2.3, 3.9, 7.7]) {
      expectSame(times(times(times(of(a * 1e-170), of(1.3e-150)), of(1e200)), of(1e130)));
      expectSame(times(times(times(of(1e-170), of(a * 1e-160)), of(1e200)), of(1e150)));
      expectSame(times(times(over(over(of(a), of(7e170)), of(1e160)), of(1e200)), of(1e150)));
    }
    // Into where doubles end and back, by factors and by divisors that two doubles hold.
    for (const step of [times, over]) {
      let [there, back] = [over(of(1), of(3)), of(0)];
      const [down, up] = step === times ? [of(1.1e-6), of(9.1e5)] : [of(9.1e5), of(1.1e-6)];
      for (let index = 0; index < 60; index++) there = step(there, down);
      expectSame(minus(there, times(there, of(0.3))));
      back = there;
      for (let index = 0; index < 60; index++) {
        back = step(back, up);
        expectSame(back);
      }
    }
    expect(new Decimal(1e200).times(1e200).floor().toFixed()).toHaveLength(401);
    expectSame(times(of(1e-170), of(-1e-160)));
    expectSame(over(of(1e-170), of(1e160)));
    expectSame(minus(times(of(1.1e-160), of(1.3e-150)), of(1.43e-310)));
    let [ours, theirs] = of(0);
    for (let index = 1; index <= 300; index++) {
      ours = ours.plus((index * 1.1825) / 7).minus((index * 0.3) / 53);
      theirs = theirs.plus((index * 1.1825) / 7).minus((index * 0.3) / 53);
    }
    expectSame([ours, theirs]);
    // 2^53 + 1 is no double; three times a third of it rounds down to 2^53.
    expectSame(minus(plus(of(2 ** 53), of(1)), of(2 ** 53)));
    expectSame(minus(times(of(3002399751580331), of(3)), of(2 ** 53)));
    expectSame(minus(plus(of(900719925474099.1), of(0.2)), of(0.2)));
    expectSame(minus(plus(of(8e15), of(1007199254740993)), of(1)));
    expect(Decimal.max(0.1, 2).toNumber()).toBe(2);
    expect(Decimal.min(new Decimal(3), 2).toNumber()).toBe(2);
  });
});

describe("short decimals are added up in whole units", () => {
  const told = (...values: Amount[]) => {
    const others: Amount[] = [];
    const found = Decimal.sumOfShort(values, others);
    return { sum: found === undefined ? undefined : Number(found), others };
  };
  const nothing = { sum: undefined, others: [] };

  test("to the exact sum, others put aside, or not at all", () => {
    const figures = fc.oneof(short, fc.constantFrom(9e14, 0.123456789, 1e-9, 2 ** 52, -(2 ** 52), 1e-10, 1 / 3));
    fc.assert(
      fc.property(fc.array(figures, { maxLength: 6 }), (values) => {
        const others: Amount[] = [];
        const found = Decimal.sumOfShort(values, others);
        if (values.every((value) => Math.abs(value) < 1e6)) expect(found).toBeDefined();
        const exact = (added: readonly Amount[]) => added.reduce<Package>((all, value) => all.plus(Number(value)), new Digits(0)); // prettier-ignore
        if (found !== undefined) expectSame([decimal(found), exact(values).minus(exact(others))]);
        for (const other of others) expect([1e-10, 1 / 3].indexOf(Number(other)) >= 0 || Math.abs(Number(other)) >= 1e6).toBe(true); // prettier-ignore
      }),
      { numRuns: 500 },
    );
    expect(Decimal.sumOfShort([], [])).toBe(0);
    expect(Decimal.sumOfShort([0.1, 0.2, 0.3], [])).toBe(0.6);
    expect(told(5, 0.25, 1e-9, -0.25).sum).toBe(5.000000001);
    expect(told(new Decimal(0.25), 3, new Decimal("0.125"), new Decimal(7)).sum).toBe(10.375);
  });

  test("what has more decimals or digits than are summed is put aside", () => {
    const third = new Decimal(1).div(3);
    for (const other of [1e-10, 1e15, new Decimal(1e15), third]) expect(told(1, other, 2)).toEqual({ sum: 3, others: [other] }); // prettier-ignore
    for (const all of [1e15 - 1, new Decimal(1e15 - 1)]) expect(told(all)).toEqual({ sum: 1e15 - 1, others: [] });
  });

  test("not where the sum has more digits than whole doubles", () => {
    expect(told(9e14, 0.001)).toEqual(nothing);
    const large = new Array<number>(9).fill(1e15 - 1);
    // 2^53 is 9,007,199,254,740,992.
    expect(told(...large, 7199254741000).sum).toBe(2 ** 53 - 1);
    expect(told(...large, 7199254741001)).toEqual(nothing);
    expect(told(...large, 7199254741002, -5)).toEqual(nothing);
    expect(Decimal.sumOfShort([1e15 - 1, 1], [])).toEqual(new Decimal(1e15));
  });
});

test("beside a tie it is the side that counts, at a tie it is away from nothing", () => {
  // One unit of the last decimal below, where there are more than whole doubles hold.
  const below = times(of(1.23456789012346), of(7.4));
  expect(below[1].toString()).toBe("9.135802386913604");
  expectSame([below[0].toSignificantDigits(15), below[1].toSignificantDigits(15)]);
  for (const written of ["1.0000000000000000005", "-1.0000000000000000005", "-2.4999999999999999995"]) {
    const [ours, theirs] = of(written);
    expectSame([ours.toDecimalPlaces(18), theirs.toDecimalPlaces(18)]);
    const [third, other] = times(over([ours, theirs], of(3)), of(3));
    expectSame([third.toDecimalPlaces(18), other.toDecimalPlaces(18)]);
  }
});

test("short decimals stay short, and nothing is no step", () => {
  const price = new Decimal(4.35);
  expect(price.plus(0.15).unitsAt(2)).toBe(450);
  expect(price.plus(0.125).unitsAt(3)).toBe(4475);
  expect(new Decimal(0.125).minus(price).unitsAt(3)).toBe(-4225);
  expect(price.minus(4.35).unitsAt(2)).toBe(0);
  expect(price.times(0.2).unitsAt(4)).toBe(8700);
  expect(price.times(0.2).unitsAt(2)).toBeNaN();
  for (const same of [price.plus(0), price.minus(0), price.toDecimalPlaces(2), price.toSignificantDigits(15)]) expect(same).toBe(price); // prettier-ignore
  const third = new Decimal(1).div(3);
  expect(third.plus(0)).toBe(third);
  expect(new Decimal(0.1234567).unitsAt(15)).toBe(123456700000000);
  // In a list they are plain numbers, as long as fifteen digits hold them.
  expect([price, new Decimal(1e15 - 1)].map((one) => one.plain())).toEqual([4.35, 1e15 - 1]);
  for (const long of [third, new Decimal(1e15)]) expect(long.plain()).toBe(long);
  for (const zero of [third.times(0), new Decimal(0).times(third), new Decimal(0).div(third)]) expect(zero.unitsAt(0)).toBe(0); // prettier-ignore
  // Nothing has no sign.
  expect(shownNumber(-0)).toBe(0);
  for (const zero of [new Decimal(-0), new Decimal(-0.4).toDecimalPlaces(0), new Decimal(-0.04).toDecimalPlaces(1)]) expect(zero.toNumber()).toBe(0); // prettier-ignore
});

test("a quotient is the nearest double", () => {
  for (const value of PLAIN) {
    for (const by of PLAIN) {
      const [[one, b], [two, d]] = [of(value), of(by)];
      if (d.isZero() || Math.abs(b.e - d.e) > 300) continue;
      const wanted = b.div(d).toNumber();
      for (const [dividend, divisor] of [
        [value, by],
        [one, two],
      ] as const) {
        const found = quotient(
          typeof dividend === "string" ? one : dividend,
          typeof divisor === "string" ? two : divisor,
        );
        if (found + 0 !== wanted + 0) expect(`${value} over ${by}: ${found}`).toBe(`${wanted}`);
      }
    }
  }
  expect(quotient(0.3, 0.1)).toBe(3);
});

test("a figure is shown in fifteen digits, as its cell shows it", () => {
  for (const value of PLAIN) {
    const [ours, theirs] = of(value);
    expectSame([Decimal.shown(ours), theirs.toSignificantDigits(15)]);
    if (typeof value !== "number") continue;
    expectSame([Decimal.shown(value), new Digits(value.toPrecision(15))]);
    const shown = shownNumber(value);
    expect(shown === undefined).toBe(!isOrdinary(value) && value !== 0);
    if (shown !== undefined) expect(shown).toBe(Number(value.toPrecision(15)));
  }
  // What would be rounded beyond the end of doubles stays.
  expect(Decimal.shown(Number.MAX_VALUE).toNumber()).toBe(Number.MAX_VALUE);
  expect([1e119, 1e-119, -1, 1e121, 1e-121, 0, Infinity, NaN].map(isOrdinary)).toEqual([
    ...[true, true, true, false, false, false, false, false],
  ]);
});

test("no value leads back for ever", () => {
  let [ours, theirs] = of(1);
  const third = new Decimal(1).div(3);
  for (let step = 0; step < 9000; step++) {
    ours = step % 3 === 0 ? ours.plus(third) : step % 3 === 1 ? third.plus(ours) : ours.toSignificantDigits(30);
    if (step < 600) theirs = step % 3 === 2 ? theirs.toSignificantDigits(30) : theirs.plus(new Digits(1).div(3));
    if (step === 599) expectSame([ours, theirs]);
  }
  expect(ours.toFixed()).toMatch(/^2001\./);
});

describe("forty digits are worked out only where two doubles do not decide", () => {
  /** How many figures were worked out in digits. */
  function worked(out: () => void): number {
    const digits = vi.spyOn(OwnDigits, "of");
    out();
    const count = digits.mock.calls.length;
    digits.mockRestore();
    return count;
  }

  /** Masses and prices as typed, and with the traces of sums, products and quotients of doubles; no ties. */
  const figures: number[] = [];
  for (let index = 1; index <= 40; index++) {
    const typed = ((index * 7919) % 1000003) / 10 ** (index % 6);
    figures.push(typed, -typed, typed * 1.1825, typed + 0.1 + 0.2);
    if (!/\.\d*5$/.test(String(typed / 53))) figures.push(typed / 53);
  }
  const price = new Decimal(4.35);
  const crooked = new Decimal(17).div(47);

  function ask(one: Decimal, decimals: number): void {
    expect(one.isZero()).toBe(false);
    for (const asked of [one, one.floor(), one.ceil(), one.abs(), one.toDecimalPlaces(20)]) asked.toNumber();
    for (let places = 0; places <= decimals; places++) {
      if (Math.abs(one.toNumber()) * 10 ** places < 1e15) one.toDecimalPlaces(places).toNumber();
    }
    for (const digits of [15, 25]) one.toSignificantDigits(digits).plus(1).toNumber();
    one.toDecimalPlaces(20).minus(1).lt(3);
    for (const other of [7, crooked]) one.cmp(other);
  }

  test("none for figures as they are typed or come, whatever is asked of them", () => {
    const asked = (): void => {
      for (const figure of figures) {
        const one = new Decimal(figure);
        const [product, difference] = [one.times(crooked), crooked.minus(figure)];
        for (const value of [one, one.times(price), product, one.div(53), one.plus(crooked), one.minus(0.001), difference]) ask(value, 14); // prettier-ignore
        ask(one.div(crooked).times(price), -1);
        Decimal.shown(figure).toNumber();
        shownNumber(figure);
      }
    };
    expect(worked(asked)).toBe(0);
  });

  test("none for short decimals in any mode, up to the end of whole doubles", () => {
    expect(
      worked(() => {
        for (const [mode] of MODES) {
          for (const units of [12345, -12345, 25, -35, 2 ** 53 - 1]) {
            const one = new Decimal(units).times(0.01);
            for (let decimals = -3; decimals <= 3; decimals++) one.toDecimalPlaces(decimals, mode).toNumber();
          }
        }
        expect(new Decimal(94906265).times(94906265).plus(0).floor().toNumber()).toBe(94906265 ** 2);
        expect(new Decimal(45035996273704.95).plus(45035996273704.96).toDecimalPlaces(1).toNumber()).toBe(
          90071992547409.9,
        );
        expect(new Decimal(450359962737049.5).plus(450359962737049).floor().toNumber()).toBe(900719925474098);
      }),
    ).toBe(0);
  });

  test("none for nothing, for equals, for long sums, nor behind what was worked out", () => {
    const [written, third] = [new Decimal("0.12345678901234567890123"), new Decimal(1).div(3)];
    const asked = (): void => {
      const none = [new Decimal(0), price.minus(4.35), third.times(0)];
      expect(none.every((zero) => zero.isZero() && !zero.isNegative() && zero.toNumber() === 0)).toBe(true);
      expect(third.minus(third).plus(1).toNumber()).toBe(1);
      expect(price.cmp(4.35)).toBe(0);
      expect(price.eq(new Decimal(8.7).times(0.5))).toBe(true);
      expect(written.plus(1).times(3).toNumber()).toBeCloseTo(3.3703703670370371, 14);
      let total = new Decimal(0);
      for (let index = 1; index <= 600; index++) total = total.plus(index * 1.1825 + 0.1 + 0.2);
      expect(total.toNumber()).toBeCloseTo(213384.75, 8);
      expect(price.plus(0.65).floor().plus(price.plus(0.65).ceil()).toNumber()).toBe(10);
      expect(new Decimal(99999999999999.88).toSignificantDigits(15).toNumber()).toBe(99999999999999.9);
      expect([quotient(0.3, 0.1), quotient(1, new Decimal(0.5)), quotient(3e-9, 4)]).toEqual([3, 2, 7.5e-10]);
    };
    expect(worked(asked)).toBe(0);
  });

  test("and then for all that lead to it", () => {
    // A third of three is less than one by what the fortieth digit leaves.
    expect(worked(() => new Decimal(1).div(3).times(3).floor())).toBeGreaterThan(0);
    expect(worked(() => new Decimal(1).div(3).times(3).cmp(1))).toBeGreaterThan(0);
  });
});
