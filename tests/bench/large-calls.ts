import type { KnownCall } from "../support/calls";

/** A call of an everyday function with more cells than anybody should give it. */
export interface LargeCall {
  readonly id: string;
  readonly what: string;
  readonly cells: readonly unknown[];
}

/** Rows of a long column; a list or table of the same length is as long as a sheet's user ever marks. */
const ROWS = 100_000;

type Growth = readonly [name: string, cell: (usual: unknown, row: number) => unknown];

const GROWTHS: readonly Growth[] = [
  ["figures", (usual, row) => (typeof usual === "number" ? nearby(usual, row) : usual)],
  ["rising figures", (usual, row) => (typeof usual === "number" ? usual + row : named(usual, row))],
  ["wrong words", (usual, row) => `not a word ${row} ${typeof usual}`],
  ["wrong figures", (_, row) => -1e6 - row],
];

/** Like the usual figure and each another; a whole number stays as it is. */
function nearby(usual: number, row: number): number {
  return Number.isInteger(usual) ? usual : usual * (1 - row * 1e-9);
}

function named(usual: unknown, row: number): unknown {
  return typeof usual === "string" ? `${usual} ${row}` : usual;
}

/** One after the other, because together they would not fit into memory: each argument alone in a long column, then all that the example gives together, with each kind of cells. */
export function* largeCalls({ id, parameters, cells }: KnownCall): Generator<LargeCall> {
  const grown = (own: unknown[][] | null, grow: Growth[1]) => {
    const usual = own ?? [[1]];
    return Array.from({ length: ROWS }, (_, row) =>
      (usual[row % usual.length] as unknown[]).map((cell) => (row < usual.length ? cell : grow(cell, row))),
    );
  };
  for (const [name, grow] of GROWTHS) {
    for (const [index, parameter] of parameters.entries()) {
      const one = cells.map((own, place) => (place === index ? grown(own, grow) : own));
      yield { id, what: `${parameter.name}: ${name}`, cells: one };
    }
    yield { id, what: `all: ${name}`, cells: cells.map((own) => (own === null ? null : grown(own, grow))) };
  }
}
