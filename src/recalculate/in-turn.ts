import type { inChildren } from "./children";

/**
 * What the commands do in processes of their own, one after the other where there are none: in the worker of a page, and
 * in the process of the tests. Nothing here holds a task to its time or memory.
 */
export function inTurn(
  tasks: Readonly<Record<string, (job: never) => unknown>>,
  copied: <Value>(value: Value) => Value = (value) => value,
): typeof inChildren {
  return <Job, Result>(
    task: string,
    jobs: readonly Job[],
    _limits: unknown,
    _failed: unknown,
    done: (finished: number, result: Result, job: Job) => void = () => {},
  ): Promise<Result[]> => {
    const work = tasks[task] as (job: Job) => Result;
    const results = jobs.map((job, index) => {
      const result = copied(work(copied(job)));
      done(index + 1, result, job);
      return result;
    });
    return Promise.resolve(results);
  };
}
