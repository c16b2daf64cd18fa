import { inChildren, LIMITS, type Limits } from "./children";
import { Complaint, running } from "./command-line";
import { refuseSameFile } from "./files";
import { progressOf } from "./progress";
import { failed, type Job, type Recalculated } from "./recalculation";

const USAGE =
  "npm run recalc -- WORKBOOK.xlsx [more …] [--out NEW.xlsx] [--json] [--report FILE.html|FILE.xlsx] [--seconds N]";

const OPTIONS = {
  out: { type: "string" },
  json: { type: "boolean" },
  report: { type: "string" },
  seconds: { type: "string" },
} as const;

/** Recalculates a person's own workbooks and tells every cell whose saved value differs. */
export function main(typed: string[], startedIn: string): Promise<number> {
  return running(USAGE, OPTIONS, typed, startedIn, async ({ options, words, path }) => {
    if (words.length === 0) throw new Complaint(`usage: ${USAGE}`);
    const { out, report, json } = options;
    if (out !== undefined && words.length > 1) throw new Complaint("--out takes one workbook at a time");
    if (report !== undefined && !/\.(html|xlsx)$/i.test(report)) throw new Complaint("--report writes .html or .xlsx");
    for (const written of [out, report]) {
      if (written !== undefined) for (const word of words) refuseSameFile(path(written), path(word), written);
    }
    const jobs = words.map((word): Job => ({ file: path(word), called: word, ...(out ? { out: path(out) } : {}) }));
    const limits = { ...LIMITS, seconds: secondsIn(options.seconds) };
    const results = await recalculated(jobs, limits);
    for (const result of results) (json ? tellAsJson : tell)(result, results.length > 1);
    if (out !== undefined) tellWritten(out, results[0] as Recalculated);
    if (report !== undefined) await (await import("./report")).writeReport(path(report), results);
    return exitCode(results);
  });
}

/** A workbook that takes too much is taken up again for our calls alone: native formulas never cost a verdict on them. */
async function recalculated(jobs: readonly Job[], limits: Limits): Promise<Recalculated[]> {
  const stopped = new Map<Job, string>();
  const inTime = (some: readonly Job[], done?: (finished: number) => void) =>
    inChildren(
      "recalculate",
      some,
      limits,
      (job, why) => {
        stopped.set(job, why);
        return failed(job.called, `${job.called} ${why}`);
      },
      done,
    );
  const results = await inTime(jobs, progressOf(jobs.length, "workbooks"));
  const again = jobs.filter((job) => stopped.has(job));
  const later = await inTime(again.map((job) => ({ ...job, oursOnly: stopped.get(job) as string })));
  return results.map((result, index) => later[again.indexOf(jobs[index] as Job)] ?? result);
}

function secondsIn(given: string | undefined): number {
  if (given === undefined) return LIMITS.seconds;
  const seconds = Number(given);
  if (!(seconds > 0)) throw new Complaint(`--seconds is ${given}; must be a number above 0`);
  return seconds;
}

function tellAsJson(result: Recalculated): void {
  console.log(JSON.stringify(result));
}

function tell(
  {
    workbook,
    cells,
    passedOver,
    differences,
    unreproduced,
    notRecalculated,
    nativeUnjudged,
    neverCalculated,
    faults,
    taken,
    error,
  }: Recalculated,
  several: boolean,
): void {
  if (error !== undefined) {
    console.error(error);
    return;
  }
  for (const { sheet, cell, message } of [...faults, ...taken])
    console.error(`${workbook}: ${sheet}!${cell}: ${message}`);
  for (const { sheet, cell, saved, now, message } of unreproduced.slice(0, MOST_TOLD)) {
    const why = message === "" ? `this engine gives ${shown(now)}` : message;
    console.error(`${workbook}: ${sheet}!${cell}: ${shown(saved)} is not reproduced here: ${why}`);
  }
  if (unreproduced.length > 0) {
    console.error(
      `${workbook}: ${unreproduced.length} native cells not reproduced here: stale, or beyond this engine; open it in a spreadsheet program`,
    );
  }
  if (nativeUnjudged !== undefined) {
    console.error(`${workbook}: with its native formulas it ${nativeUnjudged}, so calls of ours alone were worked out`);
  }
  if (neverCalculated > 0) {
    console.error(`${workbook}: ${neverCalculated} formulas had no saved value and were worked out from nothing`);
  }
  if (notRecalculated.length > 0) {
    const some = notRecalculated.slice(0, MOST_TOLD).map(({ sheet, cell }) => `${sheet}!${cell}`);
    const more = notRecalculated.length > MOST_TOLD ? " and more" : "";
    console.error(
      `${workbook}: ${notRecalculated.length} native cells read what differs and keep their saved values: ${some.join(", ")}${more}`,
    );
  }
  if (differences.length > 0) {
    if (several) console.log(workbook);
    console.log(["sheet", "cell", "saved", "now", "message"].join("\t"));
    for (const { sheet, cell, saved, now, message } of differences) {
      console.log([sheet, cell, shown(saved), shown(now), message].join("\t"));
    }
  }
  const chance =
    passedOver > 0
      ? `, ${passedOver} formulas not compared (they depend on the clock, on chance or on a function not known here)`
      : "";
  console.error(`${workbook}: ${cells} cells compared, ${differences.length || "none"} differ${chance}`);
}

/** The rest is in --json. */
const MOST_TOLD = 10;

function shown(value: string | number | boolean | null): string {
  if (value === null) return "(nothing)";
  if (typeof value === "boolean") return value ? "TRUE" : "FALSE";
  return String(value).replace(/[\t\r\n]+/g, " ");
}

function tellWritten(out: string, { error, faults }: Recalculated): void {
  if (error !== undefined) console.error(`${out} was not written`);
  else console.error(`${out} written${faults.length > 0 ? "; the cells named above keep their saved values" : ""}`);
}

/** 0 when all is as saved, 1 when a cell differs or cannot be right, 2 when a workbook could not be read. */
function exitCode(results: readonly Recalculated[]): number {
  if (results.some(({ error }) => error !== undefined)) return 2;
  return results.some(({ differences, faults }) => differences.length + faults.length > 0) ? 1 : 0;
}
