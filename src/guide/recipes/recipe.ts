/** A table as it stands in the sheet, its headings first; formulas call it by its name. */
export interface RecipeTable {
  readonly name: string;
  readonly rows: readonly (readonly (string | number)[])[];
}

/** A cell with a name. */
export interface RecipeCell {
  readonly name: string;
  readonly value: string | number;
  readonly meaning: string;
}

/** A formula, in a cell that has a name too, so that those after it can read what it gives. */
export interface RecipeFormula {
  readonly name: string;
  readonly formula: string;
  readonly meaning: string;
}

export interface Recipe {
  readonly file: string;
  readonly title: string;
  /** Two sentences: what has happened, and what is asked. */
  readonly situation: string;
  readonly cells: readonly RecipeCell[];
  readonly tables: readonly RecipeTable[];
  readonly formulas: readonly RecipeFormula[];
  readonly reading: string;
  /** Anchors of the page of cautions. */
  readonly cautions: readonly string[];
  /** What the way of working rests on, and where its figures come from. */
  readonly rests: string;
  /** Words by which a person would ask for it. */
  readonly words: string;
}
