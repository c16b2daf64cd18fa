import { figuresBeside } from "./given-texts";
import { SampleBook, type Entry, type Format, type InputLine } from "./kit";

/** Invented orders, mills, speeds and days of an invented yarn house. */
const ORDERS: readonly (readonly Entry[])[] = [
  ["Bracken", 220, serial("2027-03-05")],
  ["Harbour", 160, serial("2027-03-25")],
  ["Gorse", 180, serial("2027-04-16")],
];

const CONTRACTORS = ["Scourer and comber", "Dyer", "Spinner", "Finisher"];

const HOLIDAYS: readonly (readonly Entry[])[] = [
  [serial("2027-02-15"), "closed: invented"],
  [serial("2027-03-26"), "closed: invented"],
  [serial("2027-03-29"), "closed: invented"],
];

/** Stage, who does it, loss, regain out, lot, hours a lot, kg an hour, hours a day, days agreed, after which stages. */
const STAGES: readonly (readonly Entry[])[] = [
  ["scour", "Scourer and comber", 0.38, 0.16, 500, 2, 220, 8, 0, ""],
  ["card and comb", "Scourer and comber", 0.085, 0.1825, 0, 0, 12, 16, 0, "scour"],
  ["carry to dyer", "Carrier", 0, 0.1825, 0, 0, 0, 0, 2, "card and comb"],
  ["lab dips", "Dyer", 0, 0.1825, 0, 0, 0, 0, 4, ""],
  ["dye", "Dyer", 0.01, 0.1825, 60, 7, 0, 8, 0, "carry to dyer, lab dips"],
  ["carry to spinner", "Carrier", 0, 0.1825, 0, 0, 0, 0, 2, "dye"],
  ["blend and gill", "Spinner", 0.006, 0.1825, 120, 3, 0, 8, 0, "carry to spinner"],
  ["draw", "Spinner", 0.01, 0.1825, 0, 0, 0, 8, 0, "blend and gill"],
  ["spin", "Spinner", 0.03, 0.1825, 0, 0, 0, 16, 0, "draw"],
  ["ply", "Spinner", 0.01, 0.1825, 0, 0, 0, 16, 0, "spin"],
  ["carry to finisher", "Carrier", 0, 0.1825, 0, 0, 0, 0, 2, "ply"],
  ["labels", "Printer", 0, 0.1825, 0, 0, 0, 0, 10, ""],
  ["wash and reel", "Finisher", 0.02, 0.1825, 40, 2.5, 18, 8, 0, "carry to finisher, labels"],
  ["carry home", "Carrier", 0, 0.1825, 0, 0, 0, 0, 2, "wash and reel"],
];

const GILLS: readonly (readonly Entry[])[] = [
  ["blend and gill", 60, 20, 1, 0.8],
  ["draw", 45, 8, 2, 0.8],
];
const FRAMES: readonly (readonly Entry[])[] = [
  ["spin", 48, 7000, 330, 80, 0.85, 90],
  ["ply", 24, 5000, 190, 162, 0.85, 400],
];

/** The row behind the stages of an order, by which all orders are one plan. */
const HOME = "at home";
const ROUTE_FORMATS: (Format | undefined)[] = [
  undefined,
  "price",
  "price",
  "price",
  "price",
  "price",
  "percent",
  "price",
  "percent1",
];

/** The first rows of the blocks below their headings, and below their sums on Overview and Dye lots. */
const FIRST = { plan: 7, overview: 8, spans: 7, rates: 7, lots: 11 } as const;
const ROUTE = "Route!A6#";
const TIMES = { latest: "Times!A7#", earliest: "Times!I7#" } as const;
/** Columns of Plan, and of what TIMEPLAN gives. */
const planned = (column: string) => `Plan!${column}${FIRST.plan}#`;
const viewed = (column: string) => `Overview!${column}${FIRST.overview}#`;
const [LATEST_START, EARLIEST_FINISH, LATEST_FINISH, FLOAT] = [3, 4, 5, 6] as const;
/** The numbers of names that each stand once in a column, from 1. */
const numbers = (table: string, column: string) => `MATCH(${table}[${column}],${table}[${column}],0)`;

/** The number that a sheet keeps for a day. */
function serial(day: string): number {
  return Date.parse(`${day}T00:00:00Z`) / 86_400_000 + 25_569;
}

/** Month and day as text, in any language of the program. */
function short(day: string): string {
  return `TEXT(MONTH(${day}),"00")&"-"&TEXT(DAY(${day}),"00")`;
}

function written(day: string): string {
  return `YEAR(${day})&"-"&${short(day)}`;
}

/**
 * Working days from one day to another, both counted, for columns of them, which NETWORKDAYS does not take: Mondays to
 * Fridays, each as INT((weekday + days between) / 7), less the closed days among them. Backwards they are negative.
 */
function workingDays(from: string, to: string): string {
  const closed = "TRANSPOSE(Holidays[Day])";
  return `(MMULT(INT((WEEKDAY(${from}-{2,3,4,5,6})+${to}-(${from}))/7),{1;1;1;1;1})-MMULT(((${closed}<=${to})-(${closed}<${from}))*(WEEKDAY(${closed},2)<6),--(Holidays[Day]>=0)))`;
}

export function millSchedule(): SampleBook {
  const [starts, inHand] = [viewed("D"), viewed("E")];
  const soonest = `MATCH(MIN(${starts}),${starts},0)`;
  const tightest = `MATCH(MIN(${inHand}),${inHand},0)`;
  const book = new SampleBook({
    title: "Orders back through the mills",
    purpose:
      "When each contractor must start so that every order is home on the day it is wanted: masses and batches from the yarn back to the wool, hours and working days, latest starts, float, and who works when.",
    outcomes: [
      [
        `="The first to start is "&INDEX(${viewed("A")},${soonest})&", on "&${written(`MIN(${starts})`)}&" at the latest."`,
        "Overview",
      ],
      [
        `="Least in hand: "&INDEX(${viewed("A")},${tightest})&", "&MIN(${inHand})&" working days after "&${written("StartFrom")}&"."`,
        "Overview",
      ],
      [
        `=IF(SUM(${CLASHES})=0,"No contractor has two orders at once.","A contractor has two orders at once: put one after the other.")`,
        "Who works when",
      ],
      [`="Dye lots: "&SUM(${lotsOf("C")})&" of at most "&DyeCapacity&" kg."`, "Dye lots"],
    ],
    scenario:
      "Invented: three orders of a small yarn house by the worsted route, its contractors, their machines, days and closed days. No figure is anybody's.",
    date: "2026-11-27",
    currency: "No money in this book.",
    massBasis: "Conditioned mass with the regain of each stage; the wool that is scoured is greasy.",
    how: [
      "1. Inputs: the orders with the day they are wanted, the closed days, the contractors to be shown. Stages: who does what, after what. Machines: what gives a stage its speed. A row more in a Table is enough: an order, a stage, a closed day, a contractor, a machine.",
      "2. Read Overview, Who works when and Steps; Plan has the masses, hours and days of every stage, Rates the machines, Dye lots the dyer's order.",
      "3. A day moves only where float allows it. Where a contractor has two orders at once, move the day wanted, or make a stage wait for the other order's.",
      "Days and speeds are what the contractors confirm, not what is worked out here; speeds of machines are for their makers to allow, and guards stay on.",
    ],
  });
  inputs(book);
  stages(book);
  machines(book);
  overview(book);
  works(book);
  steps(book);
  plan(book);
  lots(book);
  rates(book);
  route(book);
  times(book);
  checks(book);
  return book;
}

function inputs(book: SampleBook): void {
  const sheet = book.sheet("Inputs", "The orders, the closed days and whom to show: a row more is one more.", [34, 12]);
  const whole: InputLine[] = [
    ["Wool can be had from", "StartFrom", serial("2027-01-11"), "date"],
    ["Stage at which it is dyed", "DyeStage", "dye", "text"],
    ["Smallest dye lot (kg)", "DyeMinimum", 20, "whole"],
    ["Rounding that a check lets pass (kg)", "Rounding", 0.000001, "tiny"],
  ];
  book.inputs(sheet, "A5", whole);
  book.heading(sheet, "A10", "Orders");
  book.table(
    sheet,
    "A11",
    "Orders",
    [{ header: "Order" }, { header: "Yarn (kg)", format: "kg" }, { header: "Wanted on", format: "date" }],
    ORDERS,
  );
  book.heading(sheet, "E10", "Closed, beside weekends");
  book.table(sheet, "E11", "Holidays", [{ header: "Day", format: "date" }, { header: "Why" }], HOLIDAYS);
  book.heading(sheet, "H10", "Who is shown");
  book.table(
    sheet,
    "H11",
    "Contractors",
    [{ header: "Contractor" }],
    CONTRACTORS.map((name) => [name]),
  );
}

function stages(book: SampleBook): void {
  const sheet = book.sheet("Stages", "The stages, in the order in which the fibre goes through them.");
  book.note(
    sheet,
    "A4",
    "Days agreed hold as they are; otherwise hours are batches by their hours and mass by its speed, here or from Machines. Several stages in After are separated by commas.",
  );
  book.table(
    sheet,
    "A6",
    "Stages",
    [
      { header: "Stage" },
      { header: "Who" },
      { header: "Loss", format: "percent" },
      { header: "Regain out", format: "percent" },
      { header: "Batch (kg)", format: "wholeOrNone" },
      { header: "Hours a batch (h)", format: "hours" },
      { header: "Speed (kg/h)", format: "kg" },
      { header: "Hours a day (h)", format: "wholeOrNone" },
      { header: "Agreed (days)", format: "wholeOrNone" },
      { header: "After" },
      { header: "Remark" },
    ],
    STAGES.map((stage) => [...stage, stage[0] === "labels" ? "printed abroad" : ""]),
  );
}

function machines(book: SampleBook): void {
  const sheet = book.sheet("Machines", "What gives a stage its speed, where Stages has none.");
  book.heading(sheet, "A5", "Gills and drawing frames");
  book.table(
    sheet,
    "A6",
    "Gills",
    [
      { header: "Stage" },
      { header: "Delivery (m/min)", format: "decimal" },
      { header: "Sliver (ktex)", format: "decimal" },
      { header: "Deliveries (no.)", format: "whole" },
      { header: "Running time", format: "percent1" },
    ],
    GILLS,
  );
  book.heading(sheet, "G5", "Spinning frames and twisters");
  book.table(
    sheet,
    "G6",
    "Frames",
    [
      { header: "Stage" },
      { header: "Spindles (no.)", format: "whole" },
      { header: "Spindle speed (rpm)", format: "whole" },
      { header: "Twist (turns/m)", format: "whole" },
      { header: "Count (tex)", format: "decimal" },
      { header: "Running time", format: "percent1" },
      { header: "Package (g)", format: "whole" },
    ],
    FRAMES,
  );
}

function rates(book: SampleBook): void {
  const sheet = book.sheet("Rates", "What the machines make in an hour, and the doffs of the largest order.");
  const own = (column: string) => `${column}${FIRST.rates}#`;
  book.growing(sheet, "A6", [
    { header: "Stage", spill: "=Gills[Stage]" },
    {
      header: "Speed (kg/h)",
      format: "decimal",
      spill:
        '=YARN.MACHINERATE(Gills[Delivery (m/min)],Gills[Sliver (ktex)],"ktex",Gills[Deliveries (no.)],Gills[Running time])',
    },
  ]);
  book.growing(sheet, "D6", [
    { header: "Stage", spill: "=Frames[Stage]" },
    {
      header: "One spindle (g/h)",
      format: "decimal",
      spill:
        '=YARN.SPINRATE(Frames[Spindle speed (rpm)],Frames[Twist (turns/m)],"tpm",Frames[Count (tex)],"tex",Frames[Running time])',
    },
    { header: "Speed (kg/h)", format: "decimal", spill: `=${own("E")}*Frames[Spindles (no.)]/1000` },
    {
      header: "Largest order (kg)",
      format: "kg",
      spill: `=MAXIFS(${planned("E")},${planned("C")},Frames[Stage])`,
    },
    { header: "Packages (no.)", format: "whole", spill: `=ROUNDUP(ROUND(1000*${own("G")}/Frames[Package (g)],9),0)` },
    { header: "Doffs (no.)", format: "whole", spill: `=ROUNDUP(ROUND(${own("H")}/Frames[Spindles (no.)],9),0)` },
    { header: "Hours a doff (h)", format: "decimal", spill: `=Frames[Package (g)]/${own("E")}` },
    { header: "Hours in all (h)", format: "decimal", spill: `=${own("I")}*${own("J")}` },
    { header: "Ends to join (no. a kg)", format: "decimal", spill: "=1000/Frames[Package (g)]" },
  ]);
}

function overview(book: SampleBook): void {
  const sheet = book.sheet(
    "Overview",
    "Each order, in the order of the days wanted: when it must start, what is in hand, and when it could be home.",
  );
  const own = (column: string) => `${column}${FIRST.overview}#`;
  const number = numbers("Orders", "Order");
  const key = `(Orders[Wanted on]+${number}/1000)`;
  const ordered = (heading: string) => `=SUMIF(Orders[Order],${own("A")},Orders[${heading}])`;
  book.growing(sheet, "A6", [
    { header: "Order", spill: `=LOOKUP(MATCH(SMALL(${key},${number}),${key},0),${number},Orders[Order])` },
    { header: "Yarn (kg)", format: "kg", spill: ordered("Yarn (kg)"), total: true },
    { header: "Wanted on", format: "date", spill: ordered("Wanted on") },
    { header: "Must start on", format: "date", spill: `=MINIFS(${planned("K")},${planned("B")},${own("A")})` },
    {
      header: "In hand (working days)",
      format: "whole",
      spill: `=${workingDays(`(StartFrom+0*${own("D")})`, `(${own("D")}-1)`)}`,
    },
    {
      header: "Home if begun at once",
      format: "date",
      spill: `=MAXIFS(${planned("O")},${planned("B")},${own("A")})`,
    },
    {
      header: "Critical stages (days)",
      format: "whole",
      spill: `=SUMIFS(${planned("I")},${planned("B")},${own("A")},${planned("N")},"yes")`,
    },
    {
      header: "From the start to the day wanted (working days)",
      format: "whole",
      spill: `=${workingDays(own("D"), own("C"))}`,
    },
    {
      header: "Greasy wool (kg)",
      format: "kg",
      spill: `=SUMIFS(${planned("E")},${planned("B")},${own("A")},${planned("C")},INDEX(Stages[Stage],1))`,
      total: true,
    },
  ]);
}

function plan(book: SampleBook): void {
  const sheet = book.sheet(
    "Plan",
    `Every stage of every order. The days ${HOME} are those until the last order is wanted: by them all orders are one plan.`,
    [],
    "landscape",
  );
  const own = (column: string) => `${column}${FIRST.plan}#`;
  const each = "(ROWS(Stages[Stage])+1)";
  const stageNumber = `(MOD(${own("A")}-1,${each})+1)`;
  const atHome = `(${own("C")}="${HOME}")`;
  const ofStage = (heading: string) => `SUMIF(Stages[Stage],${own("C")},Stages[${heading}])`;
  const said = (heading: string) =>
    `IF(${atHome},"",LOOKUP(${stageNumber},${numbers("Stages", "Stage")},Stages[${heading}]&""))`;
  const ordered = (heading: string) => `SUMIF(Orders[Order],${own("B")},Orders[${heading}])`;
  const ofTimes = (table: string, column: number) =>
    figuresBeside(`(${own("B")}&": "&${own("C")})`, `INDEX(${table},0,1)`, `INDEX(${table},0,${column})`);
  const rated = (stages: string, speeds: string) =>
    `SUMIF(Rates!${stages}${FIRST.rates}#,${own("C")},Rates!${speeds}${FIRST.rates}#)`;
  const dayOr = (column: string) => `IF(${atHome},StartFrom,${own(column)})`;
  const float = ofTimes(TIMES.latest, FLOAT);
  book.growing(sheet, "A6", [
    { header: "Step (no.)", format: "whole", spill: `=SEQUENCE(ROWS(Orders[Order])*${each})` },
    {
      header: "Order",
      spill: `=LOOKUP(INT((${own("A")}-1)/${each})+1,${numbers("Orders", "Order")},${viewed("A")})`,
    },
    {
      header: "Stage",
      spill: `=IF(${stageNumber}=${each},"${HOME}",LOOKUP(${stageNumber},${numbers("Stages", "Stage")},Stages[Stage]))`,
    },
    { header: "Who", spill: `=${said("Who")}` },
    {
      header: "Mass in (kg)",
      format: "kg",
      spill: `=${ordered("Yarn (kg)")}*IF(${atHome},1,${figuresBeside(own("C"), `INDEX(${ROUTE},0,1)`, `INDEX(${ROUTE},0,2)`)})`,
    },
    {
      header: "Batches (no.)",
      format: "wholeOrNone",
      spill: `=IF(${ofStage("Batch (kg)")}>0,ROUNDUP(ROUND(${own("E")}/${ofStage("Batch (kg)")},9),0),0)`,
    },
    {
      header: "Speed (kg/h)",
      format: "kg",
      spill: `=IF(${ofStage("Speed (kg/h)")}>0,${ofStage("Speed (kg/h)")},${rated("A", "B")}+${rated("D", "F")})`,
    },
    {
      header: "Hours (h)",
      format: "kg",
      spill: `=${own("F")}*${ofStage("Hours a batch (h)")}+IF(${own("G")}>0,${own("E")}/${own("G")},0)`,
    },
    {
      header: "Days (days)",
      format: "wholeOrNone",
      spill: `=IF(${atHome},${workingDays(`(${ordered("Wanted on")}+1)`, "MAX(Orders[Wanted on])")},IF(${ofStage("Agreed (days)")}>0,${ofStage("Agreed (days)")},IF(${own("H")}>0,ROUNDUP(ROUND(${own("H")}/${ofStage("Hours a day (h)")},9),0),0)))`,
    },
    { header: "After", spill: `=${said("After")}` },
    {
      header: "Latest start",
      format: "date",
      spill: `=IF(${atHome},"",${ofTimes(TIMES.latest, LATEST_START)})`,
    },
    {
      header: "Latest finish",
      format: "date",
      spill: `=IF(${atHome},"",${ofTimes(TIMES.latest, LATEST_FINISH)})`,
    },
    // Of all orders together only one has no float: in each it is counted from its own least.
    {
      header: "Float (days)",
      format: "whole",
      spill: `=IF(${atHome},"",${float}-MMULT(--(${own("B")}=TRANSPOSE(${own("B")})),${atHome}*${float}))`,
    },
    // Said in words: a program may stumble over the look of TRUE and FALSE.
    { header: "Critical", spill: `=IF(${own("M")}="","",IF(${own("M")}=0,"yes","no"))` },
    {
      header: "Finished if begun at once",
      format: "date",
      spill: `=IF(${atHome},"",${ofTimes(TIMES.earliest, EARLIEST_FINISH)})`,
    },
    {
      header: "Counted by the calendar (days)",
      format: "whole",
      spill: `=IF(${atHome},"",${workingDays(dayOr("K"), dayOr("L"))})`,
    },
  ]);
}

/** What the functions give for the stages: masses for a kilogram of yarn, and the dates of all orders as one plan. */
function route(book: SampleBook): void {
  const sheet = book.sheet("Route", "What a kilogram of yarn takes at every stage, in kg.");
  book.spill(sheet, "A6", '=YARN.ROUTE(1,Stages[#All],"needed",0)', ROUTE_FORMATS);
}

function times(book: SampleBook): void {
  const sheet = book.sheet(
    "Times",
    "All orders as one plan, as TIMEPLAN gives it: float is that of the whole, on Plan that within an order.",
    [],
    "landscape",
  );
  const [order, stage] = [planned("B"), planned("C")];
  /** Several names in one text, each with its order before it. */
  const named = (list: string) => `${order}&": "&SUBSTITUTE(${list},",",","&${order}&": ")`;
  const after = `IF(${stage}="${HOME}",${named('TEXTJOIN(",",TRUE,Stages[Stage])')},IF(${planned("J")}="","",${named(planned("J"))}))`;
  // Three columns beside each other, as every program lays them: the question is as large as the answer.
  const isColumn = (which: string) => `${which}*${planned("A")}>0`;
  const tasks = `IF(${isColumn("{1,0,0}")},${order}&": "&${stage},IF(${isColumn("{0,1,0}")},${planned("I")},${after}))`;
  const formats: (Format | undefined)[] = [undefined, "date", "date", "date", "date", "whole", undefined];
  const call = (date: string, direction: string) => `=YARN.TIMEPLAN(${tasks},${date},"${direction}",Holidays[Day])`;
  book.heading(sheet, "A5", "Back from the day on which the last order is wanted");
  book.spill(sheet, "A7", call("MAX(Orders[Wanted on])", "to"), formats);
  book.heading(sheet, "I5", "Forward from the day on which wool can be had");
  book.spill(sheet, "I7", call("StartFrom", "from"), formats);
}

function lotsOf(column: string): string {
  return `'Dye lots'!${column}${FIRST.lots}#`;
}

function lots(book: SampleBook): void {
  const sheet = book.sheet("Dye lots", "The dyer's order: equal lots, as few as the machine allows.", [24]);
  const own = (column: string) => `${column}${FIRST.lots}#`;
  book.result(sheet, 5, "Dye machine (kg)", "=SUMIF(Stages[Stage],DyeStage,Stages[Batch (kg)])", "kg", "DyeCapacity");
  book.growing(sheet, `A${FIRST.lots - 2}`, [
    { header: "Order", spill: `=${viewed("A")}` },
    {
      header: "To dye (kg)",
      format: "kg",
      spill: `=SUMIFS(${planned("E")},${planned("B")},${own("A")},${planned("C")},DyeStage)`,
      total: true,
    },
    {
      header: "Lots (no.)",
      format: "whole",
      spill: `=ROUNDUP(ROUND(${own("B")}/DyeCapacity,9),0)`,
      total: true,
    },
    {
      header: "Each lot (kg)",
      format: "kg",
      spill: `=IF(${own("B")}<${own("C")}*DyeMinimum,DyeMinimum,${own("B")}/${own("C")})`,
    },
    { header: "In whole lots (kg)", format: "kg", spill: `=${own("C")}*${own("D")}`, total: true },
    { header: "Surplus to stock (kg)", format: "kg", spill: `=${own("E")}-${own("B")}`, total: true },
  ]);
}

/** A gap before the calendar. */
const BESIDE_BARS = [undefined, undefined, undefined, undefined, undefined, 1.8] as const;

/** For each contractor and order the other orders that fall into its days. */
const CLASHES = `'Who works when'!E${FIRST.spans}#`;

function works(book: SampleBook): void {
  const sheet = book.sheet(
    "Who works when",
    "From the latest start of a contractor's first stage to the latest finish of its last, for each order. × is a closed day; a number says how many orders fall on a day.",
    BESIDE_BARS,
    "landscape",
  );
  const own = (column: string) => `${column}${FIRST.spans}#`;
  const step = "(SEQUENCE(ROWS(Contractors[Contractor])*ROWS(Orders[Order]))-1)";
  const across = (column: string) => `TRANSPOSE(${own(column)})`;
  const picked = (column: string, most: "MINIFS" | "MAXIFS") =>
    `=${most}(${planned(column)},${planned("D")},${own("A")},${planned("B")},${own("B")})`;
  book.growing(sheet, `A${FIRST.spans - 1}`, [
    {
      header: "Contractor",
      spill: `=LOOKUP(INT(${step}/ROWS(Orders[Order]))+1,${numbers("Contractors", "Contractor")},Contractors[Contractor])`,
    },
    {
      header: "Order",
      spill: `=LOOKUP(MOD(${step},ROWS(Orders[Order]))+1,${numbers("Orders", "Order")},${viewed("A")})`,
    },
    { header: "Latest start", format: "date", spill: picked("K", "MINIFS") },
    { header: "Latest finish", format: "date", spill: picked("L", "MAXIFS") },
    {
      header: "Other orders at once (no.)",
      format: "wholeOrNone",
      spill: `=MMULT((${own("A")}=${across("A")})*(${own("B")}<>${across("B")})*(${own("C")}<=${across("D")})*(${own("D")}>=${across("C")}),--(${own("C")}>=0))`,
    },
  ]);
  book.bars(sheet, `G${FIRST.spans - 1}`, {
    names: own("A"),
    starts: own("C"),
    finishes: own("D"),
    closed: "Holidays[Day]",
  });
}

/** Every stage as a bar. */
function steps(book: SampleBook): void {
  const sheet = book.sheet(
    "Steps",
    "Every stage of every order from its latest start to its latest finish. × is a closed day.",
    BESIDE_BARS,
    "landscape",
  );
  const own = (column: string) => `${column}${FIRST.spans}#`;
  book.growing(sheet, `A${FIRST.spans - 1}`, [
    { header: "Order", spill: `=${planned("B")}` },
    { header: "Stage", spill: `=${planned("C")}` },
    { header: "Who", spill: `=${planned("D")}&""` },
    { header: "Latest start", format: "date", spill: `=IF(${planned("K")}="","",${planned("K")})` },
    { header: "Latest finish", format: "date", spill: `=IF(${planned("L")}="","",${planned("L")})` },
  ]);
  book.bars(sheet, `G${FIRST.spans - 1}`, {
    names: planned("A"),
    starts: own("D"),
    finishes: own("E"),
    closed: "Holidays[Day]",
  });
}

function checks(book: SampleBook): void {
  const dates = [planned("K"), planned("L")];
  const weekday = (range: string) => `IF(ISNUMBER(${range}),WEEKDAY(${range},2),0)`;
  const forward = `YARN.ROUTE(SUM(${viewed("I")}),Stages[#All],"made",0)`;
  const most = `MATCH(MAX(${lotsOf("B")}),${lotsOf("B")},0)`;
  const rate = (column: string) => `INDEX(Rates!${column}${FIRST.rates}#,1)`;
  book.checks([
    ["Every order can begin in time", `=MIN(${viewed("D")})>=StartFrom`],
    ["Every order can be home on the day it is wanted", `=SUMPRODUCT(--(${viewed("F")}>${viewed("C")}))=0`],
    ["No contractor has two orders at once", `=SUM(${CLASHES})=0`],
    [
      "The days of every stage are the working days between its dates",
      `=SUMPRODUCT(--(IF(ISNUMBER(${planned("P")}),ABS(${planned("P")}-${planned("I")}),0)>0))=0`,
    ],
    [
      "No stage starts or finishes on a closed day, a Saturday or a Sunday",
      `=AND(${dates.map((range) => `SUMPRODUCT(COUNTIF(${range},Holidays[Day]))=0,SUMPRODUCT(--(${weekday(range)}>5))=0`).join(",")})`,
    ],
    [
      "The critical stages reach from the first start to the day wanted",
      `=SUMPRODUCT(--(${viewed("G")}<${viewed("H")}))=0`,
    ],
    [
      "The wool, worked forward through the stages, gives the yarn ordered (kg)",
      `=ABS(INDEX(${forward},ROWS(Stages[Stage])+1,8)-SUM(Orders[Yarn (kg)]))<Rounding`,
    ],
    [
      "Every stage has days, agreed or from its hours",
      `=SUMPRODUCT((${planned("C")}<>"${HOME}")*(${planned("I")}<=0))=0`,
    ],
    [
      "The batches hold the mass (kg)",
      `=SUMPRODUCT((${planned("F")}>0)*(${planned("F")}*SUMIF(Stages[Stage],${planned("C")},Stages[Batch (kg)])<${planned("E")}-Rounding))=0`,
    ],
    [
      "The doffs of the first frame are those of DOFFPLAN",
      `=INDEX(YARN.DOFFPLAN(${rate("G")},INDEX(Frames[Spindles (no.)],1),INDEX(Frames[Package (g)],1),${rate("E")}),2,2)=${rate("I")}`,
    ],
    ["The dye lots are at least the mass to dye (kg)", `=SUMPRODUCT(--(${lotsOf("E")}<${lotsOf("B")}-Rounding))=0`],
    ["No dye lot is above the machine (kg)", `=MAX(${lotsOf("D")})<=DyeCapacity+Rounding`],
    [
      "The dye lots of the largest order are those of DYELOTS",
      `=COUNT(INDEX(YARN.DYELOTS(MAX(${lotsOf("B")}),DyeCapacity,DyeMinimum),0,1))=INDEX(${lotsOf("C")},${most})`,
    ],
  ]);
}
