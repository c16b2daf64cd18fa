/** What dist is made from: it is out of date when one of these has changed. */
export const BUILT_FROM = [
  ...["documentation", "functions", "sheet", "trade", "tables", "guide", "pane", "extension", "build"].map(
    (folder) => `src/${folder}`,
  ),
  ...["manifest", "sample-workbooks", "package.json", "LICENSE"],
];
