import { readFileSync } from "node:fs";
import { defineConfig } from "vitest/config";
import { buildConstants } from "./src/build/constants.mjs";
import { documentedFunctions } from "./src/build/docblocks.mjs";

const { version } = JSON.parse(readFileSync("package.json", "utf8")) as { version: string };

export default defineConfig({
  // The same constants that the build gives the bundle.
  define: buildConstants(documentedFunctions(), version),
  test: {
    include: ["tests/**/*.test.ts"],
    setupFiles: ["tests/support/runtime.ts"],
    testTimeout: 60_000,
  },
});
