import { describe, expect, test } from "vitest";
import { charge } from "../../../src/trade/prices/charge";

describe("charges", () => {
  const terms = { minimum: 0, lotSize: undefined, lotFee: 0, below: undefined, surcharge: 0 };

  test("each part acts on all that comes before it", () => {
    // 250 kg at 2.00 is 500, the minimum 600, three lots of 100 kg at 30 make 690, and 10 % on it 759.
    expect(charge(250, 2, { minimum: 600, lotSize: 100, lotFee: 30, below: 300, surcharge: 0.1 }).toNumber()).toBe(759);
  });

  test("the surcharge is for every quantity where it has no bound", () => {
    for (const quantity of [0.5, 100, 1e6]) {
      expect(charge(quantity, 2, { ...terms, surcharge: 0.25 }).toNumber()).toBe(quantity * 2.5);
    }
  });

  test("the surcharge is for less than its bound", () => {
    const small = { ...terms, below: 300, surcharge: 0.1 };
    expect([299.99, 300].map((kg) => charge(kg, 1, small).toNumber())).toEqual([329.989, 300]);
  });

  test("a quantity that fills its lots to the last digit of a double begins no other", () => {
    const lots = { ...terms, lotSize: 1.1, lotFee: 1 };
    expect(charge(3 * 1.1, 0, lots).toNumber()).toBe(3);
    expect(charge(3.31, 0, lots).toNumber()).toBe(4);
  });
});
