import { called, type KnownCall } from "../support/calls";

/** A call of an everyday function with more cells than anybody should give it, as long as is asked. */
export interface LargeCall {
  readonly what: string;
  readonly cellsOf: (length: number) => readonly unknown[];
}

type Growth = readonly [name: string, cell: (usual: unknown, row: number) => unknown];

const GROWTHS: readonly Growth[] = [
  ["figures", (usual, row) => (typeof usual === "number" ? nearby(usual, row) : usual)],
  ["rising figures", (usual, row) => (typeof usual === "number" ? usual + row : named(usual, row))],
  ["long figures", (usual, row) => (typeof usual === "number" ? usual * (1 + Math.sin(row + 1) / 8) : usual)],
  ["wrong words", (usual, row) => `not a word ${row} ${typeof usual}`],
  ["errors", () => ({ code: "#N/A", message: "" })],
  ["wrong figures", (_, row) => -1e6 - row],
];

/** Like the usual figure and each another; a whole number stays as it is, so that there are ties. */
function nearby(usual: number, row: number): number {
  return Number.isInteger(usual) ? usual : usual * (1 - row * 1e-9);
}

function named(usual: unknown, row: number): unknown {
  return typeof usual === "string" ? `${usual} ${row}` : usual;
}

/**
 * Each argument alone in a long column, all that the example gives together, and the first crossed with each other one,
 * with each kind of cells.
 */
export function* largeCalls(known: KnownCall): Generator<LargeCall> {
  const { parameters, cells } = known;
  const single = cells.map((own, index) => own !== null && isSingle(known, index));
  for (const [name, grow] of GROWTHS) {
    for (const [index, parameter] of parameters.entries()) {
      yield {
        what: `${parameter.name}: ${name}`,
        cellsOf: (length) => cells.map((own, place) => (place === index ? down(own, length, grow) : own)),
      };
      const other = cells[index];
      if (index > 0 && (cells[0]?.length ?? 1) === 1) {
        yield {
          what: `${(parameters[0] as (typeof parameters)[number]).name} down, ${parameter.name} across: ${name}`,
          cellsOf: (length) => {
            const side = Math.floor(Math.sqrt(length));
            const crossed = [...cells];
            crossed[0] = down(cells[0] ?? null, side, grow);
            crossed[index] = [down(other ?? null, side, grow).map(([cell]) => cell)];
            return crossed;
          },
        };
      }
    }
    yield {
      what: `all: ${name}`,
      cellsOf: (length) => cells.map((own, index) => (own === null || single[index] ? own : down(own, length, grow))),
    };
  }
}

/** Is it an argument of one cell, and refused as a column? */
function isSingle({ call, cells }: KnownCall, index: number): boolean {
  const outcome = called(
    call,
    cells.map((own, place) => (place === index ? [...(own as unknown[][]), ...(own as unknown[][])] : own)),
  );
  return "error" in outcome && /must be (a single cell|one)$/.test(outcome.error.message ?? "");
}

function down(own: unknown[][] | null, rows: number, grow: Growth[1]): unknown[][] {
  const usual = own ?? [[1]];
  return Array.from({ length: rows }, (_, row) =>
    (usual[row % usual.length] as unknown[]).map((cell) => (row < usual.length ? cell : grow(cell, row))),
  );
}
