import { LIMITS } from "./limits";
import { besideSoffice, type Beside } from "./beside-soffice";
import { inChildren } from "./children";
import { Complaint, running } from "./command-line";
import { functionsCalledIn } from "./future-functions";
import { harmless } from "./harmless";
import { clearProgress, progressOf } from "./progress";
import { recalculatedInTime } from "./recalculated-in-time";
import type { Job, Recalculated } from "./recalculation";
import { callsNotTried, type CallsTried } from "./with-calls";
import { workbooksNamed } from "./workbooks-named";

const USAGE = "npm run corpus -- FOLDER [more …] [--beside soffice | --with-calls] [--seconds N]";

const OPTIONS = { beside: { type: "string" }, "with-calls": { type: "boolean" }, seconds: { type: "string" } } as const;

/** Recalculates a collection of workbooks that other programs saved, and prints how much of it is reproduced here. */
export function main(typed: string[], startedIn: string): Promise<number> {
  return running(USAGE, OPTIONS, typed, startedIn, async ({ options, words, path }) => {
    if (words.length === 0) throw new Complaint(`usage: ${USAGE}`);
    const { beside } = options;
    if (beside !== undefined && beside !== "soffice") throw new Complaint(`--beside is ${beside}; soffice is known`);
    const seconds = Number(options.seconds ?? LIMITS.seconds);
    if (!(seconds > 0)) throw new Complaint(`--seconds is ${options.seconds}; must be a number above 0`);
    const jobs: Job[] = workbooksNamed(words, path).map((workbook) => ({ ...workbook, strict: true }));
    const progress = progressOf(jobs.length, "workbooks");
    if (options["with-calls"]) {
      const tried = await inChildren("tryCalls", jobs, { ...LIMITS, seconds }, callsNotTried, progress);
      clearProgress();
      console.log(callsTable(tried).join("\n"));
      return tried.some(({ others, missed }) => others.length + missed.length > 0) ? 1 : 0;
    }
    const results = await recalculatedInTime(jobs, { ...LIMITS, seconds }, progress);
    clearProgress();
    console.log(tableOf(results).join("\n"));
    if (beside !== undefined) console.log(besideTable(besideSoffice(jobs, seconds)).join("\n"));
    return 0;
  });
}

const WIDTH = 34;

/** What became of the workbooks, what was not reproduced by function, what was refused, and what took long. */
export function tableOf(results: readonly Recalculated[]): string[] {
  const refused = results.filter(({ error }) => error !== undefined);
  const read = results.filter(({ error }) => error === undefined);
  const wrong = read.filter(({ differences, faults }) => differences.length + faults.length > 0);
  const beyond = read.filter((result) => !wrong.includes(result) && result.unreproduced.length > 0);
  const unjudged = read.filter(({ nativeUnjudged }) => nativeUnjudged !== undefined);
  const share = (some: readonly Recalculated[], what: string) =>
    `${what.padEnd(WIDTH)}${String(some.length).padStart(7)}${((100 * some.length) / results.length).toFixed(1).padStart(8)} %`;
  const sum = (of: (result: Recalculated) => number) => read.reduce((total, result) => total + of(result), 0);
  const count = (what: string, number: number) => `${what.padEnd(WIDTH)}${String(number).padStart(7)}`;
  return [
    count("workbooks", results.length),
    share(
      read.filter((result) => !wrong.includes(result) && !beyond.includes(result) && !unjudged.includes(result)),
      "clean",
    ),
    share(beyond, "with cells not reproduced"),
    share(wrong, "called wrong"),
    share(unjudged, "native formulas not judged"),
    share(refused, "refused"),
    count(
      "formulas",
      sum(({ formulas }) => formulas),
    ),
    count(
      "cells compared",
      sum(({ cells }) => cells),
    ),
    count(
      "cells not reproduced",
      sum(({ unreproduced }) => unreproduced.length),
    ),
    count(
      "formulas not worked out",
      sum(({ taken }) => taken.length),
    ),
    `${"seconds".padEnd(WIDTH)}${sum(({ seconds }) => seconds)
      .toFixed(1)
      .padStart(7)}`,
    ...section("not reproduced, by function (cells, workbooks)", byFunction(read)),
    ...section(
      "called wrong",
      wrong.map(({ workbook, differences, faults }) => {
        const cells = [...differences, ...faults].map(({ sheet, cell }) => `${sheet}!${cell}`);
        return `${workbook}: ${cells.length} cells, first ${cells[0]}`;
      }),
    ),
    ...section(
      "native formulas not judged",
      unjudged.map(({ workbook, nativeUnjudged }) => `${workbook}: ${nativeUnjudged}`),
    ),
    ...section(
      "refused",
      refused.map(({ error = "", code }) => `${error} (${code})`),
    ),
    ...section(
      "slowest",
      [...read]
        .sort((one, other) => other.seconds - one.seconds)
        .slice(0, SLOWEST)
        .map(({ workbook, seconds }) => `${seconds.toFixed(1).padStart(7)} s  ${workbook}`),
    ),
  ];
}

const SLOWEST = 3;

function section(title: string, lines: readonly string[]): string[] {
  return lines.length === 0 ? [] : ["", title, ...lines.map((line) => `  ${harmless(line)}`)];
}

function byFunction(results: readonly Recalculated[]): string[] {
  const found = new Map<string, { cells: number; readonly workbooks: Set<string> }>();
  for (const { workbook, unreproduced } of results) {
    for (const { formula } of unreproduced) {
      const called = new Set(functionsCalledIn(formula.slice(1)));
      for (const name of called.size > 0 ? called : ["(no function)"]) {
        const entry = found.get(name) ?? { cells: 0, workbooks: new Set() };
        entry.cells++;
        entry.workbooks.add(workbook);
        found.set(name, entry);
      }
    }
  }
  return [...found]
    .sort(([, one], [, other]) => other.cells - one.cells)
    .map(
      ([name, { cells, workbooks }]) =>
        `${name.padEnd(WIDTH - 2)}${String(cells).padStart(7)}${String(workbooks.size).padStart(7)}`,
    );
}

/** What two calls of ours, put into each workbook, changed in copies of it. */
export function callsTable(tried: readonly CallsTried[]): string[] {
  const done = tried.filter(({ error }) => error === undefined);
  const line = (what: string, number: number) => `${what.padEnd(WIDTH)}${String(number).padStart(7)}`;
  const sum = (of: (one: CallsTried) => number) => done.reduce((total, one) => total + of(one), 0);
  return [
    line("workbooks with two calls put in", done.length),
    line(
      "calls not written",
      sum(({ missed }) => missed.length),
    ),
    line(
      "other cells changed",
      sum(({ others }) => others.length),
    ),
    line(
      "values that formulas never had",
      sum(({ filled }) => filled),
    ),
    ...section(
      "faults",
      done.flatMap(({ workbook, others, missed }) =>
        [...others, ...missed].slice(0, MOST_FAULTS).map((place) => `${workbook}: ${place}`),
      ),
    ),
    ...section(
      "not tried",
      tried.flatMap(({ workbook, error }) => (error === undefined ? [] : [`${workbook}: ${error}`])),
    ),
  ];
}

const MOST_FAULTS = 5;

function besideTable(beside: readonly Beside[]): string[] {
  const loaded = beside.filter(({ cells }) => cells !== undefined);
  const differing = loaded.filter(({ differing: cells = 0 }) => cells > 0);
  const line = (what: string, number: number) => `${what.padEnd(WIDTH)}${String(number).padStart(7)}`;
  const sum = (of: (one: Beside) => number) => beside.reduce((total, one) => total + of(one), 0);
  return [
    "",
    "soffice, everything recalculated",
    line("clean", loaded.length - differing.length),
    line("with cells that differ", differing.length),
    line("not loaded", beside.length - loaded.length),
    line(
      "cells compared",
      sum(({ cells = 0 }) => cells),
    ),
    line(
      "cells that differ",
      sum(({ differing: cells = 0 }) => cells),
    ),
    `${"seconds".padEnd(WIDTH)}${sum(({ seconds }) => seconds)
      .toFixed(1)
      .padStart(7)}`,
    ...section(
      "its differing workbooks",
      differing.map(({ workbook, differing: cells = 0 }) => `${String(cells).padStart(7)}  ${workbook}`),
    ),
  ];
}
