import { SampleBook, WORDS, type Format, type InputLine } from "./kit";

/** Invented lots: name, bales, net kg, wool base, VM base, micron, CV, staple mm, N/ktex, middle breaks, EUR/kg greasy. */
const LOTS: readonly (readonly (string | number)[])[] = [
  ["Lot 101", 14, 2450, 0.634, 0.008, 18.9, 0.205, 78, 36, 0.42, 9.6],
  ["Lot 102", 22, 3920, 0.612, 0.014, 19.6, 0.208, 84, 39, 0.48, 8.35],
  ["Lot 103", 18, 3180, 0.587, 0.026, 20.3, 0.212, 82, 34, 0.52, 7.05],
  ["Lot 104", 25, 4410, 0.621, 0.011, 20.9, 0.215, 88, 41, 0.45, 7.45],
  ["Lot 105", 16, 2810, 0.566, 0.041, 21.4, 0.222, 90, 38, 0.4, 5.9],
  ["Lot 106", 20, 3540, 0.601, 0.017, 22.6, 0.226, 94, 42, 0.46, 5.75],
  ["Lot 107", 9, 1590, 0.648, 0.006, 18.2, 0.198, 72, 33, 0.55, 10.9],
];

/** Words of the owner's own, which no function reads. */
const REMARKS = ["", "tender, see the breaks", "", "", "burry", "", "small lot"];
const COUNT = LOTS.length;
/** Where the blocks begin: the first row of their formulas, below headings and sums. */
const FIRST = 8;
const TOP = 7;

export function woolBuying(): SampleBook {
  const book = new SampleBook({
    title: "Wool buying",
    purpose:
      "From core tests to an offer: clean mass and clean price of every lot, customs clean content, the certificate of all lots together, the fineness of a blend and the count it limits to, how many bales to core, the top to expect, and the cheapest blend within limits of micron, vegetable matter and length.",
    outcomes: [
      [
        `="The cheapest blend costs EUR "&TEXT(Blend!B7,"0.00")&" a clean kilogram, all lots together EUR "&TEXT(Blend!C7,"0.00")`,
        "Blend",
      ],
      [
        `="To buy: "&TEXT('To buy'!I${FIRST - 1},"#,##0")&" kg greasy from "&TEXT(SUMPRODUCT(--('To buy'!G${FIRST}#>0)),"0")&" lots, for EUR "&TEXT('To buy'!K${FIRST - 1},"#,##0")`,
        "To buy",
      ],
      [
        `="It spins to "&TEXT(Blend!B13,"0.0")&" "&CountSystem&" at the finest; wanted are "&TEXT(CountWanted,"0.0")&" "&CountSystem`,
        "Blend",
      ],
      [
        `=TEXT(Sampling!C${FIRST - 1},"0")&" of "&TEXT(Sampling!B${FIRST - 1},"0")&" bales are to be cored"`,
        "Sampling",
      ],
    ],
    scenario:
      "Invented: a buyer with seven lots of greasy wool on offer, their tests and prices. No figure is anybody's.",
    date: "2026-11-16",
    currency: "EUR",
    massBasis: "Net greasy mass as weighed; clean mass by the kind of yield that the contract names.",
    how: [
      "1. Type the lots with their core tests into Offer, a row a lot; the contract's kind of yield and the limits of the blend into Inputs.",
      "2. Read Lots and Prices (what clean wool costs), Certificate (all lots together), Sampling (bales to core), Blend and To buy.",
      "3. The cheapest blend is a start for a trial, no approval. The forecast of the top is an average mill's; ask the comber.",
      "4. What customs take as clean content is decided by law: leave an entry to a licensed broker.",
    ],
  });
  inputs(book);
  offer(book);
  lots(book);
  certificate(book);
  sampling(book);
  blend(book);
  checks(book);
  return book;
}

function inputs(book: SampleBook): void {
  const sheet = book.sheet("Inputs", "Everything that is typed in. ", [46, 13]);
  book.heading(sheet, "A4", "Contract and yarn");
  book.inputs(sheet, "A5", [
    ["Kind of yield of the contract", "ContractYield", "scoured 16", "text", WORDS.yieldKind],
    ["Clean wool wanted (kg)", "CleanWanted", 6000, "whole"],
    ["Count to be spun (in the system below)", "CountWanted", 16, "decimal1"],
    ["Count system", "CountSystem", "Nm", "text", ["Nm", "NeW", "NeC", "tex"]],
    ["Fewest fibres in the section (no.)", "FewestFibres", 40, "whole"],
    ["Density of wool (g/cm³)", "Density", 1.31, "decimal"],
    ["Rounding that a check lets pass (any unit)", "Rounding", 0.000001, "tiny"],
    ["Difference that the rounding of certificates makes", "CertificateRounding", 0.001, "percent"],
  ] as InputLine[]);
  book.heading(sheet, "A14", "Sampling (yield, in points of percent)");
  book.inputs(sheet, "A15", [
    ["Standard deviation between bales (% points)", "SdBetween", 1.9, "decimal"],
    ["Standard deviation within a bale (% points)", "SdWithin", 1.2, "decimal"],
    ["Cores from each bale (no.)", "CoresPerBale", 1, "whole"],
    ["Error allowed either way (% points)", "ErrorAllowed", 0.8, "decimal"],
    ["Normal deviate, 1.96 for 95 % (no.)", "NormalDeviate", 1.96, "decimal"],
  ] as InputLine[]);
  book.heading(sheet, "A21", "Limits of the blend (a word such as none where there is no limit)");
  const properties = ["Diameter (micron)", "VM of clean wool", "Hauteur (mm)"];
  book.table(
    sheet,
    "A22",
    "Limits",
    [{ header: "Limit" }, ...properties.map((header) => ({ header }))],
    [
      ["minimum", "none", "none", 64],
      ["maximum", 20.4, 0.025, "none"],
    ],
  );
  book.table(
    sheet,
    "A26",
    "Weighting",
    [{ header: "Taken by" }, ...properties.map((header) => ({ header, choices: ["mass", "length"] }))],
    [["weighting", "length", "mass", "mass"]],
  );
}

function offer(book: SampleBook): void {
  const sheet = book.sheet("Offer", "The lots on offer with their core tests: a row more is a lot more.", [16]);
  const percent = (header: string) => ({ header, format: "percent" as const });
  book.table(
    sheet,
    "A6",
    "Lots",
    [
      { header: "Lot" },
      { header: "Bales (no.)", format: "whole" },
      { header: "Net greasy (kg)", format: "whole" },
      percent("Wool base"),
      percent("VM base"),
      { header: "Diameter (micron)", format: "decimal1" },
      percent("CV of diameter"),
      { header: "Staple (mm)", format: "whole" },
      { header: "Strength (N/ktex)", format: "whole" },
      percent("Breaks in the middle"),
      { header: "Greasy price (EUR/kg)", format: "money" },
      { header: "Remark" },
    ],
    LOTS.map((lot, index) => [...lot, REMARKS[index] as string]),
  );
}

function lots(book: SampleBook): void {
  const sheet = book.sheet("Lots", "What each lot yields, and what its clean wool costs.", [16]);
  const bases = "Lots[Wool base],Lots[VM base]";
  const all = (column: string) => `${column}${FIRST}#`;
  book.heading(sheet, "A5", "Clean mass and price by the contract's kind of yield");
  book.growing(sheet, "A6", [
    { header: "Lot", spill: "=Lots[Lot]" },
    { header: "Net greasy (kg)", format: "whole", spill: "=Lots[Net greasy (kg)]", total: true },
    { header: "Yield of the contract", format: "percent", spill: `=YARN.WOOLYIELD(ContractYield,${bases})` },
    {
      header: "Clean mass, as certified (kg)",
      format: "whole",
      spill: `=YARN.CLEANMASS(${all("B")},${all("C")})`,
      total: true,
    },
    { header: "Greasy price (EUR/kg)", format: "money", spill: "=Lots[Greasy price (EUR/kg)]" },
    { header: "Clean price (EUR/kg)", format: "money", spill: `=YARN.CLEANPRICE(${all("E")},${all("C")})` },
    { header: "Cost of the lot (EUR)", format: "money", spill: `=${all("B")}*${all("E")}`, total: true },
    {
      header: "US grade",
      spill: "=YARN.WOOLGRADE(Lots[Diameter (micron)],Lots[Diameter (micron)]*Lots[CV of diameter])",
    },
  ]);

  const prices = book.sheet(
    "Prices",
    "Which clean wool is cheapest, before its quality is looked at: the cheapest first.",
    [16],
  );
  // Lots of one price keep their order.
  const number = "MATCH(Lots[Lot],Lots[Lot],0)";
  const priced = `(Lots!F${FIRST}#+${number}/10^9)`;
  book.growing(prices, "A6", [
    { header: "Lot", spill: `=LOOKUP(MATCH(SMALL(${priced},${number}),${priced},0),${number},Lots[Lot])` },
    { header: "Clean price (EUR/kg)", format: "money", spill: `=SMALL(Lots!F${FIRST}#,${number})` },
  ]);
  book.chart(prices, "D5:K22", {
    kind: "bars",
    title: "Price of a clean kilogram",
    categories: "",
    values: "EUR/kg clean",
    format: "money",
    labels: `A${TOP}:A${TOP + COUNT - 1}`,
    series: [{ name: "Clean price (EUR/kg)", values: `B${TOP}:B${TOP + COUNT - 1}` }],
    written: true,
  });

  const yields = book.sheet("Yields", "Yield by every kind, and what customs take as clean content.", [16]);
  book.growing(yields, "A6", [
    { header: "Lot", spill: "=Lots[Lot]" },
    ...WORDS.yieldKind.map((header, index) => ({
      header,
      format: "percent" as const,
      spill: `=YARN.WOOLYIELD(${"BCDEF"[index] as string}6,${bases})`,
    })),
    {
      header: "Customs clean content (kg)",
      format: "kg",
      spill: `=YARN.CLEANMASS(Lots[Net greasy (kg)],YARN.WOOLYIELD("customs clean",${bases}),"none")`,
      total: true,
    },
  ]);

  const top = book.sheet("Top", "The top to expect from an average mill; the comber knows better.", [16]);
  const test =
    "Lots[Staple (mm)],Lots[Strength (N/ktex)],Lots[Diameter (micron)],Lots[VM base],Lots[Breaks in the middle]";
  const forecast = (header: string, result: string, format: Format) => ({
    header,
    format,
    spill: `=YARN.TOPFORECAST(${test},"${result}")`,
  });
  book.growing(top, `A${TOP - 1}`, [
    { header: "Lot", spill: "=Lots[Lot]" },
    forecast("Hauteur (mm)", "hauteur", "decimal1"),
    forecast("CV of hauteur", "cv hauteur", "percent"),
    forecast("Romaine (noil of top and noil)", "romaine", "percent"),
  ]);
}

function certificate(book: SampleBook): void {
  const sheet = book.sheet("Certificate", "All lots on offer taken together.", [undefined, 14, 14]);
  const clean = `Lots!D${FIRST}#`;
  book.heading(sheet, "A5", "Mass and yield");
  book.result(sheet, 6, "Net greasy (kg)", "=SUM(Lots[Net greasy (kg)])", "whole", "NetOffered");
  book.result(
    sheet,
    7,
    "Yield of all lots together",
    `=YARN.COMBINEDYIELD(Lots[Net greasy (kg)],Lots!C${FIRST}#)`,
    "percent",
    "YieldTogether",
  );
  book.result(sheet, 8, "Clean mass (kg)", `=SUM(${clean})`, "whole", "CleanOffered");
  book.result(sheet, 9, "Average clean price (EUR/kg)", `=Lots!G${FIRST - 1}/CleanOffered`, "money", "AveragePrice");
  book.result(sheet, 10, "Customs clean content (kg)", `=Yields!G${FIRST - 1}`, "kg");

  book.heading(sheet, "A12", "Fineness, and the count it limits to");
  book.headers(sheet, "A13", ["Taken by", "mass", "length"]);
  const lines: [string, (column: string) => string, Format][] = [
    ["Mean diameter (micron)", (column) => micron(clean, column, "mean"), "decimal"],
    ["Standard deviation (micron)", (column) => micron(clean, column, "sd"), "decimal"],
    ["CV of diameter", (column) => micron(clean, column, "cv"), "percent"],
    ["US grade", (column) => `=YARN.WOOLGRADE(${column}14,${column}15)`, "text"],
    ["Spinning fineness (micron)", (column) => `=YARN.SPINFINENESS(${column}14,${column}16)`, "decimal"],
    [
      "Finest count with the fewest fibres (in the system of Inputs)",
      (column) => `=YARN.SPINLIMIT(${column}14,FewestFibres,CountSystem,${column}16,Density)`,
      "decimal1",
    ],
    [
      "Fibres in the section at the count wanted (no.)",
      (column) => `=YARN.FIBRES(CountWanted,CountSystem,${column}14,${column}16,Density)`,
      "decimal1",
    ],
  ];
  lines.forEach(([label, formula, format], index) => {
    const row = 14 + index;
    book.put(sheet, `A${row}`, label);
    for (const column of ["B", "C"]) {
      const cell = book.put(sheet, `${column}${row}`, formula(column), format);
      cell.alignment = { horizontal: "right" };
    }
  });
  book.note(
    sheet,
    "A22",
    "Certificates combine lots by mass; an instrument that measures snippets reads a blend by length, which is finer.",
  );
  book.note(
    sheet,
    "A23",
    "The fewest fibres are a rule of thumb, the spinning fineness is from memory: ask the spinner.",
  );
}

function micron(masses: string, column: string, result: string): string {
  return `=YARN.BLENDMICRON(${masses},Lots[Diameter (micron)],Lots[CV of diameter],${column}$13,"${result}")`;
}

function sampling(book: SampleBook): void {
  const sheet = book.sheet(
    "Sampling",
    "Bales to core so that the yield of a lot is known within the error of Inputs.",
    [16],
  );
  book.growing(sheet, "A6", [
    { header: "Lot", spill: "=Lots[Lot]" },
    { header: "Bales (no.)", format: "whole", spill: "=Lots[Bales (no.)]", total: true },
    {
      header: "Bales to core (no.)",
      format: "whole",
      spill: "=YARN.BALESTOCORE(SdBetween,SdWithin,CoresPerBale,ErrorAllowed,NormalDeviate,Lots[Bales (no.)])",
      total: true,
    },
    { header: "Share of the bales", format: "percent1", spill: `=C${FIRST}#/B${FIRST}#` },
    { header: "Cores (no.)", format: "whole", spill: `=C${FIRST}#*CoresPerBale`, total: true },
  ]);
}

function blend(book: SampleBook): void {
  const sheet = book.sheet("Blend", "The cheapest blend of the lots within the limits of Inputs.", [40, 13]);
  const bought = (column: string) => `'To buy'!${column}${FIRST}#`;
  const [price, properties, share] = [bought("B"), bought("C"), bought("G")];
  const property = (place: number) => `INDEX(${properties},0,${place})`;
  book.heading(sheet, "A5", "The blend");
  book.headers(sheet, "A6", ["", "Cheapest", "All lots"]);
  const all = `Lots!D${FIRST}#`;
  const two: [string, string, string, Format][] = [
    ["Clean price (EUR/kg)", `=SUMPRODUCT(${price},${share})`, "=AveragePrice", "money"],
    ["Diameter by mass (micron)", micronOf(share, "mass", "mean"), "=Certificate!B14", "decimal"],
    ["Diameter by length (micron)", micronOf(share, "length", "mean"), "=Certificate!C14", "decimal"],
    ["CV of diameter, by length", micronOf(share, "length", "cv"), "=Certificate!C16", "percent"],
    [
      "VM of clean wool",
      `=SUMPRODUCT(${property(2)},${share})`,
      `=SUMPRODUCT(${property(2)},${all})/SUM(${all})`,
      "percent",
    ],
    [
      "Hauteur (mm)",
      `=SUMPRODUCT(${property(3)},${share})`,
      `=SUMPRODUCT(${property(3)},${all})/SUM(${all})`,
      "decimal1",
    ],
    [
      "Finest count (in the system of Inputs)",
      "=YARN.SPINLIMIT(B9,FewestFibres,CountSystem,B10,Density)",
      "=YARN.SPINLIMIT(C9,FewestFibres,CountSystem,C10,Density)",
      "decimal1",
    ],
    [
      "Fibres at the count wanted (no.)",
      "=YARN.FIBRES(CountWanted,CountSystem,B9,B10,Density)",
      "=YARN.FIBRES(CountWanted,CountSystem,C9,C10,Density)",
      "decimal1",
    ],
  ];
  two.forEach(([label, cheapest, together, format], index) => {
    book.put(sheet, `A${7 + index}`, label);
    book.put(sheet, `B${7 + index}`, cheapest, format);
    book.put(sheet, `C${7 + index}`, together, format);
  });
  book.result(sheet, 16, "Saved against all lots (EUR)", "=(C7-B7)*CleanWanted", "money");
  book.note(sheet, "A17", "A mean hauteur by mass is an approximation; limits above apply to the means of the blend.");

  book.chart(sheet, "A19:G38", {
    kind: "bars",
    title: "Shares of the cheapest blend, and the most there is",
    categories: "",
    values: "Share of clean wool",
    format: "percent1",
    from: "To buy",
    labels: `A${FIRST}:A${FIRST + COUNT - 1}`,
    series: [
      { name: "share", values: `G${FIRST}:G${FIRST + COUNT - 1}` },
      { name: "most there is", values: `F${FIRST}:F${FIRST + COUNT - 1}` },
    ],
    written: true,
  });

  const buying = book.sheet("To buy", "Shares of clean wool in the cheapest blend, and what to buy of each lot.", [16]);
  const own = (column: string) => `${column}${FIRST}#`;
  book.growing(buying, "A6", [
    { header: "Lot", spill: "=Lots[Lot]" },
    { header: "Clean price (EUR/kg)", format: "money", spill: `=Lots!F${FIRST}#` },
    {
      header: "Diameter (micron)",
      format: "decimal1",
      spill: `=Lots[Diameter (micron)]*{1,0,0}+Lots[VM base]/Lots!C${FIRST}#*{0,1,0}+Top!B${TOP}#*{0,0,1}`,
    },
    { header: "VM of clean wool", format: "percent" },
    { header: "Hauteur (mm)", format: "decimal1" },
    {
      header: "Most there is",
      format: "percent1",
      spill: `=IF(Lots!B${FIRST}#*Lots!C${FIRST}#>CleanWanted,1,Lots!B${FIRST}#*Lots!C${FIRST}#/CleanWanted)`,
    },
    {
      header: "Share",
      format: "percent",
      spill: `=YARN.LEASTCOST(${own("B")},${own("C")},Limits[[Diameter (micron)]:[Hauteur (mm)]],0,${own("F")},Weighting[[Diameter (micron)]:[Hauteur (mm)]],Lots[CV of diameter])`,
      total: true,
    },
    { header: "Clean (kg)", format: "kg", spill: `=${own("G")}*CleanWanted`, total: true },
    { header: "Greasy (kg)", format: "kg", spill: `=${own("H")}/Lots!C${FIRST}#`, total: true },
    { header: "Of the lot", format: "percent1", spill: `=${own("I")}/Lots!B${FIRST}#` },
    { header: "Cost (EUR)", format: "money", spill: `=${own("H")}*${own("B")}`, total: true },
  ]);
}

function micronOf(masses: string, weighting: string, result: string): string {
  return `=YARN.BLENDMICRON(${masses},Lots[Diameter (micron)],Lots[CV of diameter],"${weighting}","${result}")`;
}

function checks(book: SampleBook): void {
  book.checks([
    ["No wool base and VM base sum to more than the greasy mass", "=SUMPRODUCT(--(Lots[Wool base]+Lots[VM base]>1))=0"],
    [
      "The certified clean masses are the combined yield of the net mass (kg)",
      "=ABS(YieldTogether*NetOffered-CleanOffered)<Rounding",
    ],
    [
      "Cost of the lots is clean mass at clean price, within the rounding of certificates",
      `=ABS(SUMPRODUCT(Lots!D${FIRST}#,Lots!F${FIRST}#)/Lots!G${FIRST - 1}-1)<=CertificateRounding`,
    ],
    ["Measured by length the blend is no coarser than by mass", "=Certificate!C14<=Certificate!B14"],
    ["No lot has more bales to core than it has bales", `=SUMPRODUCT(--(Sampling!C${FIRST}#>Sampling!B${FIRST}#))=0`],
    ["The shares of the blend sum to 100 %", `=ABS('To buy'!G${FIRST - 1}-1)<Rounding`],
    ["No lot is used for more than there is", `=SUMPRODUCT(--('To buy'!G${FIRST}#>'To buy'!F${FIRST}#+Rounding))=0`],
    ["The blend is within the limit of diameter (micron)", "=Blend!B9<=MAX(Limits[Diameter (micron)])+Rounding"],
    ["The blend is within the limit of vegetable matter", "=Blend!B11<=MAX(Limits[VM of clean wool])+Rounding"],
    ["The blend is within the limit of hauteur (mm)", "=Blend!B12>=MIN(Limits[Hauteur (mm)])-Rounding"],
    ["The blend keeps the fewest fibres at the count wanted", "=Blend!B14>=FewestFibres"],
    [
      "The cost of the blend is its price times the clean wool wanted (EUR)",
      `=ABS('To buy'!K${FIRST - 1}-Blend!B7*CleanWanted)<Rounding*CleanWanted`,
    ],
  ]);
}
