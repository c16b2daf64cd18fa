import { SampleBook } from "./kit";

/** Invented weighings of one lot on its way: stage, contractor, kg and regain in, kg out, sample and dry sample in g, by-product kg and regain. */
const WEIGHINGS: readonly (readonly (string | number)[])[] = [
  ["scour", "Scourer", 1000, 0, 717.2, 250, 218.9, 0, 0.15],
  ["comb", "Comber", 717, 0.142, 671.8, 200, 169.8, 46.8, 0.15],
  ["dye", "Dyer", 671.5, 0.178, 659.5, 200, 171.2, 0, 0.15],
  ["blend and card", "Blender", 659, 0.168, 634.6, 180, 153.6, 6, 0.15],
  ["spin", "Spinner", 634.2, 0.172, 599.3, 150, 130.3, 6.1, 0.16],
  ["ply and wash", "Spinner", 599, 0.151, 595.3, 150, 128.3, 0, 0.16],
  ["reel and label", "Finisher", 595, 0.169, 593.8, 150, 128, 0, 0.16],
];

/** Terms: standard loss and by-product, what is charged, EUR/kg, kg invoiced, fibre EUR/kg, by-product EUR/kg, who keeps it. */
const TERMS: readonly (readonly (string | number)[])[] = [
  [0.365, 0, "net in", 0.9, 1000, 9.2, 0, "house"],
  [0.025, 0.065, "standard out", 1.85, 674, 12.8, 3.2, "contractor"],
  [0.01, 0, "standard out", 4.2, 667.5, 17.3, 0, "house"],
  [0.024, 0.008, "standard out", 1.5, 642, 18.9, 0.8, "contractor"],
  [0.03, 0.01, "standard out", 5.8, 616, 25.4, 0.6, "house"],
  [0.02, 0, "standard out", 3.6, 602, 29.4, 0, "house"],
  [0.005, 0, "standard out", 4.2, 599.5, 33.9, 0, "house"],
];

const STAGES = WEIGHINGS.length;
const FIRST = 7;
const LAST = FIRST + STAGES - 1;
const LOSS = LAST + 5;
const CONTRACTORS = [...new Set(WEIGHINGS.map(([, contractor]) => contractor as string))];

export function lotReconciliation(): SampleBook {
  const book = new SampleBook({
    title: "Lot reconciliation",
    purpose:
      "For one lot on its way through the contractors: what went in and what came out at one standard moisture, the loss of every stage against the agreed standard, the mass that may be invoiced, the by-products, and who owes whom how much.",
    scenario:
      "Invented: one lot of 1,000 kg of greasy wool, its contractors, weighings, samples and terms. Its route is semi-worsted: combed top is laid down and carded. No figure is anybody's.",
    date: "2026-11-23",
    currency: "EUR",
    massBasis: "Masses as weighed with their regain; compared dry, invoiced at the standard regain of the contract.",
    how: [
      "1. Type the weighings with their dried samples, and the terms of each contract, into the boxed cells of Inputs.",
      "2. Read Masses (dry and at standard), Losses (actual against standard) and Settlement (who owes what).",
      "3. A loss above the standard counts only beyond the tolerance of the contract; talk before you claim: a wrong sample looks like a loss.",
    ],
  });
  inputs(book);
  masses(book);
  losses(book);
  settlement(book);
  checks(book);
  return book;
}

function inputs(book: SampleBook): void {
  const sheet = book.sheet("Inputs", "Everything that is typed in. ", [40]);
  book.heading(sheet, "A4", "Contract");
  book.inputs(sheet, "A5", [
    ["Fibre", "Fibre", "wool", "text"],
    ["Form", "FibreForm", "combed", "text", ["combed", "carded"]],
    ["Schedule of standard regains", "RegainSchedule", "EU label", "text"],
    ["Loss above standard that is borne (of dry input)", "LossTolerance", 0.002, "percent"],
    ["Difference in transit that is borne (of dry mass)", "TransitTolerance", 0.002, "percent"],
    ["Rounding that a check lets pass (kg)", "Rounding", 0.000001, "tiny"],
    ["Cents that a check lets pass (EUR)", "Cent", 0.005, "kg3"],
  ]);
  const by = ["house", "contractor"];
  book.heading(sheet, "D4", "Contractors");
  book.table(
    sheet,
    "D5",
    "Contractors",
    [{ header: "Contractor" }],
    CONTRACTORS.map((contractor) => [contractor]),
  );
  book.heading(sheet, "A13", "Weighings, with a dried sample of what came out");
  book.table(
    sheet,
    "A14",
    "Weighings",
    [
      { header: "Stage" },
      { header: "Contractor", choices: CONTRACTORS },
      { header: "Mass in (kg)", format: "kg" },
      { header: "Regain in", format: "percent" },
      { header: "Mass out (kg)", format: "kg" },
      { header: "Sample out (g)", format: "decimal1" },
      { header: "Sample dried (g)", format: "decimal1" },
      { header: "By-product (kg)", format: "kg" },
      { header: "Regain of by-product", format: "percent" },
    ],
    WEIGHINGS,
  );
  book.note(
    sheet,
    `A${15 + STAGES}`,
    "Greasy wool is taken as it is weighed: regain 0, so that grease, dirt and water are part of the loss in scouring.",
  );
  const top = 18 + STAGES;
  book.heading(sheet, `A${top - 1}`, "Terms of each contract");
  book.table(
    sheet,
    `A${top}`,
    "Terms",
    [
      { header: "Stage" },
      { header: "Standard loss (of dry input)", format: "percent" },
      { header: "Standard by-product (of dry input)", format: "percent" },
      { header: "Charged on", choices: ["net in", "standard out"] },
      { header: "Rate (EUR/kg)", format: "money" },
      { header: "Invoiced (kg)", format: "kg" },
      { header: "Value of fibre (EUR/kg)", format: "money" },
      { header: "By-product price (EUR/kg)", format: "money" },
      { header: "By-product kept by", choices: by },
    ],
    TERMS.map((terms, index) => [(WEIGHINGS[index] as readonly string[])[0] as string, ...terms]),
  );
}

function masses(book: SampleBook): void {
  const sheet = book.sheet("Masses", "Every weighing dry and at the standard regain, and what is invoiced.", [24]);
  const w = (column: string) => `Weighings[${column}]`;
  book.heading(sheet, "A5", "In and out of each contractor");
  book.block(sheet, `A${FIRST - 1}`, STAGES, [
    { header: "Stage", spill: "=Weighings[Stage]" },
    { header: "Dry in (kg)", format: "kg", spill: `=YARN.DRYMASS(${w("Mass in (kg)")},${w("Regain in")})` },
    {
      header: "Regain out, by sample",
      format: "percent",
      spill: `=YARN.MEASUREDREGAIN(${w("Sample out (g)")},${w("Sample dried (g)")})`,
    },
    { header: "Dry out (kg)", format: "kg", spill: `=YARN.DRYMASS(${w("Mass out (kg)")},C${FIRST}:C${LAST})` },
    {
      header: "By-product dry (kg)",
      format: "kg",
      spill: `=YARN.DRYMASS(${w("By-product (kg)")},${w("Regain of by-product")})`,
    },
    { header: "Lost dry (kg)", format: "kg", entry: (row) => `=B${row}-D${row}-E${row}` },
    {
      header: "Out at standard: invoice mass (kg)",
      format: "kg",
      spill: `=YARN.INVOICEMASS(${w("Mass out (kg)")},${w("Sample out (g)")},${w("Sample dried (g)")},StandardRegain)`,
    },
    {
      header: "Lost on the way to the next (kg dry)",
      format: "kg",
      entry: (row) => (row < LAST ? `=D${row}-B${row + 1}` : '=""'),
    },
  ]);
  book.heading(sheet, `A${LAST + 3}`, "The lot as a whole");
  book.result(
    sheet,
    LAST + 4,
    "Standard regain",
    "=YARN.REGAIN(Fibre,FibreForm,RegainSchedule)",
    "percent",
    "StandardRegain",
  );
  book.result(sheet, LAST + 5, "Put in (kg)", `=INDEX(${w("Mass in (kg)")},1)`, "kg", "PutIn");
  book.result(
    sheet,
    LAST + 6,
    "Come out, at standard (kg)",
    `=INDEX(G${FIRST}:G${LAST},ROWS(Weighings[Stage]))`,
    "kg",
    "ComeOut",
  );
  book.result(sheet, LAST + 7, "Yield of the lot", "=ComeOut/PutIn", "percent");
}

/** What the rows of a block about the stages begin with. */
const EACH_STAGE = [
  { header: "Stage", spill: "=Weighings[Stage]" },
  { header: "Contractor", spill: "=Weighings[Contractor]" },
];

function losses(book: SampleBook): void {
  const sheet = book.sheet("Losses", "The loss of each stage as it was, against the standard of its contract.", [24]);
  const w = (column: string) => `Weighings[${column}]`;
  const mass = (column: string, row: number) => `Masses!${column}${row}`;
  book.heading(sheet, "A5", "Loss and by-product, as shares of the dry input");
  book.block(sheet, `A${FIRST - 1}`, STAGES, [
    ...EACH_STAGE,
    {
      header: "Loss, actual",
      format: "percent",
      spill: `=YARN.STAGELOSS(${w("Mass in (kg)")},${w("Regain in")},${w("Mass out (kg)")},Masses!C${FIRST}:C${LAST},${w("By-product (kg)")},${w("Regain of by-product")})`,
    },
    { header: "Loss, standard", format: "percent", spill: "=Terms[Standard loss (of dry input)]" },
    { header: "Above standard", format: "percent", entry: (row) => `=C${row}-D${row}` },
    { header: "By-product, actual", format: "percent", entry: (row) => `=${mass("E", row)}/${mass("B", row)}` },
    { header: "By-product, standard", format: "percent", spill: "=Terms[Standard by-product (of dry input)]" },
    {
      header: "Answered for (of dry input)",
      format: "percent",
      entry: (row) => `=MAX(0,E${row}-LossTolerance)`,
    },
    {
      header: "Answered for, at standard (kg)",
      format: "kg",
      entry: (row) => `=H${row}*${mass("B", row)}*(1+StandardRegain)`,
      total: true,
    },
  ]);
  book.heading(sheet, `A${LOSS - 2}`, "Loss of each stage after scouring");
  book.chart(sheet, `A${LOSS - 1}:I${LOSS + 17}`, {
    kind: "columns",
    title: "Loss against the standard (of dry input), after scouring",
    categories: "Stage",
    values: "Share of the dry input",
    format: "percent",
    labels: `A${FIRST + 1}:A${LAST}`,
    series: [
      { name: "Actual", values: `C${FIRST + 1}:C${LAST}` },
      { name: "Standard", values: `D${FIRST + 1}:D${LAST}` },
    ],
    written: true,
  });
}

function settlement(book: SampleBook): void {
  const sheet = book.sheet("Settlement", "What each invoice should be, and who owes whom.", [24]);
  const term = (column: string) => `INDEX(Terms[${column}],ROW()-ROW(A$${FIRST - 1}))`;
  book.heading(sheet, "A5", "Each stage");
  book.block(sheet, `A${FIRST - 1}`, STAGES, [
    ...EACH_STAGE,
    {
      header: "To be charged for (kg)",
      format: "kg",
      entry: (row) =>
        `=IF(${term("Charged on")}="net in",INDEX(Weighings[Mass in (kg)],ROW()-ROW(A$${FIRST - 1})),Masses!G${row})`,
    },
    { header: "Invoiced (kg)", format: "kg", spill: "=Terms[Invoiced (kg)]" },
    {
      header: "Right charge (EUR)",
      format: "money",
      spill: `=YARN.ROUNDCASH(YARN.CHARGE(C${FIRST}:C${LAST},Terms[Rate (EUR/kg)]),2)`,
      total: true,
    },
    {
      header: "Invoiced (EUR)",
      format: "money",
      spill: "=YARN.ROUNDCASH(YARN.CHARGE(Terms[Invoiced (kg)],Terms[Rate (EUR/kg)]),2)",
      total: true,
    },
    { header: "Invoiced too much (EUR)", format: "money", entry: (row) => `=F${row}-E${row}`, total: true },
    {
      header: "By-product kept by the contractor (EUR)",
      format: "money",
      entry: (row) =>
        `=IF(${term("By-product kept by")}="contractor",ROUND(Masses!E${row}*(1+StandardRegain)*${term("By-product price (EUR/kg)")},2),0)`,
      total: true,
    },
    {
      header: "Loss answered for (EUR)",
      format: "money",
      entry: (row) => `=ROUND(Losses!I${row}*${term("Value of fibre (EUR/kg)")},2)`,
      total: true,
    },
    { header: "To pay (EUR)", format: "money", entry: (row) => `=E${row}-H${row}-I${row}`, total: true },
  ]);
  book.heading(sheet, `A${LOSS - 2}`, "Each contractor");
  const sum = (column: string) => (row: number) =>
    `=SUMIF(B$${FIRST}:B$${LAST},A${row},${column}$${FIRST}:${column}$${LAST})`;
  book.block(sheet, `A${LOSS - 1}`, CONTRACTORS.length, [
    { header: "Contractor", spill: "=Contractors[Contractor]" },
    { header: "Right charge (EUR)", format: "money", entry: sum("E"), total: true },
    { header: "By-product kept (EUR)", format: "money", entry: sum("H"), total: true },
    { header: "Loss answered for (EUR)", format: "money", entry: sum("I"), total: true },
    { header: "To pay (EUR)", format: "money", entry: (row) => `=B${row}-C${row}-D${row}`, total: true },
    { header: "Invoiced (EUR)", format: "money", entry: sum("F"), total: true },
    { header: "Withhold (EUR)", format: "money", entry: (row) => `=F${row}-E${row}`, total: true },
    {
      header: "In words",
      runs: true,
      entry: (row) =>
        `=IF(E${row}>=0,"the house owes the "&LOWER(A${row})&" "&TEXT(E${row},"#,##0.00"),"the "&LOWER(A${row})&" owes the house "&TEXT(-E${row},"#,##0.00"))`,
    },
  ]);
  book.note(
    sheet,
    `A${LOSS + CONTRACTORS.length + 2}`,
    "By-products and losses are valued at the standard regain, at the prices of Inputs. A contract may say otherwise; it decides.",
  );
}

function checks(book: SampleBook): void {
  const total = LOSS + CONTRACTORS.length;
  book.checks([
    ["Weighings and terms name the same stages", "=SUMPRODUCT(--(Weighings[Stage]<>Terms[Stage]))=0"],
    [
      "Every contractor of the weighings stands once in the list of contractors",
      "=SUMPRODUCT(--(COUNTIF(Contractors[Contractor],Weighings[Contractor])<>1))=0",
    ],
    ["No stage gives out more dry fibre than it took in (kg)", `=MIN(Masses!F${FIRST}:F${LAST})>=0`],
    [
      "Loss by mass balance is the loss by weighings, at every stage",
      `=SUMPRODUCT(--(ABS(Losses!C${FIRST}:C${LAST}*Masses!B${FIRST}:B${LAST}-Masses!F${FIRST}:F${LAST})>Rounding))=0`,
    ],
    [
      "Dry mass put in is dry mass come out, by-products, losses and what was lost in transit (kg)",
      `=ABS(Masses!B${FIRST}-Masses!D${LAST}-SUM(Masses!E${FIRST}:F${LAST})-SUM(Masses!H${FIRST}:H${LAST - 1}))<Rounding`,
    ],
    [
      "Nothing beyond the tolerance was lost or found between contractors",
      `=SUMPRODUCT(--(ABS(Masses!H${FIRST}:H${LAST - 1})>TransitTolerance*Masses!D${FIRST}:D${LAST - 1}))=0`,
    ],
    [
      "Invoice mass is the dry mass out at the standard regain (kg)",
      `=SUMPRODUCT(--(ABS(Masses!G${FIRST}:G${LAST}-Masses!D${FIRST}:D${LAST}*(1+StandardRegain))>Rounding))=0`,
    ],
    ["The contractors' balances sum to the stages' (EUR)", `=ABS(Settlement!E${total}-Settlement!J${LAST + 1})<Cent`],
    [
      "What is withheld is what was invoiced too much, by-products and losses (EUR)",
      `=ABS(Settlement!G${total}-Settlement!G${LAST + 1}-Settlement!H${LAST + 1}-Settlement!I${LAST + 1})<Cent`,
    ],
  ]);
}
