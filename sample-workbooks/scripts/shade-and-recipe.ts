import { LIGHTS } from "../../src/tables/lights";
import { columnLetter, SampleBook, type BlockColumn, type Entry, type Format, type InputLine } from "./kit";

const CAUTION = "A start recipe for a hand-carded pad, not an approval.";

/** Wavelengths of the invented spectra, nm. */
const BANDS = Array.from({ length: 16 }, (_, band) => 400 + 20 * band);

const step = (nm: number, middle: number, width: number) => 1 / (1 + Math.exp((middle - nm) / width));
const hump = (nm: number, middle: number, width: number) => Math.exp(-(((nm - middle) / width) ** 2) / 2);

/** Eight invented solids as smooth spectra: steps and humps of the kind that dyed wool has. Nobody's dyes. */
const SOLIDS: Readonly<Record<string, (nm: number) => number>> = {
  Natural: (nm) => 0.36 + 0.34 * step(nm, 450, 38),
  Charcoal: (nm) => 0.042 + (0.012 * (nm - 400)) / 300,
  Russet: (nm) => 0.04 + 0.34 * step(nm, 598, 17),
  Gold: (nm) => 0.06 + 0.46 * step(nm, 520, 19),
  Moss: (nm) => 0.045 + 0.13 * hump(nm, 548, 38) + 0.1 * step(nm, 690, 12),
  Teal: (nm) => 0.05 + 0.2 * hump(nm, 492, 38) + 0.1 * step(nm, 695, 10),
  Indigo: (nm) => 0.045 + 0.16 * hump(nm, 438, 34) + 0.09 * step(nm, 690, 12),
  Plum: (nm) => 0.05 + 0.085 * hump(nm, 425, 32) + 0.2 * step(nm, 636, 20),
};
const NAMES = Object.keys(SOLIDS);

/** Six invented target shades, as if measured on a customer's swatch. The fourth is brighter than the solids can be. */
const TARGETS: Readonly<Record<string, (nm: number) => number>> = {
  Bracken: (nm) => 0.105 + 0.15 * step(nm, 585, 38) + 0.04 * step(nm, 500, 25),
  Harbour: (nm) => 0.085 + 0.07 * hump(nm, 465, 55) + 0.07 * step(nm, 690, 20),
  "Peat smoke": (nm) => 0.085 + 0.045 * step(nm, 560, 60),
  Gorse: (nm) => 0.05 + 0.44 * step(nm, 512, 12),
  Rowan: (nm) => 0.075 + 0.2 * step(nm, 604, 20),
  "Winter sea": (nm) => 0.11 + 0.085 * hump(nm, 475, 52) + 0.08 * step(nm, 692, 18),
};
const SHADES = Object.keys(TARGETS);
const BATCHES = [150, 95, 140, 75, 85, 95];

/** Pads that the house carded by hand and measured: shares and L*a*b* under the first light. Invented. */
const PADS: readonly (readonly Entry[])[] = [
  ["Pad 1", 0.5, 0.5, 0, 0, 0, 0, 0, 0, 41.99, 0.0, 3.29],
  ["Pad 2", 0.7, 0, 0, 0, 0, 0, 0.3, 0, 52.66, 5.7, -20.56],
  ["Pad 3", 0.6, 0, 0.4, 0, 0, 0, 0, 0, 55.37, 27.21, 20.32],
  ["Pad 4", 0, 0, 0, 0.5, 0, 0.5, 0, 0, 48.5, -20.83, 15.69],
  ["Pad 5", 0.3, 0.4, 0, 0, 0, 0, 0, 0.3, 36.44, 6.19, -2.8],
];

/** A list of choices holds 255 characters, so the LED lights are offered for the usual observer only. */
const CHOICES_OF_LIGHT = LIGHTS.map(({ word }) => word).filter((word) => !/^LED.*\/2$/.test(word));

const spectra = (table: string) =>
  `${table}[[R (${BANDS[0] as number} nm)]:[R (${BANDS[BANDS.length - 1] as number} nm)]]`;
const SOLID_ROWS = spectra("SolidSpectra");
const TARGET_ROWS = spectra("TargetSpectra");

/** Where things stand, so that a formula of one sheet finds the cells of another. */
const EXACT_FIRST = 7;
const RECIPE_FIRST = EXACT_FIRST + SHADES.length + 4;
const RECIPE_LAST = RECIPE_FIRST + SHADES.length - 1;
const RECIPES = `Recipes!D${RECIPE_FIRST}:K${RECIPE_LAST}`;
const FIRST_LIGHT = 7;
const SECOND_LIGHT = FIRST_LIGHT + SHADES.length + 4;
const CARD = NAMES.length + 5;

export function shadeAndRecipe(): SampleBook {
  const book = new SampleBook({
    title: "Shade and recipe of heathers from dyed solids",
    purpose:
      "For six target shades: which of eight dyed solids to blend and in what shares, how far the recipe is from the target under two lights, what it costs, and how to weigh it up. " +
      CAUTION,
    outcomes: [
      [
        `=TEXT(COUNTIF(Differences!J${FIRST_LIGHT}:J${FIRST_LIGHT + SHADES.length - 1},"card a pad"),"0")&" of "&TEXT(ROWS(TargetSpectra[Shade]),"0")&" shades are within "&TEXT(ShadeTolerance,"0.0")&" units of their target: card a pad"`,
        "Differences",
      ],
      [
        `="The model that the pads settle leaves "&TEXT(FitLeft,"0.00")&" units; its constant is "&TEXT(Fitted,"0.000")`,
        "Pads",
      ],
      [
        `="Solids for all batches: "&TEXT(SUM(Batches[Batch (kg)]),"#,##0")&" kg, "&TEXT(Need!D${7 + NAMES.length},"#,##0")&" kg of them to dye"`,
        "Need",
      ],
    ],
    scenario:
      "Invented: eight solids as smooth spectra made by a formula, six targets, five pads, prices and stocks. No dye, no shade and no figure is anybody's.",
    date: "2026-11-16",
    currency: "EUR",
    massBasis:
      "Shares of dry fibre; batches at the regain of Inputs; weigh-up at the regain that each solid has as it lies.",
    how: [
      "1. Spectra: reflectance of solids and targets, measured on loose fibre or pads. Pads: what you carded and measured yourself.",
      "2. Inputs: lights, how many solids, least share, step of the shares, batches, prices, stock.",
      "3. Recipes, Differences, Closer look: card a pad by hand from the practical shares, look at it and measure it.",
      "4. Only when the pad is approved: Weigh-up and Need. Checks must hold first.",
      "The swatches show the figures as this book was made; they do not follow a change. A screen and a printer show no dyed wool.",
      "Without pads of your own the constant of the model is from memory: verify before use. Fitted, expect about 1 unit of CIEDE2000 on average and up to 4.",
    ],
  });
  inputs(book);
  spectraSheet(book);
  pads(book);
  solids(book);
  recipes(book);
  differences(book);
  closerLook(book);
  weighUp(book);
  need(book);
  checks(book);
  return book;
}

function inputs(book: SampleBook): void {
  const sheet = book.sheet("Inputs", `What is wanted of the recipes.  ${CAUTION}`, [], "portrait");
  const match: readonly InputLine[] = [
    ["Light of the match", "FirstLight", "D65/10", "text", CHOICES_OF_LIGHT],
    ["Light to look at as well", "SecondLight", "A/10", "text", CHOICES_OF_LIGHT],
    ["Model of the blend", "ModelChosen", "fitted", "text", ["fitted", "fibre", "exponential", "ks"]],
    ["Most solids in a recipe (no.)", "Parts", 4, "whole"],
    ["Least share of a solid", "LeastShare", 0.03, "percent"],
    ["Step of practical shares", "ShareStep", 0.01, "percent"],
    ["Tolerance of the shade (units of the difference)", "ShadeTolerance", 1, "decimal"],
    ["Formula of the difference", "DifferenceFormula", "2000", "text", ["2000", "CMC 2:1", "1994", "1976"]],
    ["Shade to look at closely", "ShadeChosen", SHADES[0] as string, "text", SHADES],
    ["Recipes to choose from (no.)", "Choices", 5, "whole"],
  ];
  const bands: readonly InputLine[] = [
    ["First band (nm)", "FirstBand", BANDS[0] as number, "whole"],
    ["Step of the bands as measured (nm)", "BandStep", 20, "whole"],
    ["Step of the bands as calculated (nm)", "ModelStep", 10, "whole"],
  ];
  const weigh: readonly InputLine[] = [
    ["Regain at which batches are stated", "BatchRegain", 0.1825, "percent"],
    ["Sections of a lay-down (no.)", "Sections", 4, "whole"],
    ["Scale step (kg)", "ScaleStep", 0.05, "decimal"],
    ["Realised share may differ by", "ShareTolerance", 0.005, "percent"],
  ];
  book.heading(sheet, "A5", "The match");
  book.inputs(sheet, "A6", match);
  book.heading(sheet, "A17", "The spectra");
  book.inputs(sheet, "A18", bands);
  book.heading(sheet, "A22", "The weigh-up");
  book.inputs(sheet, "A23", weigh);
  book.heading(sheet, "A28", "Batches");
  book.table(
    sheet,
    "A29",
    "Batches",
    [{ header: "Shade" }, { header: "Batch (kg)", format: "kg" }],
    SHADES.map((shade, index) => [shade, BATCHES[index] as number]),
  );
  book.heading(sheet, "A37", "Solids");
  book.table(
    sheet,
    "A38",
    "Solids",
    [
      { header: "Solid" },
      { header: "Price (EUR/kg)", format: "money" },
      { header: "Regain as it lies", format: "percent" },
      { header: "In stock (kg)", format: "kg" },
    ],
    NAMES.map((solid, index) => [
      solid,
      [13.1, 17.4, 16.9, 16.6, 16.7, 17.2, 17.8, 17.6][index] as number,
      [0.16, 0.15, 0.152, 0.149, 0.15, 0.155, 0.153, 0.15][index] as number,
      [120, 40, 60, 55, 20, 30, 45, 15][index] as number,
    ]),
  );
}

function spectraSheet(book: SampleBook): void {
  const sheet = book.sheet(
    "Spectra",
    `Invented reflectances, 0 to 1, by wavelength. Put your own measurements here. ${CAUTION}`,
  );
  const table = (
    topLeft: string,
    name: string,
    first: string,
    rows: Readonly<Record<string, (nm: number) => number>>,
  ) =>
    book.table(
      sheet,
      topLeft,
      name,
      [{ header: first }, ...BANDS.map((nm) => ({ header: `R (${nm} nm)`, format: "kg3" as const }))],
      Object.keys(rows).map((row) => [
        row,
        ...BANDS.map((nm) => Math.round((rows[row] as (nm: number) => number)(nm) * 1000) / 1000),
      ]),
    );
  book.heading(sheet, "A5", "Solids, dyed and carded");
  table("A6", "SolidSpectra", "Solid", SOLIDS);
  book.heading(sheet, "A17", "Target shades");
  table("A18", "TargetSpectra", "Shade", TARGETS);
}

function pads(book: SampleBook): void {
  const sheet = book.sheet(
    "Pads",
    `Pads of known shares that were carded by hand and measured: they settle the constant of the model. ${CAUTION}`,
  );
  book.heading(sheet, "A5", "Shares and measured shade under the light of the match");
  book.table(
    sheet,
    "A6",
    "Pads",
    [
      { header: "Pad" },
      ...NAMES.map((header) => ({ header, format: "percentOrNone" as const })),
      ...["L*", "a*", "b*"].map((axis) => ({ header: `${axis} (measured)`, format: "decimal" as const })),
    ],
    PADS,
  );
  const shares = `Pads[[${NAMES[0] as string}]:[${NAMES[NAMES.length - 1] as string}]]`;
  const measured = "Pads[[L* (measured)]:[b* (measured)]]";
  const lines: [string, string, Format, string?][] = [
    ["Constant (M)", `=YARN.MIXFIT(${shares},${SOLID_ROWS},${measured},"constant",FirstLight)`, "kg3", "Fitted"],
    [
      "What is left (CIEDE2000)",
      `=YARN.MIXFIT(${shares},${SOLID_ROWS},${measured},"difference",FirstLight)`,
      "decimal",
      "FitLeft",
    ],
  ];
  book.heading(sheet, "A13", "Fitted");
  lines.forEach(([label, formula, format, name], index) =>
    book.result(sheet, 14 + index, label, formula, format, name),
  );
  book.put(sheet, "A16", "Model used");
  book.put(sheet, "B16", '=IF(ModelChosen="fitted",Fitted,ModelChosen)', "kg3");
  book.name("Model", "Pads", "B16");
  book.note(sheet, "A18", "Five pads that include white with very dark settle the constant to about 0.01.");
}

/** Columns L*, a*, b* that one formula fills. */
function lab(header: string, formula: string): BlockColumn[] {
  return [
    { header: `${header} (L*)`, format: "decimal", spill: formula },
    { header: `${header} (a*)`, format: "decimal" },
    { header: `${header} (b*)`, format: "decimal" },
  ];
}

function solids(book: SampleBook): void {
  const sheet = book.sheet("Solids", `The solids under both lights, with swatches. ${CAUTION}`);
  const first = 7;
  const last = first + NAMES.length - 1;
  book.heading(sheet, "A5", "Shade of the solids");
  book.block(sheet, "A6", NAMES.length, [
    { header: "Solid", entry: (row) => `=INDEX(SolidSpectra[Solid],ROWS(A$${first}:A${row}))` },
    { header: "Swatch" },
    ...lab("First light", `=YARN.LABOF(${SOLID_ROWS},FirstLight)`),
    ...lab("Second light", `=YARN.LABOF(${SOLID_ROWS},SecondLight)`),
    { header: "Screen, sketch", format: "text", spill: `=YARN.LABTORGB(C${first}:E${last})` },
  ]);
  for (let row = first; row <= last; row++) book.swatch(sheet, `B${row}`, `I${row}`);
  book.note(
    sheet,
    `A${last + 2}`,
    "Swatches are a sketch of the figures as this book was made; they do not follow a change.",
  );
}

function recipes(book: SampleBook): void {
  const sheet = book.sheet("Recipes", `The nearest blends of the solids, by mass of dry fibre. ${CAUTION}`);
  book.heading(sheet, `A${EXACT_FIRST - 2}`, "Exact");
  book.block(sheet, `A${EXACT_FIRST - 1}`, SHADES.length, [
    { header: "Shade", entry: (row) => `=INDEX(TargetSpectra[Shade],ROWS(A$${EXACT_FIRST}:A${row}))` },
  ]);
  book.headers(sheet, `D${EXACT_FIRST - 1}`, NAMES);
  book.spill(
    sheet,
    `D${EXACT_FIRST}`,
    `=YARN.MIXMATCH(${TARGET_ROWS},${SOLID_ROWS},Parts,LeastShare,Model,FirstLight)`,
    ["percentOrNone"],
    { headed: false },
  );
  book.heading(sheet, `A${RECIPE_FIRST - 2}`, "Practical: in whole steps");
  book.block(sheet, `A${RECIPE_FIRST - 1}`, SHADES.length, [
    { header: "Shade", entry: (row) => `=A${row - RECIPE_FIRST + EXACT_FIRST}` },
    { header: "Target" },
    { header: "Recipe" },
  ]);
  book.headers(sheet, `D${RECIPE_FIRST - 1}`, NAMES);
  for (let row = RECIPE_FIRST; row <= RECIPE_LAST; row++) {
    const exact = row - RECIPE_FIRST + EXACT_FIRST;
    book.spill(sheet, `D${row}`, `=YARN.MIXROUND(D${exact}:K${exact},ShareStep)`, ["percentOrNone"], { headed: false });
    const shade = row - RECIPE_FIRST + FIRST_LIGHT;
    book.swatch(sheet, `B${row}`, `Differences!K${shade}`);
    book.swatch(sheet, `C${row}`, `Differences!L${shade}`);
  }
  book.block(sheet, `L${RECIPE_FIRST - 1}`, SHADES.length, [
    { header: "In all", format: "percent", entry: (row) => `=SUM(D${row}:K${row})` },
    { header: "Solids (no.)", format: "whole", entry: (row) => `=COUNTIF(D${row}:K${row},">0")` },
    { header: "Least share", format: "percent", entry: (row) => `=MINIFS(D${row}:K${row},D${row}:K${row},">0")` },
    { header: "Fibre (EUR/kg)", format: "money", entry: (row) => `=MMULT(D${row}:K${row},Solids[Price (EUR/kg)])` },
  ]);
  book.note(
    sheet,
    `A${RECIPE_LAST + 2}`,
    "Swatches are a sketch of the figures as this book was made; they do not follow a change. Look at the carded pad, not at them.",
  );
}

function differences(book: SampleBook): void {
  const sheet = book.sheet("Differences", `The practical recipe against the target under two lights. ${CAUTION}`);
  const under = (light: string, first: number): BlockColumn[] => {
    const last = first + SHADES.length - 1;
    return [
      { header: "Shade", entry: (row) => `=INDEX(TargetSpectra[Shade],ROWS(A$${first}:A${row}))` },
      ...lab("Target", `=YARN.LABOF(${TARGET_ROWS},${light})`),
      ...lab("Recipe", `=YARN.MIXSHADE(${RECIPES},${SOLID_ROWS},Model,"lab",${light})`),
      {
        header: "Difference (units)",
        format: "decimal",
        spill: `=YARN.SHADEDIFF(B${first}:D${last},E${first}:G${last},DifferenceFormula)`,
      },
      {
        header: "Grey scale",
        format: "text",
        spill: `=YARN.GREYSCALE(B${first}:D${last},E${first}:G${last},"step")`,
      },
    ];
  };
  const last = FIRST_LIGHT + SHADES.length - 1;
  book.heading(sheet, `A${FIRST_LIGHT - 2}`, '="Under "&FirstLight');
  book.block(sheet, `A${FIRST_LIGHT - 1}`, SHADES.length, [
    ...under("FirstLight", FIRST_LIGHT),
    {
      header: "Verdict",
      entry: (row) =>
        `=IF(YARN.SHADEPASS(B${row}:D${row},E${row}:G${row},ShadeTolerance,DifferenceFormula),"card a pad","out of reach")`,
    },
    { header: "Target, sketch", format: "text", spill: `=YARN.LABTORGB(B${FIRST_LIGHT}:D${last})` },
    { header: "Recipe, sketch", format: "text", spill: `=YARN.LABTORGB(E${FIRST_LIGHT}:G${last})` },
    { header: "Target" },
    { header: "Recipe" },
  ]);
  for (let row = FIRST_LIGHT; row <= last; row++) {
    book.swatch(sheet, `M${row}`, `K${row}`);
    book.swatch(sheet, `N${row}`, `L${row}`);
  }
  book.heading(sheet, `A${SECOND_LIGHT - 2}`, '="Under "&SecondLight');
  book.block(sheet, `A${SECOND_LIGHT - 1}`, SHADES.length, [
    ...under("SecondLight", SECOND_LIGHT),
    {
      header: "Metamerism (units)",
      format: "decimal",
      spill: `=YARN.METAMERISM(${TARGET_ROWS},YARN.MIXSHADE(${RECIPES},${SOLID_ROWS},Model,"reflectance"),FirstLight,SecondLight)`,
    },
  ]);
  const below = SECOND_LIGHT + SHADES.length + 1;
  book.note(
    sheet,
    `A${below}`,
    "card a pad: within the tolerance of Inputs by calculation. out of reach: these solids do not give the shade; dye another.",
  );
  book.note(
    sheet,
    `A${below + 1}`,
    "Metamerism: what target and recipe part under the second light, beyond what they differ by under the first.",
  );
}

const CHOICES_TOP = 8;
const CURVE_FIRST = 20;

function closerLook(book: SampleBook): void {
  const sheet = book.sheet("Closer look", `The nearest recipes for one shade, each of other solids. ${CAUTION}`);
  const target = `INDEX(${TARGET_ROWS},MATCH(ShadeChosen,TargetSpectra[Shade],0),0)`;
  book.heading(sheet, "A5", '="Recipes for "&ShadeChosen&" in whole steps, nearest first"');
  NAMES.forEach(
    (_, index) =>
      (book.put(
        sheet,
        `${columnLetter(index + 2)}${CHOICES_TOP - 1}`,
        `=INDEX(SolidSpectra[Solid],COLUMNS($B7:${columnLetter(index + 2)}7))`,
      ).alignment = { horizontal: "right" }),
  );
  book.spill(
    sheet,
    `A${CHOICES_TOP}`,
    `=YARN.MIXCHOICES(${target},${SOLID_ROWS},Parts,LeastShare,Model,FirstLight,ShareStep,Solids[Price (EUR/kg)],Choices)`,
    [
      "whole",
      ...NAMES.map((): Format => "percentOrNone"),
      "decimal",
      "decimal",
      "decimal",
      "decimal",
      "decimal",
      "text",
      "money",
    ],
  );
  const first = CURVE_FIRST;
  const last = first + BANDS.length - 1;
  const shares = `B$${CHOICES_TOP + 1}:${columnLetter(NAMES.length + 1)}$${CHOICES_TOP + 1}`;
  book.heading(sheet, `A${first - 2}`, "Reflectance of the target and of the first recipe");
  book.block(sheet, `A${first - 1}`, BANDS.length, [
    {
      header: "Wavelength (nm)",
      format: "whole",
      entry: (row) => `=FirstBand+BandStep*(ROWS(A$${first}:A${row})-1)`,
    },
    {
      header: "Target (R)",
      format: "kg3",
      entry: (row) => `=INDEX(${target},1,ROWS(A$${first}:A${row}))`,
    },
    {
      header: "Recipe (R)",
      format: "kg3",
      // The function gives more bands than were measured.
      entry: (row) =>
        `=INDEX(YARN.MIXSHADE(${shares},${SOLID_ROWS},Model,"reflectance"),1,(A${row}-FirstBand)/ModelStep+1)`,
    },
  ]);
  book.chart(sheet, `E${first - 1}:O${last + 2}`, {
    kind: "lines",
    title: "Reflectance of the target and of the first recipe",
    values: "Reflectance, 0 to 1",
    categories: "Wavelength (nm)",
    format: "decimal",
    labels: `A${first}:A${last}`,
    series: [
      { name: "Target", values: `B${first}:B${last}` },
      { name: "Recipe", values: `C${first}:C${last}` },
    ],
  });
}

function weighUp(book: SampleBook): void {
  const sheet = book.sheet(
    "Weigh-up",
    `Cards for the blending floor, after the pad is approved. ${CAUTION}`,
    [],
    "portrait",
  );
  SHADES.forEach((_, index) => {
    const top = cardTop(index);
    const recipe = RECIPE_FIRST + index;
    const first = top + 2;
    const last = top + 1 + NAMES.length;
    book.heading(
      sheet,
      `A${top}`,
      `=Recipes!A${recipe}&", batch of "&TEXT(INDEX(Batches[Batch (kg)],${index + 1}),"0.0")&" kg"`,
      { ownPage: true },
    );
    book.block(sheet, `A${top + 1}`, NAMES.length, [
      { header: "Solid", entry: (row) => `=INDEX(SolidSpectra[Solid],ROWS(A$${first}:A${row}))` },
      {
        header: "Share wanted",
        format: "percentOrNone",
        entry: (row) => `=INDEX(Recipes!D$${recipe}:K$${recipe},1,ROWS(A$${first}:A${row}))`,
      },
    ]);
    book.put(sheet, `A${last + 1}`, "In all");
    book.spill(
      sheet,
      `C${top + 1}`,
      `=YARN.LAYDOWN(YARN.DRYMASS(INDEX(Batches[Batch (kg)],${index + 1}),BatchRegain),Recipes!D${recipe}:K${recipe},Sections,ScaleStep,Solids[Regain as it lies])`,
      ["whole", "decimal", "decimal", "percentOrNone", "kg3"],
      { totalled: true },
    );
    book.block(sheet, `H${top + 1}`, NAMES.length, [
      { header: "Off the share wanted", format: "percent", entry: (row) => `=F${row}-B${row}` },
    ]);
  });
}

function cardTop(index: number): number {
  return 5 + index * CARD;
}

function need(book: SampleBook): void {
  const sheet = book.sheet("Need", `How much of each solid all batches take. ${CAUTION}`);
  const first = 7;
  book.heading(sheet, "A5", "Solids for all batches (kg at the regain of the batches)");
  book.block(sheet, "A6", NAMES.length, [
    { header: "Solid", entry: (row) => `=INDEX(SolidSpectra[Solid],ROWS(A$${first}:A${row}))` },
    {
      header: "Needed (kg)",
      format: "kg",
      spill: `=TRANSPOSE(YARN.MIXNEED(${RECIPES},Batches[Batch (kg)]))`,
      total: true,
    },
    {
      header: "In stock (kg)",
      format: "kg",
      entry: (row) => `=INDEX(Solids[In stock (kg)],ROWS(A$${first}:A${row}))`,
      total: true,
    },
    { header: "To dye (kg)", format: "kg", entry: (row) => `=MAX(B${row}-C${row},0)`, total: true },
    {
      header: "Fibre (EUR)",
      format: "money",
      entry: (row) => `=B${row}*INDEX(Solids[Price (EUR/kg)],ROWS(A$${first}:A${row}))`,
      total: true,
    },
  ]);
  const last = first + NAMES.length - 1;
  book.chart(sheet, `A${last + 4}:H${last + 22}`, {
    kind: "columns",
    title: "Needed and in stock",
    values: "kg",
    categories: "Solid",
    format: "whole",
    labels: `A${first}:A${last}`,
    series: [
      { name: "Needed", values: `B${first}:B${last}` },
      { name: "In stock", values: `C${first}:C${last}` },
    ],
  });
}

function checks(book: SampleBook): void {
  const all = (column: string) => `Recipes!${column}${RECIPE_FIRST}:${column}${RECIPE_LAST}`;
  const total = 7 + NAMES.length;
  const chosen = `INDEX(Differences!H${FIRST_LIGHT}:H${FIRST_LIGHT + SHADES.length - 1},MATCH(ShadeChosen,TargetSpectra[Shade],0))`;
  const difference = columnLetter(NAMES.length + 5);
  book.checks([
    [
      "Practical shares of every recipe sum to 100 %",
      `=AND(ABS(MIN(${all("L")})-1)<0.000000001,ABS(MAX(${all("L")})-1)<0.000000001)`,
    ],
    ["No recipe has more solids than wanted", `=MAX(${all("M")})<=Parts`],
    ["No share is below the least", `=MIN(${all("N")})>=LeastShare-0.000000001`],
    ["Two different lights are looked at", "=FirstLight<>SecondLight"],
    ["What the fitted model leaves on the pads is within the tolerance", "=FitLeft<=ShadeTolerance"],
    [
      "The first choice is no worse than the practical recipe of the same shade",
      `='Closer look'!${difference}${CHOICES_TOP + 1}<=${chosen}+0.000001`,
    ],
    ["Solids needed are the batches (kg)", `=ABS(Need!B${total}-SUM(Batches[Batch (kg)]))<0.000001`],
    ...SHADES.map((shade, index): [string, string] => {
      const first = cardTop(index) + 2;
      const off = `'Weigh-up'!H${first}:H${first + NAMES.length - 1}`;
      return [
        `Weigh-up of ${shade} keeps the shares within the tolerance`,
        `=AND(MAX(${off})<=ShareTolerance,MIN(${off})>=-ShareTolerance)`,
      ];
    }),
  ]);
}
