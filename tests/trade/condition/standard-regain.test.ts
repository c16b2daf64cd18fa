import { describe, expect, test } from "vitest";
import { FIBRES, FIBRE_FORMS } from "../../../src/tables/fibres";
import { REGAINS } from "../../../src/tables/regains";
import { SOURCES } from "../../../src/tables/sources";
import { standardRegain } from "../../../src/trade/condition/standard-regain";

/**
 * Annex IX as the French order of 24 June 1998, Annex II, prints it: number, fibre, form, percent. Transcribed from
 * there, not from the library's table.
 */
const ANNEX = `
1-2 | wool | combed | 18,25
1-2 | wool | carded | 17,00
1-2 | wool | unknown | 17,00
3 | animal hair | combed | 18,25
3 | animal hair | carded | 17,00
3 | animal hair | unknown | 17,00
3 | horsehair | combed | 16,00
3 | horsehair | carded | 15,00
4 | silk | | 11,00
5 | cotton | normal | 8,50
5 | cotton | mercerised | 10,50
6 | kapok | | 10,90
7 | flax | | 12,00
8 | hemp | | 12,00
9 | jute | | 17,00
10 | abaca | | 14,00
11 | alfa | | 14,00
12 | coir | | 13,00
13 | broom | | 14,00
14 | ramie | bleached | 8,50
15 | sisal | | 14,00
16 | sunn | | 12,00
17 | henequen | | 14,00
18 | maguey | | 14,00
19 | acetate | | 9,00
20 | alginate | | 20,00
21 | cupro | | 13,00
22 | modal | | 13,00
23 | protein | | 17,00
24 | triacetate | | 7,00
25 | viscose | | 13,00
26 | acrylic | | 2,00
27 | chlorofibre | | 2,00
28 | fluorofibre | | 0,00
29 | modacrylic | | 2,00
30 | polyamide | staple | 6,25
30 | polyamide | filament | 5,75
31 | aramid | | 8,00
32 | polyimide | | 3,50
33 | lyocell | | 13,00
33a | polylactide | | 1,50
34 | polyester | staple | 1,50
34 | polyester | filament | 1,50
35 | polyethylene | | 1,50
36 | polypropylene | | 2,00
37 | polycarbamide | | 2,00
38 | polyurethane | staple | 3,50
38 | polyurethane | filament | 3,00
39 | vinylal | | 5,00
40 | trivinyl | | 3,00
41 | elastodiene | | 1,00
42 | elastane | | 1,50
43 | glass fibre | over 5 micron | 2,00
43 | glass fibre | 5 micron or less | 3,00
44 | metal fibre | | 2,00
44 | metallised fibre | | 2,00
44 | asbestos | | 2,00
44 | paper yarn | | 13,75
45 | elastomultiester | | 1,50`
  .trim()
  .split("\n")
  .map((line) => line.split("|").map((cell) => cell.trim()) as [string, string, string, string]);

/** The animals of number 2, whose hair goes with wool. */
const NUMBER_2 = "alpaca llama camel cashmere mohair angora vicuna yak guanaco cashgora beaver otter".split(" ");

/** The decimal a person reads, as the nearest double. */
const fractionOf = (percent: string) => Number(`${percent.replace(",", ".")}e-2`);

describe("EU label table, Annex IX", () => {
  test.each(ANNEX)("%s %s %s is %s %%", (_number, fibre, form, percent) => {
    expect(standardRegain(fibre, form === "" ? undefined : form, "EU label")).toBe(fractionOf(percent));
  });

  test.each(NUMBER_2)("%s goes with wool: combed 18.25, carded 17, unknown cycle 17", (hair) => {
    expect(["combed", "carded", "unknown"].map((form) => standardRegain(hair, form, "EU label"))).toEqual([
      0.1825, 0.17, 0.17,
    ]);
  });

  test("no row stands in the library's table as read that is not in the annex", () => {
    const printed = new Set(ANNEX.map(([, fibre, form]) => `${fibre}/${form}`));
    for (const hair of NUMBER_2) for (const form of ["combed", "carded", "unknown"]) printed.add(`${hair}/${form}`);
    const read = REGAINS.filter((row) => row.schedule === "EU label" && row.status === "read");
    expect(read.map(({ fibre, form }) => `${fibre}/${form}`).sort()).toEqual([...printed].sort());
  });

  test("yarn and top fall under their cycle", () => {
    expect(standardRegain("wool", "worsted yarn", "EU label")).toBe(0.1825);
    expect(standardRegain("wool", "woollen yarn", "EU label")).toBe(0.17);
  });
});

/** GB 9994-1988, the rows that could be read. */
test.each([
  ["wool", "scoured mixed", 15],
  ["wool", "scoured", 16],
  ["wool", "noil", 16],
  ["wool", "recycled", 17],
  ["wool", "dry top", 18.25],
  ["wool", "oil top", 19],
  ["cotton", "normal", 8.5],
  ["cotton", "fabric", 8],
])("GB 9994: %s, %s, is %d %%", (fibre, form, percent) => {
  expect(standardRegain(fibre, form, "GB 9994")).toBe(fractionOf(String(percent)));
});

/** ASTM D1909-13 as quoted in print; D2118 recommends one moisture content of 12 % for wool, which is 13.64 % regain. */
test.each([
  ["wool", 13.6],
  ["flax", 12],
  ["hemp", 12],
  ["jute", 13.75],
  ["silk", 11],
])("ASTM: %s is %d %%", (fibre, percent) => {
  expect(standardRegain(fibre, undefined, "ASTM")).toBe(fractionOf(String(percent)));
});

describe("the table of regains", () => {
  const status = new Map(SOURCES.map((source) => [source.key, source.status]));
  const fibres = new Set(FIBRES.map(([word]) => word));
  const forms = new Set(["", ...FIBRE_FORMS.map(([word]) => word)]);

  test("every row names a known source of the row's own status", () => {
    for (const row of REGAINS) expect(status.get(row.source), `${row.fibre} ${row.schedule}`).toBe(row.status);
  });

  test("every row uses the words a person can write", () => {
    for (const row of REGAINS) {
      expect(fibres.has(row.fibre), row.fibre).toBe(true);
      for (const form of [row.form, ...row.covers]) expect(forms.has(form), form).toBe(true);
    }
  });

  test("no two rows of a schedule answer the same question", () => {
    const questions = REGAINS.flatMap((row) =>
      [row.form, ...row.covers].map((form) => `${row.schedule}/${row.fibre}/${form}`),
    );
    expect(new Set(questions).size).toBe(questions.length);
  });

  test("each spelling belongs to one fibre and one form", () => {
    for (const table of [FIBRES, FIBRE_FORMS]) {
      const spellings = table.flat().map((word) => word.toLowerCase());
      expect(new Set(spellings).size).toBe(spellings.length);
    }
  });

  test("every fibre that can be written has a regain somewhere", () => {
    for (const fibre of fibres)
      expect(
        REGAINS.some((row) => row.fibre === fibre),
        fibre,
      ).toBe(true);
  });
});

describe("without a schedule", () => {
  const readRows = (fibre: string) => REGAINS.filter((row) => row.fibre === fibre);

  test("an answer is the value of every row, or there is none", () => {
    for (const [fibre] of FIBRES) {
      const values = new Set(readRows(fibre).map(({ regain }) => regain));
      const allRecalled = readRows(fibre).every((row) => row.status === "memory");
      if (values.size === 1 && !allRecalled) expect(standardRegain(fibre)).toBe([...values][0]);
      else expect(() => standardRegain(fibre), fibre).toThrow(/ is left out; /);
    }
  });

  test("whatever the form, an answer is one that every schedule with the fibre gives or could give", () => {
    for (const [fibre] of FIBRES) {
      for (const [form] of FIBRE_FORMS) {
        let answer: number;
        try {
          answer = standardRegain(fibre, form);
        } catch {
          continue;
        }
        const schedules = new Set(readRows(fibre).map(({ schedule }) => schedule));
        for (const schedule of schedules)
          expect(standardRegain(fibre, form, schedule), `${fibre} ${form}`).toBe(answer);
      }
    }
  });
});
