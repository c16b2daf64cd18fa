import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { blendRegain } from "../../../src/trade/condition/blend-regain";
import { conditionedMass, dryMass, invoiceMass } from "../../../src/trade/condition/conditioned-mass";
import { labelShares } from "../../../src/trade/condition/label-composition";
import { measuredRegain, moistureOfRegain, regainOfMoisture } from "../../../src/trade/condition/regain";
import { refusalOf } from "../../support/refusals";

const regains = fc.integer({ min: 0, max: 10000 }).map((count) => count / 10000);
const masses = fc.integer({ min: 1, max: 10000000 }).map((count) => count / 1000);

describe("moisture and regain", () => {
  test("12 % moisture is a regain of 3/22, and 13.04 % moisture is the 15 % of a dry-spun yarn (ASTM D2118)", () => {
    expect(regainOfMoisture(0.12)).toBeCloseTo(3 / 22, 15);
    expect(regainOfMoisture(0.1304)).toBeCloseTo(0.15, 4);
  });

  test("undo each other, and moisture is the smaller", () => {
    fc.assert(
      fc.property(regains, (regain) => {
        const moisture = moistureOfRegain(regain);
        expect(regainOfMoisture(moisture)).toBeCloseTo(regain, 14);
        expect(moisture).toBeLessThanOrEqual(regain);
      }),
    );
  });
});

describe("masses at a regain", () => {
  test("drying and measuring agree", () => {
    fc.assert(
      fc.property(masses, regains, (mass, regain) => {
        expect(measuredRegain(mass, dryMass(mass, regain))).toBeCloseTo(regain, 12);
      }),
    );
  });

  test("a sample that loses nothing in drying held no water, and none can gain", () => {
    expect(measuredRegain(438.6, 438.6)).toBe(0);
    expect(() => measuredRegain(438.6, 438.7)).toThrow("dry_mass is 438.7; cannot exceed mass 438.6");
  });

  test("conditioning keeps the dry mass, and back again gives the mass", () => {
    fc.assert(
      fc.property(masses, regains, regains, (mass, now, standard) => {
        const conditioned = conditionedMass(mass, now, standard);
        expect(dryMass(conditioned, standard) / dryMass(mass, now)).toBeCloseTo(1, 13);
        expect(conditionedMass(conditioned, standard, now) / mass).toBeCloseTo(1, 13);
      }),
    );
  });

  test("agrees with whole numbers: mass·(1+Rs)/(1+Rn) over thousandths and ten-thousandths", () => {
    fc.assert(
      fc.property(masses, regains, regains, (mass, now, standard) => {
        const whole = (value: number, scale: number) => BigInt(Math.round(value * scale));
        const numerator = whole(mass, 1000) * (10000n + whole(standard, 10000));
        const exact = Number((numerator * 10n ** 25n) / (10000n + whole(now, 10000))) / 1e28;
        expect(conditionedMass(mass, now, standard) / exact).toBeCloseTo(1, 14);
      }),
    );
  });

  test("the invoice mass is the delivery at the standard regain, and finish adds on dry mass", () => {
    // GB 9994: 500 g dried to 438.6 g, standard regain 17 %.
    expect(invoiceMass(1000, 500, 438.6, 0.17, 0)).toBe(1026.324);
    // A sample without moisture weighs the same dry; more cannot be.
    expect(invoiceMass(1000, 500, 500, 0.17, 0)).toBe(1170);
    expect(() => invoiceMass(1000, 500, 500.1, 0.17, 0)).toThrow("sample_dry is 500.1; cannot exceed sample 500");
    expect(invoiceMass(1000, 500, 438.6, 0.17, 0.03)).toBeCloseTo(1026.324 + 0.03 * 877.2, 12);
    fc.assert(
      fc.property(masses, regains, regains, (net, now, standard) => {
        const sampleDry = dryMass(500, now);
        expect(invoiceMass(net, 500, sampleDry, standard, 0) / conditionedMass(net, now, standard)).toBeCloseTo(1, 12);
      }),
    );
  });
});

describe("regain of a blend", () => {
  /** Two to five components: parts of dry mass and their regains. */
  const blend = fc.array(fc.tuple(fc.integer({ min: 1, max: 1000 }), regains), { minLength: 2, maxLength: 5 });

  test("is the water over the dry mass, whichever shares describe the same blend", () => {
    fc.assert(
      fc.property(blend, (parts) => {
        const dry = parts.map(([part]) => part);
        const waters = parts.map(([, regain]) => regain);
        const moist = parts.map(([part, regain]) => part * (1 + regain));
        const total = (list: number[]) => list.reduce((sum, value) => sum + value, 0);
        const truth = total(moist) / total(dry) - 1;
        expect(
          blendRegain(
            dry.map((part) => part / total(dry)),
            waters,
            "dry",
          ),
        ).toBeCloseTo(truth, 12);
        expect(
          blendRegain(
            moist.map((part) => part / total(moist)),
            waters,
            "label",
          ),
        ).toBeCloseTo(truth, 12);
      }),
    );
  });

  test("on the same figures the label basis gives the lower regain", () => {
    expect(blendRegain([0.75, 0.25], [0.1825, 0.0625], "label")).toBeLessThan(
      blendRegain([0.75, 0.25], [0.1825, 0.0625], "dry"),
    );
  });
});

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
