import { SampleBook } from "./kit";

/** Invented yarns: name, count, system, kg as it lies, regain now. */
const YARNS: readonly (readonly (string | number)[])[] = [
  ["Single A", 14, "Nm", 120, 0.152],
  ["Single B", 20, "NeW", 85, 0.164],
  ["Single C", 72, "tex", 64, 0.171],
];

const REMARKS = ["cones, sample kept", "", "shade to be matched"];

/** Where the block of the calculation begins: its headings, and the first of its rows. */
const TOP = 9;
const FIRST = TOP + 2;
const SYSTEMS = ["Nm", "NeW", "NeC", "tex", "dtex", "den"];

export function starter(): SampleBook {
  const book = new SampleBook({
    title: "Starter",
    purpose:
      "A small book to begin from and to hand to a client: inputs, one sheet of calculation, checks, and a cell that says whether the library is loaded. It converts counts and brings masses to standard moisture.",
    outcomes: [
      [`=TEXT(ROWS(Yarns[Yarn]),"0")&" yarns make "&TEXT(Calc!E${TOP + 1},"#,##0")&" skeins"`, "Calc"],
      [
        `=TEXT(Calc!D${TOP + 1},"#,##0.0")&" kg at the standard regain of "&TEXT(StandardRegain,"0.00%")&", from "&TEXT(Calc!C${TOP + 1},"#,##0.0")&" kg as they lie"`,
        "Calc",
      ],
    ],
    scenario: "Invented: three yarns, their counts, masses and regains. No figure is anybody's.",
    date: "2026-11-02",
    currency: "none; no money in this book",
    massBasis: "Masses as they lie with their regain, and conditioned at the standard regain.",
    how: [
      "1. Replace title, purpose and scenario above by your own, and the boxed cells of Inputs by your figures.",
      "2. Add calculations on Calc. Give every heading its unit, keep one formula to a column that fills all its rows, and put every constant into a named cell of Inputs.",
      "3. Add a line to Checks for whatever must be true. The first line of Checks is repeated at the top of every sheet.",
      "4. For someone without the add-in make a copy with values only; the first line above says which of the two they hold.",
    ],
  });
  inputs(book);
  calculation(book);
  book.checks([
    ["Every yarn has a count above 0", "=MIN(Yarns[Count (in its system)])>0"],
    [
      "Counts converted back are the counts typed in",
      `=SUMPRODUCT(--(ABS(YARN.COUNT(Calc!B${FIRST}#,SystemWanted,Yarns[System])-Yarns[Count (in its system)])>Rounding))=0`,
    ],
    [
      "The dry mass is the same before and after conditioning (kg)",
      `=SUMPRODUCT(--(ABS(YARN.DRYMASS(Yarns[Mass (kg)],Yarns[Regain now])-YARN.DRYMASS(Calc!D${FIRST}#,StandardRegain))>Rounding))=0`,
    ],
    [
      "Skeins and what is left over are the conditioned mass (kg)",
      `=SUMPRODUCT(--(ABS(Calc!E${FIRST}#*SkeinMass+Calc!F${FIRST}#-Calc!D${FIRST}#)>Rounding))=0`,
    ],
  ]);
  return book;
}

function inputs(book: SampleBook): void {
  const sheet = book.sheet("Inputs", "Everything that is typed in. A yarn more is a row more.", [34]);
  book.heading(sheet, "A4", "For all yarns");
  book.inputs(sheet, "A5", [
    ["Count system wanted", "SystemWanted", "tex", "text", SYSTEMS],
    ["Skein at standard regain (kg)", "SkeinMass", 0.1, "kg3"],
    ["Fibre", "Fibre", "wool", "text"],
    ["Form", "FibreForm", "combed", "text", ["combed", "carded"]],
    ["Schedule of standard regains", "RegainSchedule", "EU label", "text"],
    ["Rounding that a check lets pass (any unit)", "Rounding", 0.000001, "tiny"],
  ]);
  book.heading(sheet, "A12", "Yarns");
  book.table(
    sheet,
    "A13",
    "Yarns",
    [
      { header: "Yarn" },
      { header: "Count (in its system)", format: "decimal" },
      { header: "System", choices: SYSTEMS },
      { header: "Mass (kg)", format: "kg" },
      { header: "Regain now", format: "percent" },
      { header: "Remark" },
    ],
    YARNS.map((yarn, index) => [...yarn, REMARKS[index] as string]),
  );
}

function calculation(book: SampleBook): void {
  const sheet = book.sheet("Calc", "Counts in one system, masses at one moisture.", [24]);
  book.heading(sheet, "A5", "Standard");
  book.result(sheet, 6, "Standard regain", "=YARN.REGAIN(Fibre,FibreForm,RegainSchedule)", "percent", "StandardRegain");
  book.heading(sheet, `A${TOP - 1}`, "Yarns");
  book.growing(sheet, `A${TOP}`, [
    { header: "Yarn", spill: "=Yarns[Yarn]" },
    {
      header: "Count (in the system wanted)",
      format: "decimal",
      spill: "=YARN.COUNT(Yarns[Count (in its system)],Yarns[System],SystemWanted)",
    },
    { header: "Mass as it lies (kg)", format: "kg", spill: "=Yarns[Mass (kg)]", total: true },
    {
      header: "Mass at standard (kg)",
      format: "kg",
      spill: "=YARN.CONDITIONED(Yarns[Mass (kg)],Yarns[Regain now],StandardRegain)",
      total: true,
    },
    {
      header: "Whole skeins (no.)",
      format: "whole",
      spill: "=YARN.SKEINS(Yarns[Mass (kg)],SkeinMass,Yarns[Regain now],StandardRegain)",
      total: true,
    },
    {
      header: "Left over (kg)",
      format: "kg3",
      spill: "=YARN.SKEINREMAINDER(Yarns[Mass (kg)],SkeinMass,Yarns[Regain now],StandardRegain)",
      total: true,
    },
  ]);
}
