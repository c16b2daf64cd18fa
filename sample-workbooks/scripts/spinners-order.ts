import type { Worksheet } from "@cj-tech-master/excelts";
import { COUNT_SYSTEMS } from "../../src/tables/count-systems";
import { SampleBook, type Entry, type Format } from "./kit";

/** Invented figures of an invented order. Each line: label with its unit, name, value, format, words to choose from. */
type Line = readonly [label: string, name: string, entry: Entry, format: Format, choices?: readonly string[]];

const SYSTEMS = ["Nm", "NeW", "NeC", "tex", "dtex", "YSW", "Galashiels", "run", "yd/lb", "m/50g", "m/100g"];
const CONVENTIONS = ["metric", "tex tpcm", "tex tpm", "cotton", "worsted", "run", "YSW", "Galashiels"];

const YARN: readonly Line[] = [
  ["Yarn asked for", "Asked", "2/28 Nm", "text"],
  ["Count system that the mill speaks", "MillSystem", "NeW", "text", SYSTEMS],
  ["Count system of the house", "HouseSystem", "Nm", "text", SYSTEMS],
  ["Take-up in plying (of length before)", "PlyTakeUp", 0.005, "percent1"],
  ["Shrinkage in washing (of length)", "WashShrinkage", 0.03, "percent1"],
  ["Loss in washing (of mass)", "WashLoss", 0.01, "percent1"],
  ["Skein mass (kg)", "SkeinMass", 0.1, "kg3"],
  ["Tolerance of count", "CountTolerance", 0.02, "percent1"],
  ["Tolerance of twist", "TwistTolerance", 0.03, "percent1"],
  ["Agreement wanted of take-up, model and figure", "TakeUpTolerance", 0.02, "percent1"],
  ["Decimals of tex (no.)", "TexDecimals", 1, "whole"],
  ["Decimals of twist (no.)", "TwistDecimals", 0, "whole"],
];

const TWIST: readonly Line[] = [
  ["Twist factor of the single (factor)", "SingleFactor", 82, "decimal"],
  ["Convention of the factor", "FactorConvention", "metric", "text", CONVENTIONS],
  ["Direction of the single", "SingleDirection", "Z", "text", ["S", "Z"]],
  ["Rule of ply twist", "PlyRule", "two-thirds", "text", ["two-thirds", "n/(n+1)", "axial"]],
  ["Direction of the ply", "PlyDirection", "S", "text", ["S", "Z"]],
  ["Spinning: spindle speed (rpm)", "SpindleSpeed", 7200, "whole"],
  ["Spinning: front roll diameter (mm)", "RollDiameter", 27, "decimal"],
  ["Spinning: front roll speed (rpm)", "RollSpeed", 198, "decimal"],
  ["Spinning: winding diameter (mm)", "WindDiameter", 38, "decimal"],
  ["Twisting: spindle speed (rpm)", "TwisterSpeed", 4500, "whole"],
  ["Twisting: delivery roll diameter (mm)", "TwisterDiameter", 38, "decimal"],
  ["Twisting: delivery roll speed (rpm)", "TwisterRollSpeed", 131, "decimal"],
];

const DRAWING: readonly Line[] = [
  ["Top fed (ktex)", "TopCount", 20, "decimal"],
  ["Waste at the spinning frame", "SpinWaste", 0.012, "percent1"],
  ["Least draft of the frame (times)", "DraftLeast", 10, "whole"],
  ["Greatest draft of the frame (times)", "DraftMost", 25, "whole"],
  ["Change wheel now in (teeth)", "WheelNow", 41, "whole"],
  ["Count that it spins (system of the house)", "CountNow", 27, "decimal"],
];

const WOOL: readonly Line[] = [
  ["Mean fibre diameter (micron)", "Micron", 20.8, "decimal"],
  ["CV of diameter", "MicronCV", 0.215, "percent1"],
  ["Fewest fibres in the section (no.)", "FewestFibres", 40, "whole"],
  ["Fibres for an easy yarn (no.)", "EasyFibres", 55, "whole"],
  ["CV of mass measured on a sample", "MeasuredCV", 0.154, "percent1"],
];

const ORDER: readonly Line[] = [
  ["Yarn ordered, washed, standard regain (kg)", "Ordered", 380, "kg"],
  ["Standard regain", "StandardRegain", 0.1825, "percent"],
  ["Loss in plying", "PlyLoss", 0.01, "percent1"],
  ["Spinning spindles that run (no.)", "SpinSpindles", 480, "whole"],
  ["Twisting spindles that run (no.)", "PlySpindles", 160, "whole"],
  ["Running time of working time", "Efficiency", 0.88, "percent1"],
  ["Hours until it must be spun (h)", "HoursAllowed", 60, "whole"],
  ["Date wanted", "DateWanted", serial("2026-12-14"), "date"],
  ["Delivered more or less than ordered", "MassTolerance", 0.05, "percent1"],
];

/** As the spinner writes them down: passage, waste, doublings, draft, and a remark that no function reads. */
const PASSAGES: readonly (readonly Entry[])[] = [
  ["Drawing 1", 0.002, 4, 5, "autoleveller on"],
  ["Drawing 2", 0.002, 3, 6, ""],
  ["Drawing 3", 0.003, 2, 7, "change cans at 6 kg"],
  ["Roving", 0.003, 1, 4.2, ""],
];

const COLOURS: readonly (readonly Entry[])[] = [
  ["Solid 1", "from stock", 0.62],
  ["Solid 2", "", 0.3],
  ["Solid 3", "to be dyed", 0.08],
];

const DIAMETERS = Array.from({ length: 10 }, (_, index) => 17 + index);

/** Rows of headings and the first rows below them, and the row of the plan's headings on Drawing. */
const TOP = 6;
const FIRST = TOP + 1;
const PLAN = 18;

/** The number that a sheet keeps for a day. */
function serial(day: string): number {
  return Date.parse(`${day}T00:00:00Z`) / 86_400_000 + 25_569;
}

export function spinnersOrder(): SampleBook {
  const book = new SampleBook({
    title: "Order to the spinner",
    purpose:
      "From the yarn asked for to what the spinner sets: its count in every system a mill may speak, twist from the frame's own speeds against the order, the drawing plan from top to yarn, whether the wool spins to it, and how long it takes; with a one-page order to print.",
    outcomes: [
      [`="The yarn: "&Designated`, "Order sheet"],
      [
        `="Single: "&TEXT(SingleTex,"0.0")&" tex with "&TEXT(TwistOrdered,"0")&" turns a metre; the frame as it is set makes "&TEXT(TwistMade,"0")`,
        "Twist",
      ],
      [
        `="Draft at the frame: "&TEXT(FrameDraft,"0.0")&"; nearest change wheel: "&TEXT(WheelNearest,"0")&" teeth"`,
        "Drawing",
      ],
      [
        `=TEXT(FibresSingle,"0")&" fibres stand in the section of the single; "&TEXT(FewestFibres,"0")&" are the fewest"`,
        "Fibre",
      ],
      [`="Spinning takes "&TEXT(SpinHours,"0")&" h, twisting "&TEXT(TwistHours,"0")&" h"`, "Hours"],
    ],
    scenario:
      "Invented: a yarn, a wool, a drawing set, a frame and a twister. No figure is anybody's, and none is a recommendation.",
    date: "2026-11-09",
    currency: "No money in this book.",
    massBasis: "Counts and masses at standard regain.",
    how: [
      "1. Inputs: the yarn, the twist, the frames as they run, the wool, the order. Lists: drawing passages, colours, wools; a row more is enough.",
      "2. Read Count, Twist, Drawing, Fibre, Colours, Wools and Hours; talk them over with the spinner.",
      "3. When Checks hold, print Order sheet: one page.",
      "Take-up, ply twist and the fewest fibres are rules of thumb: spin and weigh a sample before the lot. Speeds are for the maker of the machine to allow; guards stay on.",
    ],
  });
  inputs(book);
  lists(book);
  counts(book);
  twists(book);
  drawing(book);
  fibre(book);
  colours(book);
  wools(book);
  hours(book);
  orderSheet(book);
  checks(book);
  return book;
}

function inputs(book: SampleBook): void {
  const sheet = book.sheet("Inputs", "Everything that is typed in. ", [], "portrait");
  block(book, sheet, 1, 5, "Yarn", YARN);
  block(book, sheet, 1, 19, "Twist and frames", TWIST);
  block(book, sheet, 4, 5, "Order", ORDER);
  block(book, sheet, 4, 16, "Drawing and drafting", DRAWING);
  block(book, sheet, 4, 24, "Wool", WOOL);
}

function lists(book: SampleBook): void {
  const sheet = book.sheet("Lists", "What is a list of any length: a row more is a row more in all that reads it.");
  book.heading(sheet, `A${TOP - 1}`, "Drawing passages, from top to roving");
  book.table(
    sheet,
    `A${TOP}`,
    "Passages",
    [
      { header: "Passage" },
      { header: "Waste", format: "percent1" },
      { header: "Doublings (no.)", format: "whole" },
      { header: "Draft (times)", format: "decimal" },
      { header: "Remark" },
    ],
    PASSAGES,
  );
  book.heading(sheet, `G${TOP - 1}`, "Colours of the heather");
  book.table(
    sheet,
    `G${TOP}`,
    "Colours",
    [{ header: "Solid" }, { header: "Remark" }, { header: "Share", format: "percent1" }],
    COLOURS,
  );
  book.heading(sheet, `K${TOP - 1}`, "Wools to compare");
  book.table(
    sheet,
    `K${TOP}`,
    "Diameters",
    [{ header: "Diameter (micron)", format: "decimal1" }],
    DIAMETERS.map((diameter) => [diameter]),
  );
}

function block(
  book: SampleBook,
  sheet: Worksheet,
  column: number,
  row: number,
  heading: string,
  lines: readonly Line[],
): void {
  book.heading(sheet, `${column === 1 ? "A" : "D"}${row}`, heading);
  lines.forEach(([label, name, entry, format, choices], index) =>
    book.inputAt(sheet, column, column + 1, row + 1 + index, label, name, entry, format, choices),
  );
}

function counts(book: SampleBook): void {
  const sheet = book.sheet(
    "Count",
    "The yarn asked for, taken apart, and its counts in every system that a mill may speak.",
    [56],
    "portrait",
  );
  const lines: [string, string, Format, string?][] = [
    ["Single (tex)", '=YARN.DESIGNATION(Asked,"single")', "decimal", "SingleTex"],
    ["Plies (no.)", '=YARN.DESIGNATION(Asked,"plies")', "whole", "Plies"],
    ["Resultant without take-up (tex)", '=YARN.DESIGNATION(Asked,"resultant")', "decimal"],
    ["Resultant with take-up (tex)", '=YARN.PLYCOUNT(SingleTex,Plies,"tex",PlyTakeUp)', "decimal", "ResultantTex"],
    ["Resultant washed (tex)", '=YARN.WASHED(ResultantTex,"tex",WashShrinkage,WashLoss)', "decimal", "WashedTex"],
    [
      "Single to spin if the resultant washed must be the one asked (tex)",
      '=YARN.SINGLECOUNT(YARN.DESIGNATION(Asked,"resultant")*ResultantTex/WashedTex,Plies,"tex",PlyTakeUp)',
      "decimal",
    ],
    ["Length of a skein (m)", '=YARN.YARNLENGTH(SkeinMass,"kg",WashedTex,"tex","m")', "decimal", "SkeinMetres"],
    ["Length of a skein (yd)", '=YARN.YARNLENGTH(SkeinMass,"kg",WashedTex,"tex","yd")', "decimal"],
    ["Diameter of the yarn, rule of thumb (mm)", '=YARN.DIAMETER(ResultantTex,"tex")', "decimal"],
    ["Wraps, rule of thumb (per inch)", '=YARN.WRAPS(ResultantTex,"tex")', "decimal"],
  ];
  book.heading(sheet, "A5", "The yarn");
  lines.forEach(([label, formula, format, name], index) => book.result(sheet, 6 + index, label, formula, format, name));
  const top = 19;
  book.heading(sheet, `A${top - 1}`, "In every system");
  // The columns of the library's table, in the order in which a person looks for them.
  [2, 1, 5].forEach((column, index) =>
    book.spill(sheet, `${"ABC"[index] as string}${top}`, `=INDEX(YARN.COUNTSYSTEMS(),0,${column})`, [undefined]),
  );
  const last = top + COUNT_SYSTEMS.length;
  book.headers(sheet, `D${top}`, ["Single", "Resultant", "Washed"]);
  ["SingleTex", "ResultantTex", "WashedTex"].forEach((tex, index) =>
    book.spill(
      sheet,
      `${"DEF"[index] as string}${top + 1}`,
      `=YARN.COUNT(${tex},"tex",B${top + 1}:B${last})`,
      ["count"],
      { headed: false },
    ),
  );
}

function twists(book: SampleBook): void {
  const sheet = book.sheet(
    "Twist",
    "Twist to order, and the twist that the frames put in as they run.",
    [],
    "portrait",
  );
  const single: [string, string, Format, string?][] = [
    [
      "Twist to order (turns/m)",
      '=YARN.TWISTFOR(SingleFactor,FactorConvention,SingleTex,"tex","tpm")',
      "decimal",
      "TwistOrdered",
    ],
    ["Delivery of the frame (m/min)", "=YARN.DELIVERY(RollDiameter,RollSpeed)", "decimal", "Delivery"],
    ["Twist that the frame puts in (turns/m)", "=YARN.TWIST(SpindleSpeed,Delivery)", "decimal", "TwistMade"],
    ["Frame against order", "=TwistMade/TwistOrdered-1", "percent1", "TwistDifference"],
    [
      "Front roll speed that gives the twist ordered (rpm)",
      '=YARN.ROLLSPEED(TwistOrdered,"tpm",SpindleSpeed,RollDiameter)',
      "decimal",
      "RollSpeedWanted",
    ],
    ["or spindle speed that gives it (rpm)", '=YARN.SPINDLESPEED(TwistOrdered,"tpm",Delivery)', "whole"],
    ["Lag of the traveller (rpm)", "=YARN.TRAVELLERLAG(Delivery,WindDiameter)", "decimal"],
    ["Angle of the outer fibres (degrees)", '=YARN.TWISTANGLE(TwistMade,"tpm",SingleTex,"tex")', "decimal"],
    ["Take-up in spinning, ideal geometry", '=YARN.TAKEUP(TwistMade,"tpm",SingleTex,"tex")', "percent"],
    [
      "Take-up in spinning, staple model",
      '=YARN.TAKEUP(TwistMade,"tpm",SingleTex,"tex",,"staple")',
      "percent",
      "SpinTakeUp",
    ],
  ];
  const ply: [string, string, Format, string?][] = [
    ["Twist to order (turns/m)", "=YARN.PLYTWIST(TwistOrdered,Plies,PlyRule)", "decimal", "PlyTwistOrdered"],
    [
      "Twist that the twister puts in (turns/m)",
      '=YARN.ROLLTWIST(TwisterSpeed,TwisterRollSpeed,TwisterDiameter,"mm","tpm")',
      "decimal",
      "PlyTwistMade",
    ],
    ["Twister against order", "=PlyTwistMade/PlyTwistOrdered-1", "percent1", "PlyTwistDifference"],
    [
      "Delivery roll speed that gives the twist ordered (rpm)",
      '=YARN.ROLLSPEED(PlyTwistOrdered,"tpm",TwisterSpeed,TwisterDiameter)',
      "decimal",
      "TwisterRollSpeedWanted",
    ],
    [
      "Twist left in the singles (turns/m)",
      '=YARN.RESIDUALTWIST(TwistMade,PlyTwistMade,IF(SingleDirection=PlyDirection,"same","opposite"))',
      "decimal",
    ],
    [
      "Take-up in plying, two-fold model",
      '=YARN.PLYTAKEUP(TwistMade,PlyTwistMade,"tpm",SingleTex,"tex",,IF(SingleDirection=PlyDirection,"same","opposite"))',
      "percent",
      "PlyTakeUpModel",
    ],
  ];
  book.heading(sheet, "A5", "Single");
  single.forEach(([label, formula, format, name], index) =>
    book.result(sheet, 6 + index, label, formula, format, name),
  );
  book.heading(sheet, "A17", "Ply");
  ply.forEach(([label, formula, format, name], index) => book.result(sheet, 18 + index, label, formula, format, name));
  book.note(sheet, "A24", "A negative take-up lengthens: the ply takes twist out of the singles.");

  const top = 27;
  book.heading(sheet, `A${top - 1}`, "Twist factors, whatever the mill calls them");
  book.spill(sheet, `A${top}`, "=INDEX(YARN.TWISTCONVENTIONS(),0,2)", [undefined]);
  book.spill(sheet, `B${top}`, "=INDEX(YARN.TWISTCONVENTIONS(),0,1)", [undefined]);
  const last = top + CONVENTIONS.length;
  book.headers(sheet, `C${top}`, ["Single (factor)", "Ply (factor)"]);
  book.spill(
    sheet,
    `C${top + 1}`,
    `=YARN.TWISTFACTOR(TwistMade,"tpm",SingleTex,"tex",B${top + 1}:B${last})`,
    ["decimal"],
    { headed: false },
  );
  book.spill(
    sheet,
    `D${top + 1}`,
    `=YARN.TWISTFACTOR(PlyTwistMade,"tpm",ResultantTex,"tex",B${top + 1}:B${last})`,
    ["decimal"],
    { headed: false },
  );
}

function drawing(book: SampleBook): void {
  const sheet = book.sheet("Drawing", "From the top to the roving, and from the roving to the yarn.");
  const from = TOP - 1;
  book.heading(sheet, `A${from}`, "At the spinning frame");
  const lines: [string, string, Format, string?][] = [
    ["Roving fed (ktex)", `=INDEX(A${PLAN}#,ROWS(Passages[Passage])+1,5)`, "kg3", "Roving"],
    ["Single to spin (tex)", "=SingleTex", "decimal"],
    ["Draft by the counts alone (times)", '=YARN.DRAFT(Roving,"ktex",SingleTex,"tex")', "decimal"],
    [
      "Draft of the rollers, with waste and take-up (times)",
      '=YARN.DRAFT(Roving,"ktex",SingleTex,"tex",1,SpinWaste,SpinTakeUp)',
      "decimal",
      "FrameDraft",
    ],
    [
      "Count that this draft delivers (tex)",
      '=YARN.DRAWN(Roving,"ktex",FrameDraft,1,SpinWaste,SpinTakeUp,"tex")',
      "decimal",
      "DrawnTex",
    ],
    [
      "Change wheel for the single, calculated (teeth)",
      '=YARN.CHANGEWHEEL(WheelNow,CountNow,YARN.COUNT(SingleTex,"tex",HouseSystem),HouseSystem)',
      "decimal",
      "WheelCalculated",
    ],
    ["Nearest wheel (teeth)", "=ROUND(WheelCalculated,0)", "whole", "WheelNearest"],
    [
      "Count that it spins (tex)",
      '=YARN.COUNT(CountNow,HouseSystem,"tex")*WheelNearest/WheelNow',
      "decimal",
      "WheelTex",
    ],
    ["Count with that wheel against the order", "=WheelTex/SingleTex-1", "percent1", "WheelDifference"],
  ];
  lines.forEach(([label, formula, format, name], index) =>
    book.result(sheet, from + 1 + index, label, formula, format, name),
  );
  book.note(
    sheet,
    `A${from + 10}`,
    "The wheel is a driver of the back rollers; on a frame where it is driven, the teeth go the other way.",
  );
  book.heading(sheet, `A${PLAN - 1}`, "From top to roving");
  book.spill(sheet, `A${PLAN}`, '=YARN.DRAFTPLAN(TopCount,"ktex",Passages[#All])', [
    undefined,
    "kg3",
    "whole",
    "decimal",
    "kg3",
    "whole",
    "decimal",
  ]);
  book.growing(sheet, `H${PLAN}`, [{ header: "Kept", format: "percent1", spill: "=1-Passages[Waste]" }]);
}

function fibre(book: SampleBook): void {
  const sheet = book.sheet(
    "Fibre",
    "Whether the wool spins to the count, and how even and how mottled the yarn can be at best.",
    [],
    "portrait",
  );
  const lines: [string, string, Format, string?][] = [
    [
      "Fibres in the section of the single (no.)",
      '=YARN.FIBRES(SingleTex,"tex",Micron,MicronCV)',
      "decimal",
      "FibresSingle",
    ],
    [
      "Finest count of this wool (system of the house)",
      "=YARN.SPINLIMIT(Micron,FewestFibres,HouseSystem,MicronCV)",
      "decimal",
    ],
    ["Finest count of this wool (tex)", '=YARN.SPINLIMIT(Micron,FewestFibres,"tex",MicronCV)', "decimal", "FinestTex"],
    ["Spinning fineness, from memory (micron)", "=YARN.SPINFINENESS(Micron,MicronCV)", "decimal"],
    ["Grade by diameter and its spread", "=YARN.WOOLGRADE(Micron,Micron*MicronCV)", "text"],
    ["Limiting CV of mass", "=YARN.LIMITCV(FibresSingle,MicronCV)", "percent", "LimitCV"],
    ["Index of irregularity (times)", "=YARN.EVENNESSINDEX(MeasuredCV,FibresSingle,MicronCV)", "decimal"],
  ];
  book.heading(sheet, "A5", "The wool and the single");
  lines.forEach(([label, formula, format, name], index) => book.result(sheet, 6 + index, label, formula, format, name));
}

function colours(book: SampleBook): void {
  const sheet = book.sheet("Colours", "How the colours of the heather vary along the yarn, at best.", [22], "portrait");
  book.growing(sheet, `A${TOP}`, [
    { header: "Solid", spill: "=Colours[Solid]" },
    { header: "Share", format: "percent1", spill: "=Colours[Share]" },
    {
      header: "Standard deviation",
      format: "percent",
      spill: "=YARN.SHAREVARIATION(Colours[Share],FibresSingle*Plies)",
    },
    { header: "Fibres (no.)", format: "decimal", spill: `=B${FIRST}#*FibresSingle*Plies` },
  ]);
}

function wools(book: SampleBook): void {
  const sheet = book.sheet("Wools", "What diameter spins to what count.");
  const last = FIRST + DIAMETERS.length - 1;
  const limit = (fibres: string) => `=YARN.SPINLIMIT(A${FIRST}#,${fibres},HouseSystem,MicronCV)`;
  book.growing(sheet, `A${TOP}`, [
    { header: "Diameter (micron)", format: "decimal1", spill: "=Diameters[Diameter (micron)]" },
    { header: "Finest (count of the house)", format: "decimal", spill: limit("FewestFibres") },
    { header: "Easy (count of the house)", format: "decimal", spill: limit("EasyFibres") },
  ]);
  book.chart(sheet, `E${TOP - 1}:M${last + 8}`, {
    kind: "lines",
    title: "Count that a wool spins to",
    values: "Count in the system of the house",
    categories: "Mean fibre diameter (micron)",
    format: "whole",
    labels: `A${FIRST}:A${last}`,
    series: [
      { name: "Finest: fewest fibres in the section", values: `B${FIRST}:B${last}` },
      { name: "Easy: more fibres in the section", values: `C${FIRST}:C${last}` },
    ],
  });
}

function hours(book: SampleBook): void {
  const sheet = book.sheet("Hours", "How long the order takes on the frames.", [], "portrait");
  const lines: [string, string, Format, string?][] = [
    ["Yarn ordered, washed (kg)", "=Ordered", "kg"],
    ["To be twisted (kg)", "=YARN.NEED(Ordered,WashLoss)", "kg", "ToTwist"],
    ["To be spun (kg)", "=YARN.NEED(ToTwist,PlyLoss)", "kg", "ToSpin"],
    [
      "Spinning (g per spindle-hour)",
      '=YARN.SPINRATE(SpindleSpeed,TwistMade,"tpm",SingleTex,"tex",Efficiency)',
      "decimal",
      "SpinRate",
    ],
    ["Spinning (h)", "=YARN.MACHINEHOURS(ToSpin,SpinSpindles,SpinRate)", "decimal", "SpinHours"],
    ["Spindles to be done in the hours allowed (no.)", "=YARN.SPINDLESNEEDED(ToSpin,HoursAllowed,SpinRate)", "whole"],
    [
      "Twisting (g per spindle-hour)",
      '=YARN.SPINRATE(TwisterSpeed,PlyTwistMade,"tpm",ResultantTex,"tex",Efficiency)',
      "decimal",
      "TwistRate",
    ],
    ["Twisting (h)", "=YARN.MACHINEHOURS(ToTwist,PlySpindles,TwistRate)", "decimal", "TwistHours"],
    ["Skeins (no.)", "=YARN.SKEINS(Ordered,SkeinMass)", "whole", "SkeinsMade"],
  ];
  book.heading(sheet, "A5", "Mass and time");
  lines.forEach(([label, formula, format, name], index) => book.result(sheet, 6 + index, label, formula, format, name));
  book.note(sheet, "A16", "Setting up, changing and doffing are not in the hours.");
}

function orderSheet(book: SampleBook): void {
  const sheet = book.sheet(
    "Order sheet",
    "Order to the spinner. An order holds when the spinner has signed it.",
    [44, 19, 19, 19],
    "portrait",
  );
  const line = (row: number, label: string, entries: readonly (readonly [Entry, Format?])[]) => {
    book.put(sheet, `A${row}`, label);
    entries.forEach(([entry, format], index) => {
      const cell = book.put(sheet, `${"BCD"[index] as string}${row}`, entry, format);
      cell.alignment = { horizontal: entries.length === 1 && (!format || format === "date") ? "left" : "right" };
    });
  };
  line(5, "Date wanted", [["=DateWanted", "date"]]);
  line(6, "Yarn, single to fold", [["=Designated"]]);
  book.heading(sheet, "A8", "Count");
  book.headers(sheet, "A9", ["", "Single", "Resultant, grey", "Resultant, washed"]);
  line(10, "tex", [
    ["=SingleTex", "decimal"],
    ["=ResultantTex", "decimal"],
    ["=WashedTex", "decimal"],
  ]);
  const counted = (system: string): [Entry, Format][] =>
    ["SingleTex", "ResultantTex", "WashedTex"].map((tex) => [`=YARN.COUNT(${tex},"tex",${system})`, "decimal"]);
  line(11, "", counted("HouseSystem"));
  line(12, "", counted("MillSystem"));
  book.put(sheet, "A11", "=HouseSystem");
  book.put(sheet, "A12", "=MillSystem");
  line(13, "Tolerance, either way", [["=CountTolerance", "percent1"]]);
  line(14, "Single between (tex)", [
    ["=SingleTex*(1-CountTolerance)", "decimal"],
    ["=SingleTex*(1+CountTolerance)", "decimal"],
  ]);

  book.heading(sheet, "A16", "Twist");
  book.headers(sheet, "A17", ["", "Single", "Ply"]);
  const both = (formula: (twist: string) => string, format: Format): [Entry, Format][] =>
    ["TwistOrdered", "PlyTwistOrdered"].map((twist) => [formula(twist), format]);
  line(18, "Direction", [["=SingleDirection"], ["=PlyDirection"]]);
  line(
    19,
    "Turns per metre",
    both((twist) => `=${twist}`, "whole"),
  );
  line(
    20,
    "Turns per inch",
    both((twist) => `=YARN.TWISTUNIT(${twist},"tpm","tpi")`, "decimal"),
  );
  line(
    21,
    "Least, turns per metre",
    both((twist) => `=${twist}*(1-TwistTolerance)`, "whole"),
  );
  line(
    22,
    "Most, turns per metre",
    both((twist) => `=${twist}*(1+TwistTolerance)`, "whole"),
  );
  line(23, "Twist factor", [
    ['=YARN.TWISTFACTOR(TwistOrdered,"tpm",SingleTex,"tex",FactorConvention)', "decimal"],
    ['=YARN.TWISTFACTOR(PlyTwistOrdered,"tpm",ResultantTex,"tex",FactorConvention)', "decimal"],
  ]);
  line(24, "Convention of the factor", [["=FactorConvention"]]);

  book.heading(sheet, "A26", "Setting reckoned from the frame's own speeds; the spinner confirms or corrects it");
  line(27, "Front roll at this spindle speed (rpm)", [
    ["=RollSpeedWanted", "decimal"],
    ["=SpindleSpeed", "whole"],
  ]);
  line(28, "Draft of the rollers (times)", [["=FrameDraft", "decimal"]]);
  line(29, "Roving (ktex)", [["=Roving", "kg3"]]);

  book.heading(sheet, "A31", "Wool and quantity");
  line(32, "Mean diameter (micron) and its CV", [
    ["=Micron", "decimal"],
    ["=MicronCV", "percent1"],
  ]);
  line(33, "Fibres in the section of the single", [["=FibresSingle", "whole"]]);
  line(34, "Yarn at standard regain (kg) and the regain", [
    ["=Ordered", "kg"],
    ["=StandardRegain", "percent"],
  ]);
  line(35, "Delivered between (kg)", [
    ["=Ordered*(1-MassTolerance)", "kg"],
    ["=Ordered*(1+MassTolerance)", "kg"],
  ]);
  line(36, "Skeins (no.) and their mass (kg)", [
    ["=SkeinsMade", "whole"],
    ["=SkeinMass", "kg3"],
  ]);
  line(37, "Length of a skein (m)", [["=SkeinMetres", "whole"]]);

  book.heading(sheet, "A39", "Before the lot");
  book.note(
    sheet,
    "A40",
    "Spin a sample; send it with its count, twist and regain. The lot begins when the buyer has agreed to it in writing.",
  );
  book.note(
    sheet,
    "A41",
    "Weigh every delivery and dry a sample of it at the same time; it is invoiced at standard regain.",
  );
  ["Sample agreed, date", "Spinner, name and date", "Buyer, name and date"].forEach((label, index) => {
    const row = 44 + index * 2;
    book.put(sheet, `A${row}`, label);
    for (const column of "BCD") {
      sheet.getCell(`${column}${row}`).border = { bottom: { style: "thin", color: { argb: "FF808080" } } };
    }
  });
  const counts = book.workbook.getWorksheet("Count") as Worksheet;
  book.result(
    counts,
    16,
    "Designation, single to fold",
    "=YARN.DESIGNATE(ROUND(SingleTex,TexDecimals),Plies,ROUND(TwistOrdered,TwistDecimals),SingleDirection,ROUND(PlyTwistOrdered,TwistDecimals),PlyDirection,ROUND(ResultantTex,TexDecimals))",
    "text",
    "Designated",
  );
}

function checks(book: SampleBook): void {
  const ofRoving = (column: number) => `INDEX(Drawing!A${PLAN}#,ROWS(Passages[Passage])+1,${column})`;
  book.checks([
    ["The designation reads back: plies", '=YARN.DESIGNATION(Designated,"plies")=Plies'],
    [
      "The designation reads back: ply twist",
      '=YARN.DESIGNATION(Designated,"twist ply")=ROUND(PlyTwistOrdered,TwistDecimals)',
    ],
    ["Twist of the spinning frame is within tolerance of the order", "=ABS(TwistDifference)<=TwistTolerance"],
    ["Twist of the twister is within tolerance of the order", "=ABS(PlyTwistDifference)<=TwistTolerance"],
    [
      "Take-up reckoned with agrees with the model, which holds for two-fold yarn",
      "=OR(Plies<>2,ABS(PlyTakeUp-PlyTakeUpModel)<=TakeUpTolerance)",
    ],
    [
      "The roving is the top by doublings, draft and waste (two ways to the same ktex)",
      `=ABS(Roving-TopCount*${ofRoving(6)}/${ofRoving(7)}*PRODUCT(Drawing!H${PLAN + 1}#))<0.000000001`,
    ],
    ["The draft gives the single back", "=ABS(DrawnTex-SingleTex)<0.000000001"],
    ["The draft is one that the frame can do", "=AND(FrameDraft>=DraftLeast,FrameDraft<=DraftMost)"],
    ["Count with the nearest wheel is within tolerance", "=ABS(WheelDifference)<=CountTolerance"],
    ["The wool spins to the single", "=FibresSingle>=FewestFibres"],
    ["Measured CV of mass is not below the limit", "=MeasuredCV>=LimitCV"],
    ["Shares of the colours sum to 100 %", "=ABS(SUM(Colours[Share])-1)<0.000000001"],
    ["Spinning is done in the hours allowed", "=SpinHours<=HoursAllowed"],
  ]);
}
