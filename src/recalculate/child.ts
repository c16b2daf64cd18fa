import * as tasks from "./tasks";

/** A process that recalculates one workbook after another and can be stopped when one takes too much. */
interface Asked {
  readonly task: keyof typeof tasks;
  readonly job: never;
}

process.on("message", ({ task, job }: Asked) => process.send?.(tasks[task](job)));
process.send?.("ready");
