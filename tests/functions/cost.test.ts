import { describe, expect, test } from "vitest";
import { CellError } from "../../src/recalculate/engine";
import { messageOf, sheet, sourceFunctions } from "../support/functions";

const cells = (formula: string): unknown => {
  const plain = (value: unknown): unknown => (value instanceof CellError ? value.code : value);
  const outcome = sheet(formula);
  return Array.isArray(outcome) ? outcome.map((row) => row.map(plain)) : plain(outcome);
};
const routeCost = (stages: string, more = ""): string => `=YARN.ROUTECOST(100,{${stages}},"made",10${more})`;

describe("refusals of the charges name the row and what is missing", () => {
  test.each([
    ["=YARN.TIERED(10,{0;50;50},{3;2;1})", "#VALUE! breaks item 3 is 50; must be above item 2, which is 50"],
    ["=YARN.TIERED(10,{5;50},{3;2})", "#VALUE! breaks item 1 is 5; the first break must be 0"],
    ["=YARN.TIERED(10,{0;50},{3;2;1})", "#VALUE! breaks item 3 is missing; give one break for each of the 3 rates"],
    ['=YARN.TIERED(10,{0;50;100},{3;"";1})', "#VALUE! rates item 2 is blank; fill it in; a blank is not 0"],
    ['=YARN.TIERED(10,{0;50;100},{3;2;""})', "#VALUE! rates item 3 is missing; give one rate for each of the 3 breaks"],
    ['=YARN.TIERED(10,0,3,"slab")', '#VALUE! mode is "slab", not a mode; write all units, incremental or next break'],
    ["=YARN.TIERED(-1,0,3)", "#VALUE! quantity is -1; must be a number, 0 or more"],
    ["=YARN.CHARGE(10,1,,,,,15)", "#VALUE! surcharge is 15; write 15% or 0.15"],
    ["=YARN.CHARGE(10,1,,0)", "#VALUE! lot_size is 0; must be a number above 0"],
    ["=YARN.APPORTION(10,{1;-1})", "#DIV/0! weights is 0 in all; must not sum to 0"],
    ['=YARN.APPORTION(10,{1;"";2})', "#VALUE! weights item 2 is blank"],
    ['=YARN.APPORTION("ten",{1;2})', '#VALUE! total is text "ten"'],
    ["=YARN.APPORTION({1;2},{1;2})", "#VALUE! total is 2×1 cells; must be a single cell"],
    ["=YARN.APPORTION(1E+20,{1;2})", "#NUM! the amount is 100000000000000000000"],
    ["=YARN.ROUNDCASH(1,0.5)", "#VALUE! decimals is 0.5; must be a whole number from -15 to 15"],
    ['=YARN.ROUNDCASH(1,2,"even")', '#VALUE! mode is "even", not a mode; write half away, half even, up or down'],
    [
      routeCost('"a",0.1,0,0,0,"per in",1;"b",0.1,0,0,0,"per in",""'),
      "#VALUE! stages row 2, rate, is blank; basis is per in; give a rate, or leave both blank",
    ],
    [
      routeCost('"a",0.1,0,0,0,"per in",1;"b",0.1,0,0,0,"",2'),
      "#VALUE! stages row 2, basis, is blank; rate is 2; give a basis, or leave both blank",
    ],
    [
      routeCost('"a",0.1,0,0,0,"per kg",1'),
      '#VALUE! stages row 1, basis, is "per kg", of several meanings; write per in or per out',
    ],
    [
      routeCost('"a",0.1,0,0,0,"per skein",1'),
      "#VALUE! skein_mass is blank; stages row 1 is charged per skein; give it",
    ],
    [routeCost('"a",0.1,0,0,0,"per hour",1'), "#VALUE! stages row 1, hours, is blank; basis is per hour; give them"],
    [
      routeCost('"a",0.1,0,0,0,"percent",5'),
      "#VALUE! stages row 1, rate, is 5; of basis percent must be below 1; write 5% or 0.05",
    ],
    [
      routeCost('"a",0.1,0,0.05,"","per in",1'),
      "#VALUE! stages row 1, by product price, is blank; give what a unit of its mass brings, or 0",
    ],
    [routeCost('"a",0.1,0,0,0,"per in",-1'), "#VALUE! stages row 1, rate, is -1"],
    ['=YARN.ROUTECOST(100,{"a",0.1,0},"made","")', "#VALUE! start_price is blank; must be given"],
  ])("%s: %s", (formula, message) => {
    expect(messageOf(formula)).toContain(message);
    expect(messageOf(formula).replace(/^\S+ /, "").length).toBeLessThanOrEqual(120);
  });
});

describe("a column stays readable", () => {
  test("blanks and bad rows stay alone", () => {
    expect(cells('=YARN.TIERED({10;"";-1;"x"},{0;50},{3;2})')).toEqual([[30], [""], ["#VALUE!"], ["#VALUE!"]]);
    expect(cells('=YARN.CHARGE({10;20},{1;""},5)')).toEqual([[10], [""]]);
    expect(cells("=YARN.ROUNDCASH({1.005;#N/A},2)")).toEqual([[1.01], ["#N/A"]]);
  });

  test("modes and options broadcast, and their blanks are the defaults", () => {
    expect(cells('=YARN.TIERED(49,{0;50},{8;6.5},{"all units","incremental","next break",""})')).toEqual([
      [392, 392, 325, 392],
    ]);
    expect(cells('=YARN.CHARGE(100,1,{"";250})')).toEqual([[100], [250]]);
    expect(cells("=YARN.CHARGE(100,1,,,25)")).toBe(125);
  });

  test("shapes that do not match are named", () => {
    expect(messageOf("=YARN.CHARGE({1;2;3},{1;2})")).toBe(
      "#VALUE! rate is 2×1; must be one cell or match quantity, which is 3×1",
    );
  });

  test("the parts have the shape of the weights, with blanks after the last left blank", () => {
    expect(cells("=YARN.APPORTION(10,{1,1})")).toEqual([[5, 5]]);
    expect(cells('=YARN.APPORTION(10,{1;1;""})')).toEqual([[5], [5], [""]]);
    expect(cells("=YARN.APPORTION(10,{1,2;3,4},0)")).toEqual([
      [1, 2],
      [3, 4],
    ]);
    expect(cells("=YARN.APPORTION(10,7)")).toBe(10);
  });

  test("nothing shows as minus zero", () => {
    const [[part]] = sourceFunctions.get("APPORTION")?.([[-0.001]], [[1]], null) as [[number]];
    const [[rounded]] = sourceFunctions.get("ROUNDCASH")?.([[-0.001]], [[2]]) as [[number]];
    expect([part, rounded]).toEqual([0, 0]);
  });
});

describe("cost through the route", () => {
  const column = (formula: string, place: number): unknown[] =>
    (sheet(formula) as unknown[][]).map((row) => row[place]);

  test("without an actual output the table is a row for the start and one a stage", () => {
    const table = sheet(routeCost('"a",0.1,0,0,0,"per in",1;"b",0,0,0,0,"per lot",30')) as unknown[][];
    expect(table).toEqual([
      [
        "stage",
        "mass in (unit of quantity)",
        "mass out (unit of quantity)",
        "charge (money)",
        "by-product credit (money)",
        "cost so far (money)",
        "cost per unit out (money)",
      ],
      ["start", 100, 100, 1000, 0, 1000, 10],
      ["a", 100, 90, 100, 0, 1100, 1100 / 90],
      ["b", 90, 90, 30, 0, 1130, 1130 / 90],
    ]);
  });

  test("a minimum, a fixed charge and a stage without a rate", () => {
    const [a, b] = ['"a",0,0,0,0,"per in",1,250,5', '"b",0,0,0,0,"","","",12'];
    const [c, d] = ['"c",0,0,"","","","","",""', '"d",0,0,0,0,"","",40,2'];
    expect(column(routeCost([a, b, c, d].join(";")), 3).slice(2)).toEqual([255, 12, 0, 42]);
  });

  test("desktop Excel hands blank cells over as 0: a blank basis, rate, actual output and hours still are blank", () => {
    const full = '"a",0.1,0,0,0,"per in",1,0,0,0,0;"b",0.1,0,0,0,0,0,0,7,0,0';
    const blanks = '"a",0.1,0,"","","per in",1,"","","","";"b",0.1,0,"","","","","",7,"",""';
    expect(sheet(routeCost(full))).toEqual(sheet(routeCost(blanks)));
    expect((sheet(routeCost(full)) as unknown[]).length).toBe(4);
  });

  test("a normal loss leaves all the cost on what comes out, an abnormal one takes its cost with it", () => {
    // 100 at 10.00 with a normal loss of 10 %: 1000/90 a unit; of the 90 expected, 81 came out.
    const table = sheet(routeCost('"a",0.1,0,0,0,"","",0,0,81;"b",0,0,0,0,"per in",1,0,0,""')) as unknown[][];
    expect(table[2]?.slice(0, 6)).toEqual(["a", 100, 90, 0, 0, 1000]);
    expect(table[3]?.slice(0, 6)).toEqual(["a: abnormal loss", 90, 81, -100, 0, 900]);
    expect(table[4]?.slice(0, 6)).toEqual(["b", 81, 81, 81, 0, 981]);
  });

  test("a rate per unit out and per skein is billed on what was handed over", () => {
    expect(column(routeCost('"a",0,0,0,0,"per out",2,0,0,80'), 3)[2]).toBe(160);
    expect(column(routeCost('"a",0,0,0,0,"per skein",2,0,0,80', ",,0.3"), 3)[2]).toBe(532);
  });

  test("an actual output as expected leaves nothing, whatever the division before it", () => {
    const line = (sheet('=YARN.ROUTECOST(100,{"a",0.07,0.1825,0,0,"","",0,0,100},"needed",3,0.11)') as unknown[][])[3];
    expect(line?.slice(0, 4)).toEqual(["a: abnormal loss", 100, 100, 0]);
  });

  test("whole skeins only: 100 of a mass of 0.1 in 10, none begun", () => {
    const stages = '"a",0,0,0,0,"per skein",1';
    expect(column(`=YARN.ROUTECOST(10,{${stages}},"made",0,,0.1)`, 3)[2]).toBe(100);
    expect(column(`=YARN.ROUTECOST(10.19,{${stages}},"made",0,,0.1)`, 3)[2]).toBe(101);
  });
});

describe("QUOTES and COSTSPREAD", () => {
  test("take their tables as people have them: headings, blanks, other columns, names in the place of stages", () => {
    const quoted = sheet(
      '=YARN.QUOTES(100,{"Contractor","Rate","Basis","town","Loss (%)";"Mill A",2,"per in","x","";"","","","","";"Mill B",1.5,"per out","y",0},4)',
    ) as unknown[][];
    expect(quoted.map(([name, , , charge]) => [name, charge])).toEqual([
      ["name", "charge (money)"],
      ["Mill B", 150],
      ["Mill A", 200],
    ]);
    const known = sheet(
      '=YARN.COSTSPREAD(100,{"stage","loss","regain out","basis","rate";"spin",0.1,0,"per in",2},{"stage","rate";"spin",0.18},"made",7)',
    ) as unknown[][];
    expect(known.map(([input, low]) => [input, low])).toEqual([
      ["input", "low (money)"],
      ["cost per unit out", 9.8],
      ["spin: rate", 9.8],
    ]);
  });

  test("refuse what a person gets wrong, with the row", () => {
    for (const [formula, message] of [
      ['QUOTES(100,{"A","per in",2,0,0,"",0,5,""},10)', "quotes row 1, loss, is 5; write 5% or 0.05"],
      ['QUOTES(100,{"A","per kg"},10)', "quotes is 2 columns wide"],
      ['QUOTES(100,{"name","basis","rate";"A","per kg",2},10)', 'quotes row 2, basis, is "per kg"'],
      ['QUOTES(0,{"name","basis","rate";"A","per in",2},10)', "quantity is 0; must be a number above 0"],
      ['COSTSPREAD(100,{"spin",0.1,0,0,"","",""},{"card",0.1},"made",7)', 'spreads row 1, stage, is "card"'],
      ['COSTSPREAD(100,{"spin",0.1,0,0,"","",""},{"spin",5},"made",7)', "spreads row 1, loss, is 5; write 5% or 0.05"],
    ] as const) {
      expect(messageOf(`=YARN.${formula}`)).toContain(message);
    }
  });
});
