import { describe, expect, test } from "vitest";
import type { Designation } from "../../../src/trade/counts/designation";
import { DESIGNATION_PARTS, partOf } from "../../../src/trade/counts/designation-parts";
import { refusalOf } from "../../support/refusals";

/** 34 tex S 600 x 2 Z; R 69.3 tex */
const YARN: Designation = {
  resultant: 69.3,
  single: 34,
  plies: 2,
  twists: [
    { direction: "S", turns: 600 },
    { direction: "Z", turns: undefined },
  ],
};

describe("parts of a designation", () => {
  test("what it states is given", () => {
    const stated = ["resultant", "single", "plies", "twist single", "direction single", "direction ply"] as const;
    expect(stated.map((part) => partOf(YARN, part, "…"))).toEqual([69.3, 34, 2, 600, "S", "Z"]);
  });

  test("what it does not state is absent, not 0, and the text is quoted", () => {
    for (const part of ["twist ply", "twist cable", "direction cable"] as const) {
      expect(refusalOf(() => partOf(YARN, part, "34 tex S 600 x 2 Z"))).toBe(
        `#N/A part is "${part}"; "34 tex S 600 x 2 Z" does not state it`,
      );
    }
    expect(DESIGNATION_PARTS).toHaveLength(9);
  });
});
