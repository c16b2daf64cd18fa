import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { YIELD_KINDS, type YieldKind } from "../../../src/tables/yield-kinds";
import { cleanMass, combinedYield } from "../../../src/trade/wool/clean-mass";
import { cleanPrice, greasyPrice } from "../../../src/trade/wool/clean-price";
import { woolYield } from "../../../src/trade/wool/clean-yield";
import { refusalOf } from "../../support/refusals";

const kind = (word: string) => YIELD_KINDS.find((row) => row.word === word) as YieldKind;
/** Bases in hundredths of a percent, as certificates print them, that leave room for each other. */
const bases = fc.tuple(fc.integer({ min: 3000, max: 8500 }), fc.integer({ min: 0, max: 1500 }));

describe("a published certificate (12,000 kg at WB 60.00, VMB 1.0; 14,000 kg at 50.00, 1.5)", () => {
  const first = woolYield(kind("scoured 16"), 0.6, 0.01);
  const second = woolYield(kind("scoured 16"), 0.5, 0.015);

  test("yields print as 72.4 % and 61.1 %", () => {
    expect((first * 100).toFixed(1)).toBe("72.4");
    expect((second * 100).toFixed(1)).toBe("61.1");
  });

  test("masses are 8,688 kg and 8,554 kg, from the printed yield and not from the exact one", () => {
    expect(cleanMass(12000, first, "certificate")).toBe(8688);
    expect(cleanMass(14000, second, "certificate")).toBe(8554);
    expect(Math.round(cleanMass(14000, second, "none"))).toBe(8558);
  });

  test("together they yield 66.3 %, the two printed masses on 26,000 kg", () => {
    expect(combinedYield([12000, 14000], [first, second])).toBeCloseTo((8688 + 8554) / 26000, 15);
    expect((combinedYield([12000, 14000], [first, second]) * 100).toFixed(1)).toBe("66.3");
  });
});

test("scoured yield agrees with exact fractions of whole numbers", () => {
  fc.assert(
    fc.property(bases, fc.constantFrom(16, 17), ([wool, matter], regain) => {
      // (WB + VMB)(1 + R)/0.9773 over 10^4 · 10^2 / 10^4, to 30 digits by whole-number division.
      const numerator = BigInt(wool + matter) * BigInt(100 + regain);
      const exact = Number((numerator * 10n ** 30n) / (9773n * 100n)) / 1e30;
      const got = woolYield(kind(`scoured ${regain}`), wool / 10000, matter / 10000);
      expect(Math.abs(got - exact)).toBeLessThan(4e-16 * 2);
    }),
  );
});

test("bases that leave nothing are no wool", () => {
  expect(refusalOf(() => woolYield(kind("scoured 16"), 0, 0))).toBe(
    "#NUM! wool_base is 0; too little to leave a yield of this kind",
  );
});

test("lots of no mass at all have no yield together", () => {
  expect(() => combinedYield([0, 0], [0.7, 0.6])).toThrow("nets is 0 in all; must not sum to 0");
});

describe("customs clean yield, as 19 CFR 151.61 (b) words it", () => {
  const content = (wool: number) => wool / 0.86;

  test("clean fibre holds 12 % moisture, 1.5 % extractables, 0.5 % ash, so dry fibre is 86 % of it", () => {
    fc.assert(
      fc.property(bases, ([wool, matter]) => {
        const clean = woolYield(kind("clean fibre"), wool / 10000, matter / 10000);
        expect(clean * (1 - 0.12 - 0.015 - 0.005)).toBeCloseTo(wool / 10000, 14);
      }),
    );
  });

  test("below the cap the allowance is 0.5 % of the content and 60 % of the vegetable matter", () => {
    // The cap binds above VM = (0.15 - 0.005)/0.60 of the content.
    const wool = 0.55;
    const matter = 0.1;
    expect(matter).toBeLessThan((0.145 / 0.6) * content(wool));
    expect(woolYield(kind("customs clean"), wool, matter)).toBeCloseTo(content(wool) * 0.995 - 0.06, 14);
  });

  test("above it the allowance stops at 15 % of the content", () => {
    expect(woolYield(kind("customs clean"), 0.5, 0.2)).toBeCloseTo(content(0.5) * 0.85, 14);
    expect(woolYield(kind("customs clean"), 0.5, 0.3)).toBe(woolYield(kind("customs clean"), 0.5, 0.2));
  });

  test("the allowance never passes the cap and never falls with the vegetable matter", () => {
    fc.assert(
      fc.property(bases, ([wool, matter]) => {
        const at = (extra: number) => woolYield(kind("customs clean"), wool / 10000, (matter + extra) / 10000);
        expect(at(0)).toBeGreaterThanOrEqual(content(wool / 10000) * 0.85 - 1e-15);
        expect(at(1)).toBeLessThanOrEqual(at(0));
      }),
    );
  });
});

test("every kind rises with the wool base", () => {
  fc.assert(
    fc.property(bases, fc.constantFrom(...YIELD_KINDS), ([wool, matter], each) => {
      expect(woolYield(each, (wool + 1) / 10000, matter / 10000)).toBeGreaterThan(
        woolYield(each, wool / 10000, matter / 10000),
      );
    }),
  );
});

test("a yield that ends in 5 rounds up though its double lies below (1.005 is less than one and five thousandths)", () => {
  expect(cleanMass(100000, 0.7245, "certificate")).toBe(72500);
  expect(cleanMass(100000, 1.0005, "certificate")).toBe(100100);
  // 0.62307 / 0.86 is 0.7245 exactly.
  expect(cleanMass(100000, woolYield(kind("clean fibre"), 0.62307, 0), "certificate")).toBe(72500);
});

test("a lot combined with itself keeps its rounded yield", () => {
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 1500 }), fc.integer({ min: 1, max: 5 }), (permille, lots) => {
      const nets = new Array<number>(lots).fill(10000);
      expect(combinedYield(nets, new Array<number>(lots).fill(permille / 1000))).toBeCloseTo(permille / 1000, 15);
    }),
  );
});

test("clean and greasy prices undo each other", () => {
  expect(cleanPrice(472, 0.8)).toBe(590);
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 1e6 }), fc.integer({ min: 100, max: 1500 }), (cents, permille) => {
      const price = cents / 100;
      expect(greasyPrice(cleanPrice(price, permille / 1000), permille / 1000)).toBeCloseTo(price, 9);
    }),
  );
});

test("bases that are swapped, burrs beyond any wool, and a wool base typed a hundred times too small are told", () => {
  const told = (wool: number, vegetable: number) => refusalOf(() => woolYield(kind("clean fibre"), wool, vegetable));
  expect(told(0.3, 0.31)).toBe("#VALUE! vm_base is 0.31; above wool_base 0.3; are the two swapped?");
  expect(told(0.5, 0.41)).toBe("#VALUE! vm_base is 0.41; must be 0 to 0.4 (40%); 0.5% is 0.005");
  expect(told(0.0055, 0.0001)).toBe("#VALUE! wool_base is 0.0055; write 55% or 0.55; less than a tenth is no wool lot");
  expect(woolYield(kind("clean fibre"), 0.5, 0.4)).toBeGreaterThan(0);
  expect(woolYield(kind("clean fibre"), 0.1, 0)).toBeGreaterThan(0);
});
