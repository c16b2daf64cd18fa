import { bars } from "../drawings/bars";
import { flow, routeStages } from "../drawings/flow";
import { quantities, steps } from "../drawings/steps";
import { figure, percent, type Drawing } from "../drawings/svg";
import { swatches, type Swatch } from "../drawings/swatches";
import { workedOut } from "./evaluate";
import { readFormula, Unreadable, type Call, type Formula } from "./formula";
import { CellError, type Implementation, type Rows, type Value } from "./values";
import { textOf } from "./written";

type Functions = ReadonlyMap<string, Implementation>;
/** What stands in an argument, no rows where it was left out. */
type Argument = (place: number) => Rows;

/** What a picture is made of: the arguments of the call, the table it gave, and calls of other functions. */
interface Asked {
  readonly argument: Argument;
  readonly result: Rows;
  readonly call: (id: string, ...given: Rows[]) => Rows;
}

/** A picture beside the result of those functions whose result one can see. */
const PICTURES: Readonly<Record<string, (asked: Asked) => Drawing | undefined>> = {
  ROUTE: ({ result }) => ({
    title: "The mass through the route",
    says: "A stream as wide as the mass, narrower after every stage; the table beside it holds the figures.",
    ...flow(routeStages(result)),
  }),
  ROUTECOST: ({ result }) => ({
    title: "The mass through the route, and the cost so far",
    says: "A stream as wide as the mass, narrower after every stage, with the cost so far; the table holds the figures.",
    ...flow(
      result
        .slice(2)
        .map((row) => ({
          name: textOf(row[0]),
          into: Number(row[1]),
          out: Number(row[2]),
          said: `cost so far ${figure(Number(row[5]))}`,
        }))
        .filter(({ into, out }) => into > 0 && out > 0),
    ),
  }),
  TIERED: tiered,
  SWING: ({ result }) => ({
    title: "Swings, the widest first",
    says: "One bar an input, from the result at its low to that at its high; the table holds the figures.",
    ...bars(
      numbered(result.slice(1), 1, 2).map(([name, from, to]) => ({
        name,
        from,
        to,
        said: `${figure(from)} to ${figure(to)}`,
      })),
    ),
  }),
  COSTSPREAD: ({ result }) => ({
    title: "Whose uncertainty it is",
    says: "One bar an input: its part of the variance; the table holds the figures.",
    ...bars(numbered(result.slice(2), 4, 4).map(([name, part]) => ({ name, from: 0, to: part, said: percent(part) }))),
  }),
  MIXSHADE: (asked) => {
    const blends = asked.call(
      "MIXSHADE",
      asked.argument(0),
      asked.argument(1),
      asked.argument(2),
      [["lab"]],
      asked.argument(4),
    );
    return shades("The solids and their blend", [
      ...coloured(asked, asked.argument(1), "solid"),
      ...coloured(asked, blends, "blend"),
    ]);
  },
  MIXFIT: (asked) =>
    shades("The solids and the carded pads", [
      ...coloured(asked, asked.argument(1), "solid"),
      ...coloured(asked, asked.argument(2), "pad"),
    ]),
  MIXMATCH: (asked) => {
    const shares = asked.result.filter((row) => row.some((value) => typeof value === "number"));
    const blend = asked.call(
      "MIXSHADE",
      shares.map((row) => row.filter(isNumber)),
      asked.argument(1),
      asked.argument(4),
      [["lab"]],
      asked.argument(5),
    );
    // What is to be compared stands side by side.
    return shades("Target, the blend that comes nearest, and the solids", [
      ...coloured(asked, asked.argument(0), "target"),
      ...coloured(asked, blend, "result"),
      ...coloured(asked, asked.argument(1), "solid"),
    ]);
  },
  MIXCHOICES: (asked) =>
    shades("Target, choices and solids", [
      ...coloured(asked, asked.argument(0), "target"),
      ...labColumns(asked, "choice "),
      ...coloured(asked, asked.argument(1), "solid"),
    ]),
  MIXADD: (asked) =>
    shades("Target, the batch before and after, and what can be added", [
      ...coloured(asked, asked.argument(0), "target"),
      ...labColumns(asked, ""),
      ...coloured(asked, asked.argument(3), "solid"),
    ]),
  MIXCORRECT: (asked) =>
    shades("Target, pad as measured, and solids", [
      ...coloured(asked, asked.argument(0), "target"),
      ...coloured(asked, asked.argument(2), "pad"),
      ...coloured(asked, asked.argument(3), "solid"),
    ]),
};

/** The picture of a formula that was worked out; nothing where it has none or came to an error. */
export function pictureOf(formula: string, result: Rows, functions: Functions): Drawing | undefined {
  const call = ownCall(formula);
  const draw = call && PICTURES[call.name.replace(/^YARN\./, "")];
  if (!call || !draw || result.some((row) => row.some((value) => value instanceof CellError))) return undefined;
  const surroundings = {
    functions,
    cells: (): never => {
      throw new CellError("#VALUE!");
    },
  };
  const argument = (place: number): Rows => {
    const given = call.given[place];
    return given === undefined ? [] : workedOut(given, surroundings);
  };
  const ask = (id: string, ...given: Rows[]): Rows => {
    const implementation = functions.get(id);
    const cells = given.map((rows) => (rows.length === 0 ? null : rows));
    try {
      return Array.from(implementation?.(...cells) as Rows, (row) => [...row]);
    } catch {
      return [];
    }
  };
  return draw({ argument, result, call: ask });
}

/** The call, where the formula is a call of ours and nothing around it. */
function ownCall(formula: string): Call | undefined {
  let read: Formula;
  try {
    read = readFormula(formula);
  } catch (thrown) {
    if (thrown instanceof Unreadable) return undefined;
    throw thrown;
  }
  return read.kind === "call" && read.name.startsWith("YARN.") ? read : undefined;
}

function tiered({ argument, call }: Asked): Drawing | undefined {
  const breaks = argument(1).flat().filter(isNumber);
  const mode = argument(3);
  if (mode.length > 1 || (mode[0]?.length ?? 0) > 1) return undefined;
  const asked = quantities(breaks);
  const costs = call(
    "TIERED",
    asked.map((quantity) => [quantity]),
    argument(1),
    argument(2),
    mode,
  );
  const points = costs
    .map(([cost], place) => [asked[place] as number, cost] as const)
    .filter((point): point is readonly [number, number] => isNumber(point[1]));
  if (points.length === 0) return undefined;
  return {
    title: "What every quantity costs",
    says: "The cost over the quantity, with a step or a bend at every break.",
    ...steps([{ name: textOf(mode[0]?.[0] ?? "all units"), colour: "first", points }], breaks),
  };
}

function shades(title: string, all: readonly Swatch[]): Drawing | undefined {
  if (all.length === 0) return undefined;
  return {
    title,
    says: `${all.map(({ name, said }) => `${name}: ${said}`).join("; ")}. A screen shows colours roughly.`,
    // Three figures under each want the width of a third.
    ...swatches(all, Math.min(3, all.length)),
  };
}

/** A swatch for every row that holds L*, a*, b* or reflectances, by its name where it has one. */
function coloured({ call }: Asked, rows: Rows, kind: string): Swatch[] {
  const measured = rows.filter((row) => row.filter(isNumber).length >= 3);
  return measured.flatMap((row, place) => {
    const numbers = row.filter(isNumber);
    const lab = numbers.length === 3 ? numbers : (call("LABOF", [numbers])[0] ?? []).filter(isNumber);
    const named = row.find((value) => typeof value === "string" && value !== "");
    const number = measured.length > 1 ? ` ${place + 1}` : "";
    return swatch(call, textOf(named ?? `${kind}${number}`), lab);
  });
}

/** A swatch for every row of a result with columns L*, a*, b*. */
function labColumns({ call, result: [heads = [], ...rows] }: Asked, before: string): Swatch[] {
  const from = heads.indexOf("L*");
  if (from < 0) return [];
  return rows.flatMap((row) => swatch(call, `${before}${textOf(row[0])}`, row.slice(from, from + 3).filter(isNumber)));
}

function swatch(call: Asked["call"], name: string, lab: readonly number[]): Swatch[] {
  const colour = call("LABTORGB", [[...lab]])[0]?.[0];
  if (lab.length !== 3 || typeof colour !== "string") return [];
  return [{ name, colour, said: lab.map((value) => String(Number(value.toFixed(1)))).join(", ") }];
}

function isNumber(value: Value | undefined): value is number {
  return typeof value === "number";
}

/** Rows of a name and two figures. */
function numbered(rows: Rows, first: number, second: number): [string, number, number][] {
  return rows.flatMap((row): [string, number, number][] => {
    const [a, b] = [row[first], row[second]];
    return isNumber(a) && isNumber(b) ? [[textOf(row[0]), a, b]] : [];
  });
}
