import { SampleBook, type Format, type InputLine } from "./kit";

/** Invented figures of an invented yarn house. */
const SOLIDS = ["Ecru", "Slate", "Ochre", "Brick", "Sage", "Marine", "Black"];

const ORDERS: readonly [colourway: string, skeins: number, shares: readonly number[]][] = [
  ["Driftwood", 600, [0.45, 0.35, 0.12, 0, 0, 0, 0.08]],
  ["Kelp", 450, [0.1, 0.15, 0.2, 0, 0.5, 0.05, 0]],
  ["Heron", 700, [0.25, 0.45, 0, 0, 0, 0.2, 0.1]],
  ["Sandbar", 500, [0.62, 0.08, 0.25, 0.05, 0, 0, 0]],
  ["Beacon", 350, [0.05, 0, 0.1, 0.75, 0, 0, 0.1]],
  ["Tidepool", 550, [0.15, 0.1, 0, 0, 0.3, 0.45, 0]],
  ["Oyster", 400, [0.8, 0.2, 0, 0, 0, 0, 0]],
  ["Night crossing", 450, [0, 0.15, 0, 0, 0, 0.4, 0.45]],
];

const STAGE_COLUMNS = [
  { header: "Stage" },
  { header: "Loss (of dry input)", format: "percent" },
  { header: "Regain out", format: "percent" },
  { header: "By-product (of dry input)", format: "percent" },
] as const;

const WOOL_STAGES = 3;
const YARN_STAGES = 7;
const ROUTE_FORMATS: (Format | undefined)[] = [undefined, "kg", "kg", "kg", "kg", "kg", "percent", "kg", "percent"];

/** Recipes as a matrix, one row a colourway. */
const SHARES = `Orders[[${SOLIDS[0]}]:[${SOLIDS[SOLIDS.length - 1]}]]`;
const SHARE_HEADINGS = `Orders[[#Headers],[${SOLIDS[0]}]:[${SOLIDS[SOLIDS.length - 1]}]]`;
const YARN_MASSES = "Orders[Skeins (no.)]*SkeinMass/GramsPerKg";
const YARN_LOSSES = "YarnStages[Loss (of dry input)]";

/** Where things stand that other sheets call. */
const YARN_ROUTE = 16;
const WOOL_ROUTE = 28;
const FIRST_BLEND = 7;
const LAST_BLEND = FIRST_BLEND + ORDERS.length - 1;
const FIRST_SOLID = LAST_BLEND + 5;
const LAST_SOLID = FIRST_SOLID + SOLIDS.length - 1;
const CARD_ROWS = SOLIDS.length + 5;
const FIRST_CARD = 5;

export function orderPlanner(): SampleBook {
  const book = new SampleBook({
    title: "Order planner",
    purpose:
      "For an order of skeins per colourway: the wool to buy, the solids to dye beyond the stock and in which lots, a weigh-up card for every blend, and the spindle hours and spindles that the spinner must keep free.",
    outcomes: [
      [`="Greasy wool to buy: "&TEXT(GreasyNeeded,"#,##0")&" kg for "&TEXT(SkeinsOrdered,"#,##0")&" skeins"`, "Plan"],
      [`="Dyed fibre needed: "&TEXT(DyedNeeded,"#,##0.0")&" kg"`, "Route"],
      [
        `="Spindles needed: "&TEXT(SpindlesNeeded,"0")&" of the "&TEXT(FrameSpindles,"0")&" that the frame has"`,
        "Spinning",
      ],
    ],
    scenario:
      "Invented: a small yarn house that orders eight heather colourways of one yarn, its stock, recipes and losses. Its route is semi-worsted: dyed top is laid down and carded, and by agreement its yarn has the regain of combed wool. No figure is anybody's.",
    date: "2026-11-09",
    currency: "EUR",
    massBasis: "Conditioned mass at the standard regain of the fibre unless a heading says dry or greasy.",
    how: [
      "1. Type the order, the recipes, the stock and the losses into the boxed cells of Inputs. A colourway that is not ordered has 0 skeins.",
      "2. Read Plan: what to buy, to dye and to book.",
      "3. Print Cards for the blending floor. Weigh up section by section and strike out each box.",
      "4. A recipe is approved on a hand-carded pad in the light of the trade before anything is dyed; a worksheet approves no shade.",
    ],
  });
  inputs(book);
  plan(book);
  route(book);
  blends(book);
  cards(book);
  spinning(book);
  checks(book);
  return book;
}

function inputs(book: SampleBook): void {
  const sheet = book.sheet("Inputs", "Everything that is typed in. ", [40, 13]);
  book.heading(sheet, "A4", "Skein and wool");
  book.inputs(sheet, "A5", [
    ["Skein at standard regain (g)", "SkeinMass", 100, "whole"],
    ["Grams in a kilogram (g)", "GramsPerKg", 1000, "whole"],
    ["Fibre", "Fibre", "wool", "text"],
    ["Form", "FibreForm", "combed", "text", ["combed", "carded"]],
    ["Schedule of standard regains", "RegainSchedule", "EU label", "text"],
    ["Wool base of the lot", "WoolBase", 0.6085, "percent"],
    ["Vegetable matter base of the lot", "VmBase", 0.0115, "percent"],
    ["Greasy price (EUR/kg)", "GreasyPrice", 6.7, "money"],
    ["Mass of a bale, greasy (kg)", "BaleMass", 178, "whole"],
    ["Regain of greasy wool in the balance", "GreasyRegain", 0, "percent"],
    ["Rounding that a check lets pass (kg)", "Rounding", 0.000001, "tiny"],
    ["Difference allowed on a weigh-up card", "CardTolerance", 0.005, "percent"],
  ]);
  book.heading(sheet, "D4", "Dyeing, blending and spinning");
  const machines: InputLine[] = [
    ["Dye machine holds (kg)", "DyeCapacity", 45, "whole"],
    ["Smallest dye lot (kg)", "DyeMinimum", 15, "whole"],
    ["Sections of a lay-down (no.)", "Sections", 4, "whole"],
    ["Step of the scale (kg)", "ScaleStep", 0.1, "decimal"],
    ["Count of the single (in the system below)", "SingleCount", 14, "decimal1"],
    ["Count system", "CountSystem", "Nm", "text", ["Nm", "NeW", "NeC", "tex"]],
    ["Twist factor (in the convention below)", "SingleTwistFactor", 95, "decimal1"],
    ["Twist convention", "Convention", "metric", "text", ["metric", "worsted", "cotton", "tex tpm"]],
    ["Spindle speed (rpm)", "SpindleSpeed", 7200, "whole"],
    ["Efficiency of the frame", "Efficiency", 0.88, "percent"],
    ["Hours until the yarn must be spun (h)", "HoursFree", 60, "whole"],
    ["Spindles of the frame (no.)", "FrameSpindles", 120, "whole"],
    ["Stage at which the single is spun", "SpinStage", "spin", "text"],
  ];
  machines.forEach((line, index) => book.inputAt(sheet, 4, 8, index + 5, ...line));

  book.heading(sheet, "A19", "Order and recipes (shares by mass; each row sums to 100 %)");
  book.table(
    sheet,
    "A20",
    "Orders",
    [
      { header: "Colourway" },
      { header: "Skeins (no.)", format: "whole" },
      ...SOLIDS.map((header) => ({ header, format: "percent" as const })),
    ],
    ORDERS.map(([colourway, skeins, shares]) => [colourway, skeins, ...shares]),
  );
  book.heading(sheet, "A31", "Solids in stock");
  book.table(
    sheet,
    "A32",
    "Solids",
    [{ header: "Solid" }, { header: "In stock (kg)", format: "kg" }],
    SOLIDS.map((solid, index) => [solid, [12.5, 0, 4.2, 0, 8, 0, 21][index] as number]),
  );
  book.heading(sheet, "A42", "From greasy wool to dyed fibre");
  book.table(sheet, "A43", "WoolStages", STAGE_COLUMNS, [
    ["scour", "=1-Route!$B$6/(1+C44)", 0.16, 0],
    ["comb", 0.025, 0.1825, 0.065],
    ["dye", 0.01, 0.1825, 0],
  ]);
  book.note(sheet, "A47", "The loss in scouring follows from the yield of the core test.");
  book.heading(sheet, "A49", "From dyed fibre to labelled skeins");
  book.table(sheet, "A50", "YarnStages", STAGE_COLUMNS, [
    ["blend", 0.004, 0.1825, 0],
    ["card", 0.02, 0.1825, 0],
    ["draw", 0.01, 0.1825, 0],
    ["spin", 0.03, 0.1825, 0],
    ["ply", 0.01, 0.1825, 0],
    ["wash", 0.015, 0.1825, 0],
    ["reel and label", 0.005, 0.1825, 0],
  ]);
}

function plan(book: SampleBook): void {
  const sheet = book.sheet("Plan", "What to buy, to dye and to book for this order.", [40, 14]);
  book.heading(sheet, "A5", "The order");
  book.result(sheet, 6, "Skeins (no.)", "=SUM(Orders[Skeins (no.)])", "whole", "SkeinsOrdered");
  book.result(sheet, 7, "Yarn (kg)", "=SkeinsOrdered*SkeinMass/GramsPerKg", "kg", "OrderMass");
  book.heading(sheet, "A9", "To buy and to dye");
  book.result(sheet, 10, "Greasy wool to buy (kg)", `=Route!B${WOOL_ROUTE + 1}`, "kg", "GreasyNeeded");
  book.result(sheet, 11, "Bales to buy (no.)", "=ROUNDUP(GreasyNeeded/BaleMass,0)", "whole");
  book.result(sheet, 12, "Cost of the bales (EUR)", "=B11*BaleMass*GreasyPrice", "money");
  book.result(sheet, 13, "Solids to dye (kg)", `=SUM(Blends!F${FIRST_SOLID}:F${LAST_SOLID})`, "kg", "Dyed");
  book.result(sheet, 14, "Dye lots (no.)", `=SUM(Blends!E${FIRST_SOLID}:E${LAST_SOLID})`, "whole");
  book.heading(sheet, "A16", "To book at the spinner");
  book.result(sheet, 17, "Single to spin (kg)", "=SpunMass", "kg");
  book.result(sheet, 18, "Spindle hours (h)", "=SpunMass*GramsPerKg/SpinRate", "whole", "SpindleHours");
  book.result(
    sheet,
    19,
    "Spindles for the hours there are (no.)",
    "=YARN.SPINDLESNEEDED(SpunMass,HoursFree,SpinRate)",
    "whole",
    "SpindlesNeeded",
  );
  book.result(
    sheet,
    20,
    "Hours on the whole frame (h)",
    "=YARN.MACHINEHOURS(SpunMass,FrameSpindles,SpinRate)",
    "decimal1",
    "FrameHours",
  );

  const first = 24;
  book.heading(sheet, "A22", "Mass through the route (kg, as it lies)");
  book.headers(sheet, "A23", ["After", "Mass (kg)"]);
  const rows: [string, string][] = [
    ["greasy wool", `=Route!B${WOOL_ROUTE + 1}`],
    ...Array.from({ length: WOOL_STAGES }, (_, index): [string, string] => [
      `=Route!A${WOOL_ROUTE + 1 + index}`,
      `=Route!H${WOOL_ROUTE + 1 + index}`,
    ]),
    ["to the blends, with stock", `=Route!B${YARN_ROUTE + 1}`],
    ...Array.from({ length: YARN_STAGES }, (_, index): [string, string] => [
      `=Route!A${YARN_ROUTE + 1 + index}`,
      `=Route!H${YARN_ROUTE + 1 + index}`,
    ]),
  ];
  rows.forEach(([label, formula], index) => {
    book.put(sheet, `A${first + index}`, label);
    book.put(sheet, `B${first + index}`, formula, "kg");
  });
  const last = first + rows.length - 1;
  book.chart(sheet, `D5:L${last}`, {
    kind: "bars",
    title: "Mass through the route",
    categories: "After",
    values: "Mass as it lies (kg)",
    format: "whole",
    labels: `A${first}:A${last}`,
    series: [{ name: "Mass (kg)", values: `B${first}:B${last}` }],
    written: true,
  });
}

function route(book: SampleBook): void {
  const sheet = book.sheet("Route", "Quantities from the order back to the greasy wool. Masses in kg.", [40]);
  book.heading(sheet, "A5", "Wool");
  book.result(sheet, 6, "Scoured yield at 16 % regain", '=YARN.WOOLYIELD("scoured 16",WoolBase,VmBase)', "percent");
  book.result(sheet, 7, "Standard regain", "=YARN.REGAIN(Fibre,FibreForm,RegainSchedule)", "percent", "StandardRegain");
  book.result(sheet, 8, "Clean price (EUR/kg)", "=YARN.CLEANPRICE(GreasyPrice,B6)", "money");
  book.heading(sheet, "A10", "Fibre");
  book.result(sheet, 11, "Dyed fibre that the blends take (kg)", `=B${YARN_ROUTE + 1}`, "kg", "DyedNeeded");
  book.result(sheet, 12, "Of it from stock (kg)", `=DyedNeeded-SUM(Blends!D${FIRST_SOLID}:D${LAST_SOLID})`, "kg");
  book.result(
    sheet,
    13,
    "Single spun (kg)",
    `=INDEX(H${YARN_ROUTE + 1}:H${YARN_ROUTE + YARN_STAGES},MATCH(SpinStage,YarnStages[Stage],0))`,
    "kg",
    "SpunMass",
  );
  book.heading(sheet, `A${YARN_ROUTE - 1}`, "Dyed fibre to labelled skeins (kg)");
  book.spill(
    sheet,
    `A${YARN_ROUTE}`,
    '=YARN.ROUTE(OrderMass,YarnStages[[Stage]:[By-product (of dry input)]],"needed",StandardRegain)',
    ROUTE_FORMATS,
  );
  book.heading(sheet, `A${WOOL_ROUTE - 1}`, "Greasy wool to dyed fibre in whole lots (kg)");
  book.spill(
    sheet,
    `A${WOOL_ROUTE}`,
    '=YARN.ROUTE(Dyed,WoolStages[[Stage]:[By-product (of dry input)]],"needed",GreasyRegain)',
    ROUTE_FORMATS,
  );
}

function blends(book: SampleBook): void {
  const sheet = book.sheet("Blends", "What each colourway takes, and what must be dyed for all of them.", [30]);
  book.heading(sheet, "A5", "Blend to lay down for each colourway");
  book.block(sheet, `A${FIRST_BLEND - 1}`, ORDERS.length, [
    { header: "Colourway", spill: "=Orders[Colourway]" },
    { header: "Skeins (kg)", format: "kg", spill: `=${YARN_MASSES}`, total: true },
    { header: "Blend (kg)", format: "kg", spill: `=YARN.NEED(${YARN_MASSES},${YARN_LOSSES})`, total: true },
    {
      header: "Shares sum to",
      format: "percent",
      entry: () => `=SUM(INDEX(${SHARES},ROW()-ROW(A$${FIRST_BLEND - 1}),0))`,
    },
  ]);
  book.heading(sheet, `A${FIRST_SOLID - 2}`, "Solids to dye for all colourways");
  book.block(sheet, `A${FIRST_SOLID - 1}`, SOLIDS.length, [
    { header: "Solid", spill: "=Solids[Solid]" },
    {
      header: "Needed (kg)",
      format: "kg",
      spill: `=TRANSPOSE(YARN.MIXNEED(${SHARES},${YARN_MASSES},${YARN_LOSSES}))`,
      total: true,
    },
    { header: "In stock (kg)", format: "kg", spill: "=Solids[In stock (kg)]", total: true },
    { header: "To dye (kg)", format: "kg", entry: (row) => `=MAX(0,B${row}-C${row})`, total: true },
    {
      header: "Dye lots (no.)",
      format: "whole",
      entry: (row) => `=IF(D${row}>0,COUNT(INDEX(YARN.DYELOTS(D${row},DyeCapacity,DyeMinimum),0,1)),0)`,
      total: true,
    },
    {
      header: "Dyed in whole lots (kg)",
      format: "kg",
      entry: (row) => `=IF(D${row}>0,MAX(INDEX(YARN.DYELOTS(D${row},DyeCapacity,DyeMinimum),0,2)),0)`,
      total: true,
    },
    { header: "Each lot (kg)", format: "dash", entry: (row) => `=IF(E${row}>0,F${row}/E${row},0)` },
    { header: "Left in stock (kg)", format: "dash", entry: (row) => `=C${row}+F${row}-B${row}`, total: true },
  ]);
}

function cards(book: SampleBook): void {
  const sheet = book.sheet(
    "Cards",
    "Weigh-up cards for the blending floor: weigh the kg per section of every solid, once for each section, and strike out its box.",
    [22, 11, 11, 11, 11, 11, 9, 9, 9, 9, 9, 9],
  );
  ORDERS.forEach((_, index) => {
    const top = FIRST_CARD + index * CARD_ROWS;
    const blend = FIRST_BLEND + index;
    book.heading(sheet, `A${top}`, `=Blends!$A${blend}`, { ownPage: true });
    const number = book.put(sheet, `B${top}`, index + 1);
    number.numFmt = '"card "0';
    const batch = `="Blend "&TEXT(Blends!$C${blend},"#,##0.0")&" kg in "&Sections&" sections"`;
    book.note(sheet, `D${top}`, batch);
    book.headers(sheet, `A${top + 1}`, ["Solid"]);
    book.spill(sheet, `A${top + 2}`, "=Solids[Solid]", [undefined], { headed: false });
    book.spill(
      sheet,
      `B${top + 1}`,
      `=IF(Blends!$C${blend}>0,YARN.LAYDOWN(Blends!$C${blend},INDEX(${SHARES},B${top},0),Sections,ScaleStep),"not ordered")`,
      ["whole", "dash", "dash", "percent", "kg3"],
      { totalled: true },
    );
    for (let section = 1; section <= 6; section++) {
      const column = "GHIJKL"[section - 1] as string;
      const head = book.put(
        sheet,
        `${column}${top + 1}`,
        `=IF(COLUMNS($G1:${column}1)<=Sections,COLUMNS($G1:${column}1),"")`,
      );
      head.alignment = { horizontal: "center", vertical: "bottom" };
      for (let row = top + 2; row < top + 2 + SOLIDS.length; row++) {
        const box = `=IF(AND(ISNUMBER(${column}$${top + 1}),ISNUMBER($C${row})),IF($C${row}>0,"☐",""),"")`;
        book.put(sheet, `${column}${row}`, box).alignment = { horizontal: "center" };
      }
    }
  });
}

function spinning(book: SampleBook): void {
  const sheet = book.sheet("Spinning", "What the single asks of the frame.", [40]);
  book.heading(sheet, "A5", "The frame");
  book.result(
    sheet,
    6,
    "Twist of the single (turns/m)",
    '=YARN.TWISTFOR(SingleTwistFactor,Convention,SingleCount,CountSystem,"tpm")',
    "decimal1",
    "SingleTwist",
  );
  book.result(
    sheet,
    7,
    "Production of a spindle (g/h)",
    '=YARN.SPINRATE(SpindleSpeed,SingleTwist,"tpm",SingleCount,CountSystem,Efficiency)',
    "decimal1",
    "SpinRate",
  );
  book.result(sheet, 8, "Single spun per skein mass (kg/kg)", "=SpunMass/OrderMass", "price", "SpunPerKg");
  book.heading(sheet, "A10", "Each colourway");
  book.block(sheet, "A11", ORDERS.length, [
    { header: "Colourway", spill: "=Orders[Colourway]" },
    { header: "Single to spin (kg)", format: "kg", spill: `=${YARN_MASSES}*SpunPerKg`, total: true },
    {
      header: "Spindle hours (h)",
      format: "decimal1",
      spill: `=${YARN_MASSES}*SpunPerKg*GramsPerKg/SpinRate`,
      total: true,
    },
    {
      header: "Hours on the whole frame (h)",
      format: "decimal1",
      spill: `=${YARN_MASSES}*SpunPerKg*GramsPerKg/SpinRate/FrameSpindles`,
      total: true,
    },
  ]);
}

function checks(book: SampleBook): void {
  const solids = (column: string) => `Blends!${column}${FIRST_SOLID}:${column}${LAST_SOLID}`;
  const blendRows = (column: string) => `Blends!${column}${FIRST_BLEND}:${column}${LAST_BLEND}`;
  const balance = (top: number, stages: number): string => {
    const rows = (column: string) => `Route!${column}${top + 1}:${column}${top + stages}`;
    return `=SUMPRODUCT(--(ABS(${rows("C")}-${rows("D")}-${rows("E")}-${rows("F")})>Rounding))=0`;
  };
  const cardTotals = ORDERS.map((_, index) => `Cards!D${FIRST_CARD + index * CARD_ROWS + 2 + SOLIDS.length}`);
  book.checks([
    ["The shares of every recipe sum to 100 %", `=SUMPRODUCT(--(ABS(${blendRows("D")}-1)>Rounding))=0`],
    [
      "Every colourway has a recipe and every solid a line of stock",
      `=AND(COLUMNS(${SHARES})=ROWS(Solids[Solid]),SUMPRODUCT(--(COUNTIF(${SHARE_HEADINGS},Solids[Solid])<>1))=0)`,
    ],
    ["Solids needed are the blends laid down (kg)", `=ABS(SUM(${solids("B")})-SUM(${blendRows("C")}))<Rounding`],
    ["Solids needed agree with the route (kg)", `=ABS(SUM(${solids("B")})-DyedNeeded)<Rounding`],
    ["Stock and dye lots cover every solid", `=MIN(${solids("H")})>-Rounding`],
    [
      "No dye lot is above the machine or below the smallest lot",
      `=AND(MAX(${solids("G")})<=DyeCapacity+Rounding,SUMPRODUCT((${solids("E")}>0)*(${solids("G")}<DyeMinimum-Rounding))=0)`,
    ],
    ["Mass balance of every stage from greasy wool to dyed fibre (dry, kg)", balance(WOOL_ROUTE, WOOL_STAGES)],
    ["Mass balance of every stage from dyed fibre to skeins (dry, kg)", balance(YARN_ROUTE, YARN_STAGES)],
    [
      "The weigh-up cards sum to the blends, within the difference allowed",
      `=ABS(SUM(${cardTotals.join(",")})/SUM(${blendRows("C")})-1)<=CardTolerance`,
    ],
    [
      "Spindle hours of the colourways sum to the plan (h)",
      `=ABS(SUM(Spinning!C12:C${11 + ORDERS.length})-SpindleHours)<Rounding`,
    ],
    ["The frame has the spindles for the hours there are", "=SpindlesNeeded<=FrameSpindles"],
  ]);
}
