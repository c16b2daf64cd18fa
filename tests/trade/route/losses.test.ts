import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { LossChain, yieldThrough } from "../../../src/trade/route/losses";
import { refusalOf } from "../../support/refusals";

const losses = fc.array(
  fc.integer({ min: -20, max: 60 }).map((percent) => percent / 100),
  { maxLength: 6 },
);

describe("through losses in process order", () => {
  test("by hand: 10 % and 20 % leave 0.72 of the input; on the output 1/(1.1 × 1.2)", () => {
    expect(yieldThrough([0.1, 0.2], "input").toNumber()).toBe(0.72);
    expect(yieldThrough([0.1, 0.2], "output").toNumber()).toBeCloseTo(1 / 1.32, 15);
  });

  test("what is made of what is needed is what was wanted, on either basis", () => {
    fc.assert(
      fc.property(
        losses,
        fc.constantFrom("input" as const, "output" as const),
        fc.integer({ min: 1, max: 99999 }),
        (list, basis, wanted) => {
          const chain = new LossChain(list);
          expect(chain.made(chain.needed(wanted, basis).toNumber(), basis).toNumber()).toBeCloseTo(wanted, 8);
        },
      ),
    );
  });

  test("the same loss is w of the input and w/(1 - w) of the output", () => {
    fc.assert(
      fc.property(losses, (list) => {
        const onOutput = list.map((loss) => loss / (1 - loss));
        expect(yieldThrough(onOutput, "output").toNumber()).toBeCloseTo(yieldThrough(list, "input").toNumber(), 12);
      }),
    );
  });

  test("minus everything is no loss on the output", () => {
    expect(refusalOf(() => yieldThrough([0.1, -1], "output"))).toMatch(
      /^#VALUE! losses.* is -1; a loss on the output must be above -1$/,
    );
  });
});
