import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { weighUp } from "../../../src/trade/blending/lay-down";
import { sum, type Decimal } from "../../../src/trade/money";

const shares = fc
  .array(fc.integer({ min: 50, max: 1000 }), { minLength: 1, maxLength: 8 })
  .map((parts) => {
    const total = parts.reduce((sum, part) => sum + part, 0);
    const cut = parts.map((part) => Math.floor((part * 1000) / total));
    (cut[0] as number) += 1000 - cut.reduce((sum, part) => sum + part, 0);
    return cut.map((part) => part / 1000);
  })
  .filter((parts) => parts.every((part) => part > 0));
const batch = fc.integer({ min: 200000, max: 2000000 }).map((grams) => grams / 1000);
const sections = fc.integer({ min: 1, max: 6 });
const step = fc.constantFrom(0.05, 0.1, 0.2, 0.25);
const regain = fc.integer({ min: 0, max: 20 }).map((percent) => percent / 100);
const lots = fc.record({ shares, batch, sections, step, regains: fc.array(regain, { minLength: 8, maxLength: 8 }) });
const total = (masses: readonly Decimal[]) => sum(masses);

describe("a weigh-up", () => {
  test("is in whole steps, every section alike, and its totals foot exactly", () => {
    fc.assert(
      fc.property(lots, (lot) => {
        const up = weighUp(lot.batch, lot.shares, lot.sections, lot.step, lot.regains.slice(0, lot.shares.length));
        for (const { perSection, inAll } of up.components) {
          expect(perSection.div(lot.step).eq(perSection.div(lot.step).floor())).toBe(true);
          expect(inAll.eq(perSection.times(lot.sections))).toBe(true);
        }
        expect(total(up.components.map(({ perSection }) => perSection)).eq(up.total.perSection)).toBe(true);
        expect(total(up.components.map(({ inAll }) => inAll)).eq(up.total.inAll)).toBe(true);
        expect(total(up.components.map(({ carry }) => carry)).eq(up.total.carry)).toBe(true);
        const realised = up.components.reduce((sum, { realisedShare }) => sum + realisedShare, 0);
        expect(realised).toBeCloseTo(1, 12);
      }),
      { numRuns: 1000 },
    );
  });

  test("is off by less than a step a section for each component and half a step for the section", () => {
    fc.assert(
      fc.property(lots, (lot) => {
        const own = lot.regains.slice(0, lot.shares.length);
        const up = weighUp(lot.batch, lot.shares, lot.sections, lot.step, own);
        up.components.forEach(({ perSection }, index) => {
          const wanted = ((lot.shares[index] as number) * lot.batch * (1 + (own[index] as number))) / lot.sections;
          expect(Math.abs(perSection.toNumber() - wanted)).toBeLessThan(lot.step * 1.5);
        });
        expect(Math.abs(up.total.carry.toNumber())).toBeLessThanOrEqual((lot.sections * lot.step) / 2 + 1e-9);
      }),
      { numRuns: 1000 },
    );
  });

  test("with regains holds the dry mass that was asked for, in the shares that were asked for", () => {
    // On a fine scale what is weighed is what is wanted: shares of the dry mass, water on top.
    const own = [0.16, 0.12, 0.18];
    const up = weighUp(500, [0.5, 0.3, 0.2], 2, 1e-6, own);
    const dry = up.components.map(({ inAll }, index) => inAll.toNumber() / (1 + (own[index] as number)));
    expect(dry.reduce((sum, mass) => sum + mass, 0)).toBeCloseTo(500, 4);
    [0.5, 0.3, 0.2].forEach((share, index) => {
      expect((dry[index] as number) / 500).toBeCloseTo(share, 7);
      expect(up.components[index]?.realisedShare).toBeCloseTo(share, 7);
    });
    expect(up.total.inAll.toNumber()).toBeCloseTo(250 * 1.16 + 150 * 1.12 + 100 * 1.18, 4);
  });
});
