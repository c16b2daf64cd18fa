import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { addressOf } from "./addresses";
import { openBook, type Book } from "./book";
import { put } from "./dynamic-arrays";
import { failed } from "./failed";
import { makeMended } from "./mended-copy";
import { packed } from "./packing";
import { makePlain } from "./plain-copy";
import { recalculate, type Job, type Recalculated } from "./recalculation";

/** Two calls of ours beside what a workbook holds, as typed without the functions, each with a value that is wrong. */
const CALLS = ['YARN.COUNT(24,"Nm","tex")', 'YARN.COUNT(10,"NeC","NeW")+1'];

/** What became of a workbook into which two calls were put, after each way of writing a copy. */
export interface CallsTried {
  readonly workbook: string;
  /** Cells of other formulas and values that a copy changed, though they had a value; each of them is a fault. */
  readonly others: readonly string[];
  /** Calls of ours that a copy left as they were. */
  readonly missed: readonly string[];
  /** Formulas that never had a value and got one. */
  readonly filled: number;
  readonly error?: string;
}

/** Puts two calls into a copy of a workbook, and sees which cells plain, mend and recalc --out change. */
export function tryCalls({ file, called }: Job): CallsTried {
  const folder = mkdtempSync(join(tmpdir(), "with-calls-"));
  try {
    const book = openBook(readFileSync(file), called);
    const [sheet] = book.sheets as [Book["sheets"][number]];
    let [bottom, right] = [0, 0];
    for (const { row, column } of sheet.part.cells()) {
      bottom = Math.max(bottom, row);
      right = Math.max(right, column);
    }
    const ours = CALLS.map((text, index) => {
      const cell = sheet.part.cell(bottom + 2 + index, right + 2);
      cell.write({ type: undefined, text: "1" }, { attributes: {}, text });
      return `${sheet.name}!${addressOf(cell.row, cell.column)}`;
    });
    put(book.parts, sheet.partName, sheet.part.xml);
    const start = join(folder, "with-calls.xlsx");
    writeFileSync(start, packed(book.parts));
    const before = cellsOf(start);
    const ways: Readonly<
      Record<string, (job: Job & { out: string }) => Pick<Recalculated, "error"> | { error?: string }>
    > = {
      plain: makePlain,
      mend: makeMended,
      "recalc --out": recalculate,
    };
    const [others, missed]: [string[], string[]] = [[], []];
    let filled = 0;
    for (const [way, make] of Object.entries(ways)) {
      const out = join(folder, "copy.xlsx");
      const { error } = make({ file: start, called, out });
      if (error !== undefined) return { workbook: called, others, missed, filled, error: `${way}: ${error}` };
      const after = cellsOf(out);
      for (const place of new Set([...before.keys(), ...after.keys()])) {
        const [was, is] = [before.get(place), after.get(place)];
        const isOurs = ours.includes(place);
        if (isOurs && was?.xml === is?.xml) missed.push(`${way} ${place}`);
        if (isOurs || was?.xml === is?.xml) continue;
        if (was?.hasValue === false) filled++;
        else others.push(`${way} ${place}`);
      }
    }
    return { workbook: called, others, missed, filled };
  } catch (fault) {
    return { workbook: called, others: [], missed: [], filled: 0, error: (fault as Error).message };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** What never got to an end. */
export function callsNotTried(job: Job, error: string): CallsTried {
  return { workbook: failed(job, error, "internal").workbook, others: [], missed: [], filled: 0, error };
}

function cellsOf(file: string): Map<string, { readonly xml: string; readonly hasValue: boolean }> {
  const found = new Map<string, { xml: string; hasValue: boolean }>();
  for (const { name, part } of openBook(readFileSync(file), file).sheets) {
    for (const cell of part.cells())
      found.set(`${name}!${cell.address}`, { xml: cell.xml.trim(), hasValue: cell.hasValue });
  }
  return found;
}
