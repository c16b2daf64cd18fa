import { tableRows, type Named, type TableColumns, type TableTraits } from "./arguments";
import type { Result, Results } from "./cells";
import { worksheetError } from "./errors";
import { finite } from "./lift";

/**
 * A table answered row by row where every row rests on those above it, like a ledger: a bad row is an error in its
 * own row and in all rows after it, and the rows before it stand. A wholly blank row stays blank and changes nothing.
 */
export function runningRows<R extends object>(
  argument: Named,
  columns: TableColumns<R>,
  width: number,
  answer: (row: R, index: number) => readonly Result[],
  traits?: TableTraits,
): { readonly rows: Results; readonly names: readonly string[] | undefined } {
  let spoilt: CustomFunctions.Error | undefined;
  const across = <T>(cell: T): T[] => new Array<T>(width).fill(cell);
  const given = tableRows(argument, columns, traits);
  const rows = given.map(({ blank, read }, index) => {
    if (spoilt) return across(spoilt);
    if (blank) return across("");
    try {
      return answer(read(), index).map(finite);
    } catch (thrown) {
      return across((spoilt = worksheetError(thrown)));
    }
  });
  const names = given.map(({ called }) => called).filter((called) => called !== undefined);
  return { rows, names: names.length > 0 ? names : undefined };
}
