import { readFileSync, readdirSync } from "node:fs";
import { strToU8, zipSync } from "fflate";
import { beforeAll, describe, expect, test } from "vitest";
import { MADE_WITH } from "../src/pane/formula-writing";
import { makeMended } from "../src/recalculate/mended-copy";
import { makePlain } from "../src/recalculate/plain-copy";
import { recalculate } from "../src/recalculate/recalculation";
import { writeReport } from "../src/recalculate/report";
import { fileFaults } from "./support/file-faults";
import { lookedAt } from "./support/random-cases";
import { schemaFaults, schemasMissing } from "./support/schemas";
import { partsOf, place, rows, textsOf, written } from "./support/workbooks";

/** Every kind of workbook file that this project writes, and what it makes of books of others. */
const books = readdirSync("sample-workbooks").filter((file) => file.endsWith(".xlsx"));
const copied = lookedAt(books, () => "a book");

/** A book as another program writes it: calls in plain text, one of them dead, a note, and a wrong count of strings. */
function foreign(): string {
  const parts = partsOf(
    {
      Lots:
        rows([24, '=YARN.COUNT(A1,"Nm","tex")|41.6666666666667'], [30, '=_xldudf_YARN_COUNT(A2,"Nm","tex")|1']) +
        '<row r="3"><c r="A3" t="s"><v>0</v></c><c r="B3"><f>B1*2</f><v>83.3333333333333</v></c></row>',
    },
    '<definedNames><definedName name="Tex">YARN.COUNT(Lots!$A$1,"Nm","tex")</definedName></definedNames>',
  );
  const types = parts["[Content_Types].xml"] as string;
  const relations = parts["xl/_rels/workbook.xml.rels"] as string;
  return written("foreign.xlsx", {
    ...parts,
    "[Content_Types].xml": types.replace(
      "</Types>",
      '<Override PartName="/xl/sharedStrings.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sharedStrings+xml"/></Types>',
    ),
    "xl/_rels/workbook.xml.rels": relations.replace(
      "</Relationships>",
      '<Relationship Id="rId9" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/sharedStrings" Target="sharedStrings.xml"/></Relationships>',
    ),
    "xl/sharedStrings.xml":
      '<sst xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" count="7" uniqueCount="7"><si><t>total</t></si></sst>',
  });
}

function copiesOf(file: string, called: string): Record<string, string> {
  const [plain, mended, recalculated] = ["plain", "mended", "recalculated"].map((kind) => place(`${kind}-${called}`));
  expect(makePlain({ file, called, out: plain as string }).error).toBeUndefined();
  expect(makeMended({ file, called, out: mended as string }).error).toBeUndefined();
  expect(recalculate({ file, called, out: recalculated }).error).toBeUndefined();
  return { plain, mended, recalculated } as Record<string, string>;
}

const kinds: (readonly [name: string, write: () => Promise<Record<string, string>>])[] = [
  ...books.map((book) => {
    const file = `sample-workbooks/${book}`;
    return [book, async () => ({ book: file, ...(copied.includes(book) ? copiesOf(file, book) : {}) })] as const;
  }),
  ["a book of another program", async () => copiesOf(foreign(), "foreign.xlsx")],
  [
    "a report",
    async () => {
      const file = foreign();
      const report = place("report.xlsx");
      await writeReport(report, [
        recalculate({ file, called: "foreign.xlsx" }),
        recalculate({ file: "none", called: "none" }),
      ]);
      return { report };
    },
  ],
];

describe.each(kinds)(`%s (copies of ${copied.length} sample workbooks of ${books.length})`, (_, write) => {
  let files: Record<string, string>;
  beforeAll(async () => {
    files = await write();
  }, 120_000);

  test("and its copies hold nothing that Excel repairs, and true counts", () => {
    for (const [kind, file] of Object.entries(files))
      expect([kind, fileFaults(readFileSync(file))]).toEqual([kind, []]);
  });

  // ECMA-376 part 4, where a copy of its schemas is at hand: OOXML_SCHEMAS names the folder.
  test.skipIf(schemasMissing)("and its copies agree with the schemas", () => {
    for (const [kind, file] of Object.entries(files)) {
      const { faults, asked } = schemaFaults(readFileSync(file));
      expect([kind, faults]).toEqual([kind, []]);
      expect(asked).toBeGreaterThan(5);
    }
  });
});

test.each(books)("%s notes under the pane's name which version it was made with", (book) => {
  const { version } = JSON.parse(readFileSync("package.json", "utf8")) as { version: string };
  const properties = textsOf(`sample-workbooks/${book}`)["docProps/custom.xml"] as string;
  expect(properties).toContain(`name="${MADE_WITH}"><vt:lpwstr>${version}</vt:lpwstr>`);
});

test.each(books)("%s shows its saved values to someone without the add-in", (book) => {
  const workbook = textsOf(`sample-workbooks/${book}`)["xl/workbook.xml"] as string;
  // An older number, or none, makes Excel calculate the whole book on opening (ECMA-376 part 1, 18.2.2).
  expect(Number(/<calcPr[^>]* calcId="(\d+)"/.exec(workbook)?.[1])).toBeGreaterThanOrEqual(191029);
  expect(workbook).not.toContain("fullCalcOnLoad");
});

describe("the list of faults sees", () => {
  const sound = textsOf("sample-workbooks/landed-cost.xlsx");
  const noted = textsOf(copiesOf("sample-workbooks/landed-cost.xlsx", "landed-cost.xlsx").plain as string);
  const sheetWith = (piece: string | RegExp, parts = sound) =>
    Object.keys(parts).find(
      (name) => /worksheets\/sheet\d+\.xml$/.test(name) && (parts[name] as string).search(piece) >= 0,
    ) as string;
  const anchored = sheetWith(/<f t="array" ref="[A-Z]+\d+:/);
  const listed = sheetWith("<tableParts");
  const checked = sheetWith("<formula1>&quot;");
  const drawn = sheetWith("<drawing ");
  const commented = sheetWith("<legacyDrawing ", noted);
  const comments = Object.keys(noted).find((name) => /comments\d+\.xml$/.test(name)) as string;
  const long = "x".repeat(256);

  type Damage = readonly [cause: string, part: string, from: string | RegExp, to: string, said: RegExp];
  const damages: readonly Damage[] = [
    [
      "a part without a type",
      "[Content_Types].xml",
      /<Override PartName="\/xl\/styles.xml"[^>]*>/,
      "",
      /no content type/,
    ],
    [
      "a type without a part",
      "[Content_Types].xml",
      "</Types>",
      '<Override PartName="/xl/none.xml" ContentType="a/b"/></Types>',
      /no part/,
    ],
    [
      "a part typed twice",
      "[Content_Types].xml",
      /(<Override PartName="\/xl\/styles.xml"[^>]*>)/,
      "$1$1",
      /stands twice/,
    ],
    ["a relation to nowhere", "xl/_rels/workbook.xml.rels", 'Target="styles.xml"', 'Target="gone.xml"', /is no part/],
    [
      "a relation twice",
      "xl/_rels/workbook.xml.rels",
      /(<Relationship [^>]*styles.xml"[^>]*>)/,
      "$1$1",
      /relation rId\d+ stands twice/,
    ],
    ["a sheet without a relation", "xl/workbook.xml", 'r:id="rId5"', 'r:id="rId99"', /rId99 is no relation/],
    ["broken XML", "xl/workbook.xml", "</workbook>", "", /not well formed/],
    ["a sheet's name twice", "xl/workbook.xml", 'name="Inputs"', 'name="ABOUT"', /sheet about stands twice/],
    ["a sheet's id twice", "xl/workbook.xml", 'sheetId="2"', 'sheetId="1"', /sheetId 1 stands twice/],
    [
      "a sheet's name of 32 letters",
      "xl/workbook.xml",
      'name="About"',
      `name="${"A".repeat(32)}"`,
      /cannot be the name of a sheet/,
    ],
    ["a name twice", "xl/workbook.xml", 'name="FibreForm"', 'name="FIBRE"', /name fibre of the workbook stands twice/],
    ["a name that is a cell", "xl/workbook.xml", 'name="FibreForm"', 'name="AB12"', /cannot be a name/],
    ["a name taken by a table", "xl/workbook.xml", 'name="FibreForm"', 'name="Rates"', /the name rates is taken/],
    ["a name of a sheet that is gone", "xl/workbook.xml", "Inputs!$B$6", "Gone!$B$6", /sheet "Gone"/],
    ["a name of no sheet", "xl/workbook.xml", /localSheetId="\d+"/, 'localSheetId="40"', /belongs to no sheet/],
    ["no word on the calculation", "xl/workbook.xml", /<calcPr[^>]*>/, "", /has 0 calcPr/],
    ["a cell twice", anchored, /(<c r="A1"[^>]*>.*?<\/c>)/, "$1$1", /A1 stands twice/],
    ["a row twice", anchored, /(<row r="1".*?<\/row>)/, "$1$1", /row 1 after row 1/],
    ["a shared string that is none", anchored, /t="s"><v>\d+/, 't="s"><v>99999', /shared string 99999/],
    ["a wrong count of uses", "xl/sharedStrings.xml", /( count=")\d+/, "$199", /count is 99/],
    ["a wrong count of strings", "xl/sharedStrings.xml", /( uniqueCount=")\d+/, "$199", /uniqueCount is 99/],
    ["a style that is none", anchored, /<c r="A1" s="\d+"/, '<c r="A1" s="999"', /style 999/],
    ["a mark without metadata", "xl/metadata.xml", /<cellMetadata.*<\/cellMetadata>/, "", /has cm 1/],
    ["metadata of another count", "xl/metadata.xml", 'cellMetadata count="1"', 'cellMetadata count="2"', /says 2/],
    ["metadata without its block", "xl/metadata.xml", /<futureMetadata.*<\/futureMetadata>/, "", /points at no block/],
    ["a call without its mark", anchored, / cm="1"(?=[^<]*><f[^>]*>[^<]*_xldudf_YARN)/, "", /is no dynamic array/],
    [
      "an array that begins elsewhere",
      anchored,
      /<f t="array" ref="[A-Z]+\d+/,
      '<f t="array" ref="A999:A1000',
      /does not begin there/,
    ],
    [
      "a formula inside a spill",
      anchored,
      /(<f t="array" ref="[A-Z]+)(\d+):([A-Z]+)\d+/,
      "$1$2:XFD1048576",
      /inside the array|overlap/,
    ],
    ["brackets that do not match", anchored, /(<f[^>]*>)([^<]*)\)<\/f>/, "$1$2</f>", /brackets/],
    ["a formula with its =", anchored, /(<f[^>]*>)/, "$1=", /has the formula "=/],
    ["a long text in a formula", anchored, /(<f[^>]*>)/, `$1"${long}"&amp;`, /text of over 255/],
    ["a value that is no number", anchored, /<v>\d+\.\d+<\/v>/, "<v>NaN</v>", /no number/],
    ["an error that files do not know", anchored, /(<c r="A1"[^>]*) t="s"><v>\d+/, '$1 t="e"><v>#SPILL!', /#SPILL!/],
    ["a heading that differs", "xl/tables/table4.xml", 'name="From"', 'name="Out of"', /under the heading "Out of"/],
    ["a heading twice", "xl/tables/table4.xml", 'name="To"', 'name="FROM"', /heading from stands twice/],
    ["a table's id twice", "xl/tables/table4.xml", ' id="4" name', ' id="2" name', /table id 2 is taken/],
    [
      "a column's id twice",
      "xl/tables/table4.xml",
      'tableColumn id="2"',
      'tableColumn id="1"',
      /column id 1 stands twice/,
    ],
    ["a table of another width", "xl/tables/table4.xml", /ref="A5:E11"/g, 'ref="A5:F11"', /has 5 columns/],
    [
      "a filter outside its table",
      "xl/tables/table4.xml",
      '<autoFilter ref="A5:E11"',
      '<autoFilter ref="A5:F11"',
      /lies outside/,
    ],
    ["a table without rows", "xl/tables/table4.xml", /ref="A5:E11"/g, 'ref="A5:E5"', /no row of data/],
    ["tables of another count", listed, /tableParts count="\d+"/, 'tableParts count="9"', /tableParts says 9/],
    [
      "columns out of order",
      anchored,
      /<cols><col min="1"/,
      '<cols><col min="9" max="9" width="9"/><col min="1"',
      /columns 1 to 1 after 9/,
    ],
    ["a long list of words", checked, /<formula1>&quot;/, `<formula1>&quot;${long}`, /lists over 255/],
    ["a long message", checked, / error="/, ` error="${long}`, /error of over 255/],
    ["a long title", checked, / errorTitle="/, ` errorTitle="${"x".repeat(33)}`, /errorTitle of over 32/],
    ["validations of another count", checked, /dataValidations count="\d+"/, 'dataValidations count="77"', /says 77/],
    ["validations that overlap", checked, /(<dataValidation [^>]*sqref=")/, "$1A1:Z99 ", /validations overlap/],
    ["elements out of order", checked, /(<sheetData>.*<\/sheetData>)(.*)(<\/worksheet>)/, "$2$1$3", /wrong order/],
    [
      "merged cells that overlap",
      checked,
      "</sheetData>",
      '</sheetData><mergeCells count="2"><mergeCell ref="A1:B2"/><mergeCell ref="B2:C3"/></mergeCells>',
      /merged areas overlap/,
    ],
    ["a drawing that is gone", drawn, /<drawing r:id="[^"]*"/, '<drawing r:id="rId77"', /rId77 is no relation/],
    [
      "a chart's points beyond its count",
      "xl/charts/chart1.xml",
      /<c:ptCount val="\d+"/,
      '<c:ptCount val="0"',
      /beyond the count/,
    ],
    ["fonts of another count", "xl/styles.xml", /fonts count="\d+"/, 'fonts count="99"', /fonts says 99/],
    [
      "a number format that is gone",
      "xl/styles.xml",
      /<numFmt numFmtId="164"[^>]*>/,
      "",
      /number format 164 is missing/,
    ],
    ["a property's number below 2", "docProps/custom.xml", 'pid="2"', 'pid="1"', /below 2/],
    ["titles of another count", "docProps/app.xml", /(TitlesOfParts><vt:vector size=")\d+/, "$199", /says 99/],
  ];
  const ofNotes: readonly Damage[] = [
    ["a note twice", comments, /(<comment ref=.*?<\/comment>)/, "$1$1", /note of [A-Z]+\d+ stands twice/],
    ["a note without an author", comments, /authorId="\d+"/, 'authorId="9"', /no author/],
    ["notes without a drawing", commented, /<legacyDrawing [^>]*>/, "", /no drawing/],
  ];

  const expectSeen = (parts: Record<string, string>, [, part, from, to, said]: Damage) => {
    const damaged = (parts[part] as string).replace(from, to);
    expect(damaged).not.toBe(parts[part]);
    const bytes = Object.entries({ ...parts, [part]: damaged }).map(([name, text]) => [name, strToU8(text)] as const);
    expect(fileFaults(zipSync(Object.fromEntries(bytes), { level: 0 })).join("\n")).toMatch(said);
  };
  const each = lookedAt(damages, ([, part]) => part);
  test.each(each)(`%s (${each.length} faults of ${damages.length})`, (...damage) => expectSeen(sound, damage));
  test.each(ofNotes)("%s", (...damage) => expectSeen(noted, damage));
});
