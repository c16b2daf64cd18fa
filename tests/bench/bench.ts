import { cpus } from "node:os";
import { readFileSync } from "node:fs";
import { compileFunction } from "node:vm";
import * as formulajs from "@formulajs/formulajs";
import * as culori from "culori";
import { unit } from "mathjs";
import { solveQP } from "quadprog";
import {
  customFunctionsRuntime,
  loadBundle,
  type Implementation,
  type Implementations,
} from "../../src/recalculate/bundle";
import { calculate, type Pending } from "../../src/recalculate/engine";
import { Grid } from "../../src/recalculate/grid";
import { DAYLIGHT } from "../../src/tables/lights";
import { COUNT_SYSTEMS, type CountSystem } from "../../src/tables/count-systems";
import { blended, fibreModel } from "../../src/trade/shade/blend-models";
import { convertCount } from "../../src/trade/counts/counts";
import { difference2000 } from "../../src/trade/shade/shade-difference";
import { bestRecipes } from "../../src/trade/shade/shade-match";
import { TEXTILES } from "../support/measured-textiles";
import { SimplexLeastSquares } from "../../src/trade/solvers/simplex-least-squares";
import { packageTermsOf, sharesByPackage, sharesBySolver, shareProblem } from "../support/quadratic-programme";
import { knownCalls } from "../support/calls";
import { dearestCalls, freezes, millionRows, type Freeze } from "./freeze";
import { timed, type Contender, type Figures } from "./timing";

/** One line of the table: what is compared with what, and the ratio wanted. */
interface Line {
  readonly what: string;
  readonly nanoseconds: number;
  readonly against: string;
  readonly ratio: number;
  /** "at most 4" when ours may be so many times slower; "at least 30" when the other must be so many times slower. */
  readonly wanted?: readonly ["at most" | "at least", number];
}

const ROWS = 100_000;

const SECTIONS: Readonly<Record<string, () => Iterable<Line>>> = {
  conversions,
  columns,
  landed,
  shades,
  solvers,
  startUp,
  workbook,
  freeze,
  millions,
  worst,
};

/** `npm run bench [-- --json] [sections]` */
export function main(words: readonly string[]): number {
  const asked = words.filter((word) => word !== "--json");
  const unknown = asked.filter((word) => !(word in SECTIONS));
  if (unknown.length > 0) {
    console.error(`usage: npm run bench -- [--json] [${Object.keys(SECTIONS).join(" ")}]`);
    return 2;
  }
  const asJson = words.includes("--json");
  if (!asJson) console.log(machine());
  const lines: Line[] = [];
  for (const name of Object.keys(SECTIONS)) {
    if (asked.length > 0 && !asked.includes(name)) continue;
    for (const line of (SECTIONS[name] as () => Iterable<Line>)()) {
      lines.push(line);
      if (!asJson) console.log(told(line));
    }
  }
  if (lines.length === 0) throw new Error("nothing was worked out");
  if (asJson) console.log(JSON.stringify({ machine: machine(), lines }, null, 1));
  return 0;
}

function machine(): string {
  return `${cpus()[0]?.model ?? "unknown processor"} × ${cpus().length}, Node ${process.version}, V8 ${process.versions.v8}`;
}

function told({ what, nanoseconds, against, ratio, wanted }: Line): string {
  const verdict = wanted === undefined ? "" : `  wanted ${wanted.join(" ")}: ${met(ratio, wanted) ? "met" : "MISSED"}`;
  return `${what.padEnd(62)} ${amount(nanoseconds).padStart(10)}  ${against.padEnd(34)} ${ratio.toPrecision(3).padStart(7)}×${verdict}`;
}

function met(ratio: number, [sense, limit]: readonly ["at most" | "at least", number]): boolean {
  return sense === "at most" ? ratio <= limit : ratio >= limit;
}

function amount(nanoseconds: number): string {
  if (nanoseconds < 1e4) return `${nanoseconds.toPrecision(3)} ns`;
  return nanoseconds < 1e7 ? `${(nanoseconds / 1e3).toPrecision(3)} µs` : `${(nanoseconds / 1e6).toPrecision(3)} ms`;
}

/** Ours as a multiple of the other. */
function slower(figures: Figures, ours: string, other: string): number {
  return (figures.get(ours) as number) / (figures.get(other) as number);
}

/** Conversion of 1,000 numbers. The packages know no yarn counts: they get the cheapest thing they have, yards to metres. */
function conversions(): Line[] {
  const values = Float64Array.from({ length: 1000 }, (_, index) => 10 + index / 7);
  const out = new Float64Array(values.length);
  const column = Array.from(values, (value) => [value]);
  const system = (word: string) => COUNT_SYSTEMS.find((entry) => entry.word === word) as CountSystem;
  const [cotton, tex] = [system("NeC"), system("tex")];
  // 45359237 / 91.44 / 840 as an exact ratio: what a person would write by hand.
  const [numerator, denominator] = [45359237, 76809.6];
  const COUNT = loadBundle().get("COUNT") as Implementation;
  const each = (name: string, one: (value: number) => number): Contender => ({
    name,
    units: values.length,
    run: () => {
      for (let index = 0; index < values.length; index++) out[index] = one(values[index] as number);
      return out[0];
    },
  });
  const bare = "bare double arithmetic";
  const ours = "COUNT: the conversion itself, per value";
  const lifted = "COUNT: one call for a column, per row";
  const single = "COUNT: one call for one cell, words read each time";
  const figures = timed([
    {
      name: bare,
      units: values.length,
      run: () => {
        for (let index = 0; index < values.length; index++)
          out[index] = numerator / (denominator * (values[index] as number));
        return out[0];
      },
    },
    {
      name: ours,
      units: values.length,
      run: () => {
        for (let index = 0; index < values.length; index++)
          out[index] = convertCount(values[index] as number, cotton, tex);
        return out[0];
      },
    },
    { name: lifted, units: column.length, run: () => COUNT(column, [["NeC"]], [["tex"]]) },
    each(single, (value) => (COUNT([[value]], [["NeC"]], [["tex"]]) as number[][])[0]?.[0] as number),
    each("mathjs", (value) => unit(value, "yd").toNumber("m")),
    each("formulajs CONVERT", (value) => formulajs.CONVERT(value, "yd", "m") as number),
  ]);
  const targets: Record<string, number> = {
    mathjs: 60,
    "formulajs CONVERT": 150,
  };
  return [ours, lifted, single].flatMap((what) => {
    const nanoseconds = figures.get(what) as number;
    const against = (other: string, line: Partial<Line>): Line => ({
      what,
      nanoseconds,
      against: other,
      ratio: 1 / slower(figures, what, other),
      ...line,
    });
    return [
      against(`slower than ${bare}`, {
        ratio: slower(figures, what, bare),
        ...(what === ours ? { wanted: ["at most", 4] as const } : {}),
      }),
      ...Object.keys(targets).map((name) =>
        against(name, {
          against: `faster than ${name}`,
          ...(what === ours ? { wanted: ["at least", targets[name] as number] as const } : {}),
        }),
      ),
    ];
  });
}

/** Times the making of the result that a column may take; money is worked out in decimals. */
const MOST: Readonly<Record<string, number>> = { COUNT: 2, DRYMASS: 20, ROUNDCASH: 20 };

/**
 * A column of 100,000 rows in one call, against only making a result of that shape. A copy of the bundle in which one
 * function alone has been called is quicker: the compiler joins that function to the loop that all functions share.
 */
function columns(): Line[] {
  const together = loadBundle();
  const columnOf = (rows: number) => Array.from({ length: rows }, (_, index) => [10 + index / 1000]);
  const call = (rows: number, functions: Implementations, id: string, ...others: unknown[]): Contender => {
    const own = functions.get(id) as Implementation;
    const column = columnOf(rows);
    return { name: id, units: rows, run: () => own(column, ...others.map((value) => [[value]])) };
  };
  const floor = (count: number): Contender => ({
    name: "floor",
    units: count,
    run: () => {
      const rows: number[][] = new Array<number[]>(count);
      for (let row = 0; row < count; row++) rows[row] = [row + 0.5];
      return rows;
    },
  });
  const copy = (count: number): Contender => {
    const column = columnOf(count);
    return {
      name: "read and written back, no function",
      units: count,
      run: () => {
        const rows: number[][] = new Array<number[]>(count);
        for (let row = 0; row < count; row++) rows[row] = [(column[row] as number[])[0] as number];
        return rows;
      },
    };
  };
  const compared = (rows: number, how: string, measured: readonly Contender[]): Line[] => {
    const figures = timed([floor(rows), ...measured], 1, 24);
    return measured.map(({ name }) => ({
      what: `${name}: a column of ${rows.toLocaleString("en")}${how}, per row`,
      nanoseconds: figures.get(name) as number,
      against: "slower than making the result alone",
      ratio: slower(figures, name, "floor"),
      ...(name in MOST ? { wanted: ["at most", MOST[name] as number] as const } : {}),
    }));
  };
  const conversion = (functions: Implementations) => call(ROWS, functions, "COUNT", "NeC", "tex");
  const length = (functions: Implementations) => call(ROWS, functions, "YARNLENGTH", "g", 30, "tex", "m");
  return [
    ...compared(ROWS, ", called alone", [conversion(loadBundle())]),
    ...compared(ROWS, ", called alone", [length(loadBundle())]),
    ...compared(ROWS, "", [
      copy(ROWS),
      conversion(together),
      call(ROWS, together, "TWISTUNIT", "tpi", "tpm"),
      call(ROWS, together, "DIAMETER", "tex"),
      length(together),
    ]),
    // Exact decimals cost what they cost; fewer rows, so that a turn stays short.
    ...compared(1000, " in decimal", [call(1000, together, "DRYMASS", 0.1825), call(1000, together, "ROUNDCASH", 2)]),
  ];
}

/** 1,000 lines with 10 charges, against sharing the same charges out in plain doubles, which does not foot. */
function landed(): Line[] {
  const lines = Array.from({ length: 1000 }, (_, i) => [
    100 + (i % 97) * 3.17,
    5 + (i % 31),
    0.1 + (i % 7) / 10,
    10 + i,
  ]);
  const bases = ["value", "mass", "volume", "quantity", "equal"];
  const charges = Array.from({ length: 10 }, (_, index) => [1000 + index * 33.33, bases[index % 5] as string]);
  const LANDED = loadBundle().get("LANDED") as Implementation;
  const inDoubles = () =>
    charges.map(([amountOf, basis]) => {
      const place = bases.indexOf(basis as string);
      const weights = lines.map((line) => (place === 4 ? 1 : (line[place] as number)));
      const total = weights.reduce((sum, weight) => sum + weight, 0);
      return weights.map((weight) => Math.round(((amountOf as number) * weight * 100) / total) / 100);
    });
  const figures = timed(
    [
      { name: "ours", units: 1, run: () => LANDED(lines, charges) },
      { name: "doubles", units: 1, run: inDoubles },
    ],
    100,
    4,
  );
  return [
    {
      what: "LANDED: 1,000 lines × 10 charges, in all",
      nanoseconds: figures.get("ours") as number,
      against: "slower than doubles that do not foot",
      ratio: slower(figures, "ours", "doubles"),
      wanted: ["at most", 10],
    },
  ];
}

/** Nothing that a person does every day may hold the sheet up; in processor time. */
function freeze(): Line[] {
  return freezes(loadBundle()).map(frozen);
}

/** Functions that answer row by row, over a million rows. */
function millions(): Line[] {
  const functions = loadBundle();
  return millionRows(functions, knownCalls(functions), 1.5).map(frozen);
}

/** The dearest of some fifty large calls of each function. It takes some minutes. */
function* worst(): Iterable<Line> {
  const functions = loadBundle();
  for (const dearest of dearestCalls(functions, knownCalls(functions), 3)) yield frozen(dearest);
}

function frozen({ what, seconds, limit, counts }: Freeze): Line {
  const against = `of ${limit} s; ${counts.toPrecision(2)} × a million COUNTs`;
  return { what, nanoseconds: seconds * 1e9, against, ratio: seconds / limit, wanted: ["at most", 1] };
}

/** Recipes for measured shades; the times wanted are absolute, so the ratio is to them. */
function shades(): Line[] {
  const all = [...TEXTILES.values()];
  const model = fibreModel(0.15);
  const terms = { leastShare: 0, model, lights: [DAYLIGHT], step: 0, choices: 1 };
  const eight = all.slice(0, 8);
  const many = all.slice(0, 34);
  // Each target is a blend of all eight with a little of a solid that is not among them.
  const targets = Array.from({ length: 8 }, (_, index) => {
    const weights = eight.map((__, place) => 1 + ((index * 5 + place * 3) % 7));
    const sum = weights.reduce((total, weight) => total + weight, 0) * 1.05;
    return Array.from(
      blended([...weights.map((weight) => weight / sum), 1 - 1 / 1.05], [...eight, all[20 + index] as number[]], model),
    );
  });
  const figures = timed(
    [
      {
        name: "eight",
        units: targets.length,
        run: () => targets.map((target) => bestRecipes({ ...terms, target, solids: eight, parts: 8 })),
      },
    ],
    4,
    16,
  );
  const slow = timed(
    [
      {
        name: "many",
        units: 1,
        run: () => bestRecipes({ ...terms, target: all[35] ?? (targets[0] as number[]), solids: many, parts: 4 }),
      },
    ],
    1,
    1,
  );
  return [
    within("MIXMATCH: 8 solids, all used, refined, per target", figures.get("eight") as number, ["1 ms", 1e6]),
    within(`MIXMATCH: ${many.length} solids, 4 parts, per target`, slow.get("many") as number, ["1 s", 1e9]),
  ];
}

/** The steps of a match against general packages: shares by least squares, and the colour difference. */
function solvers(): Line[] {
  const all = [...TEXTILES.values()];
  const ofSize = (size: number): Line[] => {
    const problem = { columns: all.slice(0, size), target: all[size] as number[], least: 0 };
    const set = shareProblem(problem);
    const solver = new SimplexLeastSquares(size);
    const [matrix, ...terms] = packageTermsOf(problem);
    // The package works in the matrix it is given.
    const solvedByPackage = () =>
      solveQP(
        matrix.map((row) => row?.slice()),
        ...terms,
      );
    const what = `least squares over ${size} shares`;
    return [
      timesFaster(what, () => solver.solve(set), "quadprog", solvedByPackage),
      timesFaster(
        `${what}, set up and solved`,
        () => sharesBySolver(problem),
        "quadprog",
        () => sharesByPackage(problem),
      ),
    ];
  };
  const theirs = culori.differenceCiede2000();
  const [a, b] = [
    { mode: "lab65", l: 50, a: 20, b: 30 },
    { mode: "lab65", l: 51, a: 21, b: 28 },
  ] as const;
  return [
    ...[4, 8, 16, 30].flatMap(ofSize),
    timesFaster(
      "CIEDE2000 of one pair",
      () => difference2000([50, 20, 30], [51, 21, 28]),
      "culori",
      () => theirs(a, b),
    ),
  ];
}

/** Ours against a package that does the same. */
function timesFaster(what: string, ours: () => unknown, other: string, theirs: () => unknown): Line {
  const figures = timed([
    { name: "ours", units: 1, run: ours },
    { name: other, units: 1, run: theirs },
  ]);
  return {
    what,
    nanoseconds: figures.get("ours") as number,
    against: `${other}, times faster`,
    ratio: slower(figures, other, "ours"),
  };
}

/** A time against the most that is wanted of it. */
function within(what: string, nanoseconds: number, [words, most]: readonly [words: string, most: number]): Line {
  return { what, nanoseconds, against: `of ${words}`, ratio: nanoseconds / most, wanted: ["at most", 1] };
}

/** From the text of the bundle to all functions associated; compiled anew each time. */
function startUp(): Line[] {
  const text = readFileSync("dist/functions.js", "utf8");
  let copy = 0;
  const figures = timed(
    [
      {
        name: "start",
        units: 1,
        run: () => {
          const functions = new Map<string, Implementation>();
          // A text of its own each time, or the engine would have it compiled already.
          compileFunction(`${text}//${copy++}`, ["CustomFunctions"])(customFunctionsRuntime(functions));
          return functions;
        },
      },
    ],
    20,
    6,
  );
  return [
    within("start-up: the bundle read and all functions associated", figures.get("start") as number, ["20 ms", 20e6]),
  ];
}

/** A workbook of 100,000 formulas that call us one by one, against as many native formulas of the same engine. */
function workbook(): Line[] {
  const functions = loadBundle();
  const recalculation = (formula: (row: number) => string) => () => {
    const grid = new Grid();
    const sheet = grid.addSheet("Sheet1");
    const pending: Pending[] = [];
    for (let row = 1; row <= ROWS; row++) {
      sheet.getCell(row, 1).value = 10 + row / 1000;
      pending.push({ sheet: "Sheet1", cell: sheet.getCell(row, 2), formula: formula(row), spills: false });
    }
    return calculate(grid, pending, functions);
  };
  const ours = { name: "ours", units: 1, run: recalculation((row) => `YARN.COUNT(A${row},"NeC","tex")`) };
  const native = { name: "native", units: 1, run: recalculation((row) => `ROUNDUP(A${row}*590.5,3)`) };
  const figures = timed([ours, native], 1, 1);
  return [
    {
      what: "a workbook with 100,000 cells of COUNT, recalculated",
      nanoseconds: figures.get("ours") as number,
      against: "slower than as many native cells",
      ratio: slower(figures, "ours", "native"),
      wanted: ["at most", 1.3],
    },
  ];
}
