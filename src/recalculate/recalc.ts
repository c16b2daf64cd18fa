import { readFileSync } from "node:fs";
import { basename, join } from "node:path";
import { hostIn } from "./calc-form";
import { LIMITS } from "./limits";
import { Complaint, running } from "./command-line";
import { fileTrouble } from "./file-trouble";
import { refuseSameFile } from "./files";
import { harmless, harmlessJson } from "./harmless";
import { clearProgress, progressOf } from "./progress";
import { recalculatedInTime } from "./recalculated-in-time";
import type { Job, Recalculated } from "./recalculation";
import { settingIn } from "./set-values";
import { ToldBefore } from "./told-before";
import { workbooksNamed, type NamedWorkbook } from "./workbooks-named";

const USAGE =
  "npm run recalc -- WORKBOOK.xlsx|FOLDER|'PATTERN*.xlsx' [more …] [--set Inputs!B4=0.03 …] [--from LIST] [--out NEW.xlsx | --out-dir FOLDER] [--json | --resume LINES.jsonl] [--report FILE.html|FILE.xlsx] [--tolerance 1e-9] [--ours-only] [--one-engine] [--strict] [--seconds N] [--for excel|calc]";

const OPTIONS = {
  set: { type: "string", multiple: true },
  from: { type: "string" },
  out: { type: "string" },
  "out-dir": { type: "string" },
  resume: { type: "string" },
  json: { type: "boolean" },
  report: { type: "string" },
  tolerance: { type: "string" },
  "ours-only": { type: "boolean" },
  "one-engine": { type: "boolean" },
  strict: { type: "boolean" },
  seconds: { type: "string" },
  for: { type: "string" },
} as const;

/** Recalculates a person's own workbooks and tells every cell whose saved value differs. */
export function main(typed: string[], startedIn: string): Promise<number> {
  return running(USAGE, OPTIONS, typed, startedIn, async ({ options, words, path }) => {
    const given = [...words, ...(options.from === undefined ? [] : linesIn(options.from, path))];
    if (given.length === 0) throw new Complaint(`usage: ${USAGE}`);
    const { out, "out-dir": outFolder, report, json, strict, resume } = options;
    if (out !== undefined && outFolder !== undefined) throw new Complaint("give --out or --out-dir, not both");
    if (report !== undefined && resume !== undefined) throw new Complaint("--report cannot go with --resume");
    const workbooks = workbooksNamed(given, path);
    if (outFolder !== undefined) refuseSameNames(workbooks);
    if (out !== undefined && workbooks.length > 1) throw new Complaint("--out takes one workbook at a time");
    if (report !== undefined && !/\.(html|xlsx)$/i.test(report)) throw new Complaint("--report writes .html or .xlsx");
    const copyOf = (file: string): string | undefined =>
      out !== undefined ? path(out) : outFolder === undefined ? undefined : join(path(outFolder), basename(file));
    for (const { file } of workbooks) {
      const copy = copyOf(file);
      if (copy !== undefined) refuseSameFile(copy, file, out ?? copy);
      if (report !== undefined) refuseSameFile(path(report), file, report);
      if (report !== undefined && copy !== undefined && path(report) === copy) {
        throw new Complaint(`--report and the copy would be one file, ${report}`);
      }
    }
    const host = hostIn(options.for);
    const tolerance = toleranceIn(options.tolerance);
    const set = (options.set ?? []).map(settingIn);
    const jobOf = (workbook: NamedWorkbook, copy = copyOf(workbook.file)): Job => ({
      ...workbook,
      host,
      ...(copy === undefined ? {} : { out: copy }),
      ...(tolerance === undefined ? {} : { tolerance }),
      ...(options["ours-only"] ? { oursOnly: ASKED } : {}),
      ...(set.length > 0 ? { set } : {}),
      ...(options["one-engine"] ? { oneEngine: true } : {}),
      ...(strict ? { strict } : {}),
      ...(report === undefined ? {} : { described: true }),
    });
    const limits = { ...LIMITS, seconds: secondsIn(options.seconds) };
    const told = resume === undefined ? undefined : new ToldBefore(path(resume), resume, exitCode);
    let code = 0;
    const jobs = workbooks
      .map((workbook) => jobOf(workbook))
      .filter((job) => {
        const before = told?.codeFor(job);
        code = Math.max(code, before ?? 0);
        return before === undefined;
      });
    const progress = progressOf(jobs.length, jobs.length === 1 ? "workbook" : "workbooks");
    const kept: Recalculated[] = [];
    // However many workbooks there are, the results of one batch at a time are held.
    for (let start = 0; start < jobs.length; start += BATCH) {
      const results = await recalculatedInTime(jobs.slice(start, start + BATCH), limits, (finished, result) => {
        clearProgress();
        if (told) told.add(result);
        else (json ? tellAsJson : tell)(result, workbooks.length > 1);
        progress(start + finished);
      });
      code = Math.max(code, ...results.map(exitCode));
      if (out !== undefined || report !== undefined) kept.push(...results);
    }
    if (resume !== undefined) console.error(`${resume}: ${jobs.length} done, ${workbooks.length - jobs.length} before`);
    if (out !== undefined) tellWritten(out, kept[0] as Recalculated);
    if (report !== undefined) {
      const [asked] = workbooks.map((workbook) => jobOf(workbook));
      await (await import("./report")).writeReport(path(report), kept, asked);
    }
    return code;
  });
}

const BATCH = 200;

/** The workbooks of a list, one a line; "-" is standard input. */
function linesIn(list: string, path: (typed: string) => string): string[] {
  let text: string;
  try {
    text = readFileSync(list === "-" ? 0 : path(list), "utf8");
  } catch (fault) {
    throw new Complaint(`${list} cannot be read: ${fileTrouble(fault)}`);
  }
  const lines = text
    .replace(/^\uFEFF/, "")
    .split(/\r?\n/)
    .filter((line) => line !== "");
  if (lines.length === 0) throw new Complaint(`${list} names no workbook`);
  return lines;
}

/** In one folder there is room for one copy of a name. */
function refuseSameNames(workbooks: readonly NamedWorkbook[]): void {
  const first = new Map<string, string>();
  for (const { file, called } of workbooks) {
    const name = basename(file).toLowerCase();
    const other = first.get(name);
    if (other !== undefined) throw new Complaint(`${other} and ${called} would be one file in --out-dir`);
    first.set(name, called);
  }
}

const ASKED = "--ours-only was given";

function toleranceIn(given: string | undefined): number | undefined {
  if (given === undefined) return undefined;
  const tolerance = Number(given);
  if (given.trim() === "" || !(tolerance >= 0 && tolerance < 1)) {
    throw new Complaint(`--tolerance is ${given}; must be a number from 0 to below 1, as 1e-9`);
  }
  return tolerance;
}

function secondsIn(given: string | undefined): number {
  if (given === undefined) return LIMITS.seconds;
  const seconds = Number(given);
  // A timer of the machine takes no more.
  if (!(seconds > 0 && seconds <= MOST_SECONDS)) {
    throw new Complaint(`--seconds is ${given}; must be a number above 0 and at most ${MOST_SECONDS}`);
  }
  return seconds;
}

const MOST_SECONDS = 2_000_000;

function tellAsJson(result: Recalculated): void {
  console.log(harmlessJson(result));
}

function tell(result: Recalculated, several: boolean): void {
  const { cells, passedOver, differences, unreproduced, recalculated, notRecalculated } = result;
  const { nativeUnjudged, neverCalculated, engines } = result;
  const workbook = harmless(result.workbook);
  const say = (text: string) => console.error(`${workbook}: ${text}`);
  if (result.error !== undefined) {
    console.error(harmless(result.error));
    return;
  }
  for (const { sheet, cell, message } of [...result.faults, ...result.taken]) {
    say(harmless(`${sheet}!${cell}: ${message}`));
  }
  for (const { sheet, cell, saved, now, message, sure, circular } of unreproduced.slice(0, MOST_TOLD)) {
    const engine = sure ? "both engines give" : "this engine gives";
    const why = message === "" ? `${engine} ${shown(now)}` : message;
    const verdict = sure && !circular ? "surely stale" : "not reproduced here";
    say(harmless(`${sheet}!${cell}: ${shown(saved)} is ${verdict}: ${why}`));
  }
  if (unreproduced.length > 0) {
    say(
      `${counted(unreproduced.length, "native cell")} not reproduced here: stale, or beyond ${engines === 1 ? "the one engine that was asked (npm install brings a second)" : "both engines"}; open it in a spreadsheet program`,
    );
  }
  if (nativeUnjudged !== undefined) say(`${nativeUnjudged}, so calls of ours alone were worked out`);
  if (neverCalculated > 0) {
    say(`${counted(neverCalculated, "formula")} had no saved value and were worked out from nothing`);
  }
  for (const { sheet, cell, message } of notRecalculated.slice(0, MOST_TOLD)) {
    say(harmless(`${sheet}!${cell}: not recalculated, because ${message}; it keeps its saved value`));
  }
  if (notRecalculated.length > 0) {
    say(`${counted(notRecalculated.length, "cell")} not recalculated although what they read has changed`);
  }
  if (several && differences.length + recalculated.length > 0) console.log(workbook);
  table(["sheet", "cell", "saved", "now", "message"], differences);
  table(["sheet", "cell", "saved", "recalculated", "message"], recalculated);
  const chance =
    passedOver > 0
      ? `, ${counted(passedOver, "formula")} not compared (they depend on the clock, on chance or on a function not known here)`
      : "";
  say(`${counted(cells, "cell")} compared, ${differences.length || "none"} differ${chance}`);
}

function table(headers: readonly string[], cells: Recalculated["differences"]): void {
  if (cells.length === 0) return;
  console.log(headers.join("\t"));
  for (const { sheet, cell, saved, now, message } of cells) {
    console.log([sheet, cell, shown(saved), shown(now), message].map(harmless).join("\t"));
  }
}

/** The rest is in --json. */
const MOST_TOLD = 10;

function counted(count: number, what: string): string {
  return `${count} ${what}${count === 1 ? "" : "s"}`;
}

function shown(value: string | number | boolean | null): string {
  if (value === null) return "(nothing)";
  if (typeof value === "boolean") return value ? "TRUE" : "FALSE";
  return String(value);
}

function tellWritten(out: string, { error, faults }: Recalculated): void {
  if (error !== undefined) console.error(`${out} was not written`);
  else console.error(`${out} written${faults.length > 0 ? "; the cells named above keep their saved values" : ""}`);
}

/** 0 when all is as saved, 1 when a cell differs or cannot be right, 2 when a workbook could not be read. */
function exitCode({ error, differences, faults }: Pick<Recalculated, "error" | "differences" | "faults">): number {
  if (error !== undefined) return 2;
  return differences.length + faults.length > 0 ? 1 : 0;
}
