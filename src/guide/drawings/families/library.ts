import { bars } from "../bars";
import { figure, type Drawing } from "../svg";
import type { Work } from "../../work";
import { textOf } from "../../page/written";

const MEANINGS: readonly (readonly [status: string, meaning: string])[] = [
  ["read", "figures read in a text"],
  ["practice", "common practice, no source"],
  ["memory", "from memory, to be verified"],
];

export function libraryDrawing({ table }: Work): Drawing {
  const statuses = table("=YARN.SOURCES()")
    .slice(1)
    .map((row) => textOf(row[3]));
  const rows = MEANINGS.map(([status, meaning]) => ({
    meaning,
    entries: statuses.filter((own) => own === status).length,
  }));
  return {
    title: "What the functions rest on",
    says: `Of ${statuses.length} entries, one a function and source: ${rows.map(({ meaning, entries }) => `${entries} ${meaning}`).join(", ")}.`,
    ...bars(rows.map(({ meaning, entries }) => ({ name: meaning, from: 0, to: entries, said: figure(entries) }))),
  };
}
