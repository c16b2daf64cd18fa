import { describe, expect, test } from "vitest";
import { documentedFunctions } from "../../src/documentation/docblocks.mjs";
import { CellError } from "../../src/recalculate/engine";
import { COUNT_SYSTEMS } from "../../src/tables/count-systems";
import { messageOf, sheet, sourceFunctions } from "../support/functions";

/** Codes in place of errors, for comparing shapes. */
function codes(outcome: unknown): unknown {
  if (outcome instanceof CellError) return outcome.code;
  return Array.isArray(outcome) ? outcome.map(codes) : outcome;
}

const called = (id: string, ...cells: unknown[]) => (sourceFunctions.get(id) as (...c: unknown[]) => unknown)(...cells);

describe("messages", () => {
  test.each([
    ['=YARN.COUNT(0,"Nm","tex")', "#VALUE! value is 0; must be a number above 0"],
    ['=YARN.COUNT(-3,"Nm","tex")', "#VALUE! value is -3; must be a number above 0"],
    [
      '=YARN.COUNT("28","Nm","tex")',
      '#VALUE! value is text "28"; must be a number above 0; NUMBERVALUE(…,".",",") makes it one',
    ],
    ['=YARN.COUNT(30,"Ne","tex")', '#VALUE! from is "Ne", of several meanings; write NeC (cotton) or NeW (worsted)'],
    ['=YARN.COUNT(30,"Alloa","tex")', '#VALUE! from is "Alloa", of several meanings; write AlloaA or AlloaB'],
    [
      '=YARN.COUNT(30,"Nm","spyndle")',
      '#VALUE! to is "spyndle", of several meanings; write lb/14400yd (jute) or lb/11520yd',
    ],
    ['=YARN.COUNT(30,"Nm","worstd")', '#VALUE! to is "worstd", not a count system; the nearest is NeW'],
    [
      '=YARN.COUNT(30,"Nm","Wx")',
      '#VALUE! to is "Wx", not a count system; write Nm, NeC, NeW, tex, dtex, den, YSW, run or another',
    ],
    [
      '=YARN.COUNT(30,"Nm","m/200g")',
      '#VALUE! to is "m/200g", not a count system; write Nm, NeC, NeW, tex, dtex, den, YSW, run or another',
    ],
    [
      '=YARN.COUNT(30,"Nm","wollen")',
      '#VALUE! to is "wollen", not a count system; write Nm, NeC, NeW, tex, dtex, den, YSW, run or another',
    ],
    [
      '=YARN.COUNT({1;2},{"Nm";"tex";"den"},"tex")',
      "#VALUE! value is 2×1; must be one cell or match from, which is 3×1",
    ],
    [
      '=YARN.PLYCOUNT(28,2,"Nm",18.25)',
      "#VALUE! takeup is 18.25; write 18.25% or 0.1825; must be -0.4 to 0.4 (40%); 0.5% is 0.005",
    ],
    ['=YARN.PLYCOUNT(28,2.5,"Nm")', "#VALUE! plies is 2.5; must be a whole number from 1 to 12, as yarns are plied"],
    ['=YARN.PLYCOUNT(28,2,"Nm",0.02,"length")', '#VALUE! basis is "length", not a basis; write initial or final'],
    ['=YARN.SINGLECOUNT(14,0,"Nm")', "#VALUE! plies is 0; must be a whole number from 1 to 12, as yarns are plied"],
    ['=YARN.FOLD({60,"",40},"NeC")', "#VALUE! counts item 2 is blank; fill it in; a blank is not 0"],
    ['=YARN.FOLD({60;40},"NeC",,{1;1;1})', "#VALUE! feeds is 3 items long; must match counts, which has 2"],
    ['=YARN.FOLD({60;40},{"NeC";"NeW"})', "#VALUE! system is 2×1 cells; must be a single cell"],
    ['=YARN.FOLDSHARES({60;-1},"NeC")', "#VALUE! counts item 2 is -1; must be a number above 0"],
    ['=YARN.FOLDMISSING(16,{48;24},"NeW")', "#N/A resultant is 16; the counts alone fold to 16: nothing is missing"],
    ['=YARN.FOLDMISSING(30,{48;24},"NeW")', "#N/A resultant is 30; the counts alone fold to 16: nothing is missing"],
    ['=YARN.YARNLENGTH(-1,"g",14,"Nm","m")', "#VALUE! mass is -1; must be a number, 0 or more"],
    [
      '=YARN.YARNLENGTH(1,"stone",14,"Nm","m")',
      '#VALUE! mass_unit is "stone", not a unit of mass; write g, mg, kg, t, gr, dram, oz or lb',
    ],
    [
      '=YARN.YARNMASS(1,"m",14,"Nm","m")',
      '#VALUE! mass_unit is "m", not a unit of mass; write g, mg, kg, t, gr, dram, oz or lb',
    ],
    ['=YARN.SKEINCOUNT(100,"m",3,"g","tex",0.12)', "#VALUE! regain_standard is left out; give both regains or neither"],
    [
      '=YARN.SKEINCOUNT(100,"m",3,"g","tex",12,0.1825)',
      "#VALUE! regain_now is 12; write 12% or 0.12; must be 0 to 1 (0% to 100%)",
    ],
    [
      '=YARN.DIAMETER(30,"tex",0)',
      "#VALUE! specific_volume is 0; must be 0.5 to 20 cm³/g, 1 over the density in g/cm³",
    ],
    [
      '=YARN.WASHED(14,"Nm",5)',
      "#VALUE! length_shrink is 5; write 5% or 0.05; must be -0.4 to 0.4 (40%); 0.5% is 0.005",
    ],
    [
      '=YARN.DESIGNATION("8/8 Nm","plies")',
      '#VALUE! text is "8/8 Nm", where each number can be the ply; give order "ply/count" or "count/ply"',
    ],
    [
      '=YARN.DESIGNATION("2/30","plies")',
      '#VALUE! text is "2/30", which stops too early; add the count system, as in 2/30 Nm',
    ],
    [
      '=YARN.DESIGNATION(45993,"plies")',
      "#VALUE! text is 45993, the date 2025-12-02; format the cell as text and type the ply again",
    ],
    [
      '=YARN.DESIGNATION("2/30 Ne","plies")',
      '#VALUE! text is "Ne", of several meanings; write NeC (cotton) or NeW (worsted)',
    ],
    [
      '=YARN.DESIGNATION("2/60 silk","plies")',
      '#VALUE! text is "silk", of several meanings; write NeC (spun silk), den or dram/1000yd (thrown silk)',
    ],
    [
      '=YARN.DESIGNATION("1,200 tex","single")',
      '#VALUE! text is "1,200 tex", where 1,200 can be two numbers; write 1.2 or 1200',
    ],
    ['=YARN.DESIGNATION("30 tex","direction single")', '#N/A part is "direction single"; "30 tex" does not state it'],
    ['=YARN.DESIGNATION("30 tex","twist single")', '#N/A part is "twist single"; "30 tex" does not state it'],
    ["=YARN.DESIGNATE(34,2,600)", "#VALUE! direction_single is left out beside a twist of 600; write S or Z"],
    ['=YARN.DESIGNATE(34,2,600,"t0")', "#VALUE! direction_single is t0 beside a twist of 600; write S or Z"],
    ['=YARN.DESIGNATE(34,1,600,"S",400,"Z")', "#VALUE! plies is 1; a single yarn has no ply twist; leave it out"],
  ])("%s", (formula, message) => {
    expect(messageOf(formula)).toBe(message);
  });
});

describe("columns", () => {
  test.each([
    // A blank row stays blank, a bad row is bad alone, an error passes through.
    ['=YARN.COUNT({28;"";"x";-1},"Nm","m/kg")', [[28000], [""], ["#VALUE!"], ["#VALUE!"]]],
    ['=YARN.COUNT(1/{0;1},"Nm","m/kg")', [["#DIV/0!"], [1000]]],
    ['=YARN.COUNT({1,2},"Nm",{"m/kg","m/100g"})', [[1000, 200]]],
    [
      '=YARN.COUNT({1,2;3,4},"Nm","m/kg")',
      [
        [1000, 2000],
        [3000, 4000],
      ],
    ],
    ['=YARN.COUNT(12," NM ","M/KG")', 12000],
    ['=YARN.PLYCOUNT({28;"";30},{2;2;"two"},"Nm")', [[14], [""], ["#VALUE!"]]],
    ['=YARN.PLYCOUNT(50,2,"tex",{"";0.2},{"final";""})', [[100], [125]]],
    ['=YARN.FOLDSHARES({30,90},"tex")', [[0.25, 0.75]]],
    ['=YARN.FOLDSHARES({30;90;"";""},"tex")', [[0.25], [0.75], [""], [""]]],
    ['=YARN.FOLD({30;90;""},"tex")', 120],
    ['=YARN.FOLD(1/{0;1},"tex")', "#DIV/0!"],
    ['=YARN.FOLDMISSING({150;"";100},{30;90},"tex")', [[30], [""], ["#N/A"]]],
    ['=YARN.YARNLENGTH({1;"";0},"kg",10,"Nm",{"m";"m";"km"})', [[10000], [""], [0]]],
    ['=YARN.WASHED({76;80},"tex",{0.05;5})', [[80], ["#VALUE!"]]],
    ['=YARN.DESIGNATION({"2/50 Nm";"";"8/8 Nm";"50 tex"},"resultant")', [[40], [""], ["#VALUE!"], [50]]],
    ['=YARN.DESIGNATION({"8/50 Nm";"8/5 Nm"},"plies",{"";"ply/count"})', [[8], [8]]],
    ['=YARN.DESIGNATE({30;"";34},{1;1;2})', [["30 tex"], [""], ["34 tex x 2"]]],
    ['=YARN.SKEINCOUNT({100;100},"m",{3;""},"g","tex")', [[30], [""]]],
  ])("%s", (formula, wanted) => {
    expect(codes(sheet(formula))).toEqual(wanted);
  });

  test("left out, null and undefined are one", () => {
    const full = called("DESIGNATE", [[34]], [[2]]);
    expect(called("DESIGNATE", [[34]], [[2]], null, null, null, null, null)).toEqual(full);
    expect(called("DESIGNATE", [[34]], [[2]], undefined, undefined, [[null]], [[""]], undefined)).toEqual(full);
    // A blank twist can arrive as 0 on the desktop.
    expect(called("DESIGNATE", [[34]], [[2]], [[0]], null, [[0]], null)).toEqual(full);
  });
});

describe("what the documentation promises", () => {
  test("COUNTSYSTEMS has one row a system under its header, and names every source of the table", () => {
    const rows = sheet("=YARN.COUNTSYSTEMS()") as unknown[][];
    expect(rows.length).toBe(COUNT_SYSTEMS.length + 1);
    const described = documentedFunctions().find(({ id }) => id === "COUNTSYSTEMS");
    const used = [...new Set(COUNT_SYSTEMS.map(({ source }) => source))];
    expect([...(described?.sources ?? [])].sort()).toEqual(used.sort());
  });

  test("COUNT knows every word and every further spelling that COUNTSYSTEMS lists", () => {
    const rows = (sheet("=YARN.COUNTSYSTEMS()") as string[][]).slice(1);
    for (const [word, , , , , further] of rows) {
      for (const spelling of (further as string).split(", ").filter(Boolean)) {
        expect(sheet(`=YARN.COUNT(7,"${spelling}","${word as string}")`)).toBe(7);
      }
      expect(sheet(`=YARN.COUNT(7,"${word as string}","${word as string}")`)).toBe(7);
    }
  });

  test("functions that rest on memory say so", () => {
    for (const { id, family, sources, remarks, description } of documentedFunctions()) {
      if (family === "count" && sources.includes("MEMORY")) {
        expect([id, `${description} ${remarks}`.includes("from memory, verify before use")]).toEqual([id, true]);
      }
    }
  });

  test("DESIGNATION reads what DESIGNATE writes, in the sheet", () => {
    const written = 'YARN.DESIGNATE(20,2,700,"Z",400,"S",41.5)';
    for (const [part, wanted] of [
      ["single", 20],
      ["resultant", 41.5],
      ["plies", 2],
      ["twist single", 700],
      ["direction single", "Z"],
      ["twist ply", 400],
      ["direction ply", "S"],
    ] as const) {
      expect(sheet(`=YARN.DESIGNATION(${written},"${part}")`)).toBe(wanted);
    }
  });
});
