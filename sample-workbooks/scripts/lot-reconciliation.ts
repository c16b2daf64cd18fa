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

const CONTRACTORS = [...new Set(WEIGHINGS.map(([, contractor]) => contractor as string))];
const STAGES = WEIGHINGS.length;

/** Where the blocks begin: their first rows, and the sums above them where there are any. */
const MASSES = 13;
const LOSSES = 25;
const CHARGES = 7;
const BALANCES = 7;

export function lotReconciliation(): SampleBook {
  const book = new SampleBook({
    title: "Lot reconciliation",
    purpose:
      "For one lot on its way through the contractors: what went in and what came out at one standard moisture, the loss of every stage against the agreed standard, the mass that may be invoiced, the by-products, and who owes whom how much.",
    outcomes: [
      [
        `=TEXT(PutIn,"#,##0")&" kg put in, "&TEXT(ComeOut,"#,##0.0")&" kg come out at standard: "&TEXT(ComeOut/PutIn,"0.0%")`,
        "Masses",
      ],
      [
        `=TEXT(Losses!I${LOSSES - 1},"#,##0.0")&" kg are lost above the standard and the tolerance, and answered for"`,
        "Losses",
      ],
      [
        `="EUR "&TEXT(Charges!F${CHARGES},"#,##0.00")&" are invoiced, EUR "&TEXT(Charges!J${CHARGES},"#,##0.00")&" are to pay"`,
        "Charges",
      ],
      [`="EUR "&TEXT(Settlement!G${BALANCES},"#,##0.00")&" are to withhold, all contractors together"`, "Settlement"],
    ],
    scenario:
      "Invented: one lot of 1,000 kg of greasy wool, its contractors, weighings, samples and terms. Its route is semi-worsted: combed top is laid down and carded. No figure is anybody's.",
    date: "2026-11-23",
    currency: "EUR",
    massBasis: "Masses as weighed with their regain; compared dry, invoiced at the standard regain of the contract.",
    how: [
      "1. Type the weighings with their dried samples, into Weighings, and the terms of each contract into Terms: a row a stage. A contractor more is a row more on Inputs.",
      "2. Read Masses (dry and at standard), Losses (actual against standard), Charges (each stage) and Settlement (who owes what).",
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
  const sheet = book.sheet("Inputs", "What holds for the whole lot, and who works on it.", [46]);
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
  book.heading(sheet, "A13", "Contractors");
  book.table(
    sheet,
    "A14",
    "Contractors",
    [{ header: "Contractor" }],
    CONTRACTORS.map((contractor) => [contractor]),
  );

  const weighings = book.sheet(
    "Weighings",
    "Every stage in the order of the work, numbered from 1: a row more is a stage more.",
    [18],
  );
  book.note(
    weighings,
    "A5",
    "Greasy wool is taken as it is weighed: regain 0, so that grease, dirt and water are part of the loss in scouring.",
  );
  book.table(
    weighings,
    "A6",
    "Weighings",
    [
      { header: "Stage" },
      { header: "Contractor" },
      { header: "Mass in (kg)", format: "kg" },
      { header: "Regain in", format: "percent" },
      { header: "Mass out (kg)", format: "kg" },
      { header: "Sample out (g)", format: "decimal1" },
      { header: "Sample dried (g)", format: "decimal1" },
      { header: "By-product (kg)", format: "kg" },
      { header: "Regain of by-product", format: "percent" },
      { header: "Step (no.)", format: "whole" },
      { header: "Remark" },
    ],
    WEIGHINGS.map((weighing, index) => [...weighing, index + 1, index === 0 ? "weighed by the carrier" : ""]),
  );

  const terms = book.sheet("Terms", "What was agreed for each stage, in the order of the weighings.", [18]);
  book.table(
    terms,
    "A6",
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
      { header: "By-product kept by", choices: ["house", "contractor"] },
    ],
    TERMS.map((each, index) => [(WEIGHINGS[index] as readonly string[])[0] as string, ...each]),
  );
}

const w = (column: string) => `Weighings[${column}]`;
const mass = (column: string) => `Masses!${column}${MASSES}#`;

function masses(book: SampleBook): void {
  const sheet = book.sheet("Masses", "Every weighing dry and at the standard regain, and what is invoiced.", [24]);
  book.heading(sheet, "A5", "The lot as a whole");
  book.result(sheet, 6, "Standard regain", "=YARN.REGAIN(Fibre,FibreForm,RegainSchedule)", "percent", "StandardRegain");
  book.result(sheet, 7, "Put in (kg)", `=INDEX(${w("Mass in (kg)")},1)`, "kg", "PutIn");
  book.result(sheet, 8, "Come out, at standard (kg)", `=INDEX(H${MASSES}#,ROWS(${w("Stage")}))`, "kg", "ComeOut");
  book.result(sheet, 9, "Yield of the lot", "=ComeOut/PutIn", "percent");
  book.heading(sheet, `A${MASSES - 2}`, "In and out of each contractor");
  const [dryIn, dryOut, byProduct, step] = ["B", "D", "E", "I"].map((column) => `${column}${MASSES}#`);
  book.growing(sheet, `A${MASSES - 1}`, [
    { header: "Stage", spill: `=${w("Stage")}` },
    { header: "Dry in (kg)", format: "kg", spill: `=YARN.DRYMASS(${w("Mass in (kg)")},${w("Regain in")})` },
    {
      header: "Regain out, by sample",
      format: "percent",
      spill: `=YARN.MEASUREDREGAIN(${w("Sample out (g)")},${w("Sample dried (g)")})`,
    },
    { header: "Dry out (kg)", format: "kg", spill: `=YARN.DRYMASS(${w("Mass out (kg)")},C${MASSES}#)` },
    {
      header: "By-product dry (kg)",
      format: "kg",
      spill: `=YARN.DRYMASS(${w("By-product (kg)")},${w("Regain of by-product")})`,
    },
    { header: "Lost dry (kg)", format: "kg", spill: `=${dryIn}-${dryOut}-${byProduct}` },
    {
      header: "Lost on the way to the next (kg dry)",
      format: "kg",
      spill: `=IF(${step}<ROWS(${step}),${dryOut}-SUMIF(${step},${step}+1,${dryIn}),0)`,
    },
    {
      header: "Out at standard: invoice mass (kg)",
      format: "kg",
      spill: `=YARN.INVOICEMASS(${w("Mass out (kg)")},${w("Sample out (g)")},${w("Sample dried (g)")},StandardRegain)`,
    },
    { header: "Step (no.)", format: "whole", spill: `=${w("Step (no.)")}` },
  ]);
}

/** What the rows of a block about the stages begin with. */
const EACH_STAGE = [
  { header: "Stage", spill: `=${w("Stage")}` },
  { header: "Contractor", spill: `=${w("Contractor")}` },
];

function losses(book: SampleBook): void {
  const sheet = book.sheet("Losses", "The loss of each stage as it was, against the standard of its contract.", [18]);
  const all = (column: string) => `${column}${LOSSES}#`;
  book.chart(sheet, `A5:I${LOSSES - 4}`, {
    kind: "bars",
    title: "Loss against the standard, after scouring",
    categories: "",
    values: "Share of the dry input",
    format: "percent1",
    labels: `A${LOSSES + 1}:A${LOSSES + STAGES - 1}`,
    series: [
      { name: "actual", values: `C${LOSSES + 1}:C${LOSSES + STAGES - 1}` },
      { name: "standard", values: `D${LOSSES + 1}:D${LOSSES + STAGES - 1}` },
    ],
    written: true,
  });
  book.growing(sheet, `A${LOSSES - 2}`, [
    ...EACH_STAGE,
    {
      header: "Loss, actual",
      format: "percent",
      spill: `=YARN.STAGELOSS(${w("Mass in (kg)")},${w("Regain in")},${w("Mass out (kg)")},${mass("C")},${w("By-product (kg)")},${w("Regain of by-product")})`,
    },
    { header: "Loss, standard", format: "percent", spill: "=Terms[Standard loss (of dry input)]" },
    { header: "Above standard", format: "percent", spill: `=${all("C")}-${all("D")}` },
    { header: "By-product, actual", format: "percent", spill: `=${mass("E")}/${mass("B")}` },
    { header: "By-product, standard", format: "percent", spill: "=Terms[Standard by-product (of dry input)]" },
    {
      header: "Answered for (of dry input)",
      format: "percent",
      spill: `=IF(${all("E")}>LossTolerance,${all("E")}-LossTolerance,0)`,
    },
    {
      header: "Answered for, at standard (kg)",
      format: "kg",
      spill: `=${all("H")}*${mass("B")}*(1+StandardRegain)`,
      total: true,
    },
  ]);
}

function settlement(book: SampleBook): void {
  const sheet = book.sheet("Charges", "What each invoice should be, stage by stage.", [18]);
  const term = (column: string) => `Terms[${column}]`;
  const charge = (column: string) => `${column}${CHARGES + 1}#`;
  book.growing(sheet, `A${CHARGES - 1}`, [
    ...EACH_STAGE,
    {
      header: "To be charged for (kg)",
      format: "kg",
      spill: `=IF(${term("Charged on")}="net in",${w("Mass in (kg)")},${mass("H")})`,
    },
    { header: "Invoiced (kg)", format: "kg", spill: `=${term("Invoiced (kg)")}` },
    {
      header: "Right charge (EUR)",
      format: "money",
      spill: `=YARN.ROUNDCASH(YARN.CHARGE(${charge("C")},${term("Rate (EUR/kg)")}),2)`,
      total: true,
    },
    {
      header: "Invoiced (EUR)",
      format: "money",
      spill: `=YARN.ROUNDCASH(YARN.CHARGE(${term("Invoiced (kg)")},${term("Rate (EUR/kg)")}),2)`,
      total: true,
    },
    { header: "Invoiced too much (EUR)", format: "money", spill: `=${charge("F")}-${charge("E")}`, total: true },
    {
      header: "By-product kept by the contractor (EUR)",
      format: "money",
      spill: `=IF(${term("By-product kept by")}="contractor",ROUND(${mass("E")}*(1+StandardRegain)*${term("By-product price (EUR/kg)")},2),0)`,
      total: true,
    },
    {
      header: "Loss answered for (EUR)",
      format: "money",
      spill: `=ROUND(Losses!I${LOSSES}#*${term("Value of fibre (EUR/kg)")},2)`,
      total: true,
    },
    { header: "To pay (EUR)", format: "money", spill: `=${charge("E")}-${charge("H")}-${charge("I")}`, total: true },
  ]);

  const balances = book.sheet("Settlement", "Who owes whom, contractor by contractor.", [18]);
  book.note(
    balances,
    "A4",
    "By-products and losses are valued at the standard regain, at the prices of Terms. A contract may say otherwise; it decides.",
  );
  const own = (column: string) => `${column}${BALANCES + 1}#`;
  const sum = (column: string) => `=SUMIF(Charges!B${CHARGES + 1}#,${own("A")},Charges!${column}${CHARGES + 1}#)`;
  book.growing(balances, `A${BALANCES - 1}`, [
    { header: "Contractor", spill: "=Contractors[Contractor]" },
    { header: "Right charge (EUR)", format: "money", spill: sum("E"), total: true },
    { header: "By-product kept (EUR)", format: "money", spill: sum("H"), total: true },
    { header: "Loss answered for (EUR)", format: "money", spill: sum("I"), total: true },
    { header: "To pay (EUR)", format: "money", spill: `=${own("B")}-${own("C")}-${own("D")}`, total: true },
    { header: "Invoiced (EUR)", format: "money", spill: sum("F"), total: true },
    { header: "Withhold (EUR)", format: "money", spill: `=${own("F")}-${own("E")}`, total: true },
    {
      header: "In words",
      spill: `=IF(${own("E")}>=0,"the house owes the "&LOWER(${own("A")})&" "&TEXT(${own("E")},"#,##0.00"),"the "&LOWER(${own("A")})&" owes the house "&TEXT(-${own("E")},"#,##0.00"))`,
    },
  ]);
}

function checks(book: SampleBook): void {
  book.checks([
    ["Weighings and terms name the same stages", "=SUMPRODUCT(--(Weighings[Stage]<>Terms[Stage]))=0"],
    [
      "Every contractor of the weighings stands once in the list of contractors",
      "=SUMPRODUCT(--(COUNTIF(Contractors[Contractor],Weighings[Contractor])<>1))=0",
    ],
    ["No stage gives out more dry fibre than it took in (kg)", `=MIN(${mass("F")})>=0`],
    [
      "Loss by mass balance is the loss by weighings, at every stage",
      `=SUMPRODUCT(--(ABS(Losses!C${LOSSES}#*${mass("B")}-${mass("F")})>Rounding))=0`,
    ],
    [
      "Dry mass put in is dry mass come out, by-products, losses and what was lost in transit (kg)",
      `=ABS(INDEX(${mass("B")},1)-INDEX(${mass("D")},ROWS(Weighings[Stage]))-SUM(${mass("E")})-SUM(${mass("F")})-SUM(${mass("G")}))<Rounding`,
    ],
    [
      "Nothing beyond the tolerance was lost or found between contractors",
      `=SUMPRODUCT(--(ABS(${mass("G")})>TransitTolerance*${mass("D")}))=0`,
    ],
    [
      "Invoice mass is the dry mass out at the standard regain (kg)",
      `=SUMPRODUCT(--(ABS(${mass("H")}-${mass("D")}*(1+StandardRegain))>Rounding))=0`,
    ],
    ["The contractors' balances sum to the stages' (EUR)", `=ABS(Settlement!E${BALANCES}-Charges!J${CHARGES})<Cent`],
    [
      "What is withheld is what was invoiced too much, by-products and losses (EUR)",
      `=ABS(Settlement!G${BALANCES}-Charges!G${CHARGES}-Charges!H${CHARGES}-Charges!I${CHARGES})<Cent`,
    ],
  ]);
}
