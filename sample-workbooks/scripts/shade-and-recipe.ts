import { LIGHTS } from "../../src/tables/lights";
import { SampleBook, type Entry, type Format, type GrowingColumn, type InputLine } from "./kit";
import { swatchOf } from "./swatches";
import { texts } from "./given-texts";

const CAUTION = "A start recipe for a hand-carded pad, not an approval.";
const OF_SWATCHES =
  "A swatch is a sketch: the nearest of some hundreds of colours, 3 units of CIEDE2000 away on average and 10 at the most. Look at the carded pad, not at it.";

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
const PRICES = [13.1, 17.4, 16.9, 16.6, 16.7, 17.2, 17.8, 17.6];
const REGAINS = [0.16, 0.15, 0.152, 0.149, 0.15, 0.155, 0.153, 0.15];
const STOCK = [120, 40, 60, 55, 20, 30, 45, 15];
/** Words of the owner's own, which no function reads. */
const SOLID_REMARKS = ["undyed", "", "", "", "last of its lot", "", "", "fades: see the card"];

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
const TARGET_REMARKS = ["", "swatch of last year", "", "brighter than our solids", "", ""];

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

const band = (nm: number) => `${nm} (nm)`;
const FROM_TO = `[${band(BANDS[0] as number)}]:[${band(BANDS[BANDS.length - 1] as number)}]`;
/** The reflectances of the shade to look at closely. */
const CHOSEN = `INDEX(Targets[${FROM_TO}],MATCH(ShadeChosen,Targets[Shade],0),0)`;
/** Bands that the model gives. */
const MODEL_BANDS = 31;

/** The rows of headings and the first rows below them. */
const TOP = 6;
const FIRST = TOP + 1;
/** Recipes one a row, under the names of the solids and after those of the shades: as matched, and in whole steps. */
const EXACT = `Exact!A${TOP}#`;
const RECIPES = `Recipes!G${TOP}#`;
const RECIPE_NAMES = `INDEX(${RECIPES},0,1)`;
const SOLIDS_ABOVE = texts(`INDEX(${RECIPES},1,0)`);
const SHARES = `IF(ISNUMBER(${RECIPES}),${RECIPES},0)`;
const CHOICES = `'Closer look'!A${TOP}#`;
const differences = (column: string) => `Differences!${column}${FIRST}#`;

/** Cards stand below each other with room for some solids more, and there are places for some shades more. */
const SPARE_SOLIDS = 4;
const SPARE_CARDS = 4;
const CARD = NAMES.length + SPARE_SOLIDS + 4;
const CARDS = SHADES.length + SPARE_CARDS;
const cardTop = (index: number) => 5 + index * CARD + (index < SHADES.length ? 0 : 1);
const CARD_ENDS = ["component", "total"] as const;

export function shadeAndRecipe(): SampleBook {
  const book = new SampleBook({
    title: "Shade and recipe of heathers from dyed solids",
    purpose:
      "For six target shades: which of eight dyed solids to blend and in what shares, how far the recipe is from the target under two lights, what it costs, and how to weigh it up. " +
      CAUTION,
    outcomes: [
      [
        `=TEXT(COUNTIF(${differences("J")},"card a pad"),"0")&" of "&TEXT(ROWS(Targets[Shade]),"0")&" shades are within "&TEXT(ShadeTolerance,"0.0")&" units of their target: card a pad"`,
        "Differences",
      ],
      [
        `="The model that the pads settle leaves "&TEXT(FitLeft,"0.00")&" units; its constant is "&TEXT(Fitted,"0.000")`,
        "Pads",
      ],
      [
        `="Solids for all batches: "&TEXT(SUM(Targets[Batch (kg)]),"#,##0")&" kg, "&TEXT(Need!D${FIRST},"#,##0")&" kg of them to dye"`,
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
      "1. Solids and Targets: a row each, with the reflectance measured on loose fibre or pads. Pads: what you carded and measured yourself. A row more is enough.",
      "2. Inputs: lights, how many solids, least share, step of the shares, the weigh-up.",
      "3. Recipes, Differences, Closer look: card a pad by hand from the practical shares, look at it and measure it.",
      "4. Only when the pad is approved: Weigh-up and Need. Checks must hold first.",
      "Without pads of your own the constant of the model is from memory: verify before use. Fitted, expect about 1 unit of CIEDE2000 on average and up to 4.",
    ],
  });
  inputs(book);
  solidsAndTargets(book);
  pads(book);
  shades(book);
  recipes(book);
  underBothLights(book);
  closerLook(book);
  weighUp(book);
  need(book);
  checks(book);
  return book;
}

function inputs(book: SampleBook): void {
  const sheet = book.sheet("Inputs", `What is wanted of the recipes.  ${CAUTION}`, [], "portrait");
  const shadesTyped = `Targets!$A$${FIRST}:INDEX(Targets!$A$${FIRST}:$A$${FIRST + 200},COUNTA(Targets!$A$${FIRST}:$A$${FIRST + 200}))`;
  const match: readonly InputLine[] = [
    ["Light of the match", "FirstLight", "D65/10", "text", CHOICES_OF_LIGHT],
    ["Light to look at as well", "SecondLight", "A/10", "text", CHOICES_OF_LIGHT],
    ["Model of the blend", "ModelChosen", "fitted", "text", ["fitted", "fibre", "exponential", "ks"]],
    ["Most solids in a recipe (no.)", "Parts", 4, "whole"],
    ["Least share of a solid", "LeastShare", 0.03, "percent1"],
    ["Step of practical shares", "ShareStep", 0.01, "percent1"],
    ["Tolerance of the shade (units of the difference)", "ShadeTolerance", 1, "decimal"],
    ["Formula of the difference", "DifferenceFormula", "2000", "text", ["2000", "CMC 2:1", "1994", "1976"]],
    ["Shade to look at closely", "ShadeChosen", SHADES[0] as string, "text", `=${shadesTyped}`],
    ["Recipes to choose from (no.)", "Choices", 5, "whole"],
  ];
  const bands: readonly InputLine[] = [
    ["First band as calculated (nm)", "FirstBand", BANDS[0] as number, "whole"],
    ["Step of the bands as calculated (nm)", "ModelStep", 10, "whole"],
  ];
  const weigh: readonly InputLine[] = [
    ["Regain at which batches are stated", "BatchRegain", 0.1825, "percent"],
    ["Sections of a lay-down (no.)", "Sections", 4, "whole"],
    ["Scale step (kg)", "ScaleStep", 0.05, "decimal"],
    ["Realised share may differ by", "ShareTolerance", 0.005, "percent1"],
  ];
  book.heading(sheet, "A5", "The match");
  book.inputs(sheet, "A6", match);
  book.heading(sheet, "A17", "The spectra");
  book.inputs(sheet, "A18", bands);
  book.heading(sheet, "A21", "The weigh-up");
  book.inputs(sheet, "A22", weigh);
}

function solidsAndTargets(book: SampleBook): void {
  const bands = BANDS.map((nm) => ({ header: band(nm), format: "kg3" as const }));
  const reflectances = (spectrum: (nm: number) => number) => BANDS.map((nm) => Math.round(spectrum(nm) * 1000) / 1000);
  const widths = (before: number, after: number) => [
    11,
    ...Array.from({ length: before }, () => 10.5),
    ...BANDS.map(() => 8),
    ...Array.from({ length: after }, () => 22),
  ];
  const solids = book.sheet(
    "Solids",
    `The dyed and carded solids: price, stock and reflectance, 0 to 1, by wavelength. All invented. ${CAUTION}`,
    widths(3, 1),
  );
  book.table(
    solids,
    `A${TOP}`,
    "Solids",
    [
      { header: "Solid" },
      { header: "Price (EUR/kg)", format: "money" },
      { header: "Regain as it lies", format: "percent1" },
      { header: "In stock (kg)", format: "kg" },
      ...bands,
      { header: "Remark" },
    ],
    Object.values(SOLIDS).map((spectrum, index) => [
      ...([NAMES, PRICES, REGAINS, STOCK] as const).map((each) => each[index] as Entry),
      ...reflectances(spectrum),
      SOLID_REMARKS[index] as string,
    ]),
  );

  const targets = book.sheet(
    "Targets",
    `The shades that are asked for: batch and reflectance, 0 to 1, by wavelength. All invented. ${CAUTION}`,
    [13, 26, 10.5, ...BANDS.map(() => 8)],
  );
  book.table(
    targets,
    `A${TOP}`,
    "Targets",
    [{ header: "Shade" }, { header: "Remark" }, { header: "Batch (kg)", format: "kg" }, ...bands],
    Object.values(TARGETS).map((spectrum, index) => [
      SHADES[index] as string,
      TARGET_REMARKS[index] as string,
      BATCHES[index] as number,
      ...reflectances(spectrum),
    ]),
  );
}

function pads(book: SampleBook): void {
  const sheet = book.sheet(
    "Pads",
    `Pads of known shares that were carded by hand and measured: they settle the constant of the model. ${CAUTION}`,
  );
  const top = 12;
  const shares = `Pads[[#All],[Pad]:[${NAMES[NAMES.length - 1] as string}]]`;
  const lines: [string, string, Format, string?][] = [
    ["Constant (M)", `=YARN.MIXFIT(${shares},Solids[#All],Pads[#All],"constant",FirstLight)`, "kg3", "Fitted"],
    [
      "What is left (CIEDE2000)",
      `=YARN.MIXFIT(${shares},Solids[#All],Pads[#All],"difference",FirstLight)`,
      "decimal",
      "FitLeft",
    ],
  ];
  book.heading(sheet, "A5", "Fitted");
  lines.forEach(([label, formula, format, name], index) => book.result(sheet, 6 + index, label, formula, format, name));
  book.put(sheet, "A8", "Model used");
  book.put(sheet, "B8", '=IF(ModelChosen="fitted",Fitted,ModelChosen)', "kg3");
  book.name("Model", "Pads", "B8");
  book.note(
    sheet,
    "A9",
    "Five pads that include white with very dark settle the constant to about 0.01. A solid without a column is in no pad.",
  );
  book.heading(sheet, `A${top - 1}`, "Shares and measured shade under the light of the match");
  book.table(
    sheet,
    `A${top}`,
    "Pads",
    [
      { header: "Pad" },
      ...NAMES.map((header) => ({ header, format: "percent1" as const })),
      ...["L*", "a*", "b*"].map((axis) => ({ header: `${axis} (measured)`, format: "decimal" as const })),
      { header: "Carded by" },
    ],
    PADS.map((pad, index) => [...pad, index % 2 === 0 ? "day shift" : "night shift"]),
  );
}

/** L*, a*, b* that one formula fills, after the names where it gives them. */
function lab(header: string, formula: string, names?: string): GrowingColumn[] {
  const [first, ...others] = ["L*", "a*", "b*"].map((axis) => ({
    header: `${header} (${axis})`,
    format: "decimal" as const,
  })) as [GrowingColumn, GrowingColumn, GrowingColumn];
  return names ? [{ header: names, spill: formula }, first, ...others] : [{ ...first, spill: formula }, ...others];
}

function shades(book: SampleBook): void {
  const sheet = book.sheet("Shades", `The solids under both lights, with swatches. ${CAUTION}`);
  book.note(sheet, "A4", OF_SWATCHES);
  book.heading(sheet, "A5", "Shade of the solids");
  book.swatches(sheet, "B", FIRST);
  book.growing(sheet, `A${TOP}`, [
    { header: "Solid", spill: "=Solids[Solid]" },
    { header: "Swatch", format: "unseen", spill: swatchOf(`C${FIRST}#`) },
    ...lab("First light", "=YARN.LABOF(Solids[#All],FirstLight)"),
    ...lab("Second light", "=YARN.LABOF(Solids[#All],SecondLight)"),
    { header: "Screen, sketch", format: "text", spill: `=YARN.LABTORGB(C${FIRST}#)` },
  ]);
}

function recipes(book: SampleBook): void {
  const exact = book.sheet("Exact", `The nearest blends of the solids, by mass of dry fibre. ${CAUTION}`, [12]);
  book.heading(exact, `A${TOP - 1}`, "Nearest to the target, in any shares");
  book.spill(exact, `A${TOP}`, "=YARN.MIXMATCH(Targets[#All],Solids[#All],Parts,LeastShare,Model,FirstLight)", [
    undefined,
    "percent",
  ]);

  const sheet = book.sheet("Recipes", `The same in whole steps, and what the fibre costs. ${CAUTION}`, [12]);
  book.note(sheet, "A4", OF_SWATCHES);
  book.heading(sheet, `A${TOP - 1}`, "Practical: in whole steps");
  const below = (heading: string, formula: string) => `=IF(ISTEXT(INDEX(${RECIPES},0,2)),"${heading}",${formula})`;
  const EACH = `TRANSPOSE(--(${SOLIDS_ABOVE}<>""))`;
  const columns: [string, string, Format?][] = [
    ["A", below("Shade", RECIPE_NAMES)],
    ["D", below("In all", `MMULT(${SHARES},${EACH})`), "percent1"],
    ["E", below("Solids (no.)", `MMULT(--(${SHARES}>0),${EACH})`), "whole"],
    [
      "F",
      below(
        "Fibre (EUR/kg)",
        `MMULT(${SHARES},SUMIF(Solids[Solid],TRANSPOSE(${SOLIDS_ABOVE}),Solids[Price (EUR/kg)]))`,
      ),
      "money",
    ],
    ["G", `=YARN.MIXROUND(${EXACT},ShareStep)`],
  ];
  book.swatches(sheet, "B:C", FIRST);
  book.growing(sheet, `B${TOP}`, [
    { header: "Target", format: "unseen", spill: swatchOf(differences("E")) },
    { header: "Recipe", format: "unseen", spill: swatchOf(`YARN.LABFROMRGB(${differences("L")})`) },
  ]);
  for (const [column, formula, format] of columns)
    book.spill(sheet, `${column}${TOP}`, formula, column === "G" ? [undefined, "percent1"] : [format]);
}

function underBothLights(book: SampleBook): void {
  const under = (light: string): GrowingColumn[] => [
    ...lab("Recipe", `=YARN.MIXSHADE(${RECIPES},Solids[#All],Model,"lab",${light})`, "Shade"),
    ...lab("Target", `=YARN.LABOF(Targets[#All],${light})`),
    {
      header: "Difference (units)",
      format: "decimal",
      spill: `=YARN.SHADEDIFF(E${FIRST}#,A${FIRST}#,DifferenceFormula)`,
    },
    { header: "Grey scale", format: "text", spill: `=YARN.GREYSCALE(E${FIRST}#,A${FIRST}#,"step")` },
  ];
  const sheet = book.sheet("Differences", `The practical recipe against the target. ${CAUTION}`, [12]);
  book.heading(sheet, `A${TOP - 2}`, '="Under "&FirstLight');
  book.note(
    sheet,
    `A${TOP - 1}`,
    "card a pad: within the tolerance of Inputs by calculation. out of reach: these solids do not give the shade; dye another.",
  );
  book.growing(sheet, `A${TOP}`, [
    ...under("FirstLight"),
    {
      header: "Verdict",
      spill: `=IF(YARN.SHADEPASS(E${FIRST}#,A${FIRST}#,ShadeTolerance,DifferenceFormula),"card a pad","out of reach")`,
    },
    { header: "Target, sketch", format: "text", spill: `=YARN.LABTORGB(E${FIRST}#)` },
    { header: "Recipe, sketch", format: "text", spill: `=YARN.LABTORGB(A${FIRST}#)` },
  ]);

  const second = book.sheet("Second light", `The same recipes, looked at under another light. ${CAUTION}`, [12]);
  book.heading(second, `A${TOP - 2}`, '="Under "&SecondLight');
  book.note(
    second,
    `A${TOP - 1}`,
    "Metamerism: what target and recipe part under the second light, beyond what they differ by under the first.",
  );
  book.growing(second, `A${TOP}`, [
    ...under("SecondLight"),
    {
      header: "Metamerism (units)",
      format: "decimal",
      spill: `=YARN.METAMERISM(Targets[#All],YARN.MIXSHADE(${RECIPES},Solids[#All],Model,"reflectance"),FirstLight,SecondLight)`,
    },
  ]);
}

function closerLook(book: SampleBook): void {
  const sheet = book.sheet("Closer look", `The nearest recipes for one shade, each of other solids. ${CAUTION}`);
  book.heading(sheet, `A${TOP - 1}`, '="Recipes for "&ShadeChosen&" in whole steps, nearest first"');
  book.spill(
    sheet,
    `A${TOP}`,
    `=YARN.MIXCHOICES(${CHOSEN},Solids[#All],Parts,LeastShare,Model,FirstLight,ShareStep,Solids[#All],Choices)`,
    [
      "whole",
      ...NAMES.map((): Format => "percent1"),
      ...Array.from({ length: 5 }, (): Format => "decimal"),
      "text",
      "money",
    ],
  );

  const curve = book.sheet("Reflectance", `The target and the first recipe of Closer look, band by band. ${CAUTION}`);
  const last = FIRST + BANDS.length - 1;
  const shares = `INDEX(${CHOICES},2,0)`;
  const ofEach = `--(Solids[Solid]&" (share)"=${texts(`INDEX(${CHOICES},1,0)`)})`;
  const firstRecipe = `MMULT(${ofEach},TRANSPOSE(IF(ISNUMBER(${shares}),${shares},0)))`;
  const modelBands = `FirstBand+ModelStep*{${Array.from({ length: MODEL_BANDS }, (_, index) => index).join(",")}}`;
  book.heading(curve, `A${TOP - 1}`, "=ShadeChosen");
  book.growing(curve, `A${TOP}`, [
    {
      header: "Wavelength (nm)",
      format: "whole",
      spill: `=TRANSPOSE(VALUE(LEFT(Targets[[#Headers],${FROM_TO}],3)))`,
    },
    { header: "Target (R)", format: "kg3", spill: `=TRANSPOSE(${CHOSEN})` },
    {
      header: "Recipe (R)",
      format: "kg3",
      // The function gives more bands than were measured.
      spill: `=MMULT(--(A${FIRST}#=${modelBands}),TRANSPOSE(YARN.MIXSHADE(${firstRecipe},Solids[#All],Model,"reflectance")))`,
    },
  ]);
  book.chart(curve, `E${TOP - 1}:O${last + 2}`, {
    kind: "lines",
    title: "Reflectance of the target and of the first recipe",
    values: "Reflectance, 0 to 1",
    categories: "Wavelength (nm)",
    format: "decimal",
    labels: `A${FIRST}:A${last}`,
    namedAt: last - FIRST,
    series: [
      { name: "Target", values: `B${FIRST}:B${last}` },
      { name: "Recipe", values: `C${FIRST}:C${last}` },
    ],
  });
}

function weighUp(book: SampleBook): void {
  const sheet = book.sheet(
    "Weigh-up",
    `Cards for the blending floor, after the pad is approved. ${CAUTION}`,
    [16, 15, 12, 15, 12, 15, 20],
    "landscape",
  );
  book.heading(sheet, `A${cardTop(SHADES.length) - 1}`, "Room for shades more on Targets", { ownPage: true });
  for (let index = 0; index < CARDS; index++) {
    const top = cardTop(index);
    const given = `ROWS(Targets[Shade])>${index}`;
    const shade = `INDEX(Targets[Shade],${index + 1})`;
    const batch = `INDEX(Targets[Batch (kg)],${index + 1})`;
    const recipe = `TRANSPOSE(YARN.MIXNEED(${RECIPES},--(Targets[Shade]=${shade})))`;
    const card = `A${top + 1}#`;
    const solid = texts(`INDEX(${card},0,1)`);
    // The first row holds the names of the solids.
    const row = `INDEX(${RECIPES},${index + 2},0)`;
    const wanted = `MMULT(--(${solid}=${SOLIDS_ABOVE}),TRANSPOSE(IF(ISNUMBER(${row}),${row},0)))`;
    book.heading(sheet, `A${top}`, `=IF(${given},${shade}&", batch of "&TEXT(${batch},"0.0")&" kg","")`, {
      ownPage: index < SHADES.length,
    });
    book.spill(
      sheet,
      `A${top + 1}`,
      `=IF(${given},YARN.LAYDOWN(YARN.DRYMASS(${batch},BatchRegain),${recipe},Sections,ScaleStep,Solids[#All]),"")`,
      [undefined, "weighed", "weighed", "percent", "kg3"],
      { asCard: true },
    );
    book.spill(
      sheet,
      `F${top + 1}`,
      `=IF(${given},IF(${solid}="${CARD_ENDS[0]}","share wanted",${wanted}+(${solid}="${CARD_ENDS[1]}")*SUM(${row})),"")`,
      ["percent1"],
      { asCard: true },
    );
    book.spill(
      sheet,
      `G${top + 1}`,
      `=IF(${given},IF(${solid}="${CARD_ENDS[0]}","off the share wanted",INDEX(${card},0,4)-F${top + 1}#),"")`,
      ["percent"],
      { asCard: true },
    );
  }
  // The cards in use are printed; a card more is a page more once the print area reaches it.
  sheet.pageSetup.printArea = `A1:G${cardTop(SHADES.length) - 2}`;
  book.cards(sheet, `A${cardTop(0) + 1}:G${cardTop(CARDS) - 1}`, CARD_ENDS);
}

function need(book: SampleBook): void {
  const sheet = book.sheet("Need", `How much of each solid all batches take. ${CAUTION}`);
  const last = FIRST + NAMES.length;
  const own = (column: string) => `${column}${FIRST + 1}#`;
  book.heading(sheet, "A5", "Solids for all batches (kg at the regain of the batches)");
  book.growing(sheet, `A${TOP}`, [
    { header: "Solid", spill: `=TRANSPOSE(YARN.MIXNEED(${RECIPES},Targets[#All]))` },
    { header: "Needed (kg)", format: "kg", total: `=SUM(INDEX(${own("A")},0,2))` },
    { header: "In stock (kg)", format: "kg", spill: "=Solids[In stock (kg)]", total: true },
    {
      header: "To dye (kg)",
      format: "kg",
      spill: `=IF(INDEX(${own("A")},0,2)>${own("C")},INDEX(${own("A")},0,2)-${own("C")},0)`,
      total: true,
    },
    {
      header: "Fibre (EUR)",
      format: "money",
      spill: `=INDEX(${own("A")},0,2)*Solids[Price (EUR/kg)]`,
      total: true,
    },
  ]);
  book.chart(sheet, `G5:P23`, {
    kind: "columns",
    title: "Needed and in stock",
    values: "kg",
    categories: "Solid",
    format: "whole",
    labels: `A${FIRST + 1}:A${last}`,
    series: [
      { name: "Needed", values: `B${FIRST + 1}:B${last}` },
      { name: "In stock", values: `C${FIRST + 1}:C${last}` },
    ],
  });
}

function checks(book: SampleBook): void {
  const recipe = (column: string) => `Recipes!${column}${TOP}#`;
  const chosen = `INDEX(${differences("H")},MATCH(ShadeChosen,Targets[Shade],0))`;
  const cards = (column: string) => `'Weigh-up'!${column}${cardTop(0)}:${column}${cardTop(CARDS) - 1}`;
  book.checks([
    [
      "Practical shares of every recipe sum to 100 %",
      `=AND(ABS(MIN(${recipe("D")})-1)<0.000000001,ABS(MAX(${recipe("D")})-1)<0.000000001)`,
    ],
    ["No recipe has more solids than wanted", `=MAX(${recipe("E")})<=Parts`],
    ["No share is below the least", `=COUNTIFS(${RECIPES},">0",${RECIPES},"<"&(LeastShare-0.000000001))=0`],
    ["Two different lights are looked at", "=FirstLight<>SecondLight"],
    ["What the fitted model leaves on the pads is within the tolerance", "=FitLeft<=ShadeTolerance"],
    [
      "The first choice is no worse than the practical recipe of the same shade",
      `=INDEX(${CHOICES},2,ROWS(Solids[Solid])+5)<=${chosen}+0.000001`,
    ],
    ["Solids needed are the batches (kg)", `=ABS(Need!B${FIRST}-SUM(Targets[Batch (kg)]))<0.000001`],
    ["Every shade has a card", `=SUMPRODUCT(--(${texts(cards("A"))}="${CARD_ENDS[0]}"))=ROWS(Targets[Shade])`],
    [
      "The weigh-up of every shade keeps the shares within the tolerance",
      `=COUNTIF(${cards("G")},">"&ShareTolerance)+COUNTIF(${cards("G")},"<"&-ShareTolerance)=0`,
    ],
  ]);
}
