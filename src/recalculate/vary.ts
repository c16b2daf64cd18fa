import { pointsAlone, swingsOf } from "./alone";
import { inChildren } from "./children";
import { Complaint, running } from "./command-line";
import { shownAtPoints } from "./drawing";
import { drawn, refuseMissing, shardDrawn, textOf } from "./draws";
import { refuseSameFile } from "./files";
import { progressOf } from "./progress";
import { runsIn, withDigest, type KeptSetting } from "./runs-file";
import type { Plan } from "./sampling";
import { seekingAsJson, seekingAsText } from "./seek-told";
import { swingsAsJson, swingsAsText } from "./swings-told";
import { asJson, asText, headOf } from "./vary-told";
import { reportOf, type VariationReport } from "./variation-report";
import { toldOf, type Told } from "./variation";
import { writeCopyWithReport, writeVariationReport } from "./variation-written";
import { askedIn, limitsIn, OPTIONS, USAGE, type Asked, type AskedSeek } from "./vary-words";
import type { Answer, Question, Seeking, Setting, Wanted } from "./vary-tasks";

/** Moves the inputs of a workbook over their ranges and tells what its outcomes do. */
export function main(typed: string[], startedIn: string): Promise<number> {
  return running(USAGE, OPTIONS, typed, startedIn, async ({ options, words, path }) => {
    const asked = askedIn(options, path);
    const files = asked.merge === undefined ? words : [asked.merge, ...words];
    if (files.length === 0) throw new Complaint(`usage: ${USAGE}`);
    if (options.out !== undefined && words.length > 1) throw new Complaint("--out takes one workbook at a time");
    for (const written of [options.report, options.out]) {
      if (written !== undefined) for (const word of files) refuseSameFile(path(written), path(word), written);
    }
    const reports: VariationReport[] = [];
    let code = 0;
    if (asked.merge !== undefined) code = merged(files, path, asked, reports);
    else for (const word of words) code = Math.max(code, await answered(path(word), word, asked, reports));
    const [first] = reports;
    if (first === undefined) return code;
    if (asked.report !== undefined) await writeVariationReport(asked.report, reports);
    if (asked.out !== undefined) await writeCopyWithReport(path(first.called), asked.out, first);
    return code;
  });
}

/** One workbook; what is wrong with it is no reason to pass over the next. */
async function answered(file: string, called: string, asked: Asked, reports: VariationReport[]): Promise<number> {
  try {
    if (asked.seek !== undefined) return await sought(file, called, asked, asked.seek);
    const setting = await settled(file, called, asked);
    console.error(headOf(setting));
    return asked.oneByOne ? await swung(setting, asked) : await varied(setting, asked, reports);
  } catch (fault) {
    if (!(fault instanceof Complaint)) throw fault;
    console.error(fault.message);
    return 2;
  }
}

async function varied(setting: KeptSetting, asked: Asked, reports: VariationReport[]): Promise<number> {
  if (asked.shard !== undefined) return shardDrawn(setting, asked, asked.shard);
  const limits = limitsIn(setting, asked.limits);
  return tell(setting, asked.plan, await drawn(setting, asked, limits), asked, reports);
}

function tell(
  setting: Setting,
  plan: Plan,
  told: readonly Told[],
  { json }: Asked,
  reports: VariationReport[],
): number {
  reports.push(reportOf(setting, plan, told));
  for (const one of told) console.log(json ? asJson(setting, one) : asText(setting, plan, one));
  return told.some(({ figures }) => figures === undefined) ? 1 : 0;
}

/** The figures of runs that were drawn in parts. */
function merged(
  files: readonly string[],
  path: (typed: string) => string,
  asked: Asked,
  reports: VariationReport[],
): number {
  const kept = runsIn(files.map((called) => ({ called, text: textOf(path(called), called) })));
  let code = 0;
  for (const { setting, plan, shows } of kept.values()) {
    refuseMissing(setting, plan, shows);
    const told = toldOf(setting, plan, shows, limitsIn(setting, asked.limits));
    code = Math.max(code, tell(setting, plan, told, asked, reports));
  }
  return code;
}

/** Every input to its low and to its high, the rest as they are. */
async function swung(setting: Setting, { within, json }: Asked): Promise<number> {
  const points = pointsAlone(setting.inputs);
  const progress = progressOf(points.length, "points");
  let finished = 0;
  const groups = points.map((point) => [point]);
  const shown = await shownAtPoints(setting, groups, within, () => progress(++finished));
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

async function settled(file: string, called: string, { ranges, of, limits, within }: Asked): Promise<KeptSetting> {
  const question: Question = {
    file,
    called,
    ...(ranges === undefined ? {} : { ranges }),
    ...(of === undefined ? {} : { of }),
    also: limits.map(({ outcome }) => outcome),
  };
  return withDigest(await inOneChild<Question, Setting>("settleVariation", question, called, within));
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
