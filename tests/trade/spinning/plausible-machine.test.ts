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
});
