import { addressOf, columnLetter, SampleBook, type Entry, type Format, type InputLine, type TableColumn } from "./kit";
import { BORDERS, INDENTED } from "./styles";
import { knownTo, savedRuns, SEED, type RangeLine } from "./known-to";
import { columnsUnder, figuresBeside, texts } from "./given-texts";

/** Invented figures of an invented yarn house. */
const SOLIDS = ["Natural", "Charcoal", "Russet", "Gold", "Moss", "Teal", "Indigo", "Plum"];

const ORDERS: readonly [colourway: string, skeins: number, shares: readonly number[]][] = [
  ["Bracken", 1400, [0.2, 0.1, 0.42, 0.18, 0.1, 0, 0, 0]],
  ["Harbour", 900, [0.15, 0.25, 0, 0, 0, 0.35, 0.25, 0]],
  ["Peat smoke", 1300, [0.4, 0.5, 0.06, 0, 0, 0, 0, 0.04]],
  ["Gorse", 700, [0.1, 0, 0.05, 0.55, 0.3, 0, 0, 0]],
  ["Rowan", 800, [0.12, 0.08, 0.6, 0.05, 0, 0, 0, 0.15]],
  ["Winter sea", 900, [0.3, 0.15, 0, 0, 0.05, 0.2, 0.3, 0]],
];

const LOTS: readonly (string | number)[][] = [
  ["Lot 1", 520, 0.6015, 0.0112, 6.85],
  ["Lot 2", 480, 0.5848, 0.0204, 6.4],
  ["Lot 3", 360, 0.6122, 0.0086, 7.1],
];

/** The ways through the mills, in the words that a person chooses from. */
const ROUTES: readonly (readonly [route: string, dyed: string, spun: string, form: string])[] = [
  ["worsted", "top", "worsted", "combed"],
  ["semi-worsted dyed loose", "loose", "semi-worsted", "carded"],
  ["semi-worsted dyed as top", "top", "semi-worsted", "combed"],
];
const ROUTE_WORDS = ROUTES.map(([route]) => route);
const [FIRST_ROUTE] = ROUTE_WORDS as [string];

/** Stage, who does it, basis, rate, minimum, fixed, loss, by-product, its price, regain out, remark. */
const TOP_STAGES: readonly (readonly Entry[])[] = [
  ["scour", "Comber", "per in", 0.9, 300, 0, "", 0, 0, 0.16, "loss by the core tests"],
  ["card and comb", "Comber", "per out", 1.85, 0, 60, 0.025, 0.06, 3.2, 0.1825, "noil is sold"],
];
const LOOSE_STAGES = TOP_STAGES.slice(0, 1);

const FINISHING: readonly (readonly Entry[])[] = [
  ["ply", "Spinner", "per out", 2.2, 0, 0, 0.01, 0, 0, "=StandardRegain", ""],
  ["wash", "Finisher", "per out", 1.4, 80, 0, 0.015, 0, 0, "=StandardRegain", ""],
  ["reel and label", "Finisher", "per skein", 0.42, 0, 0, 0.005, 0, 0, "=StandardRegain", "labels are ours"],
];
const WORSTED_STAGES: readonly (readonly Entry[])[] = [
  ["blend and gill", "Spinner", "per in", 0.85, 0, 25, 0.006, 0, 0, "=StandardRegain", ""],
  ["draw", "Spinner", "per out", 1.15, 0, 0, 0.01, 0, 0, "=StandardRegain", ""],
  ["spin", "Spinner", "per out", 5.8, 350, 40, 0.03, 0, 0, "=StandardRegain", "price of last year"],
  ...FINISHING,
];
const SEMIWORSTED_STAGES: readonly (readonly Entry[])[] = [
  ["lay down", "Spinner", "per in", 0.55, 0, 25, 0.004, 0, 0, "=StandardRegain", ""],
  ["card", "Spinner", "per in", 0.95, 0, 0, 0.02, 0, 0, "=StandardRegain", ""],
  ["draw", "Spinner", "per out", 1.15, 0, 0, 0.01, 0, 0, "=StandardRegain", ""],
  ["spin", "Spinner", "per out", 5.8, 350, 40, 0.03, 0, 0, "=StandardRegain", "price of last year"],
  ...FINISHING,
];

const STAGE_BASES = ["per in", "per out", "per lot", "per skein", "percent"];
/** As this house keeps them: the functions find their columns by the headings, and pass over the others. */
const STAGE_COLUMNS: readonly TableColumn[] = [
  { header: "Stage" },
  { header: "Contractor" },
  { header: "Basis", choices: STAGE_BASES },
  { header: "Rate (EUR)", format: "price" },
  { header: "Minimum (EUR)", format: "money" },
  { header: "Fixed (EUR)", format: "money" },
  { header: "Loss (of dry input)", format: "percent" },
  { header: "By-product (of dry input)", format: "percent" },
  { header: "By-product price (EUR/kg)", format: "money" },
  { header: "Regain out", format: "percent" },
  { header: "Remark" },
];
const stageColumn = (start: string) =>
  columnLetter(STAGE_COLUMNS.findIndex(({ header }) => header.startsWith(start)) + 1);

/** Where the parts of Stages begin, with room for further stages, and the table of lots on Wool. */
const AT = { top: 5, loose: 13, worsted: 20, semiworsted: 33, lots: 11 } as const;
const lotCell = (column: string, lot: number) => `Wool!${column}${AT.lots + 1 + lot}`;
const stageCell = (start: string, part: number, stages: readonly (readonly Entry[])[], name: string) =>
  `Stages!${stageColumn(start)}${part + 2 + stages.findIndex(([stage]) => stage === name)}`;

/** Words of the owner's own, which no function reads. */
const REMARKS: Readonly<Record<string, string>> = { Bracken: "the shop's own", "Winter sea": "new this year" };

/** What each input may lie between: invented, and of a size that would surprise nobody. */
const RANGES: readonly RangeLine[] = [
  ...[
    [1, 6.6, 7.25],
    [2, 6.15, 6.8],
    [3, 6.85, 7.5],
  ].map(([lot, low, high]) => ({
    what: `Greasy price of lot ${lot} (EUR/kg)`,
    input: `PriceOfLot${lot}`,
    cell: lotCell("E", lot as number),
    low: low as number,
    high: high as number,
    format: "money" as const,
    ...(lot === 1 ? {} : { movesWith: "PriceOfLot1" }),
  })),
  {
    what: "Wool base of lot 1",
    input: "WoolBaseOfLot1",
    cell: lotCell("C", 1),
    low: 0.59,
    high: 0.613,
    format: "percent",
  },
  {
    what: "Loss in combing",
    input: "CombingLoss",
    cell: stageCell("Loss", AT.top, TOP_STAGES, "card and comb"),
    low: 0.02,
    high: 0.035,
    format: "percent",
  },
  { what: "Dye loss", input: "DyeLoss", low: 0.005, high: 0.02, format: "percent" },
  {
    what: "Semi-worsted: loss in carding",
    input: "CardingLoss",
    cell: stageCell("Loss", AT.semiworsted, SEMIWORSTED_STAGES, "card"),
    low: 0.015,
    high: 0.03,
    format: "percent",
  },
  ...(
    [
      ["Worsted", "Worsted", AT.worsted, WORSTED_STAGES],
      ["Semi-worsted", "Semiworsted", AT.semiworsted, SEMIWORSTED_STAGES],
    ] as const
  ).flatMap(([route, name, part, stages]): RangeLine[] => [
    {
      what: `${route}: loss in spinning`,
      input: `${name}SpinningLoss`,
      cell: stageCell("Loss", part, stages, "spin"),
      low: 0.02,
      high: 0.045,
      format: "percent",
    },
    {
      what: `${route}: spinning rate (EUR/kg)`,
      input: `${name}SpinningRate`,
      cell: stageCell("Rate", part, stages, "spin"),
      low: 5.5,
      high: 6.3,
      format: "money",
    },
  ]),
  { what: "Freight (EUR per chargeable kg)", input: "FreightRate", low: 1.2, high: 1.7, format: "money" },
];

const CHARGE_BASES = ["value", "mass", "volume", "quantity", "equal"];

const ROUTE_FORMATS: (Format | undefined)[] = [undefined, "kg", "kg", "kg", "kg", "kg", "percent", "kg", "percent1"];
const COST_FORMATS: (Format | undefined)[] = [undefined, "kg", "kg", "money", "money", "money", "price"];

/** A heading over words beside others. */
const ASIDE = { ...INDENTED, wrapText: true, vertical: "bottom" } as const;

const count = ORDERS.length;
/** Colourways that must be planned and costed one by one: more than this are refused by a check. */
const MOST_COLOURWAYS = 12;
/** SLIVERPLAN blends no more, and the cards have room for no more. */
const MOST_SOLIDS = 12;
/** As many stages of a route are looked at by the checks. */
const MOST_STAGES = 50;
/** The first rows of the blocks below their headings. */
const FIRST = { lots: AT.lots + 2, solids: 26, blends: 12, each: 8, charges: 14 } as const;
const lastEach = FIRST.each + MOST_COLOURWAYS - 1;
/** Where the tables of the functions begin. */
const SPILL = { skeins: 34, dyer: 30, fibre: 9, landed: 9, skein: 28 } as const;

/** The stages of the route that is chosen, with their headings. */
const TO_DYER = 'IF(DyedAs="top",TopStages[#All],LooseStages[#All])';
const TO_SKEIN = 'IF(SpunAs="worsted",WorstedStages[#All],SemiworstedStages[#All])';
const LOSSES_TO_SKEIN =
  'IF(SpunAs="worsted",WorstedStages[Loss (of dry input)],SemiworstedStages[Loss (of dry input)])';
/** The recipes, a colourway a row, the solids in the order of Solids. */
const SHARES = "Recipes!B7#";
const SOLID_NAMES = "TRANSPOSE(Solids[Solid])";
/** The place of each colourway in the order. */
const PLACES = "MATCH(Recipes[Colourway],Recipes[Colourway],0)";
const blend = (column: string) => `Blends!${column}${FIRST.blends}#`;
const solid = (column: string) => `Solids!${column}${FIRST.solids}#`;
/** The shares of every blend as it is made, a colourway a row. */
const SHARES_MADE = blend("E");
const LANDED = `Landed!A${SPILL.landed}#`;

export function orderToLandedCost(): SampleBook {
  const book = new SampleBook({
    title: "From the order of skeins to landed cost",
    purpose:
      "For an order of skeins in six heather colourways: how much greasy wool to buy, how much of each solid to dye and in which lots, how to weigh up each blend, which count and twist to order, and what each skein costs when it has landed.",
    outcomes: [
      [`="A skein costs EUR "&TEXT(LandedPerSkein,"0.00")&" when it has landed"`, "Landed"],
      [
        `="Greasy wool to buy: "&TEXT(GreasyNeeded,"#,##0")&" kg for "&TEXT(SkeinsOrdered,"#,##0")&" skeins of "&TEXT(SkeinMass,"0")&" g"`,
        "To dyer",
      ],
      [
        `="To dye: "&TEXT(DyedInLots,"#,##0")&" kg in whole lots, "&TEXT(DyedInLots-DyedNeeded,"#,##0")&" kg of it to stock"`,
        "Solids",
      ],
      [`="Twist of the single to order: "&TEXT(TwistOrdered,"0")&" turns a metre"`, "Yarn"],
    ],
    scenario:
      "Invented: a small yarn house, its contractors, its wool lots, recipes, losses and prices. No figure is anybody's.",
    date: "2026-11-02",
    currency: "EUR",
    massBasis:
      '="Conditioned mass at "&FIXED(100*StandardRegain,2)&" % regain (route: "&RouteChosen&") unless a header says dry or greasy."',
    known: `=IF(RouteChosen<>"${FIRST_ROUTE}","The saved run is of the ${FIRST_ROUTE} route: run vary again for this one.","One landed skein costs EUR "&FIXED(KnownMean,3)&" on average, and nine times in ten between "&FIXED(KnownLow,3)&" and "&FIXED(KnownHigh,3)&", if the ranges of sheet Known to hold (saved run: ${savedRuns()[0]?.runs} runs, seed ${SEED}).")`,
    how: [
      "1. Choose the route on Inputs: worsted (dyed top is gilled), or semi-worsted (what was dyed loose or as top is laid down and carded). Then change the other boxed cells: Orders (a row more is a colourway more; a column more, and a row of Solids, a solid more), Wool, Stages, Solids, Charges.",
      "2. Read To dyer (wool to buy), Solids (what to dye, in which lots), Cards (weigh-up), Slivers (the worsted blend at the gill), Yarn (what to tell the spinner) and Landed.",
      `3. Checks must hold before anything is ordered. Slivers, Cards and Colourways have lines for ${MOST_COLOURWAYS} colourways, slivers and cards for ${MOST_SOLIDS} solids: a check tells when there are more.`,
    ],
  });

  inputs(book);
  orders(book);
  wool(book);
  stages(book);
  solids(book);
  charges(book);
  recipes(book);
  blends(book);
  slivers(book);
  cards(book);
  route(book);
  yarn(book);
  cost(book);
  knownTo(
    book,
    RANGES,
    [
      { what: "Landed cost of a skein (EUR)", name: "LandedPerSkein", format: "price" },
      { what: "Greasy wool to buy (kg)", name: "GreasyNeeded", format: "kg" },
    ],
    FIRST_ROUTE,
  );
  tables(book);
  checks(book);
  return book;
}

function inputs(book: SampleBook): void {
  const sheet = book.sheet("Inputs", "What holds for the whole order.", [42, 14, 4, 36, 14, 16, 18]);
  book.heading(sheet, "A4", "The route through the mills");
  book.input(sheet, 5, "Route", "RouteChosen", FIRST_ROUTE, "text", ROUTE_WORDS);
  book.heading(sheet, "A8", "The yarn");
  const singles: [string, string, number | string, Format][] = [
    ["Skein mass at standard regain (g)", "SkeinMass", 100, "whole"],
    ["Plies (no.)", "Plies", 5, "whole"],
    ["Count of the single (Nm)", "SingleCount", 12.5, "decimal"],
    ["Take-up in plying (of length before)", "PlyTakeUp", 0.03, "percent"],
    ["Twist factor of the single (metric)", "SingleTwistFactor", 93, "decimal"],
    ["Ply twist as a share of single twist", "PlyTwistRatio", 0.55, "percent"],
    ["Spindle speed of the frame (rpm)", "SpindleSpeed", 7000, "whole"],
    ["Front roll diameter (mm)", "RollDiameter", 27, "decimal"],
    ["Front roll speed (rpm)", "RollSpeed", 251, "whole"],
    ["Twist tolerance", "TwistTolerance", 0.02, "percent"],
    ["Dye loss (of dry input)", "DyeLoss", 0.01, "percent"],
    ["Dye machine capacity (kg)", "DyeCapacity", 60, "whole"],
    ["Smallest dye lot (kg)", "DyeMinimum", 20, "whole"],
    ["Semi-worsted: sections of a lay-down (no.)", "Sections", 4, "whole"],
    ["Worsted: count of the slivers (ktex)", "SliverCount", 20, "decimal"],
    ["Worsted: most slivers at the gill (no.)", "MostSlivers", 32, "whole"],
    ["Worsted: share off the recipe that passes", "SliverTolerance", 0.015, "percent"],
    ["Scale step (kg)", "ScaleStep", 0.1, "decimal"],
  ];
  singles.forEach(([label, name, value, format], index) => book.input(sheet, 9 + index, label, name, value, format));

  book.heading(sheet, "D4", "Bringing the skeins home");
  const home: [string, string, number | string, Format][] = [
    ["Gross mass per net mass (kg/kg)", "GrossFactor", 1.04, "decimal"],
    ["Volume (m³ per kg)", "VolumePerKg", 0.0065, "price"],
    ["Freight (EUR per chargeable kg)", "FreightRate", 1.35, "money"],
    ["Density for chargeable mass (kg/m³)", "FreightDensity", 167, "whole"],
    ["Step of chargeable mass (kg)", "FreightStep", 0.5, "decimal"],
    ["Insurance rate", "InsuranceRate", 0.004, "percent"],
    ["Duty rate (set by law; ask the authority)", "DutyRate", 0.05, "percent"],
    ["Customs fee rate", "FeeRate", 0.003464, "percent4"],
    ["Least customs fee (EUR)", "FeeMinimum", 33.58, "money"],
    ["Most customs fee (EUR)", "FeeMaximum", 651.5, "money"],
    ["Broker (EUR)", "Broker", 140, "money"],
  ];
  home.forEach(([label, name, value, format], index) =>
    book.inputAt(sheet, 4, 5, 5 + index, label, name, value, format),
  );

  book.heading(sheet, "D17", "Fixed figures");
  const fixed: InputLine[] = [
    ["Grams in a kilogram (g)", "GramsPerKg", 1000, "whole"],
    ["Rounding that a check lets pass (any unit)", "Rounding", 0.000000001, "tiny"],
    ["Cents that a check lets pass (EUR)", "Cent", 0.005, "kg3"],
  ];
  fixed.forEach((line, index) => book.inputAt(sheet, 4, 5, 18 + index, ...line));

  book.heading(sheet, "D22", "Ways through the mills");
  book.table(
    sheet,
    "D23",
    "Routes",
    [
      { header: "Route" },
      { header: "Dyed as", choices: ["top", "loose"] },
      { header: "Spun", choices: ["worsted", "semi-worsted"] },
      { header: "Form of its regain", choices: ["combed", "carded"] },
    ],
    ROUTES,
  );
  book.note(
    sheet,
    "A29",
    "No schedule names semi-worsted yarn: its form is what spinner and buyer agreed in this invented case. Ask; for labels the law decides.",
  );
}

function orders(book: SampleBook): void {
  const sheet = book.sheet(
    "Orders",
    "The order and its recipes, shares by mass; each row sums to 100 %. A row more is a colourway more, a column more, at any place, a solid that has its row on Solids.",
    [18],
  );
  book.table(
    sheet,
    "A6",
    "Recipes",
    [
      { header: "Colourway" },
      { header: "Skeins (no.)", format: "whole" },
      ...SOLIDS.map((header) => ({ header, format: "percent" as const })),
      { header: "Remark" },
    ],
    ORDERS.map(([colourway, skeins, shares]) => [colourway, skeins, ...shares, REMARKS[colourway] ?? ""]),
  );
}

function recipes(book: SampleBook): void {
  const sheet = book.sheet("Recipes", "The shares of Orders, found by their headings, in the order of Solids.", [26]);
  book.growing(sheet, "A6", [{ header: "Colourway", spill: "=Recipes[Colourway]" }]);
  book.spill(sheet, "B6", `=${SOLID_NAMES}`, ["percent"]);
  book.spill(sheet, "B7", `=${columnsUnder("Recipes", "Solids[Solid]")}`, ["percent"], { headed: false });
}

function wool(book: SampleBook): void {
  const sheet = book.sheet("Wool", "The lots on offer with their core tests, and what their clean wool costs.", [34]);
  const lots = (column: string) => `${column}${FIRST.lots}#`;
  book.result(sheet, 5, "Greasy wool on offer (kg)", "=SUM(Lots[Net greasy (kg)])", "whole", "WoolOnOffer");
  book.result(
    sheet,
    6,
    "Yield of all lots together",
    `=YARN.COMBINEDYIELD(Lots[Net greasy (kg)],${lots("H")})`,
    "percent",
    "CombinedYield",
  );
  book.result(
    sheet,
    7,
    "Average greasy price (EUR/kg)",
    "=SUMPRODUCT(Lots[Net greasy (kg)],Lots[Price greasy (EUR/kg)])/WoolOnOffer",
    "price",
    "GreasyPrice",
  );
  book.heading(sheet, `A${AT.lots - 1}`, "A row more is a lot more");
  book.table(
    sheet,
    `A${AT.lots + 1}`,
    "Lots",
    [
      { header: "Lot" },
      { header: "Net greasy (kg)", format: "whole" },
      { header: "Wool base", format: "percent" },
      { header: "VM base", format: "percent" },
      { header: "Price greasy (EUR/kg)", format: "money" },
      { header: "Remark" },
    ],
    LOTS.map((lot, index) => [...lot, index === 1 ? "burry" : ""]),
  );
  book.growing(sheet, `H${AT.lots + 1}`, [
    {
      header: "Scoured yield, 16 % regain",
      format: "percent",
      spill: '=YARN.WOOLYIELD("scoured 16",Lots[Wool base],Lots[VM base])',
    },
    { header: "Clean mass (kg)", format: "whole", spill: `=YARN.CLEANMASS(Lots[Net greasy (kg)],${lots("H")})` },
    {
      header: "Clean price (EUR/kg)",
      format: "money",
      spill: `=YARN.CLEANPRICE(Lots[Price greasy (EUR/kg)],${lots("H")})`,
    },
  ]);
}

function stages(book: SampleBook): void {
  const sheet = book.sheet(
    "Stages",
    "What each contractor loses and charges, stage by stage in the order of the work: a row more is a stage more.",
  );
  const parts = [
    [AT.top, "TopStages", "From greasy wool to top (fibre dyed as top)", TOP_STAGES],
    [AT.loose, "LooseStages", "From greasy wool to loose wool (fibre dyed loose)", LOOSE_STAGES],
    [AT.worsted, "WorstedStages", "Worsted: from dyed top to labelled skeins", WORSTED_STAGES],
    [AT.semiworsted, "SemiworstedStages", "Semi-worsted: from dyed fibre to labelled skeins", SEMIWORSTED_STAGES],
  ] as const;
  const loss = STAGE_COLUMNS.findIndex(({ header }) => header.startsWith("Loss"));
  for (const [part, name, heading, rows] of parts) {
    book.heading(sheet, `A${part}`, heading);
    // What scouring takes is what the core tests of the lots say.
    const scoured = `=1-CombinedYield/(1+${stageColumn("Regain")}${part + 2})`;
    book.table(
      sheet,
      `A${part + 1}`,
      name,
      STAGE_COLUMNS,
      rows.map((row) => row.map((entry, place) => (place === loss && entry === "" ? scoured : entry))),
    );
  }
}

function solids(book: SampleBook): void {
  const sheet = book.sheet("Solids", "What to dye of each solid, in which lots, and what a kilogram then costs.", [26]);
  const own = (column: string) => `${column}${FIRST.solids}#`;
  const total = (column: string) => `=SUM(${own(column)})`;
  book.result(sheet, 5, "Dyed fibre needed (kg)", total("F"), "kg");
  book.result(sheet, 6, "Dyed fibre in whole lots (kg)", total("I"), "kg", "DyedInLots");
  book.result(sheet, 7, "Dye lots (no.)", total("G"), "whole", "LotsDyed");
  book.result(sheet, 8, "Cost of the solids (EUR)", total("N"), "money");
  const last = FIRST.solids + SOLIDS.length - 1;
  book.chart(sheet, "D4:O22", {
    kind: "bars",
    title: "Solids needed, and what their whole lots make",
    categories: "",
    values: "Dyed fibre (kg)",
    format: "kg",
    labels: `A${FIRST.solids}:A${last}`,
    series: [
      { name: "needed", values: `F${FIRST.solids}:F${last}` },
      { name: "in whole lots", values: `I${FIRST.solids}:I${last}` },
    ],
    written: true,
  });
  book.name("SolidsDyed", "Solids", `A${FIRST.solids}:I${last}`);
  book.table(
    sheet,
    `A${FIRST.solids - 1}`,
    "Solids",
    [
      { header: "Solid" },
      { header: "Rate (EUR/kg)", format: "money" },
      { header: "Fee a lot (EUR)", format: "money" },
      { header: "Remark" },
    ],
    SOLIDS.map((name, index) => [
      name,
      [2.4, 4.6, 4.1, 3.9, 3.9, 4.4, 4.8, 4.7][index] as number,
      55,
      index === 0 ? "scoured only" : "",
    ]),
  );
  book.growing(sheet, `F${FIRST.solids - 1}`, [
    {
      header: "Needed (kg)",
      format: "kg",
      spill: "=SUMIF(Blends!B6#,Solids[Solid],Blends!B7#)",
    },
    { header: "Lots (no.)", format: "wholeOrNone", spill: `=ROUNDUP(${own("F")}/DyeCapacity,0)` },
    {
      header: "Each lot (kg)",
      format: "kg",
      spill: `=IF(${own("G")}=0,0,IF(${own("F")}<${own("G")}*DyeMinimum,DyeMinimum,${own("F")}/(${own("G")}+(${own("G")}=0))))`,
    },
    { header: "In whole lots (kg)", format: "kg", spill: `=${own("G")}*${own("H")}` },
    { header: "Surplus to stock (kg)", format: "kg", spill: `=${own("I")}-${own("F")}` },
    {
      header: "Fibre in, at its own regain (kg)",
      format: "kg",
      spill: `=YARN.CONDITIONED(YARN.NEED(${own("I")},DyeLoss),StandardRegain,RegainToDyer)`,
    },
    { header: "Cost of the fibre (EUR)", format: "money", spill: `=ROUND(${own("K")}*CostToDyer,2)` },
    {
      header: "Dyer's charge (EUR)",
      format: "money",
      spill: `=YARN.ROUNDCASH(YARN.CHARGE(${own("I")},Solids[Rate (EUR/kg)],0,DyeCapacity,Solids[Fee a lot (EUR)]),2)`,
    },
    { header: "Cost dyed (EUR)", format: "money", spill: `=${own("L")}+${own("M")}` },
    {
      header: "Cost (EUR/kg)",
      format: "price",
      spill: `=IF(${own("I")}=0,0,${own("N")}/(${own("I")}+(${own("I")}=0)))`,
    },
  ]);
}

/** The sums over the colourways that charges are worked out from. */
const value = `SUM(Colourways!F${FIRST.each}:F${lastEach})`;

function charges(book: SampleBook): void {
  const sheet = book.sheet("Charges", "What it costs to bring the skeins home. A row more is a charge more.", [40]);
  book.heading(sheet, "A4", "Worked out from the skeins");
  const mass = `SUM(Colourways!G${FIRST.each}:G${lastEach})`;
  const volume = `SUM(Colourways!H${FIRST.each}:H${lastEach})`;
  const lines: [string, string, string][] = [
    [
      "Freight (EUR)",
      `=ROUND(SUM(YARN.CHARGEABLE(${mass},${volume},FreightDensity,FreightStep))*FreightRate,2)`,
      "Freight",
    ],
    ["Insurance (EUR)", `=ROUND(YARN.INSURANCE(${value}+Freight,InsuranceRate),2)`, "Insurance"],
    ["Duty (EUR)", `=ROUND(YARN.DUTY(${value}+Freight+Insurance,0,DutyRate),2)`, "Duty"],
    ["Customs fee (EUR)", `=ROUND(YARN.FEE(${value},FeeRate,FeeMinimum,FeeMaximum),2)`, "CustomsFee"],
  ];
  lines.forEach(([label, formula, name], index) => book.result(sheet, 5 + index, label, formula, "money", name));
  book.heading(sheet, `A${FIRST.charges - 2}`, "Charges and how they are shared");
  book.table(
    sheet,
    `A${FIRST.charges - 1}`,
    "Charges",
    [
      { header: "Charge" },
      { header: "Shared by", choices: CHARGE_BASES },
      { header: "Amount (EUR)", format: "money" },
      { header: "Remark" },
    ],
    [
      ["Freight", "mass", "=Freight", ""],
      ["Insurance", "value", "=Insurance", ""],
      ["Duty", "value", "=Duty", "rate set by law"],
      ["Customs fee", "value", "=CustomsFee", ""],
      ["Broker", "equal", "=Broker", ""],
    ],
  );
  const ofLines = `MMULT(TRANSPOSE(--(COUNTIF(Recipes[Colourway],${texts(`INDEX(${LANDED},0,1)`)})>0)),IF(ISNUMBER(${LANDED}),${LANDED},0))`;
  book.growing(sheet, `F${FIRST.charges - 1}`, [
    {
      header: "Shared out over the colourways (EUR)",
      format: "money",
      spill: `=MMULT(--(Charges[Charge]&" by "&Charges[Shared by]&" (money)"=${texts(`INDEX(${LANDED},1,0)`)}),TRANSPOSE(${ofLines}))`,
    },
  ]);
}

function blends(book: SampleBook): void {
  const sheet = book.sheet("Blends", "How much of each blend to lay down, of what, and which solids that takes.", [26]);
  const own = (column: string) => `${column}${FIRST.blends}#`;
  book.heading(sheet, "A5", "Solids needed for all colourways (kg)");
  book.headers(sheet, "A6", ["Solid"]);
  book.spill(sheet, "B6", `=${SOLID_NAMES}`, ["kg"]);
  book.put(sheet, "A7", "Dyed fibre needed (kg)");
  book.spill(sheet, "B7", `=YARN.MIXNEED(${own("E")},${own("B")},${LOSSES_TO_SKEIN})`, ["kg"], { headed: false });
  book.heading(
    sheet,
    `A${FIRST.blends - 3}`,
    '="Blends to lay down, and their shares as made ("&IF(SpunAs="worsted","by their slivers","by their recipes")&")"',
  );
  book.spill(sheet, `E${FIRST.blends - 1}`, `=${SOLID_NAMES}`, ["percent"]);
  book.growing(sheet, `A${FIRST.blends - 1}`, [
    { header: "Colourway", spill: "=Recipes[Colourway]" },
    { header: "Skeins (kg)", format: "kg", spill: "=Recipes[Skeins (no.)]*SkeinMass/GramsPerKg" },
    { header: "Blend (kg)", format: "kg", spill: `=YARN.NEED(${own("B")},${LOSSES_TO_SKEIN})` },
    {
      header: "Shares of the recipe",
      format: "percent1",
      spill: `=MMULT(${SHARES},--(Solids[Solid]<>""))`,
    },
  ]);
  const slivers = `MMULT(--(${PLACES}=TRANSPOSE(Slivers!A${FIRST.each}:A${lastEach})),${sliversIn(FIRST.each, lastEach)})`;
  book.spill(
    sheet,
    `E${FIRST.blends}`,
    `=IF(SpunAs="worsted",${slivers}/MMULT(${slivers},--(Solids[Solid]<>"")),${SHARES}+0)`,
    ["percent"],
    { headed: false },
  );
}

/** The slivers of each solid on these rows of Slivers, which have them under the names that SLIVERPLAN gives back. */
function sliversIn(from: number, to: number): string {
  const [first, last] = ["E", columnLetter(4 + MOST_SOLIDS)];
  const planned = `Slivers!${first}${from}:${last}${to}`;
  const named = `Slivers!$${first}$${FIRST.each - 1}:$${last}$${FIRST.each - 1}`;
  return `MMULT(IF(ISNUMBER(${planned}),${planned},0),--(TRANSPOSE(${texts(named)})=${SOLID_NAMES}))`;
}

/** The number of each colourway in the order, and its name as long as there is one, on lines that wait for others. */
function eachColourway(book: SampleBook, sheet: ReturnType<SampleBook["sheet"]>, columns: number): void {
  book.headers(sheet, `A${FIRST.each - 1}`, ["No.", "Colourway"]);
  sheet.getCell(`B${FIRST.each - 1}`).alignment = ASIDE;
  for (let row = FIRST.each; row <= lastEach; row++) {
    book.put(sheet, `A${row}`, row - FIRST.each + 1).alignment = { horizontal: "left" };
    const name = `=IF(A${row}>ROWS(Recipes[Colourway]),"",INDEX(Recipes[Colourway],A${row}))`;
    book.put(sheet, `B${row}`, name).alignment = INDENTED;
    for (let column = 1; column <= columns; column++) sheet.getCell(addressOf(column, row)).border = BORDERS.row;
  }
  book.note(sheet, `A${lastEach + 1}`, "Lines without a name wait for further colourways of the order.");
}

function slivers(book: SampleBook): void {
  const sheet = book.sheet(
    "Slivers",
    "Worsted: whole slivers of each dyed top to creel up at the first gill.",
    [9, 18],
  );
  book.put(
    sheet,
    "A5",
    '=IF(SpunAs="worsted","","The route is "&RouteChosen&": its blends are laid down (Cards), not made of slivers.")',
  );
  eachColourway(book, sheet, SOLIDS.length + 5);
  book.headers(sheet, `C${FIRST.each - 1}`, ["Furthest off the recipe"]);
  const plan = (row: number) =>
    `YARN.SLIVERPLAN(INDEX(${SHARES},A${row},0),SliverCount,"ktex",MostSlivers,1,${SOLID_NAMES})`;
  book.spill(sheet, `D${FIRST.each - 1}`, `=TRANSPOSE(INDEX(${plan(FIRST.each)},0,1))`, [undefined, "whole"]);
  for (let row = FIRST.each; row <= lastEach; row++) {
    const made = sliversIn(row, row);
    const off = `MAX(INDEX(ABS(${made}/SUM(${made})-INDEX(${SHARES},A${row},0)),0))`;
    book.put(sheet, `C${row}`, `=IF(B${row}="","",${off})`, "percent");
    book.spill(sheet, `D${row}`, `=IF(B${row}="","",TRANSPOSE(INDEX(${plan(row)},0,2)))`, [undefined, "wholeOrNone"], {
      headed: false,
    });
  }
}

/** Rows of a card: heading, the function's own headings, the solids, the sum and space. */
const CARD_ROWS = MOST_SOLIDS + 6;

function cards(book: SampleBook): void {
  const sheet = book.sheet("Cards", "Weigh-up cards for the blending floor, a colourway a page.", [20], "landscape");
  for (let card = 1; card <= MOST_COLOURWAYS; card++) {
    const top = 5 + (card - 1) * CARD_ROWS;
    const used = `${card}>ROWS(Recipes[Colourway])`;
    const heading = `=IF(${used},"","Weigh-up card ${card}: "&INDEX(Recipes[Colourway],${card}))`;
    if (card <= count) book.heading(sheet, `A${top}`, heading, { ownPage: true });
    else book.put(sheet, `A${top}`, heading);
    // The question is as large as the answer, as every program lays them: names beside shares.
    const isName = `{1,0}*(Solids[Solid]<>"")>0`;
    const wanted = `G${top + 2}#`;
    book.spill(
      sheet,
      `G${top + 2}`,
      `=IF(${used},"",IF(${isName},Solids[Solid],TRANSPOSE(INDEX(${SHARES_MADE},${card},0))))`,
      [undefined, "percent"],
      { headed: false },
    );
    if (card <= count) {
      book.headers(sheet, `G${top + 1}`, ["Solid", "Share wanted"]);
      sheet.getCell(`G${top + 1}`).alignment = ASIDE;
    }
    const batch = `INDEX(${blend("C")},${card})`;
    book.spill(
      sheet,
      `A${top + 1}`,
      `=IF(${used},"",YARN.LAYDOWN(${batch},${wanted},IF(SpunAs="worsted",1,Sections),ScaleStep))`,
      [undefined, "kg", "kg", "percent", "kg3"],
      { headed: card <= count, totalled: card <= count },
    );
  }
  // The cards in use are printed; a card more is a page more once the print area reaches it.
  sheet.pageSetup.printArea = `A1:H${4 + count * CARD_ROWS}`;
}

/** The mass into the first stage of a table; where the table is refused, so is this: blank is not 0. */
const firstOf = (row: number) => `=IF(ISERROR(A${row}),A${row},B${row + 1})`;

function route(book: SampleBook): void {
  const sheet = book.sheet("To skeins", "From the skeins that are ordered back to the dyed fibre.", [34]);
  book.result(sheet, 5, "Skeins ordered (no.)", "=SUM(Recipes[Skeins (no.)])", "whole", "SkeinsOrdered");
  book.result(sheet, 6, "Mass of the skeins (kg)", "=SkeinsOrdered*SkeinMass/GramsPerKg", "kg", "OrderMass");
  const chosen = (heading: string) => `=INDEX(Routes[${heading}],MATCH(RouteChosen,Routes[Route],0))&""`;
  book.result(sheet, 7, "Dyed as", chosen("Dyed as"), "text", "DyedAs");
  book.result(sheet, 8, "Spun", chosen("Spun"), "text", "SpunAs");
  book.result(sheet, 9, "Form of its regain, as agreed", chosen("Form of its regain"), "text", "RegainForm");
  const regain = '=YARN.REGAIN("wool",RegainForm,"EU label")';
  book.result(sheet, 10, "Standard regain of the yarn", regain, "percent", "StandardRegain");
  book.result(sheet, 11, "Dyed fibre needed (kg)", firstOf(SPILL.skeins), "kg", "DyedNeeded");
  routeTable(book, sheet, SPILL.skeins, "Dyed solids to skeins (kg)", "OrderMass", TO_SKEIN, "StandardRegain");
  flow(book, sheet, "A13:I31", SPILL.skeins, WORSTED_STAGES.length, [0, "nowhere", "nowhere"]);

  const dyer = book.sheet("To dyer", "From the dyed fibre in whole lots back to the greasy wool.", [42]);
  book.result(dyer, 5, "Greasy wool to buy (kg)", firstOf(SPILL.dyer), "kg", "GreasyNeeded");
  book.result(
    dyer,
    6,
    "Regain of what goes to the dyer",
    '=IF(DyedAs="top",INDEX(TopStages[Regain out],ROWS(TopStages[Regain out])),INDEX(LooseStages[Regain out],ROWS(LooseStages[Regain out])))',
    "percent",
    "RegainToDyer",
  );
  book.result(
    dyer,
    7,
    "Fibre to the dyer, at its own regain (kg)",
    "=YARN.CONDITIONED(YARN.NEED(DyedInLots,DyeLoss),StandardRegain,RegainToDyer)",
    "kg",
    "FibreToDyer",
  );
  const way = '="Greasy wool to "&IF(DyedAs="top","top","loose wool")&" (kg)"';
  routeTable(book, dyer, SPILL.dyer, way, "FibreToDyer", TO_DYER, "0");
  flow(book, dyer, "A9:I27", SPILL.dyer, TOP_STAGES.length, [0, "nowhere", 0]);
}

/** The masses through the stages, as many as there are. */
function routeTable(
  book: SampleBook,
  sheet: ReturnType<SampleBook["sheet"]>,
  row: number,
  heading: string,
  mass: string,
  stages: string,
  regain: string,
): void {
  book.heading(sheet, `A${row - 1}`, heading);
  book.spill(sheet, `A${row}`, `=YARN.ROUTE(${mass},${stages},"needed",${regain})`, ROUTE_FORMATS);
}

function flow(
  book: SampleBook,
  sheet: ReturnType<SampleBook["sheet"]>,
  range: string,
  row: number,
  stages: number,
  namedAt: readonly (number | "nowhere")[],
): void {
  const rows = (column: string) => `${column}${row + 1}:${column}${row + stages}`;
  book.chart(sheet, range, {
    kind: "bars",
    stacked: true,
    title: "Dry mass through the stages: what goes on, then what is a by-product, then what is lost",
    categories: "",
    values: "Dry mass (kg)",
    format: "kg",
    labels: rows("A"),
    series: (
      [
        ["goes on", "F"],
        ["by-product", "D"],
        ["lost", "E"],
      ] as const
    ).map(([name, column], index) => ({ name, values: rows(column), namedAt: namedAt[index] as number | "nowhere" })),
    written: true,
    withoutZeros: true,
  });
}

function yarn(book: SampleBook): void {
  const sheet = book.sheet(
    "Yarn",
    "What to tell the spinner, and what the frame's own speeds give.",
    [48, 16, 16],
    "portrait",
  );
  book.heading(sheet, "A5", "Count");
  book.result(sheet, 6, "Single (tex)", '=YARN.COUNT(SingleCount,"Nm","tex")', "decimal", "SingleTex");
  book.result(
    sheet,
    7,
    "Resultant before washing (Nm)",
    '=YARN.PLYCOUNT(SingleCount,Plies,"Nm",PlyTakeUp)',
    "decimal",
    "Resultant",
  );
  book.result(sheet, 8, "Resultant before washing (tex)", '=YARN.COUNT(Resultant,"Nm","tex")', "decimal");
  book.result(
    sheet,
    9,
    "Length of a skein (m)",
    '=YARN.YARNLENGTH(SkeinMass,"g",Resultant,"Nm","m")',
    "decimal",
    "SkeinLength",
  );
  book.result(sheet, 10, "Length of a skein (yd)", '=YARN.YARNLENGTH(SkeinMass,"g",Resultant,"Nm","yd")', "decimal");
  book.heading(sheet, "A12", "Twist");
  book.result(
    sheet,
    13,
    "Single twist to order (turns/m)",
    '=YARN.TWISTFOR(SingleTwistFactor,"metric",SingleCount,"Nm","tpm")',
    "decimal",
    "TwistOrdered",
  );
  book.result(sheet, 14, "Ply twist to order (turns/m)", "=TwistOrdered*PlyTwistRatio", "decimal");
  book.result(
    sheet,
    15,
    "Delivery of the frame (m/min)",
    "=YARN.DELIVERY(RollDiameter,RollSpeed)",
    "decimal",
    "Delivery",
  );
  book.result(
    sheet,
    16,
    "Twist the frame puts in (turns/m)",
    "=YARN.TWIST(SpindleSpeed,Delivery)",
    "decimal",
    "TwistMade",
  );
  book.result(
    sheet,
    17,
    "Twist factor that the frame gives (metric)",
    '=YARN.TWISTFACTOR(TwistMade,"tpm",SingleCount,"Nm","metric")',
    "decimal",
  );
  book.result(sheet, 18, "Frame against order", "=TwistMade/TwistOrdered-1", "percent", "TwistDifference");
}

function cost(book: SampleBook): void {
  const fibre = book.sheet(
    "Fibre cost",
    "What the fibre costs that goes to the dyer; every charge is rounded to the cent.",
    [36],
  );
  const table = `A${SPILL.fibre}#`;
  book.result(
    fibre,
    5,
    "Cost of what goes to the dyer (EUR/kg)",
    `=INDEX(${table},ROWS(${table}),7)`,
    "price",
    "CostToDyer",
  );
  book.heading(fibre, `A${SPILL.fibre - 1}`, '="Greasy wool to "&IF(DyedAs="top","top","loose wool")');
  book.spill(fibre, `A${SPILL.fibre}`, `=YARN.ROUTECOST(GreasyNeeded,${TO_DYER},"made",GreasyPrice,0)`, COST_FORMATS);

  const sheet = book.sheet("Colourways", "From dyed fibre to labelled skeins, a colourway a line.", [9, 18]);
  eachColourway(book, sheet, 11);
  book.headers(sheet, `C${FIRST.each - 1}`, [
    "Blend (kg)",
    "Dyed fibre (EUR/kg)",
    "Skeins made (kg)",
    "Value (EUR)",
    "Gross mass (kg)",
    "Volume (m³)",
    "Quantity (skeins)",
    "Dyed fibre (EUR a skein)",
    "Blend to skein (EUR a skein)",
  ]);
  for (let row = FIRST.each; row <= lastEach; row++) {
    const costed = `YARN.ROUTECOST(C${row},${TO_SKEIN},"made",D${row},StandardRegain,SkeinMass/GramsPerKg)`;
    const line: [string, string, Format][] = [
      ["C", `INDEX(${blend("C")},A${row})`, "kg"],
      ["D", `MMULT(INDEX(${SHARES_MADE},A${row},0),${solid("O")})`, "price"],
      ["E", `INDEX(${costed},ROWS(${TO_SKEIN})+1,3)`, "kg"],
      ["F", `INDEX(${costed},ROWS(${TO_SKEIN})+1,6)`, "money"],
      ["G", `E${row}*GrossFactor`, "kg"],
      ["H", `E${row}*VolumePerKg`, "kg3"],
      ["I", `YARN.SKEINS(E${row},SkeinMass/GramsPerKg)`, "whole"],
      ["J", `C${row}*D${row}/I${row}`, "price"],
      ["K", `F${row}/I${row}-J${row}`, "price"],
    ];
    for (const [column, formula, format] of line)
      book.put(sheet, `${column}${row}`, `=IF($B${row}="","",${formula})`, format);
  }

  const landed = book.sheet(
    "Landed",
    "What the skeins cost when they have landed; every charge foots to the cent.",
    [30],
  );
  const own = `A${SPILL.landed}#`;
  const end = (fromLast: number) => `=INDEX(${own},ROWS(${own}),COLUMNS(${own})-${fromLast})`;
  book.result(landed, 5, "A skein, landed (EUR)", end(0), "price", "LandedPerSkein");
  book.result(landed, 6, "The order, landed (EUR)", end(2), "money", "LandedTotal");
  book.heading(landed, `A${SPILL.landed - 1}`, "Landed");
  book.spill(
    landed,
    `A${SPILL.landed}`,
    `=YARN.LANDED(Colourways!B${FIRST.each - 1}:I${lastEach},Charges[#All])`,
    [undefined, "money", "money", "money", "money", "money", "money", "money", "whole", "price"],
    { totalled: true },
  );
  book.name("LandedColourways", "Landed", `A${SPILL.landed + 1}:J${SPILL.landed + count + 1}`);

  const skein = book.sheet("Skein", "What one skein of each colourway is made up of, in EUR.", [20, 12, 12, 12]);
  const first = SPILL.skein;
  const last = first + count;
  const each = (column: string) =>
    `=SUMIF(Colourways!B${FIRST.each}:B${lastEach},Recipes[Colourway],Colourways!${column}${FIRST.each}:${column}${lastEach})`;
  book.growing(skein, `A${first}`, [
    { header: "Colourway", spill: "=Recipes[Colourway]" },
    { header: "Dyed fibre (EUR)", format: "price", spill: each("J") },
    { header: "Blend to skein (EUR)", format: "price", spill: each("K") },
    {
      header: "Charges (EUR)",
      format: "price",
      spill: `=${figuresBeside("Recipes[Colourway]", `INDEX(${LANDED},0,1)`, `INDEX(${LANDED},0,COLUMNS(${LANDED}))`)}-B${first + 1}#-C${first + 1}#`,
    },
  ]);
  // All of Landed by the skein, but its last two columns.
  const heads = `INDEX(${LANDED},1,0)`;
  const kept = `(${LANDED}<>"")*(LEFT(${heads},8)<>"quantity")*(LEFT(${heads},10)<>"landed per")`;
  book.spill(
    skein,
    `F${first}`,
    `=IF(${kept},IF(ISNUMBER(${LANDED}),${LANDED}/INDEX(${LANDED},0,COLUMNS(${LANDED})-1),${LANDED}),"")`,
    [undefined, "price"],
    { totalled: true },
  );
  book.chart(skein, `A5:L${first - 3}`, {
    kind: "bars",
    stacked: true,
    title: "Cost build-up of a skein",
    categories: "",
    values: "EUR a skein",
    format: "money",
    labels: `A${first + 1}:A${last}`,
    written: true,
    series: [
      ["Dyed fibre", "B"],
      ["Blend to skein", "C"],
      ["Charges", "D"],
    ].map(([name, column]) => ({ name: name as string, values: `${column}${first + 1}:${column}${last}` })),
  });
}

function tables(book: SampleBook): void {
  const counts = book.sheet("Count systems", "The count systems that the library knows, with their words.");
  book.spill(counts, "A5", "=YARN.COUNTSYSTEMS()", [undefined, undefined, undefined, "count", undefined]);
  const regains = book.sheet(
    "Standard regains",
    "Water that a fibre may hold by contract or law, as a share of its dry mass.",
    [],
    "portrait",
  );
  book.spill(regains, "A5", '=YARN.REGAINS("EU label")', [undefined, undefined, "percentOrZero", undefined]);
}

function checks(book: SampleBook): void {
  const each = (column: string) => `Colourways!${column}${FIRST.each}:${column}${lastEach}`;
  const fibre = `'Fibre cost'!A${SPILL.fibre}#`;
  const balance = (sheet: string, row: number) => {
    const [into, byProduct, lost, out] = ["C", "D", "E", "F"].map(
      (column) => `'${sheet}'!${column}${row + 1}:${column}${row + MOST_STAGES}`,
    ) as [string, string, string, string];
    return `=AND(COUNT(${into})=ROWS('${sheet}'!A${row}#)-1,SUMPRODUCT(--(ABS(${into}-${byProduct}-${lost}-${out})>Rounding))=0)`;
  };
  const skein = (column: string) => `Skein!${column}${SPILL.skein + 1}#`;
  book.checks([
    ["The route says what its yarn is: a form of regain is agreed", '=OR(RegainForm="combed",RegainForm="carded")'],
    [
      "Every colourway of the order has its line in Slivers and in Colourways, and once",
      `=SUMPRODUCT(--(COUNTIF(Slivers!B${FIRST.each}:B${lastEach},Recipes[Colourway])<>1))+SUMPRODUCT(--(COUNTIF(${each("B")},Recipes[Colourway])<>1))=0`,
    ],
    [
      "Every solid of Solids is a column of Orders, once",
      "=SUMPRODUCT(--(COUNTIF(Recipes[#Headers],Solids[Solid])<>1))=0",
    ],
    ["Shares of every recipe sum to 100 %", `=SUMPRODUCT(--(ABS(${blend("D")}-1)>Rounding))=0`],
    [
      "Shares of every blend as it is made are within tolerance of its recipe",
      `=SUMPRODUCT(--(ABS(${SHARES_MADE}-${SHARES})>SliverTolerance))=0`,
    ],
    ["Solids needed are the blends laid down (kg)", `=ABS(SUM(${solid("F")})-SUM(${blend("C")}))<Rounding`],
    ["Dyed fibre by recipes agrees with the route", `=ABS(SUM(${solid("F")})-DyedNeeded)<Rounding`],
    ["Every solid has enough in its dye lots", `=MIN(${solid("J")})>-Rounding`],
    [
      "The dye lots of the solid that has most are those of the dyer's plan",
      `=ABS(MAX(INDEX(YARN.DYELOTS(MAX(${solid("F")}),DyeCapacity,DyeMinimum),0,2))-INDEX(${solid("I")},MATCH(MAX(${solid("F")}),${solid("F")},0)))<Rounding`,
    ],
    ["The wool on offer is enough", "=GreasyNeeded<=WoolOnOffer"],
    ["Twist of the frame is within tolerance of the order", "=ABS(TwistDifference)<=TwistTolerance"],
    [
      "Skeins made are the skeins ordered",
      `=SUMPRODUCT(--(SUMIF(${each("B")},Recipes[Colourway],${each("I")})<>Recipes[Skeins (no.)]))=0`,
    ],
    ["Mass balance of every stage from dyed fibre to skein (dry, kg)", balance("To skeins", SPILL.skeins)],
    ["Mass balance of every stage from greasy wool to the dyer (dry, kg)", balance("To dyer", SPILL.dyer)],
    [
      "Stage charges and credits foot to the cost of what goes to the dyer",
      `=ABS(SUM(INDEX(${fibre},0,4))-SUM(INDEX(${fibre},0,5))-INDEX(${fibre},ROWS(${fibre}),6))<Cent`,
    ],
    [
      "Every charge over the colourways foots to the cent",
      `=SUMPRODUCT(--(ABS(Charges!F${FIRST.charges}#-Charges[Amount (EUR)])>=Cent))=0`,
    ],
    ["Landed total is value plus charges", `=ROUND(LandedTotal-${value}-SUM(Charges[Amount (EUR)]),2)=0`],
    [
      "The cost build-up of the skeins adds up to what they cost landed (EUR)",
      `=ABS(SUMPRODUCT(${skein("B")}+${skein("C")},Recipes[Skeins (no.)])+SUM(Charges!F${FIRST.charges}#)-LandedTotal)<Cent`,
    ],
  ]);
  book.name("CheckLines", "Checks", "A7:B24");
}
