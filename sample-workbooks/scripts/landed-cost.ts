import { columnLetter, SampleBook, type BlockColumn, type Entry, type Format, type TableColumn } from "./kit";
import { figuresBeside, texts } from "./given-texts";

/** Invented figures of an invented yarn house. */
const LINES = ["Aran heather", "Sport heather", "Aran natural", "Lace natural"];
const TOPS = ["Top A", "Top B"];

/** Net mass and dried sample of each delivery as the house weighed them, and what the contractor wrote. */
const INVOICES: readonly (readonly Entry[])[] = [
  ["D-101", "Aran heather", "dye", serial("2026-06-12"), "EUR", 314.6, 500, 421, 0, 314.6, 5.2],
  ["D-102", "Sport heather", "dye", serial("2026-06-12"), "EUR", 196.9, 500, 424.3, 0, 197.4, 5.35],
  ["S-201", "Aran heather", "spin", serial("2026-08-03"), "GBP", 297.2, 500, 430.2, 0.005, 303.7, 7.9],
  ["S-202", "Sport heather", "spin", serial("2026-08-03"), "GBP", 186.5, 500, 431, 0.005, 193, 9.4],
  ["S-203", "Aran natural", "spin", serial("2026-08-17"), "GBP", 155.4, 500, 429.6, 0.005, 158.6, 7.4],
  ["S-204", "Lace natural", "spin", serial("2026-08-17"), "GBP", 97.5, 500, 430.5, 0.005, 99.7, 11.2],
];

const RATES: readonly (readonly Entry[])[] = [
  [serial("2026-05-29"), "GBP", "EUR", 1.1735],
  [serial("2026-06-30"), "GBP", "EUR", 1.1682],
  [serial("2026-07-31"), "GBP", "EUR", 1.1571],
  [serial("2026-08-14"), "GBP", "EUR", 1.1548],
  [serial("2026-08-31"), "EUR", "GBP", 0.8627],
  [serial("2026-08-31"), "EUR", "USD", 1.1014],
];

/** Opening stock, a receipt, and one issue for each line of yarn. */
const EVENTS: readonly (readonly (readonly [
  date: string,
  event: string,
  line: string,
  kg: number,
  cost?: number,
])[])[] = [
  [
    ["2026-05-01", "Opening stock", "", 400, 13.1],
    ["2026-05-20", "Receipt", "", 450, 13.85],
    ["2026-06-02", "Issue", "Aran heather", -190],
    ["2026-06-02", "Issue", "Sport heather", -200],
    ["2026-06-29", "Issue", "Aran natural", -60],
    ["2026-06-29", "Issue", "Lace natural", -104],
  ],
  [
    ["2026-05-01", "Opening stock", "", 90, 10.4],
    ["2026-05-20", "Receipt", "", 300, 10.95],
    ["2026-06-02", "Issue", "Aran heather", -130],
    ["2026-06-02", "Issue", "Sport heather", 0],
    ["2026-06-29", "Issue", "Aran natural", -105],
    ["2026-06-29", "Issue", "Lace natural", 0],
  ],
];

/** Words of the owner's own, which no function reads. */
const BILL_REMARKS = ["", "dyer weighed wet", "", "cones damp", "", ""];

const CHARGES: readonly (readonly [charge: string, amount: string, sharedBy: string, remark: string])[] = [
  ["Freight", "=Freight", "volume", "the cartons are light"],
  ["Insurance", "=Insurance", "value", ""],
  ["Duty", "=Duty", "value", ""],
  ["Customs fee", "=CustomsFee", "value", ""],
  ["Broker", "=BrokerFee", "equal", ""],
  ["Labels and bands", "=Labels", "quantity", ""],
];

/** Where the blocks begin: the first row of their formulas, below headings and sums. */
const INVOICES_FIRST = 8;
const PAY = 9;
const MADE = 8;
const LANDED = 5;
const SKEIN = 26;
const PRICE = 8;
const MOVES = 6;
const LEDGER = "H";

/** Columns of blocks, whole. */
const invoice = (column: string) => `Invoices!${column}${INVOICES_FIRST}#`;
const pay = (column: string) => `'To pay'!${column}${PAY}#`;
const made = (column: string) => `'Yarns made'!${column}${MADE}#`;
const madeTotal = (column: string) => `'Yarns made'!${column}${MADE - 1}`;
const LANDED_TABLE = `Landed!A${LANDED}#`;
const LANDED_NAMES = `INDEX(${LANDED_TABLE},0,1)`;
/** Of each yarn what stands so many columns before the last of the table of landed cost. */
const ofLanded = (yarns: string, before: number) =>
  figuresBeside(texts(yarns), LANDED_NAMES, `INDEX(${LANDED_TABLE},0,COLUMNS(${LANDED_TABLE})-${before})`);
/** The table of landed cost ends with the total, the quantity and the cost of a unit. */
const LANDED_TOTAL = `INDEX(${LANDED_TABLE},ROWS(${LANDED_TABLE}),COLUMNS(${LANDED_TABLE})-2)`;
const CHARGES_IN_ALL = "SUM(Charges[Amount (EUR)])";

/** The ledger of a top and one of its columns, with the heading. */
const ledger = (index: number) => `'${TOPS[index] as string}'!${LEDGER}${MOVES}#`;
const ledgerColumn = (index: number, column: number) => `INDEX(${ledger(index)},0,${column})`;
const movesOf = (index: number) => `Moves${"AB"[index] as string}`;
const MOVED = "[Quantity (kg, out negative)]";

const DRIVERS: readonly (readonly [driver: string, low: number, high: number])[] = [
  ["Price of top", -0.1, 0.1],
  ["Top used per kg of yarn", -0.02, 0.04],
  ["Dyer's charge", -0.05, 0.1],
  ["Spinner's charge", -0.05, 0.1],
  ["Pound in euro", -0.05, 0.05],
  ["Freight", -0.2, 0.4],
  ["Duty rate", -0.2, 0.2],
  ["Yarn in a skein", -0.01, 0.03],
];

/** The number that a sheet keeps for a day. */
function serial(day: string): number {
  return Date.parse(`${day}T00:00:00Z`) / 86_400_000 + 25_569;
}

export function landedCost(): SampleBook {
  const book = new SampleBook({
    title: "Landed cost of yarn made by contractors",
    purpose:
      "For a delivery of four yarns: what the contractors may charge at standard condition, what the top drawn from stock cost, what freight, insurance, duty and fees add, and what each skein costs landed; then standard against actual, price, break-even and what moves the cost most.",
    outcomes: [
      [`="A skein costs EUR "&TEXT(AverageSkein,"0.00")&" landed, on average of the four yarns"`, "Landed"],
      [
        `=TEXT(SUMPRODUCT(--(${pay("C")}="query")),"0")&" of "&TEXT(ROWS(Bills[Invoice]),"0")&" invoices are to query"`,
        "To pay",
      ],
      [`="Charges of the journey come to EUR "&TEXT(${CHARGES_IN_ALL},"#,##0.00")`, "Charges"],
    ],
    scenario:
      "Invented: a small yarn house, its stock of two tops, its dyer, its spinner, rates of exchange and prices. No figure is anybody's.",
    date: "2026-09-07",
    currency: "EUR is the currency of the house; the spinner and the carrier bill in GBP.",
    massBasis:
      "Contractors are paid on mass at standard condition: dry mass with the standard regain and the agreed finish. Skeins are labelled at standard regain without finish.",
    how: [
      "1. Type standard regain, tolerances, freight and duty into Inputs; yarns, standards, rates of exchange, invoices and movements of top into the sheets after it. A row more of a table is enough; a yarn more is a row of Yarns and one of Standards.",
      "2. Invoices and To pay say what to pay and what to query; Top A and Top B what the top cost; Landed and Skein the cost of a skein.",
      "3. Variances, Price and Swing are for the talk about it. Checks must hold first.",
      "Duty rates, customs fees and values are set by law: take them from the authority and leave filings to a licensed broker.",
    ],
  });
  inputs(book);
  yarns(book);
  bills(book);
  tops(book);
  invoices(book);
  yarnsMade(book);
  charges(book);
  landed(book);
  skein(book);
  variances(book);
  price(book);
  swing(book);
  checks(book);
  return book;
}

function inputs(book: SampleBook): void {
  const sheet = book.sheet("Inputs", "Rules of condition, money and the journey. ", [], "portrait");
  const sections: [string, [string, string, Entry, Format, (readonly string[])?][]][] = [
    [
      "Condition and money",
      [
        ["Fibre", "Fibre", "wool", "text"],
        ["Form", "FibreForm", "combed", "text", ["combed", "carded"]],
        ["Schedule of regains", "Schedule", "EU label", "text", ["EU label", "GB 9994", "ASTM", "trade"]],
        ["Tolerance of invoiced mass", "MassTolerance", 0.005, "percent1"],
        ["Tolerance of skeins counted", "SkeinTolerance", 0.01, "percent1"],
        ["Currency of the house", "HomeCurrency", "EUR", "text"],
        ["Decimals of money (no.)", "Decimals", 2, "whole"],
        ["Value stock by", "StockMethod", "fifo", "text", ["fifo", "average"]],
      ],
    ],
    [
      "The way home",
      [
        ["Date of the shipment", "ShipmentDate", serial("2026-09-02"), "date"],
        ["Freight (per chargeable kg)", "FreightRate", 0.92, "money"],
        ["Currency of the carrier", "FreightCurrency", "GBP", "text"],
        ["Density for chargeable mass (kg/m³)", "FreightDensity", 167, "whole"],
        ["Step of chargeable mass (kg)", "FreightStep", 0.5, "decimal"],
        ["Insurance rate", "InsuranceRate", 0.004, "percent"],
        ["Uplift of the insured value", "InsuranceUplift", 0.1, "percent1"],
        ["Duty on the value (set by law)", "DutyRate", 0.04, "percent1"],
        ["Duty on the mass (EUR/kg)", "DutySpecific", 0.1, "money"],
        ["Which duty holds", "DutyRule", "higher", "text", ["sum", "higher", "lower"]],
        ["Customs fee rate", "FeeRate", 0.003, "percent"],
        ["Least customs fee (EUR)", "FeeMinimum", 25, "money"],
        ["Most customs fee (EUR)", "FeeMaximum", 500, "money"],
        ["Broker (EUR)", "BrokerFee", 145, "money"],
        ["Label and band (EUR/skein)", "LabelCost", 0.11, "money"],
      ],
    ],
    [
      "Wishes",
      [
        ["Margin wanted (of the price)", "MarginWanted", 0.6, "percent1"],
        ["Mark-up wanted (of the cost)", "MarkupWanted", 1, "percent1"],
        ["Profit wanted of each yarn (EUR)", "ProfitWanted", 1500, "whole"],
      ],
    ],
  ];
  let row = 5;
  for (const [heading, lines] of sections) {
    book.heading(sheet, `A${row++}`, heading);
    for (const [label, name, entry, format, choices] of lines) {
      book.input(sheet, row++, label, name, entry, format, choices);
    }
    row++;
  }
}

function yarns(book: SampleBook): void {
  const sheet = book.sheet("Yarns", "The yarns of the delivery, as counted and measured, and what they sell for.");
  book.table(
    sheet,
    "A5",
    "Yarns",
    [
      { header: "Yarn" },
      { header: "Skeins counted (no.)", format: "whole" },
      { header: "Skein mass (kg)", format: "kg3" },
      { header: "Gross mass (kg)", format: "kg" },
      { header: "Volume (m³)", format: "decimal" },
      { header: "Selling price (EUR/skein)", format: "money" },
      { header: "Fixed costs (EUR)", format: "whole" },
      { header: "Remark" },
    ],
    [
      [LINES[0] as string, 3005, 0.1, 322, 2.1, 8.4, 2900, ""],
      [LINES[1] as string, 3780, 0.05, 203, 1.35, 5.2, 2400, ""],
      [LINES[2] as string, 1570, 0.1, 168, 1.12, 7.9, 1500, "undyed"],
      [LINES[3] as string, 1970, 0.05, 106, 0.62, 5.1, 1900, "undyed"],
    ],
  );

  const standards = book.sheet("Standards", "What a kilogram of yarn should take of everything, and at what price.");
  const inputs = ["Top A", "Top B", "Dyeing", "Spinning"];
  book.heading(standards, "A5", "Quantities");
  book.table(
    standards,
    "A6",
    "Standards",
    [
      { header: "Yarn" },
      ...inputs.map((input) => ({ header: `${input} (kg per kg yarn)`, format: "kg3" as const })),
      { header: "Remark" },
    ],
    LINES.map((line, index) => [
      line,
      ...([
        [0.7, 0.36, 1.04, 1],
        [1.05, 0, 1.03, 1],
        [0.4, 0.64, 0, 1],
        [1.04, 0, 0, 1],
      ][index] as number[]),
      "",
    ]),
  );
  book.heading(standards, "H5", "Prices");
  book.table(
    standards,
    "H6",
    "StandardPrices",
    [{ header: "Input" }, { header: "Standard price (EUR/kg)", format: "money" }],
    inputs.map((input, index) => [input, [13.2, 10.6, 5.15, 9.6][index] as number]),
  );

  const rates = book.sheet("Rates", "Rates of exchange: a row more is a rate more, in any order.", [12, 12, 16]);
  book.table(
    rates,
    "A5",
    "Rates",
    [
      { header: "From" },
      { header: "To" },
      { header: "Rate (To per From)", format: "price" },
      { header: "Date", format: "date" },
      { header: "Remark" },
    ],
    RATES.map(([date, from, to, rate], index) => [from, to, rate, date, index === 1 ? "month's end" : ""] as Entry[]),
  );
}

function bills(book: SampleBook): void {
  const sheet = book.sheet(
    "Bills",
    "Contractors' invoices, with the sample that was dried when the delivery was weighed.",
  );
  book.table(
    sheet,
    "A5",
    "Bills",
    [
      { header: "Invoice" },
      { header: "Yarn", choices: LINES },
      { header: "Work", choices: ["dye", "spin"] },
      { header: "Date", format: "date" },
      { header: "Currency" },
      { header: "Net weighed (kg)", format: "kg" },
      { header: "Sample (g)", format: "kg" },
      { header: "Sample dry (g)", format: "kg" },
      { header: "Agreed finish (of dry)", format: "percent1" },
      { header: "Invoiced (kg)", format: "kg" },
      { header: "Price (per kg)", format: "money" },
      { header: "Remark" },
    ],
    INVOICES.map((bill, index) => [...bill, BILL_REMARKS[index] as string]),
  );
}

const MOVE_COLUMNS: readonly TableColumn[] = [
  { header: "Date", format: "date" },
  { header: "Booked as", choices: ["Opening stock", "Receipt", "Issue"] },
  { header: "For yarn" },
  { header: "Quantity (kg, out negative)", format: "kg" },
  { header: "Cost (EUR/kg)", format: "money" },
  { header: "Remark" },
];

function tops(book: SampleBook): void {
  TOPS.forEach((top, index) => {
    const sheet = book.sheet(top, `What came in and went out of ${top}, at standard regain, and what the issues cost.`);
    const events = EVENTS[index] as (typeof EVENTS)[0];
    book.table(
      sheet,
      `A${MOVES}`,
      movesOf(index),
      MOVE_COLUMNS,
      events.map(([date, event, line, kg, cost]) => [serial(date), event, line, kg, cost ?? "", ""]),
    );
    // An empty text is no empty cell.
    events.forEach(([, , line, , cost], down) => {
      if (line === "") sheet.getCell(`C${MOVES + 1 + down}`).value = null;
      if (cost === undefined) sheet.getCell(`E${MOVES + 1 + down}`).value = null;
    });
    book.spill(sheet, `${LEDGER}${MOVES}`, `=YARN.STOCKLEDGER(${movesOf(index)}[#All],StockMethod)`, [
      "kg",
      "money",
      "price",
      "money",
    ]);
  });
}

function invoices(book: SampleBook): void {
  const sheet = book.sheet("Invoices", "Each delivery at standard condition against what the contractor wrote.");
  book.result(sheet, 5, "Standard regain", "=YARN.REGAIN(Fibre,FibreForm,Schedule)", "percent", "StandardRegain");
  const own = (column: string) => `${column}${INVOICES_FIRST}#`;
  const weighed = "Bills[Net weighed (kg)]";
  const samples = "Bills[Sample (g)],Bills[Sample dry (g)]";
  const finish = "Bills[Agreed finish (of dry)]";
  book.growing(sheet, `A${INVOICES_FIRST - 1}`, [
    { header: "Invoice", spill: "=Bills[Invoice]" },
    { header: "Yarn", spill: "=Bills[Yarn]" },
    { header: "Work", spill: "=Bills[Work]" },
    { header: "Regain measured", format: "percent", spill: `=YARN.MEASUREDREGAIN(${samples})` },
    {
      header: "Wool at standard regain (kg)",
      format: "kg",
      spill: `=YARN.CONDITIONED(${weighed},${own("D")},StandardRegain)`,
    },
    {
      header: "Mass to invoice, with finish (kg)",
      format: "kg",
      spill: `=YARN.INVOICEMASS(${weighed},${samples},StandardRegain,${finish})`,
    },
    { header: "Invoiced (kg)", format: "kg", spill: "=Bills[Invoiced (kg)]" },
    { header: "Invoiced above (kg)", format: "kg", spill: `=${own("G")}-${own("F")}` },
    { header: "Invoiced above (share)", format: "percent", spill: `=${own("H")}/${own("F")}` },
    {
      header: "Reckoned two ways, differs (kg)",
      format: "kg3",
      spill: `=${own("E")}*(1+StandardRegain+${finish})/(1+StandardRegain)-${own("F")}`,
    },
  ]);

  const paid = book.sheet("To pay", "What to pay and what to query.");
  book.note(
    paid,
    "A4",
    "query: invoiced above the mass at standard condition by more than the tolerance; what that mass costs is paid until it is settled.",
  );
  book.note(paid, "A5", "Exchanged at the latest rate on or before the date of the invoice.");
  const amount = (column: string) => `${column}${PAY}#`;
  const price = "Bills[Price (per kg)]";
  book.growing(paid, `A${PAY - 2}`, [
    { header: "Invoice", spill: "=Bills[Invoice]" },
    { header: "Yarn", spill: "=Bills[Yarn]" },
    { header: "Verdict", spill: `=IF(${invoice("I")}<=MassTolerance,"pay","query")` },
    { header: "Currency", spill: "=Bills[Currency]" },
    {
      header: "Amount invoiced (currency)",
      format: "money",
      spill: `=ROUND(${invoice("G")}*${price},Decimals)`,
    },
    {
      header: "Amount to pay (currency)",
      format: "money",
      spill: `=IF(${amount("C")}="pay",${amount("E")},ROUND(${invoice("F")}*${price},Decimals))`,
    },
    { header: "Claim (currency)", format: "money", spill: `=${amount("E")}-${amount("F")}` },
    {
      header: "To pay (EUR)",
      format: "money",
      spill: `=YARN.ROUNDCASH(YARN.EXCHANGE(${amount("F")},Bills[Currency],HomeCurrency,Bills[Date],Rates[#All]),Decimals)`,
      total: true,
    },
  ]);
}

function yarnsMade(book: SampleBook): void {
  const sheet = book.sheet("Yarns made", "The yarns before the journey: the top and the contractors' work, in EUR.");
  const own = (column: string) => `${column}${MADE}#`;
  const work = (column: string, kind: string) => `SUMIFS(${column},Bills[Yarn],${own("A")},Bills[Work],"${kind}")`;
  // Of both tops: what was issued to each yarn. The ledger has a heading, so the Table's column is taken with its own.
  const issued = TOPS.map(
    (_, index) => `SUMIF(${movesOf(index)}[[#All],[For yarn]],${own("A")},${ledgerColumn(index, 4)})`,
  ).join("+");
  book.growing(sheet, `A${MADE - 2}`, [
    { header: "Yarn", spill: "=Yarns[Yarn]" },
    { header: "Value (EUR)", format: "money", spill: `=${own("F")}+${own("G")}+${own("H")}`, total: true },
    { header: "Gross mass (kg)", format: "kg", spill: "=Yarns[Gross mass (kg)]", total: true },
    { header: "Volume (m³)", format: "decimal", spill: "=Yarns[Volume (m³)]", total: true },
    { header: "Skeins counted (no.)", format: "whole", spill: "=Yarns[Skeins counted (no.)]", total: true },
    { header: "Top from stock (EUR)", format: "money", spill: `=ROUND(${issued},Decimals)`, total: true },
    { header: "Dyeing (EUR)", format: "money", spill: `=${work(pay("H"), "dye")}`, total: true },
    { header: "Spinning (EUR)", format: "money", spill: `=${work(pay("H"), "spin")}`, total: true },
    {
      header: "Yarn at standard regain (kg)",
      format: "kg",
      spill: `=${work(invoice("E"), "spin")}`,
      total: true,
    },
    {
      header: "Skeins that the mass gives (no.)",
      format: "whole",
      spill: `=YARN.SKEINS(${own("I")},Yarns[Skein mass (kg)])`,
      total: true,
    },
    { header: "Counted against the mass", format: "percent", spill: `=${own("E")}/${own("J")}-1` },
  ]);
}

function charges(book: SampleBook): void {
  const sheet = book.sheet("Charges", "What the journey costs, and how each charge is shared over the yarns.");
  const freight = "YARN.EXCHANGE(Chargeable*FreightRate,FreightCurrency,HomeCurrency,ShipmentDate,Rates[#All])";
  const value = madeTotal("B");
  const lines: [string, string, Format, string][] = [
    [
      "Chargeable mass (kg)",
      `=YARN.CHARGEABLE(${madeTotal("C")},${madeTotal("D")},FreightDensity,FreightStep)`,
      "kg",
      "Chargeable",
    ],
    ["Freight (EUR)", `=YARN.ROUNDCASH(${freight},Decimals)`, "money", "Freight"],
    [
      "Insurance (EUR)",
      `=ROUND(YARN.INSURANCE(${value}+Freight,InsuranceRate,InsuranceUplift),Decimals)`,
      "money",
      "Insurance",
    ],
    ["Value landed (EUR)", `=${value}+Freight+Insurance`, "money", "ValueLanded"],
    [
      "Duty (EUR)",
      `=ROUND(YARN.DUTY(ValueLanded,${madeTotal("I")},DutyRate,DutySpecific,DutyRule),Decimals)`,
      "money",
      "Duty",
    ],
    [
      "Customs fee (EUR)",
      "=ROUND(YARN.FEE(ValueLanded,FeeRate,FeeMinimum,FeeMaximum),Decimals)",
      "money",
      "CustomsFee",
    ],
    ["Labels and bands (EUR)", `=ROUND(${madeTotal("E")}*LabelCost,Decimals)`, "money", "Labels"],
  ];
  book.heading(sheet, "A5", "Reckoned from the inputs");
  lines.forEach((line, index) => book.result(sheet, 6 + index, ...line));
  book.note(
    sheet,
    "A13",
    "What duty and fee are charged on is decided by law: here value, freight and insurance, the value landed.",
  );
  book.heading(sheet, "A15", "All charges: a charge more is a row more, with its amount");
  book.table(
    sheet,
    "A16",
    "Charges",
    [
      { header: "Charge" },
      { header: "Amount (EUR)", format: "money" },
      { header: "Shared by", choices: ["value", "mass", "volume", "quantity", "equal"] },
      { header: "Remark" },
    ],
    CHARGES,
  );
}

function landed(book: SampleBook): void {
  const sheet = book.sheet("Landed", "Landed cost of each yarn, in EUR; every charge foots to the cent.");
  // LANDED takes name, value, mass, volume and quantity beside each other.
  const figures = ["B", "C", "D", "E"].map((column, at) => {
    const place = [0, 1, 2, 3, 4].map((each) => Number(each === at + 1)).join(",");
    return `${made(column)}*{${place}}`;
  });
  const named = `(${made("A")}<>"")*{1,0,0,0,0}`;
  const lines = `IF(${named},${made("A")}&{"","","","",""},${figures.join("+")})`;
  book.spill(
    sheet,
    `A${LANDED}`,
    `=YARN.LANDED(${lines},Charges[#All],Decimals)`,
    [undefined, "money", ...CHARGES.map(() => "money" as const), "money", "whole", "price"],
    { totalled: true },
  );
}

function skein(book: SampleBook): void {
  const sheet = book.sheet("Skein", "What a skein is made of, in EUR.");
  const own = (column: string) => `${column}${SKEIN}#`;
  book.growing(sheet, `A${SKEIN - 1}`, [
    { header: "Yarn", spill: `=${made("A")}` },
    ...["Top", "Dyeing", "Spinning"].map((header, index) => ({
      header: `${header} (EUR/skein)`,
      format: "price" as const,
      spill: `=${made("FGH"[index] as string)}/${made("E")}`,
    })),
    {
      header: "Journey (EUR/skein)",
      format: "price",
      spill: `=(${ofLanded(own("A"), 2)}-${made("B")})/${made("E")}`,
    },
    {
      header: "Landed (EUR/skein)",
      format: "price",
      spill: `=${["B", "C", "D", "E"].map(own).join("+")}`,
    },
  ]);
  const last = SKEIN + LINES.length - 1;
  book.chart(sheet, `A5:F${SKEIN - 3}`, {
    kind: "columns",
    stacked: true,
    title: "Landed cost of a skein",
    values: "EUR per skein",
    categories: "",
    format: "money",
    labels: `A${SKEIN}:A${last}`,
    series: ["Top", "Dyeing", "Spinning", "Journey"].map((name, index) => ({
      name,
      values: `${"BCDE"[index] as string}${SKEIN}:${"BCDE"[index] as string}${last}`,
    })),
  });
}

function variances(book: SampleBook): void {
  const sheet = book.sheet(
    "Variances",
    "Standard for the yarn actually made against what was used and paid, in EUR; favourable is positive.",
  );
  const issued = (index: number) => `=-SUMIFS(${movesOf(index)}${MOVED},${movesOf(index)}[Booked as],"Issue")`;
  const worked = (work: string) => `=SUMIFS(${invoice("F")},Bills[Work],"${work}")`;
  const ofStock = (index: number) => `SUM(${ledgerColumn(index, 4)})`;
  const inputs: readonly (readonly [standard: string, actual: string, cost: string])[] = [
    ["Top A (kg per kg yarn)", issued(0), ofStock(0)],
    ["Top B (kg per kg yarn)", issued(1), ofStock(1)],
    ["Dyeing (kg per kg yarn)", worked("dye"), madeTotal("G")],
    ["Spinning (kg per kg yarn)", worked("spin"), madeTotal("H")],
  ];
  const columns = (first: number, skipped: number): BlockColumn[] => {
    const input = (row: number) => inputs[row - first + skipped] as (typeof inputs)[0];
    const place = (row: number) => `${skipped > 0 ? "ROWS(A$7:A$8)+" : ""}ROWS(A$${first}:A${row})`;
    return [
      { header: "Input", entry: (row) => `=INDEX(StandardPrices[Input],${place(row)})` },
      {
        header: "Standard (kg)",
        format: "kg",
        entry: (row) => `=SUMPRODUCT(SUMIF(Standards[Yarn],${made("A")},Standards[${input(row)[0]}]),${made("I")})`,
      },
      { header: "Actual (kg)", format: "kg", entry: (row) => input(row)[1] },
      {
        header: "Standard price (EUR/kg)",
        format: "price",
        entry: (row) => `=INDEX(StandardPrices[Standard price (EUR/kg)],${place(row)})`,
      },
      { header: "Actual price (EUR/kg)", format: "price", entry: (row) => `=${input(row)[2]}/C${row}` },
    ];
  };
  book.heading(sheet, "A5", "Tops: two materials that replace one another, so there is a mix");
  book.block(sheet, "A6", 2, columns(7, 0));
  book.spill(sheet, "G6", "=YARN.VARIANCE(A7:B8,C7:C8,D7:D8,E7:E8)", [undefined, "money"], { totalled: true });
  book.heading(sheet, "A12", "Work: each on its own, so there is no mix");
  // Of a single input the columns price, usage and total say all.
  const single = (column: number) => (row: number) =>
    `=INDEX(YARN.VARIANCE(B${row},C${row},D${row},E${row}),2,${column})`;
  book.block(sheet, "A13", 2, [
    ...columns(14, 2),
    { header: "Price variance (EUR)", format: "money", entry: single(1) },
    { header: "Usage variance (EUR)", format: "money", entry: single(4) },
    { header: "Total variance (EUR)", format: "money", entry: single(5) },
  ]);
  const lines: [string, string][] = [
    ["Standard cost of the yarn made (EUR)", "=SUMPRODUCT(B7:B8,D7:D8)+SUMPRODUCT(B14:B15,D14:D15)"],
    ["All variances (EUR)", "=L9+H14+H15"],
    ["Actual cost of the yarn made (EUR)", `=${madeTotal("B")}`],
  ];
  lines.forEach(([label, formula], index) => book.result(sheet, 18 + index, label, formula, "money"));
}

function price(book: SampleBook): void {
  const sheet = book.sheet("Price", "What a skein must fetch, what it brings, and how many must be sold.");
  book.note(
    sheet,
    "A5",
    "Margin is a share of the price, mark-up a share of the cost: a mark-up of 100 % is a margin of 50 %. Prices and costs without recoverable tax.",
  );
  const own = (column: string) => `${column}${PRICE}#`;
  const fixed = "Yarns[Fixed costs (EUR)]";
  book.growing(sheet, `A${PRICE - 1}`, [
    { header: "Yarn", spill: "=Yarns[Yarn]" },
    { header: "Landed cost (EUR/skein)", format: "price", spill: `=${ofLanded(own("A"), 0)}` },
    { header: "Selling price (EUR/skein)", format: "money", spill: "=Yarns[Selling price (EUR/skein)]" },
    { header: "Margin (of the price)", format: "percent1", spill: `=YARN.MARGIN(${own("B")},${own("C")})` },
    { header: "Mark-up (of the cost)", format: "percent1", spill: `=YARN.MARKUP(${own("B")},${own("C")})` },
    {
      header: "Price for the margin wanted (EUR)",
      format: "money",
      spill: `=YARN.ROUNDCASH(YARN.PRICEFORMARGIN(${own("B")},MarginWanted),Decimals,"up")`,
    },
    {
      header: "Price for the mark-up wanted (EUR)",
      format: "money",
      spill: `=YARN.ROUNDCASH(YARN.PRICEFORMARKUP(${own("B")},MarkupWanted),Decimals,"up")`,
    },
    { header: "To break even (skeins)", format: "whole", spill: `=YARN.BREAKEVEN(${fixed},${own("C")},${own("B")})` },
    {
      header: "For the profit wanted (skeins)",
      format: "whole",
      spill: `=YARN.BREAKEVEN(${fixed},${own("C")},${own("B")},ProfitWanted)`,
    },
    { header: "Break-even, share of skeins bought", format: "percent1", spill: `=${own("H")}/${made("E")}` },
  ]);
}

function swing(book: SampleBook): void {
  const sheet = book.sheet(
    "Swing",
    "What moves the cost of an average skein most: each driver alone at its low and at its high, all others as they are.",
  );
  const count = DRIVERS.length;
  const baseRow = 44;
  const lowFirst = baseRow + 1;
  const highFirst = lowFirst + count;
  const last = 6 + count;
  book.heading(sheet, "A5", "What is moved, and what it does to the cost of an average skein (EUR)");
  book.table(
    sheet,
    "A6",
    "Drivers",
    [{ header: "Driver" }, { header: "Low", format: "percent1" }, { header: "High", format: "percent1" }],
    DRIVERS,
  );
  book.spill(
    sheet,
    "E6",
    `=YARN.SWING(Drivers[Driver],M${lowFirst}:M${highFirst - 1},M${highFirst}:M${highFirst + count - 1})`,
    [undefined, "price", "price", "price"],
  );
  book.block(sheet, "I6", count, [
    { header: "Low less base (EUR/skein)", format: "price", entry: (row) => `=F${row}-AverageSkein` },
    { header: "High less base (EUR/skein)", format: "price", entry: (row) => `=G${row}-AverageSkein` },
  ]);
  book.chart(sheet, `A${last + 3}:K${last + 25}`, {
    kind: "bars",
    stacked: true,
    bothSides: true,
    title: "What moves the cost of an average skein",
    values: "Change of the landed cost (EUR per skein)",
    categories: "Driver",
    format: "money",
    labels: `E7:E${last}`,
    series: [
      { name: "Driver at its low", values: `I7:I${last}` },
      { name: "Driver at its high", values: `J7:J${last}` },
    ],
  });

  const kg = madeTotal("I");
  const top = "(Variances!C7+Variances!C8)";
  const spinner = `SUMIFS(${pay("F")},Bills[Work],"spin")`;
  const base: readonly (readonly [header: string, format: Format, formula: string])[] = [
    ["Top (EUR/kg)", "price", `${madeTotal("F")}/${top}`],
    ["Top (kg per kg yarn)", "price", `${top}/${kg}`],
    ["Dyeing (EUR per kg yarn)", "price", `${madeTotal("G")}/${kg}`],
    ["Spinning (GBP per kg yarn)", "price", `${spinner}/${kg}`],
    ["Pound (EUR)", "price", `${madeTotal("H")}/${spinner}`],
    ["Freight (GBP per kg yarn)", "price", `Freight/F${baseRow}/${kg}`],
    ["Duty rate", "percent", "Duty/ValueLanded"],
    ["Yarn in a skein (kg)", "price", `${kg}/${madeTotal("E")}`],
  ];
  /** 0 in the base row, then each driver at its low, then each at its high. */
  const placeOf = (row: number) => (row === baseRow ? 0 : ((row - lowFirst) % count) + 1);
  const sideOf = (row: number) => (row < highFirst ? "Low" : "High");
  book.heading(sheet, `A${baseRow - 2}`, "The average skein, one driver moved in each row");
  book.block(sheet, `A${baseRow - 1}`, 1 + 2 * count, [
    {
      header: "Moved",
      entry: (row) =>
        row === baseRow ? "Nothing" : `=INDEX(Drivers[Driver],${placeOf(row)})&", ${sideOf(row).toLowerCase()}"`,
    },
    ...base.map(([header, format, formula], driver): BlockColumn => {
      const letter = columnLetter(driver + 2);
      return {
        header,
        format,
        entry: (row) => {
          if (row === baseRow) return `=${formula}`;
          const moved = driver + 1 === placeOf(row) ? `*(1+INDEX(Drivers[${sideOf(row)}],${placeOf(row)}))` : "";
          return `=${letter}$${baseRow}${moved}`;
        },
      };
    }),
    {
      header: "Value (EUR per kg yarn)",
      format: "price",
      entry: (row) => `=B${row}*C${row}+D${row}+E${row}*F${row}`,
    },
    {
      header: "Freight, insurance (EUR/kg)",
      format: "price",
      entry: (row) => `=G${row}*F${row}+(J${row}+G${row}*F${row})*(1+InsuranceUplift)*InsuranceRate`,
    },
    {
      header: "Duty, fee (EUR/kg)",
      format: "price",
      entry: (row) => `=(J${row}+K${row})*H${row}+MEDIAN(FeeMinimum/${kg},(J${row}+K${row})*FeeRate,FeeMaximum/${kg})`,
    },
    {
      header: "Cost (EUR/skein)",
      format: "price",
      entry: (row) =>
        `=(J${row}+K${row}+L${row}+(${CHARGES_IN_ALL}-Freight-Insurance-Duty-CustomsFee-Labels)/${kg})*I${row}+LabelCost`,
    },
  ]);
  book.name("AverageSkein", "Swing", `M${baseRow}`);
}

function checks(book: SampleBook): void {
  const lines: [string, string][] = [
    [
      "Mass to invoice is the conditioned mass with the finish (two ways to the same kg)",
      `=AND(MAX(${invoice("J")})<0.000001,MIN(${invoice("J")})>-0.000001)`,
    ],
    [
      "Skeins counted agree with the mass at standard regain within the tolerance",
      `=AND(MIN(${made("K")})>=-SkeinTolerance,MAX(${made("K")})<=SkeinTolerance)`,
    ],
    [
      "Every invoice belongs to a yarn of the list",
      `=ABS(${madeTotal("G")}+${madeTotal("H")}-'To pay'!H${PAY - 1})<0.005`,
    ],
    ["Every yarn has its standards, once", "=SUMPRODUCT(--(COUNTIF(Standards[Yarn],Yarns[Yarn])<>1))=0"],
    [
      "Cost of the top issued is shared out in full",
      `=ABS(${TOPS.map((_, index) => `SUM(${ledgerColumn(index, 4)})`).join("+")}-${madeTotal("F")})<0.05`,
    ],
  ];
  TOPS.forEach((top, index) => {
    const [moves, whole] = [movesOf(index), ledger(index)];
    lines.push([
      `${top}: receipts are issues and stock (EUR)`,
      `=ABS(SUMPRODUCT(${moves}${MOVED},${moves}[Cost (EUR/kg)])-SUM(${ledgerColumn(index, 4)})-INDEX(${whole},ROWS(${whole}),2))<0.005`,
    ]);
  });
  // The yarns of a column less its total; headings and names count nothing.
  const figures = `IF(ISNUMBER(${LANDED_TABLE}),${LANDED_TABLE},0)`;
  const lessTotal = `MMULT(TRANSPOSE(1-2*(${texts(LANDED_NAMES)}="total")),${figures})`;
  const isShared = `ISNUMBER(SEARCH(" by ",INDEX(${LANDED_TABLE},1,0)))`;
  lines.push(
    ["Every charge foots over the yarns to the cent", `=SUMPRODUCT(--(ABS(${isShared}*${lessTotal})>0.005))=0`],
    ["Landed total is value plus charges", `=ROUND(${LANDED_TOTAL}-${madeTotal("B")}-${CHARGES_IN_ALL},Decimals)=0`],
    ["Standard cost less variances is the actual cost", "=ABS(Variances!B18-Variances!B19-Variances!B20)<0.05"],
    [
      "The average skein of Swing is the landed total over the skeins, to a tenth of a cent",
      `=ABS(AverageSkein-${LANDED_TOTAL}/${madeTotal("E")})<0.001`,
    ],
  );
  book.checks(lines);
}
