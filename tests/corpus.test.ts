import { mkdirSync, mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, relative } from "node:path";
import { describe, expect, test } from "vitest";
import { openBook } from "../src/recalculate/book";
import { callsTable, tableOf } from "../src/recalculate/corpus";
import { put } from "../src/recalculate/dynamic-arrays";
import { harmless, harmlessJson } from "../src/recalculate/harmless";
import { makeMended } from "../src/recalculate/mended-copy";
import { packed } from "../src/recalculate/packing";
import { makePlain } from "../src/recalculate/plain-copy";
import { failed } from "../src/recalculate/failed";
import { recalculate } from "../src/recalculate/recalculation";
import { tryCalls } from "../src/recalculate/with-calls";
import { workbooksNamed } from "../src/recalculate/workbooks-named";
import { partsOf, place, rows, textsOf, written } from "./support/workbooks";

const judged = (name: string, ...cells: (string | number)[]) =>
  recalculate({ file: written(name, partsOf({ S: rows(cells) })), called: name });

describe("how much of a collection is reproduced", () => {
  test("every workbook is counted once, and what is not reproduced is told by function", () => {
    const job = { file: place("nowhere.xlsx"), called: "nowhere.xlsx" };
    const table = tableOf([
      judged("clean.xlsx", 1, "=A1+1|2"),
      judged("beyond.xlsx", 1, "=LEN(A1)|7", "=A1|1", "=LEN(TRIM(A1))|8"),
      judged("wrong.xlsx", '=_xldudf_YARN_COUNT(10,"NeC","NeW")|16'),
      recalculate(job),
      failed(job, "nowhere.xlsx took longer than 1 seconds and was stopped", "too long"),
    ]).join("\n");
    for (const line of [/^workbooks +5$/m, /^clean +1 +20\.0 %$/m, /^with cells not reproduced +1 +20\.0 %$/m]) {
      expect(table).toMatch(line);
    }
    expect(table).toMatch(/^called wrong +1 +20\.0 %$/m);
    expect(table).toMatch(/^refused +2 +40\.0 %$/m);
    expect(table).toMatch(/^ {2}LEN +2 +1\n {2}TRIM +1 +1$/m);
    expect(table).toMatch(/cannot be read: .* \(unreadable\)$/m);
    expect(table).toMatch(/was stopped \(too long\)$/m);
  });
});

/** Books of which no formula is ours: plain ones, an old-style array, a table, a shared formula, values of every kind. */
const NATIVE: Record<string, Record<string, string>> = {
  "plain sums": partsOf({ S: rows([1, 2, "=A1+B1|3"], ["=SUM(A1:C1)|6", "=IF(0.1+0.2=0.3,1,0)|1"]) }),
  "stale and strange": partsOf({ S: rows([1, "=A1|99", "=NOSUCH(1)|4", "=[1]Far!A1|3", "=B1+1|100"]) }),
  "shared and array": partsOf({
    S: `<row r="1"><c r="A1"><v>1</v></c><c r="B1"><f t="shared" ref="B1:B2" si="0">A1*2</f><v>2</v></c><c r="C1"><f t="array" ref="C1:C2">A1:A2*3</f><v>3</v></c></row><row r="2"><c r="A2"><v>2</v></c><c r="B2"><f t="shared" si="0"/><v>4</v></c><c r="C2"><v>6</v></c></row>`,
  }),
  "two sheets": partsOf({ One: rows([5, "=Two!A1|7"]), Two: rows(["=One!A1+2|7", "=ROUND(A1/3,2)|2.33"]) }),
  "texts and errors": partsOf({
    S: '<row r="1"><c r="A1" t="str"><f>"a"&amp;"b"</f><v>ab</v></c><c r="B1" t="e"><f>1/0</f><v>#DIV/0!</v></c><c r="C1" t="b"><f>1=1</f><v>1</v></c></row>',
  }),
};

describe("two calls of ours put into a workbook of somebody else's", () => {
  const ours = ["A40", "A41"];
  const cellsOf = (file: string) =>
    openBook(readFileSync(file), file).sheets.map(
      ({ name, part }) => [name, new Map([...part.cells()].map((cell) => [cell.address, cell.xml]))] as const,
    );

  test.each(Object.keys(NATIVE))("%s: exactly our cells change", (name) => {
    const book = openBook(readFileSync(written("theirs.xlsx", NATIVE[name] as Record<string, string>)), name);
    const [{ part, partName }] = book.sheets as [(typeof book.sheets)[number]];
    part.cell(40, 1).write({ type: undefined, text: "1" }, { attributes: {}, text: 'YARN.COUNT(24,"Nm","tex")' });
    part.cell(41, 1).write({ type: undefined, text: "1" }, { attributes: {}, text: 'YARN.COUNT(10,"NeC","NeW")+1' });
    put(book.parts, partName, part.xml);
    const file = place("with-ours.xlsx");
    writeFileSync(file, packed(book.parts));

    const out = { recalc: place("ours-out.xlsx"), plain: place("ours-plain.xlsx"), mend: place("ours-mend.xlsx") };
    expect(
      recalculate({ file, called: name, out: out.recalc }).differences.map(({ cell, now }) => [cell, now]),
    ).toEqual([
      ["A40", 1000 / 24],
      ["A41", 16],
    ]);
    expect(makePlain({ file, called: name, out: out.plain })).toMatchObject({ changed: 2 });
    expect(makeMended({ file, called: name, out: out.mend })).toMatchObject({ changed: 2 });
    for (const copy of Object.values(out)) {
      cellsOf(file).forEach(([sheet, before], index) => {
        const after = cellsOf(copy)[index]?.[1] as Map<string, string>;
        expect([...after.keys()]).toEqual([...before.keys()]);
        const changed = [...before].filter(([address, xml]) => after.get(address) !== xml).map(([address]) => address);
        expect(changed).toEqual(index === 0 ? ours : []);
        expect(sheet).toBeTruthy();
      });
      for (const [name_, text] of Object.entries(textsOf(file))) {
        if (/worksheets|styles|theme/.test(name_) && name_ !== partName) expect(textsOf(copy)[name_]).toBe(text);
      }
    }
  });
});

describe("corpus --with-calls", () => {
  test("counts what the calls changed, tells what was not tried, and sees no fault in these", () => {
    const tried = Object.entries(NATIVE).map(([name, parts]) =>
      tryCalls({ file: written("tried.xlsx", parts), called: name }),
    );
    expect(tried.map(({ others, missed, error }) => ({ others, missed, error }))).toEqual(
      tried.map(() => ({ others: [], missed: [], error: undefined })),
    );
    const far = tryCalls({ file: place("nowhere.xlsx"), called: "nowhere.xlsx" });
    expect(far.error).toMatch(/no such file/);
    const table = callsTable([...tried, far, { workbook: "bad.xlsx", others: ["plain S!A1"], missed: [], filled: 2 }]);
    expect(table.join("\n")).toMatch(/^workbooks with two calls put in +6$/m);
    expect(table.join("\n")).toMatch(/^other cells changed +1$/m);
    expect(table.join("\n")).toMatch(/^faults\n {2}bad\.xlsx: plain S!A1\n\nnot tried\n {2}nowhere\.xlsx: /m);
  });
});

describe("the words of a command that name workbooks", () => {
  const folder = mkdtempSync(join(tmpdir(), "named-"));
  for (const name of ["b.xlsx", "a.xlsx", "c.xlsm", "~$a.xlsx", "notes.txt"]) writeFileSync(join(folder, name), "");
  mkdirSync(join(folder, "2026"));
  writeFileSync(join(folder, "2026", "d.xlsx"), "");
  const named = (...words: string[]) =>
    workbooksNamed(words, (typed) => join(folder, typed)).map(({ called }) => called.split("\\").join("/"));

  test("a file, a folder, a pattern that no shell wrote out, folders at any depth", () => {
    expect(named("a.xlsx", "nowhere.xlsx")).toEqual(["a.xlsx", "nowhere.xlsx"]);
    expect(named("2026")).toEqual(["2026/d.xlsx"]);
    expect(named("*.xlsx")).toEqual(["a.xlsx", "b.xlsx"]);
    expect(named("?.xlsm", "2*/*")).toEqual(["c.xlsm", "2026/d.xlsx"]);
    expect(named("**/*.xlsx")).toEqual(["2026/d.xlsx", "a.xlsx", "b.xlsx"]);
    expect(relative(folder, workbooksNamed(["2026"], (typed) => join(folder, typed))[0]?.file ?? "")).toBe(
      join("2026", "d.xlsx"),
    );
  });

  test("a folder or pattern without a workbook is a sentence", () => {
    expect(() => named("*.ods")).toThrow("no workbook is called *.ods");
    mkdirSync(join(folder, "empty"));
    expect(() => named("empty")).toThrow("there is no workbook in empty");
  });
});

describe("text out of a file, shown", () => {
  test("what steers a terminal or turns a line round is written out; a line stays one line", () => {
    expect(harmless("a\u001b[31mb\u202ec\td\r\ne\u0007")).toBe("a\\u001b[31mb\\u202ec d e\\u0007");
    const text = harmlessJson({ sheet: "a\u009b2Jb\u202e" });
    expect(text).not.toMatch(/[\u0080-\u009f\u202e]/);
    expect(JSON.parse(text)).toEqual({ sheet: "a\u009b2Jb\u202e" });
  });
});
