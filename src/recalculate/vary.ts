import { pointsAlone, swingsOf } from "./alone";
import { inChildren } from "./children";
import { Complaint, running } from "./command-line";
import { pointsOf, shownAtPoints, type Shows } from "./drawing";
import type { Limit } from "./figures";
import { progressOf } from "./progress";
import { seekingAsJson, seekingAsText } from "./seek-told";
import { swingsAsJson, swingsAsText } from "./swings-told";
import { asJson, asText, headOf, percent } from "./vary-told";
import { toldOf, worstError, type Told } from "./variation";
import { askedIn, OPTIONS, USAGE, type Asked, type AskedSeek } from "./vary-words";
import type { Answer, Question, Seeking, Setting, Wanted } from "./vary-tasks";

/** Where the figures decide when it is enough: the first runs. */
const FIRST_RUNS = 500;

/** Moves the inputs of a workbook over their ranges and tells what its outcomes do. */
export function main(typed: string[], startedIn: string): Promise<number> {
  return running(USAGE, OPTIONS, typed, startedIn, async ({ options, words, path }) => {
    if (words.length === 0) throw new Complaint(`usage: ${USAGE}`);
    const asked = askedIn(options, path);
    let code = 0;
    for (const word of words) code = Math.max(code, await answered(path(word), word, asked));
    return code;
  });
}

/** One workbook; what is wrong with it is no reason to pass over the next. */
async function answered(file: string, called: string, asked: Asked): Promise<number> {
  try {
    if (asked.seek !== undefined) return await sought(file, called, asked, asked.seek);
    const setting = await settled(file, called, asked);
    console.error(headOf(setting));
    return asked.oneByOne ? await swung(setting, asked) : await varied(setting, asked);
  } catch (fault) {
    if (!(fault instanceof Complaint)) throw fault;
    console.error(fault.message);
    return 2;
  }
}

async function varied(setting: Setting, asked: Asked): Promise<number> {
  const told = await drawn(setting, asked, limitsIn(setting, asked));
  for (const one of told) console.log(asked.json ? asJson(setting, one) : asText(setting, asked.plan, one));
  return told.some(({ figures }) => figures === undefined) ? 1 : 0;
}

/** Every input to its low and to its high, the rest as they are. */
async function swung(setting: Setting, { within, json }: Asked): Promise<number> {
  const points = pointsAlone(setting.inputs);
  const shown = await shownAtPoints(setting, points, within, progressOf(points.length, "points"));
  let code = 0;
  for (const place of setting.outcomes.keys()) {
    const swings = swingsOf(setting.inputs, shown, place);
    if (swings.some(({ width }) => width === undefined)) code = 1;
    console.log((json ? swingsAsJson : swingsAsText)(setting, place, swings));
  }
  return code;
}

async function sought(file: string, called: string, { ranges, within, json }: Asked, seek: AskedSeek): Promise<number> {
  const wanted: Wanted = { file, called, ...seek, ...(ranges === undefined ? {} : { ranges }) };
  const seeking = await inOneChild<Wanted, Seeking>("seekInWorkbook", wanted, called, within);
  if (json) console.log(seekingAsJson(seeking));
  else (seeking.sought.kind === "met" ? console.log : console.error)(seekingAsText(seeking));
  return seeking.sought.kind === "met" ? 0 : 1;
}

async function settled(file: string, called: string, { ranges, of, limits, within }: Asked): Promise<Setting> {
  const question: Question = {
    file,
    called,
    ...(ranges === undefined ? {} : { ranges }),
    ...(of === undefined ? {} : { of }),
    also: limits.map(({ outcome }) => outcome),
  };
  return inOneChild<Question, Setting>("settleVariation", question, called, within);
}

async function inOneChild<Job, Result>(
  task: string,
  job: Job,
  called: string,
  within: Asked["within"],
): Promise<Result> {
  const failed = (_: Job, why: string): Answer<Result> => ({ error: `${called} ${why}` });
  const [answer] = await inChildren<Job, Answer<Result>>(task, [job], within, failed);
  if (answer === undefined || "error" in answer) throw new Complaint(answer?.error ?? "");
  return answer.result;
}

/** Draws all runs, or so many that the standard errors are small enough. */
async function drawn(
  setting: Setting,
  { plan, to, within }: Asked,
  limits: ReadonlyMap<number, readonly Limit[]>,
): Promise<Told[]> {
  const shows: Shows = new Map();
  const point = pointsOf(plan, setting);
  let until = to === undefined ? plan.runs : Math.min(FIRST_RUNS, plan.runs);
  for (;;) {
    const from = shows.size;
    const points = Array.from({ length: until - from }, (_, index) => point(from + index));
    const shown = await shownAtPoints(setting, points, within, progressOf(points.length, "runs"));
    shown.forEach((one, index) => shows.set(from + index, one));
    const told = toldOf(setting, plan, shows, limits);
    if (to === undefined) return told;
    const worst = Math.max(...told.map(worstError));
    if (worst <= to) return told;
    if (until === plan.runs) {
      console.error(
        `${setting.called}: after ${until} runs the largest standard error is ${percent(worst, 2)}, not ${percent(to, 2)}`,
      );
      return told;
    }
    until = Math.min(plan.runs, 2 * until);
  }
}

/** Which limits go with which outcome, by its place in the list. */
function limitsIn({ outcomes }: Setting, { limits }: Asked): Map<number, Limit[]> {
  const plain = (text: string) => text.replace(/\$/g, "").toLowerCase();
  const found = new Map<number, Limit[]>();
  for (const { outcome, limit } of limits) {
    const place = outcomes.findIndex(({ called }) => plain(called) === plain(outcome));
    if (place < 0) throw new Complaint(`--limit names ${outcome}, which --of calls otherwise; write it the same way`);
    found.set(place, [...(found.get(place) ?? []), limit]);
  }
  return found;
}
