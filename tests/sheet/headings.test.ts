import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { plainHeading } from "../../src/sheet/headings";
import { HEADING_SYNONYMS } from "../../src/tables/headings";
import { cost, drafting, control, landed, route } from "../support/families";

type Row = readonly (string | number)[];
interface Case {
  readonly what: string;
  readonly headings: readonly string[];
  readonly rows: readonly Row[];
  readonly call: (table: unknown[][]) => unknown[][];
}

const STAGES: readonly Row[] = [
  ["scour", 0.42, 0.16, 0.01],
  ["comb", 0.05, 0.1825, 0.06],
  ["spin", 0.04, 0.17, 0],
];
const CASES: readonly Case[] = [
  {
    what: "ROUTE",
    headings: ["stage", "loss", "regain out", "by-product"],
    rows: STAGES,
    call: (table) => route.route([[1000]], table, [["made"]]),
  },
  {
    what: "ROUTECOST",
    headings: ["stage", "loss", "regain out", "by-product", "by-product price", "basis", "rate", "minimum", "fixed"],
    rows: STAGES.map((row) => [...row, 2.5, "per in", 0.85, 100, 12]),
    call: (table) => cost.routeCost([[1000]], table, [["made"]], [[4.2]]),
  },
  {
    what: "DRAFTPLAN",
    headings: ["doublings", "draft", "waste"],
    rows: [
      [8, 7.5, 0.01],
      [6, 8, 0],
    ],
    call: (table) => drafting.draftPlan([[20]], [["ktex"]], table),
  },
  {
    what: "LANDED lines",
    headings: ["value", "mass", "volume", "quantity"],
    rows: [
      [1000, 50, 0.2, 500],
      [2000, 30, 0.1, 300],
    ],
    call: (table) => landed.landed(table, [[100, "mass"]]),
  },
  {
    what: "LANDED charges",
    headings: ["amount", "basis"],
    rows: [
      [100, "value"],
      [55.55, "mass"],
    ],
    call: (table) =>
      landed.landed(
        [
          [1000, 50, 0.2, 500],
          [2000, 30, 0.1, 300],
        ],
        table,
      ),
  },
  {
    what: "EXCHANGE",
    headings: ["date", "from", "to", "rate"],
    rows: [
      [45000, "EUR", "USD", 1.1],
      [45010, "EUR", "USD", 1.2],
    ],
    call: (table) => landed.exchange([[100]], [["EUR"]], [["USD"]], [[45005]], table),
  },
  {
    what: "STOCKLEDGER",
    headings: ["quantity", "unit cost"],
    rows: [
      [10, 4],
      [-3, ""],
      [5, 6],
    ],
    call: (table) => control.stockLedger(table, [["fifo"]]),
  },
];

const sayings = ["%s", "%s (EUR)", "%s [kg]", " %s ", "%s %"];

/** The message of a refused call. */
function said(call: () => unknown): string {
  try {
    call();
  } catch (thrown) {
    return (thrown as Error).message;
  }
  throw new Error("it was not refused");
}

/** The message of a refused call, or of the first row that is in error. */
function outcomeOf(call: () => unknown[][]): string {
  try {
    return String((call()[1]?.[0] as { message?: string } | undefined)?.message);
  } catch (thrown) {
    return (thrown as Error).message;
  }
}

describe.each(CASES)("$what", ({ headings, rows, call }) => {
  const plain = call(rows.map((row) => [...row]));

  test("columns by heading, in any order, among others, in any spelling", () => {
    const others = ["remark", "checked by"];
    const order = fc.shuffledSubarray([...headings, ...others], { minLength: headings.length + others.length });
    fc.assert(
      fc.property(order, fc.constantFrom(...sayings), fc.boolean(), (names, saying, loud) => {
        const head = names.map((name) => saying.replace("%s", loud ? name.toUpperCase() : name.replace(/ /g, "_")));
        const body = rows.map((row) => names.map((name) => row[headings.indexOf(name)] ?? "note"));
        expect(call([head, ...body])).toEqual(plain);
      }),
      { numRuns: 60 },
    );
  });

  test("in the trade's other words", () => {
    for (const [place, heading] of headings.entries()) {
      const key = heading.replace(/[ -]/g, "_");
      for (const synonym of HEADING_SYNONYMS[key] ?? []) {
        const head = headings.map((own, at) => (at === place ? synonym : own));
        expect(call([head, ...rows.map((row) => [...row])]), synonym).toEqual(plain);
      }
    }
  });

  test("a heading that stands twice, or a needed one that is missing, is refused with what was seen", () => {
    const twice = [...headings, headings[0]];
    expect(said(() => call([twice, ...rows.map((row) => [...row, row[0]])]))).toMatch(
      new RegExp(`headed ${headings[0]}.*${headings[0]} must stand once`),
    );
    const without = said(() => call([headings.slice(1), ...rows.map((row) => row.slice(1))]));
    expect(without).toMatch(/headed .*is missing|wide|must be|blank/);
  });

  test("a first row of data is never taken for headings", () => {
    // A blank among words, a number or a date among them: such a row is read as data, and then it is wrong.
    for (const odd of ["", 7, 45000]) {
      const first = headings.map((heading, place) => (place === headings.length - 1 ? odd : heading));
      expect(outcomeOf(() => call([first, ...rows.map((row) => [...row])]))).toMatch(/is text|blank|not a|must be/);
    }
    expect(call(rows.map((row) => [...row]))).toEqual(plain);
  });

  test("a totals row is refused by its name", () => {
    for (const word of ["Total", "sum", "In all", "Grand total", "TOTALS:"]) {
      const total = headings.map((_, place) => (place === 0 ? word : 1));
      expect(said(() => call([headings, ...rows, total].map((row) => [...row])))).toContain("is a totals row");
    }
  });

  test("headings alone are refused", () => {
    expect(said(() => call([[...headings]]))).toContain("is headings only");
  });
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

test("no synonym stands for two columns, and none is another column's own name", () => {
  for (const { headings } of CASES) {
    const words = headings.flatMap((heading) => [heading, ...(HEADING_SYNONYMS[heading.replace(/[ -]/g, "_")] ?? [])]);
    const plain = words.map(plainHeading);
    expect(plain.filter((word, place) => plain.indexOf(word) !== place)).toEqual([]);
  }
});
