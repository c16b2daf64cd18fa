import { describe, expect, test } from "vitest";
import { table } from "../../src/sheet/arguments";
import { expectRoute, PRICED_STAGE, routeDirection, STAGE } from "../../src/sheet/stages";
import { refusalOf } from "../support/refusals";
import "../support/runtime";

const stage = (loss: number, by_product: number) => ({ stage: "", loss, regain_out: 0, by_product });

describe("the stages of a route", () => {
  test("what is sold on the way leaves the route like a loss: 0.5 and 0.4 leave a tenth, 0.5 and 0.46 a twenty-fifth", () => {
    expect(() => expectRoute([stage(0.5, 0.4)])).not.toThrow();
    expect(() => expectRoute([stage(0.5, 0), stage(0.4, 0)])).not.toThrow();
    expect(refusalOf(() => expectRoute([stage(0.5, 0.46)]))).toContain(
      "stages is all but 4% together; are these yields?",
    );
    expect(refusalOf(() => expectRoute([stage(0.8, 0), stage(0.7, 0.1)]))).toContain("stages is all but 4% together");
  });

  test("without by-product none is sold; without its price and charges there are none", () => {
    expect(table({ stages: [["card", 0.06, 0.17]] }, STAGE)).toEqual([
      { stage: "card", loss: 0.06, regain_out: 0.17, by_product: 0 },
    ]);
    expect(table({ stages: [["card", 0.06, 0.17]] }, PRICED_STAGE)).toEqual([
      {
        stage: "card",
        loss: 0.06,
        regain_out: 0.17,
        by_product: 0,
        by_product_price: undefined,
        basis: undefined,
        rate: undefined,
        minimum: 0,
        fixed: 0,
        actual_out: undefined,
        hours: undefined,
        lot_size: undefined,
        currency_rate: undefined,
      },
    ]);
  });

  test("the quantity stands at one end or the other", () => {
    expect(["needed", "Made"].map((cell) => routeDirection(cell, "direction"))).toEqual(["needed", "made"]);
    expect(refusalOf(() => routeDirection("sold", "direction"))).toContain("write needed or made");
  });
});
