import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { plainHeading } from "../../src/sheet/headings";
import { headingsTaken } from "../../src/build/headings-taken";
import { documentedFunctions, type DocumentedHeading } from "../../src/documentation/docblocks.mjs";
import * as schedule from "../../src/functions/schedule";
import { cost, drafting, control, landed, route } from "../support/families";
import { sourceFunctions } from "../support/functions";

type Row = readonly (string | number)[];
interface Case {
  /** Function and argument. */
  readonly what: string;
  readonly rows: readonly Row[];
  readonly call: (table: unknown[][]) => unknown[][];
  /** Has the result a row for each row of the table, below its own headings? */
  readonly placed: boolean;
}

const STAGES: readonly Row[] = [
  ["scour", 0.42, 0.16, 0.01],
  ["comb", 0.05, 0.1825, 0.06],
  ["spin", 0.04, 0.17, 0],
];
const PRICED: readonly Row[] = STAGES.map((row, place) => [
  ...[...row, 2.5, "per in", 0.85, 100, 12],
  ...["", place === 1 ? 40 : "", place === 2 ? 300 : "", place === 0 ? 1.1 : ""],
]);
const LINES: readonly Row[] = [
  [1000, 50, 0.2, 500],
  [2000, 30, 0.1, 300],
  [500, 12, 0.4, 90],
];
const plainly = (rows: readonly Row[]) => rows.map((row) => [...row]);
const SPREADS: readonly Row[] = [
  ["scour", 0.02, "", "", 0.05],
  ["spin", "", 0.005, "", 0.1],
];
/** Every table that any function takes, in the documented order of its columns. */
const CASES: readonly Case[] = [
  { what: "ROUTE stages", rows: STAGES, call: (table) => route.route([[1000]], table, [["made"]]), placed: true },
  {
    what: "ROUTECOST stages",
    rows: PRICED,
    call: (table) => cost.routeCost([[1000]], table, [["made"]], [[4.2]]),
    // The material has a row before them.
    placed: false,
  },
  {
    what: "COSTSPREAD stages",
    rows: PRICED.map((row) => row.map((cell, place) => (place === 9 ? "" : cell))),
    call: (table) => cost.costSpread([[1000]], table, plainly(SPREADS), [["made"]], [[4.2]]),
    placed: false,
  },
  {
    what: "COSTSPREAD spreads",
    rows: SPREADS,
    call: (table) => cost.costSpread([[1000]], plainly(PRICED), table, [["made"]], [[4.2]]),
    placed: false,
  },
  {
    what: "QUOTES quotes",
    rows: [
      ["A", "per in", 2, 50, 10, 300, 5, 0.02, 0.1],
      ["B", "per out", 1.9, "", 100, "", 0, 0.05, ""],
      ["C", "per lot", 400, "", "", 500, 20, 0, 0.16],
    ],
    call: (table) => cost.quotes([[1000]], table, [[9]]),
    placed: false,
  },
  {
    what: "DRAFTPLAN passages",
    rows: [
      [8, 7.5, 0.01],
      [6, 8, 0],
      [4, 9, ""],
    ],
    call: (table) => drafting.draftPlan([[20]], [["ktex"]], table),
    placed: true,
  },
  { what: "LANDED lines", rows: LINES, call: (table) => landed.landed(table, [[100, "mass"]]), placed: true },
  {
    what: "LANDED charges",
    rows: [
      [100, "value"],
      [55.55, "mass"],
      [20, "equal"],
    ],
    call: (table) => landed.landed(plainly(LINES), table),
    placed: false,
  },
  {
    what: "EXCHANGE rates",
    rows: [
      [45000, "EUR", "USD", 1.1],
      [45010, "EUR", "USD", 1.2],
      [45020, "GBP", "USD", 1.3],
    ],
    call: (table) =>
      landed.exchange([[100], [30], [50]], [["EUR"], ["EUR"], ["GBP"]], [["USD"]], [[45005], [45015], [45030]], table),
    placed: false,
  },
  {
    what: "STOCKLEDGER events",
    rows: [
      [10, 4, "", ""],
      [-3, "", "", ""],
      ["", "", -2, "write-down"],
      [5, 6, "", ""],
    ],
    call: (table) => control.stockLedger(table, [["fifo"]]),
    placed: true,
  },
  {
    what: "TIMEPLAN tasks",
    rows: [
      ["card", 5, ""],
      ["comb", 3, "card"],
      ["spin", 10, "card, comb"],
    ],
    call: (table) => schedule.timePlan(table, [[46083]], [["from"]]),
    placed: true,
  },
];

const taken = headingsTaken(documentedFunctions(), sourceFunctions);
const headingsOf = (what: string): readonly DocumentedHeading[] => {
  const [id, argument] = what.split(" ") as [string, string];
  return (taken(id, argument) ?? []).filter(({ heading, needed }) => needed || heading !== "name");
};
/** A table has several columns of figures; a list has one, and shades have theirs in shade-rows.test.ts. */
const isTable = (what: string): boolean => {
  const headings = headingsOf(what);
  return headings.length > 1 && headings.every(({ heading }) => heading !== "L*");
};

test("every table of every function is among the cases", () => {
  const tables = documentedFunctions().flatMap(({ id, parameters }) =>
    parameters.map(({ name }) => `${id} ${name}`).filter(isTable),
  );
  expect(CASES.map(({ what }) => what).sort()).toEqual(tables.sort());
});

/** A unit behind a heading, such as its column can have: another is refused (heading-units.test.ts). */
const withUnit = (heading: string): string =>
  /^(loss|waste|regain( out)?|by product)$/.test(heading)
    ? `${heading} %`
    : /^(hours|days)$/.test(heading)
      ? `${heading} [${heading}]`
      : `${heading} [kg]`;
const sayings: readonly ((heading: string) => string)[] = [
  (heading) => heading,
  (heading) => `${heading} (EUR)`,
  (heading) => `${heading} (see note 3)`,
  (heading) => ` ${heading} `,
  withUnit,
];

/** The message of a refused call. */
function said(call: () => unknown): string {
  try {
    call();
  } catch (thrown) {
    return (thrown as Error).message;
  }
  throw new Error("it was not refused");
}

const NO_ERROR = "it gave figures";

/** The message of a refused call, or of the first cell that is in error. */
function outcomeOf(call: () => unknown[][]): string {
  try {
    const error: { message?: string } | undefined = call()
      .flat()
      .find((cell) => typeof cell === "object" && cell !== null);
    return error?.message ?? NO_ERROR;
  } catch (thrown) {
    return (thrown as Error).message;
  }
}

describe.each(CASES)("$what", ({ what, rows, call, placed }) => {
  const known = headingsOf(what);
  const named =
    taken(...(what.split(" ") as [string, string]))?.some(({ heading, needed }) => heading === "name" && !needed) ===
    true;
  const headings = known.map(({ heading }) => heading);
  const plain = call(plainly(rows));
  const blank = fc.constantFrom<unknown>(null, undefined, "");

  test("without headings stands in the order of the headings that it knows", () => {
    for (const row of rows) expect(row).toHaveLength(headings.length);
    expect(call([headings, ...plainly(rows)])).toEqual(plain);
  });

  test("columns by heading, in any order, among others, in any spelling", () => {
    const others = ["remark", "checked by"];
    const order = fc.shuffledSubarray([...headings, ...others], { minLength: headings.length + others.length });
    fc.assert(
      fc.property(order, fc.constantFrom(...sayings), fc.boolean(), (names, saying, loud) => {
        // A first column of texts is one of names there.
        fc.pre(!named || headings.includes(names[0] as string));
        const head = names.map((name) => {
          const said = saying(name);
          return loud ? said.toUpperCase() : said.replace(/(?<=\w) (?=\w)/g, "_");
        });
        const body = rows.map((row) => names.map((name) => row[headings.indexOf(name)] ?? "note"));
        expect(call([head, ...body])).toEqual(plain);
      }),
      { numRuns: 60 },
    );
  });

  test("in the trade's other words, in the plural, and all of them at once", () => {
    for (const [place, { heading, synonyms }] of known.entries()) {
      for (const synonym of synonyms) {
        const isShare = withUnit(heading).endsWith("%");
        for (const written of [synonym, `${synonym} (${isShare ? "share" : "EUR/kg"})`, `${synonym}s`]) {
          const head = headings.map((own, at) => (at === place ? written : own));
          expect(call([head, ...plainly(rows)]), written).toEqual(plain);
        }
      }
    }
    const last = known.map(({ heading, synonyms }) => synonyms[synonyms.length - 1] ?? heading);
    expect(call([last, ...plainly(rows)])).toEqual(plain);
  });

  test("a heading that stands twice, or a needed one that is missing, is refused with what was seen", () => {
    for (const [place, { heading, needed }] of known.entries()) {
      expect(said(() => call([[...headings, heading], ...rows.map((row) => [...row, row[place]])]))).toContain(
        `${heading} must stand once`,
      );
      if (!needed) continue;
      const without = (row: readonly unknown[]): unknown[] => [...row.filter((_, at) => at !== place), "note"];
      const message = said(() =>
        call([
          without([...headings])
            .slice(0, -1)
            .concat("remark"),
          ...rows.map(without),
        ]),
      );
      // Where no heading is left, it is a table without headings, and a wrong one.
      expect(message).toMatch(
        known.length > 2 ? new RegExp(`headed .*${heading}.* is missing`) : /headed|is text|must/,
      );
    }
  });

  test("a heading that is only misspelt is no remark", () => {
    known.forEach(({ heading }, place) => {
      if (heading.length < 6) return;
      const wrong = `${heading.slice(0, 3)}${heading.slice(4)}`;
      const head = headings.map((own, at) => (at === place ? wrong : own));
      expect(said(() => call([head, ...plainly(rows)]))).toMatch(/is headed|is missing/);
    });
  });

  test("a first row of data is never taken for headings", () => {
    // A blank among words, a number or a date among them: such a row is read as data, and then it is wrong.
    fc.assert(
      fc.property(
        fc.shuffledSubarray(headings, { minLength: headings.length }),
        fc.nat(headings.length - 1),
        fc.constantFrom<unknown>("", null, undefined, " ", 7, 0.5, 45000, true),
        (words, place, odd) => {
          const first = words.map((word, at) => (at === place ? odd : word));
          const order = words.map((word) => headings.indexOf(word));
          const body = rows.map((row) => order.map((at) => row[at]));
          expect(outcomeOf(() => call([first, ...body]))).not.toBe(NO_ERROR);
        },
      ),
      { numRuns: 40 },
    );
  });

  test("nor is any row of it passed over: each says something", () => {
    rows.forEach((_, place) => {
      const fewer = rows.filter((_row, at) => at !== place);
      let outcome: unknown;
      try {
        outcome = call(plainly(fewer));
      } catch (thrown) {
        outcome = thrown;
      }
      expect(outcome).not.toEqual(plain);
    });
  });

  test("blank rows are left out wherever they stand, and stay blank where the result has a row for each", () => {
    fc.assert(
      fc.property(
        fc.array(fc.boolean(), { minLength: 8, maxLength: 8 }),
        fc.boolean(),
        fc.infiniteStream(blank),
        (blanks, headed, stream) => {
          const spare = (): unknown[] => headings.map(() => stream.next().value);
          const waiting = plainly(rows);
          const table: unknown[][] = [];
          // Some before, between and after.
          for (const isBlank of blanks) {
            if (isBlank) table.push(spare());
            else if (waiting.length > 0) table.push(waiting.shift() as unknown[]);
          }
          table.push(...waiting);
          const got = call(headed ? [headings, ...table] : table);
          expect(got.filter((row) => row.some((cell) => cell !== ""))).toEqual(plain);
          if (!placed) return;
          const last = table.reduce((sofar, row, at) => (row.some((cell) => !isNothing(cell)) ? at : sofar), 0);
          table.slice(0, last + 1).forEach((row, at) => {
            expect((got[at + 1] as unknown[]).every((cell) => cell === "")).toBe(row.every(isNothing));
          });
        },
      ),
      { numRuns: 40 },
    );
  });

  test("a title above, or the headings in the first column, are refused by saying so", () => {
    const title = headings.map((_, place) => (place === 0 ? "Order 2231" : null));
    const [needed] = known.filter((one) => one.needed);
    if (needed)
      expect(said(() => call([title, headings, ...plainly(rows)]))).toMatch(/above the headings; begin with.* row 2/);
    const turned = headings.map((heading, place) => [heading, ...rows.map((row) => row[place])]);
    expect(said(() => call(turned))).toContain("TRANSPOSE");
  });

  test("a totals row is refused by its name, in whatever language the book is kept", () => {
    for (const word of ["Total", "sum", "In all", "Grand total", "TOTALS:", "Summe", "Gesamtsumme", "Somme"]) {
      for (const place of headings.keys()) {
        const total = headings.map((_, at) => (at === place ? word : 1));
        expect(said(() => call([headings, ...plainly(rows), total]))).toContain("is a totals row");
        expect(said(() => call([...plainly(rows), total]))).toContain("is a totals row");
      }
    }
  });

  test("names come along, in a column headed so or in the first, and come back in the result", () => {
    if (!named) return;
    const names = rows.map((_, place) => `No. ${place + 1} of the lot`);
    const below = rows.map((row, place) => [names[place], ...row]);
    const last = [[...headings, "Item"], ...rows.map((row, place) => [...row, names[place]])];
    const tables = [[["Item", ...headings], ...below], [["What it is", ...headings], ...below], last];
    const results = [...tables, ...(what === "LANDED charges" ? [] : [below])].map((table) => call(table));
    for (const got of results) {
      for (const name of names) expect(got.flat().some((cell) => String(cell).startsWith(name))).toBe(true);
      expect(numbersIn(got)).toEqual(numbersIn(plain).filter((_, at) => what !== "DRAFTPLAN passages" || at % 7 > 0));
    }
  });

  test("headings alone are refused", () => {
    expect(said(() => call([[...headings]]))).toContain("is headings only");
  });
});

function isNothing(cell: unknown): boolean {
  return cell === "" || cell === null || cell === undefined;
}

function numbersIn(rows: unknown[][]): unknown[] {
  return rows.flat().filter((cell) => typeof cell === "number");
}

test("a first column without a text under a strange heading names nothing", () => {
  const noted = (note: string) => [["note", "value", "mass", "volume", "quantity"], ...LINES.map((row) => [note, ...row])]; // prettier-ignore
  const charges = [[120, "mass"]];
  expect(landed.landed(noted(""), charges)).toEqual(landed.landed(plainly(LINES), charges));
  expect(landed.landed(noted("x"), charges).map(([name]) => name)).toEqual(["line", "x", "x", "x", "total"]);
});

test("of two columns under words for one, that with figures is it; the other is one of names where that may be", () => {
  const charges = [["charge", "cost", "by"], ["freight", 120, "mass"], ["broker", 45, "equal"]]; // prettier-ignore
  const wanted = landed.landed(plainly(LINES), [["amount", "basis", "name"], [120, "mass", "freight"], [45, "equal", "broker"]]); // prettier-ignore
  expect(landed.landed(plainly(LINES), charges)).toEqual(wanted);
  expect(wanted[0]).toContain("freight by mass (money)");
  expect(said(() => landed.landed([["kg", "weight", "value"], [1, 1, 9], [2, 2, 9]], charges))).toBe(
    "lines is headed kg, weight, value; mass must stand once",
  ); // prettier-ignore
});

test("blank rows stay blank at their place and change nothing", () => {
  const filled = [
    [1000, 50, 0.2, 500],
    ["", "", "", ""],
    [2000, 30, 0.1, 300],
  ];
  const table = landed.landed(filled, [[100, "equal"]]);
  expect(table.map((row) => row[2])).toEqual(["landed total (money)", 1050, "", 2050, 3100]);
  const zeros = [
    [1000, 50, 0.2, 500],
    [0, 0, 0, 0],
    [2000, 30, 0.1, 300],
  ];
  expect(landed.landed(zeros, [[100, "equal"]])).toEqual(table);
});

test("a last row that is the sum of those above, in two columns of amounts, is refused", () => {
  const lines = [
    [100, 5, 1, 10],
    [50, 5, 1, 10],
    [150, 10, 2, 20],
  ];
  expect(said(() => landed.landed(lines, [[10, "value"]]))).toBe(
    "lines row 3 is the sum of the rows above; leave the totals row out",
  );
});

test("no word stands for two columns of one table, but where one of them has taken its own name", () => {
  for (const { what } of CASES) {
    const known = headingsOf(what);
    const words = known.flatMap(({ heading, synonyms }) => [heading, ...synonyms]).map(plainHeading);
    expect(words.filter((word, place) => words.indexOf(word) !== place)).toEqual([]);
  }
});

test("a unit behind a heading, in brackets or not, is no part of it; what a price is per stays", () => {
  for (const written of ["Tariff", "Tariff €/kg", "tariff (€/kg)", "Tariff in EUR / kg", "tariff, EUR/kg", "Tariff %"])
    expect(plainHeading(written), written).toBe("tariff");
  for (const whole of ["price per kg", "mass in", "cost per unit", "stage key"])
    expect(plainHeading(whole), whole).toBe(whole);
  const lines = [
    ["line", "Value €", "quantity in kg", "Mass in kg"],
    ["moss", 100, 10, 10],
    ["slate", 300, 30, 30],
  ];
  expect(landed.landed(lines, [[40, "mass"]])[1]).toEqual(
    landed.landed([["line", "value", "quantity", "mass"], ...lines.slice(1)], [[40, "mass"]])[1],
  );
});
