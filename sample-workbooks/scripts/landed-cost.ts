import { columnLetter, SampleBook, type Entry, type Format } from "./kit";

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
const INVOICE_FIRST = 7;
const INVOICE_LAST = INVOICE_FIRST + INVOICES.length - 1;
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
    scenario:
      "Invented: a small yarn house, its stock of two tops, its dyer, its spinner, rates of exchange and prices. No figure is anybody's.",
    date: "2026-09-07",
    currency: "EUR is the currency of the house; the spinner and the carrier bill in GBP.",
    massBasis:
      "Contractors are paid on mass at standard condition: dry mass with the standard regain and the agreed finish. Skeins are labelled at standard regain without finish.",
    how: [
      "1. Inputs: standard regain, tolerance, freight, duty, rates of exchange, prices. Purchases: yarns, invoices, movements of top.",
      "2. Invoices says what to pay and what to query; Stock what the top cost; Landed the cost of a skein.",
      "3. Variances, Price and Swing are for the talk about it. Checks must hold first.",
      "Duty rates, customs fees and values are set by law: take them from the authority and leave filings to a licensed broker.",
    ],
  });
  inputs(book);
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
  const sheet = book.sheet("Inputs", "Rates, rules and prices. Change the grey cells only.");
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
  let row = 4;
  for (const [heading, lines] of sections) {
    book.heading(sheet, `A${row++}`, heading);
    for (const [label, name, entry, format, choices] of lines) {
      book.input(sheet, row++, label, name, entry, format, choices);
    }
    row++;
  }
  book.heading(sheet, "D4", "Rates of exchange (units of To for one of From; the latest on or before a date holds)");
  book.table(
    sheet,
    "D5",
    "Rates",
    [
      { header: "Date", format: "date" },
      { header: "From" },
      { header: "To" },
      { header: "Rate (To per From)", format: "price" },
    ],
    RATES,
  );
  book.heading(sheet, "D14", "How each charge is shared over the yarns");
  book.table(
    sheet,
    "D15",
    "Sharing",
    [{ header: "Charge" }, { header: "Shared by", choices: ["value", "mass", "volume", "quantity", "equal"] }],
    CHARGES.map((charge, index) => [
      charge,
      ["volume", "value", "value", "value", "equal", "quantity"][index] as string,
    ]),
  );
  book.heading(sheet, "D24", "Prices of the yarns");
  book.table(
    sheet,
    "D25",
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
  book.heading(sheet, "D31", "Standards");
  book.table(
    sheet,
    "D32",
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
  book.table(
    sheet,
    "D38",
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
    "What came in: yarns as counted and measured, contractors' invoices, movements of top. Change the grey cells only.",
  );
  book.heading(sheet, "A4", "Yarns delivered");
  book.table(
    sheet,
    "A5",
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
  book.heading(sheet, "A12", "Contractors' invoices, with the sample that was dried when the delivery was weighed");
  book.table(
    sheet,
    "A13",
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
    const row = 22 + index * 10;
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
  book.put(sheet, "A4", "Standard regain");
  book.put(sheet, "D4", "=YARN.REGAIN(Fibre,FibreForm,Schedule)", "percent");
  book.name("StandardRegain", "Invoices", "D4");
  book.headers(sheet, `A${INVOICE_FIRST - 1}`, [
    "Invoice",
    "Yarn",
    "Work",
    "Regain measured",
    "Wool at standard regain (kg)",
    "Mass to invoice (kg)",
    "Invoiced (kg)",
    "Invoiced above (kg)",
    "Invoiced above (share)",
    "Verdict",
    "Invoiced amount",
    "Amount to pay",
    "Claim",
    "Currency",
    "To pay (EUR)",
    "Mass to invoice, reckoned two ways, differs (kg)",
  ]);
  INVOICES.forEach((_, index) => {
    const row = INVOICE_FIRST + index;
    const from = 14 + index;
    book.put(sheet, `A${row}`, `=Purchases!A${from}`);
    book.put(sheet, `B${row}`, `=Purchases!B${from}`);
    book.put(sheet, `C${row}`, `=Purchases!C${from}`);
    book.put(sheet, `G${row}`, `=Purchases!J${from}`, "kg");
    book.put(sheet, `H${row}`, `=G${row}-F${row}`, "kg");
    book.put(sheet, `I${row}`, `=H${row}/F${row}`, "percent");
    book.put(sheet, `J${row}`, `=IF(I${row}<=MassTolerance,"pay","query")`);
    book.put(sheet, `K${row}`, `=ROUND(G${row}*Purchases!K${from},Decimals)`, "money");
    book.put(sheet, `L${row}`, `=IF(J${row}="pay",K${row},ROUND(F${row}*Purchases!K${from},Decimals))`, "money");
    book.put(sheet, `M${row}`, `=K${row}-L${row}`, "money");
    book.put(sheet, `N${row}`, `=Purchases!E${from}`);
    book.put(sheet, `P${row}`, `=E${row}*(1+StandardRegain+Purchases!I${from})/(1+StandardRegain)-F${row}`, "kg3");
  });
  const first = `${INVOICE_FIRST}:`;
  book.spill(sheet, `D${INVOICE_FIRST}`, "=YARN.MEASUREDREGAIN(Bills[Sample (g)],Bills[Sample dry (g)])", ["percent"], {
    headed: false,
  });
  book.spill(
    sheet,
    `E${INVOICE_FIRST}`,
    `=YARN.CONDITIONED(Bills[Net weighed (kg)],D${first}D${INVOICE_LAST},StandardRegain)`,
    ["kg"],
    { headed: false },
  );
  book.spill(
    sheet,
    `F${INVOICE_FIRST}`,
    "=YARN.INVOICEMASS(Bills[Net weighed (kg)],Bills[Sample (g)],Bills[Sample dry (g)],StandardRegain,Bills[Agreed finish (of dry)])",
    ["kg"],
    { headed: false },
  );
  book.spill(
    sheet,
    `O${INVOICE_FIRST}`,
    `=YARN.ROUNDCASH(YARN.EXCHANGE(L${first}L${INVOICE_LAST},Bills[Currency],HomeCurrency,Bills[Date],Rates[[Date]:[Rate (To per From)]]),Decimals)`,
    ["money"],
    { headed: false },
  );
  const total = INVOICE_LAST + 1;
  book.put(sheet, `A${total}`, "In all").font = { bold: true };
  book.put(sheet, `O${total}`, `=SUM(O${first}O${INVOICE_LAST})`, "money").font = { bold: true };
  book.note(
    sheet,
    `A${total + 2}`,
    "“query”: the mass invoiced is above the mass at standard condition by more than the tolerance; the mass at standard condition is paid until it is settled.",
  );
  book.note(sheet, `A${total + 3}`, "Invoices are exchanged at the latest rate on or before their date.");
}

function stock(book: SampleBook): void {
  const sheet = book.sheet("Stock", "Value of the top in stock and cost of what was issued to each yarn.");
  TOPS.forEach((top, index) => {
    const row = 5 + index * 10;
    const from = 24 + index * 10;
    const moves = `Moves${"AB"[index] as string}`;
    book.heading(sheet, `A${row}`, top);
    book.headers(sheet, `A${row + 1}`, ["Date", "Event", "For yarn", "Quantity (kg)"]);
    (EVENTS[index] as (typeof EVENTS)[0]).forEach((_, down) => {
      book.put(sheet, `A${row + 2 + down}`, `=Purchases!A${from + down}`, "date");
      book.put(sheet, `B${row + 2 + down}`, `=Purchases!B${from + down}`);
      book.put(sheet, `C${row + 2 + down}`, `=Purchases!C${from + down}&""`);
      book.put(sheet, `D${row + 2 + down}`, `=Purchases!D${from + down}`, "kg");
    });
    book.spill(
      sheet,
      `E${row + 1}`,
      `=YARN.STOCKLEDGER(${moves}[[Quantity (kg, out negative)]:[Cost (EUR/kg)]],StockMethod)`,
      ["kg", "money", "price", "money"],
    );
  });
}

function landed(book: SampleBook): void {
  const sheet = book.sheet(
    "Landed",
    "From the top and the contractors' work to the landed skein, in EUR; every charge foots to the cent.",
  );
  book.heading(sheet, "A5", "The yarns before the journey");
  book.headers(sheet, "A6", [
    "Yarn",
    "Top from stock (EUR)",
    "Dyeing (EUR)",
    "Spinning (EUR)",
    "Yarn at standard regain (kg)",
    "Value (EUR)",
    "Gross mass (kg)",
    "Volume (m³)",
    "Skeins counted (no.)",
    "Skeins that the mass gives (no.)",
    "Counted against the mass",
  ]);
  const paid = `Invoices!O$${INVOICE_FIRST}:O$${INVOICE_LAST}`;
  LINES.forEach((_, index) => {
    const row = LINE_FIRST + index;
    const issued = ["A", "B"].map((letter, place) => {
      const first = 7 + place * 10;
      return `SUMIFS(Stock!H$${first}:H$${first + 5},Moves${letter}[For yarn],A${row})`;
    });
    book.put(sheet, `A${row}`, `=Purchases!A${6 + index}`);
    book.put(sheet, `B${row}`, `=ROUND(${issued.join("+")},Decimals)`, "money");
    book.put(sheet, `C${row}`, `=SUMIFS(${paid},Bills[Yarn],A${row},Bills[Work],"dye")`, "money");
    book.put(sheet, `D${row}`, `=SUMIFS(${paid},Bills[Yarn],A${row},Bills[Work],"spin")`, "money");
    book.put(
      sheet,
      `E${row}`,
      `=SUMIFS(Invoices!E$${INVOICE_FIRST}:E$${INVOICE_LAST},Bills[Yarn],A${row},Bills[Work],"spin")`,
      "kg",
    );
    book.put(sheet, `F${row}`, `=B${row}+C${row}+D${row}`, "money");
    book.put(sheet, `G${row}`, `=Purchases!D${6 + index}`, "kg");
    book.put(sheet, `H${row}`, `=Purchases!E${6 + index}`, "decimal");
    book.put(sheet, `I${row}`, `=Purchases!C${6 + index}`, "whole");
    book.put(sheet, `K${row}`, `=I${row}/J${row}-1`, "percent");
  });
  book.spill(sheet, `J${LINE_FIRST}`, `=YARN.SKEINS(E${LINE_FIRST}:E${LINE_LAST},Yarns[Skein mass (kg)])`, ["whole"], {
    headed: false,
  });
  const total = LINE_LAST + 1;
  book.put(sheet, `A${total}`, "In all").font = { bold: true };
  for (const [column, format] of [..."BCDEFGHIJ"].map((letter, index): [string, Format] => [
    letter,
    (["money", "money", "money", "kg", "money", "kg", "decimal", "whole", "whole"] as const)[index] as Format,
  ])) {
    const cell = book.put(sheet, `${column}${total}`, `=SUM(${column}${LINE_FIRST}:${column}${LINE_LAST})`, format);
    cell.font = { bold: true };
  }

  book.heading(sheet, `A${CHARGE_FIRST - 2}`, "Charges of the journey");
  book.headers(sheet, `A${CHARGE_FIRST - 1}`, ["Charge", "Amount (EUR)", "Shared by"]);
  const amounts = [
    `=YARN.ROUNDCASH(YARN.EXCHANGE(F${CHARGE_FIRST}*FreightRate,FreightCurrency,HomeCurrency,ShipmentDate,Rates[[Date]:[Rate (To per From)]]),Decimals)`,
    `=ROUND(YARN.INSURANCE(F${total}+B${CHARGE_FIRST},InsuranceRate,InsuranceUplift),Decimals)`,
    `=ROUND(YARN.DUTY(F${CHARGE_FIRST + 1},E${total},DutyRate,DutySpecific,DutyRule),Decimals)`,
    `=ROUND(YARN.FEE(F${CHARGE_FIRST + 1},FeeRate,FeeMinimum,FeeMaximum),Decimals)`,
    "=BrokerFee",
    `=ROUND(I${total}*LabelCost,Decimals)`,
  ];
  amounts.forEach((formula, index) => {
    const row = CHARGE_FIRST + index;
    book.put(sheet, `A${row}`, `=INDEX(Sharing[Charge],ROWS(A$${CHARGE_FIRST}:A${row}))`);
    book.put(sheet, `B${row}`, formula, "money");
    book.put(sheet, `C${row}`, `=INDEX(Sharing[Shared by],ROWS(A$${CHARGE_FIRST}:A${row}))`);
  });
  book.put(sheet, `E${CHARGE_FIRST}`, "Chargeable (kg)");
  book.put(sheet, `F${CHARGE_FIRST}`, `=YARN.CHARGEABLE(G${total},H${total},FreightDensity,FreightStep)`, "kg");
  book.put(sheet, `E${CHARGE_FIRST + 1}`, "Customs value");
  book.put(sheet, `F${CHARGE_FIRST + 1}`, `=F${total}+B${CHARGE_FIRST}+B${CHARGE_FIRST + 1}`, "money");

  book.heading(sheet, `A${LANDED_TOP - 2}`, "Landed cost");
  book.note(
    sheet,
    `A${LANDED_TOP - 1}`,
    "Charges in the order of the list above; the last column is the cost of a skein.",
  );
  book.headers(sheet, `A${LANDED_TOP}`, ["Yarn"]);
  LINES.forEach((_, index) => book.put(sheet, `A${LANDED_FIRST + index}`, `=A${LINE_FIRST + index}`));
  book.put(sheet, `A${LANDED_TOTAL}`, "In all").font = { bold: true };
  book.spill(
    sheet,
    `B${LANDED_TOP}`,
    `=YARN.LANDED(F${LINE_FIRST}:I${LINE_LAST},B${CHARGE_FIRST}:C${CHARGE_LAST},Decimals)`,
    ["money", "money", "money", "money", "money", "money", "money", "money", "whole", "price"],
    { totalled: true },
  );
  const partsTop = LANDED_TOTAL + 2;
  book.heading(sheet, `A${partsTop}`, "What a skein is made of (EUR/skein)");
  book.block(sheet, `A${partsTop + 1}`, LINES.length, [
    { header: "Yarn", entry: (row) => `=A${row - partsTop - 2 + LINE_FIRST}` },
    ...["Top", "Dyeing", "Spinning"].map((header, index) => ({
      header: `${header} (EUR/skein)`,
      format: "price" as const,
      entry: (row: number) =>
        `=${"BCD"[index] as string}${row - partsTop - 2 + LINE_FIRST}/I${row - partsTop - 2 + LINE_FIRST}`,
    })),
    {
      header: "Journey (EUR/skein)",
      format: "price",
      entry: (row) =>
        `=SUM(C${row - partsTop - 2 + LANDED_FIRST}:${columnLetter(CHARGES.length + 2)}${row - partsTop - 2 + LANDED_FIRST})/I${row - partsTop - 2 + LINE_FIRST}`,
    },
    { header: "Landed (EUR/skein)", format: "price", entry: (row) => `=SUM(B${row}:E${row})` },
  ]);
  const parts = (column: string) => `${column}${partsTop + 2}:${column}${partsTop + 1 + LINES.length}`;
  book.chart(sheet, `A${partsTop + 8}:H${partsTop + 26}`, {
    kind: "columns",
    stacked: true,
    title: "Landed cost of a skein",
    values: "EUR per skein",
    categories: "Yarn",
    format: "money",
    labels: parts("A"),
    series: ["Top", "Dyeing", "Spinning", "Journey"].map((name, index) => ({
      name,
      values: parts("BCDE"[index] as string),
    })),
  });
}

const COST = columnLetter(4 + CHARGES.length + 1);

function variances(book: SampleBook): void {
  const sheet = book.sheet(
    "Variances",
    "Standard for the yarn actually made against what was used and paid, in EUR; favourable is positive.",
  );
  book.headers(sheet, "A6", [
    "Input",
    "Standard (kg)",
    "Actual (kg)",
    "Standard price (EUR/kg)",
    "Actual price (EUR/kg)",
  ]);
  const made = `Landed!E${LINE_FIRST}:E${LINE_LAST}`;
  const inputs: [string, string, string, string][] = [
    [
      "Top A",
      "Top A (kg per kg yarn)",
      '=-SUMIFS(MovesA[Quantity (kg, out negative)],MovesA[Event],"Issue")',
      "=SUM(Stock!H7:H12)",
    ],
    [
      "Top B",
      "Top B (kg per kg yarn)",
      '=-SUMIFS(MovesB[Quantity (kg, out negative)],MovesB[Event],"Issue")',
      "=SUM(Stock!H17:H22)",
    ],
    [
      "Dyeing",
      "Dyed (kg per kg yarn)",
      `=SUMIFS(Invoices!F${INVOICE_FIRST}:F${INVOICE_LAST},Bills[Work],"dye")`,
      `=Landed!C${LINE_LAST + 1}`,
    ],
    [
      "Spinning",
      "Spun (kg per kg yarn)",
      `=SUMIFS(Invoices!F${INVOICE_FIRST}:F${INVOICE_LAST},Bills[Work],"spin")`,
      `=Landed!D${LINE_LAST + 1}`,
    ],
  ];
  book.heading(sheet, "A5", "Tops: two materials that replace one another, so there is a mix");
  book.heading(sheet, "A12", "Work: each on its own");
  book.headers(sheet, "A13", [
    "Input",
    "Standard (kg)",
    "Actual (kg)",
    "Standard price (EUR/kg)",
    "Actual price (EUR/kg)",
  ]);
  inputs.forEach(([, standard, actual, cost], index) => {
    const row = index < 2 ? 7 + index : 12 + index;
    book.put(sheet, `A${row}`, `=INDEX(StandardPrices[Input],${index + 1})`);
    book.put(sheet, `B${row}`, `=SUMPRODUCT(Standards[${standard}],${made})`, "kg");
    book.put(sheet, `C${row}`, actual, "kg");
    book.put(sheet, `D${row}`, `=INDEX(StandardPrices[Standard price (EUR/kg)],${index + 1})`, "price");
    book.put(sheet, `E${row}`, `${cost}/C${row}`, "price");
  });
  book.put(sheet, "A9", "In all").font = { bold: true };
  book.spill(sheet, "F6", "=YARN.VARIANCE(B7:B8,C7:C8,D7:D8,E7:E8)", ["money"], { totalled: true });
  book.headers(sheet, "F13", ["Price", "Usage", "Total"]);
  for (const row of [14, 15]) {
    const of = `YARN.VARIANCE(B${row},C${row},D${row},E${row})`;
    // Of a single material there is no mix: the columns price, usage and total say all.
    book.put(sheet, `F${row}`, `=INDEX(${of},2,1)`, "money");
    book.put(sheet, `G${row}`, `=INDEX(${of},2,4)`, "money");
    book.put(sheet, `H${row}`, `=INDEX(${of},2,5)`, "money");
  }
  book.put(sheet, "A17", "All variances (EUR)").font = { bold: true };
  book.put(sheet, "E17", "=J9+H14+H15", "money").font = { bold: true };
  book.put(sheet, "A18", "Standard cost of the yarn made (EUR)");
  book.put(sheet, "E18", "=SUMPRODUCT(B7:B8,D7:D8)+SUMPRODUCT(B14:B15,D14:D15)", "money");
  book.put(sheet, "A19", "Actual cost of the yarn made (EUR)");
  book.put(sheet, "E19", `=Landed!F${LINE_LAST + 1}`, "money");
}

function price(book: SampleBook): void {
  const sheet = book.sheet("Price", "What a skein must fetch, what it brings, and how many must be sold.");
  book.headers(sheet, "A6", [
    "Yarn",
    "Landed cost (EUR/skein)",
    "Selling price (EUR/skein)",
    "Margin (of the price)",
    "Mark-up (of the cost)",
    "Price for the margin wanted (EUR)",
    "Price for the mark-up wanted (EUR)",
    "Skeins to break even",
    "Skeins for the profit wanted",
    "Break-even, share of skeins bought",
  ]);
  LINES.forEach((_, index) => {
    const row = 7 + index;
    book.put(sheet, `A${row}`, `=Landed!A${LINE_FIRST + index}`);
    book.put(sheet, `B${row}`, `=Landed!${COST}${LANDED_FIRST + index}`, "price");
    book.put(sheet, `C${row}`, `=INDEX(Prices[Selling price (EUR/skein)],ROWS(A$7:A${row}))`, "money");
    book.put(sheet, `J${row}`, `=H${row}/Landed!I${LINE_FIRST + index}`, "percent");
  });
  const last = 6 + LINES.length;
  const columns: [string, string, Format][] = [
    ["D", `YARN.MARGIN(B7:B${last},C7:C${last})`, "percent"],
    ["E", `YARN.MARKUP(B7:B${last},C7:C${last})`, "percent"],
    ["F", `YARN.ROUNDCASH(YARN.PRICEFORMARGIN(B7:B${last},MarginWanted),Decimals,"up")`, "money"],
    ["G", `YARN.ROUNDCASH(YARN.PRICEFORMARKUP(B7:B${last},MarkupWanted),Decimals,"up")`, "money"],
    ["H", `YARN.BREAKEVEN(Prices[Fixed costs (EUR)],C7:C${last},B7:B${last})`, "whole"],
    ["I", `YARN.BREAKEVEN(Prices[Fixed costs (EUR)],C7:C${last},B7:B${last},ProfitWanted)`, "whole"],
  ];
  for (const [column, formula, format] of columns) {
    book.spill(sheet, `${column}7`, `=${formula}`, [format], { headed: false });
  }
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
  book.heading(sheet, "A5", "Drivers");
  book.table(
    sheet,
    "A6",
    "Drivers",
    [{ header: "Driver" }, { header: "Low", format: "percent" }, { header: "High", format: "percent" }],
    DRIVERS,
  );
  const count = DRIVERS.length;
  const total = LINE_LAST + 1;
  const baseRow = 20;
  const lowFirst = baseRow + 1;
  const highFirst = lowFirst + count;
  book.heading(sheet, `A${baseRow - 2}`, "The average skein, one driver moved in each row");
  const headers = [
    "Top (EUR/kg)",
    "Top (kg per kg yarn)",
    "Dyeing (EUR per kg yarn)",
    "Spinning (GBP per kg yarn)",
    "Pound (EUR)",
    "Freight (GBP per kg yarn)",
    "Duty rate",
    "Yarn in a skein (kg)",
    "Value (EUR per kg yarn)",
    "Freight and insurance (EUR/kg)",
    "Duty and fee (EUR/kg)",
    "Cost (EUR/skein)",
  ];
  book.headers(sheet, `A${baseRow - 1}`, ["Moved", ...headers]);
  const kg = `Landed!E${total}`;
  const spinner = `SUMIFS(Invoices!L${INVOICE_FIRST}:L${INVOICE_LAST},Bills[Work],"spin")`;
  const base: [string, Format][] = [
    [`Landed!B${total}/(Variances!C7+Variances!C8)`, "price"],
    [`(Variances!C7+Variances!C8)/${kg}`, "price"],
    [`Landed!C${total}/${kg}`, "price"],
    [`${spinner}/${kg}`, "price"],
    [`Landed!D${total}/${spinner}`, "price"],
    [`Landed!B${CHARGE_FIRST}/F${baseRow}/${kg}`, "price"],
    [`Landed!B${CHARGE_FIRST + 2}/Landed!F${CHARGE_FIRST + 1}`, "percent"],
    [`${kg}/Landed!I${total}`, "price"],
  ];
  const rows = 1 + 2 * count;
  for (let index = 0; index < rows; index++) {
    const row = baseRow + index;
    const place = index === 0 ? 0 : ((index - 1) % count) + 1;
    const column = index > count ? "High" : "Low";
    book.put(
      sheet,
      `A${row}`,
      index === 0 ? "Nothing" : `=INDEX(Drivers[Driver],${place})&", ${column.toLowerCase()}"`,
    );
    base.forEach(([formula, format], driver) => {
      const letter = columnLetter(driver + 2);
      const moved = driver + 1 === place ? `*(1+INDEX(Drivers[${column}],${place}))` : "";
      book.put(sheet, `${letter}${row}`, index === 0 ? `=${formula}` : `=${letter}$${baseRow}${moved}`, format);
    });
    book.put(sheet, `J${row}`, `=B${row}*C${row}+D${row}+E${row}*F${row}`, "price");
    book.put(sheet, `K${row}`, `=G${row}*F${row}+(J${row}+G${row}*F${row})*(1+InsuranceUplift)*InsuranceRate`, "price");
    book.put(
      sheet,
      `L${row}`,
      `=(J${row}+K${row})*H${row}+MEDIAN(FeeMinimum/${kg},(J${row}+K${row})*FeeRate,FeeMaximum/${kg})`,
      "price",
    );
    book.put(sheet, `M${row}`, `=(J${row}+K${row}+L${row}+BrokerFee/${kg})*I${row}+LabelCost`, "price");
  }
  book.name("AverageSkein", "Swing", `M${baseRow}`);
  book.spill(
    sheet,
    "E6",
    `=YARN.SWING(Drivers[Driver],M${lowFirst}:M${highFirst - 1},M${highFirst}:M${highFirst + count - 1})`,
    [undefined, "price", "price", "price"],
  );
  book.headers(sheet, "I6", ["Low less base (EUR/skein)", "High less base (EUR/skein)"]);
  for (let index = 0; index < count; index++) {
    book.put(sheet, `I${7 + index}`, `=F${7 + index}-AverageSkein`, "price");
    book.put(sheet, `J${7 + index}`, `=G${7 + index}-AverageSkein`, "price");
  }
  const below = highFirst + count + 1;
  book.chart(sheet, `A${below}:J${below + 20}`, {
    kind: "bars",
    stacked: true,
    title: "What moves the cost of an average skein",
    values: "Change of the landed cost (EUR per skein)",
    categories: "Driver",
    format: "money",
    labels: `E7:E${6 + count}`,
    series: [
      { name: "Driver at its low", values: `I7:I${6 + count}` },
      { name: "Driver at its high", values: `J7:J${6 + count}` },
    ],
  });
}

function checks(book: SampleBook): void {
  const total = LINE_LAST + 1;
  const lines: [string, string][] = [
    [
      "Mass to invoice is the conditioned mass with the finish (two ways to the same kg)",
      `=AND(MAX(Invoices!P${INVOICE_FIRST}:P${INVOICE_LAST})<0.000001,MIN(Invoices!P${INVOICE_FIRST}:P${INVOICE_LAST})>-0.000001)`,
    ],
    [
      "Skeins counted agree with the mass at standard regain within the tolerance",
      `=AND(MIN(Landed!K${LINE_FIRST}:K${LINE_LAST})>=-SkeinTolerance,MAX(Landed!K${LINE_FIRST}:K${LINE_LAST})<=SkeinTolerance)`,
    ],
    [
      "Every invoice belongs to a yarn of the list",
      `=ABS(SUM(Landed!C${total}:D${total})-Invoices!O${INVOICE_LAST + 1})<0.005`,
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
    ["Standard cost less variances is the actual cost", "=ABS(Variances!E18-Variances!E17-Variances!E19)<0.05"],
    [
      "The average skein of Swing is the landed total over the skeins, to a tenth of a cent",
      `=ABS(AverageSkein-Landed!${all}${LANDED_TOTAL}/Landed!I${total})<0.001`,
    ],
  );
  book.checks(lines);
}
