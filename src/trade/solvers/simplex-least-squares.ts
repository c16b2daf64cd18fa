export interface ShareProblem {
  /** G, row by row, `size` numbers a row. */
  readonly gram: Float64Array;
  /** c; 0 for all where it is left out. */
  readonly linear?: Float64Array | undefined;
  readonly size: number;
  /** The least of each share. */
  readonly least: number;
}

/** Pivots and gradients are told from 0 against the largest number of the problem. */
const GRADIENT_TOLERANCE = 1e-14;
const LEAST_PIVOT = 1e-15;
/** A share no more than this above its bound is at it. */
const AT_BOUND = 1e-15;
/** The greatest part of a step that takes a share to its bound: short of the whole, so that the share is given up. */
const ALMOST_ALL = 1 - 1e-16;

/** ½·xᵀGx - cᵀx. */
export function objectiveOf({ gram, linear, size }: ShareProblem, shares: ArrayLike<number>): number {
  let value = 0;
  for (let i = 0; i < size; i++) {
    let product = 0;
    for (let j = 0; j < size; j++) product += gram[i * size + j]! * shares[j]!;
    value += shares[i]! * (product / 2 - (linear ? linear[i]! : 0));
  }
  return value;
}

const NONE: Float64Array = new Float64Array(0);

/**
 * Least squares over shares: min ½·xᵀGx - cᵀx with Σx = 1 and every x at least `least`, G symmetric and not negative.
 *
 * An active set as Lawson and Hanson's, with the sum built in: shares are moved against one free share, which keeps
 * the sum and, unlike solving for the multiplier, does not lose digits when the columns are nearly alike. At the answer
 * the gradient is equal on the free shares and not smaller on the others (the KKT conditions).
 *
 * Its work space, for problems of up to `capacity` shares, is kept between problems, because a match solves tens of
 * thousands of them; nothing in it outlives a call. Between steps:
 *   above[i] = share - least ≥ 0, and above sums to what is left when every share has its least;
 *   free[0 … freeCount) are the places whose share may move, all others have above = 0.
 */
export class SimplexLeastSquares {
  private gram = NONE;
  private linear = NONE;
  private readonly noLinear: Float64Array;
  private readonly gradient: Float64Array;
  private readonly above: Float64Array;
  private readonly free: Int32Array;
  private readonly factor: Float64Array;
  private readonly step: Float64Array;
  private freeCount = 0;
  private size = 0;
  private scale = 0;

  constructor(capacity: number) {
    this.noLinear = new Float64Array(capacity);
    this.gradient = new Float64Array(capacity);
    this.above = new Float64Array(capacity);
    this.free = new Int32Array(capacity);
    this.factor = new Float64Array(capacity * capacity);
    this.step = new Float64Array(capacity);
  }

  /** The shares of least objective. */
  solve({ gram, linear = this.noLinear, size, least }: ShareProblem): Float64Array {
    this.gram = gram;
    this.linear = linear;
    this.size = size;
    const room = 1 - size * least;
    this.scale = 0;
    for (let i = 0; i < size; i++) {
      this.scale = Math.max(this.scale, gram[i * size + i]!, Math.abs(linear[i]!));
      this.above[i] = 0;
    }
    this.startAtBestCorner(room, least);
    const mostRounds = 4 * size + 20;
    for (let round = 0; room > 0 && round < mostRounds; round++) {
      const entering = this.entering(least);
      if (entering < 0) break;
      this.free[this.freeCount++] = entering;
      this.descend(least);
    }
    const shares = new Float64Array(size);
    for (let i = 0; i < size; i++) shares[i] = least + this.above[i]!;
    return shares;
  }

  /** The share at its bound whose gradient is furthest below that of the free ones; -1 at the answer. */
  private entering(least: number): number {
    let entering = -1;
    let lowest = this.levelOf(this.updateGradient(least)) - GRADIENT_TOLERANCE * this.scale;
    for (let i = 0; i < this.size; i++) {
      if (this.above[i]! > 0 || this.gradient[i]! >= lowest) continue;
      lowest = this.gradient[i]!;
      entering = i;
    }
    return entering;
  }

  private startAtBestCorner(room: number, least: number): void {
    const { size, gram, linear } = this;
    let best = 0;
    let lowest = Infinity;
    for (let i = 0; i < size; i++) {
      let row = 0;
      if (least > 0) for (let j = 0; j < size; j++) row += gram[i * size + j]!;
      const value = room * (gram[i * size + i]! / 2) + least * row - linear[i]!;
      if (value < lowest) {
        lowest = value;
        best = i;
      }
    }
    this.above[best] = Math.max(0, room);
    this.free[0] = best;
    this.freeCount = 1;
  }

  private updateGradient(least: number): Float64Array {
    const { size, gram, linear, above, gradient } = this;
    for (let i = 0; i < size; i++) {
      let value = -linear[i]!;
      for (let j = 0; j < size; j++) value += gram[i * size + j]! * (above[j]! + least);
      gradient[i] = value;
    }
    return gradient;
  }

  /** The common gradient of the free shares: the multiplier of the sum. */
  private levelOf(gradient: Float64Array): number {
    let weighted = 0;
    let room = 0;
    for (let i = 0; i < this.size; i++) {
      weighted += this.above[i]! * gradient[i]!;
      room += this.above[i]!;
    }
    return weighted / room;
  }

  /** To the optimum of the free shares, giving up those that reach their bound. */
  private descend(least: number): void {
    while (this.freeCount > 1) {
      this.updateGradient(least);
      this.stepOnFree();
      const most = this.mostOfStep();
      this.move(most);
      if (most >= 1) return;
      this.dropEmpty();
    }
  }

  /** Newton's step for the free shares against the first of them, into `step` by place in `free`. */
  private stepOnFree(): void {
    const { size, gram, gradient, free, factor, step } = this;
    const base = free[0]!;
    const order = this.freeCount - 1;
    const smallest = LEAST_PIVOT * this.scale;
    for (let row = 0; row < order; row++) {
      const a = free[row + 1]!;
      let right = gradient[base]! - gradient[a]!;
      for (let column = 0; column <= row; column++) {
        const b = free[column + 1]!;
        let value = gram[a * size + b]! - gram[a * size + base]! - gram[b * size + base]! + gram[base * size + base]!;
        for (let k = 0; k < column; k++) value -= factor[row * size + k]! * factor[column * size + k]!;
        // Two shades alike leave nothing to choose between them: the floor keeps that direction at rest.
        factor[row * size + column] =
          column < row ? value / factor[column * size + column]! : Math.sqrt(Math.max(value, smallest));
        if (column < row) right -= factor[row * size + column]! * step[column + 1]!;
      }
      step[row + 1] = right / factor[row * size + row]!;
    }
    let sum = 0;
    for (let row = order - 1; row >= 0; row--) {
      let value = step[row + 1]!;
      for (let below = row + 1; below < order; below++) value -= factor[below * size + row]! * step[below + 1]!;
      step[row + 1] = value / factor[row * size + row]!;
      sum += step[row + 1]!;
    }
    step[0] = -sum;
  }

  /** The largest part of the step that keeps every free share above its bound. */
  private mostOfStep(): number {
    let most = 1;
    for (let place = 0; place < this.freeCount; place++) {
      const value = this.above[this.free[place]!]!;
      if (value + this.step[place]! <= 0) most = Math.min(most, value / -this.step[place]!, ALMOST_ALL);
    }
    return most;
  }

  private move(part: number): void {
    for (let place = 0; place < this.freeCount; place++) {
      const share = this.free[place]!;
      this.above[share] = Math.max(0, this.above[share]! + part * this.step[place]!);
    }
  }

  /** Frees the places of the shares that have come down to their bound: at least one, the lowest. */
  private dropEmpty(): void {
    let lowest = 0;
    for (let place = 1; place < this.freeCount; place++) {
      if (this.above[this.free[place]!]! < this.above[this.free[lowest]!]!) lowest = place;
    }
    this.above[this.free[lowest]!] = 0;
    let kept = 0;
    for (let place = 0; place < this.freeCount; place++) {
      const share = this.free[place]!;
      if (this.above[share]! > AT_BOUND) this.free[kept++] = share;
      else this.above[share] = 0;
    }
    this.freeCount = kept;
  }
}
