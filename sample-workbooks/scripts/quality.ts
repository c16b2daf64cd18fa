import { SampleBook, type Entry, type Format, type InputLine } from "./kit";
import { figuresBeside } from "./given-texts";

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

/** The first rows of the blocks below their headings. */
const FIRST = { tests: 26, verdicts: 7, shades: 26, sorted: 7 } as const;
const ORDERED_COUNT = "INDEX(Ordered[Ordered (its unit)],1)";

const shade = (column: string) => `Shades!${column}${FIRST.shades}#`;

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
        "Lots compared",
      ],
      [
        `=COUNTIF(${shade("K")},"yes")&" of "&ROWS(DyeLots[Name])&" dye lots pass by "&ShadeFormula&" "&ShadeTolerance&"."`,
        "Shades",
      ],
      [`="They lie in "&SUMPRODUCT(1/COUNTIF(${shade("N")},${shade("N")}))&" shade blocks."`, "Sorted"],
    ],
    scenario:
      "Invented: a yarn, two deliveries with their tests, a standard and eight dye lots. No figure is anybody's, and no tolerance is a recommendation.",
    date: "2026-11-27",
    currency: "No money in this book.",
    massBasis: "Counts and skeins are brought to the standard regain from the regain at which they were weighed.",
    how: [
      "1. Inputs: what was ordered with its tolerances. Lots: the tests of each lot as they were weighed and counted, a row a test. Dye lots: their shades, a row a lot.",
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
  const sheet = book.sheet("Inputs", "What was ordered, and how it is judged.", [19, 14, 14, 14, 5, 44, 14]);
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
  book.heading(sheet, "F4", "How it is judged");
  lines.forEach((line, index) => book.inputAt(sheet, 6, 7, 5 + index, ...line));
  book.heading(sheet, "A11", "Widths of a shade block");
  book.table(
    sheet,
    "A12",
    "Widths",
    [{ header: "Part" }, { header: "Width (CIELAB)", format: "decimal" }],
    [
      ["dL*", 1.5],
      ["dC*", 1.5],
      ["dH*", 1.2],
    ],
  );

  const lots = book.sheet(
    "Lots",
    "The tests of each lot as weighed and counted (invented): a row more is a test more.",
  );
  const columns = [
    { header: "Test" },
    { header: "Regain now", format: "percent" as const },
    { header: "Test skein (g)", format: "decimal" as const },
    { header: "Twist (turns/m)", format: "whole" as const },
    { header: "Skein (g)", format: "decimal1" as const },
    { header: "Remark" },
  ];
  LOTS.forEach(({ name, table, rows }, lot) => {
    const left = "AH"[lot] as string;
    book.heading(lots, `${left}5`, name);
    book.table(
      lots,
      `${left}6`,
      table,
      columns,
      rows.map(([skein, twist, sold, regain], index) => [
        `Test ${index + 1}`,
        regain as number,
        skein as number,
        twist as number,
        sold as number,
        lot === 1 && index === 2 ? "band was loose" : "",
      ]),
    );
  });

  const dyes = book.sheet("Dye lots", "Shades measured in D65/10 (invented): a row more is a dye lot more.", [18]);
  const lab = [{ header: "Name" }, ...LAB.map((header) => ({ header, format: "decimal" as const }))];
  const remarked = [...lab, { header: "Remark" }];
  book.heading(dyes, "A5", "Dye lots");
  book.table(
    dyes,
    "A6",
    "DyeLots",
    remarked,
    SHADES.map((row, index) => [...row, index === 7 ? "dyed twice" : ""]),
  );
  book.heading(dyes, "G5", "Standard");
  book.table(dyes, "G6", "Standard", lab, [STANDARD]);
}

/** Where the figures of each lot stand on Tests, from which column on. */
const TEST_COLUMNS = [
  ["B", "C", "D"],
  ["J", "K", "L"],
] as const;
const measured = (lot: number, property: number) => `Tests!${TEST_COLUMNS[lot]?.[property] as string}${FIRST.tests}#`;

function tests(book: SampleBook): void {
  const sheet = book.sheet(
    "Tests",
    "Counts and skeins at the standard regain, and how far each count lies off the order.",
    [14],
  );
  const top = FIRST.tests - 1;
  LOTS.forEach(({ name, table }, lot) => {
    const left = "AI"[lot] as string;
    const count = `${TEST_COLUMNS[lot]?.[0] as string}${FIRST.tests}#`;
    book.heading(sheet, `${left}${top - 1}`, name);
    book.growing(sheet, `${left}${top}`, [
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
      { header: "Count off the order", format: "percent", spill: `=${count}/${ORDERED_COUNT}-1` },
      ...(lot === 0
        ? [
            { header: "Most", format: "percent1" as const, spill: `=0*${count}+INDEX(Ordered[Tolerance],1)` },
            { header: "Least", format: "percent1" as const, spill: `=0*${count}-INDEX(Ordered[Tolerance],1)` },
          ]
        : []),
    ]);
  });
  const rows = (column: string, length: number) => `${column}${FIRST.tests}:${column}${top + length}`;
  const [first, second] = [FIRST_LOT.length, SECOND_LOT.length];
  book.chart(sheet, `A5:M${top - 3}`, {
    kind: "lines",
    title: "Count of each test off the order",
    values: "Off the order",
    categories: "Test",
    format: "percent1",
    bothSides: true,
    labels: rows("A", first),
    series: [
      { name: "Lot 1", values: rows("E", first) },
      { name: "Lot 2", values: rows("M", second) },
      { name: "Most", values: rows("F", first) },
      { name: "Least", values: rows("G", first) },
    ],
  });
}

const VERDICT_ROWS = PROPERTIES.length * LOTS.length;
const lastVerdict = 6 + VERDICT_ROWS;

function verdicts(book: SampleBook): void {
  const sheet = book.sheet("Verdicts", "Each property of each lot against the order.", [18]);
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

  const compared = book.sheet(
    "Lots compared",
    "The lots against each other: is what they differ by more than chance?",
    [18],
  );
  book.headers(compared, "A6", ["Property"]);
  PROPERTIES.forEach((_, property) => {
    const row = 7 + property;
    const differing = `YARN.LOTSDIFFER(${measured(0, property)},${measured(1, property)},Confidence)`;
    const formats: (Format | undefined)[] = ["decimal", "decimal", "chance", undefined];
    book.put(compared, `A${row}`, `=INDEX(Ordered[Property],${property + 1})`);
    if (property === 0) book.spill(compared, "B6", `=INDEX(${differing},1,0)`, formats);
    book.spill(compared, `B${row}`, `=INDEX(${differing},2,0)`, formats, { headed: false });
  });
  book.name("Differing", "Lots compared", `E7:E${6 + PROPERTIES.length}`);

  const packs = book.sheet("Packs", "The skeins as packs of their nominal mass, by the three packers' rules.", [14]);
  book.headers(packs, "A6", ["Lot"]);
  LOTS.forEach(({ name }, lot) => {
    const weighed = `YARN.NETCHECK(${measured(lot, 2)},INDEX(Ordered[Ordered (its unit)],3))`;
    const formats: (Format | undefined)[] = ["whole", "decimal", "decimal1", "whole", "whole", "whole", undefined];
    book.put(packs, `A${7 + lot}`, name);
    if (lot === 0) book.spill(packs, "B6", `=INDEX(${weighed},1,0)`, formats);
    book.spill(packs, `B${7 + lot}`, `=INDEX(${weighed},2,0)`, formats, { headed: false });
  });
  book.note(packs, "A10", "A help for the packer and no legal advice: what is sampled and judged is decided by law.");
}

function shades(book: SampleBook): void {
  const sheet = book.sheet(
    "Shades",
    "Every dye lot against the standard: parts of the difference, its size, grey scale and block.",
    [18],
  );
  const top = FIRST.shades - 1;
  const parts: (Format | undefined)[] = [undefined, ...Array.from({ length: 5 }, () => "decimal" as const), undefined];
  book.spill(sheet, `A${top}`, "=YARN.SHADEPARTS(Standard[#All],DyeLots[#All])", parts);
  const labs = "DyeLots[[L* (CIELAB)]:[b* (CIELAB)]]";
  const standard = "Standard[[L* (CIELAB)]:[b* (CIELAB)]]";
  const squares = [2, 3, 4].map((column) => `${part(column)}^2`);
  book.growing(sheet, `J${top}`, [
    {
      header: "Difference (units of the formula)",
      format: "decimal",
      spill: `=YARN.SHADEDIFF(${standard},${labs},ShadeFormula)`,
    },
    { header: "Passes", spill: `=IF(YARN.SHADEPASS(${standard},${labs},ShadeTolerance,ShadeFormula),"yes","no")` },
    { header: "Grey scale", spill: `=YARN.GREYSCALE(${standard},${labs},"step")` },
    { header: "Distance by CIELAB (1976)", format: "decimal", spill: `=YARN.SHADEDIFF(${standard},${labs},"1976")` },
    { header: "Block", spill: "=INDEX(YARN.SHADESORT(DyeLots[#All],Standard[#All],Widths[Width (CIELAB)]),0,2)" },
    { header: "Distance by its parts (CIELAB)", format: "decimal", spill: `=SQRT(${squares.join("+")})` },
  ]);
  const last = top + SHADES.length;
  book.chart(sheet, `A5:O${top - 2}`, {
    kind: "columns",
    title: "Difference of each dye lot from the standard",
    values: "Units of the formula",
    categories: "Dye lot",
    format: "decimal",
    labels: `A${FIRST.shades}:A${last}`,
    series: [{ name: "Difference", values: `J${FIRST.shades}:J${last}` }],
    written: true,
  });
}

/** A part of the differences of shade, a dye lot a row, without the heading above them. */
const part = (column: number) => {
  const parts = `Shades!A${FIRST.shades - 1}#`;
  return figuresBeside("DyeLots[Name]", `INDEX(${parts},0,1)`, `INDEX(${parts},0,${column})`);
};
/** As many dye lots can be sorted. */
const MOST_SORTED = 200;

function sorted(book: SampleBook): void {
  const sheet = book.sheet(
    "Sorted",
    "The dye lots in the order of their blocks: lots of one block may lie side by side.",
    [14],
  );
  const own = (column: string) => `${column}${FIRST.sorted}#`;
  const spread = (column: string) =>
    `=MAXIFS(${own(column)},${shade("N")},${own("J")})-MINIFS(${own(column)},${shade("N")},${own("J")})`;
  const found = (column: number) =>
    `=VLOOKUP(SMALL(${own("A")},MATCH(DyeLots[Name],DyeLots[Name],0)),A$${FIRST.sorted}:D$${FIRST.sorted + MOST_SORTED - 1},${column},FALSE)`;
  book.heading(sheet, "A5", "As they stand in the list");
  book.heading(sheet, "I5", "In the order of the blocks");
  book.growing(sheet, "A6", [
    {
      header: "Key of the order (block, then the place in the list)",
      format: "kg3",
      spill: `=${shade("N")}+MATCH(DyeLots[Name],DyeLots[Name],0)/1000`,
    },
    { header: "Dye lot", spill: "=DyeLots[Name]" },
    { header: "Difference (units of the formula)", format: "decimal", spill: `=${shade("J")}` },
    { header: "Passes", spill: `=${shade("K")}` },
    { header: "dL* (CIELAB)", format: "decimal", spill: `=${part(2)}` },
    { header: "dC* (CIELAB)", format: "decimal", spill: `=${part(5)}` },
    { header: "dH* (CIELAB)", format: "decimal", spill: `=${part(6)}` },
  ]);
  book.growing(sheet, "I6", [
    { header: "Sorted", spill: found(2) },
    {
      header: "Its block",
      spill: `=INT(SMALL(${own("A")},MATCH(DyeLots[Name],DyeLots[Name],0)))`,
    },
    {
      header: "Begins a block",
      spill: `=IF(MATCH(${own("J")},${own("J")},0)=MATCH(DyeLots[Name],DyeLots[Name],0),"block "&${own("J")},"")`,
    },
    { header: "Difference (units of the formula)", format: "decimal", spill: found(3) },
    { header: "Passes", spill: found(4) },
    { header: "Spread of dL* in its block (CIELAB)", format: "decimal", spill: spread("E") },
    { header: "Spread of dC* in its block (CIELAB)", format: "decimal", spill: spread("F") },
    { header: "Spread of dH* in its block (CIELAB)", format: "decimal", spill: spread("G") },
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
      `=AND(${LOTS.map(({ table }) => `COUNT(${table}[[Regain now]:[Skein (g)]])=4*ROWS(${table}[Test])`).join(",")})`,
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
      `=SUMPRODUCT(--(ABS(${shade("O")}-${shade("M")})>Rounding))=0`,
    ],
    ["Every dye lot is sorted, and once", `=SUMPRODUCT(--(COUNTIF(Sorted!I${FIRST.sorted}#,DyeLots[Name])<>1))=0`],
    [
      "The blocks stand in their order",
      `=SUMPRODUCT(--(COUNTIF(Sorted!J${FIRST.sorted}#,"<"&Sorted!J${FIRST.sorted}#)>=MATCH(DyeLots[Name],DyeLots[Name],0)))=0`,
    ],
    [
      "Dye lots of one block differ by a width at most",
      `=AND(${["N", "O", "P"].map((column, index) => `MAX(Sorted!${column}${FIRST.sorted}#)<=INDEX(Widths[Width (CIELAB)],${index + 1})+Rounding`).join(",")})`,
    ],
  ]);
}
