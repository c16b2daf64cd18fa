/** One thing to be timed. It returns something of its work, so that no compiler can leave the work out. */
export interface Contender {
  readonly name: string;
  /** Does the work once. */
  readonly run: () => unknown;
  /** How many units of work (conversions, rows, targets) one run is. */
  readonly units: number;
}

/** Nanoseconds for one unit of work, by contender. */
export type Figures = ReadonlyMap<string, number>;

const RUNS = 5;
const SLICES_A_RUN = 12;
const SLICE_MS = 8;

/**
 * Times contenders against each other: five runs, in each of which short slices of all contenders take turns, so that
 * whatever else the machine does falls on all alike. A run's figure is its fastest slice, the result the median run.
 */
export function timed(contenders: readonly Contender[], sliceMs = SLICE_MS, slicesARun = SLICES_A_RUN): Figures {
  const repeats = contenders.map((contender) => repeatsFor(contender, sliceMs));
  const runs = contenders.map((): number[] => []);
  for (let run = 0; run < RUNS; run++) {
    const fastest = contenders.map(() => Infinity);
    for (let slice = 0; slice < slicesARun; slice++) {
      for (let turn = 0; turn < contenders.length; turn++) {
        // Nobody always comes after the same neighbour's garbage.
        const place = (turn + slice) % contenders.length;
        const contender = contenders[place] as Contender;
        const times = repeats[place] as number;
        fastest[place] = Math.min(fastest[place] as number, elapsed(contender, times) / (times * contender.units));
      }
    }
    fastest.forEach((figure, place) => (runs[place] as number[]).push(figure));
  }
  if (kept === undefined) throw new Error("nothing was worked out");
  return new Map(contenders.map(({ name }, place) => [name, median(runs[place] as number[])]));
}

let kept: unknown;

function elapsed({ run }: Contender, times: number): number {
  const start = process.hrtime.bigint();
  for (let time = 0; time < times; time++) kept = run();
  return Number(process.hrtime.bigint() - start);
}

/** Long enough for the compiler to have done its work. */
const WARM_UP_MS = 300;

/** Warms a contender up and finds how many runs fill a slice. */
function repeatsFor(contender: Contender, sliceMs: number): number {
  for (let warm = 0; warm < WARM_UP_MS;) warm += elapsed(contender, 1) / 1e6;
  let times = 1;
  for (let round = 0; round < 30; round++) {
    const took = elapsed(contender, times) / 1e6;
    if (took >= sliceMs) return Math.max(1, Math.round((times * sliceMs) / took));
    times *= took < sliceMs / 4 ? 2 : Math.max(1.2, sliceMs / Math.max(took, 0.001));
    times = Math.ceil(times);
  }
  return times;
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)] as number;
}
