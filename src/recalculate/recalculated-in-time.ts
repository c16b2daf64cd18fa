import { inChildren, type EndCode } from "./children";
import { failed } from "./failed";
import type { Limits } from "./limits";
import type { Job, Recalculated } from "./recalculation";

/**
 * Recalculates workbooks in processes that can be stopped, and hands over each as soon as it is done. One that takes
 * too much is taken up again for our calls alone: native formulas never cost a verdict on them.
 */
export async function recalculatedInTime(
  jobs: readonly Job[],
  limits: Limits,
  done: (finished: number, result: Recalculated) => void = () => {},
): Promise<Recalculated[]> {
  const results = new Map<Job, Recalculated>();
  const stopped = new Map<Job, Job>();
  const settle = (job: Job, result: Recalculated) => {
    results.set(job, result);
    done(results.size, result);
  };
  const failing = (job: Job, why: string, code: EndCode) => failed(job, `${job.called} ${why}`, code);
  await inChildren(
    "recalculate",
    jobs,
    limits,
    (job, why, code) => {
      if (job.oursOnly === undefined) stopped.set(job, { ...job, oursOnly: `with its native formulas it ${why}` });
      return failing(job, why, code);
    },
    (_, result: Recalculated, job) => {
      if (!stopped.has(job)) settle(job, result);
    },
  );
  const first = new Map([...stopped].map(([job, again]) => [again, job]));
  await inChildren("recalculate", [...stopped.values()], limits, failing, (_, result: Recalculated, again) =>
    settle(first.get(again) as Job, result),
  );
  return jobs.map((job) => results.get(job) as Recalculated);
}
