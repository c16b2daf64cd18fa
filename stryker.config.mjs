/** Mutation testing of the calculation and of what stands between it and the sheet; see tests/MUTATION.md. */
export default {
  mutate: ["src/trade/**/*.ts", "src/sheet/**/*.ts", "!**/*.d.ts"],
  testRunner: "in-this-process",
  plugins: ["@stryker-mutator/*", "./src/build/mutation-runner.mjs"],
  vitest: { configFile: "vitest.mutation.config.ts", related: false },
  coverageAnalysis: "perTest",
  ignoreStatic: true,
  concurrency: 2,
  // A mutant may be the first to need a file of tests, which is then bundled; what goes round in circles is told by counting.
  timeoutMS: 60_000,
  timeoutFactor: 3,
  // Folders with a dot are those of tests that run beside.
  ignorePatterns: ["/reports", "/sample-workbooks", "/manifest", "/.dist-*", "/.lib-*"],
  reporters: ["progress-append-only", "clear-text", "json"],
  clearTextReporter: { logTests: false, reportTests: false, allowColor: false },
  jsonReporter: { fileName: "reports/mutation.json" },
  thresholds: { high: 95, low: 90, break: 90 },
  allowEmpty: false,
  checkers: [],
};
