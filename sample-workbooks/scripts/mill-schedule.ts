import type { Worksheet } from "@cj-tech-master/excelts";
import { columnLetter, SampleBook, type Entry, type InputLine } from "./kit";

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
  ["blend and gill", "Spinner", 0.006, 0.1825, 120, 3, "=GillSpeed", 8, 0, "carry to spinner"],
  ["draw", "Spinner", 0.01, 0.1825, 0, 0, "=DrawSpeed", 8, 0, "blend and gill"],
  ["spin", "Spinner", 0.03, 0.1825, 0, 0, "=SpinSpeed", 16, 0, "draw"],
  ["ply", "Spinner", 0.01, 0.1825, 0, 0, "=PlySpeed", 16, 0, "spin"],
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

const count = STAGES.length;
const orders = ORDERS.length;
/** Rows of an order on Plan: heading, column headings, stages, space. */
const BLOCK = count + 3;
const top = (order: number) => 5 + order * BLOCK;
const firstRow = (order: number) => top(order) + 2;
const lastRow = (order: number) => firstRow(order) + count - 1;
/** A column of Plan over all orders; the headings between are words, which no count takes for figures. */
const whole = (column: string) => `Plan!$${column}$${firstRow(0)}:$${column}$${lastRow(orders - 1)}`;
const ofOrder = (column: string, order: number) => `Plan!${column}${firstRow(order)}:${column}${lastRow(order)}`;

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

export function millSchedule(): SampleBook {
  const soonest = "MATCH(MIN(MustStart),MustStart,0)";
  const tightest = "MATCH(MIN(InHand),InHand,0)";
  const book = new SampleBook({
    title: "Orders back through the mills",
    purpose:
      "When each contractor must start so that every order is home on the day it is wanted: masses and batches from the yarn back to the wool, hours and working days, latest starts, float, and who works when.",
    outcomes: [
      [
        `="The first to start is "&INDEX(Orders[Order],${soonest})&", on "&${written("MIN(MustStart)")}&" at the latest."`,
        "Overview",
      ],
      [
        `="Least in hand: "&INDEX(Orders[Order],${tightest})&", "&MIN(InHand)&" working days after "&${written("StartFrom")}&"."`,
        "Overview",
      ],
      [
        '=IF(SUM(Clashes)=0,"No contractor has two orders at once.","A contractor has two orders at once: put one after the other.")',
        "Who works when",
      ],
      [`="Dye lots: "&SUM(DyeBatches)&" of at most "&DyeCapacity&" kg."`, "Dye lots"],
    ],
    scenario:
      "Invented: three orders of a small yarn house by the worsted route, its contractors, their machines, days and closed days. No figure is anybody's.",
    date: "2026-11-27",
    currency: "No money in this book.",
    massBasis: "Conditioned mass with the regain of each stage; the wool that is scoured is greasy.",
    how: [
      "1. Inputs: the orders with the day they are wanted, the closed days, the stages with who does them and what each must wait for, the machines.",
      "2. Read Overview and Who works when; Plan has every stage of every order, Rates the machines, Dye lots the dyer's order.",
      "3. A day moves only where float allows it. Where a contractor has two orders at once, move the day wanted, or make a stage wait for the other order's.",
      "Days and speeds are what the contractors confirm, not what is worked out here; speeds of machines are for their makers to allow, and guards stay on.",
    ],
  });
  inputs(book);
  rates(book);
  overview(book);
  plan(book);
  lots(book);
  works(book);
  checks(book);
  return book;
}

function inputs(book: SampleBook): void {
  const sheet = book.sheet("Inputs", "Everything that is typed in.", [18, 20, 14, 14, 12, 15, 13, 14, 13]);
  book.heading(sheet, "A4", "Orders");
  const whole: InputLine[] = [
    ["Wool can be had from", "StartFrom", serial("2027-01-11"), "date"],
    ["Smallest dye lot (kg)", "DyeMinimum", 20, "whole"],
    ["Rounding that a check lets pass (kg)", "Rounding", 0.000001, "tiny"],
  ];
  whole.forEach((line, index) => book.inputAt(sheet, 5, 8, 5 + index, ...line));
  book.table(
    sheet,
    "A5",
    "Orders",
    [{ header: "Order" }, { header: "Yarn (kg)", format: "kg" }, { header: "Wanted on", format: "date" }],
    ORDERS,
  );
  book.heading(sheet, "A10", "Closed days, beside Saturdays and Sundays");
  book.table(sheet, "A11", "Holidays", [{ header: "Day", format: "date" }, { header: "Why" }], HOLIDAYS);
  book.heading(sheet, "E10", "Contractors shown in Who works when");
  book.table(
    sheet,
    "E11",
    "Contractors",
    [{ header: "Contractor" }],
    CONTRACTORS.map((name) => [name]),
  );
  book.heading(sheet, "A17", "Stages, in the order in which the fibre goes through them");
  book.table(
    sheet,
    "A18",
    "Stages",
    [
      { header: "Stage" },
      { header: "Who" },
      { header: "Loss", format: "percent" },
      { header: "Regain out", format: "percent" },
      { header: "Batch (kg)", format: "wholeOrNone" },
      { header: "Hours a batch (h)", format: "dash" },
      { header: "Speed (kg/h)", format: "dash" },
      { header: "Hours a day (h)", format: "wholeOrNone" },
      { header: "Agreed (days)", format: "wholeOrNone" },
      { header: "After" },
      { header: "Remark" },
    ],
    STAGES.map((stage) => [...stage, stage[0] === "labels" ? "printed abroad" : ""]),
  );
  const below = 18 + count + 1;
  book.note(
    sheet,
    `A${below}`,
    "Days agreed hold as they are; otherwise hours are batches by their hours and mass by its speed. Several stages in After are separated by commas.",
  );
  book.heading(sheet, `A${below + 2}`, "Gills and drawing frames");
  book.table(
    sheet,
    `A${below + 3}`,
    "Gills",
    [
      { header: "Stage" },
      { header: "Delivery (m/min)", format: "decimal" },
      { header: "Sliver (ktex)", format: "decimal" },
      { header: "Deliveries (no.)", format: "whole" },
      { header: "Running time", format: "percent" },
    ],
    GILLS,
  );
  book.heading(sheet, `A${below + 7}`, "Spinning frame and twister");
  book.table(
    sheet,
    `A${below + 8}`,
    "Frames",
    [
      { header: "Stage" },
      { header: "Spindles (no.)", format: "whole" },
      { header: "Spindle speed (rpm)", format: "whole" },
      { header: "Twist (turns/m)", format: "whole" },
      { header: "Count (tex)", format: "decimal" },
      { header: "Running time", format: "percent" },
      { header: "Package (g)", format: "whole" },
    ],
    FRAMES,
  );
}

function rates(book: SampleBook): void {
  const sheet = book.sheet("Rates", "What the machines make in an hour, and the doffs of the largest order.");
  book.heading(sheet, "A5", "Gills and drawing frames");
  book.block(sheet, "A6", GILLS.length, [
    { header: "Stage", spill: "=Gills[Stage]" },
    {
      header: "Speed (kg/h)",
      format: "decimal",
      spill:
        '=YARN.MACHINERATE(Gills[Delivery (m/min)],Gills[Sliver (ktex)],"ktex",Gills[Deliveries (no.)],Gills[Running time])',
    },
  ]);
  book.name("GillSpeed", "Rates", "B7");
  book.name("DrawSpeed", "Rates", "B8");
  book.heading(sheet, "A11", "Spinning frame and twister");
  book.block(sheet, "A12", FRAMES.length, [
    { header: "Stage", spill: "=Frames[Stage]" },
    { header: "Speed (kg/h)", format: "decimal", spill: "=C13:C14*Frames[Spindles (no.)]/1000" },
    {
      header: "One spindle (g/h)",
      format: "decimal",
      spill:
        '=YARN.SPINRATE(Frames[Spindle speed (rpm)],Frames[Twist (turns/m)],"tpm",Frames[Count (tex)],"tex",Frames[Running time])',
    },
  ]);
  book.name("SpinSpeed", "Rates", "B13");
  book.name("PlySpeed", "Rates", "B14");
  book.heading(sheet, "A17", "Doffs of the largest order");
  book.headers(sheet, "A18", ["Stage"]);
  FRAMES.forEach((_, frame) => {
    const row = 19 + frame;
    book.put(sheet, `A${row}`, `=INDEX(Frames[Stage],${frame + 1})`);
    const masses = ORDERS.map((_, order) => `SUMIFS(${ofOrder("C", order)},${ofOrder("A", order)},A${row})`);
    const plan = `YARN.DOFFPLAN(MAX(${masses.join(",")}),INDEX(Frames[Spindles (no.)],${frame + 1}),INDEX(Frames[Package (g)],${frame + 1}),C${13 + frame})`;
    if (frame === 0) book.spill(sheet, "B18", `=INDEX(${plan},1,0)`, [undefined], { headed: true });
    book.spill(sheet, `B${row}`, `=INDEX(${plan},2,0)`, ["whole", "whole", "decimal", "decimal", "decimal"], {
      headed: false,
    });
  });
}

function overview(book: SampleBook): void {
  const sheet = book.sheet("Overview", "Each order: when it must start, what is in hand, and when it could be home.");
  const each = (formula: (order: number) => string) => (row: number) => formula(row - 7);
  book.block(sheet, "A6", orders, [
    { header: "Order", spill: "=Orders[Order]" },
    { header: "Yarn (kg)", format: "kg", spill: "=Orders[Yarn (kg)]", total: true },
    { header: "Wanted on", format: "date", spill: "=Orders[Wanted on]" },
    { header: "Must start on", format: "date", entry: each((order) => `=MIN(${ofOrder("H", order)})`) },
    {
      header: "In hand (working days)",
      format: "whole",
      entry: (row) => `=IF(D${row}<StartFrom,-1,1)*(ABS(NETWORKDAYS(StartFrom,D${row},Holidays[Day]))-1)`,
    },
    {
      header: "Home if begun at once",
      format: "date",
      entry: each(
        (order) =>
          `=MAX(INDEX(YARN.TIMEPLAN(Plan!A${top(order) + 1}:G${lastRow(order)},StartFrom,"from",Holidays[Day]),0,4))`,
      ),
    },
    {
      header: "Critical stages (days)",
      format: "whole",
      entry: each((order) => `=SUMIFS(${ofOrder("F", order)},${ofOrder("K", order)},"yes")`),
    },
    {
      header: "From the start to the day wanted (working days)",
      format: "whole",
      entry: (row) => `=NETWORKDAYS(D${row},C${row},Holidays[Day])`,
    },
    {
      header: "Greasy wool (kg)",
      format: "kg",
      entry: each((order) => `=Plan!C${firstRow(order)}`),
      total: true,
    },
  ]);
  const last = 6 + orders;
  book.name("MustStart", "Overview", `D7:D${last}`);
  book.name("InHand", "Overview", `E7:E${last}`);
}

function plan(book: SampleBook): void {
  const sheet = book.sheet("Plan", "Every stage of every order: mass, batches, hours, days, latest start and float.");
  ORDERS.forEach((_, order) => {
    const at = top(order);
    const [first, last] = [firstRow(order), lastRow(order)];
    const ordered = (heading: string) => `INDEX(Orders[${heading}],${order + 1})`;
    const stage = (heading: string, row: number) => `INDEX(Stages[${heading}],ROWS(A$${first}:A${row}))`;
    book.heading(sheet, `A${at}`, `=${ordered("Order")}&", wanted on "&${written(ordered("Wanted on"))}`, {
      ownPage: order > 0,
    });
    book.block(sheet, `A${at + 1}`, count, [
      { header: "Stage", spill: "=Stages[Stage]" },
      { header: "Who", spill: "=Stages[Who]" },
      {
        header: "Mass in (kg)",
        format: "kg",
        entry: (row) =>
          `=INDEX(YARN.ROUTE(${ordered("Yarn (kg)")},Stages[#All],"needed",0),ROWS(A$${first}:A${row})+1,2)`,
      },
      {
        header: "Batches (no.)",
        format: "whole",
        entry: (row) => `=IF(${stage("Batch (kg)", row)}>0,ROUNDUP(C${row}/${stage("Batch (kg)", row)},0),0)`,
      },
      {
        header: "Hours (h)",
        format: "decimal1",
        entry: (row) =>
          `=D${row}*${stage("Hours a batch (h)", row)}+IF(${stage("Speed (kg/h)", row)}>0,C${row}/${stage("Speed (kg/h)", row)},0)`,
      },
      {
        header: "Days (days)",
        format: "whole",
        entry: (row) =>
          `=IF(${stage("Agreed (days)", row)}>0,${stage("Agreed (days)", row)},IF(E${row}>0,ROUNDUP(E${row}/${stage("Hours a day (h)", row)},0),0))`,
      },
      { header: "After", entry: (row) => `=${stage("After", row)}&""` },
    ]);
    const planned = `YARN.TIMEPLAN(A${at + 1}:G${last},${ordered("Wanted on")},"to",Holidays[Day])`;
    (
      [
        ["H", 3, "date"],
        ["I", 5, "date"],
        ["J", 6, "whole"],
      ] as const
    ).forEach(([column, from, format]) =>
      book.spill(sheet, `${column}${at + 1}`, `=INDEX(${planned},0,${from})`, [format]),
    );
    // Critical is what has no float, said in words: a program may stumble over the look of TRUE and FALSE.
    const float = `J${at + 1}#`;
    book.spill(sheet, `K${at + 1}`, `=IF(ISNUMBER(${float}),IF(${float}=0,"yes","no"),"critical")`, [undefined]);
    book.block(sheet, `L${at + 1}`, count, [
      {
        header: "Counted by the calendar (days)",
        format: "whole",
        entry: (row) => `=NETWORKDAYS(H${row},I${row},Holidays[Day])`,
      },
      { header: "Order", entry: () => `=${ordered("Order")}` },
    ]);
  });
}

/** The columns of Dye lots in which each order stands. */
const lotColumn = (order: number) => columnLetter(1 + order * 4);

function lots(book: SampleBook): void {
  const sheet = book.sheet("Dye lots", "The dyer's order: equal lots, as few as the machine allows.");
  book.result(
    sheet,
    5,
    "Dye machine (kg)",
    '=INDEX(Stages[Batch (kg)],MATCH("dye",Stages[Stage],0))',
    "kg",
    "DyeCapacity",
  );
  const counted = ORDERS.map((_, order) => `COUNT(${lotColumn(order)}10:${lotColumn(order)}60)`);
  book.result(sheet, 6, "Lots of all orders (no.)", `=${counted.join("+")}`, "whole", "DyeBatches");
  const dyed = 'MATCH("dye",Stages[Stage],0)';
  ORDERS.forEach((_, order) => {
    const column = lotColumn(order);
    book.heading(sheet, `${column}8`, `=INDEX(Orders[Order],${order + 1})`);
    book.spill(
      sheet,
      `${column}9`,
      `=YARN.DYELOTS(INDEX(${ofOrder("C", order)},${dyed}),DyeCapacity,DyeMinimum)`,
      ["whole", "kg", "kg"],
      { totalled: true },
    );
  });
}

/** The rows of Who works when. */
const SPANS = CONTRACTORS.length * orders;
const lastSpan = 6 + SPANS;

function works(book: SampleBook): void {
  const sheet: Worksheet = book.sheet(
    "Who works when",
    "From the latest start of a contractor's first stage to the latest finish of its last, for each order.",
    [],
    "landscape",
  );
  const picked = (column: string, row: number, most: "MINIFS" | "MAXIFS") =>
    `=${most}(${whole(column)},${whole("B")},A${row},${whole("M")},B${row})`;
  const bars = ORDERS.map((_, order) => ({
    header: `Order ${order + 1} (calendar days)`,
    format: "whole" as const,
    entry: (row: number) => `=IF(B${row}=INDEX(Orders[Order],${order + 1}),D${row}-C${row}+1,0)`,
  }));
  const room = columnLetter(6 + orders);
  book.block(sheet, "A6", SPANS, [
    {
      header: "Contractor",
      entry: (row) => `=INDEX(Contractors[Contractor],INT((ROWS(A$7:A${row})-1)/ROWS(Orders[Order]))+1)`,
    },
    { header: "Order", entry: (row) => `=INDEX(Orders[Order],MOD(ROWS(A$7:A${row})-1,ROWS(Orders[Order]))+1)` },
    { header: "Latest start", format: "date", entry: (row) => picked("H", row, "MINIFS") },
    { header: "Latest finish", format: "date", entry: (row) => picked("I", row, "MAXIFS") },
    {
      header: "After the first start (calendar days)",
      format: "whole",
      entry: (row) => `=C${row}-MIN(C$7:C$${lastSpan})`,
    },
    ...bars,
    {
      header: "Room for the name (calendar days)",
      format: "whole",
      entry: () => `=ROUND((MAX(D$7:D$${lastSpan})-MIN(C$7:C$${lastSpan}))/2,0)`,
    },
    {
      header: "Bar",
      entry: (row) => `=A${row}&", "&B${row}&": "&${short(`C${row}`)}&" to "&${short(`D${row}`)}`,
    },
    {
      header: "Other orders at once (no.)",
      format: "whole",
      entry: (row) =>
        `=SUMPRODUCT((A$7:A$${lastSpan}=A${row})*(B$7:B$${lastSpan}<>B${row})*(C$7:C$${lastSpan}<=D${row})*(D$7:D$${lastSpan}>=C${row}))`,
    },
  ]);
  const [label, clash] = [columnLetter(7 + orders), columnLetter(8 + orders)];
  book.name("Clashes", "Who works when", `${clash}7:${clash}${lastSpan}`);
  const column = (letter: string) => `${letter}7:${letter}${lastSpan}`;
  book.chart(sheet, `A${lastSpan + 2}:${clash}${lastSpan + 26}`, {
    kind: "bars",
    stacked: true,
    title: "Who works when, at the latest (a bar is a contractor's part of an order)",
    categories: "",
    values: "Calendar days after the first start",
    format: "whole",
    labels: column(label),
    series: [
      { name: "Before", values: column("E"), unseen: "gap" },
      ...ORDERS.map(([name], order) => ({ name: String(name), values: column(columnLetter(6 + order)) })),
      { name: "Names", values: column(room), unseen: "label" },
    ],
  });
}

function checks(book: SampleBook): void {
  const last = 6 + orders;
  const dates = [whole("H"), whole("I")];
  const each = (line: (order: number) => string) => ORDERS.map((_, order) => line(order));
  const lotsOf = (order: number) =>
    [0, 1]
      .map((along) => columnLetter(1 + order * 4 + along))
      .map((column) => `'Dye lots'!${column}10:${column}60`) as [string, string];
  const dye = 'MATCH("dye",Stages[Stage],0)';
  const wanted = each((order) => `INDEX(${ofOrder("C", order)},${dye})`);
  book.checks([
    ["Every order can begin in time", "=MIN(MustStart)>=StartFrom"],
    ["Every order can be home on the day it is wanted", `=SUMPRODUCT(--(Overview!F7:F${last}>Overview!C7:C${last}))=0`],
    ["No contractor has two orders at once", "=SUM(Clashes)=0"],
    [
      "The days of every stage are the working days between its dates",
      `=SUMPRODUCT(--(${each((order) => `ABS(${ofOrder("L", order)}-${ofOrder("F", order)})`).join("+")}>0))=0`,
    ],
    [
      "No stage starts or finishes on a closed day, a Saturday or a Sunday",
      `=AND(${dates.map((range) => `SUMPRODUCT(COUNTIF(${range},Holidays[Day]))=0`).join(",")},${each((order) =>
        ["H", "I"].map((column) => `SUMPRODUCT(--(WEEKDAY(${ofOrder(column, order)},2)>5))=0`).join(","),
      ).join(",")})`,
    ],
    [
      "The critical stages reach from the first start to the day wanted",
      `=SUMPRODUCT(--(Overview!G7:G${last}<Overview!H7:H${last}))=0`,
    ],
    [
      "The wool, worked forward through the stages, gives the yarn ordered (kg)",
      `=AND(${each(
        (order) =>
          `ABS(INDEX(YARN.ROUTE(Plan!C${firstRow(order)},Stages[#All],"made",0),ROWS(Stages[Stage])+1,8)-INDEX(Orders[Yarn (kg)],${order + 1}))<Rounding`,
      ).join(",")})`,
    ],
    ["Every stage has days, agreed or from its hours", `=MIN(${each((order) => ofOrder("F", order)).join(",")})>0`],
    [
      "The batches hold the mass (kg)",
      `=${each((order) => `SUMPRODUCT((${ofOrder("D", order)}>0)*(${ofOrder("D", order)}*Stages[Batch (kg)]<${ofOrder("C", order)}-Rounding))`).join("+")}=0`,
    ],
    [
      "The dye lots are at least the mass to dye (kg)",
      `=AND(${each((order) => {
        const [lot, mass] = lotsOf(order);
        return `SUMIF(${lot},">0",${mass})>=${wanted[order] as string}-Rounding`;
      }).join(",")})`,
    ],
    [
      "No dye lot is above the machine (kg)",
      `=AND(${each((order) => {
        const [lot, mass] = lotsOf(order);
        return `SUMIFS(${mass},${lot},">0",${mass},">"&DyeCapacity+Rounding)=0`;
      }).join(",")})`,
    ],
  ]);
}
