import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { DocumentedFunction } from "../documentation/docblocks.mjs";
import type { FunctionFacts, Listed } from "./page/function-facts";
import { cautionsFor } from "./cautions";
import { wordsOf } from "./page/matching";
import { sourceOf, STATUS_WORDS } from "./sources";
import { tradeWordsOf } from "./trade-words";

/** The drop-downs of functions.json: which argument takes which words. */
export interface WordsOfArguments {
  readonly enums: readonly { readonly id: string; readonly values: readonly { readonly stringValue: string }[] }[];
  readonly functions: readonly {
    readonly id: string;
    readonly parameters: readonly { readonly name: string; readonly customEnumId?: string }[];
  }[];
}

/** Writes what the pane knows of the functions: one file for the search, and one a function, fetched when it is asked for. */
export function writePaneFacts(out: string, documented: readonly DocumentedFunction[], words: WordsOfArguments): void {
  const folder = join(out, "pane");
  mkdirSync(folder, { recursive: true });
  writeFileSync(join(folder, "index.json"), JSON.stringify(documented.map(listed)));
  for (const own of documented) writeFileSync(join(folder, `${own.id}.json`), JSON.stringify(factsFor(own, words)));
}

function listed({ id, description }: DocumentedFunction): Listed {
  const wordsFor = (nearest: boolean) => [...new Set(wordsOf(tradeWordsOf(id, nearest)))].join(" ");
  return { id, nearest: wordsFor(true), trade: wordsFor(false), description };
}

function factsFor(documented: DocumentedFunction, { enums, functions }: WordsOfArguments): FunctionFacts {
  const { id, family, description, returns, parameters, sources } = documented;
  const declared = functions.find((one) => one.id === id)?.parameters ?? [];
  const wordsFor = (name: string) => {
    const list = declared.find((one) => one.name === name)?.customEnumId;
    return enums.find((one) => one.id === list)?.values.map(({ stringValue }) => stringValue);
  };
  return {
    id,
    description,
    returns,
    parameters: parameters.map(({ name, optional, description: meaning }) => {
      const words = wordsFor(name);
      return { name, optional, description: meaning, ...(words === undefined ? {} : { words }) };
    }),
    sources: sources.map((key) => {
      const { title, status } = sourceOf(key);
      return [title, STATUS_WORDS[status]] as const;
    }),
    cautions: cautionsFor(family).map(({ anchor, title }) => [title, `cautions.html#${anchor}`] as const),
  };
}
