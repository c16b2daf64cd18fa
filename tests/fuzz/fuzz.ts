import fc from "fast-check";
import { loadBundle } from "../../src/recalculate/bundle";
import { knownCalls } from "../support/calls";
import { callText, faultOfCall, randomCalls, type RandomCall } from "./random-calls";

const CALLS_A_ROUND = 20_000;

/**
 * `npm run fuzz [-- calls [seed]]`: random calls of the built bundle, a million unless said otherwise, until the first
 * that does not end in cells or documented errors. That one is printed in its smallest form, to be repeated.
 */
export async function main(words: readonly string[]): Promise<number> {
  const wanted = Number(words[0] ?? 1_000_000);
  const seed = Number(words[1] ?? Math.floor(Math.random() * 2 ** 31));
  if (!(wanted >= 1) || !Number.isInteger(seed)) {
    console.error("usage: npm run fuzz -- [calls [seed]]");
    return 2;
  }
  console.log(`seed ${seed}, ${wanted} calls`);
  const calls = randomCalls(knownCalls(loadBundle()));
  const start = performance.now();
  for (let done = 0; done < wanted;) {
    const round = Math.min(CALLS_A_ROUND, wanted - done);
    const result = fc.check(
      fc.property(calls, (call) => {
        const fault = faultOfCall(call);
        if (fault !== undefined) throw new Error(fault);
      }),
      { numRuns: round, seed: seed + done, endOnFailure: false },
    );
    if (result.failed) {
      const [call] = result.counterexample as [RandomCall];
      console.log(
        `after ${done + result.numRuns} calls (round seed ${seed + done}): ${faultOfCall(call) ?? "once only"}`,
      );
      console.log(callText(call));
      return 1;
    }
    done += round;
    const seconds = (performance.now() - start) / 1000;
    console.log(`${done} calls, ${Math.round(done / seconds)} a second, no fault`);
  }
  return 0;
}
