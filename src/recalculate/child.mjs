import { register } from "tsx/esm/api";

/** A process that recalculates one workbook after another and can be stopped when one takes too much. */
register();
const tasks = await import("./tasks.ts");
process.on("message", ({ task, job }) => process.send?.(tasks[task](job)));
process.send?.("ready");
