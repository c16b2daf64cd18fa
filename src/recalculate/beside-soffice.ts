import { spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { openBook, type Book } from "./book";
import { formulasOf } from "./calculation";
import { Complaint } from "./command-line";
import { sameAsSaved } from "./compare";
import { bytesOf, type Job } from "./recalculation";
import { valueIn } from "./stored-text";

/** How another spreadsheet program, where it is installed, recalculates a workbook. */
export interface Beside {
  readonly workbook: string;
  /** Nothing where the program did not load it. */
  readonly cells?: number;
  readonly differing?: number;
  readonly seconds: number;
}

/** The setting that every formula is worked out again whoever saved the file. */
const ALWAYS_RECALCULATE = `<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry"><item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>0</value></prop></item></oor:items>
`;

export function besideSoffice(jobs: readonly Job[], seconds: number): Beside[] {
  const folder = mkdtempSync(join(tmpdir(), "beside-"));
  try {
    mkdirSync(join(folder, "profile", "user"), { recursive: true });
    writeFileSync(join(folder, "profile", "user", "registrymodifications.xcu"), ALWAYS_RECALCULATE);
    return jobs.map((job) => besideOf(job, folder, seconds));
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function besideOf({ file, called }: Job, folder: string, seconds: number): Beside {
  const out = mkdtempSync(join(folder, "out-"));
  const started = performance.now();
  const { error } = spawnSync(
    "soffice",
    [
      "--headless",
      `-env:UserInstallation=${pathToFileURL(join(folder, "profile")).href}`,
      "--convert-to",
      "xlsx:Calc MS Excel 2007 XML",
      "--outdir",
      out,
      file,
    ],
    { stdio: "ignore", timeout: seconds * 1000, killSignal: "SIGKILL" },
  );
  if (error !== undefined && (error as NodeJS.ErrnoException).code === "ENOENT") {
    throw new Complaint("soffice is not installed, or not in the PATH");
  }
  const took = (performance.now() - started) / 1000;
  const [written] = readdirSync(out);
  if (written === undefined) return { workbook: called, seconds: took };
  try {
    const before = openBook(bytesOf(file), called);
    return {
      workbook: called,
      seconds: took,
      ...comparedCells(before, openBook(bytesOf(join(out, written)), written)),
    };
  } catch {
    return { workbook: called, seconds: took };
  }
}

function comparedCells(before: Book, after: Book): { cells: number; differing: number } {
  let [cells, differing] = [0, 0];
  for (const { sheet, cell, calls, volatile } of formulasOf(before)) {
    // Our functions are not known there, and what depends on the clock has no right value.
    if (calls || volatile || !cell.hasValue) continue;
    const now = after.sheets.find(({ name }) => name === sheet.name)?.part.find(cell.row, cell.column);
    cells++;
    const value = now === undefined ? null : valueIn(now.value, after.shared);
    if (!sameAsSaved(valueIn(cell.value, before.shared), value)) differing++;
  }
  return { cells, differing };
}
