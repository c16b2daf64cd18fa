import { describe, expect, test } from "vitest";
import { recalculate, type Job, type Recalculated } from "../src/recalculate/recalculation";
import { settingIn } from "../src/recalculate/set-values";
import { command, partsOf, place, rows, textsOf, written } from "./support/workbooks";

/** What recalc tells of a book with values put in, and the first sheet of the copy. */
function after(parts: Record<string, string>, ...settings: string[]): Recalculated & { readonly sheet: string } {
  const out = place("changed.xlsx");
  const job: Job = { file: written("change.xlsx", parts), called: "change.xlsx", out, set: settings.map(settingIn) };
  const told = recalculate(job);
  return { ...told, sheet: told.error === undefined ? (textsOf(out)["xl/worksheets/sheet1.xml"] as string) : "" };
}

const cells = (told: Recalculated) => told.recalculated.map(({ cell, saved, now }) => [cell, saved, now]);
const kept = (told: Recalculated) =>
  Object.fromEntries(told.notRecalculated.map(({ cell, message }) => [cell, message]));

const LOSS =
  '<definedNames><definedName name="Loss">Inputs!$B$4</definedName><definedName name="Both">Inputs!$B$4:$B$5</definedName></definedNames>';
const order = partsOf(
  {
    Inputs: rows([1], [2], [3], ["=1|1", 0.02, "=B4*100|2"], [5, 6, "=Sums!A2+1|99"]),
    Sums: rows(["=1-Loss|0.98"], ["=ROUND(1000/A1,0)|1020"], ["=A2*2|2040"], ["=Inputs!A1+1|2"]),
  },
  LOSS,
);

describe("after a value is put into a cell", () => {
  test("what depends on it is worked out anew, on every sheet; the rest stays", () => {
    const told = after(order, "Inputs!B4=0.5");
    expect(cells(told)).toEqual([
      ["C4", 2, 50],
      ["A1", 0.98, 0.5],
      ["A2", 1020, 2000],
      ["A3", 2040, 4000],
    ]);
    expect(told.sheet).toContain('<c r="B4"><v>0.5</v></c>');
    expect(told.sheet).toContain("<f>B4*100</f><v>50</v>");
    expect(after(order, "Loss=50%").recalculated).toEqual(told.recalculated);
    expect(told.differences).toEqual([]);
  });

  test("a what-if table is told where a change reaches it, with what reads it, and the copy asks to be calculated", () => {
    // Price 10, mass 2, cost B4; the table gives the cost at the masses 1 and 3, and B8 reads it. C4 is another formula.
    const table =
      '<row r="1"><c r="B1"><v>10</v></c></row><row r="2"><c r="B2"><v>2</v></c></row><row r="4"><c r="B4"><f>B1*B2</f><v>20</v></c><c r="C4"><f>B2+1</f><v>3</v></c></row><row r="5"><c r="A5"><v>1</v></c><c r="B5"><f t="dataTable" ref="B5:B6" dt2D="0" dtr="0" r1="B2"/><v>10</v></c></row><row r="6"><c r="A6"><v>3</v></c><c r="B6"><v>30</v></c></row><row r="8"><c r="B8"><f>SUM(B5:B6)</f><v>40</v></c></row>';
    const told = after(partsOf({ S: table }), "S!B1=11");
    expect(cells(told)).toEqual([["B4", 20, 22]]);
    expect(kept(told)).toEqual({
      B5: "a what-if table cannot be worked out here",
      B8: "it reads S!B5, which is not recalculated",
    });
    expect(told.sheet).toContain('<c r="B5"><f t="dataTable" ref="B5:B6" dt2D="0" dtr="0" r1="B2"/><v>10</v></c>');
    const file = place("changed.xlsx");
    expect(textsOf(file)["xl/workbook.xml"]).toContain('fullCalcOnLoad="1"');
    // One of the masses that the table asks for.
    expect(Object.keys(kept(after(partsOf({ S: table }), "S!A6=4")))).toEqual(["B5", "B8"]);
    // What it reads not.
    const other = table.replace('<row r="8">', '<row r="7"><c r="D7"><v>1</v></c><c r="E7"><f>D7*2</f><v>2</v></c></row><row r="8">'); // prettier-ignore
    expect(after(partsOf({ S: other }), "S!D7=5")).toMatchObject({
      notRecalculated: [],
      recalculated: [{ cell: "E7" }],
    });
  });

  test("a formula that is not reproduced on the saved values keeps its value, and all that reads it", () => {
    const told = after(order, "Loss=0.5");
    // C5 shows 99 where 1021 follows from what it reads.
    expect(kept(told)).toEqual({ C5: "its saved value is not reproduced here" });
    expect(told.sheet).toContain("<f>Sums!A2+1</f><v>99</v>");
    expect(textsOf(place("changed.xlsx"))["xl/workbook.xml"]).toContain('fullCalcOnLoad="1"');
    const chain = partsOf({ S: rows([1, "=A1+1|7", "=B1*2|14", "=A1*3|3"]) });
    const chained = after(chain, "S!A1=2");
    expect(cells(chained)).toEqual([["D1", 3, 6]]);
    expect(kept(chained)).toEqual({
      B1: "its saved value is not reproduced here",
      C1: "it reads S!B1, which is not recalculated",
    });
  });

  test("several values, of every kind; a value of the same size changes nothing", () => {
    const kinds = partsOf({
      S: `<row r="1"><c r="A1"><v>1</v></c><c r="B1" t="str"><v>a</v></c><c r="C1" t="b"><v>0</v></c><c r="D1"><v>46000</v></c><c r="E1" t="str"><f>A1&amp;B1&amp;IF(C1,1,2)&amp;YEAR(D1)</f><v>1a22025</v></c></row>`,
    });
    expect(cells(after(kinds, "S!A1=2", "'S'!B1=b=c", "S!C1=true", "S!D1=2027-03-01"))).toEqual([
      ["E1", "1a22025", "2b=c12027"],
    ]);
    // ISO 8601 and the sheet's number of that day: 46447 is 1 March 2027 in the calendar from 1900.
    expect(after(kinds, "S!D1=2027-03-01").sheet).toContain('<c r="D1"><v>46447</v></c>');
    expect(cells(after(kinds, 'S!B1="3"', "S!A1="))).toEqual([["E1", "1a22025", "322025"]]);
    expect(after(kinds, "S!A1=1").recalculated).toEqual([]);
  });

  test("what depends on the clock or on chance is left out, and all that reads it", () => {
    const told = after(
      partsOf({ S: rows([1, "=A1+TODAY()|46001", "=B1+A1|46002", "=A1*2|2", "=RAND()|0.5", "=A1+E1|1.5"]) }),
      "S!A1=2",
    );
    expect(cells(told)).toEqual([["D1", 2, 4]]);
    expect(kept(told)).toEqual({
      B1: "it depends on the clock or on chance",
      C1: "it reads what depends on the clock or on chance",
      F1: "it reads what depends on the clock or on chance",
    });
  });

  test("calls of ours on the way, and spills that change their size", () => {
    const told = after(
      partsOf({
        S: `<row r="1"><c r="A1"><v>10</v></c><c r="B1"><f>A1*2</f><v>20</v></c><c r="C1"><f t="array" ref="C1">_xldudf_YARN_COUNT(B1,"NeC","NeW")</f><v>30</v></c><c r="D1"><f>C1+1</f><v>31</v></c></row>`,
      }),
      "S!A1=20",
    );
    expect(cells(told)).toEqual([
      ["B1", 20, 40],
      ["C1", 30, 60],
      ["D1", 31, 61],
    ]);
    expect(kept(told)).toEqual({});
  });

  test("a formula whose readings are not known is worked out, and left where it stands in a circle", () => {
    const free = after(partsOf({ S: rows([1, '=INDIRECT("A1")+1|2', "=B1*2|4"]) }), "S!A1=5");
    expect(cells(free)).toEqual([
      ["B1", 2, 6],
      ["C1", 4, 12],
    ]);
    for (const circle of ['=INDIRECT("C1")+A1|5', "=OFFSET(D1,0,-1)+A1|5"]) {
      const told = after(partsOf({ S: rows([1, circle, "=B1-1|4", "=A1*2|2"]) }), "S!A1=7");
      expect(cells(told)).toEqual([["D1", 2, 14]]);
      expect(Object.keys(kept(told))).toEqual(["B1", "C1"]);
      expect(Object.values(kept(told))).toContain("what it reads depends on itself");
    }
  });

  test("a circle of formulas whose readings are not known is found too, however many of them there are", () => {
    const free = ["x", "y", "z"].map((_, at) => [0, `=INDIRECT("A${at + 2}")+1|1`]);
    const told = after(
      partsOf({ S: rows([0, '=INDIRECT("C1")+A1|3', "=OFFSET(A1,0,1)+A1|3", "=A1*2|0"], ...free) }),
      "S!A1=5",
    );
    expect(cells(told)).toEqual([["D1", 0, 10]]);
    expect(Object.values(kept(told))).toContain("what it reads depends on itself");
    // A chain of such formulas is no circle.
    const chain = after(partsOf({ S: rows([0, '=INDIRECT("A1")+1|1', '=INDIRECT("B1")+1|2', "=C1+1|3"]) }), "S!A1=5");
    expect(cells(chain)).toEqual([
      ["B1", 1, 6],
      ["C1", 2, 7],
      ["D1", 3, 8],
    ]);
  });

  test("a plain circle keeps what the program that went round it saved", () => {
    const told = after(partsOf({ S: rows([1, "=C1+A1|5", "=B1-1|4", "=A1*2|2"]) }), "S!A1=7");
    expect(cells(told)).toEqual([["D1", 2, 14]]);
    expect(told.notRecalculated.map(({ cell }) => cell)).toEqual(["B1", "C1"]);
  });

  test("a call of ours that differs is such a change by itself", () => {
    const told = after(partsOf({ S: rows([10, '=_xldudf_YARN_COUNT(A1,"NeC","NeW")|14', "=B1*2|28", "=C1+1|5"]) }));
    expect(told.differences.map(({ cell, now }) => [cell, now])).toEqual([["B1", 15]]);
    expect(cells(told)).toEqual([["C1", 28, 30]]);
    expect(kept(told)).toEqual({ D1: "its saved value is not reproduced here" });
    expect(told.sheet).toContain("<f>B1*2</f><v>30</v>");
    expect(told.sheet).toContain("<f>C1+1</f><v>5</v>");
  });
});

describe("--set", () => {
  test.each([
    ["Inputs!Z", /is no cell and no name/],
    ["Nowhere!A1=1", /there is no sheet "Nowhere"/],
    ["Inputs!C4=1", /is worked out by =B4\*100; name a cell that holds a value/],
    ["Both=1", /has several cells; name one/],
  ])("%s is refused in a sentence", (typed, message) => {
    expect(after(order, typed.includes("=") ? typed : `${typed}=1`)).toMatchObject({
      error: expect.stringMatching(message) as string,
    });
  });

  test("what is no setting at all, and the command", async () => {
    expect(() => settingIn("Inputs!B4")).toThrow("write it as Inputs!B4=0.03");
    expect(settingIn("'a=b'!A1=c=d")).toEqual({ place: "'a=b'!A1", value: "c=d" });
    const { out, err, code } = await command("recalc", "--set", "Loss=0.5", written("set.xlsx", order));
    expect(out).toContain("sheet\tcell\tsaved\trecalculated\tmessage\nInputs\tC4\t2\t50\t\nSums\tA1\t0.98\t0.5\t\n");
    expect(err).toMatch(/Inputs!C5: not recalculated, because its saved value is not reproduced here/);
    expect(code).toBe(0);
  });
});
