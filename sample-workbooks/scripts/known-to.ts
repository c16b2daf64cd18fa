import { readFileSync } from "node:fs";
import { FORMATS, type Format, type SampleBook } from "./kit";

/**
 * What the figures of a book are known to: its ranges, which `vary` finds by the name of their Table, and the figures
 * of a saved run. After a change of the book or of a function that it calls, the run is saved again, and a short one
 * that a test repeats:
 * npm run -s vary -- sample-workbooks/order-to-landed-cost.xlsx --json > sample-workbooks/scripts/known-to.jsonl
 * npm run -s vary -- sample-workbooks/order-to-landed-cost.xlsx --runs 100 --json >> sample-workbooks/scripts/known-to.jsonl
 */
export interface RangeLine {
  /** What the input is, with its unit. */
  readonly what: string;
  /** Its defined name. */
  readonly input: string;
  /** Its cell with the sheet, where it has that name only for this Table. */
  readonly cell?: string;
  readonly low: number;
  readonly high: number;
  readonly format: Format;
  readonly movesWith?: string;
}

interface SavedRun {
  readonly outcome: string;
  readonly runs: number;
  readonly mean: number;
  readonly p5: number;
  readonly p25: number;
  readonly p50: number;
  readonly p75: number;
  readonly p95: number;
  readonly parts: readonly {
    readonly input: string;
    readonly part: number;
    readonly error: number;
    readonly low: number;
    readonly high: number;
  }[];
}

export const SEED = 1;
export const RUNS = { shown: 1000, repeated: 100 };

export function savedRuns(runs = RUNS.shown): SavedRun[] {
  const text = readFileSync(new URL("./known-to.jsonl", import.meta.url), "utf8");
  return text
    .trim()
    .split("\n")
    .map((line) => JSON.parse(line) as SavedRun)
    .filter((run) => run.runs === runs);
}

const SHEET = "Known to";

/** A part of so many standard errors is more than chance; inputs of a route that was not run have none. */
const BEYOND_CHANCE = 3;

export function knownTo(
  book: SampleBook,
  ranges: readonly RangeLine[],
  outcomes: readonly { readonly what: string; readonly name: string; readonly format: Format }[],
  route: string,
): void {
  const sheet = book.sheet(
    SHEET,
    "How far the figures can be relied on: invented but likely ranges of some inputs, and what they do to the result.",
    [36, 24, 10, 10, 10, 10, 15],
  );
  for (const { input, cell } of ranges)
    if (cell !== undefined) book.name(input, ...(cell.split("!") as [string, string]));

  book.heading(sheet, "A5", "Ranges (invented but likely); a row of shape outcome names a result");
  book.table(
    sheet,
    "A6",
    "Ranges",
    [
      { header: "What it is" },
      { header: "input" },
      { header: "low" },
      { header: "likely" },
      { header: "high" },
      { header: "shape", choices: ["triangle", "normal", "even", "list", "outcome"] },
      { header: "moves with" },
    ],
    [
      ...ranges.map(({ what, input, low, high, movesWith = "" }) => [
        what,
        input,
        low,
        `=${input}`,
        high,
        "triangle",
        movesWith,
      ]),
      ...outcomes.map(({ what, name }) => [what, name, "", "", "", "outcome", ""]),
    ],
  );
  ranges.forEach(({ format }, index) => {
    for (const column of ["C", "D", "E"]) {
      const cell = sheet.getCell(`${column}${7 + index}`);
      cell.numFmt = FORMATS[format];
      cell.alignment = { horizontal: "right" };
    }
  });
  savedOnSheet(book, 9 + ranges.length + outcomes.length, ranges, outcomes, route);
}

function savedOnSheet(
  book: SampleBook,
  top: number,
  ranges: readonly RangeLine[],
  outcomes: readonly { what: string; name: string; format: Format }[],
  route: string,
): void {
  const sheet = book.workbook.getWorksheet(SHEET) as ReturnType<SampleBook["sheet"]>;
  const saved = savedRuns();
  const first = saved[0] as SavedRun;
  book.heading(sheet, `A${top}`, `Figures of a saved run (${route} route, ${first.runs} runs, seed ${SEED})`);
  book.headers(sheet, `A${top + 1}`, ["Result", "Mean", "5 % lie below", "25 %", "Half", "75 %", "95 % lie below"]);
  outcomes.forEach(({ what, name, format }, index) => {
    const row = top + 2 + index;
    const run = saved.find(({ outcome }) => outcome === name) as SavedRun;
    book.put(sheet, `A${row}`, what);
    [run.mean, run.p5, run.p25, run.p50, run.p75, run.p95].forEach((value, place) =>
      book.put(sheet, `${"BCDEFG"[place]}${row}`, value, format),
    );
  });
  const known = (column: string) => `${column}${top + 2}`;
  book.name("KnownMean", SHEET, known("B"));
  book.name("KnownLow", SHEET, known("C"));
  book.name("KnownHigh", SHEET, known("G"));

  const partsTop = top + 2 + outcomes.length + 1;
  const { what } = outcomes[0] as { what: string };
  book.heading(sheet, `A${partsTop}`, `Which input matters for: ${what}`);
  book.headers(sheet, `A${partsTop + 1}`, [
    "Input",
    "Part of the variance",
    "Where it is lowest",
    "Where it is highest",
  ]);
  const counting = first.parts.filter(({ part, error }) => part > BEYOND_CHANCE * error);
  counting.forEach(({ input, part, low, high }, index) => {
    const row = partsTop + 2 + index;
    const [leader, ...others] = input.split(" with ");
    const { what: moved = input } = ranges.find((range) => range.input === leader) ?? {};
    book.put(sheet, `A${row}`, others.length === 0 ? moved : `${moved}, with ${others.length} more`);
    book.put(sheet, `B${row}`, part, "percent");
    book.put(sheet, `C${row}`, low, "price");
    book.put(sheet, `D${row}`, high, "price");
  });
  const end = partsTop + 1 + counting.length;
  book.note(
    sheet,
    `A${end + 1}`,
    "Where it is lowest, highest: the result on average in the tenth of the runs in which the input is lowest, or highest.",
  );
  book.chart(sheet, `A${end + 3}:G${end + 21}`, {
    kind: "bars",
    title: `Part of each input in the variance of: ${what}`,
    categories: "Input",
    values: "Part of the variance",
    format: "percent",
    labels: `A${partsTop + 2}:A${end}`,
    series: [{ name: "Part of the variance", values: `B${partsTop + 2}:B${end}` }],
    written: true,
  });
}
