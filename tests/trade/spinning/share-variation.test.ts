import { expect, test } from "vitest";
import { shareDeviation } from "../../../src/trade/spinning/share-variation";

// Source: the binomial law; √(0.5 × 0.5/100) = 0.05.
test("half of 100 fibres varies by 5 of them", () => {
  expect(shareDeviation(0.5, 100)).toBe(0.05);
  expect([shareDeviation(0, 40), shareDeviation(1, 40)]).toEqual([0, 0]);
});

test("is the deviation of all ways in which so many fibres can fall", () => {
  // Counted out: of 12 fibres each is of the colour with a chance of 0.3.
  const [share, fibres] = [0.3, 12];
  let [mean, square, ways] = [0, 0, 1];
  for (let own = 0; own <= fibres; own++) {
    const chance = ways * share ** own * (1 - share) ** (fibres - own);
    mean += (chance * own) / fibres;
    square += chance * (own / fibres) ** 2;
    ways = (ways * (fibres - own)) / (own + 1);
  }
  expect(shareDeviation(share, fibres)).toBeCloseTo(Math.sqrt(square - mean ** 2), 14);
});
