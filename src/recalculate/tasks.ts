/** What a child process can be asked to do. */
export { recalculate } from "./recalculation";
export { makePlain } from "./plain-copy";
export { makeMended } from "./mended-copy";
export { seekInWorkbook, settleVariation, workVariation } from "./vary-tasks";
export { tryCalls } from "./with-calls";
