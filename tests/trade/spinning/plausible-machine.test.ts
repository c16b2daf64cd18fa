import { describe, expect, test } from "vitest";
import * as machine from "../../../src/trade/spinning/plausible-machine";
import { refusalOf } from "../../support/refusals";

/** What machines of the trade do, common practice without a source, and the same figures in another unit. */
describe("figures that machines have", () => {
  test.each([
    ["a card's swift of 1.5 m", () => machine.expectRoll("diameter", 1.5), () => machine.expectRoll("diameter", 1500)],
    [
      "a spindle at 12,000 rpm",
      () => machine.expectSpindle("speed", "12000", 12000),
      () => machine.expectSpindle("speed", "12e6", 12e6),
    ],
    [
      "front rollers at 18 m/min",
      () => machine.expectFed("delivery", "18", 18),
      () => machine.expectFed("delivery", "18000", 18000),
    ],
    [
      "a gill at 300 m/min",
      () => machine.expectDelivery("delivery", 300),
      () => machine.expectDelivery("delivery", 300000),
    ],
    ["25 g a spindle-hour", () => machine.expectRate(25), () => machine.expectRate(0.025)],
    [
      "a wheel of 47 teeth",
      () => machine.expectTeeth("wheel", "47", 47),
      () => machine.expectTeeth("wheel", "0.47", 0.47),
    ],
    [
      "a draft of 22",
      () => machine.expectRollerDraft("draft", "22", 22),
      () => machine.expectRollerDraft("draft", "0.05", 0.05),
    ],
    [
      "a draft of 10,000 from sliver to yarn",
      () => machine.expectDraft("draft", "10000", 10000),
      () => machine.expectRollerDraft("draft", "10000", 10000),
    ],
    ["400 spindles", () => machine.expectSpindles(25, 400), () => machine.expectSpindles(0.025, 4e6)],
  ])("%s passes, and its neighbour in another unit does not", (_, possible, impossible) => {
    expect(possible).not.toThrow();
    expect(refusalOf(impossible)).toMatch(/^#VALUE! \w+ is /);
  });

  // The limits of the source themselves: each passes, and a trace beyond is told in full.
  type Expectation = (figure: number) => number;
  test.each<[string, Expectation, readonly number[], Record<number, string>]>([
    [
      "rolls",
      (mm) => machine.expectRoll("diameter", mm / 1000) * 1000,
      [5, 2000],
      {
        4.99: "diameter is 4.99 mm; must be 5 to 2000 mm; check its unit",
        2000.1: "diameter is 2000.1 mm; must be 5 to 2000 mm; check its unit",
      },
    ],
    [
      "spindles",
      (rpm) => machine.expectSpindle("speed", `${rpm} rpm`, rpm),
      [0, 2e6],
      { 2.1e6: "speed is 2100000 rpm; a spindle at 2100000 rpm, which none turns; check units and order" },
    ],
    [
      "delivery to a spindle",
      (speed) => machine.expectFed("delivery", `${speed} m/min`, speed),
      [0, 500],
      { 501: "delivery is 501 m/min; 501 m/min, above 500, which no spindle takes; check units and order" },
    ],
    [
      "delivery",
      (speed) => machine.expectDelivery("delivery", speed),
      [0, 10000],
      { 10001: "delivery is 10001 m/min; must be at most 10000 m/min; check its unit" },
    ],
    [
      "rates",
      machine.expectRate,
      [0.1, 10000],
      {
        0.099: "rate is 0.099; must be 0.1 to 10000 g per spindle-hour, not kg",
        10001: "rate is 10001; must be 0.1 to 10000 g per spindle-hour, not kg",
      },
    ],
    [
      "teeth",
      (teeth) => machine.expectTeeth("wheel", "40 of 20", teeth),
      [8, 400],
      {
        7.9: "wheel is 40 of 20; a wheel of 7.9 teeth, not 8 to 400; swapped, or another unit?",
        401: "wheel is 40 of 20; a wheel of 401 teeth, not 8 to 400; swapped, or another unit?",
      },
    ],
    [
      "drafts through all passages",
      (draft) => machine.expectDraft("draft", "4 beside 2", draft),
      [0.5, 1e6],
      {
        0.49: "draft is 4 beside 2; a draft of 0.49, not 0.5 to 1000000; swapped, or another unit?",
        1000100: "draft is 4 beside 2; a draft of 1000000, not 0.5 to 1000000; swapped, or another unit?",
      },
    ],
    [
      "drafts between rollers",
      (draft) => machine.expectRollerDraft("draft", "4 beside 2", draft),
      [0.5, 500],
      { 501: "draft is 4 beside 2; a draft of 501, not 0.5 to 500; swapped, or another unit?" },
    ],
    [
      "numbers of spindles",
      (spindles) => machine.expectSpindles(25, spindles),
      [0, 1e6],
      { 1000001: "rate is 25; 1000001 spindles; it is in g per spindle-hour, check masses and units" },
    ],
  ])("%s up to their limits", (_, expectation, limits, beyond) => {
    expect(limits.map(expectation)).toEqual(limits);
    for (const [figure, message] of Object.entries(beyond))
      expect(refusalOf(() => expectation(Number(figure)))).toBe(`#VALUE! ${message}`);
  });
});
