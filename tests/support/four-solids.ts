import { DAYLIGHT } from "../../src/tables/lights";
import { additiveValues, blended, fibreModel } from "../../src/trade/shade/blend-models";
import { ShadeObjective } from "../../src/trade/shade/shade-objective";
import { errorOf } from "../../src/trade/shade/shade-refinement";
import { TEXTILES } from "./measured-textiles";

export const MODEL = fibreModel(0.15);
const ALL = [...TEXTILES.values()];
export const sum = (shares: ArrayLike<number>) => Array.from(shares).reduce((total, share) => total + share, 0);

/** Problems of four solids: blends of them (`shares`), and shades that they do not reach. */
export const PROBLEMS = Array.from({ length: 12 }, (_, place) => {
  const solids = [0, 1, 2, 3].map((index) => ALL[(place * 3 + index * 7) % ALL.length]!);
  const shares = [0.46, 0.31, 0.17, 0.06];
  const within = place % 2 === 0;
  const target = within ? Array.from(blended(shares, solids, MODEL)) : ALL[(place * 5 + 11) % ALL.length]!;
  const objective = new ShadeObjective(target, MODEL, [DAYLIGHT]);
  return {
    objective,
    columns: solids.map((solid) => additiveValues(solid, MODEL)),
    shares: within ? shares : undefined,
  };
});
export const EVEN = Float64Array.of(0.25, 0.25, 0.25, 0.25);

export type FourSolids = (typeof PROBLEMS)[number];

/** The error of shares of four solids. */
export function errorIn({ objective, columns }: FourSolids): (of: ArrayLike<number>) => number {
  return (of) => errorOf(objective, columns, Float64Array.from(Array.from(of)));
}

/** All shares reached by one exchange of a step, or of what is above `least` if that is smaller. */
export function exchanges(from: ArrayLike<number>, step: number, least: number): number[][] {
  return [0, 1, 2, 3].flatMap((giver) => {
    const amount = Math.min(step, from[giver]! - least);
    return [0, 1, 2, 3]
      .filter((taker) => taker !== giver && amount > 1e-12)
      .map((taker) =>
        Array.from(from, (share, index) => share + (index === taker ? amount : 0) - (index === giver ? amount : 0)),
      );
  });
}
