import { readFileSync, writeFileSync } from "node:fs";
import { zipSync } from "fflate";
import { describe, expect, test } from "vitest";
import { command, partsOf, place, rows, written } from "./support/workbooks";

/** Whatever the file, the command ends soon with one clear sentence and leaves the file as it was. */
function refused(file: string, message: RegExp, ...options: string[]): void {
  const before = readFileSync(file);
  const { out, err, code } = command("recalc", file, ...options);
  expect(err).toMatch(message);
  expect(err).not.toMatch(/\n\s+at /);
  expect({ out, code }).toEqual({ out: "", code: 2 });
  expect(readFileSync(file).equals(before)).toBe(true);
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

  test("no such file", () => {
    const { err, code } = command("recalc", place("nowhere.xlsx"));
    expect(err).toMatch(/nowhere\.xlsx cannot be read/);
    expect(code).toBe(2);
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

  test("XML that does not close", () => {
    const broken = { ...sound, "xl/worksheets/sheet1.xml": "<worksheet><sheetData><row r='1'><c r='A1'><f>1" };
    refused(written("unclosed.xlsx", broken), /damaged: <sheetData> is not closed/);
  });

  test("a part that unpacks to gigabytes is not unpacked", () => {
    const zeros = new Uint8Array(151 * 2 ** 20);
    const parts = Object.fromEntries(
      Object.entries(sound).map(([name, text]) => [name, new TextEncoder().encode(text)]),
    );
    writeFileSync(place("bomb.xlsx"), zipSync({ ...parts, "xl/media/zeros.bin": zeros }, { level: 9 }));
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

  test("entities that multiply", () => {
    const bomb = `<?xml version="1.0"?><!DOCTYPE x [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;">]>${sound["xl/worksheets/sheet1.xml"] as string}`;
    refused(written("entities.xlsx", { ...sound, "xl/worksheets/sheet1.xml": bomb }), /declares its own entities/);
  });

  test("formulas in a circle, directly, through a spill, a name and a table-wide distance", () => {
    refused(written("circle.xlsx", partsOf({ A: rows(["=B1|0", "=A!A1+1|0"]) })), /circle .*A!A1 → A!B1 → A!A1/);
    refused(written("itself.xlsx", partsOf({ A: rows(["=SUM(A1:A9)|0"]) })), /A!A1 → A!A1/);
    const named = '<definedNames><definedName name="all">A!$A$1:$A$9</definedName></definedNames>';
    refused(written("named.xlsx", partsOf({ A: rows(["=SUM(all)|0"]) }, named)), /A!A1 → A!A1/);
    const two = partsOf({ A: rows(["=SUM(B!A:A)|0"]), B: rows(["=A!A1|0"]) });
    refused(written("two.xlsx", two), /A!A1 → B!A1 → A!A1/);
  });

  test("asking only where a range is makes no circle", () => {
    const { code } = command("recalc", written("place.xlsx", partsOf({ A: rows(["=ROW(A1)+ROWS(A1:A5)|6"]) })));
    expect(code).toBe(0);
  });

  test("references of a million rows are worked out or given up within the limits", () => {
    const file = written("million.xlsx", partsOf({ A: rows([1, "=SUM(A1:A1000000)|1", "=SUM(A1:A1048576*2)|2"]) }));
    const begun = performance.now();
    const { code } = command("recalc", file);
    expect(performance.now() - begun).toBeLessThan(60_000);
    expect(code).toBe(0);
  });

  test("a result of billions of cells is stopped", () => {
    const file = written("billions.xlsx", partsOf({ A: rows([1, "=SUM(A1:XFD1048576)|1"]) }));
    refused(
      file,
      /billions\.xlsx (needed more than \d+ MB of memory|took longer than 20 seconds) and was stopped/,
      "--seconds",
      "20",
    );
  });

  test("an array area that claims a whole sheet", () => {
    const cell = '<row r="1"><c r="B1"><f t="array" ref="B1:XFD1048576">_xldudf_YARN_VERSION()</f><v>1</v></c></row>';
    const { err, code } = command("recalc", written("claims.xlsx", partsOf({ A: cell })));
    expect(err).toMatch(/1 cells compared, 1 differ/);
    expect(code).toBe(1);
  });

  test("a chain of twenty thousand formulas", () => {
    const chain = Array.from({ length: 20_000 }, (_, index) => [index === 0 ? 1 : `=A${index}+1|${index + 1}`]);
    const { err, code } = command("recalc", written("chain.xlsx", partsOf({ A: rows(...chain) })));
    expect(err).toMatch(/19999 cells compared, none differ/);
    expect(code).toBe(0);
  });
});

function uint32(value: number): Buffer {
  const bytes = Buffer.alloc(4);
  bytes.writeUInt32LE(value);
  return bytes;
}
