import { readFileSync, writeFileSync } from "node:fs";
import { parseArgs } from "node:util";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { pointsAlone } from "../src/recalculate/alone";
import { openBook } from "../src/recalculate/book";
import { formulasOf, preparedFor } from "../src/recalculate/calculation";
import { Model } from "../src/recalculate/model";
import { listed, placeOfOne, placesOf } from "../src/recalculate/places";
import { Complaint } from "../src/recalculate/command-line";
import { inputsOf, rangesInTable, rangesInText, tablesOfRanges } from "../src/recalculate/ranges";
import { sought } from "../src/recalculate/seek";
import { seekInWorkbook, settleVariation } from "../src/recalculate/vary-tasks";
import { askedIn, OPTIONS } from "../src/recalculate/vary-words";
import { rowsOf } from "../src/recalculate/values";
import { Workbook } from "../src/recalculate/workbook";
import { bundledFunctions } from "./support/functions";
import { command, partsOf, place, rows, started, written } from "./support/workbooks";

const SAMPLE = "sample-workbooks/order-to-landed-cost.xlsx";

const AROUND = `<definedNames><definedName name="Length">Calc!$A$1</definedName><definedName name="Area">Calc!$C$1</definedName></definedNames>`;
/** A length of 10 and a width of 4, their product, and the product without anything of the width. */
const sheet = rows([10, 4, "=A1*B1|40", "=A1*2|20"], [1, "=C1+A2|41"]);

function book(name: string, text = sheet): string {
  return written(name, partsOf({ Calc: text }, AROUND));
}

function csv(name: string, ...lines: string[]): string {
  const file = place(name);
  writeFileSync(file, ["input,low,likely,high,shape,moves with", ...lines].join("\n"));
  return file;
}

interface Line {
  outcome: string;
  runs: number;
  mean: number;
  p5: number;
  p50: number;
  p95: number;
  error: number;
  deviation: number;
  parts: { input: string; part: number; error: number }[];
  failed: number;
  failures?: { run: number; error: string; inputs: Record<string, number> }[];
  chances?: { limit: string; chance: number; error: number }[];
}

function lines(out: string): Line[] {
  return out
    .trim()
    .split("\n")
    .map((line) => JSON.parse(line) as Line);
}

function asked(words: string[]) {
  return askedIn(parseArgs({ args: words, options: OPTIONS }).values, (typed) => typed);
}

function opened(file: string) {
  return openBook(readFileSync(file), file);
}

describe("vary", () => {
  test("the product of two normal inputs comes out as in the closed form, from a name and a cell", () => {
    const ranges = csv("normal.csv", "Length,8,,12,normal,", "Calc!B1,3,,5,normal,");
    const { out, code } = started("vary", book("product.xlsx"), "--ranges", ranges, "--of", "Area", "--json");
    const [line] = lines(out) as [Line];
    expect(code).toBe(0);
    expect(line).toMatchObject({ outcome: "Area", runs: 1000, failed: 0 });
    const [x, y] = [2 / 1.6448536269514722, 1 / 1.6448536269514722];
    // Goodman (1960): the variance of a product of independent variables.
    const variance = 100 * y ** 2 + 16 * x ** 2 + x ** 2 * y ** 2;
    expect(Math.abs(line.mean - 40)).toBeLessThan(4 * line.error);
    expect(Math.abs(line.deviation / Math.sqrt(variance) - 1)).toBeLessThan(0.1);
    const part = (input: string) => line.parts.find((one) => one.input === input)?.part as number;
    expect(Math.abs(part("Length") - (16 * x ** 2) / variance)).toBeLessThan(0.05);
    expect(Math.abs(part("Calc!B1") - (100 * y ** 2) / variance)).toBeLessThan(0.05);
  });

  test("the same seed gives the same figures, another seed others, several outcomes a line each", async () => {
    const ranges = csv("even.csv", "Length,8,,12,even,", "Calc!B1,3,,5,even,");
    const told = async (...words: string[]) =>
      (
        await command(
          "vary",
          book("seed.xlsx"),
          "--ranges",
          ranges,
          "--of",
          "Calc!C1,Calc!B2",
          "--runs",
          "100",
          "--json",
          ...words,
        )
      ).out;
    const first = await told("--seed", "7");
    expect(await told("--seed", "7")).toBe(first);
    expect(await told("--seed", "8")).not.toBe(first);
    const [area, more] = lines(first) as [Line, Line];
    expect([area.outcome, more.outcome]).toEqual(["Calc!C1", "Calc!B2"]);
    expect(more.mean - area.mean).toBeCloseTo(1, 12);
  });

  test("an input that moves with another is no source of its own", async () => {
    const ranges = csv("with.csv", "Length,8,,12,even,", "Calc!B1,3,,5,even,Length");
    const { out } = await command("vary", book("with.xlsx"), "--ranges", ranges, "--of", "Area", "--json");
    const [line] = lines(out) as [Line];
    expect(line.parts.map(({ input }) => input)).toEqual(["Length with Calc!B1"]);
    // Both run from end to end together: the mean of (8+4u)(3+2u) over u from 0 to 1 is 24 + 14 + 8/3.
    expect(Math.abs(line.mean - (38 + 8 / 3))).toBeLessThan(0.01);
  });

  test("runs without a number are counted and shown with their inputs, and are in no figure", async () => {
    const file = written("root.xlsx", partsOf({ Calc: rows([1, "=SQRT(A1)|1"]) }));
    const ranges = csv("root.csv", "Calc!A1,-1,,3,even,");
    const { out } = await command("vary", file, "--ranges", ranges, "--of", "Calc!B1", "--runs", "200", "--json");
    const [line] = lines(out) as [Line];
    // A quarter of the range is below 0, and each block has its share of it.
    expect(line).toMatchObject({ runs: 200, failed: 50 });
    for (const { error, inputs } of line.failures ?? []) {
      expect(error).toContain("#NUM!");
      expect(inputs["Calc!A1"]).toBeLessThan(0);
    }
    // The mean of √a over a from 0 to 3 is ⅔√3.
    expect(Math.abs(line.mean - (2 / 3) * Math.sqrt(3))).toBeLessThan(0.02);
    const { out: text } = await command("vary", file, "--ranges", ranges, "--of", "Calc!B1", "--runs", "200");
    expect(text).toContain("50 of 200 runs gave no number");
    expect(text).toMatch(/run \d+: #NUM!.*Calc!A1 -0\.\d+/);
  });

  test("it stops when the standard errors are small enough, and says when they are not", async () => {
    const ranges = csv("to.csv", "Length,8,,12,even,", "Calc!B1,3,,5,even,");
    const call = (...words: string[]) =>
      command("vary", book("to.xlsx"), "--ranges", ranges, "--of", "Area", "--json", ...words);
    const [coarse] = lines((await call("--to", "2%")).out) as [Line];
    const [fine] = lines((await call("--to", "0.7%")).out) as [Line];
    expect(coarse.runs).toBe(500);
    expect(fine.runs).toBeGreaterThan(500);
    expect(fine.error / fine.mean).toBeLessThan(0.007);
    expect((await call("--to", "0.01%", "--runs", "600")).err).toContain("after 600 runs");
  });

  test("the chance of a limit is told, and its cell need not be named again", async () => {
    const ranges = csv("limit.csv", "Length,8,,12,even,");
    const { out } = await command(
      "vary",
      book("limit.xlsx"),
      "--ranges",
      ranges,
      "--limit",
      "Area<38,Area>=46",
      "--json",
    );
    // The area is 4 lengths: below 38 for lengths below 9.5, three eighths of the range; from 46 on for the last eighth.
    const [below, above] = (lines(out)[0] as Line).chances ?? [];
    expect([below?.limit, above?.limit]).toEqual(["<38", ">=46"]);
    expect(below?.chance).toBeCloseTo(0.375, 2);
    expect(above?.chance).toBeCloseTo(0.125, 2);
  });

  test("several workbooks, one of them missing", async () => {
    const ranges = csv("many.csv", "Length,8,,12,even,");
    const words = ["--ranges", ranges, "--of", "Area", "--runs", "20", "--json"];
    const { out, err, code } = await command(
      "vary",
      book("many.xlsx"),
      place("none.xlsx"),
      book("again.xlsx"),
      ...words,
    );
    expect(lines(out)).toHaveLength(2);
    expect(err).toContain("none.xlsx cannot be read");
    expect(code).toBe(2);
  });
});

describe("runs in parts", () => {
  const RANGES = ["Length,8,,12,even,", "Calc!B1,-1,,5,normal,"];
  /** The square root fails in some runs, so that failures too are handed on. */
  const calling = (name: string) => [
    written(name, partsOf({ Calc: rows([10, 4, "=A1*SQRT(B1)|20", "=A1*B1|40"]) }, AROUND)),
    "--ranges",
    csv(`${name}.csv`, ...RANGES),
    "--of",
    "Calc!C1,Calc!D1",
    "--runs",
    "130",
  ];

  test("joined in any order, doubled and cut off, they are exactly those of one run; what is missing is told", async () => {
    const words = calling("parts.xlsx");
    const whole = await command("vary", ...words, "--limit", "Calc!D1<40", "--json");
    const parts: string[] = [];
    for (const shard of ["1/3", "2/3", "3/3"]) parts.push((await command("vary", ...words, "--shard", shard)).out);
    const [first, second, third] = parts as [string, string, string];
    const merged = async (text: string, ...more: string[]) => {
      const file = place("parts.jsonl");
      writeFileSync(file, text);
      return command("vary", "--merge", file, ...more, "--limit", "Calc!D1<40", "--json");
    };
    const mixed = [...`${third}${first}${second}${first}`.trim().split("\n")].reverse().join("\n");
    expect((await merged(`${mixed}\n${second.slice(0, -40)}`)).out).toBe(whole.out);
    expect(lines(whole.out)[0]?.failed).toBeGreaterThan(0);
    // Blocks of 13: the second, fifth and eighth of ten.
    const { err, code } = await merged(first + third);
    expect(code).toBe(2);
    expect(err).toContain("of 130 runs some are missing: 14 to 26, 53 to 65, 92 to 104; draw");
    expect((await merged(second.split("\n").slice(1).join("\n"))).err).toContain("runs without the line that says");
    const other = second.replace(/"shown":\[\[[-\d.]+/, '"shown":[[1');
    expect((await merged(parts.join("") + other)).err).toContain("holds other figures for block");
  });

  test("a run that was stopped goes on where it was, and draws nothing twice", async () => {
    const words = calling("resumed.xlsx");
    const file = place("resumed.jsonl");
    const whole = await command("vary", ...words, "--resume", file);
    const text = readFileSync(file, "utf8");
    // Stopped in the middle of the sixth block.
    const six = text.split("\n").slice(0, 7).join("\n");
    writeFileSync(file, six.slice(0, -30));
    const again = await command("vary", ...words, "--resume", file);
    expect(again.err).toContain("holds 65 runs already");
    expect(again.out).toBe(whole.out);
    const kept = readFileSync(file, "utf8").split("\n");
    expect(kept.filter((line) => line.includes('"block":')).length).toBe(1 + 5 + 5 + 2);
    expect((await command("vary", ...words, "--seed", "2", "--resume", file)).err).not.toContain("already");
    expect((await command("vary", ...words, "--resume", words[0] as string)).err).toContain("holds no runs");
  });

  test.each([
    [["--shard", "0/3"], "--shard is 0/3"],
    [["--shard", "4/3"], "--shard is 4/3"],
    [["--shard", "1/3", "--to", "1%"], "--shard takes no --to"],
    [["--merge", "none.jsonl", "--runs", "100"], "--merge takes no --runs"],
  ])("%j is refused", (words, wanted) => {
    expect(() => asked(words)).toThrow(wanted);
  });
});

describe("each input alone", () => {
  test("every input goes to its low and its high with what moves with it, the rest as they are; widest first", async () => {
    const file = written("alone.xlsx", partsOf({ Calc: rows([10, 4, 1, "=A1*B1+C1|41"]) }));
    const ranges = csv("alone.csv", "Calc!A1,9,10,12,,", "Calc!B1,3,,5,normal,", "Calc!C1,0,,3,even,Calc!B1");
    const words = [file, "--ranges", ranges, "--of", "Calc!D1", "--one-by-one"];
    const { out, code } = await command("vary", ...words, "--json");
    expect(code).toBe(0);
    expect(JSON.parse(out)).toMatchObject({
      outcome: "Calc!D1",
      now: 41,
      inputs: [
        // 10·3+0 and 10·5+3; 9·4+1 and 12·4+1.
        { input: "Calc!B1 with Calc!C1", low: 3, high: 5, atLow: 30, atHigh: 53, swing: 23 },
        { input: "Calc!A1", low: 9, high: 12, atLow: 37, atHigh: 49, swing: 12 },
      ],
    });
    const { out: text } = await command("vary", ...words);
    expect(text).toContain("input\tlow\thigh\tat low\tat high\tswing\nCalc!B1 with Calc!C1\t3\t5\t30\t53\t23\n");
  });

  test("lists that move together keep their pairs", () => {
    const inputs = [
      { shape: { kind: "list", values: [7, 2, 5] }, low: 2, high: 7, follows: 0 },
      { shape: { kind: "list", values: [10, 30, 20] }, low: 10, high: 30, follows: 0 },
      { shape: { kind: "even", low: 0, high: 6 }, low: 0, high: 6, follows: 0 },
    ].map((one) => ({ ...one, now: 4, place: { called: "", sheet: "", row: 1, column: 1 } }));
    // The list of three stands for three equal shares; the middle of the second is half, of the first a sixth.
    expect(pointsAlone(inputs as never)).toEqual([
      [2, 30, 3],
      [7, 10, 1],
    ]);
  });

  test("an end without a number is told and the table goes on", async () => {
    const file = written("end.xlsx", partsOf({ Calc: rows([1, 5, "=SQRT(A1)+B1|6"]) }));
    const ranges = csv("end.csv", "Calc!A1,-1,,4,even,", "Calc!B1,4,,6,even,");
    const { out, code } = await command("vary", file, "--ranges", ranges, "--of", "Calc!C1", "--one-by-one");
    expect(code).toBe(1);
    expect(out).toMatch(/Calc!B1\t4\t6\t5\t7\t2\nCalc!A1\t-1\t4\t#NUM![^\t]*\t7\t\n/);
  });
});

describe("the input that meets a wanted outcome", () => {
  const found = (of: (input: number) => number, from: number, to: number, wanted: number) =>
    sought((input) => (Number.isFinite(of(input)) ? of(input) : { error: "#NUM!" }), from, to, wanted);

  test("is the root of the equation, whichever way the outcome goes", () => {
    const factor = fc.double({ min: 0.01, max: 100, noNaN: true });
    fc.assert(
      fc.property(factor, factor, fc.boolean(), (a, x, falls) => {
        const of = (one: number) => (falls ? -1 : 1) * (a * one ** 3 + one);
        const met = found(of, x / 2, 3 * x, of(x));
        expect(met.kind).toBe("met");
        if (met.kind !== "met") return;
        expect(met.from.input / x).toBeCloseTo(1, 9);
        expect(met.bracket[0].input).toBeLessThanOrEqual(met.bracket[1].input);
        expect([Math.sign(x - met.bracket[0].input), Math.sign(met.bracket[1].input - x)]).not.toContain(-1);
      }),
    );
  });

  test("a rounded outcome is met by every value between two", () => {
    const met = found((x) => Math.floor(x), 0, 10.3, 4);
    expect(met).toMatchObject({ kind: "met", from: { outcome: 4 }, to: { outcome: 4 } });
    if (met.kind !== "met") return;
    expect(met.from.input).toBeCloseTo(4, 10);
    expect(met.to.input).toBeCloseTo(5, 10);
  });

  test("an outcome rounded to cents is met to the nearest cent of a large sum", () => {
    const met = found((x) => Math.round(6000 * x * 100) / 100 / 6000, 1, 7, 4.1234567);
    expect(met.kind).toBe("met");
    if (met.kind === "met") expect(met.from.input).toBeCloseTo(4.1234567, 5);
  });

  test("a jump over it is told, with both sides", () => {
    expect(found((x) => (x < 2.3 ? 1 : 5), 0, 10, 4)).toMatchObject({
      kind: "passed over",
      below: { outcome: 1 },
      above: { outcome: 5 },
    });
  });

  test("several brackets are all shown; none shows what the outcome reaches", () => {
    const several = found((x) => (x - 1) * (x - 4), 0, 5, 1);
    expect(several.kind === "several" && several.brackets).toHaveLength(2);
    expect(found((x) => x * x, 1, 3, 10)).toMatchObject({
      kind: "none",
      least: { input: 1, outcome: 1 },
      most: { input: 3, outcome: 9 },
      failed: [],
    });
    const half = found((x) => Math.sqrt(x), -1, 1, 2);
    expect(half.kind === "none" && half.failed).toHaveLength(32);
    expect(found(() => NaN, -1, 1, 2)).toEqual({ kind: "none", failed: expect.any(Array) as unknown });
  });

  test("a pole is no crossing that can be met", () => {
    expect(found((x) => 1 / (x - 0.31), 0, 1, 0).kind).toBe("passed over");
  });

  test("in a workbook: the bracket is shown, the range of the input is where it is looked for", async () => {
    const file = book("seek.xlsx");
    const { out, code } = await command("vary", file, "--seek", "Area=38", "--by", "Calc!A1");
    expect(code).toBe(0);
    expect(out).toContain("Calc!A1 = 9.5 gives Area = 38");
    expect(out).toMatch(
      /between Calc!A1 = 5 and 20, in 64 steps, the one bracket: 9\.\d+ \(3\d\.\d+\) and 9\.\d+ \(38\.\d+\)/,
    );
    const ranges = csv("seek.csv", "Length,8,,9,even,");
    const beside = await command("vary", file, "--seek", "Area=38", "--by", "Calc!A1", "--ranges", ranges, "--json");
    expect(beside.code).toBe(1);
    expect(JSON.parse(beside.out)).toMatchObject({ between: [8, 9], brackets: [], found: null });
    expect(JSON.parse(beside.out).why).toContain("it goes from 32 (at 8) to 36 (at 9)");
  });

  test.each([
    [["--seek", "Area=38"], "--seek needs --by"],
    [["--seek", "Area", "--by", "Calc!A1"], "--seek is Area"],
    [["--by", "Calc!A1"], "--by belongs to --seek"],
    [["--seek", "Area=1", "--by", "Calc!A1", "--between", "3,2"], "--between is 3,2"],
    [["--one-by-one", "--runs", "50"], "--one-by-one takes no --runs"],
  ])("%j is refused", (words, wanted) => {
    expect(() => asked(words)).toThrow(wanted);
  });

  test("an input that is a formula and an outcome that does not depend on it are refused", () => {
    const seek = (outcome: string, by: string) =>
      seekInWorkbook({ file: book("unsought.xlsx"), called: "unsought.xlsx", outcome, value: 1, by });
    expect(seek("Area", "Calc!C1")).toEqual({
      error: expect.stringContaining("input Calc!C1 holds a formula") as string,
    });
    expect(seek("Calc!D1", "Calc!B1")).toEqual({
      error: expect.stringContaining("outcome Calc!D1 depends on none of the inputs") as string,
    });
  });
});

describe("what vary refuses", () => {
  const refusal = (text: string, line: string, ...words: string[]) => {
    const ranges = csv("refused.csv", ...line.split("\n"));
    const question = asked(["--ranges", ranges, ...words]);
    const of = words.length === 0 ? "Calc!C1" : question.of;
    const answer = settleVariation({
      file: book("refused.xlsx", text),
      called: "refused.xlsx",
      ranges: question.ranges,
      ...(of === undefined ? {} : { of }),
      also: [],
    });
    return "error" in answer ? answer.error : "";
  };
  const message = (text: string, line: string, ...words: string[]) => {
    try {
      return refusal(text, line, ...words);
    } catch (fault) {
      expect(fault).toBeInstanceOf(Complaint);
      return (fault as Error).message;
    }
  };
  const RANGE = "Calc!A1,8,10,12,,";

  test("an outcome that rests on a formula that is not reproduced, and no other", () => {
    const stale = rows([10, "=A1*3|31", "=B1+1|32", "=A1*2|20"]);
    expect(refusal(stale, RANGE)).toContain("Calc!C1 rests on Calc!B1: its saved value is not reproduced here");
    expect(refusal(stale, RANGE, "--of", "Calc!D1")).toBe("");
  });

  test("chance, the clock, circles and functions that are not known here", () => {
    expect(refusal(rows([10, "=A1*RAND()|3", "=B1+1|4"]), RANGE)).toContain("the clock or on chance");
    expect(refusal(rows([10, "=A1+C1|12", "=B1-A1|2"]), RANGE)).toContain("circle");
    expect(refusal(rows([10, "=MYOWN(A1)|12", "=B1-A1|2"]), RANGE)).toContain("MYOWN cannot be worked out here");
  });

  test("a what-if table between input and outcome", () => {
    const table = `<row r="1"><c r="A1"><v>10</v></c><c r="B1"><f t="dataTable" ref="B1:B2" r1="A1"/><v>3</v></c><c r="C1"><f>SUM(B1:B2)+A1</f><v>17</v></c></row><row r="2"><c r="B2"><v>4</v></c></row>`;
    expect(refusal(table, RANGE)).toContain("Calc!C1 rests on Calc!B1: a what-if table cannot be worked out here");
  });

  test.each([
    ["Calc!C1,8,10,12,,", ["--of", "Calc!D1"], "input Calc!C1 holds a formula"],
    ["Calc!Z9,8,10,12,,", [], "input Calc!Z9 holds no number"],
    ["Nowhere!A1,8,10,12,,", [], 'there is no sheet "Nowhere"'],
    ["Widht,8,10,12,,", [], "input Widht is no cell and no name"],
    ["Calc!A1,12,10,8,,", [], "low must not be above high"],
    ["Calc!A1,8,13,12,,", [], "likely is 13; must be from low 8 to high 12"],
    ["Calc!A1,8,9,12,normal,", [], "likely is 9; a normal has it midway, at 10"],
    ["Calc!A1,8,10,12,round,", [], 'shape is "round"; must be triangle, normal, even, list or outcome'],
    ["Calc!A1,8,ten,12,,", [], 'likely is "ten"; must be a number'],
    ["Calc!A1,8,10,12,,\nLength,8,10,12,,", [], "names Length twice"],
    ["Calc!A1,8,10,12,,Calc!B1", [], "moves with Calc!B1, which has no range itself"],
    ["Calc!A1,8,10,12,,Calc!B1\nCalc!B1,3,4,5,,Length", [], "in a circle"],
    ["Calc!B1,3,4,5,,", ["--of", "Calc!D1"], "outcome Calc!D1 depends on none of the inputs"],
    ["Calc!A1,8,10,12,,", ["--of", "Calc!A1"], "outcome Calc!A1 is an input"],
    ["Calc!A1,8,10,12,,", ["--runs", "50"], "no outcome is named"],
    ["Calc!A1,8,10,12,,", ["--of", "Calc!C1", "--runs", "5"], "--runs is 5; must be a whole number from 20"],
    ["Calc!A1,8,10,12,,", ["--of", "Calc!C1", "--to", "1"], "--to is 1; must be a percentage"],
    ["Calc!A1,8,10,12,,", ["--limit", "Calc!C1=3"], "--limit is Calc!C1=3"],
  ])("%s %j", (line, words, wanted) => {
    expect(message(sheet, line, ...words)).toContain(wanted);
  });

  test("a refusal ends the command with 2, and nothing is printed", () => {
    const ranges = csv("ended.csv", "Calc!C1,8,10,12,,");
    const { out, err, code } = started("vary", book("ended.xlsx"), "--ranges", ranges, "--of", "Area");
    expect([out, code]).toEqual(["", 2]);
    expect(err).toContain("ended.xlsx: input Calc!C1 holds a formula");
  });

  test("a workbook without ranges", async () => {
    const { err, code } = await command("vary", book("without.xlsx"), "--of", "Area");
    expect([code, err]).toMatchObject([2, expect.stringContaining("has no Table named Ranges")]);
  });
});

describe("ranges", () => {
  test("a Table of any place, with its outcomes, its headings in any order and with remarks", async () => {
    const workbook = new Workbook();
    const on = workbook.addWorksheet("Calc");
    on.getCell("A1").value = 10;
    on.getCell("B1").value = { formula: "A1*2", result: 20 };
    on.addTable({
      name: "ranges",
      ref: "D4",
      headerRow: true,
      totalsRow: false,
      columns: ["high (any unit)", "low (any unit)", "likely (any unit)", "input", "shape"].map((name) => ({ name })),
      rows: [
        [12, 9, null, "Calc!A1", null],
        [null, null, null, "Calc!B1", "Outcome"],
      ],
    });
    const read = openBook(new Uint8Array(await workbook.xlsx.writeBuffer()), "table.xlsx");
    const ranges = rangesInTable(read);
    expect(ranges.outcomes).toEqual(["Calc!B1"]);
    // The likely value that is left blank is what the cell holds.
    expect(inputsOf(read, ranges)).toMatchObject([
      { shape: { kind: "triangle", low: 9, likely: 10, high: 12 }, now: 10, follows: 0 },
    ]);
  });

  test("a Table of another name is meant where it is the only one with the headings, and Ranges before any", async () => {
    const holding = async (...tables: (readonly [name: string, ...headings: string[]])[]) => {
      const workbook = new Workbook();
      const on = workbook.addWorksheet("Calc");
      on.getCell("A1").value = 10;
      tables.forEach(([name, ...headings], index) =>
        on.addTable({
          name,
          ref: `D${4 + 4 * index}`,
          headerRow: true,
          totalsRow: false,
          columns: headings.map((heading) => ({ name: heading })),
          rows: [headings.map((heading) => ({ input: "Calc!A1", low: 9, high: 12 })[heading] ?? null)],
        }),
      );
      return openBook(new Uint8Array(await workbook.xlsx.writeBuffer()), "tables.xlsx");
    };
    const needed = ["input", "low", "likely", "high"];
    const other = await holding(["Prices", "lot", "low", "high"], ["Known", ...needed]);
    expect(tablesOfRanges(other)).toEqual(["Known"]);
    expect(rangesInTable(other).called).toBe("the Table Known");
    const two = await holding(["First", ...needed], ["Second", ...needed]);
    expect(() => rangesInTable(two)).toThrow(
      "tables.xlsx has several Tables of ranges, First, Second; say which with --ranges TABLE",
    );
    expect(rangesInTable(two, "second").called).toBe("the Table Second");
    const named = await holding(["First", ...needed], ["Ranges", ...needed]);
    expect(tablesOfRanges(named)).toEqual(["Ranges", "First"]);
    expect(rangesInTable(named).called).toBe("the Table Ranges");
    // One that is called so and lacks a heading is told what it lacks.
    const lacking = await holding(["Ranges", "input", "low", "high"], ["Known", ...needed]);
    expect(() => rangesInTable(lacking)).toThrow("the Table Ranges has no heading likely");
  });

  test("text with semicolons and decimal commas, percentages, quotes and lists", () => {
    const file = opened(book("text.xlsx"));
    const text = 'input;low;likely;high;shape\n"Calc!A1";0,5%;;2;even\nCalc!B1;"1|2,5";3;;list\n';
    expect(inputsOf(file, rangesInText(text, "ranges.csv")).map(({ shape }) => shape)).toEqual([
      { kind: "even", low: 0.005, high: 2 },
      { kind: "list", values: [1, 2.5, 3] },
    ]);
  });

  test("cells are named with sheets in quotes, by names and as ranges", () => {
    const file = opened(written("places.xlsx", partsOf({ "Dye, house": rows([1, 2]), Calc: rows([1]) }, AROUND)));
    expect(listed("Cost!H12, 'Dye, house'!A1 ,Name")).toEqual(["Cost!H12", "'Dye, house'!A1", "Name"]);
    expect(placesOf(file, "'dye, house'!$A$1:B1", "outcome").map(({ called }) => called)).toEqual([
      "'Dye, house'!A1",
      "'Dye, house'!B1",
    ]);
    expect(placeOfOne(file, "length", "input")).toMatchObject({ sheet: "Calc", row: 1, column: 1 });
    expect(() => placeOfOne(file, "A1", "input")).toThrow("names no sheet");
  });
});

describe("the model of a workbook", () => {
  test("working out only what depends on the inputs gives what working out everything gives", () => {
    const file = opened(SAMPLE);
    const formulas = formulasOf(file);
    const functions = bundledFunctions();
    const moved = ["WorstedSpinningLoss", "DyeLoss", "WoolBaseOfLot1", "SkeinMass"];
    const inputs = moved.map((one) => placeOfOne(file, one, "input"));
    const watched = ["Landed!B10:J16", "LandedPerSkein", "GreasyNeeded"];
    const outcomes = watched.flatMap((one) => placesOf(file, one, "outcome"));
    const model = new Model(file, formulas, functions, inputs, outcomes);
    const everything = preparedFor(file, formulas, formulas, functions);
    expect(model.doubts).toEqual([]);
    expect(model.worked).toBeLessThan(formulas.length);
    for (const values of [
      [0.03, 0.01, 0.6015, 100],
      [0.05, 0.02, 0.55, 50],
      [0.01, 0, 0.62, 115],
      [0.03, 0.01, 0.6015, 100],
    ]) {
      const all = everything(inputs.map((input, index) => ({ ...input, value: values[index] as number })));
      const found = outcomes.map(({ sheet: on, row, column }) => {
        for (const [{ sheet: other, cell }, outcome] of all) {
          const value = other.name === on ? rowsOf(outcome)[row - cell.row]?.[column - cell.column] : undefined;
          if (value !== undefined) return value;
        }
        return undefined;
      });
      expect(model.at(values)).toEqual(found);
    }
  });

  test("a reader of cells that a result grows into is never left with old values", () => {
    // The list fills as many cells as A1 says; C1 reads the cell below what it filled when the file was saved.
    const text = `<row r="1"><c r="A1"><v>2</v></c><c r="B1" cm="1"><f t="array" ref="B1:B2">_xlfn.SEQUENCE(A1)</f><v>1</v></c><c r="C1"><f>B3*1</f><v>0</v></c><c r="D1"><f>C1+SUM(B1:B2)</f><v>3</v></c></row><row r="2"><c r="B2"><v>2</v></c></row>`;
    const parts = partsOf({ Calc: text });
    parts["xl/metadata.xml"] =
      '<metadata><metadataTypes count="1"><metadataType name="XLDAPR"/></metadataTypes><cellMetadata count="1"><bk><rc t="1" v="0"/></bk></cellMetadata></metadata>';
    parts["xl/_rels/workbook.xml.rels"] = (parts["xl/_rels/workbook.xml.rels"] as string).replace(
      "</Relationships>",
      '<Relationship Id="rId99" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/sheetMetadata" Target="metadata.xml"/></Relationships>',
    );
    const file = opened(written("grown.xlsx", parts));
    const one = (typed: string) => placeOfOne(file, typed, "cell");
    const model = new Model(file, formulasOf(file), bundledFunctions(), [one("Calc!A1")], [one("Calc!D1")]);
    expect(model.at([2])).toEqual([3]);
    expect(model.at([3])).toEqual([{ error: expect.stringContaining("Calc!B1 fills more cells and Calc!C1") }]);
    expect(model.at([2])).toEqual([3]);
  });

  test("a book without saved values is worked out from nothing", () => {
    const file = opened(written("unsaved.xlsx", partsOf({ Calc: rows([10, "=A1*2", "=5+1", "=B1+C1"]) })));
    const one = (typed: string) => placeOfOne(file, typed, "cell");
    const model = new Model(file, formulasOf(file), bundledFunctions(), [one("Calc!A1")], [one("Calc!D1")]);
    expect(model.unsaved).toBe(3);
    expect(model.at([11])).toEqual([28]);
  });
});
