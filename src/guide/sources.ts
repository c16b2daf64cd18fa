import { SOURCES, type Source, type SourceStatus } from "../tables/sources";
import { escaped } from "./html";

/** How well a source is known, in plain words. */
export const STATUS_WORDS: Readonly<Record<SourceStatus, string>> = {
  read: "figures read in this source",
  memory: "from memory: verify before use",
  practice: "common practice, no source",
};

const BY_KEY: ReadonlyMap<string, Source> = new Map(SOURCES.map((source) => [source.key, source]));

export function sourceOf(key: string): Source {
  const source = BY_KEY.get(key);
  if (source === undefined) throw new Error(`unknown source key ${key}`);
  return source;
}

/** The status as a mark that reads well in a table. */
export function statusMark(status: SourceStatus): string {
  return `<span class="status ${status}">${escaped(STATUS_WORDS[status])}</span>`;
}
