import { existsSync, readFileSync } from "node:fs";
import { Complaint } from "./command-line";
import { shownInBlocks, type Shows } from "./drawing";
import type { Limit } from "./figures";
import { fileTrouble } from "./file-trouble";
import { progressOf } from "./progress";
import { blockLine, headLine, lineAdder, runsIn, variationOf, type KeptSetting } from "./runs-file";
import { blocksIn, blockSize, type Plan } from "./sampling";
import { percent } from "./vary-told";
import { toldOf, worstError, type Told } from "./variation";
import type { Asked, Shard } from "./vary-words";
import type { Setting } from "./vary-tasks";

/** Where the figures decide when it is enough: the first runs. */
const FIRST_RUNS = 500;

/** Draws all runs, or so many that the standard errors are small enough. */
export async function drawn(
  setting: KeptSetting,
  { plan, to, within, resume }: Asked,
  limits: ReadonlyMap<number, readonly Limit[]>,
): Promise<Told[]> {
  const keeping = resume === undefined ? { shows: new Map(), keep: () => {} } : keptIn(resume, setting, plan);
  let until = to === undefined ? plan.runs : Math.min(FIRST_RUNS, plan.runs);
  for (;;) {
    const blocks = blocksIn({ ...plan, runs: until });
    await fill(setting, plan, blocks, keeping, within);
    const shows: Shows = new Map(blocks.map((block) => [block, keeping.shows.get(block) as never]));
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

/** Draws a part of the runs and hands them on as they are, for others to join. */
export async function shardDrawn(
  setting: KeptSetting,
  { plan, within, resume }: Asked,
  { number, of }: Shard,
): Promise<number> {
  const kept = resume === undefined ? handedOn(setting, plan) : keptIn(resume, setting, plan);
  const own = blocksIn(plan).filter((block) => block % of === number - 1);
  await fill(setting, plan, own, kept, within);
  return 0;
}

/** Runs that are there, and where new ones go. */
interface Keeping {
  readonly shows: Shows;
  readonly keep: (line: string) => void;
}

function handedOn(setting: KeptSetting, plan: Plan): Keeping {
  console.log(headLine(setting, plan));
  return { shows: new Map(), keep: (line) => console.log(line) };
}

/** The runs of this variation that a file holds; further ones are added to it. */
function keptIn(file: string, setting: KeptSetting, plan: Plan): Keeping {
  const text = existsSync(file) ? textOf(file, file) : "";
  const head = headLine(setting, plan);
  const files = [file, "this variation"].map((called, place) => ({ called, text: place === 0 ? text : head }));
  // Runs of other variations, of which the file may be full, stay as they are.
  const found = runsIn(files).get(variationOf(setting, plan))?.shows ?? [];
  const shows: Shows = new Map([...found].filter(([block, shown]) => shown.length === blockSize(plan, block)));
  const keep = lineAdder(file, text);
  keep(head);
  if (shows.size > 0) console.error(`${setting.called}: ${file} holds ${runsOf(shows)} runs already`);
  return { shows, keep };
}

function runsOf(shows: Shows): number {
  return [...shows.values()].reduce((sum, { length }) => sum + length, 0);
}

/** Draws those of the blocks that are not there yet. */
async function fill(
  setting: KeptSetting,
  plan: Plan,
  blocks: readonly number[],
  { shows, keep }: Keeping,
  within: Asked["within"],
): Promise<void> {
  const missing = blocks.filter((block) => !shows.has(block));
  if (missing.length === 0) return;
  const progress = progressOf(
    missing.reduce((sum, block) => sum + blockSize(plan, block), 0),
    "runs",
  );
  let finished = 0;
  await shownInBlocks(setting, plan, missing, within, (block, shown) => {
    shows.set(block, shown);
    keep(blockLine(setting, plan, block, shown));
    progress((finished += shown.length));
  });
}

const MOST_GAPS_TOLD = 5;

/** Figures of a part of the runs are not those of the whole. */
export function refuseMissing({ called }: Setting, plan: Plan, shows: Shows): void {
  const missing = blocksIn(plan).filter((block) => !shows.has(block));
  if (missing.length === 0) return;
  const gaps = missing.slice(0, MOST_GAPS_TOLD).map((block) => {
    const from = block * plan.block;
    return `${from + 1} to ${from + blockSize(plan, block)}`;
  });
  const more = missing.length > gaps.length ? " and more" : "";
  throw new Complaint(
    `${called}: of ${plan.runs} runs some are missing: ${gaps.join(", ")}${more}; draw their part again`,
  );
}

export function textOf(file: string, called: string): string {
  try {
    return readFileSync(file, "utf8");
  } catch (fault) {
    throw new Complaint(`${called} cannot be read: ${fileTrouble(fault)}`);
  }
}
