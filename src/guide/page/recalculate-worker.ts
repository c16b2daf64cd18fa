import { openBook } from "../../recalculate/book";
import { makeMended } from "../../recalculate/mended-copy";
import { namedInputs, type NamedInput } from "../../recalculate/named-inputs";
import { makePlain } from "../../recalculate/plain-copy";
import { tablesOfRanges } from "../../recalculate/ranges";
import { recalculate, type Job, type Recalculated } from "../../recalculate/recalculation";
import { writeReport } from "../../recalculate/report";
import { keepFile, takeFile } from "./node-in-page";
import { varied, type AskedRuns, type Progress, type Varied } from "./varied";

/** What the worker says while it is at work. */
export interface Underway {
  readonly progress: Progress;
}

/** What the page asks of its worker: the work of the commands, on one workbook that is in memory. */
export type Asked = { readonly bytes: Uint8Array<ArrayBuffer>; readonly job: Job } & (
  | { readonly task: "open" | "change" }
  | { readonly task: "copy"; readonly kind: Kind }
  | { readonly task: "report"; readonly results: readonly Recalculated[] }
  | { readonly task: "vary"; readonly words: AskedRuns }
);

export type Kind = "recalculated" | "mended" | "plain";

export interface Answer {
  readonly result?: Recalculated;
  readonly inputs?: readonly NamedInput[];
  /** The names of the sheets, in their order. */
  readonly sheets?: readonly string[];
  /** The names of the Tables that hold ranges. */
  readonly ranges?: readonly string[];
  readonly varied?: Varied;
  readonly file?: Uint8Array<ArrayBuffer>;
  /** What is to be said beside a copy. */
  readonly kept?: readonly string[];
  /** Why there is no answer. */
  readonly error?: string;
}

const OUT = "out";

async function answerTo(asked: Asked): Promise<Answer> {
  await keepFile(asked.job.file, asked.bytes);
  switch (asked.task) {
    case "open": {
      const result = recalculate({ ...asked.job, described: true });
      if (result.error !== undefined) return { error: result.error };
      const book = openBook(asked.bytes, asked.job.called);
      return {
        result,
        inputs: namedInputs(book),
        sheets: book.sheets.map(({ name }) => name),
        ranges: tablesOfRanges(book),
      };
    }
    case "change": {
      const result = recalculate({ ...asked.job, described: true });
      return result.error === undefined ? { result } : { error: result.error };
    }
    case "copy":
      return copied(asked.kind, { ...asked.job, out: OUT });
    case "report":
      await writeReport("report.html", asked.results);
      return { file: takeFile("report.html") };
    case "vary": {
      const { file, called } = asked.job;
      const answer = await varied(file, called, asked.words, (progress) => postMessage({ progress }));
      return "error" in answer ? answer : { varied: answer.result };
    }
  }
}

function copied(kind: Kind, job: Job & { out: string }): Answer {
  const made = kind === "recalculated" ? recalculate(job) : (kind === "mended" ? makeMended : makePlain)(job);
  if (made.error !== undefined) return { error: made.error };
  return { file: takeFile(OUT), kept: "kept" in made ? (made.kept ?? []) : [] };
}

addEventListener("message", ({ data }: MessageEvent<Asked>) => {
  void answerTo(data)
    .catch((fault: unknown): Answer => ({ error: `it could not be worked out (${String(fault)})` }))
    .then((answer) => postMessage(answer));
});
