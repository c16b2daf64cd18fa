import type { Book } from "./book";
import type { FormulaCell } from "./calculation";
import type { Area } from "./grid";
import { readingsOf, type Reading } from "./references";

/** The formula cells of one column of one sheet, by row. */
interface Column {
  readonly rows: number[];
  readonly owners: number[];
}

/** Beyond this a book is too entangled to be followed; such a book has no accidental circle worth the wait. */
const MOST_STEPS = 20_000_000;

/** Formulas that read each other in a circle, as a path of cells ("In!A1 → In!B1 → In!A1"), if there is one. */
export function circleIn(book: Book, formulas: readonly FormulaCell[], filled: readonly Area[]): string | undefined {
  const columns = columnsOf(formulas, filled);
  const state = new Uint8Array(formulas.length);
  const WAITING = 1;
  const DONE = 2;
  let steps = 0;
  for (let start = 0; start < formulas.length; start++) {
    if (state[start] !== 0) continue;
    const path = [{ index: start, next: readBy(start) }];
    state[start] = WAITING;
    while (path.length > 0) {
      const top = path[path.length - 1] as (typeof path)[number];
      const step = top.next.next();
      if (++steps > MOST_STEPS) return undefined;
      if (step.done === true) {
        state[top.index] = DONE;
        path.pop();
        continue;
      }
      const owner = step.value;
      if (state[owner] === WAITING) {
        const circle = path.slice(path.findIndex(({ index }) => index === owner)).map(({ index }) => index);
        return [...circle, owner].map(placeAt).join(" → ");
      } else if (state[owner] === 0) {
        state[owner] = WAITING;
        path.push({ index: owner, next: readBy(owner) });
      }
    }
  }
  return undefined;

  function* readBy(index: number): Generator<number, undefined> {
    for (const { sheet, area } of readingsOf(formulas[index] as FormulaCell, book))
      yield* ownersIn(columns, sheet, area);
    return undefined;
  }

  function placeAt(index: number): string {
    const { sheet, cell } = formulas[index] as FormulaCell;
    return `${sheet.name}!${cell.address}`;
  }
}

/** Each formula owns the cells it fills. */
export function columnsOf(formulas: readonly FormulaCell[], filled: readonly Area[]): Map<string, Map<number, Column>> {
  const cells = new Map<string, Map<number, [number, number][]>>();
  formulas.forEach(({ sheet }, index) => {
    const { top, left, bottom, right } = filled[index] as Area;
    const name = sheet.name.toLowerCase();
    if (!cells.has(name)) cells.set(name, new Map());
    const onSheet = cells.get(name) as Map<number, [number, number][]>;
    for (let column = left; column <= right; column++) {
      if (!onSheet.has(column)) onSheet.set(column, []);
      for (let row = top; row <= bottom; row++) onSheet.get(column)?.push([row, index]);
    }
  });
  return new Map(
    [...cells].map(([name, onSheet]) => [
      name,
      new Map(
        [...onSheet].map(([column, entries]): [number, Column] => {
          entries.sort((a, b) => a[0] - b[0]);
          return [column, { rows: entries.map(([row]) => row), owners: entries.map(([, owner]) => owner) }];
        }),
      ),
    ]),
  );
}

export function* ownersIn(
  columns: Map<string, Map<number, Column>>,
  sheet: string,
  area: Reading["area"],
): Generator<number, undefined> {
  for (const [column, { rows, owners }] of columns.get(sheet) ?? []) {
    if (column < area.left || column > area.right) continue;
    for (let at = firstFrom(rows, area.top); at < rows.length && (rows[at] as number) <= area.bottom; at++) {
      yield owners[at] as number;
    }
  }
}

/** The first place in ascending rows that is not above this row. */
function firstFrom(rows: readonly number[], row: number): number {
  let [low, high] = [0, rows.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((rows[middle] as number) < row) low = middle + 1;
    else high = middle;
  }
  return low;
}
