import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { COUNT_SYSTEMS, type CountSystem } from "../../../src/tables/count-systems";
import { draftChangeWheel, twistChangeWheel, wheelConstant } from "../../../src/trade/spinning/change-wheel";

const system = (word: string) => COUNT_SYSTEMS.find((one) => one.word === word) as CountSystem;
const count = fc.integer({ min: 5, max: 200 });

describe("change wheels", () => {
  // By hand, from what the wheels do: a driver of the back rollers goes with the weight, of the front ones with its root.
  test("from 20 to 30 Nm a draft wheel of 60 teeth becomes 40; from 25 to 36 Nm a twist wheel of 60 becomes 50", () => {
    expect(draftChangeWheel(60, 20, 30, system("Nm"))).toBe(40);
    expect(draftChangeWheel(40, 20, 30, system("tex"))).toBe(60);
    expect(twistChangeWheel(60, 25, 36, system("Nm"))).toBeCloseTo(50, 12);
  });

  test("there and back is the wheel that was on", () => {
    fc.assert(
      fc.property(count, count, fc.constantFrom(...COUNT_SYSTEMS), (now, wanted, own) => {
        for (const wheel of [draftChangeWheel, twistChangeWheel])
          expect(wheel(wheel(45, now, wanted, own), wanted, now, own)).toBeCloseTo(45, 10);
      }),
    );
  });

  test("the constant is what a wheel of one tooth makes: value × teeth of a driver, value over teeth of a driven wheel", () => {
    expect(wheelConstant(24, 50, "draft")).toBe(1200);
    expect(wheelConstant(500, 40, "twist")).toBe(20000);
    expect(wheelConstant(500, 40, "driven")).toBe(12.5);
  });
});
