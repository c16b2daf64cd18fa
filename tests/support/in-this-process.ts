import type { inChildren as inProcesses } from "../../src/recalculate/children";
import * as tasks from "../../src/recalculate/tasks";

/**
 * What the commands do in processes of their own, in the process of the tests, which has loaded the library and the
 * engine already. A job and its result are copied, as on their way to a process and back.
 */
export const inChildren: typeof inProcesses = <Job, Result>(
  task: string,
  jobs: readonly Job[],
  _limits: unknown,
  _failed: unknown,
  done: (finished: number, result: Result, job: Job) => void = () => {},
): Promise<Result[]> => {
  const work = tasks[task as keyof typeof tasks] as unknown as (job: Job) => Result;
  const results = jobs.map((job, index) => {
    const result = structuredClone(work(structuredClone(job)));
    done(index + 1, result, job);
    return result;
  });
  return Promise.resolve(results);
};
