import { readFileSync } from "node:fs";
import { inChildren, LIMITS, type Limits } from "./children";
import { Complaint, running } from "./command-line";
import { shownAtPoints, pointsOf, type Shows } from "./drawing";
import type { Limit } from "./figures";
import { listed } from "./places";
import { progressOf } from "./progress";
import { rangesInText, type Ranges } from "./ranges";
import { planFor, type Plan } from "./sampling";
import { asJson, asText, headOf } from "./vary-told";
import { toldOf, worstError, type Told } from "./variation";
import type { Answer, Question, Setting } from "./vary-tasks";

const USAGE =
  "npm run vary -- BOOK.xlsx [more …] [--ranges TABLE|FILE.csv] [--of Cost!H12,Name] [--runs 1000] [--seed 1] [--to 0.5%] [--limit 'Cost!H12<4.30'] [--json] [--seconds N]";

const OPTIONS = {
  ranges: { type: "string" },
  of: { type: "string" },
  runs: { type: "string" },
  seed: { type: "string" },
  to: { type: "string" },
  limit: { type: "string" },
  json: { type: "boolean" },
  seconds: { type: "string" },
} as const;

const RUNS = 1000;
const LEAST_RUNS = 20;
const MOST_RUNS = 10_000_000;
/** Where the figures decide when it is enough: the first runs, and the most. */
const FIRST_RUNS = 500;
const MOST_RUNS_TO = 50_000;

/** What the words of the command ask for, whatever the workbook. */
interface Asked {
  readonly ranges?: string | Ranges;
  readonly of?: string;
  readonly limits: readonly { readonly outcome: string; readonly limit: Limit }[];
  readonly plan: Plan;
  /** The wanted standard error; the runs of the plan are the most then. */
  readonly to?: number;
  readonly within: Limits;
  readonly json: boolean;
}

/** Draws the inputs of a workbook from their ranges and tells what its outcomes are known to. */
export function main(typed: string[], startedIn: string): Promise<number> {
  return running(USAGE, OPTIONS, typed, startedIn, async ({ options, words, path }) => {
    if (words.length === 0) throw new Complaint(`usage: ${USAGE}`);
    const to = options.to === undefined ? undefined : shareIn(options.to);
    const runs = wholeIn("runs", options.runs, to === undefined ? RUNS : MOST_RUNS_TO, LEAST_RUNS, MOST_RUNS);
    const seed = wholeIn("seed", options.seed, 1, 0, Number.MAX_SAFE_INTEGER);
    const seconds = wholeIn("seconds", options.seconds, LIMITS.seconds, 1, 2 ** 31 / 1000);
    const asked: Asked = {
      ...(options.ranges === undefined ? {} : { ranges: rangesGiven(options.ranges, path) }),
      ...(options.of === undefined ? {} : { of: options.of }),
      limits: listed(options.limit ?? "").map(limitIn),
      plan: planFor(runs, seed),
      ...(to === undefined ? {} : { to }),
      within: { ...LIMITS, seconds },
      json: options.json ?? false,
    };
    let code = 0;
    for (const word of words) code = Math.max(code, await varied(path(word), word, asked));
    return code;
  });
}

async function varied(file: string, called: string, asked: Asked): Promise<number> {
  const setting = await settled(file, called, asked);
  if (typeof setting === "string") {
    console.error(setting);
    return 2;
  }
  console.error(headOf(setting));
  const limits = limitsIn(setting, asked);
  const told = await drawn(setting, asked, limits);
  for (const one of told) console.log(asked.json ? asJson(setting, one) : asText(setting, asked.plan, one));
  return told.some(({ figures }) => figures === undefined) ? 1 : 0;
}

async function settled(file: string, called: string, { ranges, of, limits, within }: Asked): Promise<Setting | string> {
  const question: Question = {
    file,
    called,
    ...(ranges === undefined ? {} : { ranges }),
    ...(of === undefined ? {} : { of }),
    also: limits.map(({ outcome }) => outcome),
  };
  const [answer] = await inChildren<Question, Answer<Setting>>("settleVariation", [question], within, (_, why) => ({
    error: `${called} ${why}`,
  }));
  return answer === undefined || "error" in answer ? (answer?.error ?? "") : answer.result;
}

/** Draws all runs, or so many that the standard errors are small enough. */
async function drawn(setting: Setting, asked: Asked, limits: ReadonlyMap<number, Limit>): Promise<Told[]> {
  const { plan, to, within } = asked;
  const shows: Shows = new Map();
  const point = pointsOf(plan, setting);
  let until = to === undefined ? plan.runs : Math.min(FIRST_RUNS, plan.runs);
  for (;;) {
    const from = shows.size;
    const points = Array.from({ length: until - from }, (_, index) => point(from + index));
    const progress = progressOf(points.length, "runs");
    const shown = await shownAtPoints(setting, points, within, progress);
    shown.forEach((one, index) => shows.set(from + index, one));
    const told = toldOf(setting, plan, shows, limits);
    if (to === undefined) return told;
    const worst = Math.max(...told.map(worstError));
    if (worst <= to) return told;
    if (until === plan.runs) {
      console.error(
        `${setting.called}: after ${until} runs the largest standard error is ${percent(worst)}, not ${percent(to)}`,
      );
      return told;
    }
    until = Math.min(plan.runs, 2 * until);
  }
}

function percent(share: number): string {
  return `${Number((100 * share).toPrecision(3))} %`;
}

function rangesGiven(given: string, path: (typed: string) => string): string | Ranges {
  if (!/\.(csv|tsv|txt)$/i.test(given)) return given;
  try {
    return rangesInText(readFileSync(path(given), "utf8"), given);
  } catch (fault) {
    if (fault instanceof Complaint) throw fault;
    throw new Complaint(`${given} cannot be read: ${(fault as Error).message}`);
  }
}

function limitIn(typed: string): { outcome: string; limit: Limit } {
  const found = /^(.+?)\s*(<=|>=|<|>)\s*([-+]?[\d.]+(?:e[-+]?\d+)?)$/i.exec(typed);
  const value = Number(found?.[3]);
  if (found === null || !Number.isFinite(value))
    throw new Complaint(`--limit is ${typed}; write it as 'Cost!H12<4.30'`);
  return { outcome: found[1] as string, limit: { relation: found[2] as Limit["relation"], value } };
}

/** Which limit goes with which outcome, by its place in the list. */
function limitsIn({ outcomes }: Setting, { limits }: Asked): Map<number, Limit> {
  const plain = (text: string) => text.replace(/\$/g, "").toLowerCase();
  const found = new Map<number, Limit>();
  for (const { outcome, limit } of limits) {
    const place = outcomes.findIndex(({ called }) => plain(called) === plain(outcome));
    if (place < 0) throw new Complaint(`--limit names ${outcome}, which --of calls otherwise; write it the same way`);
    found.set(place, limit);
  }
  return found;
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
