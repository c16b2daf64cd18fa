import { readFileSync } from "node:fs";
import { inFileForm } from "../../src/recalculate/future-functions";
import { partsOf } from "./workbooks";

/** A formula as office workbooks have them, and its value. */
export interface Idiom {
  readonly about: string;
  readonly formula: string;
  readonly value: number | string | boolean;
  /** What LibreOffice gives, where it is not what is documented for Excel; `source` says where that stands. */
  readonly soffice?: number | string | boolean;
  readonly source?: string;
  /** An array formula of one cell, typed with Ctrl+Shift+Enter. */
  readonly array?: true;
  /** The sheet and the cell that it stands in, where that matters. */
  readonly at?: string;
  /** Neither engine reproduces it. */
  readonly neither?: true;
}

export const idioms = (): Idiom[] =>
  readFileSync("tests/data/idioms.jsonl", "utf8")
    .trim()
    .split("\n")
    .map((line) => JSON.parse(line) as Idiom);

const LOTS = [
  ["Lot", "Stage", "kg net", "Unit\nprice", "Kg [dry]", "Due"],
  ["L-1", "spin", 120.5, 2.5, 100, 45292],
  ["L-2", "dye", 80, 3.1, 70, 45323],
  ["L-3", "spin", 60, 2.5, 50, 45352],
  ["l-10", "wash", 45.25, 0, 40, 45383],
  ["L-4", "dye", 200, 3.1, 180, 45413],
  ["L-5", "spin", 10, 4, 9, 45444],
];

/** Beside the lots: a negative, a text that looks like a number, blanks, truth, a text of wild signs. */
const ODD = [-7.5, 2.5, "12", null, true, "x*y", "dye"];

const RATES = [[0, 50, 100, 200], ["none", "low", "mid", "high"], [1, 3, 5, 7], [null], [7]];

const NAMES: [name: string, formula: string, sheet?: number][] = [
  ["kg", "Grid!$C$2:$C$7"],
  ["heavy", 'SUMIF(Grid!$B$2:$B$7,"spin",Grid!$C$2:$C$7)'],
  ["share", "kg/SUM(kg)"],
  ["latest", "INDEX(Grid!$C:$C,MATCH(9.99E+307,Grid!$C$1:$C$7))"],
  ["limit", "Grid!$H$2"],
  ["limit", "Rates!$A$5", 1],
  ["moving", "OFFSET(Grid!$C$2,0,0,COUNTA(Grid!$A$2:$A$7),1)"],
  ["rate", "0.2"],
  ["steps", "{1,2,3}"],
];

const escaped = (text: string) => text.replace(/&/g, "&amp;").replace(/</g, "&lt;").replace(/"/g, "&quot;");

function valued(address: string, value: string | number | boolean | null, formula = ""): string {
  if (value === null) return "";
  if (typeof value === "boolean") return `<c r="${address}" t="b">${formula}<v>${Number(value)}</v></c>`;
  if (typeof value === "number") return `<c r="${address}">${formula}<v>${value}</v></c>`;
  const kind = formula !== "" && /^#[A-Z]/.test(value) ? "e" : "str";
  return `<c r="${address}" t="${kind}">${formula}<v>${escaped(value)}</v></c>`;
}

/** The cell that an idiom stands in: a row of its own on the last sheet, unless it says another. */
export function placeOf({ at }: Idiom, index: number): [sheet: string, cell: string] {
  const [sheet = "Work", cell = `A${index + 1}`] = at?.split("!") ?? [];
  return [sheet, cell];
}

/** The smallest workbook that all idioms stand in: a Table with a row of totals, two more sheets, names. */
export function idiomsBook(all: readonly Idiom[]): Record<string, string> {
  const cells = new Map<string, Map<number, string[]>>();
  const put = (sheet: string, row: number, text: string) => {
    const rows = cells.get(sheet) ?? new Map<number, string[]>();
    cells.set(sheet, rows.set(row, [...(rows.get(row) ?? []), text].sort()));
  };
  const letters = "ABCDEFGHIJ";
  const putAll = (sheet: string, lists: readonly (readonly (string | number | boolean | null)[])[], from = 0) =>
    lists.forEach((list, row) =>
      list.forEach((value, column) => put(sheet, row + 1, valued(`${letters[from + column]}${row + 1}`, value))),
    );
  putAll("Grid", LOTS);
  put("Grid", 8, valued("A8", "Total"));
  all.forEach((idiom, index) => {
    const [sheet, cell] = placeOf(idiom, index);
    const kind = idiom.array === true ? ` t="array" ref="${cell}"` : "";
    const formula = `<f${kind}>${escaped(inFileForm(idiom.formula.slice(1)))}</f>`;
    put(sheet, Number(/\d+/.exec(cell)?.[0]), valued(cell, idiom.value, formula));
  });
  putAll(
    "Grid",
    ODD.map((value) => [value]),
    letters.indexOf("H"),
  );
  putAll("Rates", RATES);
  const sheets = Object.fromEntries(
    ["Grid", "Rates", "Work"].map((sheet) => [
      sheet,
      [...(cells.get(sheet) ?? [])]
        .sort(([a], [b]) => a - b)
        .map(([row, texts]) => `<row r="${row}">${texts.join("")}</row>`)
        .join(""),
    ]),
  );
  const names = NAMES.map(
    ([name, formula, sheet]) =>
      `<definedName name="${name}"${sheet === undefined ? "" : ` localSheetId="${sheet}"`}>${escaped(formula)}</definedName>`,
  );
  return withTable(partsOf(sheets, `<definedNames>${names.join("")}</definedNames>`));
}

const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const DOCUMENT = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const PACKAGE = "http://schemas.openxmlformats.org/package/2006";

function withTable(parts: Record<string, string>): Record<string, string> {
  const columns = (LOTS[0] as string[]).map((name, index) => {
    const total = name === "kg net" ? ' totalsRowFunction="sum"' : index === 0 ? ' totalsRowLabel="Total"' : "";
    return `<tableColumn id="${index + 1}" name="${name.replace("\n", "_x000a_")}"${total}/>`;
  });
  const types = parts["[Content_Types].xml"] as string;
  const sheet = parts["xl/worksheets/sheet1.xml"] as string;
  return {
    ...parts,
    "[Content_Types].xml": types.replace(
      "</Types>",
      '<Override PartName="/xl/tables/table1.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.table+xml"/></Types>',
    ),
    "xl/worksheets/sheet1.xml": sheet.replace(
      "</worksheet>",
      `<tableParts count="1"><tablePart xmlns:r="${DOCUMENT}" r:id="rId1"/></tableParts></worksheet>`,
    ),
    "xl/worksheets/_rels/sheet1.xml.rels": `<Relationships xmlns="${PACKAGE}/relationships"><Relationship Id="rId1" Type="${DOCUMENT}/table" Target="../tables/table1.xml"/></Relationships>`,
    "xl/tables/table1.xml": `<table xmlns="${MAIN}" id="1" name="Lots" displayName="Lots" ref="A1:F8" totalsRowCount="1"><autoFilter ref="A1:F7"/><tableColumns count="${columns.length}">${columns.join("")}</tableColumns></table>`,
  };
}
