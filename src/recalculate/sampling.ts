import { valueAt, type Shape } from "./shapes";

/**
 * Latin hypercubes: the runs come in blocks, and within a block every input falls once into each of as many equal
 * shares of its range as the block has runs, in an order of its own. Blocks are independent of each other, so that the
 * spread between them tells what the figures are known to, and a run depends on the seed and its number alone: any
 * part of the runs can be drawn by itself.
 */
export interface Plan {
  readonly seed: number;
  /** How many runs a block has; the last one may have fewer. */
  readonly block: number;
  readonly runs: number;
}

/** One drawn input: its shape, and which draw it follows. */
export interface Drawn {
  readonly shape: Shape;
  /** The place of the input whose draws it takes; its own where it moves alone. */
  readonly follows: number;
}

const BLOCK = 50;
/** A standard error wants several blocks. */
const LEAST_BLOCKS = 10;

export function planFor(runs: number, seed: number): Plan {
  return { seed, runs, block: Math.max(2, Math.min(BLOCK, Math.floor(runs / LEAST_BLOCKS))) };
}

/** How many runs a block has. */
export function blockSize({ block, runs }: Plan, number: number): number {
  return Math.min(block, runs - number * block);
}

/** The share of each input's cases that lies below its value, for the runs of one block. */
export function sharesOf(plan: Plan, number: number, inputs: number): number[][] {
  const { seed } = plan;
  const size = blockSize(plan, number);
  const columns = Array.from({ length: inputs }, (_, input) => {
    const next = generator(seed, number, input);
    const order = Array.from({ length: size }, (_, place) => place);
    for (let last = size - 1; last > 0; last--) {
      const other = Math.floor(next() * (last + 1));
      [order[last], order[other]] = [order[other] as number, order[last] as number];
    }
    return order.map((place) => (place + next()) / size);
  });
  return Array.from({ length: size }, (_, run) => columns.map((column) => column[run] as number));
}

/** The values of the inputs for the runs of one block. */
export function blockOf(plan: Plan, number: number, inputs: readonly Drawn[]): number[][] {
  return sharesOf(plan, number, inputs.length).map((shares) =>
    inputs.map(({ shape, follows }) => valueAt(shape, shares[follows] as number)),
  );
}

/** The numbers of the blocks, from 0. */
export function blocksIn({ runs, block }: Plan): number[] {
  return Array.from({ length: Math.ceil(runs / block) }, (_, number) => number);
}

/** Numbers between 0 and 1, the same on every machine, for one input in one block. */
function generator(seed: number, block: number, input: number): () => number {
  let state = 0x9e3779b9;
  for (const part of [seed, Math.floor(seed / 2 ** 32), block, input]) state = mixed(state ^ (part >>> 0));
  const filled = () => {
    state = (state + 0x9e3779b9) >>> 0;
    return mixed(state);
  };
  const next = xoshiro(filled(), filled(), filled(), filled());
  // The middle of one of 2^32 equal steps: never 0 and never 1, also after it is scaled to its share of the range.
  return () => (next() + 0.5) / 2 ** 32;
}

/**
 * xoshiro128** of D. Blackman and S. Vigna, "Scrambled Linear Pseudorandom Number Generators", ACM Transactions on
 * Mathematical Software 47 (2021): whole numbers of 32 bits from a state of four that are not all 0.
 */
export function xoshiro(a: number, b: number, c: number, d: number): () => number {
  return () => {
    const result = Math.imul(turned(Math.imul(b, 5), 7), 9) >>> 0;
    const shifted = b << 9;
    c ^= a;
    d ^= b;
    b ^= c;
    a ^= d;
    c ^= shifted;
    d = turned(d, 11);
    return result;
  };
}

/** Spreads every bit over all 32: the finalizer of A. Appleby's MurmurHash3. */
function mixed(bits: number): number {
  let mix = bits;
  mix = Math.imul(mix ^ (mix >>> 16), 0x85ebca6b);
  mix = Math.imul(mix ^ (mix >>> 13), 0xc2b2ae35);
  return (mix ^ (mix >>> 16)) >>> 0;
}

function turned(bits: number, by: number): number {
  return (bits << by) | (bits >>> (32 - by));
}
