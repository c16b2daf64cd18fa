import { spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { format } from "node:util";
import { deflateRawSync } from "node:zlib";
import { strFromU8, unzipSync, Zip, ZipPassThrough, zipSync, type ZipInputFile } from "fflate";
import { expect } from "vitest";

const folder = mkdtempSync(join(tmpdir(), "workbooks-"));

/** Where a test file may write: a folder of its own, for files of one worker share what is loaded, this too. */
export function place(name: string): string {
  const own = join(folder, (expect.getState().testPath ?? "").split("/").slice(-2).join("-"));
  mkdirSync(own, { recursive: true });
  return join(own, name);
}

const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const DOCUMENT = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const PACKAGE = "http://schemas.openxmlformats.org/package/2006";

/** The text of sheets, by name, as the parts of the smallest workbook that holds them. */
export function partsOf(sheets: Record<string, string>, around = ""): Record<string, string> {
  const names = Object.keys(sheets);
  const parts: Record<string, string> = {
    "[Content_Types].xml": `<Types xmlns="${PACKAGE}/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Override PartName="/xl/workbook.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"/>${names
      .map(
        (_, index) =>
          `<Override PartName="/xl/worksheets/sheet${index + 1}.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"/>`,
      )
      .join("")}</Types>`,
    "_rels/.rels": `<Relationships xmlns="${PACKAGE}/relationships"><Relationship Id="rId1" Type="${DOCUMENT}/officeDocument" Target="xl/workbook.xml"/></Relationships>`,
    "xl/workbook.xml": `<workbook xmlns="${MAIN}" xmlns:r="${DOCUMENT}"><sheets>${names
      .map((name, index) => `<sheet name="${name}" sheetId="${index + 1}" r:id="rId${index + 1}"/>`)
      .join("")}</sheets>${around}<calcPr calcId="191029" fullCalcOnLoad="1"/></workbook>`,
    "xl/_rels/workbook.xml.rels": `<Relationships xmlns="${PACKAGE}/relationships">${names
      .map(
        (_, index) =>
          `<Relationship Id="rId${index + 1}" Type="${DOCUMENT}/worksheet" Target="worksheets/sheet${index + 1}.xml"/>`,
      )
      .join("")}</Relationships>`,
  };
  names.forEach((name, index) => {
    parts[`xl/worksheets/sheet${index + 1}.xml`] =
      `<worksheet xmlns="${MAIN}"><sheetData>${sheets[name] as string}</sheetData></worksheet>`;
  });
  return parts;
}

/** Writes parts as a workbook file. */
export function written(name: string, parts: Record<string, string>): string {
  const file = place(name);
  const bytes = Object.fromEntries(Object.entries(parts).map(([part, text]) => [part, new TextEncoder().encode(text)]));
  writeFileSync(file, zipSync(bytes, { level: 1 }));
  return file;
}

/** Writes parts as a workbook file with one more, of zeros, that would unpack to more than is opened. */
export function writtenBomb(name: string, parts: Record<string, string>): string {
  const packed: Uint8Array[] = [];
  const zip = new Zip((_, chunk) => packed.push(chunk));
  for (const [part, text] of Object.entries(parts)) {
    const whole = new ZipPassThrough(part);
    zip.add(whole);
    whole.push(new TextEncoder().encode(text), true);
  }
  // Packed by zlib, which takes a quarter of the time; the checksum is that of no part.
  const size = 151 * 2 ** 20;
  const zeros: ZipInputFile = { filename: "xl/zeros.bin", size, crc: 0, compression: 8 };
  zip.add(zeros);
  zeros.ondata?.(null, deflateRawSync(new Uint8Array(size)), true);
  zip.end();
  const file = place(name);
  writeFileSync(file, Buffer.concat(packed));
  return file;
}

/** One row of cells for each list; a string that starts with "=" is a formula with a saved value after "|". */
export function rows(...lists: (string | number)[][]): string {
  return lists
    .map((cells, r) => {
      const inner = cells.map((cell, c) => {
        const address = `${String.fromCharCode(65 + c)}${r + 1}`;
        if (typeof cell === "number") return `<c r="${address}"><v>${cell}</v></c>`;
        const [formula, saved] = cell.slice(1).split("|") as [string, string | undefined];
        const text = formula.replace(/&/g, "&amp;").replace(/</g, "&lt;");
        return `<c r="${address}"><f>${text}</f>${saved === undefined ? "" : `<v>${saved}</v>`}</c>`;
      });
      return `<row r="${r + 1}">${inner.join("")}</row>`;
    })
    .join("");
}

/** The text of every part of a file. */
export function textsOf(file: string): Record<string, string> {
  return Object.fromEntries(
    Object.entries(unzipSync(readFileSync(file))).map(([name, bytes]) => [name, strFromU8(bytes)]),
  );
}

/** What a command printed, and the code with which it ended. */
interface Told {
  readonly out: string;
  readonly err: string;
  readonly code: number | null;
}

/** Starts a command as a person does, in processes of its own. */
export function started(name: Command, ...words: string[]): Told {
  const { stdout, stderr, status } = spawnSync(process.execPath, ["bin/run.mjs", name, ...words], {
    encoding: "utf8",
    maxBuffer: 2 ** 26,
  });
  return { out: stdout, err: stderr, code: status };
}

const COMMANDS = {
  calc: () => import("../../src/recalculate/calc"),
  recalc: () => import("../../src/recalculate/recalc"),
  plain: () => import("../../src/recalculate/plain"),
  mend: () => import("../../src/recalculate/mend"),
  vary: () => import("../../src/recalculate/vary"),
};

type Command = keyof typeof COMMANDS;

/** Calls a command in this process, from the sources: a start costs most of a second, which is proved once a command. */
export async function command(name: Command, ...words: string[]): Promise<Told> {
  const { main } = await COMMANDS[name]();
  const told = { out: "", err: "" };
  const { log, error } = console;
  console.log = (...shown) => (told.out += `${format(...shown)}\n`);
  console.error = (...shown) => (told.err += `${format(...shown)}\n`);
  try {
    const code = await main(words, process.cwd());
    return { ...told, code };
  } finally {
    Object.assign(console, { log, error });
  }
}
