import { DAYLIGHT, type Light } from "../tables/lights";
import {
  absorptionModel,
  exponentialModel,
  fibreModel,
  WOOL_EXPONENTIAL_CONSTANT,
  WOOL_FIBRE_CONSTANT,
  type BlendModel,
} from "../trade/shade/blend-models";
import type { Pad } from "../trade/shade/model-fit";
import { searchEffort } from "../trade/shade/search-size";
import { expectShareBounds } from "../trade/blending/share-bounds";
import { absent, counted, refuse } from "../trade/refusal";
import { wholeRecipe } from "../trade/whole-recipe";
import { reflectanceOf } from "../trade/shade/smooth-spectrum";
import { labOf } from "../trade/shade/tristimulus";
import { list, listOr, nameOf, oneOr, sameLength, type Column, type Named } from "./arguments";
import { inReadingOrder, isBlank, isOmitted, shapeOf, type Cell, type Cells } from "./cells";
import { refuseTotal } from "./headings";
import { blankIs, fraction, numberOr, numberThat, share, wholeNumber, word, type Kind } from "./kinds";
import { block, eachAlong, orderOf, placesOfNames, refuseUnknown, type Along } from "./names";
import { shadeColumn, shadeList, type ShadeReader } from "./shade-rows";
import { lightWord, shadeRow } from "./shades";
import { vocabulary } from "./words";
import { expectSolids } from "./work";

/** A blend model by its word, or the user's own constant of the fibre model. */
export const blendModel: Kind<BlendModel> = (cell, argument) => {
  const model = numberOr(FIBRE_CONSTANT, MODEL_WORD)(cell, argument);
  return typeof model === "number" ? fibreModel(model) : model;
};
/** Halves at the coarsest: a step of 1 is 1% typed whole. */
const stepOfShares = fraction(0, 0.5, "must be 0 to 0.5 (50%)");
const FIBRE_CONSTANT = numberThat("must be a constant above 0 and at most 1, or a word", (m) => m > 0 && m <= 1);
export const FIBRE_MODEL = fibreModel(WOOL_FIBRE_CONSTANT);
const MODEL_WORD = word<BlendModel>(
  vocabulary("blend model", [
    ["fibre", FIBRE_MODEL, "fiber"],
    ["exponential", exponentialModel(WOOL_EXPONENTIAL_CONSTANT)],
    ["ks", absorptionModel, "k/s"],
  ]),
);

/** The solids of a blend: their reflectances, whether all were measured, and how they lie with their names. */
export interface Solids {
  readonly reflectances: readonly (readonly number[])[];
  readonly measured: boolean;
  readonly along: Along;
}

export function solidShades(argument: Named, light: Light): Solids {
  const read: ShadeReader<{ measured: boolean; reflectance: readonly number[] }> = (row, name, grid) => {
    const shade = shadeRow(row, name, grid);
    return { measured: shade.measured, reflectance: reflectanceOf(shade, light, name) };
  };
  const { shades, along } = shadeList(argument, read, true);
  return {
    reflectances: shades.map(({ reflectance }) => reflectance),
    measured: shades.every(({ measured }) => measured),
    along,
  };
}

/** Recipes one a row, as they broadcast, and their names. */
export interface Recipes extends Column<number[]> {
  readonly names: readonly string[] | undefined;
}

/**
 * One recipe as a list, or several, one a row and one column a solid; each must sum to 1. Where recipes and solids both
 * have names of solids, the names say which is which.
 */
export function recipeRows(argument: Named, solids: Along): Recipes {
  const { name, figures, rowNames, columnNames, above } = block(argument, share);
  refuseTotal(name, rowNames, "row", above);
  refuseTotal(name, columnNames, "column", rowNames === undefined ? 0 : 1);
  const width = (figures[0] as Cell[]).length;
  const isColumn = width === 1 && (figures.length === solids.blanks.length || rowNames === undefined);
  const single = figures.length === 1 || isColumn;
  const recipes = single ? [inReadingOrder(figures)] : figures;
  const isDown = isColumn && figures.length > 1;
  if (!single && width !== solids.count && width !== solids.blanks.length && figures.length === solids.count) {
    refuse(name, shapeOf(figures.length, width), `must have one column a solid, ${solids.count}: TRANSPOSE turns it`);
  }
  const inOrder = arrangement(name, isDown ? rowNames : columnNames, solids);
  return {
    name,
    rows: recipes.length,
    columns: 1,
    items: recipes.map((recipe) => [recipe]),
    read: (recipe) => {
      const cells = inOrder(recipe as Cell[]);
      const isWhole = cells.length === solids.count;
      // A solid that is not used may be blank, as in a table of recipes; the sum shows one that is forgotten.
      const shares = list({ [name]: [isWhole ? cells.map((cell) => (isBlank(cell) ? 0 : cell)) : cells] }, share);
      if (shares.length !== solids.count)
        refuse(name, `${counted(shares.length, "item")} long`, `must match solids, which has ${solids.count}`);
      const row = recipes.length > 1 ? recipes.indexOf(recipe as Cell[]) + 1 + above : 0;
      return wholeRecipe(row > 0 ? `${name} row ${row}` : name, shares);
    },
    names: isDown ? undefined : rowNames,
  };
}

/** A single recipe. */
export function oneRecipe(argument: Named, solids: Along): number[] {
  const recipes = recipeRows(argument, solids);
  if (recipes.rows !== 1) refuse(recipes.name, `${recipes.rows} recipes`, "must be one");
  const recipe = (recipes.items[0] as Cell[])[0] as Cell[];
  return recipe.every(isBlank) ? refuse(recipes.name, "blank", "must be given") : recipes.read(recipe, recipes.name);
}

/** How a recipe is brought into the order of the solids: by name, and without what belongs to a blank place. */
function arrangement(name: string, names: readonly string[] | undefined, to: Along): (row: Cell[]) => Cell[] {
  if (names !== undefined && to.names !== undefined) {
    refuseUnknown(name, names, to);
    const order = placesOfNames(name, names, to);
    return (row) => order.map((place) => (place < 0 ? 0 : row[place]));
  }
  if (!to.blanks.some(Boolean)) return (row) => row;
  return (row) =>
    row.length === to.blanks.length
      ? row.filter((cell, place) => !(to.blanks[place] && (isBlank(cell) || cell === 0)))
      : row;
}

/** Pads carded by the user: a recipe and a measured shade each. */
export function pads(shares: Named, blends: Named, solids: Along, light: Light): Pad[] {
  const recipes = recipeRows(shares, solids);
  const { shades: measured, along } = shadeList(blends, shadeRow);
  const order =
    recipes.names && along.names
      ? orderOf(recipes.name, recipes.names, along)
      : recipes.items.map((_, place) => place).filter((place) => !along.blanks[place]);
  const [name] = nameOf(blends);
  sameLength(recipes.name, order.length, name, measured.length);
  return measured.map((shade, index) => {
    const recipe = (recipes.items[order[index] as number] as Cell[])[0] as Cell[];
    return {
      shares: recipe.every(isBlank)
        ? refuse(recipes.name, "blank in part", "give one recipe a pad")
        : recipes.read(recipe, recipes.name),
      lab: shade.measured ? labOf(shade.reflectance, light) : shade.lab,
    };
  });
}

/** What a match aims at. */
export interface Aim {
  readonly reflectance: readonly number[];
  readonly measured: boolean;
  /** Above 1 somewhere: a brightener, or wrongly measured. */
  readonly overWhite: boolean;
}

interface MatchTerms {
  readonly solids: readonly (readonly number[])[];
  /** How the solids lie in their range, with their names. */
  readonly along: Along;
  readonly measured: boolean;
  /** Is a reflectance among the solids above 1 somewhere? */
  readonly overWhite: boolean;
  readonly parts: number;
  /** What the search for one target takes at the most. */
  readonly effort: number;
  /** Of any solid that is used. */
  readonly leastShare: number;
  /** Of each solid, used or not; where none is limited there are none. */
  readonly leastShares: readonly number[] | undefined;
  readonly mostShares: readonly number[] | undefined;
  readonly model: BlendModel;
  readonly lights: readonly Light[];
  readonly step: number;
  /** Reads a target along a row. */
  readonly aim: ShadeReader<Aim>;
}

type MatchArguments = "solids" | "parts" | "min_share" | "model" | "light" | "step" | "max_share";

/** The terms that MIXMATCH and MIXCHOICES have in common. */
export function matchTerms(given: Readonly<Record<MatchArguments, Cells | null | undefined>>): MatchTerms {
  const { solids, parts, min_share, model, light, step, max_share } = given;
  const lights = listOr({ light }, lightWord, [DAYLIGHT]);
  const lamp = lights[0] as Light;
  const { reflectances, measured, along } = solidShades({ solids }, lamp);
  const oneLightOnly = (name: string): void => {
    if (lights.length > 1)
      refuse("light", `${lights.length} lights`, `${name} has L*a*b*, which tell of one light only`);
  };
  if (!measured) oneLightOnly("solids");
  const most = oneOr({ parts }, wholeNumber, 4);
  const stepped = oneOr({ step }, stepOfShares, 0);
  const bounds = shareBounds({ min_share }, { max_share }, along, most);
  const effortOf = (tried: number): number => effortOfMatch(reflectances.length, tried, bounds, stepped, lights.length);
  expectSolids(reflectances.length, most, effortOf);
  return {
    ...{ solids: reflectances, along, measured, lights },
    effort: effortOf(most),
    overWhite: reflectances.some(isOverWhite),
    parts: most,
    ...bounds,
    model: oneOr({ model }, blendModel, FIBRE_MODEL),
    step: stepped,
    aim: (row, name, grid) => {
      const shade = shadeRow(row, name, grid);
      if (!shade.measured) oneLightOnly(name);
      const reflectance = reflectanceOf(shade, lamp, name);
      return { reflectance, measured: shade.measured, overWhite: isOverWhite(reflectance) };
    },
  };
}

function effortOfMatch(
  solids: number,
  parts: number,
  { leastShare, leastShares, mostShares }: ShareBounds,
  step: number,
  lights: number,
): number {
  const had = mostShares ? mostShares.filter((most) => most > 0).length : solids;
  const kept = leastShares ? leastShares.filter((least) => least > 0).length : 0;
  return searchEffort({ solids: had, kept, parts: Math.max(parts, kept), leastShare, step }, lights);
}

function isOverWhite(reflectance: readonly number[]): boolean {
  return reflectance.some((value) => value > 1);
}

type ShareBounds = Pick<MatchTerms, "leastShare" | "leastShares" | "mostShares">;

/**
 * One least share is that of any solid that is used; one a solid is used in any case. Greatest shares hold for each, and
 * with 0 a solid is not to be had.
 */
function shareBounds(minShare: Named, maxShare: Named, solids: Along, parts: number): ShareBounds {
  const isOne = isSingle(nameOf(minShare)[1]);
  const leastShare = isOne ? oneOr(minShare, share, 0) : 0;
  const least = isOne ? undefined : eachAlong(minShare, blankIs(share, 0), 0, "least_share", solids);
  const most = isOmitted(nameOf(maxShare)[1])
    ? undefined
    : eachAlong(maxShare, blankIs(share, 1), 1, "greatest_share", solids);
  if (least || most) {
    const none = new Array<number>(solids.count).fill(0);
    expectShareBounds(least ?? none, most ?? none.map(() => 1));
  }
  const wanted = least?.filter((own) => own > 0).length ?? 0;
  if (wanted > parts) refuse("parts", String(parts), `must be ${wanted} or more: min_share asks for so many solids`);
  if (most) {
    const greatest = most.slice().sort((a, b) => b - a);
    const room = greatest.slice(0, parts).reduce((sum, own) => sum + own, 0);
    if (room < 1 - 1e-9) absent("max_share", `${Number(room.toPrecision(9))} in ${parts} solids`, "take more parts");
    const highest = greatest[0] as number;
    if (leastShare > highest) refuse("min_share", String(leastShare), `must not be above max_share, ${highest}`);
  }
  return { leastShare, leastShares: wanted > 0 ? least : undefined, mostShares: most };
}

function isSingle(cells: Cells): boolean {
  return cells.length === 1 && (cells[0] as Cell[]).length === 1;
}

/** What a correction of a blend is worked out from: solids, lights, model and how shades are read. */
export function correctionTerms(
  given: Readonly<Record<"solids" | "model" | "light", Cells | null | undefined>>,
): Pick<MatchTerms, "solids" | "along" | "measured" | "overWhite" | "model" | "lights" | "aim"> {
  return matchTerms({ ...given, parts: null, min_share: null, step: null, max_share: null });
}

/** The first of the recipes found; the limits of shares and their steps may leave none. */
export function firstOf<R>(recipes: readonly R[]): R {
  return recipes[0] ?? absent("max_share", "too tight with the other limits", "no recipe has such shares: widen it");
}

/** A target that is a single shade along one row. */
export function oneShade<T>(argument: Named, read: ShadeReader<T>): T {
  const rows = shadeColumn(argument, read);
  if (rows.rows !== 1) refuse(rows.name, `${rows.rows} rows`, "must be one row");
  const row = (rows.items[0] as Cell[])[0] as Cell[];
  return row.every(isBlank) ? refuse(rows.name, "blank", "must be given") : rows.read(row, rows.name);
}
