import { readFileSync } from "node:fs";
import { availableParallelism } from "node:os";
import { defineConfig } from "vitest/config";
import { BaseSequencer, type TestSpecification } from "vitest/node";
import { buildConstants } from "./src/build/constants.mjs";
import { documentedFunctions } from "./src/documentation/docblocks.mjs";

const { version } = JSON.parse(readFileSync("package.json", "utf8")) as { version: string };

/** Files that wait for other programs, the longest first: at the end they would keep one processor waiting. */
const LONG = ["browser/guide", "browser/recalculate-page", "browser/known-to-here", "extension/calc", "build/package", "build/build"]; // prettier-ignore

class LongFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const place = ({ moduleId }: TestSpecification) => {
      const at = LONG.findIndex((name) => moduleId.endsWith(`/tests/${name}.test.ts`));
      return at < 0 ? LONG.length : at;
    };
    return (await super.sort(files)).sort((a, b) => place(a) - place(b));
  }
}

export default defineConfig({
  // The same constants that the build gives the bundle.
  define: buildConstants(documentedFunctions(), version),
  resolve: {
    alias: [
      // Commands that are called in the process of the tests start no others.
      { find: /^\.\/children$/, replacement: `${import.meta.dirname}/tests/support/in-this-process.ts` },
      { find: /^fast-check$/, replacement: `${import.meta.dirname}/tests/support/random-cases.ts` },
    ],
  },
  test: {
    include: ["tests/**/*.test.ts"],
    globalSetup: ["src/build/prepare.mjs", "tests/support/temporary-folder.ts"],
    setupFiles: ["tests/support/runtime.ts"],
    testTimeout: 60_000,
    // Loading the library and the engine anew for every file would take a third of the time.
    isolate: false,
    // What a file was compiled to is kept under a digest of its text: compiling all anew takes eight seconds.
    experimental: { fsModuleCache: true, fsModuleCachePath: "node_modules/.cache/tests" },
    // Browsers and other programs work beside the tests, so two processors are kept busy by two of these.
    sequence: { sequencer: LongFirst },
    maxWorkers: Math.max(2, availableParallelism() - 1),
  },
});
