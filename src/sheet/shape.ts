import { nameOf, type Named } from "./arguments";
import type { Result, Results } from "./cells";
import { finite } from "./lift";

/** One value for each item of a list, laid out as the list lies in the sheet; blank after its last item. */
export function inShapeOf(argument: Named, values: readonly Result[]): Results {
  const [, cells] = nameOf(argument);
  let next = 0;
  return cells.map((row) => row.map(() => (next < values.length ? finite(values[next++] as Result) : "")));
}
