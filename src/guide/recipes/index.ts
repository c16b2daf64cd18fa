import { CONDITIONING_IN_TRANSIT } from "./conditioning-in-transit";
import { CORRECTING_A_BATCH } from "./correcting-a-batch";
import { DEPOSITS } from "./deposits";
import { LOT_SIZES } from "./lot-sizes";
import { OUTWARD_PROCESSING } from "./outward-processing";
import { PARTIAL_SHIPMENTS } from "./partial-shipments";
import type { Recipe } from "./recipe";
import { RECOVERABLE_TAX } from "./recoverable-tax";
import { SHORT_MASS } from "./short-mass";
import { SLIVER_OR_LAYDOWN } from "./sliver-or-laydown";

export type { Recipe } from "./recipe";

/** In the order of the job. */
export const RECIPES: readonly Recipe[] = [
  SLIVER_OR_LAYDOWN,
  CORRECTING_A_BATCH,
  LOT_SIZES,
  CONDITIONING_IN_TRANSIT,
  SHORT_MASS,
  OUTWARD_PROCESSING,
  DEPOSITS,
  PARTIAL_SHIPMENTS,
  RECOVERABLE_TAX,
];

/** The functions that a recipe calls. */
export function functionsIn({ formulas }: Recipe): string[] {
  return [
    ...new Set(formulas.flatMap(({ formula }) => [...formula.matchAll(/YARN\.(\w+)\(/g)].map(([, id = ""]) => id))),
  ];
}

export function recipesWith(id: string): Recipe[] {
  return RECIPES.filter((recipe) => functionsIn(recipe).includes(id));
}
