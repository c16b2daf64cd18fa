import { basename } from "node:path";
import { defineConfig, mergeConfig } from "vitest/config";
import { BaseSequencer, type TestSpecification } from "vitest/node";
import base from "./vitest.config.ts";

/** The first failure ends the run of a mutant, so the quick files come first. */
class QuickFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    return [...files].sort((a, b) => rank(a.moduleId) - rank(b.moduleId));
  }
}

const FOLDERS = ["/tests/sheet/", "/tests/trade/", "/tests/functions/"];
const SLOW = ["golden.test.ts", "shade-match.test.ts", "linear-programme.test.ts", "least-cost.test.ts"];

function rank(file: string): number {
  const slow = SLOW.indexOf(basename(file));
  if (slow >= 0) return FOLDERS.length + slow;
  return FOLDERS.findIndex((folder) => file.includes(folder));
}

/**
 * For mutation testing: the tests that run against the sources without starting a process or reading what the build
 * made. Properties get few random cases, because the tests are run again for every mutant.
 */
const fast = mergeConfig(
  base,
  defineConfig({
    test: {
      // Every copy of the folder would leave what it compiled behind.
      experimental: { fsModuleCache: false },
      env: { ONLY_SOURCES: "1", CASES: process.env["CASES"] ?? "12" },
      sequence: { sequencer: QuickFirst },
    },
  }),
);
// What `npm run mutate` has made ready is enough: in a mutant's copy of the folder it would be made anew, or installed over.
fast.test.globalSetup = [];
fast.test.include = [
  "tests/trade/**/*.test.ts",
  "tests/sheet/*.test.ts",
  "tests/functions/*.test.ts",
  "tests/golden.test.ts",
];
export default fast;
