import { associated } from "./runtime";
import { evaluate, type Outcome } from "../../src/recalculate/engine";
import { builtFunctions, type Implementations } from "../../src/recalculate/bundle";
import "../../src/functions/index";

/** Every function straight from the sources. */
export const sourceFunctions: Implementations = associated;

/** Every function from the built bundle. */
export const bundledFunctions = builtFunctions;

/** One formula worked out with the sources. */
export function sheet(formula: string): Outcome {
  return evaluate([formula], sourceFunctions)[0] as Outcome;
}

/** The message of the error that one formula gives; fails the test when it gives none. */
export function messageOf(formula: string): string {
  const outcome = sheet(formula);
  if (outcome === null || typeof outcome !== "object" || !("code" in outcome)) {
    throw new Error(`${formula} gave ${JSON.stringify(outcome)}, not an error`);
  }
  return `${outcome.code} ${outcome.message}`;
}
