import type { Results } from "./cells";
import { worksheetError } from "./errors";

/** A function as Excel calls it: whatever is thrown inside leaves as a cell error with a message. */
export function guarded<A extends unknown[]>(implementation: (...cells: A) => Results): (...cells: A) => Results {
  return (...cells) => {
    try {
      return implementation(...cells);
    } catch (thrown) {
      throw worksheetError(thrown);
    }
  };
}
