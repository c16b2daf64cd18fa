import { readFileSync } from "node:fs";
import { availableParallelism } from "node:os";
import { defineConfig } from "vitest/config";
import { buildConstants } from "./src/build/constants.mjs";
import { documentedFunctions } from "./src/documentation/docblocks.mjs";

const { version } = JSON.parse(readFileSync("package.json", "utf8")) as { version: string };

export default defineConfig({
  // The same constants that the build gives the bundle.
  define: buildConstants(documentedFunctions(), version),
  // Commands that are called in the process of the tests start no others.
  resolve: {
    alias: [{ find: /^\.\/children$/, replacement: `${import.meta.dirname}/tests/support/in-this-process.ts` }],
  },
  test: {
    include: ["tests/**/*.test.ts"],
    globalSetup: ["src/build/prepare.mjs"],
    setupFiles: ["tests/support/runtime.ts"],
    testTimeout: 60_000,
    // Loading the library and the engine anew for every file would take a third of the time.
    isolate: false,
    // Browsers and other programs work beside the tests, so two processors are kept busy by two of these.
    maxWorkers: Math.max(2, availableParallelism() - 1),
  },
});
