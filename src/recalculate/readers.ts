import type { Book } from "./book";
import type { FormulaCell } from "./calculation";
import { columnsOf, ownersIn } from "./circles";
import type { Area } from "./grid";
import { readingsOf, readsAnything } from "./references";
import type { SheetPart } from "./sheet-part";

/** Which formulas of a workbook read which, by their places in its list of formulas. */
export interface Readers {
  /** The formulas whose cells each formula reads, its own among them where it reads itself. */
  readonly reads: readonly (readonly number[])[];
  /** The formulas of which it is not known what they read. */
  readonly unknown: ReadonlySet<number>;
}

/** Beyond this many readings the rest is not followed. */
const MOST_READINGS = 3_000_000;

export function readersAmong(book: Book, formulas: readonly FormulaCell[]): Readers {
  const columns = columnsOf(formulas, areasFilled(formulas));
  const reads = formulas.map((): number[] => []);
  const unknown = new Set<number>();
  let readings = 0;
  formulas.forEach((formula, index) => {
    if (readsAnything(formula)) unknown.add(index);
    for (const { sheet, area } of readingsOf(formula, book)) {
      for (const owner of ownersIn(columns, sheet, area)) {
        if (++readings > MOST_READINGS) {
          unknown.add(index);
          return;
        }
        (reads[index] as number[]).push(owner);
      }
    }
  });
  return { reads, unknown };
}

/** The formulas that read themselves, directly or by way of others; only those that are wanted count as a way. */
export function inCircles({ reads }: Readers, wanted: (index: number) => boolean): Set<number> {
  const found = new Set<number>();
  const order = new Map<number, number>();
  const lowest: number[] = [];
  const open: number[] = [];
  const isOpen = new Set<number>();
  // Tarjan's strongly connected components, with a path of its own because chains are longer than the call stack.
  for (let start = 0; start < reads.length; start++) {
    if (order.has(start) || !wanted(start)) continue;
    const path = [entered(start)];
    while (path.length > 0) {
      const top = path[path.length - 1] as (typeof path)[number];
      const next = top.reads[top.at++];
      if (next === undefined) {
        path.pop();
        const above = path[path.length - 1];
        if (above) lowest[above.index] = Math.min(lowest[above.index] as number, lowest[top.index] as number);
        if (lowest[top.index] === order.get(top.index)) close(top.index);
      } else if (next === top.index) found.add(next);
      else if (!wanted(next)) continue;
      else if (!order.has(next)) path.push(entered(next));
      else if (isOpen.has(next)) lowest[top.index] = Math.min(lowest[top.index] as number, order.get(next) as number);
    }
  }
  return found;

  function entered(index: number): { index: number; reads: readonly number[]; at: number } {
    lowest[index] = order.size;
    order.set(index, order.size);
    open.push(index);
    isOpen.add(index);
    return { index, reads: reads[index] as readonly number[], at: 0 };
  }

  function close(index: number): void {
    const together = open.splice(open.lastIndexOf(index));
    for (const one of together) isOpen.delete(one);
    if (together.length > 1) for (const one of together) found.add(one);
  }
}

/** The formulas in few groups, of which none reads a cell that another of its group fills. */
export function independentGroups({ reads, unknown }: Readers, wanted: readonly number[]): number[][] {
  const beside = new Map(wanted.map((index) => [index, new Set<number>()]));
  for (const index of wanted) {
    for (const owner of reads[index] as readonly number[]) {
      if (owner === index || !beside.has(owner)) continue;
      beside.get(index)?.add(owner);
      beside.get(owner)?.add(index);
    }
  }
  const groups: number[][] = [];
  const groupOf = new Map<number, number>();
  for (const index of wanted) {
    if (unknown.has(index)) continue;
    const taken = new Set([...(beside.get(index) as Set<number>)].map((other) => groupOf.get(other)));
    let group = 0;
    while (taken.has(group)) group++;
    groupOf.set(index, group);
    (groups[group] ??= []).push(index);
  }
  return [...groups, wanted.filter((index) => unknown.has(index))];
}

/** The formulas that read any of these, directly or by way of others, or may do so. */
export function readersOf({ reads, unknown }: Readers, changed: ReadonlySet<number>): Set<number> {
  const found = new Set<number>(changed.size > 0 ? unknown : []);
  const readBy = reads.map((): number[] => []);
  reads.forEach((owners, index) => owners.forEach((owner) => readBy[owner]?.push(index)));
  const waiting = [...changed, ...found];
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    for (const reader of readBy[next] as number[]) {
      if (found.has(reader)) continue;
      found.add(reader);
      waiting.push(reader);
    }
  }
  return found;
}

/** The cells that each formula filled; a file may claim an area of a whole sheet, of which few cells are there. */
function areasFilled(formulas: readonly FormulaCell[]): Area[] {
  const ends = new Map<SheetPart, { bottom: number; right: number }>();
  const endOf = (part: SheetPart) => {
    let end = ends.get(part);
    if (end === undefined) {
      end = { bottom: 1, right: 1 };
      for (const { row, column } of part.cells()) {
        end.bottom = Math.max(end.bottom, row);
        end.right = Math.max(end.right, column);
      }
      ends.set(part, end);
    }
    return end;
  };
  return formulas.map(({ sheet, saved }) => {
    const { bottom, right } = endOf(sheet.part);
    return { ...saved, bottom: Math.min(saved.bottom, bottom), right: Math.min(saved.right, right) };
  });
}
