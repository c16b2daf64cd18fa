import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { COUNT_SYSTEMS, type CountSystem } from "../../../src/tables/count-systems";
import { TWIST_CONVENTIONS } from "../../../src/tables/twist-conventions";
import { fromTex, texOf } from "../../../src/trade/counts/counts";
import { convertFactor, twistFactor, twistForFactor } from "../../../src/trade/spinning/twist-factor";
import { turnsPerMetre } from "../../../src/trade/spinning/twist-units";
import { anyConvention, anySystem, anyTwistUnit, between } from "../../support/spinning";
import { expectClose } from "../../support/closeness";

describe("twist factors", () => {
  test("there are the eight conventions of the trade", () => {
    expect(TWIST_CONVENTIONS.map(({ word }) => word)).toEqual([
      "metric",
      "tex tpcm",
      "tex tpm",
      "cotton",
      "worsted",
      "run",
      "YSW",
      "Galashiels",
    ]);
  });

  test("a factor gives back the twist it came from", () => {
    fc.assert(
      fc.property(
        between(1, 3000),
        anyTwistUnit,
        between(1, 200),
        anySystem,
        anyConvention,
        (twist, unit, count, system, convention) => {
          const factor = twistFactor(twist, unit, count, system, convention);
          expectClose(twistForFactor(factor, convention, count, system, unit), twist, 1e-14);
        },
      ),
    );
  });

  test("a converted factor is the factor under the other convention, whatever the yarn", () => {
    fc.assert(
      fc.property(
        between(1, 3000),
        anyTwistUnit,
        between(1, 200),
        anySystem,
        anyConvention,
        anyConvention,
        (twist, unit, count, system, from, to) => {
          const factor = twistFactor(twist, unit, count, system, from);
          expectClose(convertFactor(factor, from, to), twistFactor(twist, unit, count, system, to), 1e-14);
        },
      ),
    );
  });

  test("equal factors are equal twist × √tex, so the finer yarn is twisted by the root of its fineness", () => {
    const nm = COUNT_SYSTEMS.find(({ word }) => word === "Nm") as CountSystem;
    fc.assert(
      fc.property(between(1, 200), anyConvention, between(1, 100), anyTwistUnit, (factor, convention, count, unit) => {
        const coarse = twistForFactor(factor, convention, count, nm, unit);
        expectClose(twistForFactor(factor, convention, 4 * count, nm, unit), 2 * coarse, 1e-14);
        const tex = texOf(count, nm);
        const other = twistForFactor(factor, convention, fromTex(tex, convention.system), convention.system, unit);
        expectClose(turnsPerMetre(other, unit) * Math.sqrt(tex), turnsPerMetre(coarse, unit) * Math.sqrt(tex), 1e-14);
      }),
    );
  });
});
