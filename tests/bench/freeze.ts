import type { Implementation, Implementations } from "../../src/recalculate/bundle";
import { called, type Called, type KnownCall } from "../support/calls";
import { largeCalls, type LargeCall } from "./large-calls";

/** One call of everyday size, and how many processor seconds it may take. */
interface FrozenCall {
  readonly what: string;
  readonly seconds: number;
  readonly call: () => unknown;
}

/** What a call took. */
export interface Freeze {
  readonly what: string;
  readonly seconds: number;
  readonly limit: number;
  /** A column of a million COUNTs in the same run is the measure that goes with the machine. */
  readonly counts: number;
}

const MILLION = 1e6;

/** Processor seconds of one call; not of the clock, which others on the machine stop. */
function processorSeconds(call: () => unknown): number {
  const before = process.cpuUsage();
  call();
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1e6;
}

/** The calls at which sheets once stood still, each once. */
export function freezes(functions: Implementations): Freeze[] {
  const measure = millionCounts(functions);
  return everydayCalls(functions).map(({ what, seconds, call }) => {
    const took = processorSeconds(call);
    return { what, seconds: took, limit: seconds, counts: took / measure };
  });
}

/** A first look at every call, from which the dearest are made longer. */
const [SHORTEST, FIRST_LOOK] = [300, 3000];
/** As long as people's sheets are; as long as a sheet's column, where that could pass the limit. */
const [LONG, LONGEST] = [100_000, 2 ** 20];
/** Of a first look, in seconds: a call that takes more is made longer, even if others are dearer. */
const SUSPECT = 0.1;

/**
 * Every function's dearest call with long columns in each argument, of right and wrong cells. Each call is looked at
 * with short columns first; the dearest of them, and all that are suspect, are made longer until they are as long as
 * people's sheets, or as a sheet's column where that could pass the limit, or until they pass it or are refused. So the
 * whole bounds itself.
 */
export function* dearestCalls(
  functions: Implementations,
  known: readonly KnownCall[],
  limit: number,
): Generator<Freeze> {
  const measure = millionCounts(functions);
  for (const one of known) {
    const calls = [...largeCalls(one)].map((large) => ({ large, length: SHORTEST, ...measured(one, large, SHORTEST) }));
    const looked = calls.map((call) => madeLonger(one, call, FIRST_LOOK, limit));
    looked.sort((a, b) => b.seconds - a.seconds);
    let dearest = looked[0] as Looked;
    for (const [place, call] of looked.entries()) {
      // One call that passes the limit is enough to know.
      if (dearest.seconds > limit || (place > 0 && call.seconds <= SUSPECT)) break;
      const long = madeLonger(one, call, LONG, limit);
      const longer = (long.seconds * LONGEST) / long.length > limit ? madeLonger(one, long, LONGEST, limit) : long;
      if (longer.seconds > dearest.seconds) dearest = longer;
    }
    const what = `${one.id}, ${dearest.large.what}, ${dearest.length.toLocaleString("en")}`;
    yield { what, seconds: dearest.seconds, limit, counts: dearest.seconds / measure };
  }
}

interface Measured {
  readonly seconds: number;
  readonly refused: boolean;
}

function measured({ call }: KnownCall, { cellsOf }: LargeCall, length: number): Measured {
  const cells = cellsOf(length);
  let outcome: Called | undefined;
  const seconds = processorSeconds(() => (outcome = called(call, cells)));

  const code = outcome !== undefined && "error" in outcome ? outcome.error : undefined;
  return { seconds, refused: /in one call/.test(code?.message ?? "") };
}

interface Looked extends Measured {
  readonly large: LargeCall;
  readonly length: number;
}

/** The same call longer and longer; in steps that stay below ten times the limit even where time grows with the square. */
function madeLonger(one: KnownCall, call: Looked, longest: number, limit: number): Looked {
  let [known, shortestRefused] = [call, longest + 1];
  while (known.seconds <= limit && !known.refused && shortestRefused / known.length > 1.1) {
    const leap = Math.min(100, Math.max(3, Math.sqrt(limit / Math.max(known.seconds, 1e-4))));
    const between = Math.floor(Math.sqrt(known.length * shortestRefused));
    const length = shortestRefused > longest ? Math.min(longest, Math.floor(known.length * leap)) : between;
    if (length <= known.length) break;
    const longer = measured(one, call.large, length);
    if (longer.refused) shortestRefused = length;
    else known = { large: call.large, length, ...longer };
  }
  return known;
}

/** A million rows down the first argument of every function that answers row by row. */
export function millionRows(functions: Implementations, known: readonly KnownCall[], limit: number): Freeze[] {
  const measure = millionCounts(functions);
  return known.flatMap(({ id, call, cells }) => {
    const usual = cells[0]?.[0]?.[0];
    if (typeof usual !== "number" && typeof usual !== "string") return [];
    const others = cells.slice(1);
    if (others.some((own) => own !== null && own.length * (own[0]?.length ?? 0) > 1)) return [];
    const rowByRow = called(call, [[[usual], [usual]], ...others]);
    if (!("rows" in rowByRow) || rowByRow.rows.length !== 2 || rowByRow.rows.some(isRefused)) return [];
    const figure = (row: number) =>
      typeof usual === "number" && !Number.isInteger(usual) ? usual * (1 - row * 1e-9) : usual;
    const long = column(MILLION, figure);
    called(call, [column(1000, figure), ...others]);
    const seconds = processorSeconds(() => called(call, [long, ...others]));
    return [{ what: `${id}, a million rows`, seconds, limit, counts: seconds / measure }];
  });
}

function isRefused(row: readonly unknown[]): boolean {
  return row.some((cell) => typeof cell === "object");
}

function millionCounts(functions: Implementations): number {
  const COUNT = functions.get("COUNT") as Implementation;
  const values = column(MILLION, (row) => 10 + (row % 50));
  const call = () => COUNT(values, [["Nm"]], [["tex"]]);
  call();
  return Math.min(...[1, 2, 3].map(() => processorSeconds(call)));
}

function column<T>(rows: number, cell: (row: number) => T): T[][] {
  return Array.from({ length: rows }, (_, row) => [cell(row)]);
}

/** The same numbers in every run (a multiplicative congruence of 31 bits). */
function drawn(): () => number {
  let state = 7;
  return () => (state = (state * 1103515245 + 12345) % 2 ** 31) / 2 ** 31;
}

function everydayCalls(functions: Implementations): FrozenCall[] {
  const next = drawn();
  const of =
    (id: string, ...cells: unknown[]) =>
    () =>
      called(functions.get(id) as Implementation, cells);
  const labs = (count: number, chroma: number) =>
    Array.from({ length: count }, () => [20 + 60 * next(), chroma * (next() - 0.5), chroma * (next() - 0.5)]);
  /** Smooth steps from one reflectance to another, as dyes have them. */
  const spectra = (count: number) =>
    Array.from({ length: count }, () => {
      const [from, to, middle, width] = [0.05 + 0.6 * next(), 0.05 + 0.6 * next(), 400 + 300 * next(), 30 + 80 * next()];
      return Array.from({ length: 31 }, (_, band) => from + (to - from) / (1 + Math.exp(-(400 + 10 * band - middle) / width)));
    }); // prettier-ignore
  const bases = ["value", "mass", "volume", "quantity", "equal"];
  const lines = Array.from({ length: 5000 }, () => [100 * next(), 10 * next(), next(), 5]);
  const charges = Array.from({ length: 20 }, (_, index) => [1000 * next(), bases[index % 5]]);
  const events = Array.from({ length: 100_000 }, (_, row) => (row % 2 ? [-5, 0] : [10, 4 + next()]));
  const quantities = column(100_000, () => 1e4 * next());
  const breaks = column(1000, (row) => row * 10);
  const rates = column(1000, (row) => 10 - row * 0.005);
  const components = column(1000, () => 1 + next());
  const properties = Array.from({ length: 1000 }, () => [18 + 6 * next(), 60 + 30 * next()]);
  const targets = labs(30, 12);
  const [sixteen, eighteen, dull] = [labs(16, 60), labs(18, 60), labs(20, 12)];
  const many = spectra(34);
  const lights = [["D65/10"], ["A/10"]];
  const wrong = (count: number) => column(count, (row) => `wool lot ${row}`);
  const call = (what: string, seconds: number, run: () => unknown): FrozenCall => ({ what, seconds, call: run });
  return [
    call("COUNT, 5,000 different wrong words", 1, of("COUNT", [[24]], wrong(5000), [["tex"]])),
    call("COUNT, one wrong word 20,000 times", 1, of("COUNT", [[24]], column(20_000, () => "wool lot"), [["tex"]])),
    call("REGAIN, 5,000 unknown materials", 1, of("REGAIN", wrong(5000))),
    call("MIXMATCH, a vivid target, 20 dull solids", 1, of("MIXMATCH", [[50, 70, 50]], dull)),
    call("MIXMATCH, 18 solids, 8 parts, a black target", 1, of("MIXMATCH", [[5, 0, 0]], eighteen, [[8]])),
    call("MIXMATCH, 34 spectra, 4 parts, two lights", 1, of("MIXMATCH", many.slice(3, 4), many.slice(4), [[4]], null, [["ks"]], lights)),
    call("MIXMATCH, 34 spectra, 4 parts, two lights, out of reach", 1, of("MIXMATCH", [many[0]?.map(() => 0.01)], many, [[4]], null, [["ks"]], lights)),
    call("MIXMATCH, 30 targets, 16 solids", 3, of("MIXMATCH", targets, sixteen)),
    call("LANDED, 5,000 lines × 20 charges", 1, of("LANDED", lines, charges)),
    call("APPORTION, 100,000 weights", 1, of("APPORTION", [[1e6]], column(100_000, () => next()))),
    call("STOCKLEDGER, 100,000 events, fifo", 1, of("STOCKLEDGER", events, [["fifo"]])),
    call("STOCKLEDGER, 100,000 events, average", 1, of("STOCKLEDGER", events, [["average"]])),
    call("TIERED, 100,000 quantities × 1,000 breaks, next break", 1, of("TIERED", quantities, breaks, rates, [["next break"]])),
    call("LEASTCOST, 1,000 components with bounds", 1, of("LEASTCOST", components, properties, [[null, 70], [21, null]], column(1000, () => 0), column(1000, () => 0.1))),
  ]; // prettier-ignore
}
