import { describe, expect, test } from "vitest";
import { CellError } from "../../src/recalculate/engine";
import { messageOf, sheet } from "../support/functions";

const cells = (formula: string): unknown => {
  const plain = (value: unknown): unknown => (value instanceof CellError ? value.code : value);
  const outcome = sheet(formula);
  return Array.isArray(outcome) ? outcome.map((row) => row.map(plain)) : plain(outcome);
};
const LINES = "{1000,50,0.2,500;2000,30,0.1,300}";
const RATES = '{45000,"EUR","USD",1.25;45010,"EUR","USD",1.28}';

describe("refusals name the row and what is missing", () => {
  test.each([
    [
      `=YARN.LANDED(${LINES},{100,"value";55,""})`,
      "#VALUE! charges row 2, basis, is blank; fill it in; a blank is not 0",
    ],
    [`=YARN.LANDED(${LINES},{100,"value";"","mass"})`, "#VALUE! charges row 2, amount, is blank"],
    [
      `=YARN.LANDED(${LINES},{100,"price"})`,
      '#VALUE! charges row 1, basis, is "price", not a basis; write value, mass',
    ],
    [`=YARN.LANDED(${LINES},{100,0})`, "#VALUE! charges row 1, basis, is 0"],
    [
      '=YARN.LANDED({1000,50,0.2,500;2000,"",0.1,300},{100,"value";5,"mass"})',
      "#VALUE! lines row 2, mass, is blank; charges row 2 is shared by mass",
    ],
    ['=YARN.LANDED({1000,50,0.2,500;"",30,0.1,300},{100,"mass"})', "#VALUE! lines row 2, value, is blank"],
    ['=YARN.LANDED({1000,0,0,5;2000,0,0,3},{100,"value";5,"mass"})', "#DIV/0! charges row 2, basis mass, is 0 in all"],
    [
      "=YARN.DUTY(1000,0,5)",
      "#VALUE! ad_valorem is 5; write 5% or 0.05; must be at most 1 (100%); a higher duty is two lines",
    ],
    ['=YARN.DUTY(1000,10,0.05,,"lower")', '#VALUE! specific is blank; rule "lower" compares two duties; give it'],
    ['=YARN.DUTY(1000,10,0.05,1,"both")', '#VALUE! rule is "both", not a rule; write sum, higher or lower'],
    ["=YARN.FEE(1000,0.035,50,40)", "#VALUE! maximum is 40; must not be below minimum, which is 50"],
    ["=YARN.FEE(1000,1)", "#VALUE! rate is 1; write 1% or 0.01"],
    ["=YARN.FEE(1000,0.1,0,0)", "#VALUE! maximum is 0; must be a number above 0"],
    [
      "=YARN.CHARGEABLE(10,1,0)",
      "#VALUE! kg_per_m3 is 0; must be 50 to 1000 kg/m³; 6000 is cm³ a kg: write 1000000/6000",
    ],
    ["=YARN.CHARGEABLE(10,-1)", "#VALUE! volume_m3 is -1; must be a number, 0 or more"],
    ["=YARN.INSURANCE(1000,0.005,10)", "#VALUE! uplift is 10; write 10% or 0.1"],
    [
      "=YARN.DUTY(1000,0,1.2)",
      "#VALUE! ad_valorem is 1.2; write 1.2% or 0.012; must be at most 1 (100%); a higher duty is two lines",
    ],
    ["=YARN.FEE(10000,0.3464)", "#VALUE! rate is 0.3464; write 0.3464% or 0.003464; must be at most 0.1 (10%)"],
    ["=YARN.INSURANCE(1000,0.5)", "#VALUE! rate is 0.5; write 0.5% or 0.005; must be at most 0.1 (10%)"],
    [
      "=YARN.CHARGEABLE(150,1.4,6000)",
      "#VALUE! kg_per_m3 is 6000; must be 50 to 1000 kg/m³; 6000 is cm³ a kg: write 1000000/6000",
    ],
    [
      '=YARN.LANDED({100,5;-20,1},{10,"value"})',
      "#VALUE! lines row 2, value, is -20; a return bears no share of a charge; leave the line out",
    ],
    [
      '=YARN.LANDED({100,5;50,0.2},{10,"volume"})',
      "#VALUE! lines row 1, volume, is blank; charges row 1 is shared by volume",
    ],
    ['=YARN.INSURANCE(1000,0.005,0.1,"yes")', '#VALUE! circular is text "yes"; must be TRUE or FALSE'],
    [
      `=YARN.EXCHANGE(1,"EUR","USD",44999,${RATES})`,
      "#N/A date is 2023-03-14, before the first rate from EUR to USD; rates has one from 2023-03-15 on",
    ],
    [`=YARN.EXCHANGE(1,"EUR","CHF",45000,${RATES})`, '#N/A to is "CHF"; rates has no such currency; it has EUR, USD'],
    [
      '=YARN.EXCHANGE(1,"EUR","USD",45000,{45000,"EUR","USD",1.25;45000,"EUR","USD",1.28})',
      "#VALUE! rates row 2, date, is 2023-03-15, as in row 1 for EUR to USD; give one rate a date",
    ],
    [`=YARN.EXCHANGE(1,"EUR","USD",20240301,${RATES})`, "#VALUE! date is 20240301; write DATE(2024,3,1)"],
    [
      `=YARN.EXCHANGE(1,"EUR","USD",2958466,${RATES})`,
      "#VALUE! date is 2958466; must be a date, a whole number from 1 to 2958465",
    ],
    [`=YARN.EXCHANGE(1,"EUR","USD",45000.5,${RATES})`, "#VALUE! date is 45000.5; must be a date, a whole number"],
    [`=YARN.EXCHANGE(1,"CFH","CFH",45000,${RATES})`, '#N/A from is "CFH"; rates has no such currency'],
    [`=YARN.EXCHANGE(1,"EUR","USD",47000,${RATES},30)`, "#N/A max_age is 30; the rate from EUR to USD is of 2023-03-"],
    [
      `=YARN.EXCHANGE(1,"EUR","USD",45000,${RATES},-1)`,
      "#VALUE! max_age is -1; must be a whole number of days, 0 or more",
    ],
    [
      '=YARN.EXCHANGE(1,"EUR","USD",45000,{45000,"EUR","USD",0})',
      "#VALUE! rates row 1, rate, is 0; must be a number above 0",
    ],
    [
      '=YARN.EXCHANGE(1,"EUR","USD",45000,{45000,"EUR","USD",1;"","EUR","USD",1})',
      "#VALUE! rates row 2, date, is blank",
    ],
    [
      '=YARN.EXCHANGE(1,"EUR","USD",45000,{"1 May","EUR","USD",1})',
      '#VALUE! rates row 1, date, is text "1 May"; must be a date',
    ],
  ])("%s: %s", (formula, message) => {
    expect(messageOf(formula)).toContain(message);
    expect(messageOf(formula).replace(/^\S+ /, "").length).toBeLessThanOrEqual(120);
  });
});

describe("a column stays readable", () => {
  test("blanks and bad rows stay alone", () => {
    expect(cells('=YARN.DUTY({1000;"";-1},0,{0.05;0.05;0.05})')).toEqual([[50], [""], ["#VALUE!"]]);
    expect(cells('=YARN.FEE({1000;#N/A;"x"},0.01)')).toEqual([[10], ["#N/A"], ["#VALUE!"]]);
    expect(cells(`=YARN.EXCHANGE({100;"";100},"EUR","USD",{45000;45000;44000},${RATES})`)).toEqual([
      [125],
      [""],
      ["#N/A"],
    ]);
    expect(cells(`=YARN.EXCHANGE(100,{"EUR";"CHF"},"USD",45000,${RATES})`)).toEqual([[125], ["#N/A"]]);
  });

  test("options broadcast, and their blanks are the defaults", () => {
    expect(cells('=YARN.CHARGEABLE(10,0.6,{167;1000;""})')).toEqual([[100.2], [600], [100]]);
    expect(cells('=YARN.INSURANCE(1000,0.01,{0;"";0.2})')).toEqual([[10], [11], [12]]);
    expect(cells("=YARN.FEE({1;100},0.1,5,8)")).toEqual([[5], [8]]);
  });

  test("shapes that do not match are named", () => {
    expect(messageOf("=YARN.DUTY({1;2;3},{1;2},0.05)")).toBe(
      "#VALUE! quantity is 2×1; must be one cell or match value, which is 3×1",
    );
  });
});

describe("landed cost table", () => {
  test("a measure that no charge follows may be blank, in a cell or a column", () => {
    expect(cells('=YARN.LANDED({10,"","",4;20,"","",6},{3,"value"})')).toEqual(
      cells('=YARN.LANDED({10,1,1,4;20,1,1,6},{3,"value"})'),
    );
    expect(cells('=YARN.LANDED({10;20},{3,"value"})')).toEqual([
      [
        "value (money)",
        "charge 1 by value (money)",
        "landed total (money)",
        "quantity (unit of quantity)",
        "landed per unit (money)",
      ],
      [10, 1, 11, "", ""],
      [20, 2, 22, "", ""],
      [30, 3, 33, "", ""],
    ]);
  });

  test("a line of quantity 0 has no cost per unit, and the rest stands", () => {
    expect(cells('=YARN.LANDED({10,1,1,0;20,1,1,6},{3,"value"})')).toEqual([
      [
        "value (money)",
        "charge 1 by value (money)",
        "landed total (money)",
        "quantity (unit of quantity)",
        "landed per unit (money)",
      ],
      [10, 1, 11, 0, "#DIV/0!"],
      [20, 2, 22, 6, 22 / 6],
      [30, 3, 33, 6, 5.5],
    ]);
  });

  test("a cost per unit beyond what a cell holds is an error in its own cell", () => {
    const [, tiny, other] = cells('=YARN.LANDED({1000,50,0.2,1E-310;2000,30,0.1,300},{100,"value"})') as unknown[][];
    expect(tiny).toEqual([1000, 33.33, 1033.33, 1e-310, "#NUM!"]);
    expect(other?.slice(0, 4)).toEqual([2000, 66.67, 2066.67, 300]);
  });

  test("decimals are those of the money: none for a currency without cents; a rebate is a negative charge", () => {
    const charges = (formula: string): unknown[] => (sheet(formula) as unknown[][]).map((row) => row[1]).slice(1);
    expect(charges('=YARN.LANDED({1,1,1,1;1,1,1,1;1,1,1,1},{100,"equal"},0)')).toEqual([34, 33, 33, 100]);
    expect(charges('=YARN.LANDED({1,1,1,1;1,1,1,1;1,1,1,1},{-100,"equal"})')).toEqual([-33.34, -33.33, -33.33, -100]);
  });
});

describe("LANDED with charges of a line's own", () => {
  const lines = '{"name","value","mass","duty","claim";"A",1000,50,80,"";"","","","","";"B",2000,30,0,-12.505}';

  test("each is a column that foots, and names of charges and lines come back", () => {
    expect(sheet(`=YARN.LANDED(${lines},{"freight",100,"mass";"duty","","own";"claim","","own"})`)).toEqual([
      [
        "line",
        "value (money)",
        "freight by mass (money)",
        "duty (money)",
        "claim (money)",
        "landed total (money)",
        "quantity (unit of quantity)",
        "landed per unit (money)",
      ],
      ["A", 1000, 62.5, 80, 0, 1142.5, "", ""],
      ["", "", "", "", "", "", "", ""],
      ["B", 2000, 37.5, 0, -12.51, 2024.99, "", ""],
      ["total", 3000, 100, 80, -12.51, 3167.49, "", ""],
    ]);
  });

  test("refuses a column that is not there or is named twice, an amount that the column does not make, and a text", () => {
    const message = (charges: string, own = lines): string => messageOf(`=YARN.LANDED(${own},${charges})`);
    expect(message('{"dutty","own"}')).toContain('without a column of charges "dutty"; charges row 1 is own');
    expect(message('{"mass","own"}')).toContain('without a column of charges "mass"');
    expect(message('{"duty","own"}', "{1000,50;2000,30}")).toContain('without a column of charges "duty"');
    expect(message('{"duty","own";"duty","own"}')).toContain('charges row 2 is "duty" again');
    expect(message('{"duty",90,"own"}')).toContain("charges row 1, amount, is 90; the lines' own come to 80");
    expect(message('{100,"own"}')).toContain("charges row 1 is own; give the heading of its column");
    expect(message('{"100","value"}')).toContain('charges row 1, amount, is text "100"; must be a number');
    expect(message('{"","value"}')).toContain("charges row 1, amount, is blank");
  });
});

test("amounts of charges may stand under the currency alone, beside what the charges are called", () => {
  const under = (headings: string) =>
    cells(`=YARN.LANDED(${LINES},{${headings};"freight",90,"mass";"duty",60,"value"})`);
  const wanted = under('"name","amount","basis"');
  expect((wanted as unknown[][])[0]).toContain("freight by mass (money)");
  for (const money of ["EUR", "USD", "GBP", "CHF", "€", "$", "£"]) {
    expect(under(`"Charge","${money}","By"`)).toEqual(wanted);
  }
});

test("a charge is shared by what a bill of freight or a packing list calls it", () => {
  const shared = (basis: string) => cells(`=DROP(YARN.LANDED(${LINES},{100,"${basis}"}),1)`);
  const said: Readonly<Record<string, readonly string[]>> = {
    value: ["by value", "invoice value"],
    mass: ["weight", "by mass", "By Weight", "kg", "per kg"],
    volume: ["by volume", "cbm", "m3", "m³"],
    quantity: ["qty", "by quantity", "pieces", "pcs", "skeins", "per skein"],
    equal: ["equally", "per line"],
  };
  for (const [basis, words] of Object.entries(said))
    for (const word of words) expect(shared(word)).toEqual(shared(basis));
  expect(shared("weight")).not.toEqual(shared("value"));
});
