import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { basename } from "node:path";
import { unzipSync, zipSync } from "fflate";
import { describe, expect, test } from "vitest";
import { inChildren } from "../src/recalculate/children";
import { failed } from "../src/recalculate/failed";
import type { Limits } from "../src/recalculate/limits";
import { recalculate, type Job, type Recalculated } from "../src/recalculate/recalculation";
import { partsOf, place, rows, started, written, writtenBomb } from "./support/workbooks";

/** Whatever the file, there is one clear sentence and the file stays as it was. */
function refused(file: string, message: RegExp): void {
  const before = readFileSync(file);
  const { error, cells } = recalculate({ file, called: basename(file), out: place("never.xlsx") });
  expect(error).toMatch(message);
  expect(error).not.toMatch(/\n/);
  expect(cells).toBe(0);
  expect(existsSync(place("never.xlsx"))).toBe(false);
  expect(readFileSync(file).equals(before)).toBe(true);
}

/** The same in processes that are held to limits. */
function heldTo(limits: Limits, ...files: string[]): Promise<Recalculated[]> {
  const jobs = files.map((file): Job => ({ file, called: basename(file) }));
  return inChildren<Job, Recalculated>("recalculate", jobs, limits, (one, why, code) =>
    failed(one, `${one.called} ${why}`, code),
  );
}

function workedOut(parts: Record<string, string>): Recalculated {
  return recalculate({ file: written("one.xlsx", parts), called: "one.xlsx" });
}

const sound = partsOf({ Sheet1: rows(["=1+1|2"]) });

describe("a hostile or broken file ends in a clear error", () => {
  test("not a workbook at all", () => {
    writeFileSync(place("text.xlsx"), "just text");
    refused(place("text.xlsx"), /text\.xlsx is not an \.xlsx workbook/);
    writeFileSync(place("empty.xlsx"), "");
    refused(place("empty.xlsx"), /is empty/);
    writeFileSync(place("old.xlsx"), new Uint8Array([0xd0, 0xcf, 0x11, 0xe0, 0, 0]));
    refused(place("old.xlsx"), /old binary format or locked with a password/);
  });

  test("the command tells it on standard error, without a stack, and ends with code 2", () => {
    const { out, err, code } = started("recalc", place("nowhere.xlsx"), place("text.xlsx"));
    expect(err).toMatch(/nowhere\.xlsx cannot be read/);
    expect(err).toMatch(/text\.xlsx is not an \.xlsx workbook/);
    expect(err).not.toMatch(/\n\s+at /);
    expect({ out, code }).toEqual({ out: "", code: 2 });
  });

  test("cut off in the middle", () => {
    const whole = readFileSync(written("whole.xlsx", sound));
    writeFileSync(place("half.xlsx"), whole.subarray(0, whole.length / 2));
    refused(place("half.xlsx"), /damaged and cannot be unpacked/);
  });

  test("parts missing", () => {
    for (const part of Object.keys(sound)) {
      const fewer = Object.fromEntries(Object.entries(sound).filter(([name]) => name !== part));
      refused(written("missing.xlsx", fewer), /has no |is missing/);
    }
  });

  test("a sheet of macros from an old program, which has no part, is no damage", () => {
    const listed = (sound["xl/workbook.xml"] as string).replace(
      "</sheets>",
      '<sheet name="Module1" sheetId="9" state="veryHidden" r:id=""/></sheets>',
    );
    expect(workedOut({ ...sound, "xl/workbook.xml": listed })).toMatchObject({ cells: 1, unreproduced: [] });
  });

  // XML 1.0, 2.5: what stands in a comment is no part of the document.
  test("cells in comments are none", () => {
    const comment = '<!-- <row r="1"><c r="A1"><f>1+1</f><v>7</v></c></row></sheetData> -->';
    const cells = `${comment}<row r="1"><!-- <c r="Z1"><f>1</f><v>9</v></c> --><c r="A1"><f>1+1</f><v>2<!-- </v></c> --></v></c></row>`;
    expect(workedOut(partsOf({ S: cells }))).toMatchObject({ formulas: 1, cells: 1, unreproduced: [] });
  });

  test("a formula of eight thousand characters, and a text that no cell takes", () => {
    const long = `=${Array.from({ length: 3990 }, () => 1).join("+")}|3990`;
    expect(long.length).toBeGreaterThan(7980);
    expect(workedOut(partsOf({ S: rows([long]) }))).toMatchObject({ cells: 1, unreproduced: [], taken: [] });
    const parts = partsOf({ S: rows(['=REPT("a",40000)', "=LEN(B1)+1|1", "=1+1|2"]) });
    const out = place("long-text.xlsx");
    const told = recalculate({ file: written("long-text.xlsx", parts), called: "long-text.xlsx", out: `${out}.out` });
    expect(told.error).toBeUndefined();
    const sheet = new TextDecoder().decode(unzipSync(readFileSync(`${out}.out`))["xl/worksheets/sheet1.xml"]);
    expect(sheet).toContain("<v>#VALUE!</v>");
    expect(sheet).not.toContain("aaaa");
  });

  test("XML that does not close", () => {
    const broken = { ...sound, "xl/worksheets/sheet1.xml": "<worksheet><sheetData><row r='1'><c r='A1'><f>1" };
    refused(written("unclosed.xlsx", broken), /damaged: <sheetData> is not closed/);
  });

  test("a part that unpacks to gigabytes is not unpacked", () => {
    writtenBomb("bomb.xlsx", sound);
    refused(place("bomb.xlsx"), /would unpack to more than 150 MB/);
  });

  test("a part that is larger than it says", () => {
    const text = (sound["xl/worksheets/sheet1.xml"] as string).replace(
      "<sheetData>",
      `<!--${"x".repeat(50_000)}--><sheetData>`,
    );
    const file = written("liar.xlsx", { ...sound, "xl/worksheets/sheet1.xml": text });
    const bytes = readFileSync(file);
    // Both places that say how long the unpacked part is.
    for (let at = bytes.indexOf(uint32(text.length)); at >= 0; at = bytes.indexOf(uint32(text.length), at + 1)) {
      bytes.writeUInt32LE(100, at);
    }
    writeFileSync(file, bytes);
    refused(file, /liar\.xlsx is damaged/);
  });

  test("a digit changed in a part that is not packed", () => {
    const file = place("digit.xlsx");
    const parts = Object.entries(sound).map(([name, text]) => [name, new TextEncoder().encode(text)] as const);
    const bytes = Buffer.from(zipSync(Object.fromEntries(parts), { level: 0 }));
    const at = bytes.indexOf("<v>2</v>");
    expect(at).toBeGreaterThan(0);
    bytes.write("<v>3</v>", at);
    writeFileSync(file, bytes);
    refused(file, /digit\.xlsx is damaged: its part xl\/worksheets\/sheet1\.xml is not as it was written/);
  });

  test("entities that multiply", () => {
    const bomb = `<?xml version="1.0"?><!DOCTYPE x [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;">]>${sound["xl/worksheets/sheet1.xml"] as string}`;
    refused(written("entities.xlsx", { ...sound, "xl/worksheets/sheet1.xml": bomb }), /declares its own entities/);
  });

  test("formulas never calculated that read each other in a circle cost only their own cells", () => {
    const circles = [
      { parts: partsOf({ A: rows(["=B1|", "=A!A1+1|", "=1+1|2"]) }), cells: ["A!A1", "A!B1"] },
      { parts: partsOf({ A: rows(["=SUM(A1:A9)|", "=1+1|2"]) }), cells: ["A!A1"] },
      {
        parts: partsOf(
          { A: rows(["=SUM(all)|", "=1+1|2"]) },
          '<definedNames><definedName name="all">A!$A$1:$A$9</definedName></definedNames>',
        ),
        cells: ["A!A1"],
      },
      { parts: partsOf({ A: rows(["=SUM(B!A:A)|", "=1+1|2"]), B: rows(["=A!A1|"]) }), cells: ["A!A1", "B!A1"] },
    ];
    for (const { parts, cells } of circles) {
      const { taken, error, cells: compared, differences, unreproduced } = workedOut(parts);
      expect({ error, compared, differences, unreproduced }).toEqual({
        error: undefined,
        compared: 1,
        differences: [],
        unreproduced: [],
      });
      expect(taken.map(({ sheet, cell }) => `${sheet}!${cell}`).sort()).toEqual(cells);
      for (const { message } of taken) expect(message).toMatch(/reads itself in a circle/);
    }
  });

  test("a call of ours in a circle that iteration has not quite settled is left to the program that iterates", () => {
    const cells = rows([
      '=_xldudf_YARN_COUNT(B1,"NeC","NeW")|15',
      "=A1/2+2.4999|10",
      '=_xldudf_YARN_COUNT(4,"NeC","NeW")|7',
    ]);
    const iterating = partsOf({ A: cells });
    iterating["xl/workbook.xml"] = (iterating["xl/workbook.xml"] as string).replace("<calcPr ", '<calcPr iterate="1" ');
    const off = rows(['=_xldudf_YARN_COUNT(B1,"NeC","NeW")|15.01', "=A1/2+2.5|10"]);
    expect(workedOut(iterating)).toMatchObject({ differences: [{ cell: "C1", saved: 7, now: 6 }] });
    const settling = {
      ...iterating,
      "xl/worksheets/sheet1.xml": partsOf({ A: off })["xl/worksheets/sheet1.xml"] as string,
    };
    expect(workedOut(settling)).toMatchObject({ differences: [], taken: [{ cell: "A1" }, { cell: "B1" }] });
    // Without iteration there is nothing to wait for.
    expect(workedOut(partsOf({ A: off }))).toMatchObject({ differences: [{ cell: "A1", saved: 15.01, now: 15 }] });
  });

  test("a circle that was calculated, as with iteration, is read with its saved values", () => {
    const settled = partsOf({ A: rows(["=B1/2+1|2", "=A1|2"]) });
    expect(workedOut(settled)).toMatchObject({ cells: 2, differences: [], unreproduced: [] });
  });

  test("asking only where a range is makes no circle", () => {
    expect(workedOut(partsOf({ A: rows(["=ROW(A1)+ROWS(A1:A5)|6"]) }))).toMatchObject({ cells: 1, differences: [] });
  });

  test("references of a million rows are worked out within the limits", async () => {
    const file = written("million.xlsx", partsOf({ A: rows([1, "=SUM(A1:A1000000)|1", "=SUM(A1:A1048576*2)|2"]) }));
    const [result] = await heldTo({ megabytes: 2048, seconds: 50 }, file);
    expect(result).toMatchObject({ cells: 2, differences: [] });
  });

  test("what needs too much memory is stopped, each time", async () => {
    const file = written("millions.xlsx", partsOf({ A: rows(["=SUM(B1:B9999*B2:XFD2)|1"]) }));
    const small = written("small.xlsx", partsOf({ A: rows(["=SUM(B1:B9*B2:D2)|0"]) }));
    const results = await heldTo({ megabytes: 64, seconds: 50 }, small, file, file);
    const why = "millions.xlsx needed more than 64 MB of memory and was stopped";
    expect(results.map(({ error }) => error)).toEqual([undefined, why, why]);
  });

  test("what takes too long is stopped", async () => {
    const file = written("long.xlsx", partsOf({ A: rows([1, "=SUM(A1:CV1048576)|1"]) }));
    const [result] = await heldTo({ megabytes: 4096, seconds: 1 }, file);
    expect(result?.error).toBe("long.xlsx took longer than 1 seconds and was stopped");
  });

  test("an array area that claims a whole sheet", () => {
    const cell = '<row r="1"><c r="B1"><f t="array" ref="B1:XFD1048576">_xldudf_YARN_VERSION()</f><v>1</v></c></row>';
    expect(workedOut(partsOf({ A: cell }))).toMatchObject({ cells: 1, differences: [{ cell: "B1", saved: 1 }] });
  });

  test("a chain of twenty thousand formulas", () => {
    const chain = Array.from({ length: 20_000 }, (_, index) => [index === 0 ? 1 : `=A${index}+1|${index + 1}`]);
    expect(workedOut(partsOf({ A: rows(...chain) }))).toMatchObject({ cells: 19_999, differences: [] });
  });
});

function uint32(value: number): Buffer {
  const bytes = Buffer.alloc(4);
  bytes.writeUInt32LE(value);
  return bytes;
}
