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
import { counted, refuse } from "../trade/refusal";
import { wholeRecipe } from "../trade/whole-recipe";
import { reflectanceOf, type Shade } from "../trade/shade/smooth-spectrum";
import { labOf } from "../trade/shade/tristimulus";
import {
  list,
  listOr,
  nameOf,
  oneOr,
  readCell,
  requiredRows,
  sameLength,
  withoutBlankEnd,
  type Column,
  type Named,
} from "./arguments";
import { inReadingOrder, isBlank, type Cell, type Cells } from "./cells";
import { numberOr, numberThat, share, wholeNumber, word, type Kind } from "./kinds";
import { lightWord, shadeRow } from "./shades";
import { vocabulary } from "./words";

/** A blend model by its word, or the user's own constant of the fibre model. */
export const blendModel: Kind<BlendModel> = (cell, argument) => {
  const model = numberOr(FIBRE_CONSTANT, MODEL_WORD)(cell, argument);
  return typeof model === "number" ? fibreModel(model) : model;
};
const FIBRE_CONSTANT = numberThat("must be a constant above 0 and at most 1, or a word", (m) => m > 0 && m <= 1);
export const FIBRE_MODEL = fibreModel(WOOL_FIBRE_CONSTANT);
const MODEL_WORD = word<BlendModel>(
  vocabulary("blend model", [
    ["fibre", FIBRE_MODEL, "fiber"],
    ["exponential", exponentialModel(WOOL_EXPONENTIAL_CONSTANT)],
    ["ks", absorptionModel, "k/s"],
  ]),
);

/** Shades taken whole, one a row; blank rows after the last are not part of them. */
export function shades(argument: Named): Shade[] {
  const [name, cells] = nameOf(argument);
  const filled = withoutBlankEnd(cells);
  if (filled.length === 0) refuse(name, "blank", "must hold one shade a row");
  return filled.map((row, index) => {
    for (const cell of row) if (!isBlank(cell)) readCell(cell, name, (value) => value);
    return shadeRow(row, filled.length === 1 ? name : `${name} row ${index + 1}`);
  });
}

/** The solids of a blend: their reflectances, and whether all were measured. */
export function solidShades(argument: Named, light: Light): { reflectances: (readonly number[])[]; measured: boolean } {
  const given = shades(argument);
  const [name] = nameOf(argument);
  return {
    reflectances: given.map((shade, index) => reflectanceOf(shade, light, `${name} row ${index + 1}`)),
    measured: given.every(({ measured }) => measured),
  };
}

/** One recipe as a list, or several, one a row and one column a solid; each must sum to 1. */
export function recipeRows(argument: Named, solids: number): Column<number[]> {
  const [name, cells] = nameOf(argument);
  const single = cells.length === 1 || cells[0]?.length === 1;
  const recipes = single ? [inReadingOrder(cells)] : cells;
  return {
    name,
    rows: recipes.length,
    columns: 1,
    items: recipes.map((recipe) => [recipe]),
    read: (recipe) => {
      const shares = list({ [name]: [recipe as Cell[]] }, share);
      if (shares.length !== solids)
        refuse(name, `${counted(shares.length, "item")} long`, `must match solids, which has ${solids}`);
      const row = recipes.length > 1 ? recipes.indexOf(recipe as Cell[]) + 1 : 0;
      return wholeRecipe(row > 0 ? `${name} row ${row}` : name, shares);
    },
  };
}

/** Pads carded by the user: a recipe and a measured shade each. */
export function pads(shares: Named, blends: Named, solids: number, light: Light): Pad[] {
  const recipes = recipeRows(shares, solids);
  const measured = shades(blends);
  const [name] = nameOf(blends);
  sameLength(recipes.name, recipes.rows, name, measured.length);
  return measured.map((shade, index) => {
    const recipe = (recipes.items[index] as Cell[])[0] as Cell[];
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
}

interface MatchTerms {
  readonly solids: readonly (readonly number[])[];
  readonly measured: boolean;
  readonly parts: number;
  readonly leastShare: number;
  readonly model: BlendModel;
  readonly lights: readonly Light[];
  readonly step: number;
  /** Reads a target along a row. */
  readonly aim: (row: readonly Cell[], name: string) => Aim;
}

/** The terms that MIXMATCH and MIXCHOICES have in common. */
export function matchTerms(
  given: Readonly<Record<"solids" | "parts" | "min_share" | "model" | "light" | "step", Cells | null | undefined>>,
): MatchTerms {
  const { solids, parts, min_share, model, light, step } = given;
  const lights = listOr({ light }, lightWord, [DAYLIGHT]);
  const lamp = lights[0] as Light;
  const { reflectances, measured } = solidShades({ solids }, lamp);
  const oneLightOnly = (name: string): void => {
    if (lights.length > 1)
      refuse("light", `${lights.length} lights`, `${name} has L*a*b*, which tell of one light only`);
  };
  if (!measured) oneLightOnly("solids");
  return {
    ...{ solids: reflectances, measured, lights },
    parts: oneOr({ parts }, wholeNumber, 4),
    leastShare: oneOr({ min_share }, share, 0),
    model: oneOr({ model }, blendModel, FIBRE_MODEL),
    step: oneOr({ step }, share, 0),
    aim: (row, name) => {
      const shade = shadeRow(row, name);
      if (!shade.measured) oneLightOnly(name);
      return { reflectance: reflectanceOf(shade, lamp, name), measured: shade.measured };
    },
  };
}

/** An argument that is a single item along one row. */
export function oneRow<T>(argument: Named, read: (row: readonly Cell[], name: string) => T): T {
  const rows = requiredRows(argument, read);
  if (rows.rows !== 1) refuse(rows.name, `${rows.rows} rows`, "must be one row");
  const row = (rows.items[0] as Cell[])[0] as Cell[];
  return row.every(isBlank) ? refuse(rows.name, "blank", "must be given") : rows.read(row, rows.name);
}
