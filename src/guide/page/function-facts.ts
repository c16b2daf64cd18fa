import type { Searched } from "./matching";

/** What the pane knows of a function: written by the build from its docblock (pane-facts.ts). */
export interface FunctionFacts {
  readonly id: string;
  readonly description: string;
  readonly returns: string;
  readonly parameters: readonly ParameterFacts[];
  /** Titles of the sources, with how well each is known. */
  readonly sources: readonly (readonly [title: string, status: string])[];
  /** Titles and pages of the cautions. */
  readonly cautions: readonly (readonly [title: string, page: string])[];
}

export interface ParameterFacts {
  readonly name: string;
  readonly optional: boolean;
  readonly description: string;
  /** The words that it takes, where it takes words. */
  readonly words?: readonly string[];
}

/** One line of the list that is searched. */
export type Listed = Pick<Searched, "nearest" | "trade"> & { readonly id: string; readonly description: string };
