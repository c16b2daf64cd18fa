import { SampleBook, type Format, type InputLine } from "./kit";
import { columnsUnder, texts } from "./given-texts";

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

const STOCK = [12.5, 0, 4.2, 0, 8, 0, 21];

/** Words of the owner's own, which no function reads. */
const WISHES = ["", "", "repeat of last year", "", "", "", "undyed look", ""];
const SHELVES = ["", "", "odd bales", "", "", "", "two lots, keep apart"];

const STAGE_COLUMNS = [
  { header: "Stage" },
  { header: "Regain out", format: "percent" },
  { header: "Loss (of dry input)", format: "percent" },
  { header: "By-product (of dry input)", format: "percent1" },
  { header: "Remark" },
] as const;

const ROUTE_FORMATS: (Format | undefined)[] = [undefined, "kg", "kg", "kg", "kg", "kg", "percent", "kg", "percent1"];

const YARN_LOSSES = "YarnStages[Loss (of dry input)]";

/** Where the blocks begin: the first row of their formulas, below headings and sums. */
const WOOL_ROUTE = 10;
const YARN_ROUTE = 11;
const FIRST = 8;
const SPINNING = 13;
/** Recipes as a matrix, one row a colourway, one column a solid of Stock. */
const SHARES = `Blends!E${FIRST}#`;
const WOOL = `'Wool route'!A${WOOL_ROUTE}#`;
const YARN = `'Yarn route'!A${YARN_ROUTE}#`;
/** Of each solid: its name and the mass needed. */
const SOLID = `Dyeing!A${FIRST}#`;
const NEEDED = `Dyeing!B${FIRST}#`;
/** Columns of what ROUTE gives. */
const IN = 2;
const OUT = 8;
/** Cards stand below each other with room for a few solids more, and there are places for a few colourways more. */
const SPARE_SOLIDS = 3;
const SPARE_CARDS = 4;
const CARD_ROWS = SOLIDS.length + SPARE_SOLIDS + 4;
const FIRST_CARD = 5;
const CARD_FORMATS = [undefined, "kg", "kg", "percent1", "kg3"] as const;
const BOXES = [undefined, undefined, undefined, undefined, undefined, undefined] as const;

export function orderPlanner(): SampleBook {
  const book = new SampleBook({
    title: "Order planner",
    purpose:
      "For an order of skeins per colourway: the wool to buy, the solids to dye beyond the stock and in which lots, a weigh-up card for every blend, and the spindle hours and spindles that the spinner must keep free.",
    outcomes: [
      [`="Greasy wool to buy: "&TEXT(GreasyNeeded,"#,##0")&" kg for "&TEXT(SkeinsOrdered,"#,##0")&" skeins"`, "Plan"],
      [`="Dyed fibre needed: "&TEXT(DyedNeeded,"#,##0.0")&" kg"`, "Yarn route"],
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
      `1. Type the order with its recipes into Orders, the stock into Stock, the losses into Stages, all else into Inputs. A colourway more is a row more of Orders; one that is not ordered has 0 skeins. A solid more is a column more of Orders, at any place, and a row more of Stock under the same name; the cards have room for ${SPARE_SOLIDS} solids and ${SPARE_CARDS} colourways more, and a check tells when one has none.`,
      "2. Read Plan: what to buy, to dye and to book.",
      "3. Print Cards for the blending floor. Weigh up section by section and strike out each box.",
      "4. A recipe is approved on a hand-carded pad in the light of the trade before anything is dyed; a worksheet approves no shade.",
    ],
  });
  inputs(book);
  plan(book);
  routes(book);
  blends(book);
  dyeing(book);
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
    ["Regain of greasy wool in the balance", "GreasyRegain", 0, "percent1"],
    ["Rounding that a check lets pass (kg)", "Rounding", 0.000001, "tiny"],
    ["Difference allowed on a weigh-up card", "CardTolerance", 0.005, "percent1"],
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
    ["Efficiency of the frame", "Efficiency", 0.88, "percent1"],
    ["Hours until the yarn must be spun (h)", "HoursFree", 60, "whole"],
    ["Spindles of the frame (no.)", "FrameSpindles", 120, "whole"],
    ["Stage at which the single is spun", "SpinStage", "spin", "text"],
  ];
  machines.forEach((line, index) => book.inputAt(sheet, 4, 8, index + 5, ...line));

  const orders = book.sheet("Orders", "The order with its recipes: shares by mass, each row sums to 100 %.");
  book.table(
    orders,
    "A5",
    "Orders",
    [
      { header: "Colourway" },
      { header: "Skeins (no.)", format: "whole" },
      ...SOLIDS.map((header) => ({ header, format: "percent1" as const })),
      { header: "Remark" },
    ],
    ORDERS.map(([colourway, skeins, shares], index) => [colourway, skeins, ...shares, WISHES[index] as string]),
  );

  const stock = book.sheet("Stock", "What lies there of each solid.", [20]);
  book.table(
    stock,
    "A5",
    "Solids",
    [{ header: "Solid" }, { header: "Shelf" }, { header: "In stock (kg)", format: "kg" }, { header: "Remark" }],
    SOLIDS.map((solid, index) => [solid, `R${index + 1}`, STOCK[index] as number, SHELVES[index] as string]),
  );

  const stages = book.sheet("Stages", "What each stage loses, in the order of the work: a row more is a stage more.");
  book.heading(stages, "A5", "From greasy wool to dyed fibre");
  book.table(stages, "A6", "WoolStages", STAGE_COLUMNS, [
    ["scour", 0.16, "=1-ScouredYield/(1+[@[Regain out]])", 0, "loss by the core test"],
    ["comb", 0.1825, 0.025, 0.065, "noil is sold"],
    ["dye", 0.1825, 0.01, 0, ""],
  ]);
  book.heading(stages, "G5", "From dyed fibre to labelled skeins");
  book.table(stages, "G6", "YarnStages", STAGE_COLUMNS, [
    ["blend", 0.1825, 0.004, 0, ""],
    ["card", 0.1825, 0.02, 0, ""],
    ["draw", 0.1825, 0.01, 0, ""],
    ["spin", 0.1825, 0.03, 0, ""],
    ["ply", 0.1825, 0.01, 0, ""],
    ["wash", 0.1825, 0.015, 0, ""],
    ["reel and label", 0.1825, 0.005, 0, ""],
  ]);
}

function plan(book: SampleBook): void {
  const sheet = book.sheet("Plan", "What to buy, to dye and to book for this order.", [40, 14]);
  book.heading(sheet, "A5", "The order");
  book.result(sheet, 6, "Skeins (no.)", "=SUM(Orders[Skeins (no.)])", "whole", "SkeinsOrdered");
  book.result(sheet, 7, "Yarn (kg)", "=SkeinsOrdered*SkeinMass/GramsPerKg", "kg", "OrderMass");
  book.heading(sheet, "A9", "To buy and to dye");
  book.result(sheet, 10, "Greasy wool to buy (kg)", `=INDEX(${WOOL},2,${IN})`, "kg", "GreasyNeeded");
  book.result(sheet, 11, "Bales to buy (no.)", "=ROUNDUP(GreasyNeeded/BaleMass,0)", "whole");
  book.result(sheet, 12, "Cost of the bales (EUR)", "=B11*BaleMass*GreasyPrice", "money");
  book.result(sheet, 13, "Solids to dye (kg)", `=SUM(Dyeing!F${FIRST}#)`, "kg", "Dyed");
  book.result(sheet, 14, "Dye lots (no.)", `=SUM(Dyeing!E${FIRST}#)`, "whole");
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

  const stages = (sheetName: string, top: number, from: string, count: number) => ({
    kind: "bars" as const,
    title: from,
    categories: "",
    values: "Mass as it lies after each stage (kg)",
    format: "whole" as const,
    from: sheetName,
    labels: `A${top + 1}:A${top + count}`,
    series: [{ name: "Mass (kg)", values: `H${top + 1}:H${top + count}` }],
    written: true,
  });
  book.chart(sheet, "D5:K12", stages("Wool route", WOOL_ROUTE, "Greasy wool to dyed fibre", 3));
  book.chart(sheet, "D14:K28", stages("Yarn route", YARN_ROUTE, "Dyed fibre to labelled skeins", 7));
}

function routes(book: SampleBook): void {
  const wool = book.sheet(
    "Wool route",
    "From the dyed fibre in whole lots back to the greasy wool. Masses in kg.",
    [40],
  );
  book.result(
    wool,
    5,
    "Scoured yield at 16 % regain",
    '=YARN.WOOLYIELD("scoured 16",WoolBase,VmBase)',
    "percent",
    "ScouredYield",
  );
  book.result(wool, 6, "Clean price (EUR/kg)", "=YARN.CLEANPRICE(GreasyPrice,ScouredYield)", "money");
  book.result(wool, 7, "Dyed in whole lots (kg)", "=Dyed", "kg");
  book.heading(wool, `A${WOOL_ROUTE - 1}`, "Greasy wool to dyed fibre (kg)");
  book.spill(wool, `A${WOOL_ROUTE}`, '=YARN.ROUTE(Dyed,WoolStages[#All],"needed",GreasyRegain)', ROUTE_FORMATS);

  const yarn = book.sheet("Yarn route", "From the skeins ordered back to the dyed fibre. Masses in kg.", [40]);
  book.result(yarn, 5, "Standard regain", "=YARN.REGAIN(Fibre,FibreForm,RegainSchedule)", "percent", "StandardRegain");
  book.result(yarn, 6, "Dyed fibre that the blends take (kg)", `=INDEX(${YARN},2,${IN})`, "kg", "DyedNeeded");
  book.result(yarn, 7, "Of it from stock (kg)", `=DyedNeeded-SUM(Dyeing!D${FIRST}#)`, "kg");
  book.result(
    yarn,
    8,
    "Single spun (kg)",
    `=SUMPRODUCT(--(${texts(`INDEX(${YARN},0,1)`)}=SpinStage),INDEX(${YARN},0,${OUT}))`,
    "kg",
    "SpunMass",
  );
  book.heading(yarn, `A${YARN_ROUTE - 1}`, "Dyed fibre to labelled skeins (kg)");
  book.spill(yarn, `A${YARN_ROUTE}`, '=YARN.ROUTE(OrderMass,YarnStages[#All],"needed",StandardRegain)', ROUTE_FORMATS);
}

function blends(book: SampleBook): void {
  const sheet = book.sheet("Blends", "The blend to lay down for each colourway.", [30]);
  book.growing(sheet, `A${FIRST - 2}`, [
    { header: "Colourway", spill: "=Orders[Colourway]" },
    { header: "Skeins (kg)", format: "kg", spill: "=Orders[Skeins (no.)]*SkeinMass/GramsPerKg", total: true },
    { header: "Blend (kg)", format: "kg", spill: `=YARN.NEED(B${FIRST}#,${YARN_LOSSES})`, total: true },
    { header: "Shares sum to", format: "percent1", spill: `=MMULT(E${FIRST}#,--(Solids[Solid]<>""))` },
  ]);
  book.spill(sheet, `E${FIRST - 2}`, "=TRANSPOSE(Solids[Solid])", ["percent1"]);
  book.spill(sheet, `E${FIRST}`, `=${columnsUnder("Orders", "Solids[Solid]")}`, ["percent1"], { headed: false });
}

function dyeing(book: SampleBook): void {
  const sheet = book.sheet("Dyeing", "What must be dyed of each solid for all colourways, in whole lots.", [30]);
  const all = (column: string) => `${column}${FIRST}#`;
  book.growing(sheet, `A${FIRST - 2}`, [
    { header: "Solid", spill: "=Solids[Solid]" },
    {
      header: "Needed (kg)",
      format: "kg",
      spill: `=TRANSPOSE(YARN.MIXNEED(${SHARES},Blends!B${FIRST}#,${YARN_LOSSES}))`,
      total: true,
    },
    {
      header: "In stock (kg)",
      format: "kg",
      spill: `=SUMIF(Solids[Solid],${SOLID},Solids[In stock (kg)])`,
      total: true,
    },
    { header: "To dye (kg)", format: "kg", spill: `=IF(${NEEDED}>${all("C")},${NEEDED}-${all("C")},0)`, total: true },
    {
      header: "Dye lots (no.)",
      format: "wholeOrNone",
      spill: `=ROUNDUP(ROUND(${all("D")}/DyeCapacity,9),0)`,
      total: true,
    },
    {
      header: "Dyed in whole lots (kg)",
      format: "kg",
      spill: `=IF(${all("D")}>${all("E")}*DyeMinimum,${all("D")},${all("E")}*DyeMinimum)`,
      total: true,
    },
    { header: "Each lot (kg)", format: "kg", spill: `=IF(${all("E")}>0,${all("F")}/${all("E")},0)` },
    { header: "Left in stock (kg)", format: "kg", spill: `=${all("C")}+${all("F")}-${NEEDED}`, total: true },
  ]);
}

function cards(book: SampleBook): void {
  const sheet = book.sheet(
    "Cards",
    "Weigh-up cards for the blending floor: weigh the kg per section of every solid, once for each section, and strike out its box.",
    [16, 15, 12, 15, 12, 2, 4, 4, 4, 4, 4, 4],
    "landscape",
  );
  const spare = FIRST_CARD + ORDERS.length * CARD_ROWS;
  // The cards in use are printed; a card more is a page more once the print area reaches it.
  sheet.pageSetup.printArea = `A1:L${spare - 1}`;
  for (let card = 1; card <= ORDERS.length + SPARE_CARDS; card++) {
    const isSpare = card > ORDERS.length;
    const top = FIRST_CARD + (card - 1) * CARD_ROWS;
    const blend = `INDEX(Blends!C${FIRST}#,${card})`;
    const isThere = `${card}<=ROWS(Orders[Colourway])`;
    const title = `INDEX(Orders[Colourway],${card})&", card ${card}: "&TEXT(${blend},"#,##0.0")&" kg in "&Sections&" sections"`;
    book.heading(sheet, `A${top}`, `=IF(${isThere},${title},"")`, { ownPage: !isSpare });
    const shares = `TRANSPOSE(INDEX(${SHARES},${card},0))`;
    // The question is as large as the answer, as every program lays them: names beside shares.
    const named = `IF({1,0}*(Solids[Solid]<>"")>0,Solids[Solid],${shares})`;
    const weighed = `IF(${blend}>0,YARN.LAYDOWN(${blend},${named},Sections,ScaleStep),"not ordered")`;
    // One box for each section of each solid; above them the sections' numbers.
    const isSection = "({1,2,3,4,5,6}<=Sections)";
    const isWeighed = `(${shares}>0)*(${blend}>0)*${isSection}`;
    book.spill(sheet, `A${top + 1}`, `=IF(${isThere},${weighed},"")`, CARD_FORMATS, { asCard: true });
    book.spill(sheet, `G${top + 1}`, `=IF(${isThere},IF(${isSection},{1,2,3,4,5,6},""),"")`, BOXES, { asCard: true });
    book.spill(sheet, `G${top + 2}`, `=IF(${isThere},IF(${isWeighed},"☐",""),"")`, BOXES, { asCard: true });
  }
  book.cards(sheet, `A${FIRST_CARD + 1}:L${FIRST_CARD + (ORDERS.length + SPARE_CARDS) * CARD_ROWS}`, [
    "component",
    "total",
  ]);
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
  const [single, hours] = [`B${SPINNING}#`, `C${SPINNING}#`];
  book.growing(sheet, `A${SPINNING - 2}`, [
    { header: "Colourway", spill: "=Orders[Colourway]" },
    { header: "Single to spin (kg)", format: "kg", spill: `=Blends!B${FIRST}#*SpunPerKg`, total: true },
    { header: "Spindle hours (h)", format: "decimal1", spill: `=${single}*GramsPerKg/SpinRate`, total: true },
    {
      header: "Hours on the whole frame (h)",
      format: "decimal1",
      spill: `=${hours}/FrameSpindles`,
      total: true,
    },
  ]);
}

function checks(book: SampleBook): void {
  const solids = (column: string) => `Dyeing!${column}${FIRST}#`;
  const blendRows = (column: string) => `Blends!${column}${FIRST}#`;
  const shown = (route: string, column: number) => `INDEX(${route},0,${column})`;
  // The first row holds headings, which are no figures.
  const balance = (route: string): string => {
    const [into, byProduct, lost, out] = [3, 4, 5, 6].map((column) => shown(route, column));
    return `=SUMPRODUCT(--(ABS(IF(ISNUMBER(${into}),${into}-${byProduct}-${lost}-${out},0))>Rounding))=0`;
  };
  const lastCard = FIRST_CARD + (ORDERS.length + SPARE_CARDS) * CARD_ROWS;
  const weighedUp = `SUMPRODUCT(--(${texts(`Cards!A${FIRST_CARD}:A${lastCard}`)}="total"),Cards!C${FIRST_CARD}:C${lastCard})`;
  book.checks([
    ["The shares of every recipe sum to 100 %", `=SUMPRODUCT(--(ABS(${blendRows("D")}-1)>Rounding))=0`],
    [
      "Every solid of Stock is a column of Orders, once",
      "=SUMPRODUCT(--(COUNTIF(Orders[#Headers],Solids[Solid])<>1))=0",
    ],
    ["Solids needed are the blends laid down (kg)", `=ABS(SUM(${NEEDED})-SUM(${blendRows("C")}))<Rounding`],
    ["Solids needed agree with the route (kg)", `=ABS(SUM(${NEEDED})-DyedNeeded)<Rounding`],
    ["Stock and dye lots cover every solid", `=MIN(${solids("H")})>-Rounding`],
    [
      "No dye lot is above the machine or below the smallest lot",
      `=AND(MAX(${solids("G")})<=DyeCapacity+Rounding,SUMPRODUCT((${solids("E")}>0)*(${solids("G")}<DyeMinimum-Rounding))=0)`,
    ],
    [
      "The solid that is dyed most takes the fewest equal lots within the machine",
      `=COUNT(INDEX(YARN.DYELOTS(MAX(${solids("D")}),DyeCapacity,DyeMinimum),0,1))=MAX(${solids("E")})`,
    ],
    ["Mass balance of every stage from greasy wool to dyed fibre (dry, kg)", balance(WOOL)],
    ["Mass balance of every stage from dyed fibre to skeins (dry, kg)", balance(YARN)],
    [
      "The weigh-up cards sum to the blends, within the difference allowed",
      `=ABS(${weighedUp}/SUM(${blendRows("C")})-1)<=CardTolerance`,
    ],
    ["Spindle hours of the colourways sum to the plan (h)", `=ABS(SUM(Spinning!C${SPINNING}#)-SpindleHours)<Rounding`],
    ["The frame has the spindles for the hours there are", "=SpindlesNeeded<=FrameSpindles"],
  ]);
}
