import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { blendRegain } from "../../../src/trade/condition/blend-regain";

const regains = fc.integer({ min: 0, max: 10000 }).map((count) => count / 10000);

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
