import type { Worksheet } from "@cj-tech-master/excelts";
import { SampleBook, type Entry, type Format, type InputLine } from "./kit";

/** Invented tests of an invented yarn: test skein, twist, skein for sale as weighed, regain when it was weighed. */
const FIRST_LOT: readonly (readonly number[])[] = [
  [15.71, 186, 98.3, 0.154],
  [15.93, 193, 97.8, 0.155],
  [15.8, 189, 98.6, 0.155],
  [15.88, 195, 98.2, 0.156],
  [15.76, 184, 98.9, 0.155],
  [15.97, 191, 97.9, 0.154],
  [15.69, 188, 98.4, 0.153],
  [15.85, 197, 98.5, 0.155],
  [15.79, 190, 98.1, 0.155],
  [15.91, 187, 98.7, 0.156],
  [15.83, 192, 98, 0.154],
  [15.74, 189, 98.3, 0.155],
];
const SECOND_LOT: readonly (readonly number[])[] = [
  [16.12, 178, 97.1, 0.157],
  [16.05, 196, 96.4, 0.156],
  [16.31, 173, 97.5, 0.158],
  [16.2, 201, 96.9, 0.157],
  [15.98, 182, 97.3, 0.156],
  [16.25, 193, 96.6, 0.157],
  [16.17, 175, 97, 0.158],
  [16.09, 198, 96.8, 0.157],
];

/** Invented shades of dye lots beside their standard. */
const SHADES: readonly (readonly Entry[])[] = [
  ["Dye lot 1", 41.9, 22.4, 14.1],
  ["Dye lot 2", 42.6, 21.9, 13.6],
  ["Dye lot 3", 41.2, 22.8, 14.9],
  ["Dye lot 4", 42.1, 22.1, 13.9],
  ["Dye lot 5", 43.3, 21.2, 13.1],
  ["Dye lot 6", 41.8, 22.6, 14.4],
  ["Dye lot 7", 42.4, 21.6, 13.2],
  ["Dye lot 8", 40.9, 23.3, 15.4],
];
const STANDARD: readonly Entry[] = ["Standard", 42, 22.2, 14];

const LOTS = [
  { name: "Lot 1", table: "FirstLot", rows: FIRST_LOT },
  { name: "Lot 2", table: "SecondLot", rows: SECOND_LOT },
] as const;

const ORDERED: readonly (readonly Entry[])[] = [
  ["Count (tex)", 162, 0.03, 0.01],
  ["Twist (turns/m)", 190, 0.06, 0.03],
  ["Skein (g)", 100, 0.02, 0.01],
];
const PROPERTIES = ORDERED.map(([property]) => String(property));
const PROPERTY_FORMATS: readonly Format[] = ["decimal", "whole", "decimal"];

const LAB = ["L* (CIELAB)", "a* (CIELAB)", "b* (CIELAB)"] as const;
const FORMULAS = ["2000", "CMC 2:1", "CMC 1:1", "1976"];
const LIMIT_STEPS = Math.max(FIRST_LOT.length, SECOND_LOT.length);

export function quality(): SampleBook {
  const book = new SampleBook({
    title: "Is it what was ordered?",
    purpose:
      "Two deliveries against the order: count, twist and mass of the skeins with the range in which the true mean lies and a verdict, whether the lots differ, and the shades of the dye lots against the standard, sorted into blocks.",
    outcomes: [
      ...LOTS.map(
        ({ name }, lot) =>
          [
            `="${name}: "&${PROPERTIES.map((property, each) => `"${property.replace(/ \(.*/, "").toLowerCase()} "&INDEX(Verdicts,${each * LOTS.length + lot + 1})`).join('&"; "&')}&"."`,
            "Verdicts",
          ] as const,
      ),
      [
        `="The lots: "&${PROPERTIES.map((property, each) => `"${property.replace(/ \(.*/, "").toLowerCase()} "&INDEX(Differing,${each + 1})`).join('&"; "&')}&"."`,
        "Verdicts",
      ],
      ['=SUMPRODUCT(--Passes)&" of "&ROWS(Passes)&" dye lots pass by "&ShadeFormula&" "&ShadeTolerance&"."', "Shades"],
      ['="They lie in "&SUMPRODUCT(1/COUNTIF(Blocks,Blocks))&" shade blocks."', "Sorted"],
    ],
    scenario:
      "Invented: a yarn, two deliveries with their tests, a standard and eight dye lots. No figure is anybody's, and no tolerance is a recommendation.",
    date: "2026-11-27",
    currency: "No money in this book.",
    massBasis: "Counts and skeins are brought to the standard regain from the regain at which they were weighed.",
    how: [
      "1. Inputs: what was ordered with its tolerances, the tests of each lot as they were weighed and counted, the shades.",
      "2. Read Verdicts and Sorted. Where the tests are too few to tell, the verdict says how many would do.",
      "3. The contract and its test method decide a claim; take tests by chance from the whole lot, and look at shades side by side.",
    ],
  });
  inputs(book);
  tests(book);
  verdicts(book);
  shades(book);
  sorted(book);
  checks(book);
  return book;
}

function inputs(book: SampleBook): void {
  const sheet = book.sheet("Inputs", "Everything that is typed in.", [19, 14, 14, 14, 13, 17, 14, 14, 14]);
  book.heading(sheet, "A4", "Ordered");
  book.table(
    sheet,
    "A5",
    "Ordered",
    [
      { header: "Property" },
      { header: "Ordered (its unit)", format: "decimal" },
      { header: "Tolerance", format: "percent" },
      { header: "Error wanted", format: "percent" },
    ],
    ORDERED,
  );
  const lines: InputLine[] = [
    ["Confidence", "Confidence", 0.95, "percent"],
    ["Length of a test skein (m)", "TestLength", 100, "whole"],
    ["Standard regain", "StandardRegain", 0.1825, "percent"],
    ["Furthest from the mean that passes (deviations)", "Furthest", 3, "decimal1"],
    ["Least regain of a sample", "LeastRegain", 0.05, "percent"],
    ["Most regain of a sample", "MostRegain", 0.25, "percent"],
    ["Difference of shade", "ShadeFormula", "CMC 2:1", "text", FORMULAS],
    ["Largest difference that passes (its units)", "ShadeTolerance", 0.8, "decimal"],
    ["Rounding that a check lets pass (any unit)", "Rounding", 0.000000001, "tiny"],
  ];
  lines.forEach((line, index) => book.inputAt(sheet, 6, 9, 6 + index, ...line));
  const columns = [
    { header: "Test" },
    { header: "Test skein (g)", format: "decimal" as const },
    { header: "Twist (turns/m)", format: "whole" as const },
    { header: "Skein (g)", format: "decimal1" as const },
    { header: "Regain now", format: "percent" as const },
  ];
  book.heading(sheet, "A15", "Lot 1: tests as weighed and counted (invented)");
  book.heading(sheet, "G15", "Lot 2: tests as weighed and counted (invented)");
  LOTS.forEach(({ table, rows }, lot) =>
    book.table(
      sheet,
      `${"AG"[lot] as string}16`,
      table,
      columns,
      rows.map((row, index) => [`Test ${index + 1}`, ...row]),
    ),
  );
  const below = 16 + LIMIT_STEPS + 2;
  book.heading(sheet, `A${below}`, "Shades of the dye lots, D65/10 (invented)");
  const lab = [{ header: "Name" }, ...LAB.map((header) => ({ header, format: "decimal" as const }))];
  book.table(sheet, `A${below + 1}`, "DyeLots", lab, SHADES);
  book.heading(sheet, `G${below}`, "Standard, D65/10 (invented)");
  book.table(sheet, `G${below + 1}`, "Standard", lab, [STANDARD]);
  book.heading(sheet, `G${below + 4}`, "Widths of a shade block");
  book.table(
    sheet,
    `G${below + 5}`,
    "Widths",
    [{ header: "Part" }, { header: "Width (CIELAB)", format: "decimal" }],
    [
      ["dL*", 1.5],
      ["dC*", 1.5],
      ["dH*", 1.2],
    ],
  );
}

/** Where the figures of each lot stand on Tests, from which column on. */
const TEST_COLUMNS = [
  ["B", "C", "D"],
  ["G", "H", "I"],
] as const;
const measured = (lot: number, property: number) => {
  const column = TEST_COLUMNS[lot]?.[property] as string;
  return `Tests!${column}7:${column}${6 + (LOTS[lot]?.rows.length as number)}`;
};

function tests(book: SampleBook): void {
  const sheet = book.sheet(
    "Tests",
    "Counts and skeins at the standard regain, and how far each count lies off the order.",
  );
  LOTS.forEach(({ name, table, rows }, lot) => {
    book.heading(sheet, `${"AF"[lot] as string}5`, name);
    book.block(sheet, `${"AF"[lot] as string}6`, rows.length, [
      { header: "Test", spill: `=${table}[Test]` },
      {
        header: "Count (tex)",
        format: "decimal",
        spill: `=YARN.SKEINCOUNT(TestLength,"m",${table}[Test skein (g)],"g","tex",${table}[Regain now],StandardRegain)`,
      },
      { header: "Twist (turns/m)", format: "whole", spill: `=${table}[Twist (turns/m)]` },
      {
        header: "Skein (g)",
        format: "decimal",
        spill: `=YARN.CONDITIONED(${table}[Skein (g)],${table}[Regain now],StandardRegain)`,
      },
    ]);
  });
  const top = 6 + LIMIT_STEPS + 3;
  book.heading(sheet, `A${top}`, "Counts against the order");
  const lotValue = (lot: number) => (row: number) => {
    const [column, rows] = [TEST_COLUMNS[lot]?.[0] as string, LOTS[lot]?.rows.length as number];
    const nth = row - top - 1;
    return nth <= rows ? `=${column}${6 + nth}/INDEX(Ordered[Ordered (its unit)],1)-1` : "";
  };
  book.block(sheet, `A${top + 1}`, LIMIT_STEPS, [
    { header: "Test (no.)", format: "whole", entry: (row) => `=ROWS(A$${top + 2}:A${row})` },
    ...LOTS.map(({ name }, lot) => ({ header: name, format: "percent" as const, entry: lotValue(lot) })),
    { header: "Most", format: "percent", entry: () => "=INDEX(Ordered[Tolerance],1)" },
    { header: "Least", format: "percent", entry: () => "=-INDEX(Ordered[Tolerance],1)" },
  ]);
  const rows = (column: string, length: number) => `${column}${top + 2}:${column}${top + 1 + length}`;
  book.chart(sheet, `F${top}:K${top + LIMIT_STEPS + 1}`, {
    kind: "lines",
    title: "Count of each test off the order",
    values: "Off the order",
    categories: "Test",
    format: "percent",
    bothSides: true,
    labels: rows("A", LIMIT_STEPS),
    series: [
      ...LOTS.map(({ name, rows: { length } }, lot) => ({ name, values: rows("BC"[lot] as string, length) })),
      { name: "Most", values: rows("D", LIMIT_STEPS) },
      { name: "Least", values: rows("E", LIMIT_STEPS) },
    ],
  });
}

const VERDICT_ROWS = PROPERTIES.length * LOTS.length;
const lastVerdict = 6 + VERDICT_ROWS;

function verdicts(book: SampleBook): void {
  const sheet = book.sheet("Verdicts", "Each property of each lot against the order, and the lots against each other.");
  const pairs = PROPERTIES.flatMap((_, property) => LOTS.map((_lot, lot) => [property, lot] as const));
  const of = (row: number) => pairs[row - 7] as readonly [number, number];
  const ordered = (heading: string, row: number) => `INDEX(Ordered[${heading}],${of(row)[0] + 1})`;
  book.heading(sheet, "A5", "Against the order");
  book.headers(sheet, "A6", ["Property", "Lot", "Ordered", "Tolerance"]);
  pairs.forEach(([property, lot], index) => {
    const row = 7 + index;
    const values = measured(lot, property);
    const format = PROPERTY_FORMATS[property] as Format;
    book.put(sheet, `A${row}`, `=INDEX(Ordered[Property],${property + 1})`);
    book.put(sheet, `B${row}`, LOTS[lot]?.name as string);
    book.put(sheet, `C${row}`, `=${ordered("Ordered (its unit)", row)}`, format);
    book.put(sheet, `D${row}`, `=${ordered("Tolerance", row)}`, "percent");
    const check = `YARN.ORDERCHECK(${values},C${row},D${row},Confidence)`;
    if (index === 0)
      book.spill(sheet, "E6", `=INDEX(${check},1,0)`, [
        "whole",
        "decimal",
        "percent",
        "percent",
        "decimal",
        "decimal",
        undefined,
      ]);
    book.spill(
      sheet,
      `E${row}`,
      `=INDEX(${check},2,0)`,
      ["whole", "decimal", "percent", "percent", "decimal", "decimal", undefined],
      { headed: false },
    );
  });
  book.block(sheet, "L6", VERDICT_ROWS, [
    {
      header: "Tests for the error wanted (no.)",
      format: "whole",
      spill: `=YARN.TESTSNEEDED(G7:G${lastVerdict},M7:M${lastVerdict})`,
    },
    { header: "Error wanted", format: "percent", entry: (row) => `=${ordered("Error wanted", row)}` },
    {
      header: "By range and tolerance",
      entry: (row) =>
        `=IF(AND(I${row}>=C${row}*(1-D${row}),J${row}<=C${row}*(1+D${row})),"holds",IF(OR(I${row}>C${row}*(1+D${row}),J${row}<C${row}*(1-D${row})),"does not hold","too few tests"))`,
    },
  ]);
  book.name("Verdicts", "Verdicts", `K7:K${lastVerdict}`);
  book.note(
    sheet,
    `A${lastVerdict + 1}`,
    "Low and high: where the true mean lies at the confidence of Inputs. A lot holds when the whole range is within the tolerance.",
  );

  const top = lastVerdict + 4;
  book.heading(sheet, `A${top - 1}`, "The lots against each other");
  book.headers(sheet, `A${top}`, ["Property"]);
  PROPERTIES.forEach((_, property) => {
    const row = top + 1 + property;
    const compared = `YARN.LOTSDIFFER(${measured(0, property)},${measured(1, property)},Confidence)`;
    const formats: (Format | undefined)[] = ["decimal", "decimal", "price", undefined];
    book.put(sheet, `A${row}`, `=INDEX(Ordered[Property],${property + 1})`);
    if (property === 0) book.spill(sheet, `B${top}`, `=INDEX(${compared},1,0)`, formats);
    book.spill(sheet, `B${row}`, `=INDEX(${compared},2,0)`, formats, { headed: false });
  });
  book.name("Differing", "Verdicts", `E${top + 1}:E${top + PROPERTIES.length}`);

  const packs = top + PROPERTIES.length + 4;
  book.heading(sheet, `A${packs - 1}`, "The skeins as packs of their nominal mass, by the three packers' rules");
  book.headers(sheet, `A${packs}`, ["Lot"]);
  LOTS.forEach(({ name }, lot) => {
    const weighed = `YARN.NETCHECK(${measured(lot, 2)},INDEX(Ordered[Ordered (its unit)],3))`;
    const formats: (Format | undefined)[] = ["whole", "decimal", "decimal1", "whole", "whole", "whole", undefined];
    book.put(sheet, `A${packs + 1 + lot}`, name);
    if (lot === 0) book.spill(sheet, `B${packs}`, `=INDEX(${weighed},1,0)`, formats);
    book.spill(sheet, `B${packs + 1 + lot}`, `=INDEX(${weighed},2,0)`, formats, { headed: false });
  });
  book.note(
    sheet,
    `A${packs + 3}`,
    "A help for the packer and no legal advice: what is sampled and judged is decided by law.",
  );
}

const count = SHADES.length;
const lastShade = 6 + count;

function shades(book: SampleBook): void {
  const sheet: Worksheet = book.sheet(
    "Shades",
    "Every dye lot against the standard: parts of the difference, its size, grey scale and block.",
  );
  const parts: (Format | undefined)[] = [undefined, ...Array.from({ length: 5 }, () => "decimal" as const), undefined];
  book.spill(sheet, "A6", "=YARN.SHADEPARTS(Standard[#All],DyeLots[#All])", parts);
  const labs = "DyeLots[[L* (CIELAB)]:[b* (CIELAB)]]";
  const standard = "Standard[[L* (CIELAB)]:[b* (CIELAB)]]";
  book.block(sheet, "J6", count, [
    {
      header: "Difference (units of the formula)",
      format: "decimal",
      spill: `=YARN.SHADEDIFF(${standard},${labs},ShadeFormula)`,
    },
    { header: "Passes", spill: `=YARN.SHADEPASS(${standard},${labs},ShadeTolerance,ShadeFormula)` },
    { header: "Grey scale", spill: `=YARN.GREYSCALE(${standard},${labs},"step")` },
    { header: "Distance by CIELAB (1976)", format: "decimal", spill: `=YARN.SHADEDIFF(${standard},${labs},"1976")` },
    {
      header: "Block",
      format: undefined,
      spill: `=INDEX(YARN.SHADESORT(DyeLots[#All],Standard[#All],Widths[Width (CIELAB)]),0,2)`,
    },
  ]);
  for (let row = 7; row <= lastShade; row++) sheet.getCell(`K${row}`).numFmt = '"yes";"yes";"no"';
  book.name("Passes", "Shades", `K7:K${lastShade}`);
  book.name("Blocks", "Shades", `N7:N${lastShade}`);
  book.chart(sheet, `A${lastShade + 2}:N${lastShade + 20}`, {
    kind: "columns",
    title: "Difference of each dye lot from the standard",
    values: "Units of the formula",
    categories: "Dye lot",
    format: "decimal",
    labels: `A7:A${lastShade}`,
    series: [{ name: "Difference", values: `J7:J${lastShade}` }],
    written: true,
  });
}

function sorted(book: SampleBook): void {
  const sheet = book.sheet(
    "Sorted",
    "The dye lots in the order of their blocks: lots of one block may lie side by side.",
    [20],
  );
  const key = `C7:C${lastShade}`;
  book.heading(sheet, "A5", "In the order of the blocks");
  const place = (row: number) =>
    `MATCH(SMALL(${key.replace(/\d+/g, "$$$&")},ROWS(E$7:E${row})),${key.replace(/\d+/g, "$$$&")},0)`;
  book.block(sheet, "A6", count, [
    { header: "Dye lot", spill: "=DyeLots[Name]" },
    { header: "Block", spill: "=Blocks" },
    {
      header: "Key of the order (block, then the place in the list)",
      format: "kg3",
      entry: (row) => `=B${row}+ROWS(C$7:C${row})/1000`,
    },
  ]);
  book.block(sheet, "E6", count, [
    { header: "Sorted", entry: (row) => `=INDEX(A$7:A$${lastShade},${place(row)})` },
    { header: "Its block", entry: (row) => `=INDEX(B$7:B$${lastShade},${place(row)})` },
    {
      header: "Begins a block",
      entry: (row) => (row === 7 ? '="block "&F7' : `=IF(F${row}=F${row - 1},"","block "&F${row})`),
    },
    {
      header: "Difference (units of the formula)",
      format: "decimal",
      entry: (row) => `=INDEX(Shades!J$7:J$${lastShade},${place(row)})`,
    },
    { header: "Passes", entry: (row) => `=IF(INDEX(Shades!K$7:K$${lastShade},${place(row)}),"yes","no")` },
  ]);
  const spread = (column: string, row: number) =>
    `MAXIFS(Shades!${column}$7:${column}$${lastShade},Blocks,B${row})-MINIFS(Shades!${column}$7:${column}$${lastShade},Blocks,B${row})`;
  book.block(sheet, "K6", count, [
    ...(
      [
        ["Spread of dL* in its block (CIELAB)", "B"],
        ["Spread of dC* in its block (CIELAB)", "E"],
        ["Spread of dH* in its block (CIELAB)", "F"],
      ] as const
    ).map(([header, column]) => ({
      header,
      format: "decimal" as const,
      entry: (row: number) => `=${spread(column, row)}`,
    })),
  ]);
}

function checks(book: SampleBook): void {
  const pairs = PROPERTIES.flatMap((_, property) => LOTS.map((_lot, lot) => [property, lot] as const));
  const each = (line: (values: string, row: number) => string) =>
    pairs.map(([property, lot], index) => line(measured(lot, property), 7 + index)).join(",");
  const rows = (column: string) => `Verdicts!${column}7:${column}${lastVerdict}`;
  book.checks([
    [
      "Every test is filled in with numbers",
      `=AND(${LOTS.map(({ table }) => `COUNT(${table}[[Test skein (g)]:[Regain now]])=4*ROWS(${table}[Test])`).join(",")})`,
    ],
    [
      "Every sample had a regain that wool can have",
      `=AND(${LOTS.map(({ table }) => `MIN(${table}[Regain now])>=LeastRegain,MAX(${table}[Regain now])<=MostRegain`).join(",")})`,
    ],
    [
      "No test lies further from the mean of its lot than is let pass",
      `=AND(${each((values) => `MAX(MAX(${values})-AVERAGE(${values}),AVERAGE(${values})-MIN(${values}))<=Furthest*STDEV(${values})`)})`,
    ],
    [
      "The range of each mean, worked again by Student's t of the program, is the same",
      `=AND(${each(
        (values, row) =>
          `ABS(Verdicts!J${row}-AVERAGE(${values})-T.INV.2T(1-Confidence,COUNT(${values})-1)*STDEV(${values})/SQRT(COUNT(${values})))<=0.00000001*Verdicts!C${row}`,
      )})`,
    ],
    [
      "Every verdict is that of its range and tolerance",
      `=SUMPRODUCT(--(LEFT(${rows("K")},LEN(${rows("N")}))<>${rows("N")}))=0`,
    ],
    [
      "Means by MEANRANGE are those of the verdicts",
      `=AND(${each((values, row) => `ABS(INDEX(YARN.MEANRANGE(${values},Confidence),2,2)-Verdicts!F${row})<=Rounding`)})`,
    ],
    [
      "The parts of each difference of shade make up its distance",
      `=SUMPRODUCT(--(ABS(SQRT(Shades!B7:B${lastShade}^2+Shades!C7:C${lastShade}^2+Shades!D7:D${lastShade}^2)-Shades!M7:M${lastShade})>Rounding))=0`,
    ],
    ["Every dye lot is sorted, and once", `=SUMPRODUCT(--(COUNTIF(Sorted!E7:E${lastShade},DyeLots[Name])<>1))=0`],
    ["The blocks stand in their order", `=SUMPRODUCT(--(Sorted!F8:F${lastShade}<Sorted!F7:F${lastShade - 1}))=0`],
    [
      "Dye lots of one block differ by a width at most",
      `=AND(MAX(Sorted!K7:K${lastShade})<=INDEX(Widths[Width (CIELAB)],1)+Rounding,MAX(Sorted!L7:L${lastShade})<=INDEX(Widths[Width (CIELAB)],2)+Rounding,MAX(Sorted!M7:M${lastShade})<=INDEX(Widths[Width (CIELAB)],3)+Rounding)`,
    ],
  ]);
}
