import { columnLetter, SampleBook, type Entry, type Format, type InputLine } from "./kit";
import { knownTo, savedRuns, SEED, type RangeLine } from "./known-to";

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

const TOP_STAGES: readonly (readonly Entry[])[] = [
  ["scour", "", 0.16, 0, 0, "per in", 0.9, 300, 0],
  ["card and comb", 0.025, 0.1825, 0.06, 3.2, "per out", 1.85, 0, 60],
];
const LOOSE_STAGES = TOP_STAGES.slice(0, 1);

const FINISHING: readonly (readonly Entry[])[] = [
  ["ply", 0.01, "=StandardRegain", 0, 0, "per out", 2.2, 0, 0],
  ["wash", 0.015, "=StandardRegain", 0, 0, "per out", 1.4, 80, 0],
  ["reel and label", 0.005, "=StandardRegain", 0, 0, "per skein", 0.42, 0, 0],
];
const WORSTED_STAGES: readonly (readonly Entry[])[] = [
  ["blend and gill", 0.006, "=StandardRegain", 0, 0, "per in", 0.85, 0, 25],
  ["draw", 0.01, "=StandardRegain", 0, 0, "per out", 1.15, 0, 0],
  ["spin", 0.03, "=StandardRegain", 0, 0, "per out", 5.8, 350, 40],
  ...FINISHING,
];
const SEMIWORSTED_STAGES: readonly (readonly Entry[])[] = [
  ["lay down", 0.004, "=StandardRegain", 0, 0, "per in", 0.55, 0, 25],
  ["card", 0.02, "=StandardRegain", 0, 0, "per in", 0.95, 0, 0],
  ["draw", 0.01, "=StandardRegain", 0, 0, "per out", 1.15, 0, 0],
  ["spin", 0.03, "=StandardRegain", 0, 0, "per out", 5.8, 350, 40],
  ...FINISHING,
];

/** Where the parts of Inputs begin. */
const AT = { route: 4, order: 14, lots: 34, top: 40, loose: 45, worsted: 49, semiworsted: 58, solids: 68 } as const;
const lotCell = (column: string, lot: number) => `${column}${AT.lots + 1 + lot}`;
const stageCell = (column: string, part: number, stages: readonly (readonly Entry[])[], name: string) =>
  `${column}${part + 2 + stages.findIndex(([stage]) => stage === name)}`;

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
    cell: stageCell("B", AT.top, TOP_STAGES, "card and comb"),
    low: 0.02,
    high: 0.035,
    format: "percent",
  },
  { what: "Dye loss", input: "DyeLoss", low: 0.005, high: 0.02, format: "percent" },
  {
    what: "Semi-worsted: loss in carding",
    input: "CardingLoss",
    cell: stageCell("B", AT.semiworsted, SEMIWORSTED_STAGES, "card"),
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
      cell: stageCell("B", part, stages, "spin"),
      low: 0.02,
      high: 0.045,
      format: "percent",
    },
    {
      what: `${route}: spinning rate (EUR/kg)`,
      input: `${name}SpinningRate`,
      cell: stageCell("G", part, stages, "spin"),
      low: 5.5,
      high: 6.3,
      format: "money",
    },
  ]),
  { what: "Freight (EUR per chargeable kg)", input: "FreightRate", low: 1.2, high: 1.7, format: "money" },
];

const CHARGE_BASES = ["value", "mass", "volume", "quantity", "equal"];
const STAGE_BASES = ["per in", "per out", "per lot", "per skein", "percent"];

const STAGE_COLUMNS = [
  { header: "Stage" },
  { header: "Loss (of dry input)", format: "percent" },
  { header: "Regain out", format: "percent" },
  { header: "By-product (of dry input)", format: "percent" },
  { header: "By-product price (EUR/kg)", format: "money" },
  { header: "Basis", choices: STAGE_BASES },
  { header: "Rate (EUR)", format: "price" },
  { header: "Minimum (EUR)", format: "money" },
  { header: "Fixed (EUR)", format: "money" },
] as const;

const ROUTE_FORMATS: (Format | undefined)[] = [undefined, "kg", "kg", "kg", "kg", "kg", "percent", "kg", "percent"];
const COST_FORMATS: (Format | undefined)[] = [undefined, "kg", "kg", "money", "money", "money", "price"];

const count = ORDERS.length;
/** Rows kept for the stages of the longest route. */
const MOST_TO_DYER = TOP_STAGES.length;
const MOST_TO_SKEIN = SEMIWORSTED_STAGES.length;
/** The last row of Cost that a stage before dyeing may take. */
const LAST_TO_DYER = 7 + MOST_TO_DYER;
/** Where the parts of Route begin. */
const ROUTE_AT = { skein: 24, needs: 27 + MOST_TO_SKEIN, dyer: 31 + MOST_TO_SKEIN } as const;
/** The stages of the route that is chosen, with their headings. */
const TO_DYER = 'IF(DyedAs="top",TopStages[#All],LooseStages[#All])';
const TO_SKEIN = 'IF(SpunAs="worsted",WorstedStages[#All],SemiworstedStages[#All])';
const LOSSES_TO_SKEIN =
  'IF(SpunAs="worsted",WorstedStages[Loss (of dry input)],SemiworstedStages[Loss (of dry input)])';
/** Rows kept for the lots of one solid. */
const DYE_LOTS = 9;

export function orderToLandedCost(): SampleBook {
  const book = new SampleBook({
    title: "From the order of skeins to landed cost",
    purpose:
      "For an order of skeins in six heather colourways: how much greasy wool to buy, how much of each solid to dye and in which lots, how to weigh up each blend, which count and twist to order, and what each skein costs when it has landed.",
    outcomes: [
      [`="A skein costs EUR "&TEXT(LandedPerSkein,"0.00")&" when it has landed"`, "Cost"],
      [
        `="Greasy wool to buy: "&TEXT(GreasyNeeded,"#,##0")&" kg for "&TEXT(SkeinsOrdered,"#,##0")&" skeins of "&TEXT(SkeinMass,"0")&" g"`,
        "Route",
      ],
      [
        `="To dye: "&TEXT(DyedInLots,"#,##0")&" kg in whole lots, "&TEXT(DyedInLots-DyedNeeded,"#,##0")&" kg of it to stock"`,
        "Blends",
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
      "1. Choose the route on Inputs: worsted (dyed top is gilled), or semi-worsted (what was dyed loose or as top is laid down and carded). Then change the other boxed cells: the order, the recipes, the wool lots, the stages with their losses and charges.",
      "2. Read Route (wool to buy), Blends (solids to dye, dye lots, weigh-up), Slivers (the worsted blend at the gill), Yarn (what to tell the spinner) and Cost.",
      "3. Checks must hold before anything is ordered.",
    ],
  });

  inputs(book);
  route(book);
  blends(book);
  slivers(book);
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
  const sheet = book.sheet("Inputs", "Everything that is typed in. ", [38]);
  book.heading(sheet, `A${AT.route}`, "The route through the mills");
  book.input(sheet, AT.route + 1, "Route", "RouteChosen", FIRST_ROUTE, "text", ROUTE_WORDS);
  book.table(
    sheet,
    `A${AT.route + 3}`,
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
    `A${AT.route + 8}`,
    "No schedule names semi-worsted yarn: its form is what spinner and buyer agreed in this invented case. Ask; for labels the law decides.",
  );
  book.heading(sheet, `A${AT.order}`, "The yarn and the order");
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
  singles.forEach(([label, name, value, format], index) =>
    book.input(sheet, AT.order + 1 + index, label, name, value, format),
  );

  book.heading(sheet, `D${AT.order}`, "Order and recipes (shares by mass; each row sums to 100 %)");
  book.table(
    sheet,
    `D${AT.order + 1}`,
    "Recipes",
    [
      { header: "Colourway" },
      { header: "Skeins (no.)", format: "whole" },
      ...SOLIDS.map((header) => ({ header, format: "percent" as const })),
    ],
    ORDERS.map(([colourway, skeins, shares]) => [colourway, skeins, ...shares]),
  );

  book.heading(sheet, `D${AT.order + 9}`, "Fixed figures");
  const fixed: InputLine[] = [
    ["Grams in a kilogram (g)", "GramsPerKg", 1000, "whole"],
    ["Rounding that a check lets pass (any unit)", "Rounding", 0.000000001, "tiny"],
    ["Cents that a check lets pass (EUR)", "Cent", 0.005, "kg3"],
  ];
  fixed.forEach((line, index) => book.inputAt(sheet, 4, 8, AT.order + 10 + index, ...line));

  book.heading(sheet, `A${AT.lots}`, "Wool lots on offer");
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
    ],
    LOTS,
  );

  const parts = [
    [AT.top, "TopStages", "From greasy wool to top (fibre dyed as top)", TOP_STAGES],
    [AT.loose, "LooseStages", "From greasy wool to loose wool (fibre dyed loose)", LOOSE_STAGES],
    [AT.worsted, "WorstedStages", "Worsted: from dyed top to labelled skeins", WORSTED_STAGES],
    [AT.semiworsted, "SemiworstedStages", "Semi-worsted: from dyed fibre to labelled skeins", SEMIWORSTED_STAGES],
  ] as const;
  for (const [part, name, heading, stages] of parts) {
    book.heading(sheet, `A${part}`, heading);
    // What scouring takes is what the core tests of the lots say.
    const scoured = `=1-CombinedYield/(1+C${part + 2})`;
    const rows = stages.map(([stage, loss, ...rest]) => [stage, stage === "scour" ? scoured : loss, ...rest]);
    book.table(sheet, `A${part + 1}`, name, STAGE_COLUMNS, rows as Entry[][]);
  }

  book.heading(sheet, `A${AT.solids}`, "Solids: what the dyer charges");
  book.table(
    sheet,
    `A${AT.solids + 1}`,
    "Solids",
    [{ header: "Solid" }, { header: "Rate (EUR/kg)", format: "money" }, { header: "Fee a lot (EUR)", format: "money" }],
    SOLIDS.map((solid, index) => [solid, [2.4, 4.6, 4.1, 3.9, 3.9, 4.4, 4.8, 4.7][index] as number, 55]),
  );

  book.heading(sheet, `E${AT.solids}`, "Bringing the skeins home");
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
    book.inputAt(sheet, 5, 9, AT.solids + 2 + index, label, name, value, format),
  );
  book.table(
    sheet,
    `E${AT.solids + 14}`,
    "Sharing",
    [{ header: "Charge" }, { header: "Shared by", choices: CHARGE_BASES }],
    [
      ["Freight", "mass"],
      ["Insurance", "value"],
      ["Duty", "value"],
      ["Customs fee", "value"],
      ["Broker", "equal"],
    ],
  );
}

function tables(book: SampleBook): void {
  const counts = book.sheet("Count systems", "The count systems that the library knows, with their words.");
  book.spill(counts, "A5", "=YARN.COUNTSYSTEMS()", [undefined, undefined, undefined, "decimal", undefined]);
  const regains = book.sheet(
    "Standard regains",
    "Water that a fibre may hold by contract or law, as a share of its dry mass.",
    [],
    "portrait",
  );
  book.spill(regains, "A5", '=YARN.REGAINS("EU label")', [undefined, undefined, "percent", undefined]);
}

/** The mass into the first stage of a table below a heading; where the table is refused, so is this: blank is not 0. */
const firstOf = (heading: number) => `=IF(ISERROR(A${heading + 1}),A${heading + 1},B${heading + 2})`;

function route(book: SampleBook): void {
  const sheet = book.sheet("Route", "Quantities from the order back to the greasy wool.", [34]);
  book.heading(sheet, "A5", "Wool lots");
  book.headers(sheet, "A6", ["Lot", "Scoured yield, 16 % regain", "Clean mass (kg)", "Clean price (EUR/kg)"]);
  LOTS.forEach((_, index) => book.put(sheet, `A${7 + index}`, `=INDEX(Lots[Lot],${index + 1})`));
  book.spill(sheet, "B7", '=YARN.WOOLYIELD("scoured 16",Lots[Wool base],Lots[VM base])', ["percent"], {
    headed: false,
  });
  book.spill(sheet, "C7", "=YARN.CLEANMASS(Lots[Net greasy (kg)],B7:B9)", ["whole"], { headed: false });
  book.spill(sheet, "D7", "=YARN.CLEANPRICE(Lots[Price greasy (EUR/kg)],B7:B9)", ["money"], { headed: false });

  book.result(sheet, 11, "Greasy wool on offer (kg)", "=SUM(Lots[Net greasy (kg)])", "whole");
  book.result(
    sheet,
    12,
    "Yield of all lots together",
    "=YARN.COMBINEDYIELD(Lots[Net greasy (kg)],B7:B9)",
    "percent",
    "CombinedYield",
  );
  book.result(
    sheet,
    13,
    "Average greasy price (EUR/kg)",
    "=SUMPRODUCT(Lots[Net greasy (kg)],Lots[Price greasy (EUR/kg)])/B11",
    "price",
    "GreasyPrice",
  );
  book.result(sheet, 14, "Skeins ordered (no.)", "=SUM(Recipes[Skeins (no.)])", "whole", "SkeinsOrdered");
  book.result(sheet, 15, "Mass of the skeins (kg)", "=SkeinsOrdered*SkeinMass/GramsPerKg", "kg", "OrderMass");

  book.heading(sheet, "A17", '="Route: "&RouteChosen');
  const chosen = (heading: string) => `=INDEX(Routes[${heading}],MATCH(RouteChosen,Routes[Route],0))&""`;
  book.result(sheet, 18, "Dyed as", chosen("Dyed as"), "text", "DyedAs");
  book.result(sheet, 19, "Spun", chosen("Spun"), "text", "SpunAs");
  book.result(sheet, 20, "Form of its regain, as agreed", chosen("Form of its regain"), "text", "RegainForm");
  book.result(
    sheet,
    21,
    "Standard regain of the yarn",
    '=YARN.REGAIN("wool",RegainForm,"EU label")',
    "percent",
    "StandardRegain",
  );
  book.result(
    sheet,
    22,
    "Regain of what goes to the dyer",
    '=IF(DyedAs="top",INDEX(TopStages[Regain out],ROWS(TopStages[Regain out])),INDEX(LooseStages[Regain out],ROWS(LooseStages[Regain out])))',
    "percent",
    "RegainToDyer",
  );

  book.heading(sheet, `A${ROUTE_AT.skein}`, "Dyed solids to skeins (kg)");
  book.spill(
    sheet,
    `A${ROUTE_AT.skein + 1}`,
    `=YARN.ROUTE(OrderMass,${TO_SKEIN},"needed",StandardRegain)`,
    ROUTE_FORMATS,
  );
  const below = ROUTE_AT.needs;
  book.result(sheet, below, "Dyed fibre needed (kg)", firstOf(ROUTE_AT.skein), "kg", "DyedNeeded");
  book.result(sheet, below + 1, "Dyed fibre in whole lots (kg)", "=SUM(Blends!$B$18:$I$18)", "kg", "DyedInLots");
  book.result(
    sheet,
    below + 2,
    "Fibre to the dyer, at its own regain (kg)",
    "=YARN.CONDITIONED(YARN.NEED(DyedInLots,DyeLoss),StandardRegain,RegainToDyer)",
    "kg",
    "FibreToDyer",
  );

  book.heading(sheet, `A${ROUTE_AT.dyer}`, '="Greasy wool to "&IF(DyedAs="top","top","loose wool")&" (kg)"');
  book.spill(sheet, `A${ROUTE_AT.dyer + 1}`, `=YARN.ROUTE(FibreToDyer,${TO_DYER},"needed",0)`, ROUTE_FORMATS);
  const greasy = ROUTE_AT.dyer + MOST_TO_DYER + 3;
  book.result(sheet, greasy, "Greasy wool to buy (kg)", firstOf(ROUTE_AT.dyer), "kg", "GreasyNeeded");
}

function blends(book: SampleBook): void {
  const sheet = book.sheet("Blends", "What to dye, in which lots, and how to weigh up each blend.", [26]);
  book.heading(sheet, "A5", "Blend to lay down for each colourway (kg)");
  book.headers(sheet, "A6", ["Colourway", "Skeins (kg)", "Blend (kg)", "Shares sum to"]);
  ORDERS.forEach((_, index) => {
    const row = 7 + index;
    book.put(sheet, `A${row}`, `=INDEX(Recipes[Colourway],${index + 1})`);
    book.put(sheet, `B${row}`, `=INDEX(Recipes[Skeins (no.)],${index + 1})*SkeinMass/GramsPerKg`, "kg");
    book.put(sheet, `D${row}`, `=SUM(INDEX(Recipes[[${SOLIDS[0]}]:[${SOLIDS[7]}]],${index + 1},0))`, "percent");
  });
  book.spill(sheet, "C7", `=YARN.NEED(B7:B${6 + count},${LOSSES_TO_SKEIN})`, ["kg"], { headed: false });

  book.heading(sheet, "A15", "Solids needed for all colourways (kg)");
  book.headers(sheet, "A16", ["", ...SOLIDS]);
  book.put(sheet, "A17", "Dyed fibre needed (kg)");
  book.spill(sheet, "B17", `=YARN.MIXNEED(SharesMade,B7:B${6 + count},${LOSSES_TO_SKEIN})`, ["kg"], { headed: false });

  book.put(sheet, "A18", "In whole dye lots (kg)");
  book.put(sheet, "A19", "Surplus to stock (kg)");
  book.heading(sheet, "A21", "Dye lots (kg)");
  book.headers(sheet, "A22", ["", ...SOLIDS]);
  for (let lot = 1; lot <= DYE_LOTS; lot++) book.put(sheet, `A${22 + lot}`, `Lot ${lot}`);
  SOLIDS.forEach((_, index) => {
    const column = columnLetter(index + 2);
    const lots = `YARN.DYELOTS(${column}$17,DyeCapacity,DyeMinimum)`;
    for (let lot = 1; lot <= DYE_LOTS; lot++) {
      const row = lot + 1;
      // The table ends with its totals row, whose first cell is no number.
      const formula = `=IFERROR(IF(ISNUMBER(INDEX(${lots},${row},1)),INDEX(${lots},${row},2),""),"")`;
      book.put(sheet, `${column}${22 + lot}`, formula, "kg");
    }
    book.put(sheet, `${column}18`, `=SUM(${column}23:${column}${22 + DYE_LOTS})`, "kg");
    book.put(sheet, `${column}19`, `=${column}18-${column}17`, "kg");
  });
  book.name("SolidsDyed", "Blends", "B16:I18");

  ORDERS.forEach((_, index) => {
    const top = 36 + index * 13;
    book.heading(sheet, `A${top}`, `="Weigh-up card: "&A${7 + index}`, { ownPage: true });
    book.headers(sheet, `A${top + 1}`, ["Solid"]);
    SOLIDS.forEach((solid, place) => book.put(sheet, `A${top + 2 + place}`, solid));
    book.put(sheet, `A${top + 2 + SOLIDS.length}`, "In all");
    book.spill(
      sheet,
      `B${top + 1}`,
      `=YARN.LAYDOWN(C${7 + index},INDEX(SharesMade,${index + 1},0),IF(SpunAs="worsted",1,Sections),ScaleStep)`,
      ["whole", "kg", "kg", "percent", "kg3"],
      { totalled: true },
    );
  });
}

/** Rows of a plan of slivers: heading, the function's own headings, the solids and the sum. */
const SLIVER_ROWS = SOLIDS.length + 4;
const firstSlivers = (order: number) => 17 + order * SLIVER_ROWS;

function slivers(book: SampleBook): void {
  const sheet = book.sheet(
    "Slivers",
    "Worsted: whole slivers of each dyed top to creel up at the first gill, and the shares that every blend then has.",
    [26],
  );
  book.heading(
    sheet,
    "A5",
    '="Shares of each blend as it is made ("&IF(SpunAs="worsted","by its slivers","by its recipe")&")"',
  );
  book.headers(sheet, "A6", ["Colourway", ...SOLIDS, "Furthest off the recipe"]);
  ORDERS.forEach((_, index) => {
    const row = 7 + index;
    const first = firstSlivers(index) + 2;
    const recipe = `INDEX(Recipes[[${SOLIDS[0]}]:[${SOLIDS[7]}]],${index + 1},0)`;
    book.put(sheet, `A${row}`, `=INDEX(Recipes[Colourway],${index + 1})`);
    book.spill(
      sheet,
      `B${row}`,
      `=IF(SpunAs="worsted",TRANSPOSE(D${first}:D${first + SOLIDS.length - 1}),${recipe})`,
      ["percent"],
      { headed: false },
    );
    book.put(sheet, `J${row}`, `=MAX(INDEX(ABS(B${row}:I${row}-${recipe}),0))`, "percent");
  });
  book.name("SharesMade", "Slivers", `B7:I${6 + count}`);
  book.name("OffRecipe", "Slivers", `J7:J${6 + count}`);
  book.put(
    sheet,
    "A14",
    '=IF(SpunAs="worsted","","The route is "&RouteChosen&": its blends are laid down (Blends), not made of slivers.")',
  );
  ORDERS.forEach((_, index) => {
    const top = firstSlivers(index);
    book.heading(sheet, `A${top}`, `="Slivers: "&A${7 + index}`);
    book.spill(
      sheet,
      `A${top + 1}`,
      `=YARN.SLIVERPLAN(INDEX(Recipes[[${SOLIDS[0]}]:[${SOLIDS[7]}]],${index + 1},0),SliverCount,"ktex",MostSlivers,1,Recipes[[#Headers],[${SOLIDS[0]}]:[${SOLIDS[7]}]])`,
      [undefined, "whole", "percent", "percent", "percent"],
      { totalled: true },
    );
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
  const sheet = book.sheet(
    "Cost",
    "From the wool to the landed skein, in EUR; every charge is rounded to the cent and every column foots.",
    [30],
  );
  book.heading(sheet, "A5", '="Greasy wool to "&IF(DyedAs="top","top","loose wool")');
  book.spill(sheet, "A6", `=YARN.ROUTECOST(GreasyNeeded,${TO_DYER},"made",GreasyPrice,0)`, COST_FORMATS);
  book.result(
    sheet,
    LAST_TO_DYER + 2,
    "Cost of what goes to the dyer (EUR/kg)",
    `=INDEX(G6:G${LAST_TO_DYER},ROWS(${TO_DYER})+1)`,
    "price",
    "CostToDyer",
  );

  book.heading(sheet, "A13", "Dyed solids");
  book.headers(sheet, "A14", [
    "Solid",
    "Dyed in lots (kg)",
    "Fibre in, at its own regain (kg)",
    "Cost of the fibre (EUR)",
    "Dyer's charge (EUR)",
    "Cost dyed (EUR)",
    "Cost (EUR/kg)",
  ]);
  SOLIDS.forEach((_, index) => {
    const row = 15 + index;
    const column = columnLetter(index + 2);
    book.put(sheet, `A${row}`, `=INDEX(Solids[Solid],${index + 1})`);
    book.put(sheet, `B${row}`, `=Blends!${column}$18`, "kg");
    book.put(sheet, `D${row}`, `=ROUND(C${row}*CostToDyer,2)`, "money");
    book.put(sheet, `F${row}`, `=D${row}+E${row}`, "money");
    book.put(sheet, `G${row}`, `=F${row}/B${row}`, "price");
  });
  const lastSolid = 14 + SOLIDS.length;
  book.spill(
    sheet,
    "C15",
    `=YARN.CONDITIONED(YARN.NEED(B15:B${lastSolid},DyeLoss),StandardRegain,RegainToDyer)`,
    ["kg"],
    { headed: false },
  );
  book.spill(
    sheet,
    "E15",
    `=YARN.ROUNDCASH(YARN.CHARGE(B15:B${lastSolid},Solids[Rate (EUR/kg)],0,DyeCapacity,Solids[Fee a lot (EUR)]),2)`,
    ["money"],
    {
      headed: false,
    },
  );

  book.heading(sheet, "A25", "Colourways: dyed fibre to labelled skeins");
  book.headers(sheet, "A26", [
    "Colourway",
    "Blend (kg)",
    "Dyed fibre (EUR/kg)",
    "Skeins made (kg)",
    "Value of the skeins (EUR)",
    "Gross mass (kg)",
    "Volume (m³)",
    "Skeins (no.)",
  ]);
  ORDERS.forEach((_, index) => {
    const row = 27 + index;
    const costed = `YARN.ROUTECOST(B${row},${TO_SKEIN},"made",C${row},StandardRegain,SkeinMass/GramsPerKg)`;
    book.put(sheet, `A${row}`, `=INDEX(Recipes[Colourway],${index + 1})`);
    book.put(sheet, `B${row}`, `=Blends!C${7 + index}`, "kg");
    book.put(sheet, `C${row}`, `=MMULT(INDEX(SharesMade,${index + 1},0),G$15:G$${lastSolid})`, "price");
    book.put(sheet, `E${row}`, `=INDEX(${costed},ROWS(${TO_SKEIN})+1,6)`, "money");
    book.put(sheet, `D${row}`, `=INDEX(${costed},ROWS(${TO_SKEIN})+1,3)`, "kg");
    book.put(sheet, `F${row}`, `=D${row}*GrossFactor`, "kg");
    book.put(sheet, `G${row}`, `=D${row}*VolumePerKg`, "kg3");
  });
  const last = 26 + count;
  book.spill(sheet, "H27", `=YARN.SKEINS(D27:D${last},SkeinMass/GramsPerKg)`, ["whole"], { headed: false });

  book.heading(sheet, "A35", "Charges on the way home");
  book.headers(sheet, "A36", ["Charge", "Amount (EUR)", "Shared by"]);
  const charges = [
    `=ROUND(SUM(YARN.CHARGEABLE(SUM(F27:F${last}),SUM(G27:G${last}),FreightDensity,FreightStep))*FreightRate,2)`,
    `=ROUND(YARN.INSURANCE(SUM(E27:E${last})+B37,InsuranceRate),2)`,
    `=ROUND(YARN.DUTY(SUM(E27:E${last})+B37+B38,0,DutyRate),2)`,
    `=ROUND(YARN.FEE(SUM(E27:E${last}),FeeRate,FeeMinimum,FeeMaximum),2)`,
    "=Broker",
  ];
  charges.forEach((formula, index) => {
    book.put(sheet, `A${37 + index}`, `=INDEX(Sharing[Charge],${index + 1})`);
    book.put(sheet, `B${37 + index}`, formula, "money");
    book.put(sheet, `C${37 + index}`, `=INDEX(Sharing[Shared by],${index + 1})`).alignment = {
      horizontal: "left",
      indent: 1,
    };
  });

  book.heading(sheet, "A44", "Landed");
  book.headers(sheet, "A45", ["Colourway"]);
  ORDERS.forEach((_, index) => book.put(sheet, `A${46 + index}`, `=A${27 + index}`));
  book.put(sheet, `A${46 + count}`, "In all");
  book.spill(
    sheet,
    "B45",
    `=YARN.LANDED(E27:H${last},B37:C41)`,
    ["money", "money", "money", "money", "money", "money", "money", "whole", "price"],
    { totalled: true },
  );

  const top = 46 + count + 3;
  const end = top + 1 + count;
  const landed = (column: string) => (row: number) => `=${column}${row - top - 2 + 46}/I${row - top - 2 + 46}`;
  book.heading(sheet, `A${top}`, "Cost build-up of a skein (EUR)");
  book.block(sheet, `A${top + 1}`, count, [
    { header: "Colourway", entry: (row) => `=A${row - top - 2 + 27}` },
    {
      header: "Dyed fibre (EUR)",
      format: "price",
      entry: (row) => `=B${row - top - 2 + 27}*C${row - top - 2 + 27}/H${row - top - 2 + 27}`,
    },
    {
      header: "Blend to skein (EUR)",
      format: "price",
      entry: (row) => `=B${row - top - 2 + 46}/I${row - top - 2 + 46}-B${row}`,
    },
    { header: "Freight (EUR)", format: "price", entry: landed("C") },
    { header: "Insurance (EUR)", format: "price", entry: landed("D") },
    { header: "Duty (EUR)", format: "price", entry: landed("E") },
    { header: "Customs fee (EUR)", format: "price", entry: landed("F") },
    { header: "Broker (EUR)", format: "price", entry: landed("G") },
    { header: "Landed (EUR)", format: "price", entry: (row) => `=SUM(B${row}:H${row})` },
  ]);
  book.chart(sheet, `A${end + 2}:I${end + 20}`, {
    kind: "bars",
    stacked: true,
    title: "Cost build-up of a skein",
    categories: "Colourway",
    values: "EUR a skein",
    format: "money",
    labels: `A${top + 2}:A${end}`,
    series: ["Dyed fibre", "Blend to skein", "Freight", "Insurance", "Duty", "Customs fee", "Broker"].map(
      (name, index) => ({
        name,
        values: `${columnLetter(index + 2)}${top + 2}:${columnLetter(index + 2)}${end}`,
      }),
    ),
  });
  book.name("LandedPerSkein", "Cost", `J${46 + count}`);
  book.name("BuildUp", "Cost", `I${top + 2}:I${end}`);
  book.name("LandedColourways", "Cost", `A46:J${46 + count}`);
}

function checks(book: SampleBook): void {
  const lastBlend = 6 + count;
  const line: [string, string][] = [
    ["The route says what its yarn is: a form of regain is agreed", '=OR(RegainForm="combed",RegainForm="carded")'],
    ["Shares of every recipe sum to 100 %", `=SUMPRODUCT(--(ABS(Blends!D7:D${lastBlend}-1)>Rounding))=0`],
    ["Shares of every blend as it is made are within tolerance of its recipe", "=MAX(OffRecipe)<=SliverTolerance"],
    ["Solids needed are the blends laid down (kg)", `=ABS(SUM(Blends!B17:I17)-SUM(Blends!C7:C${lastBlend}))<Rounding`],
    ["Dyed fibre by recipes agrees with the route", "=ABS(SUM(Blends!B17:I17)-DyedNeeded)<Rounding"],
    ["Every solid has enough in its dye lots", "=MIN(Blends!B19:I19)>-Rounding"],
    ["The wool on offer is enough", "=GreasyNeeded<=Route!B11"],
    ["Twist of the frame is within tolerance of the order", "=ABS(TwistDifference)<=TwistTolerance"],
    ["Skeins made are the skeins ordered", `=SUMPRODUCT(--(Cost!H27:H${26 + count}<>Recipes[Skeins (no.)]))=0`],
  ];
  line.push(
    massBalance("from dyed fibre to skein", ROUTE_AT.skein + 2, MOST_TO_SKEIN),
    massBalance("from greasy wool to the dyer", ROUTE_AT.dyer + 2, MOST_TO_DYER),
  );
  line.push([
    "Stage charges and credits foot to the cost of what goes to the dyer",
    `=ABS(SUM(Cost!D7:D${LAST_TO_DYER})-SUM(Cost!E7:E${LAST_TO_DYER})-INDEX(Cost!F6:F${LAST_TO_DYER},ROWS(${TO_DYER})+1))<Cent`,
  ]);
  const last = 45 + count;
  ["Freight", "Insurance", "Duty", "Customs fee", "Broker"].forEach((charge, index) => {
    const column = columnLetter(index + 3);
    line.push([
      `${charge} over the colourways foots to the cent`,
      `=ROUND(SUM(Cost!${column}46:${column}${last})-Cost!B${37 + index},2)=0`,
    ]);
  });
  line.push([
    "Landed total is value plus charges",
    `=ROUND(Cost!H${last + 1}-SUM(Cost!E27:E${26 + count})-SUM(Cost!B37:B41),2)=0`,
  ]);
  line.push([
    "The cost build-up of a skein adds up to its landed cost",
    `=SUMPRODUCT(--(ABS(BuildUp-Cost!J46:J${last})>Cent))=0`,
  ]);
  book.checks(line);
  book.name("CheckLines", "Checks", `A7:B${6 + line.length}`);
}

function massBalance(way: string, first: number, most: number): [string, string] {
  const [into, byproduct, lost, out] = ["C", "D", "E", "F"].map((c) => `Route!${c}${first}:${c}${first + most - 1}`);
  return [
    `Mass balance of every stage ${way} (dry, kg)`,
    `=AND(COUNT(${into})>0,SUMPRODUCT(--(ABS(${into}-${byproduct}-${lost}-${out})>Rounding))=0)`,
  ];
}
