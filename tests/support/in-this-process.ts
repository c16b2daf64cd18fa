import { inTurn } from "../../src/recalculate/in-turn";
import * as tasks from "../../src/recalculate/tasks";

/** The process of the tests has loaded the library and the engine already. A job and its result are copied, as on their way to a process and back. */
export const inChildren = inTurn(tasks, structuredClone);
