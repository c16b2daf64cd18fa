import { inTurn } from "../../recalculate/in-turn";
import { workVariation } from "../../recalculate/vary-tasks";

/** The build puts this file in the place of the commands' processes. The page holds the worker to its time. */
export const inChildren = inTurn({ workVariation });
