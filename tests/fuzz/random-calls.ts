import fc from "fast-check";
import { called, faultIn, type KnownCall } from "../support/calls";
import { ERROR_VALUES, EXTREME_NUMBERS, NAUGHTY_TEXTS } from "./naughty";

/** One call, written so that it can be repeated. */
export interface RandomCall {
  readonly known: KnownCall;
  readonly cells: readonly unknown[];
}

const SURROGATES = { first: 0xd800, count: 0x800 };
/** Any characters: `fc.string` would first write a million of them down, which takes a second. */
const anyText = fc
  .array(fc.nat(0x10ffff - SURROGATES.count), { maxLength: 12 })
  .map((places) => String.fromCodePoint(...places.map((at) => (at < SURROGATES.first ? at : at + SURROGATES.count))));

const oddCell: fc.Arbitrary<unknown> = fc.oneof(
  { weight: 3, arbitrary: fc.constantFrom(...EXTREME_NUMBERS) },
  { weight: 2, arbitrary: fc.double() },
  { weight: 2, arbitrary: fc.double({ min: 0, max: 1, noNaN: true }) },
  { weight: 2, arbitrary: fc.integer({ min: -3, max: 400 }) },
  { weight: 2, arbitrary: fc.constantFrom(...NAUGHTY_TEXTS) },
  { weight: 1, arbitrary: anyText },
  { weight: 1, arbitrary: fc.constantFrom<unknown>(null, undefined, "", true, false, ...ERROR_VALUES) },
);

/** A rectangle of cells, seldom large. */
function rectangle(cell: fc.Arbitrary<unknown>): fc.Arbitrary<unknown[][]> {
  const side = fc.oneof(
    { weight: 5, arbitrary: fc.constant(1) },
    { weight: 4, arbitrary: fc.integer({ min: 1, max: 5 }) },
  );
  return fc
    .tuple(side, side)
    .chain(([rows, columns]) =>
      fc.array(fc.array(cell, { minLength: columns, maxLength: columns }), { minLength: rows, maxLength: rows }),
    );
}

/** What may stand in one argument: near what works, so that calls get past the door, or anything at all. */
function argument(usual: unknown[][] | null, words: readonly unknown[]): fc.Arbitrary<unknown> {
  const nothing = fc.constantFrom<unknown>(null, undefined, [[null]], [[""]]);
  const likely = fc.oneof({ weight: 3, arbitrary: fc.constantFrom(...words) }, { weight: 2, arbitrary: oddCell });
  const anything = fc.oneof(rectangle(likely), rectangle(oddCell));
  if (usual === null) return fc.oneof({ weight: 5, arbitrary: nothing }, { weight: 3, arbitrary: anything });
  const size = usual.length * (usual[0] as unknown[]).length;
  const changed = fc.tuple(fc.nat(size - 1), likely).map(([at, cell]) => withCell(usual, at, cell));
  const repeated = fc
    .integer({ min: 2, max: 4 })
    .map((times) => ([] as unknown[][]).concat(...Array<unknown[][]>(times).fill(usual)));
  return fc.oneof(
    { weight: 8, arbitrary: fc.constant(usual) },
    { weight: 5, arbitrary: changed },
    { weight: 1, arbitrary: repeated },
    { weight: 1, arbitrary: fc.constant((usual[0] as unknown[]).map((_, c) => usual.map((row) => row[c]))) },
    { weight: 1, arbitrary: nothing },
    { weight: 3, arbitrary: anything },
  );
}

function withCell(cells: unknown[][], at: number, cell: unknown): unknown[][] {
  const columns = (cells[0] as unknown[]).length;
  return cells.map((row, r) => row.map((own, c) => (r * columns + c === at ? cell : own)));
}

/** Random calls of all the functions. */
export function randomCalls(known: readonly KnownCall[]): fc.Arbitrary<RandomCall> {
  const cells = known.flatMap((one) => one.cells.flatMap((own) => (own ?? []).flat()));
  const words = [...new Set(cells)].filter((cell) => cell !== null && typeof cell !== "object");
  const calls = known.map((one) =>
    fc
      .tuple(...one.cells.map((usual) => argument(usual, words)))
      .map((made): RandomCall => ({ known: one, cells: made })),
  );
  return fc.oneof(...calls);
}

/** Longer than this no person waits for a cell. */
const LONGEST_CALL_MS = 20_000;

/** What is wrong with a call, if anything. */
export function faultOfCall({ known, cells }: RandomCall): string | undefined {
  const before = JSON.stringify(cells);
  const start = performance.now();
  const outcome = called(known.call, cells);
  const took = performance.now() - start;
  if (took > LONGEST_CALL_MS) return `took ${Math.round(took)} ms`;
  if (JSON.stringify(cells) !== before) return "changed its arguments";
  return faultIn(outcome);
}

/** A call as a line of JavaScript that repeats it. */
export function callText({ known, cells }: RandomCall): string {
  return `${known.id}(${cells.map((own) => fc.stringify(own)).join(", ")})`;
}
