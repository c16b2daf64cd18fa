import { inChildren } from "./children";
import type { Limits } from "./limits";
import { Complaint } from "./command-line";
import type { Shown } from "./model";
import { blockOf, type Plan } from "./sampling";
import type { Answer, Setting } from "./vary-tasks";

/** What the outcomes showed in the runs of each block, by the number of the block. */
export type Shows = Map<number, readonly (readonly Shown[])[]>;

/** Works out blocks of runs; each is handed over as soon as it is there. */
export async function shownInBlocks(
  setting: Setting,
  plan: Plan,
  blocks: readonly number[],
  within: Limits,
  done: (block: number, shown: readonly (readonly Shown[])[]) => void,
): Promise<void> {
  const groups = blocks.map((block) => blockOf(plan, block, setting.inputs));
  await shownAtPoints(setting, groups, within, (place, shown) => done(blocks[place] as number, shown));
}

/** Works out the outcomes at groups of points, in child processes, a group at a time; the results are in their order. */
export async function shownAtPoints(
  setting: Setting,
  groups: readonly (readonly (readonly number[])[])[],
  within: Limits,
  done: (place: number, shown: readonly (readonly Shown[])[]) => void = () => {},
): Promise<Shown[][]> {
  const jobs = groups.map((points, place) => ({ setting, place, points }));
  const answers = await inChildren<(typeof jobs)[number], Answer<Shown[][]>>(
    "workVariation",
    jobs,
    within,
    (_, why) => ({ error: `${setting.called} ${why}` }),
    (_, answer, { place }) => {
      if ("result" in answer) done(place, answer.result);
    },
  );
  return answers.flatMap((answer) => {
    if ("error" in answer) throw new Complaint(answer.error);
    return answer.result;
  });
}
