import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { addressOf, positionOf } from "../../src/recalculate/addresses";
import { openBook } from "../../src/recalculate/book";
import { formulasOf } from "../../src/recalculate/calculation";
import { isReproduced } from "../../src/recalculate/compare";
import { onSavedValues } from "../../src/recalculate/saved-values";
import { valueIn } from "../../src/recalculate/stored-text";
import { CellError, rowsOf, type Value } from "../../src/recalculate/values";
import { expectClose } from "../support/closeness";
import { sourceFunctions } from "../support/functions";

/*
 * Three costing books of other people (make-books.py), and what our functions give when they are called from them. What
 * is right stands in the same books, worked out by the sheet's own arithmetic in LibreOffice, or is plain arithmetic here.
 */

/** A cell of the book itself, in which the right figure stands. */
class Hand {
  constructor(
    readonly sheet: string,
    readonly cell: string,
  ) {}
}
const hand =
  (sheet: string) =>
  (...cells: string[]): Hand[] =>
    cells.map((cell) => new Hand(sheet, cell));

type Wanted = string | number | boolean | Hand | undefined;

/** Rows of a result; undefined where nothing is asked of a cell. */
interface Answer {
  readonly at: string;
  readonly from?: readonly [row: number, column: number];
  readonly rows: readonly (readonly Wanted[])[];
}
interface Refused {
  readonly at: string;
  readonly says: string;
  /** Of one row of the result, the others stand. */
  readonly row?: number;
}

interface Asked {
  readonly file: string;
  readonly sheet: string;
  readonly answers: readonly Answer[];
  readonly refusals: readonly Refused[];
}

const by = hand("By hand");
const von = hand("Von Hand");
const BLANK = (width: number): string[] => new Array<string>(width).fill("");
const _ = undefined;

const STOCKED = { ember: 30 / 0.7, heath: (60 - 0.1 * (30 / 0.7)) / 0.5 };

const BOOKS: readonly Asked[] = [
  {
    file: "order-costing.xlsx",
    sheet: "Calls",
    answers: [
      {
        at: "B5",
        rows: [
          ["stage", "mass in (unit of quantity)", "dry in (unit of quantity)"],
          ["scour", 1000, 1000, 0, 420, ...by("C3"), 0.16, ...by("D3")],
          BLANK(9),
          ["comb", ...by("D3", "B4"), 46.4, 11.6, ...by("C4"), 0.1825, ...by("D4")],
          ["dye in top", ...by("D4", "B5"), 0, _, ...by("C5"), 0.17, ...by("D5")],
          ["spin and fold", ...by("D5", "B6"), 0, _, ...by("C6"), 0.1825, ...by("D6")],
        ],
      },
      { at: "B16", from: [1, 1], rows: [by("B9")] },
      { at: "B16", from: [5, 7], rows: [[500]] },
      { at: "B27", from: [5, 7], rows: [by("D6")] },
      {
        at: "B38",
        from: [1, 0],
        rows: [
          ["start", 1000, 1000, 3100, 0, 3100, 3.1],
          ["scour", 1000, ...by("D3", "E3", "F3", "G3")],
          BLANK(7),
          ["comb", ...by("D3", "D4", "E4", "F4", "G4")],
          ["dye in top", ...by("D4", "D5", "E5", "F5", "G5")],
          ["spin and fold", ...by("D5", "D6", "E6", "F6", "G6", "B8")],
        ],
      },
      { at: "B47", rows: [by("B8")] },
      { at: "B55", from: [1, 0], rows: [["cost per unit out", _, ...by("B8"), _, 1], ["scour: loss"]] },
      // The tariff of the last stage is paid on the mass delivered, so the cost of a kilogram moves by just the ±0.30.
      { at: "B55", from: [3, 0], rows: [["spin and fold: rate", ...by("B28", "B8", "C28")]] },
      {
        at: "B62",
        from: [1, 0],
        rows: [
          ["Mill in the valley", 350 / 0.95, _, 1530, ...by("B22"), ""],
          ["Mill by the sea", 350 / 0.97, _, 1785, ...by("B24")],
          ["Mill at the bridge", 350 / 0.92, _, _, ...by("B23")],
        ],
      },
      { at: "B70", rows: [by("B11"), [""], by("D11"), by("E11")] },
      { at: "B76", rows: [[91.5, ...by("B12")]] },
      {
        at: "B81",
        rows: [
          [
            ...["line", "value (money)", "Freight by mass (money)", "Insurance by value (money)"],
            ...["Handling by equal (money)", "Duty (money)", "landed total (money)"],
          ],
          ["aran, natural", ...by("B16", "B13", "B14"), 30, 168, ...by("B15"), 300, ...by("B17")],
          ["aran, moss", ...by("C16", "C13", "C14"), 30, 84, ...by("C15"), 150, ...by("C17")],
          BLANK(9),
          ["lace, slate", ...by("D16", "D13", "D14"), 30, 0, ...by("D15"), 370, ...by("D17")],
          ["total", 10000, 254, 55, 90, 252, 10651, 820],
        ],
      },
      {
        at: "B93",
        rows: [
          ["event", "quantity in stock", "value", "average cost per unit", "cost of issue"],
          ["opening", 400, 3800, 9.5, 0],
          ["GR 17", 650, ...by("B19")],
          BLANK(5),
          ["issue 4", 350, ...by("C19")],
          ["freight", 350, ...by("D19")],
          ["issue 5", 150, ...by("E19")],
        ],
      },
      { at: "B102", from: [2, 1], rows: [[650, ...by("B20")], BLANK(4), [350, ...by("C20")], [350, ...by("E20")]] },
      {
        at: "B113",
        from: [1, 0],
        rows: [
          ["scour", 46083, 46083, 46085, 46085, 0, true],
          ["comb", 46086],
          BLANK(7),
          ["labels", 46083, _, _, _, 5, false],
          ["spin"],
          ["pack", ...by("B21")],
        ],
      },
      { at: "B122", rows: [[168], [84], [""], [148]] },
      { at: "B128", rows: [by("B25"), by("C25"), [""], by("D25")] },
      { at: "B134", rows: [by("B26", "C26"), by("D26", "E26")] },
      { at: "B137", rows: [by("B27")] },
      {
        at: "B145",
        rows: [["aran, natural", ...by("B31")], ["aran, moss", ...by("C31")], BLANK(2), ["lace, slate", ...by("D31")]],
      },
      { at: "B151", rows: [by("B29", "B30"), BLANK(2), by("C29", "C30"), BLANK(2), by("D29", "D30")] },
    ],
    refusals: [
      { at: "B49", says: "stages row 11 is a totals row; leave it out: it would count everything twice" },
      { at: "B51", says: "stages row 1 is above the headings; begin with the headings, in row 4" },
      { at: "B53", says: "stages is 12 columns wide; give 3 to 4: stage, loss, regain out, by product" },
      { at: "B68", says: "quotes row 1, basis, is 46203, no basis; write per in, per out or per lot" },
      { at: "B79", says: "rates is headed Date, USD, GBP; from, to, rate is missing" },
      { at: "B89", says: "lines row 7 is the sum of the rows above; leave the totals row out" },
      { at: "B91", says: "charges row 7 is a totals row; leave it out: it would count everything twice" },
      { at: "B111", says: "events is headed Date, In (kg), Out (kg), Cost; quantity is missing" },
      { at: "B139", says: "weights item 3 is blank; fill it in; a blank is not 0" },
      { at: "B158", says: 'spreads row 2, stage, is "Comb 2"; must be a stage of stages, once' },
      { at: "B160", says: 'tasks row 2, after, is "carding"; there is no such task' },
    ],
  },
  {
    file: "german-mill.xlsx",
    sheet: "Fragen",
    answers: [
      {
        at: "B3",
        from: [1, 0],
        rows: [
          ["scour", 1000, 1000, 0, 400, ...von("B1"), 0.16, ...von("B2")],
          ["card", ...von("B2", "B1"), 12, 36, ...von("C1"), 0.17, ...von("C2")],
          ["spin", ...von("C2", "C1"), 0, _, ...von("D1"), 0.17, ...von("D2")],
          ["wind", ...von("D2", "D1"), 0, _, ...von("E1"), 0.17, ...von("E2")],
        ],
      },
      { at: "B17", from: [2, 0], rows: [["Spinnen", 696, 600, 0, 30, 570, 0.17, ...von("B3")]] },
      { at: "B31", rows: [von("B4", "B5"), von("C4", "C5"), von("D4", "D5")] },
      { at: "B41", rows: [von("B6"), von("C6"), von("D6")] },
      {
        at: "B48",
        rows: [
          [69.3, 2],
          [...von("B7"), 2],
        ],
      },
      {
        at: "B51",
        from: [1, 0],
        rows: [
          ["gill 1", 20, 8, 7.5, ...von("B8"), 8, 7.5],
          ["gill 2", ...von("B8"), 6, 8, ...von("C8"), 48, 60],
          BLANK(7),
          ["finisher", ...von("C8"), 4, 10, ...von("D8"), 192, 600],
        ],
      },
      {
        at: "B58",
        from: [1, 0],
        rows: [
          ["gill 1", 20, 8, 7.5, ...von("B9")],
          ["gill 2", ...von("B9"), 6, 8, ...von("C9")],
        ],
      },
      { at: "B63", rows: [von("B10")] },
      { at: "B67", rows: [[(1200 * 21.5 + 800 * 23) / 2000]] },
      { at: "B69", rows: [von("B12")] },
      {
        at: "B71",
        rows: [
          ["Wäscherei", ...von("B13")],
          ["Kämmerei", ...von("C13")],
          ["Spinnerei", ...von("D13")],
        ],
      },
      {
        at: "B78",
        rows: [
          ["Zug", ...von("B14")],
          ["Kämmling", ...von("C14")],
        ],
      },
      { at: "B82", rows: [[20000, 10000]] },
      { at: "B85", rows: [von("B15", "C15"), von("D15", "D15")] },
    ],
    refusals: [
      {
        at: "B11",
        says: "stages is headed down its first column; must have its headings in the first row: TRANSPOSE turns it",
      },
      { at: "B13", says: "stages row 2, loss, is blank; fill it in; a blank is not 0" },
      {
        at: "B15",
        says: "stages is headed Arbeitsgang, Verlust, Feuchte, Abgang; must have headings such as stage, loss, regain out",
      },
      { at: "B22", says: 'stages is headed "Proces loss"; write process loss, or another word' },
      { at: "B24", says: "stages is headed Process, Process loss (%), Waste, Regain; loss must stand once" },
      {
        at: "B26",
        row: 0,
        says: 'value is text "28,5"; must be a number above 0; NUMBERVALUE(…,",",".") makes it one',
      },
      {
        at: "B36",
        row: 0,
        says: 'regain is text "18,25 %"; must be 0 to 1 (0% to 100%); NUMBERVALUE(…,",",".") makes it one',
      },
      { at: "B46", says: 'rates row 2, date, is text "01.03.2026"; must be a date of the sheet: write DATE(2026,3,1)' },
      { at: "B65", says: "nets item 5 is called Summe; leave totals out" },
      { at: "B76", says: "weights item 4 is called Summe; leave totals out" },
    ],
  },
  {
    file: "dyehouse.xlsx",
    sheet: "Asked",
    answers: [
      { at: "B2", rows: [["moss", "natural", "rust", "slate"], by("B1", "C1", "D1", "E1")] },
      { at: "B10", rows: [["moss", "natural", "rust", "slate"], by("B1", "C1", "D1", "E1")] },
      // Each solid but natural runs out: 30 kg of rust, 60 of moss, 45 of slate; a kilogram more of any would be worth money.
      {
        at: "B14",
        rows: [
          ["Heath", STOCKED.heath],
          ["Tarn", (45 - 0.2 * STOCKED.heath) / 0.8],
          BLANK(2),
          ["Ember", STOCKED.ember],
        ],
      },
      { at: "B20", rows: [["Heath"], ["Tarn"], BLANK(4), ["Ember"]] },
      // The shades are those of known recipes, so the recipes come back.
      {
        at: "B26",
        rows: [
          ["natural", "moss", "slate", "rust"],
          [0.3, 0.5, 0.2, 0],
        ],
      },
      {
        at: "B30",
        rows: [
          ["", "natural", "moss", "slate", "rust"],
          ["Heath", 0.3, 0.5, 0.2, 0],
          ["Tarn", 0.2, 0, 0.8, 0],
          BLANK(5),
          ["Ember", 0.2, 0.1, 0, 0.7],
        ],
      },
      { at: "B36", rows: [["natural", "moss", "slate", "rust"], by("C1", "B1", "E1", "D1")] },
      { at: "B40", from: [0, 1], rows: [["natural (share)", "moss (share)", "slate (share)", "rust (share)"]] },
      { at: "B48", from: [1, 0], rows: [[1, 0, 0, 0, 1, 42, 32, 30, 0, "", "L*a*b* only", 14.1]] },
      {
        at: "B56",
        from: [1, 0],
        rows: [
          ["moss", 25, 50, 0.5],
          ["natural", 15, 30, 0.3],
          BLANK(5),
          ["slate", 10, 20, 0.2],
          ["total", 50, 100, 1],
        ],
      },
      { at: "B64", from: [1, 2], rows: [by("B3"), by("C3"), [""], by("D3"), [116.8]] },
      { at: "B72", rows: [["moss", 0.5], ["natural", 0.25], BLANK(2), ["slate", 0.25]] },
      {
        at: "B78",
        from: [1, 0],
        rows: [
          ["moss", 5, 0.5, 0.5, 0],
          ["natural", 3, 0.3, 0.3, 0],
        ],
      },
      // Between lots of 21 and 19 micron at 9 and 12 the mean of 20.5 is three parts to one; 24 at 7 would cost more.
      {
        at: "B86",
        rows: [
          ["fine", 0.25],
          ["middle", 0.75],
          ["strong", 0],
        ],
      },
      { at: "B93", rows: [by("B2"), by("C2")] },
      {
        at: "B97",
        from: [1, 0],
        rows: [
          ["0417", -2, 0, 2, 2, 0, "darker", "brighter", "same"],
          ["0418", 0.4],
        ],
      },
      { at: "B102", rows: [["standard", 555], ["0417", 375], ["0418", 555], BLANK(2)] },
      {
        at: "B107",
        rows: [
          ["liquor (litres)", "blue (kg)", "yellow (kg)"],
          [1000, 2, 0.5],
          [500, 1, 0.25],
        ],
      },
      {
        at: "B111",
        rows: [
          ["liquor (litres)", "blue (kg)", "yellow (kg)"],
          [1000, 2, 0.5],
          [500, 1, 0.25],
        ],
      },
      {
        at: "B119",
        rows: [
          ["batch", "natural added (kg)", "moss added (kg)"],
          ["before", 0, 0, 0, 0, 80, 62, 4, 10],
        ],
      },
    ],
    refusals: [
      { at: "B6", says: "recipes column 6 is called Total; leave totals out" },
      { at: "B8", says: "quantities item 4 is called Total; leave totals out" },
      { at: "B91", says: "limits row 2, column 2 is 18.5; these components reach 19 at the least" },
      { at: "B115", says: "recipes is turned beside quantities; must have its names along the rows: TRANSPOSE" },
      { at: "B117", says: 'shares is with "flint" in it; must have the names of solids, or none' },
      { at: "B124", says: 'quantities is without "Tarn"; must have the names of recipes, or none' },
    ],
  },
];

describe.each(BOOKS)("$file", ({ file, sheet, answers, refusals }) => {
  const book = openBook(readFileSync(`tests/strangers/${file}`), file);
  const results = onSavedValues(book, formulasOf(book), sourceFunctions);
  const ours = new Map(
    results
      .filter(({ formula }) => formula.calls)
      .map((result) => [addressOf(result.formula.cell.row, result.formula.cell.column), result]),
  );
  const rowsAt = (cell: string): Value[][] => rowsOf(ours.get(cell)?.outcome ?? null);

  /** What the program that saved the book gives for a cell of it. */
  function byHand({ sheet: name, cell }: Hand): unknown {
    const place = positionOf(cell);
    const stored = place && book.sheets.find((own) => own.name === name)?.part.find(place.row, place.column);
    if (stored === undefined) throw new Error(`nothing stands in ${name}!${cell}`);
    return valueIn(stored.value, book.shared);
  }

  test("every call of it is looked at", () => {
    const seen = [...answers, ...refusals].map(({ at }) => at);
    expect([...new Set(seen)].sort()).toEqual([...ours.keys()].sort());
    for (const { formula } of ours.values()) expect(formula.sheet.name).toBe(sheet);
  });

  test("the sheet's own formulas give what LibreOffice saved", () => {
    const natives = results.filter(({ formula }) => !formula.calls);
    expect(natives.length).toBeGreaterThan(10);
    expect(natives.filter((result) => !isReproduced(book, result)).map(({ formula }) => formula.typed)).toEqual([]);
  });

  test.each(answers)("$at is answered", ({ at, from: [top, left] = [0, 0], rows }) => {
    const got = rowsAt(at);
    rows.forEach((row, down) =>
      row.forEach((wanted, along) => {
        if (wanted === undefined) return;
        const right = wanted instanceof Hand ? byHand(wanted) : wanted;
        const cell = got[top + down]?.[left + along];
        const where = `${ours.get(at)?.formula.typed ?? at}, row ${top + down}, column ${left + along}: ${JSON.stringify(cell)}`;
        if (typeof right !== "number") return expect(cell, where).toBe(right);
        expect(typeof cell, where).toBe("number");
        // A search ends within a millionth of a share or a unit of shade; all else is arithmetic.
        if (/MIXMATCH|MIXCHOICES|MIXSTOCK/.test(ours.get(at)?.formula.typed ?? ""))
          expect(cell, where).toBeCloseTo(right, 5);
        else if (right === 0) expect(cell, where).toBeCloseTo(0, 12);
        else expectClose(cell as number, right, 1e-11);
      }),
    );
  });

  test.each(refusals)("$at is refused: $says", ({ at, says, row }) => {
    const outcome = row === undefined ? ours.get(at)?.outcome : rowsAt(at)[row]?.[0];
    expect(outcome).toBeInstanceOf(CellError);
    expect((outcome as CellError).message).toBe(says);
  });
});

test("the three books ask well over sixty times", () => {
  const asked = BOOKS.map(({ answers, refusals }) => new Set([...answers, ...refusals].map(({ at }) => at)).size);
  expect(asked.reduce((sum, one) => sum + one, 0)).toBeGreaterThanOrEqual(75);
});
