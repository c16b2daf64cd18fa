import fc from "fast-check";
import { expect, test } from "vitest";
import { knownCalls } from "../support/calls";
import { bundledFunctions } from "../support/functions";
import { cases } from "../support/random-cases";
import { callText, faultOfCall, randomCalls } from "./random-calls";

test("random calls give only cells and documented errors (npm run fuzz: a million of them)", () => {
  const answered = { rows: 0 };
  fc.assert(
    fc.property(randomCalls(knownCalls(bundledFunctions())), (call) => {
      const fault = faultOfCall(call);
      expect(fault === undefined ? "no fault" : `${fault}: ${callText(call)}`).toBe("no fault");
      try {
        call.known.call(...call.cells);
        answered.rows++;
      } catch {
        // Refused, as it may be.
      }
    }),
    { numRuns: 2_000 },
  );
  // Calls that are all turned away at the door prove little.
  expect(answered.rows).toBeGreaterThan(cases(2_000) / 5);
});
