import { describe, expect, test } from "vitest";
import { statedTwist, writeDesignation } from "../../../src/trade/counts/designation-writing";
import { refusalOf } from "../../support/refusals";

describe("a designation in tex", () => {
  // Source: ISO 1139, single-to-fold: the single, its twist, x plies, their twist; R and the resultant.
  test("34 tex S 600 x 2 Z 400; R 69.3 tex", () => {
    expect(writeDesignation(34, 2, { direction: "S", turns: 600 }, { direction: "Z", turns: 400 }, 69.3)).toBe(
      "34 tex S 600 x 2 Z 400; R 69.3 tex",
    );
    expect(writeDesignation(40, 1, { direction: "Z", turns: 660 }, undefined, undefined)).toBe("40 tex Z 660");
    expect(writeDesignation(34, 2, { direction: "S", turns: undefined }, undefined, undefined)).toBe("34 tex S x 2");
  });

  test("numbers are written without an exponent, and so that no point parts thousands", () => {
    expect(writeDesignation(1.125, 1, undefined, undefined, undefined)).toBe("1.1250 tex");
    expect(writeDesignation(1e21, 1, undefined, undefined, undefined)).toBe("1000000000000000000000 tex");
    expect(writeDesignation(1e-7, 1, undefined, undefined, undefined)).toBe("0.0000001 tex");
  });

  test("turns of 0 are turns not stated, and a twist needs its direction", () => {
    expect(statedTwist(0, undefined, "ply")).toBeUndefined();
    expect(statedTwist(0, "t0", "ply")).toEqual({ direction: "t0", turns: undefined });
    expect(statedTwist(0, "S", "ply")).toEqual({ direction: "S", turns: undefined });
    expect(refusalOf(() => statedTwist(400, undefined, "ply"))).toBe(
      "#VALUE! direction_ply is left out beside a twist of 400; write S or Z",
    );
    expect(refusalOf(() => statedTwist(400, "t0", "single"))).toBe(
      "#VALUE! direction_single is t0 beside a twist of 400; write S or Z",
    );
  });

  test("a single has no ply twist, and a resultant is one of its plies", () => {
    expect(refusalOf(() => writeDesignation(34, 1, undefined, { direction: "Z", turns: 400 }, undefined))).toBe(
      "#VALUE! plies is 1; a single yarn has no ply twist; leave it out",
    );
    expect(refusalOf(() => writeDesignation(34, 2, undefined, undefined, 34))).toMatch(
      /^#VALUE! resultant_tex is 34 beside 2 × 34; .*0\.9 to 1\.25/,
    );
    expect(refusalOf(() => writeDesignation(34, 13, undefined, undefined, undefined))).toMatch(
      /^#VALUE! plies is 13; .*1 to 12/,
    );
  });
});
