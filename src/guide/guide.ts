import { cpSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { FAMILIES, type DocumentedFunction } from "../documentation/docblocks.mjs";
import { calcPage } from "./calc-page";
import { cautionsPage } from "./cautions";
import { deadCallsPage } from "./dead-calls";
import { familyPage } from "./family-page";
import { firstOpeningPage } from "./first-opening";
import { knownToPage } from "./known-to-page";
import { MANY_WORKBOOKS, manyWorkbooksPage } from "./many-workbooks-page";
import { functionPage } from "./function-page";
import { pageText, type Page } from "./html";
import { indexPage, searchWords } from "./index-page";
import { privacyAndLicencePage } from "./licence-page";
import type { Implementation } from "./page/values";
import { recalculatePage } from "./recalculate-page";
import { recipePages } from "./recipe-pages";
import { stylesheet } from "./stylesheet";
import { countSystemsPage, regainsPage, sourcesPage } from "./table-pages";
import { workOf } from "./work";
import { sampleWorkbooks, workbookPages } from "./workbook-pages";

/** For people who open the bare address. */
const TO_THE_GUIDE = `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="refresh" content="0; url=guide/index.html">
<title>Yarn worksheet functions</title>
</head>
<body>
<p><a href="guide/index.html">The guide of the yarn worksheet functions</a></p>
</body>
</html>
`;

/** Writes the guide's pages into out/guide, their figures worked out by the functions as built, and the workbooks they offer into out/workbooks. */
export function writeGuide(
  out: string,
  functions: readonly DocumentedFunction[],
  version: string,
  built: ReadonlyMap<string, Implementation>,
): void {
  const workbooks = sampleWorkbooks();
  const work = workOf(built);
  const pages: Page[] = [
    indexPage(functions, workbooks),
    ...functions.map((documented) =>
      functionPage(documented, functions, FAMILIES[documented.family as keyof typeof FAMILIES]),
    ),
    ...Object.keys(FAMILIES)
      .filter((family) => functions.some((own) => own.family === family))
      .map((family) => familyPage(family, functions, work)),
    ...recipePages(built),
    countSystemsPage(),
    regainsPage(),
    sourcesPage(functions),
    ...workbookPages(
      workbooks,
      functions.map(({ id }) => id),
    ),
    cautionsPage(),
    deadCallsPage(),
    firstOpeningPage(),
    calcPage(),
    manyWorkbooksPage(),
    knownToPage(),
    recalculatePage(),
    privacyAndLicencePage(readFileSync("LICENSE", "utf8")),
  ];
  const folder = join(out, "guide");
  mkdirSync(folder, { recursive: true });
  for (const page of pages) writeFileSync(join(folder, page.file), pageText(page, version));
  writeFileSync(join(folder, "search-words.js"), searchWords(functions, workbooks));
  writeFileSync(join(out, "index.html"), TO_THE_GUIDE);
  cpSync(MANY_WORKBOOKS, join(folder, "many-workbooks"), { recursive: true });
  writeFileSync(join(folder, "style.css"), stylesheet("src/guide/style.css"));
  for (const { file } of workbooks) cpSync(join("sample-workbooks", file), join(out, "workbooks", file));
}
