import { inChildren, type Limits } from "./children";
import { Complaint } from "./command-line";
import type { Shown } from "./model";
import { blockOf, type Plan } from "./sampling";
import type { Answer, Setting } from "./vary-tasks";

/** What the outcomes showed in a run, by the number of the run. */
export type Shows = Map<number, readonly Shown[]>;

/** So many runs are worked out between two messages from a calculating process. */
const RUNS_A_JOB = 25;

/** The values of the inputs in a run; a plan and its number are all that it depends on. */
export function pointsOf(plan: Plan, { inputs }: Pick<Setting, "inputs">): (run: number) => readonly number[] {
  let held: { block: number; points: number[][] } | undefined;
  return (run) => {
    const block = Math.floor(run / plan.block);
    if (held?.block !== block) held = { block, points: blockOf(plan, block, inputs) };
    return held.points[run % plan.block] as number[];
  };
}

/** Works out the outcomes at points, in child processes; the results are in the order of the points. */
export async function shownAtPoints(
  setting: Setting,
  points: readonly (readonly number[])[],
  limits: Limits,
  done: (finished: number, place: number, shown: readonly (readonly Shown[])[]) => void = () => {},
): Promise<Shown[][]> {
  const jobs: { setting: Setting; place: number; points: readonly (readonly number[])[] }[] = [];
  for (let place = 0; place < points.length; place += RUNS_A_JOB) {
    jobs.push({ setting, place, points: points.slice(place, place + RUNS_A_JOB) });
  }
  let finished = 0;
  const answers = await inChildren<(typeof jobs)[number], Answer<Shown[][]>>(
    "workVariation",
    jobs,
    limits,
    (_, why) => ({ error: `${setting.called} ${why}` }),
    (_, answer, job) => {
      if ("result" in answer) done((finished += job.points.length), job.place, answer.result);
    },
  );
  return answers.flatMap((answer) => {
    if ("error" in answer) throw new Complaint(answer.error);
    return answer.result;
  });
}
