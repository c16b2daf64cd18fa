import { columnLetter, SampleBook, type BlockColumn, type Entry, type Format } from "./kit";

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

/** Where things stand, so that a formula of one sheet finds the cells of another. */
const YARN_FIRST = 7;
const BILL_FIRST = 15;
const CONDITION_FIRST = 8;
const CONDITION_LAST = CONDITION_FIRST + INVOICES.length - 1;
const INVOICE_FIRST = CONDITION_LAST + 4;
const INVOICE_LAST = INVOICE_FIRST + INVOICES.length - 1;
const MOVES = 6;
const MOVES_FIRST = [25, 35];
const STOCK_FIRST = [7, 17];
const LINE_FIRST = 7;
const LINE_LAST = LINE_FIRST + LINES.length - 1;
const CHARGES = ["Freight", "Insurance", "Duty", "Customs fee", "Broker", "Labels and bands"];
const CHARGE_FIRST = 15;
const CHARGE_LAST = CHARGE_FIRST + CHARGES.length - 1;
const LANDED_TOP = 25;
const LANDED_FIRST = LANDED_TOP + 1;
const LANDED_TOTAL = LANDED_FIRST + LINES.length;
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
        `=TEXT(COUNTIF(Invoices!C${INVOICE_FIRST}:C${INVOICE_LAST},"query"),"0")&" of "&TEXT(ROWS(Bills[Invoice]),"0")&" invoices are to query"`,
        "Invoices",
      ],
      [
        `="Charges of the journey come to EUR "&TEXT(SUM(Landed!B${CHARGE_FIRST}:B${CHARGE_LAST}),"#,##0.00")`,
        "Landed",
      ],
    ],
    scenario:
      "Invented: a small yarn house, its stock of two tops, its dyer, its spinner, rates of exchange and prices. No figure is anybody's.",
    date: "2026-09-07",
    currency: "EUR is the currency of the house; the spinner and the carrier bill in GBP.",
    massBasis:
      "Contractors are paid on mass at standard condition: dry mass with the standard regain and the agreed finish. Skeins are labelled at standard regain without finish.",
    how: [
      "1. Inputs: standard regain, tolerances, freight, duty. Rates: exchange, sharing, prices, standards. Purchases: yarns, invoices, movements of top.",
      "2. Invoices says what to pay and what to query; Stock what the top cost; Landed the cost of a skein.",
      "3. Variances, Price and Swing are for the talk about it. Checks must hold first.",
      "Duty rates, customs fees and values are set by law: take them from the authority and leave filings to a licensed broker.",
    ],
  });
  inputs(book);
  tables(book);
  purchases(book);
  invoices(book);
  stock(book);
  landed(book);
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
        ["Tolerance of invoiced mass", "MassTolerance", 0.005, "percent"],
        ["Tolerance of skeins counted", "SkeinTolerance", 0.01, "percent"],
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
        ["Uplift of the insured value", "InsuranceUplift", 0.1, "percent"],
        ["Duty on the value (set by law)", "DutyRate", 0.04, "percent"],
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
        ["Margin wanted (of the price)", "MarginWanted", 0.6, "percent"],
        ["Mark-up wanted (of the cost)", "MarkupWanted", 1, "percent"],
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

function tables(book: SampleBook): void {
  const sheet = book.sheet("Rates", "Rates of exchange, sharing of charges, prices and standards. ");
  book.heading(sheet, "A5", "Rates of exchange");
  book.table(
    sheet,
    "A6",
    "Rates",
    [
      { header: "Date", format: "date" },
      { header: "From" },
      { header: "To" },
      { header: "Rate (To per From)", format: "price" },
    ],
    RATES,
  );
  book.heading(sheet, "F5", "How each charge is shared over the yarns");
  book.table(
    sheet,
    "F6",
    "Sharing",
    [{ header: "Charge" }, { header: "Shared by", choices: ["value", "mass", "volume", "quantity", "equal"] }],
    CHARGES.map((charge, index) => [
      charge,
      ["volume", "value", "value", "value", "equal", "quantity"][index] as string,
    ]),
  );
  book.heading(sheet, "F15", "Prices of the yarns");
  book.table(
    sheet,
    "F16",
    "Prices",
    [
      { header: "Yarn" },
      { header: "Selling price (EUR/skein)", format: "money" },
      { header: "Fixed costs (EUR)", format: "money" },
    ],
    LINES.map((line, index) => [
      line,
      [8.4, 5.2, 7.9, 5.1][index] as number,
      [2900, 2400, 1500, 1900][index] as number,
    ]),
  );
  book.heading(sheet, "A23", "Standards");
  book.table(
    sheet,
    "A24",
    "Standards",
    [
      { header: "Yarn" },
      { header: "Top A (kg per kg yarn)", format: "kg3" },
      { header: "Top B (kg per kg yarn)", format: "kg3" },
      { header: "Dyed (kg per kg yarn)", format: "kg3" },
      { header: "Spun (kg per kg yarn)", format: "kg3" },
    ],
    LINES.map((line, index) => [
      line,
      ...([
        [0.7, 0.36, 1.04, 1],
        [1.05, 0, 1.03, 1],
        [0.4, 0.64, 0, 1],
        [1.04, 0, 0, 1],
      ][index] as number[]),
    ]),
  );
  book.heading(sheet, "A31", "Standard prices");
  book.table(
    sheet,
    "A32",
    "StandardPrices",
    [{ header: "Input" }, { header: "Standard price (EUR/kg)", format: "money" }],
    [
      ["Top A", 13.2],
      ["Top B", 10.6],
      ["Dyeing", 5.15],
      ["Spinning", 9.6],
    ],
  );
}

function purchases(book: SampleBook): void {
  const sheet = book.sheet(
    "Purchases",
    "What came in: yarns as counted and measured, contractors' invoices, movements of top. ",
    [],
    "portrait",
  );
  book.heading(sheet, "A5", "Yarns delivered");
  book.table(
    sheet,
    "A6",
    "Yarns",
    [
      { header: "Yarn" },
      { header: "Skein mass (kg)", format: "kg3" },
      { header: "Skeins counted (no.)", format: "whole" },
      { header: "Gross mass (kg)", format: "kg" },
      { header: "Volume (m³)", format: "decimal" },
    ],
    [
      [LINES[0] as string, 0.1, 3005, 322, 2.1],
      [LINES[1] as string, 0.05, 3780, 203, 1.35],
      [LINES[2] as string, 0.1, 1570, 168, 1.12],
      [LINES[3] as string, 0.05, 1970, 106, 0.62],
    ],
  );
  book.heading(sheet, "A13", "Contractors' invoices, with the sample that was dried when the delivery was weighed");
  book.table(
    sheet,
    "A14",
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
      { header: "Agreed finish (of dry)", format: "percent" },
      { header: "Invoiced (kg)", format: "kg" },
      { header: "Price (per kg)", format: "money" },
    ],
    INVOICES,
  );
  TOPS.forEach((top, index) => {
    const row = 23 + index * 10;
    book.heading(sheet, `A${row}`, `Movements of ${top} (at standard regain)`);
    const events = EVENTS[index] as (typeof EVENTS)[0];
    book.table(
      sheet,
      `A${row + 1}`,
      `Moves${"AB"[index] as string}`,
      [
        { header: "Date", format: "date" },
        { header: "Event" },
        { header: "For yarn" },
        { header: "Quantity (kg, out negative)", format: "kg" },
        { header: "Cost (EUR/kg)", format: "money" },
      ],
      events.map(([date, event, line, kg, cost]) => [serial(date), event, line, kg, cost ?? ""]),
    );
    // An empty text is no empty cell.
    events.forEach(([, , line, , cost], down) => {
      if (line === "") sheet.getCell(`C${row + 2 + down}`).value = null;
      if (cost === undefined) sheet.getCell(`E${row + 2 + down}`).value = null;
    });
  });
}

function invoices(book: SampleBook): void {
  const sheet = book.sheet(
    "Invoices",
    "Each delivery at standard condition against what the contractor wrote: what to pay, what to query.",
  );

  book.put(sheet, "A5", "Standard regain");
  book.put(sheet, "B5", "=YARN.REGAIN(Fibre,FibreForm,Schedule)", "percent");
  book.name("StandardRegain", "Invoices", "B5");
  const bill = (column: string, shift: number) => (row: number) => `=Purchases!${column}${row - shift + BILL_FIRST}`;
  const condition = (column: string) => bill(column, CONDITION_FIRST);
  book.block(sheet, `A${CONDITION_FIRST - 1}`, INVOICES.length, [
    { header: "Invoice", entry: condition("A") },
    { header: "Yarn", entry: condition("B") },
    { header: "Work", entry: condition("C") },
    {
      header: "Regain measured",
      format: "percent",
      spill: "=YARN.MEASUREDREGAIN(Bills[Sample (g)],Bills[Sample dry (g)])",
    },
    {
      header: "Wool at standard regain (kg)",
      format: "kg",
      spill: `=YARN.CONDITIONED(Bills[Net weighed (kg)],D${CONDITION_FIRST}:D${CONDITION_LAST},StandardRegain)`,
    },
    {
      header: "Mass to invoice, with finish (kg)",
      format: "kg",
      spill:
        "=YARN.INVOICEMASS(Bills[Net weighed (kg)],Bills[Sample (g)],Bills[Sample dry (g)],StandardRegain,Bills[Agreed finish (of dry)])",
    },
    { header: "Invoiced (kg)", format: "kg", entry: condition("J") },
    { header: "Invoiced above (kg)", format: "kg", entry: (row) => `=G${row}-F${row}` },
    { header: "Invoiced above (share)", format: "percent", entry: (row) => `=H${row}/F${row}` },
    {
      header: "Reckoned two ways, differs (kg)",
      format: "kg3",
      entry: (row) =>
        `=E${row}*(1+StandardRegain+Purchases!I${row - CONDITION_FIRST + BILL_FIRST})/(1+StandardRegain)-F${row}`,
    },
  ]);
  book.heading(sheet, `A${INVOICE_FIRST - 2}`, "What to pay");
  const from = (row: number) => row - INVOICE_FIRST + CONDITION_FIRST;
  const price = (row: number) => `Purchases!K${row - INVOICE_FIRST + BILL_FIRST}`;
  book.block(sheet, `A${INVOICE_FIRST - 1}`, INVOICES.length, [
    { header: "Invoice", entry: bill("A", INVOICE_FIRST) },
    { header: "Yarn", entry: bill("B", INVOICE_FIRST) },
    { header: "Verdict", entry: (row) => `=IF(I${from(row)}<=MassTolerance,"pay","query")` },
    { header: "Currency", entry: bill("E", INVOICE_FIRST) },
    {
      header: "Amount invoiced (currency)",
      format: "money",
      entry: (row) => `=ROUND(G${from(row)}*${price(row)},Decimals)`,
    },
    {
      header: "Amount to pay (currency)",
      format: "money",
      entry: (row) => `=IF(C${row}="pay",E${row},ROUND(F${from(row)}*${price(row)},Decimals))`,
    },
    { header: "Claim (currency)", format: "money", entry: (row) => `=E${row}-F${row}` },
    {
      header: "To pay (EUR)",
      format: "money",
      spill: `=YARN.ROUNDCASH(YARN.EXCHANGE(F${INVOICE_FIRST}:F${INVOICE_LAST},Bills[Currency],HomeCurrency,Bills[Date],Rates[[Date]:[Rate (To per From)]]),Decimals)`,
      total: true,
    },
  ]);
  book.note(
    sheet,
    `A${INVOICE_LAST + 3}`,
    "query: invoiced above the mass at standard condition by more than the tolerance; what that mass costs is paid until it is settled.",
  );
  book.note(sheet, `A${INVOICE_LAST + 4}`, "Exchanged at the latest rate on or before the date of the invoice.");
}

function stock(book: SampleBook): void {
  const sheet = book.sheet("Stock", "Value of the top in stock and cost of what was issued to each yarn.");
  TOPS.forEach((top, index) => {
    const first = STOCK_FIRST[index] as number;
    const from = (row: number) => row - first + (MOVES_FIRST[index] as number);
    const moves = `Moves${"AB"[index] as string}`;
    book.heading(sheet, `A${first - 2}`, top);
    book.block(sheet, `A${first - 1}`, MOVES, [
      { header: "Date", format: "date", entry: (row) => `=Purchases!A${from(row)}` },
      { header: "Event", entry: (row) => `=Purchases!B${from(row)}` },
      { header: "For yarn", entry: (row) => `=Purchases!C${from(row)}&""` },
      { header: "Quantity (kg, out negative)", format: "kg", entry: (row) => `=Purchases!D${from(row)}` },
    ]);
    book.spill(
      sheet,
      `E${first - 1}`,
      `=YARN.STOCKLEDGER(${moves}[[Quantity (kg, out negative)]:[Cost (EUR/kg)]],StockMethod)`,
      ["kg", "money", "price", "money"],
    );
  });
}

/** Cost of what was issued, of both tops, to the yarn named in a cell. */
function issuedTo(cell: string): string {
  return TOPS.map((_, index) => {
    const first = STOCK_FIRST[index] as number;
    return `SUMIFS(Stock!H$${first}:H$${first + MOVES - 1},Moves${"AB"[index] as string}[For yarn],${cell})`;
  }).join("+");
}

function landed(book: SampleBook): void {
  const sheet = book.sheet(
    "Landed",
    "From the top and the contractors' work to the landed skein, in EUR; every charge foots to the cent.",
  );
  const yarn = (column: string) => (row: number) => `=Purchases!${column}${row - LINE_FIRST + YARN_FIRST}`;
  const paid = (row: number, work: string) =>
    `=SUMIFS(Invoices!H$${INVOICE_FIRST}:H$${INVOICE_LAST},Bills[Yarn],A${row},Bills[Work],"${work}")`;
  book.heading(sheet, `A${LINE_FIRST - 2}`, "The yarns before the journey");
  book.block(sheet, `A${LINE_FIRST - 1}`, LINES.length, [
    { header: "Yarn", entry: yarn("A") },
    {
      header: "Top from stock (EUR)",
      format: "money",
      entry: (row) => `=ROUND(${issuedTo(`A${row}`)},Decimals)`,
      total: true,
    },
    { header: "Dyeing (EUR)", format: "money", entry: (row) => paid(row, "dye"), total: true },
    { header: "Spinning (EUR)", format: "money", entry: (row) => paid(row, "spin"), total: true },
    {
      header: "Yarn at standard regain (kg)",
      format: "kg",
      entry: (row) =>
        `=SUMIFS(Invoices!E$${CONDITION_FIRST}:E$${CONDITION_LAST},Bills[Yarn],A${row},Bills[Work],"spin")`,
      total: true,
    },
    { header: "Value (EUR)", format: "money", entry: (row) => `=B${row}+C${row}+D${row}`, total: true },
    { header: "Gross mass (kg)", format: "kg", entry: yarn("D"), total: true },
    { header: "Volume (m³)", format: "decimal", entry: yarn("E"), total: true },
    { header: "Skeins counted (no.)", format: "whole", entry: yarn("C"), total: true },
    {
      header: "Skeins that the mass gives (no.)",
      format: "whole",
      spill: `=YARN.SKEINS(E${LINE_FIRST}:E${LINE_LAST},Yarns[Skein mass (kg)])`,
      total: true,
    },
    { header: "Counted against the mass", format: "percent", entry: (row) => `=I${row}/J${row}-1` },
  ]);

  const total = LINE_LAST + 1;
  book.heading(sheet, `A${CHARGE_FIRST - 2}`, "Charges of the journey");
  const amounts = [
    `=YARN.ROUNDCASH(YARN.EXCHANGE(F${CHARGE_FIRST}*FreightRate,FreightCurrency,HomeCurrency,ShipmentDate,Rates[[Date]:[Rate (To per From)]]),Decimals)`,
    `=ROUND(YARN.INSURANCE(F${total}+B${CHARGE_FIRST},InsuranceRate,InsuranceUplift),Decimals)`,
    `=ROUND(YARN.DUTY(F${CHARGE_FIRST + 1},E${total},DutyRate,DutySpecific,DutyRule),Decimals)`,
    `=ROUND(YARN.FEE(F${CHARGE_FIRST + 1},FeeRate,FeeMinimum,FeeMaximum),Decimals)`,
    "=BrokerFee",
    `=ROUND(I${total}*LabelCost,Decimals)`,
  ];
  const sharing = (header: string) => (row: number) => `=INDEX(Sharing[${header}],ROWS(A$${CHARGE_FIRST}:A${row}))`;
  book.block(sheet, `A${CHARGE_FIRST - 1}`, CHARGES.length, [
    { header: "Charge", entry: sharing("Charge") },
    { header: "Amount (EUR)", format: "money", entry: (row) => amounts[row - CHARGE_FIRST] as string },
    { header: "Shared by", entry: sharing("Shared by") },
  ]);
  const chargeable = `=YARN.CHARGEABLE(G${total},H${total},FreightDensity,FreightStep)`;
  book.put(sheet, `E${CHARGE_FIRST}`, "Chargeable (kg)");
  book.put(sheet, `F${CHARGE_FIRST}`, chargeable, "kg");
  book.put(sheet, `E${CHARGE_FIRST + 1}`, "Value landed (EUR)");
  book.put(sheet, `F${CHARGE_FIRST + 1}`, `=F${total}+B${CHARGE_FIRST}+B${CHARGE_FIRST + 1}`, "money");
  book.note(
    sheet,
    `E${CHARGE_FIRST + 2}`,
    "What duty and fee are charged on is decided by law: here value, freight and insurance.",
  );

  book.heading(sheet, `A${LANDED_TOP - 2}`, "Landed cost (charges in the order of the list above)");
  book.block(sheet, `A${LANDED_TOP}`, LINES.length, [
    { header: "Yarn", entry: (row) => `=A${row - LANDED_FIRST + LINE_FIRST}` },
  ]);
  book.put(sheet, `A${LANDED_TOTAL}`, "In all");
  book.spill(
    sheet,
    `B${LANDED_TOP}`,
    `=YARN.LANDED(F${LINE_FIRST}:I${LINE_LAST},B${CHARGE_FIRST}:C${CHARGE_LAST},Decimals)`,
    ["money", "money", "money", "money", "money", "money", "money", "money", "whole", "price"],
    { totalled: true },
  );

  const first = LANDED_TOTAL + 4;
  const last = first + LINES.length - 1;
  const line = (row: number) => row - first + LINE_FIRST;
  book.heading(sheet, `A${first - 2}`, "What a skein is made of");
  book.block(sheet, `A${first - 1}`, LINES.length, [
    { header: "Yarn", entry: (row) => `=A${line(row)}` },
    ...["Top", "Dyeing", "Spinning"].map((header, index) => ({
      header: `${header} (EUR/skein)`,
      format: "price" as const,
      entry: (row: number) => `=${"BCD"[index] as string}${line(row)}/I${line(row)}`,
    })),
    {
      header: "Journey (EUR/skein)",
      format: "price",
      entry: (row) =>
        `=SUM(C${row - first + LANDED_FIRST}:${columnLetter(CHARGES.length + 2)}${row - first + LANDED_FIRST})/I${line(row)}`,
    },
    { header: "Landed (EUR/skein)", format: "price", entry: (row) => `=SUM(B${row}:E${row})` },
  ]);
  book.chart(sheet, `A${last + 3}:H${last + 21}`, {
    kind: "columns",
    stacked: true,
    title: "Landed cost of a skein",
    values: "EUR per skein",
    categories: "Yarn",
    format: "money",
    labels: `A${first}:A${last}`,
    series: ["Top", "Dyeing", "Spinning", "Journey"].map((name, index) => ({
      name,
      values: `${"BCDE"[index] as string}${first}:${"BCDE"[index] as string}${last}`,
    })),
  });
}

const COST = columnLetter(4 + CHARGES.length + 1);

function variances(book: SampleBook): void {
  const sheet = book.sheet(
    "Variances",
    "Standard for the yarn actually made against what was used and paid, in EUR; favourable is positive.",
  );
  const made = `Landed!E${LINE_FIRST}:E${LINE_LAST}`;
  const issued = (letter: string) =>
    `=-SUMIFS(Moves${letter}[Quantity (kg, out negative)],Moves${letter}[Event],"Issue")`;
  const worked = (work: string) => `=SUMIFS(Invoices!F${CONDITION_FIRST}:F${CONDITION_LAST},Bills[Work],"${work}")`;
  const total = LINE_LAST + 1;
  const ofStock = (index: number) => {
    const first = STOCK_FIRST[index] as number;
    return `SUM(Stock!H${first}:H${first + MOVES - 1})`;
  };
  const inputs: readonly (readonly [standard: string, actual: string, cost: string])[] = [
    ["Top A (kg per kg yarn)", issued("A"), ofStock(0)],
    ["Top B (kg per kg yarn)", issued("B"), ofStock(1)],
    ["Dyed (kg per kg yarn)", worked("dye"), `Landed!C${total}`],
    ["Spun (kg per kg yarn)", worked("spin"), `Landed!D${total}`],
  ];
  const columns = (first: number, skipped: number): BlockColumn[] => {
    const input = (row: number) => inputs[row - first + skipped] as (typeof inputs)[0];
    const place = (row: number) => `${skipped > 0 ? "ROWS(A$7:A$8)+" : ""}ROWS(A$${first}:A${row})`;
    return [
      { header: "Input", entry: (row) => `=INDEX(StandardPrices[Input],${place(row)})` },
      { header: "Standard (kg)", format: "kg", entry: (row) => `=SUMPRODUCT(Standards[${input(row)[0]}],${made})` },
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
  book.put(sheet, "A9", "In all");
  book.spill(sheet, "F6", "=YARN.VARIANCE(B7:B8,C7:C8,D7:D8,E7:E8)", ["money"], { totalled: true });
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
    ["All variances (EUR)", "=J9+H14+H15"],
    ["Actual cost of the yarn made (EUR)", `=Landed!F${total}`],
  ];
  lines.forEach(([label, formula], index) => book.result(sheet, 18 + index, label, formula, "money"));
}

function price(book: SampleBook): void {
  const sheet = book.sheet("Price", "What a skein must fetch, what it brings, and how many must be sold.");
  const last = 6 + LINES.length;
  book.block(sheet, "A6", LINES.length, [
    { header: "Yarn", entry: (row) => `=Landed!A${row - 7 + LINE_FIRST}` },
    {
      header: "Landed cost (EUR/skein)",
      format: "price",
      entry: (row) => `=Landed!${COST}${row - 7 + LANDED_FIRST}`,
    },
    {
      header: "Selling price (EUR/skein)",
      format: "money",
      entry: (row) => `=INDEX(Prices[Selling price (EUR/skein)],ROWS(A$7:A${row}))`,
    },
    { header: "Margin (of the price)", format: "percent", spill: `=YARN.MARGIN(B7:B${last},C7:C${last})` },
    { header: "Mark-up (of the cost)", format: "percent", spill: `=YARN.MARKUP(B7:B${last},C7:C${last})` },
    {
      header: "Price for the margin wanted (EUR)",
      format: "money",
      spill: `=YARN.ROUNDCASH(YARN.PRICEFORMARGIN(B7:B${last},MarginWanted),Decimals,"up")`,
    },
    {
      header: "Price for the mark-up wanted (EUR)",
      format: "money",
      spill: `=YARN.ROUNDCASH(YARN.PRICEFORMARKUP(B7:B${last},MarkupWanted),Decimals,"up")`,
    },
    {
      header: "To break even (skeins)",
      format: "whole",
      spill: `=YARN.BREAKEVEN(Prices[Fixed costs (EUR)],C7:C${last},B7:B${last})`,
    },
    {
      header: "For the profit wanted (skeins)",
      format: "whole",
      spill: `=YARN.BREAKEVEN(Prices[Fixed costs (EUR)],C7:C${last},B7:B${last},ProfitWanted)`,
    },
    {
      header: "Break-even, share of skeins bought",
      format: "percent",
      entry: (row) => `=H${row}/Landed!I${row - 7 + LINE_FIRST}`,
    },
  ]);
  book.note(
    sheet,
    `A${last + 2}`,
    "Margin is a share of the price, mark-up a share of the cost: a mark-up of 100 % is a margin of 50 %. Prices and costs without recoverable tax.",
  );
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
    [{ header: "Driver" }, { header: "Low", format: "percent" }, { header: "High", format: "percent" }],
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

  const total = LINE_LAST + 1;
  const kg = `Landed!E${total}`;
  const top = "(Variances!C7+Variances!C8)";
  const spinner = `SUMIFS(Invoices!F${INVOICE_FIRST}:F${INVOICE_LAST},Bills[Work],"spin")`;
  const base: readonly (readonly [header: string, format: Format, formula: string])[] = [
    ["Top (EUR/kg)", "price", `Landed!B${total}/${top}`],
    ["Top (kg per kg yarn)", "price", `${top}/${kg}`],
    ["Dyeing (EUR per kg yarn)", "price", `Landed!C${total}/${kg}`],
    ["Spinning (GBP per kg yarn)", "price", `${spinner}/${kg}`],
    ["Pound (EUR)", "price", `Landed!D${total}/${spinner}`],
    ["Freight (GBP per kg yarn)", "price", `Landed!B${CHARGE_FIRST}/F${baseRow}/${kg}`],
    ["Duty rate", "percent", `Landed!B${CHARGE_FIRST + 2}/Landed!F${CHARGE_FIRST + 1}`],
    ["Yarn in a skein (kg)", "price", `${kg}/Landed!I${total}`],
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
      entry: (row) => `=(J${row}+K${row}+L${row}+BrokerFee/${kg})*I${row}+LabelCost`,
    },
  ]);
  book.name("AverageSkein", "Swing", `M${baseRow}`);
}

function checks(book: SampleBook): void {
  const total = LINE_LAST + 1;
  const lines: [string, string][] = [
    [
      "Mass to invoice is the conditioned mass with the finish (two ways to the same kg)",
      `=AND(MAX(Invoices!J${CONDITION_FIRST}:J${CONDITION_LAST})<0.000001,MIN(Invoices!J${CONDITION_FIRST}:J${CONDITION_LAST})>-0.000001)`,
    ],
    [
      "Skeins counted agree with the mass at standard regain within the tolerance",
      `=AND(MIN(Landed!K${LINE_FIRST}:K${LINE_LAST})>=-SkeinTolerance,MAX(Landed!K${LINE_FIRST}:K${LINE_LAST})<=SkeinTolerance)`,
    ],
    [
      "Every invoice belongs to a yarn of the list",
      `=ABS(SUM(Landed!C${total}:D${total})-Invoices!H${INVOICE_LAST + 1})<0.005`,
    ],
    [
      "Cost of the top issued is shared out in full",
      `=ABS(SUM(Stock!H7:H12)+SUM(Stock!H17:H22)-Landed!B${total})<0.05`,
    ],
  ];
  TOPS.forEach((top, index) => {
    const first = 7 + index * 10;
    const moves = `Moves${"AB"[index] as string}`;
    lines.push([
      `${top}: receipts are issues and stock (EUR)`,
      `=ABS(SUMPRODUCT(${moves}[Quantity (kg, out negative)],${moves}[Cost (EUR/kg)])-SUM(Stock!H${first}:H${first + 5})-Stock!F${first + 5})<0.005`,
    ]);
  });
  CHARGES.forEach((charge, index) => {
    const column = columnLetter(index + 3);
    lines.push([
      `${charge} over the yarns foots to the cent`,
      `=ROUND(SUM(Landed!${column}${LANDED_FIRST}:${column}${LANDED_TOTAL - 1})-Landed!B${CHARGE_FIRST + index},Decimals)=0`,
    ]);
  });
  const all = columnLetter(CHARGES.length + 3);
  lines.push(
    [
      "Landed total is value plus charges",
      `=ROUND(Landed!${all}${LANDED_TOTAL}-Landed!F${total}-SUM(Landed!B${CHARGE_FIRST}:B${CHARGE_LAST}),Decimals)=0`,
    ],
    ["Standard cost less variances is the actual cost", "=ABS(Variances!B18-Variances!B19-Variances!B20)<0.05"],
    [
      "The average skein of Swing is the landed total over the skeins, to a tenth of a cent",
      `=ABS(AverageSkein-Landed!${all}${LANDED_TOTAL}/Landed!I${total})<0.001`,
    ],
  );
  book.checks(lines);
}
