import { fork, type ChildProcess } from "node:child_process";
import { availableParallelism } from "node:os";
import { fileURLToPath } from "node:url";
import type { Limits } from "./limits";

/** What kind of end a calculation came to, for programs that read the result. */
export type EndCode = "unreadable" | "too long" | "out of memory" | "internal";

/** How a process ends that has used up its memory, by itself or by the system. */
const OUT_OF_MEMORY: readonly (string | number)[] = ["SIGABRT", "SIGKILL", "SIGTRAP", 134];

/** Runs jobs in child processes, as many at once as the machine has cores; results in the order of the jobs. */
export async function inChildren<Job, Result>(
  task: string,
  jobs: readonly Job[],
  limits: Limits,
  failed: (job: Job, why: string, code: EndCode) => Result,
  done: (finished: number, result: Result, job: Job) => void = () => {},
): Promise<Result[]> {
  const results: Result[] = [];
  let next = 0;
  let finished = 0;
  const lane = async () => {
    let child: ChildProcess | undefined;
    while (next < jobs.length) {
      const index = next++;
      const job = jobs[index] as Job;
      child ??= await started(limits);
      const answer = await answered<Result>(child, { task, job }, limits);
      if ("why" in answer) {
        results[index] = failed(job, answer.why, answer.code);
        child = undefined;
      } else results[index] = answer.result;
      done(++finished, results[index], job);
    }
    child?.kill();
  };
  await Promise.all(Array.from({ length: Math.min(availableParallelism(), jobs.length) }, lane));
  return results;
}

/** Compiled, also for the sources: it starts in a fraction of the time. */
const CHILD = fileURLToPath(new URL("../../lib/recalculate/child.mjs", import.meta.url));

async function started({ megabytes }: Limits): Promise<ChildProcess> {
  const child = fork(CHILD, {
    execArgv: [`--max-old-space-size=${megabytes}`],
    serialization: "advanced",
    stdio: ["ignore", "ignore", "ignore", "ipc"],
  });
  await new Promise<void>((ready, failed) => {
    child.once("message", () => ready());
    child.once("exit", (code) => failed(new Error(`the calculating process ended at once (${code})`)));
  });
  child.removeAllListeners("exit");
  return child;
}

/** The child's answer, or the reason why there is none. */
type Answer<Result> = { readonly result: Result } | { readonly why: string; readonly code: EndCode };

function answered<Result>(child: ChildProcess, message: object, limits: Limits): Promise<Answer<Result>> {
  return new Promise((resolve) => {
    const settle = (answer: Answer<Result>) => {
      clearTimeout(timer);
      child.removeAllListeners("message").removeAllListeners("exit");
      resolve(answer);
    };
    const timer = setTimeout(() => {
      settle({ why: `took longer than ${limits.seconds} seconds and was stopped`, code: "too long" });
      child.kill("SIGKILL");
    }, limits.seconds * 1000);
    child.once("message", (result) => settle({ result: result as Result }));
    child.once("exit", (code, signal) =>
      settle(
        OUT_OF_MEMORY.includes(signal ?? code ?? 0)
          ? { why: `needed more than ${limits.megabytes} MB of memory and was stopped`, code: "out of memory" }
          : { why: `was given up: the calculating process ended (${signal ?? code})`, code: "internal" },
      ),
    );
    child.send(message);
  });
}
