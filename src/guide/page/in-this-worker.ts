import type { inChildren as inProcesses } from "../../recalculate/children";
import { workVariation } from "../../recalculate/vary-tasks";

const TASKS: Readonly<Record<string, (job: never) => unknown>> = { workVariation };

/**
 * What the commands do in processes of their own, one after the other in the worker that a page has; the build puts
 * this file in the place of theirs. The page holds the worker to its time.
 */
export const inChildren: typeof inProcesses = <Job, Result>(
  task: string,
  jobs: readonly Job[],
  _limits: unknown,
  _failed: unknown,
  done: (finished: number, result: Result, job: Job) => void = () => {},
): Promise<Result[]> => {
  const work = TASKS[task] as (job: Job) => Result;
  const results = jobs.map((job, index) => {
    const result = work(job);
    done(index + 1, result, job);
    return result;
  });
  return Promise.resolve(results);
};
