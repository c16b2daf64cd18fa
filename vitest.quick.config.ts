import { defineConfig, mergeConfig } from "vitest/config";
import base from "./vitest.config.ts";

/** What searches, solves or draws many cases takes more than a second a file, and most of the time of all together. */
const SLOW = [
  "functions/typed-decimals",
  "sheet/work",
  "trade/{decimal,digits,largest-remainder}",
  "trade/blending/least-cost",
  "trade/prices/{cost-spread,landed-cost,quotes}",
  "trade/route/route",
  "trade/shade/{additions,pad-correction,shade-difference,shade-match*}",
  "trade/solvers/linear-programme",
];

/** The calculations and the sheet in twenty seconds: for in between, while `npm test` is for the end. */
const quick = mergeConfig(base, defineConfig({ test: { exclude: SLOW.map((name) => `tests/${name}.test.ts`) } }));
quick.test.include = ["tests/{sheet,trade,functions}/**/*.test.ts", "tests/{layers,contract,examples,golden}.test.ts"];
export default quick;
