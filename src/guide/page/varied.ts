import { Complaint } from "../../recalculate/command-line";
import { shownInBlocks, type Shows } from "../../recalculate/drawing";
import { variationOnPage, variationPage } from "../../recalculate/variation-page";
import { blocksIn } from "../../recalculate/sampling";
import { reportOf } from "../../recalculate/variation-report";
import { toldOf } from "../../recalculate/variation";
import { settleVariation, type Answer } from "../../recalculate/vary-tasks";
import { asJson, headOf } from "../../recalculate/vary-told";
import { askedIn, limitsIn, type Options } from "../../recalculate/vary-words";

/** What a person can ask of the command `vary` in the page, in the words of its options. */
export type AskedRuns = Pick<Options, "ranges" | "of" | "limit" | "runs" | "seed">;

/** What a workbook's outcomes are known to, as the page shows it and as the command writes it. */
export interface Varied {
  readonly head: readonly string[];
  /** A part of a page; all that comes out of the workbook stands in it as text. */
  readonly onPage: string;
  readonly report: string;
  /** A line of JSON for each outcome. */
  readonly figures: string;
}

export interface Progress {
  readonly finished: number;
  readonly whole: number;
}

/** What a page has room for. */
const MOST_RUNS = 100_000;

/** Draws the runs and tells what they say, as the command does. */
export async function varied(
  file: string,
  called: string,
  words: AskedRuns,
  progress: (progress: Progress) => void,
): Promise<Answer<Varied>> {
  try {
    const { ranges, of, limits, plan, within } = askedIn(words, (typed) => typed);
    if (plan.runs > MOST_RUNS) {
      throw new Complaint(`--runs is ${plan.runs}; a page draws at most ${MOST_RUNS}, the command vary more`);
    }
    const also = limits.map(({ outcome }) => outcome);
    const question = {
      file,
      called,
      also,
      ...(ranges === undefined ? {} : { ranges }),
      ...(of === undefined ? {} : { of }),
    };
    const answer = settleVariation(question);
    if ("error" in answer) return answer;
    const { result: setting } = answer;
    const limitsOf = limitsIn(setting, limits);
    const shows: Shows = new Map();
    progress({ finished: 0, whole: plan.runs });
    let finished = 0;
    await shownInBlocks(setting, plan, blocksIn(plan), within, (block, shown) => {
      shows.set(block, shown);
      progress({ finished: (finished += shown.length), whole: plan.runs });
    });
    const told = toldOf(setting, plan, shows, limitsOf);
    const report = reportOf(setting, plan, told);
    return {
      result: {
        head: headOf(setting).split("\n"),
        onPage: variationOnPage(report, 3),
        report: variationPage([report]),
        figures: told.map((one) => `${asJson(setting, one)}\n`).join(""),
      },
    };
  } catch (fault) {
    if (fault instanceof Complaint) return { error: fault.message };
    throw fault;
  }
}
