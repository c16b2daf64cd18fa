import { readFileSync } from "node:fs";
import { beforeAll, describe, expect, test } from "vitest";
import type { Limit } from "../src/recalculate/figures";
import { openBook, type Book } from "../src/recalculate/book";
import { rangesInText } from "../src/recalculate/ranges";
import { showsFor, reportOf, type VariationReport } from "../src/recalculate/variation-report";
import { blockOf, blocksIn, planFor } from "../src/recalculate/sampling";
import { shownAs } from "../src/recalculate/report-page";
import { valueIn } from "../src/recalculate/stored-text";
import { variationPage } from "../src/recalculate/variation-page";
import { toldOf, type Told } from "../src/recalculate/variation";
import { writeCopyWithReport, writeVariationReport } from "../src/recalculate/variation-written";
import { settleVariation, workVariation } from "../src/recalculate/vary-tasks";
import { fileFaults } from "./support/file-faults";
import { schemaFaults, schemasMissing } from "./support/schemas";
import { partsOf, place, rows, textsOf, written } from "./support/workbooks";

const RUNS = 400;

/** A product that fails for a negative length, over two outcomes. */
function reported(): { report: VariationReport; told: Told[] } {
  const file = written("reported.xlsx", partsOf({ "A & B": rows([10, 4, "=A1*SQRT(B1)|20", "=A1+B1|14"]) }));
  const ranges = rangesInText(
    "input,low,likely,high,shape\n'A & B'!A1,8,,12,normal\n'A & B'!B1,-1,,6,even\n",
    "ranges.csv",
  );
  const called = "reported.xlsx";
  const answer = settleVariation({ file, called, ranges, of: "'A & B'!C1,'A & B'!D1", also: [] });
  if ("error" in answer) throw new Error(answer.error);
  const plan = planFor(RUNS, 1);
  const shows = new Map(
    blocksIn(plan).map((block) => {
      const shown = workVariation({ setting: answer.result, points: blockOf(plan, block, answer.result.inputs) });
      return [block, "result" in shown ? shown.result : []] as const;
    }),
  );
  const limit: Limit = { relation: "<", value: 15 };
  const told = toldOf(answer.result, plan, shows, new Map([[1, [limit]]]));
  return { report: reportOf(answer.result, plan, told), told };
}

let report: VariationReport;
let told: Told[];
beforeAll(() => {
  ({ report, told } = reported());
});

describe("the report as a page", () => {
  let page: string;
  beforeAll(() => {
    page = variationPage([report]);
  });

  test("says every figure, its standard error, the chance of the limit and each part", () => {
    const cells = [...page.matchAll(/<td class="number">([^<]*)</g)].map(([, text]) => text);
    for (const { figures } of told) {
      const shows = showsFor(figures?.deviation.value as number);
      for (const { value } of [figures?.mean, ...(figures?.percentiles.values() ?? [])] as { value: number }[]) {
        expect(cells).toContain(shownAs(value, shows));
      }
      for (const { value } of figures?.parts ?? [])
        expect(cells).toContain(shownAs(value, { decimals: 1, percent: true }));
    }
    const [chance] = told[1]?.figures?.chances ?? [];
    const share = shownAs(chance?.value as number, { decimals: 1, percent: true });
    expect(page.replace(/&apos;|&#39;/g, "'")).toContain(`The chance of 'A &amp; B'!D1 &lt; 15 is ${share}`);
  });

  test("shows runs without a number with their inputs", () => {
    // A seventh of the range of B1 is below 0.
    const failed = told[0]?.failures.length as number;
    expect(Math.abs(failed - RUNS / 7)).toBeLessThan(RUNS / 50);
    expect(page).toContain(`${failed} of ${RUNS} runs gave no number`);
  });

  test("the bars of the histogram are as high as their counts, and all runs are in them", () => {
    const [bins] = report.outcomes.map(({ found }) => found?.bins ?? []);
    expect(bins?.reduce((sum, { count }) => sum + count, 0)).toBe(told[0]?.sound.length);
    const drawing = /aria-label="Histogram[\s\S]*?<\/svg>/.exec(page)?.[0] ?? "";
    const heights = [...drawing.matchAll(/<rect [^>]*height="([\d.]+)"/g)].map(([, height]) => Number(height));
    const most = Math.max(...(bins ?? []).map(({ count }) => count));
    expect(heights).toHaveLength(bins?.length as number);
    bins?.forEach(({ count }, index) =>
      expect((heights[index] as number) / Math.max(...heights)).toBeCloseTo(count / most, 3),
    );
  });

  test("the swings are drawn widest first, and so long as they are", () => {
    for (const { found } of report.outcomes) {
      const widths = (found?.swings ?? []).map(({ low, high }) => Math.abs(high - low));
      expect(widths).toEqual([...widths].sort((a, b) => b - a));
    }
    const drawing = /aria-label="Swings[\s\S]*?<\/svg>/.exec(page)?.[0] ?? "";
    const bars = [...drawing.matchAll(/<rect [^>]*width="([\d.]+)" height="14"/g)].map(([, width]) => Number(width));
    const { swings = [], mean = 0 } = report.outcomes[0]?.found ?? {};
    const lengths = swings.flatMap(({ low, high }) => [Math.abs(low - mean), Math.abs(high - mean)]);
    expect(bars).toHaveLength(lengths.length);
    bars.forEach((bar, index) =>
      expect(bar / (bars[0] as number)).toBeCloseTo((lengths[index] as number) / (lengths[0] as number), 1),
    );
  });

  test("stands by itself and reads without colour", () => {
    expect(page).not.toMatch(/<script|<link|src=|https?:/);
    for (const [, colour = ""] of page.matchAll(/#([0-9a-f]{3,6})\b/gi)) {
      const size = colour.length / 3;
      expect(new Set([0, 1, 2].map((part) => colour.slice(part * size, (part + 1) * size).toLowerCase())).size).toBe(1);
    }
    expect(page).toContain("size:A4");
  });
});

describe("the report as a workbook", () => {
  let file: string;
  let book: Book;
  beforeAll(async () => {
    file = place("report.xlsx");
    await writeVariationReport(file, [report]);
    book = openBook(readFileSync(file), file);
  });

  test("holds a sheet Ranges, an A4 page wide, and nothing that is repaired on opening", () => {
    expect(fileFaults(readFileSync(file))).toEqual([]);
    if (!schemasMissing) expect(schemaFaults(readFileSync(file)).faults).toEqual([]);
    expect(book.sheets.map(({ name }) => name)).toEqual(["Ranges"]);
    const text = textsOf(file)["xl/worksheets/sheet1.xml"] as string;
    expect(/<pageSetup[^>]*>/.exec(text)?.[0]).toContain('paperSize="9"');
    // One page wide is what the file format takes for granted.
    expect(/<pageSetup[^>]*>/.exec(text)?.[0]).not.toMatch(/fitToWidth="(?!1")/);
    expect(/<pageSetup[^>]*>/.exec(text)?.[0]).toContain('fitToHeight="0"');
    expect(/<pageSetUpPr[^>]*>/.exec(text)?.[0]).toContain('fitToPage="1"');
  });

  test("its charts draw cells of the sheet that hold what was found", () => {
    const charts = Object.entries(textsOf(file)).filter(([name]) => /charts\/chart\d+\.xml$/.test(name));
    expect(charts).toHaveLength(3 * told.length);
    const drawn = charts.flatMap(([, text]) =>
      [...text.matchAll(/<c:f>([^<]+)<\/c:f>/g)].map(([, found]) => found as string),
    );
    const lists = drawn.map((reference) => {
      const [, letters, top, bottom] = /\$([A-Z]+)\$(\d+):\$[A-Z]+\$(\d+)$/.exec(reference) as unknown as string[];
      return Array.from({ length: Number(bottom) - Number(top) + 1 }, (_, down) => {
        const column = [...(letters as string)].reduce((sum, letter) => sum * 26 + letter.charCodeAt(0) - 64, 0);
        const cell = book.sheets[0]?.part.find(Number(top) + down, column);
        return cell === undefined ? null : valueIn(cell.value, book.shared);
      });
    });
    for (const { found } of report.outcomes) {
      const { bins = [], swings = [], mean = 0, dots = [] } = found ?? {};
      expect(lists).toContainEqual(bins.map(({ count }) => count));
      expect(lists).toContainEqual(swings.map(({ name }) => name));
      expect(lists).toContainEqual(swings.map(({ high }) => high - mean));
      expect(lists).toContainEqual(dots.map(([, outcome]) => outcome));
    }
  });
});

describe("a copy of the workbook with the report as a sheet", () => {
  test.each([
    ["one that holds charts, styles, names and print areas", "sample-workbooks/order-to-landed-cost.xlsx"],
    ["one that holds no styles and no names", undefined],
    ["one that holds a sheet of that name", "named"],
  ])("%s", async (_, given) => {
    const file =
      given === "named"
        ? written("named.xlsx", partsOf({ ranges: rows([1]), Other: rows([2, "=A1*2|4"]) }))
        : (given ?? written("bare.xlsx", partsOf({ Calc: rows([10, "=A1*2|20"]) })));
    const copy = place("copy.xlsx");
    await writeCopyWithReport(file, copy, report);
    expect(fileFaults(readFileSync(copy))).toEqual(fileFaults(readFileSync(file)));
    if (!schemasMissing)
      expect(schemaFaults(readFileSync(copy)).faults).toEqual(schemaFaults(readFileSync(file)).faults);

    const [before, after] = [openBook(readFileSync(file), file), openBook(readFileSync(copy), copy)];
    const added = given === "named" ? "Ranges 2" : "Ranges";
    expect(after.sheets.map(({ name }) => name)).toEqual([...before.sheets.map(({ name }) => name), added]);
    // Every part that was there is there byte for byte, but for the lists that have grown.
    const grown = /^\[Content_Types\]|workbook\.xml(\.rels)?$|styles\.xml$/;
    for (const [name, bytes] of before.parts)
      if (!grown.test(name)) expect([name, after.parts.get(name)]).toEqual([name, bytes]);
    const sheet = after.sheets[after.sheets.length - 1];
    const words = [...(sheet?.part.cells() ?? [])].map(({ value }) => valueIn(value, after.shared));
    expect(words).toContain("What the figures are known to");
    expect(words).toContain(told[0]?.figures?.mean.value);
    // The charts draw the sheet under the name that it got.
    const charts = [...after.parts.keys()].filter(
      (name) => /charts\/chart\d+\.xml$/.test(name) && !before.parts.has(name),
    );
    expect(charts).toHaveLength(3 * told.length);
    for (const name of charts) expect(textsOf(copy)[name]).toContain(`'${added}'!$`.replace(/'/g, "&apos;"));
  });
});
