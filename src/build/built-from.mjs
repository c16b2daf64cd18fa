const FUNCTIONS_FROM = ["documentation", "functions", "sheet", "trade", "tables"].map((folder) => `src/${folder}`);

/** What functions.js is made from, with the examples that it must pass. */
export const BUNDLE_FROM = [...FUNCTIONS_FROM, "src/build", "src/guide/page", "package.json"];

/** What all of dist is made from: it is out of date when one of these has changed. */
export const DIST_FROM = [
  ...FUNCTIONS_FROM,
  "src/build",
  "src/guide",
  "src/recalculate",
  "src/extension",
  "src/pane",
  "manifest",
  "sample-workbooks",
  "package.json",
  "LICENSE",
];

/** What the compiled commands are made from. */
export const COMMANDS_FROM = ["src/recalculate", "src/build", "src/guide/page", "package-lock.json"];
