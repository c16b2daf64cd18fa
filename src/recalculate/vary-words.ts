import { readFileSync } from "node:fs";
import { LIMITS, type Limits } from "./limits";
import { Complaint } from "./command-line";
import type { Limit } from "./figures";
import { fileTrouble } from "./file-trouble";
import { listed } from "./places";
import { rangesInText, type Ranges } from "./ranges";
import { planFor, type Plan } from "./sampling";
import type { Setting } from "./vary-tasks";

export const USAGE = `npm run vary -- BOOK.xlsx [more …] [--ranges TABLE|FILE.csv] [--of Cost!H12,Name] [--runs 1000] [--seed 1] [--to 0.5%] [--limit 'Cost!H12<4.30'] [--report FILE.html|FILE.xlsx] [--out COPY.xlsx] [--json] [--seconds N]
       npm run vary -- BOOK.xlsx [more …] … [--resume RUNS.jsonl] [--shard 3/20]
       npm run vary -- --merge RUNS.jsonl [more …] [--limit …] [--report …] [--json]
       npm run vary -- BOOK.xlsx [more …] --one-by-one [--ranges …] [--of …] [--json]
       npm run vary -- BOOK.xlsx [more …] --seek 'Cost!H12=4.00' --by Inputs!B12 [--between 0.01,0.05] [--json]`;

export const OPTIONS = {
  ranges: { type: "string" },
  of: { type: "string" },
  runs: { type: "string" },
  seed: { type: "string" },
  to: { type: "string" },
  limit: { type: "string" },
  resume: { type: "string" },
  shard: { type: "string" },
  merge: { type: "string" },
  "one-by-one": { type: "boolean" },
  seek: { type: "string" },
  by: { type: "string" },
  between: { type: "string" },
  report: { type: "string" },
  out: { type: "string" },
  json: { type: "boolean" },
  seconds: { type: "string" },
} as const;

type Option = keyof typeof OPTIONS;
export type Options = {
  readonly [Name in Option]?: (typeof OPTIONS)[Name]["type"] extends "boolean" ? boolean : string;
};

const RUNS = 1000;
const LEAST_RUNS = 20;
const MOST_RUNS = 10_000_000;
const MOST_RUNS_TO = 50_000;

/** What the words of the command ask for, whatever the workbook. */
export interface Asked {
  readonly ranges?: string | Ranges;
  readonly of?: string;
  readonly limits: readonly AskedLimit[];
  readonly plan: Plan;
  /** The wanted standard error; the runs of the plan are the most then. */
  readonly to?: number;
  /** Where runs are kept as they come, and taken from where they are there. */
  readonly resume?: string;
  readonly shard?: Shard;
  /** A file of runs that is read in the place of workbooks. */
  readonly merge?: string;
  readonly oneByOne: boolean;
  readonly seek?: AskedSeek;
  readonly report?: string;
  /** A copy of the workbook with the report as a sheet of it. */
  readonly out?: string;
  readonly within: Limits;
  readonly json: boolean;
}

/** One of equal parts of the runs. */
export interface Shard {
  /** From 1. */
  readonly number: number;
  readonly of: number;
}

export interface AskedLimit {
  readonly outcome: string;
  readonly limit: Limit;
}

export interface AskedSeek {
  readonly outcome: string;
  readonly value: number;
  readonly by: string;
  readonly between?: readonly [number, number];
}

/** What a way of asking does not take. */
const ALONE: readonly [way: Option, never: readonly Option[]][] = [
  ["one-by-one", ["runs", "seed", "to", "limit", "seek", "by", "between", "shard", "merge", "resume", "report", "out"]],
  ["seek", ["of", "runs", "seed", "to", "limit", "shard", "merge", "resume", "report", "out"]],
  ["merge", ["ranges", "of", "runs", "seed", "to", "shard", "resume", "out"]],
  // What is told of runs, and when they are enough, is told of all of them.
  ["shard", ["to", "limit", "report", "out", "json"]],
];

export function askedIn(options: Options, path: (typed: string) => string): Asked {
  for (const [way, never] of ALONE) {
    const extra = options[way] === undefined ? undefined : never.find((one) => options[one] !== undefined);
    if (extra !== undefined) throw new Complaint(`--${way} takes no --${extra}`);
  }
  const to = options.to === undefined ? undefined : shareIn(options.to);
  const runs = wholeIn("runs", options.runs, to === undefined ? RUNS : MOST_RUNS_TO, LEAST_RUNS, MOST_RUNS);
  const seed = wholeIn("seed", options.seed, 1, 0, Number.MAX_SAFE_INTEGER);
  const seconds = wholeIn("seconds", options.seconds, LIMITS.seconds, 1, 2 ** 31 / 1000);
  const seek = seekIn(options);
  if (options.report !== undefined && !/\.(html|xlsx)$/i.test(options.report)) {
    throw new Complaint("--report writes .html or .xlsx");
  }
  return {
    ...(options.ranges === undefined ? {} : { ranges: rangesGiven(options.ranges, path) }),
    ...(options.of === undefined ? {} : { of: options.of }),
    limits: listed(options.limit ?? "").map(limitIn),
    plan: planFor(runs, seed),
    ...(to === undefined ? {} : { to }),
    ...(options.resume === undefined ? {} : { resume: path(options.resume) }),
    ...(options.shard === undefined ? {} : { shard: shardIn(options.shard) }),
    ...(options.merge === undefined ? {} : { merge: options.merge }),
    oneByOne: options["one-by-one"] ?? false,
    ...(seek === undefined ? {} : { seek }),
    ...(options.report === undefined ? {} : { report: path(options.report) }),
    ...(options.out === undefined ? {} : { out: path(options.out) }),
    within: { ...LIMITS, seconds },
    json: options.json ?? false,
  };
}

function rangesGiven(given: string, path: (typed: string) => string): string | Ranges {
  if (!/\.(csv|tsv|txt)$/i.test(given)) return given;
  try {
    return rangesInText(readFileSync(path(given), "utf8"), given);
  } catch (fault) {
    if (fault instanceof Complaint) throw fault;
    throw new Complaint(`${given} cannot be read: ${fileTrouble(fault)}`);
  }
}

const NUMBER = String.raw`[-+]?[\d.]+(?:e[-+]?\d+)?`;

function limitIn(typed: string): AskedLimit {
  const found = new RegExp(String.raw`^(.+?)\s*(<=|>=|<|>)\s*(${NUMBER})$`, "i").exec(typed);
  const value = Number(found?.[3]);
  if (found === null || !Number.isFinite(value))
    throw new Complaint(`--limit is ${typed}; write it as 'Cost!H12<4.30'`);
  return { outcome: found[1] as string, limit: { relation: found[2] as Limit["relation"], value } };
}

/** Which limits go with which outcome, by its place in the list. */
export function limitsIn({ outcomes }: Pick<Setting, "outcomes">, limits: Asked["limits"]): Map<number, Limit[]> {
  const plain = (text: string) => text.replace(/\$/g, "").toLowerCase();
  const found = new Map<number, Limit[]>();
  for (const { outcome, limit } of limits) {
    const place = outcomes.findIndex(({ called }) => plain(called) === plain(outcome));
    if (place < 0)
      throw new Complaint(
        `--limit names ${outcome}, which is called otherwise among the outcomes: ${outcomes.map(({ called }) => called).join(", ")}`,
      );
    found.set(place, [...(found.get(place) ?? []), limit]);
  }
  return found;
}

function seekIn({ seek, by, between }: Options): AskedSeek | undefined {
  if (seek === undefined) {
    for (const [name, given] of Object.entries({ by, between })) {
      if (given !== undefined) throw new Complaint(`--${name} belongs to --seek`);
    }
    return undefined;
  }
  const found = new RegExp(String.raw`^(.+?)\s*=\s*(${NUMBER})$`, "i").exec(seek);
  const value = Number(found?.[2]);
  if (found === null || !Number.isFinite(value)) throw new Complaint(`--seek is ${seek}; write it as 'Cost!H12=4.00'`);
  if (by === undefined) throw new Complaint("--seek needs --by Sheet!A1, the input that is to change");
  return {
    outcome: found[1] as string,
    value,
    by,
    ...(between === undefined ? {} : { between: endsIn(between) }),
  };
}

function endsIn(given: string): readonly [number, number] {
  const [low, high, more] = given.split(/[,;]/).map((text) => (text.trim() === "" ? NaN : Number(text)));
  if (low === undefined || high === undefined || more !== undefined || !(low < high) || !Number.isFinite(high - low)) {
    throw new Complaint(`--between is ${given}; must be two numbers, the lower first, as 0.01,0.05`);
  }
  return [low, high];
}

function shardIn(given: string): Shard {
  const [number = 0, of = 0] = (/^(\d+)\/(\d+)$/.exec(given.trim()) ?? []).slice(1).map(Number);
  if (number < 1 || number > of) throw new Complaint(`--shard is ${given}; must be as 3/20, the third of twenty`);
  return { number, of };
}

function shareIn(given: string): number {
  const found = /^(\d*\.?\d+)\s*%$/.exec(given.trim());
  const share = Number(found?.[1]) / 100;
  if (!(share > 0 && share < 1)) throw new Complaint(`--to is ${given}; must be a percentage above 0 %, as 0.5%`);
  return share;
}

function wholeIn(what: string, given: string | undefined, usual: number, least: number, most: number): number {
  if (given === undefined) return usual;
  const number = Number(given);
  if (!Number.isInteger(number) || number < least || number > most || given.trim() === "") {
    throw new Complaint(`--${what} is ${given}; must be a whole number from ${least} to ${Math.floor(most)}`);
  }
  return number;
}
