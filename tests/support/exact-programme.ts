/**
 * An independent answer to small linear programmes, in exact fractions and without a simplex: the optimum of a
 * polyhedron without lines lies in a corner, so every corner is worked out. Whole-number data only.
 */
export interface WholeProgramme {
  readonly direction: "least" | "most";
  readonly objective: readonly number[];
  readonly limits: readonly {
    readonly coefficients: readonly number[];
    readonly sense: Sense;
    readonly bound: number;
  }[];
}
export type Sense = "at most" | "at least" | "exactly";
export type ExactOutcome =
  | { readonly kind: "optimal"; readonly value: number; readonly corners: number }
  | { readonly kind: "infeasible" }
  | { readonly kind: "unbounded" };

/** Farther out than any corner of the programmes tested here: entries are whole numbers below 100, five at most. */
const FAR = 10n ** 15n;

export function exactOptimum(programme: WholeProgramme): ExactOutcome {
  const near = bestCorner(programme, FAR);
  if (near === undefined) return { kind: "infeasible" };
  // The box moves outwards: an optimum that moves with it has no bound.
  const far = bestCorner(programme, 2n * FAR) as Corner;
  if (compare(near.value, far.value) !== 0) return { kind: "unbounded" };
  return { kind: "optimal", value: toNumber(near.value), corners: near.count };
}

interface Fraction {
  readonly over: bigint;
  readonly under: bigint;
}
interface Corner {
  readonly value: Fraction;
  readonly count: number;
}

function bestCorner({ direction, objective, limits }: WholeProgramme, box: bigint): Corner | undefined {
  const size = objective.length;
  const axis = (place: number) => objective.map((_, index) => (index === place ? 1n : 0n));
  // Every limit as coefficients · x <= bound; an equality as two.
  const halves = [
    ...limits.flatMap(({ coefficients, sense, bound }) => {
      const row = { coefficients: coefficients.map(BigInt), bound: BigInt(bound) };
      const opposite = { coefficients: row.coefficients.map((entry) => -entry), bound: -row.bound };
      return sense === "at most" ? [row] : sense === "at least" ? [opposite] : [row, opposite];
    }),
    ...objective.map((_, place) => ({ coefficients: axis(place).map((entry) => -entry), bound: 0n })),
    { coefficients: objective.map(() => 1n), bound: box },
  ];
  let best: Fraction | undefined;
  let count = 0;
  for (const chosen of choices(halves.length, size)) {
    const corner = solved(chosen.map((index) => halves[index] as Half));
    if (corner === undefined) continue;
    const inside = halves.every(({ coefficients, bound }) => {
      const sum = coefficients.reduce((total, entry, place) => total + entry * (corner.over[place] as bigint), 0n);
      return sum <= bound * corner.under;
    });
    if (!inside) continue;
    const value = {
      over: objective.reduce((total, entry, place) => total + BigInt(entry) * (corner.over[place] as bigint), 0n),
      under: corner.under,
    };
    const order = best === undefined ? -1 : compare(value, best) * (direction === "least" ? 1 : -1);
    if (order < 0) [best, count] = [value, 1];
    else if (order === 0) count++;
  }
  return best && { value: best, count };
}

interface Half {
  readonly coefficients: readonly bigint[];
  readonly bound: bigint;
}

/** The point where these limits all hold exactly, over one common denominator (fraction-free elimination). */
function solved(rows: readonly Half[]): { over: bigint[]; under: bigint } | undefined {
  const size = rows.length;
  const work = rows.map(({ coefficients, bound }) => [...coefficients, bound]);
  let previous = 1n;
  for (let step = 0; step < size; step++) {
    const found = work.findIndex((row, index) => index >= step && row[step] !== 0n);
    if (found < 0) return undefined;
    [work[step], work[found]] = [work[found] as bigint[], work[step] as bigint[]];
    const pivotRow = work[step] as bigint[];
    const pivot = pivotRow[step] as bigint;
    for (let index = 0; index < size; index++) {
      if (index === step) continue;
      const row = work[index] as bigint[];
      const factor = row[step] as bigint;
      for (let place = 0; place <= size; place++) {
        row[place] = ((row[place] as bigint) * pivot - factor * (pivotRow[place] as bigint)) / previous;
      }
    }
    previous = pivot;
  }
  const under = previous < 0n ? -previous : previous;
  const over = work.map((row) => (previous < 0n ? -(row[size] as bigint) : (row[size] as bigint)));
  return { over, under };
}

function* choices(from: number, size: number, first = 0): Generator<number[]> {
  if (size === 0) yield [];
  else
    for (let index = first; index <= from - size; index++)
      for (const rest of choices(from, size - 1, index + 1)) yield [index, ...rest];
}

function compare(a: Fraction, b: Fraction): number {
  const difference = a.over * b.under - b.over * a.under;
  return difference < 0n ? -1 : difference > 0n ? 1 : 0;
}

function toNumber({ over, under }: Fraction): number {
  const whole = over / under;
  return Number(whole) + Number(((over - whole * under) * 10n ** 18n) / under) / 1e18;
}
