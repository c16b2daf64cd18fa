import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { labelShares } from "../../../src/trade/condition/label-composition";
import { refusalOf } from "../../support/refusals";

const regains = fc.integer({ min: 0, max: 10000 }).map((count) => count / 10000);

const masses = fc.integer({ min: 1, max: 10000000 }).map((count) => count / 1000);

describe("label composition", () => {
  test("the example of Annex VIII: carded wool 10.3, polyamide 50, unbleached cotton 39.7 with 4 % loss", () => {
    const shares = labelShares([10.3, 50, 39.7], [0.17, 0.0625, 0.085], [0, 0, 0.04], undefined);
    expect(shares.map((share) => Number((share * 100).toFixed(2)))).toEqual([10.97, 48.37, 40.66]);
    expect(labelShares([10.3, 50, 39.7], [0.17, 0.0625, 0.085], [0, 0, 0.04], 1)).toEqual([0.11, 0.484, 0.406]);
  });

  test("foots to 100 % at any number of decimals, each share within one unit of the exact one", () => {
    const analysis = fc.array(fc.tuple(masses, regains), { minLength: 1, maxLength: 8 });
    fc.assert(
      fc.property(analysis, fc.integer({ min: 0, max: 3 }), (parts, decimals) => {
        const dry = parts.map(([mass]) => mass);
        const allowances = parts.map(([, regain]) => regain);
        const exact = labelShares(dry, allowances, undefined, undefined);
        const shares = labelShares(dry, allowances, undefined, decimals);
        const unit = 10 ** -(decimals + 2);
        expect(shares.reduce((sum, share) => sum + Math.round(share / unit), 0)).toBe(Math.round(1 / unit));
        shares.forEach((share, index) =>
          expect(Math.abs(share - (exact[index] as number))).toBeLessThan(unit * 1.0000001),
        );
      }),
    );
  });

  test("nothing found is no composition", () => {
    expect(refusalOf(() => labelShares([0, 0], [0.17, 0.085], undefined, 1))).toBe(
      "#DIV/0! dry_masses is 0 in all; must not sum to 0",
    );
  });

  test("equal allowances leave the shares of dry mass", () => {
    fc.assert(
      fc.property(fc.array(masses, { minLength: 2, maxLength: 6 }), regains, (dry, allowance) => {
        const total = dry.reduce((sum, mass) => sum + mass, 0);
        const shares = labelShares(
          dry,
          dry.map(() => allowance),
          undefined,
          undefined,
        );
        shares.forEach((share, index) => expect(share).toBeCloseTo((dry[index] as number) / total, 12));
      }),
    );
  });
});
