import { hostIn } from "./calc-form";
import { inChildren } from "./children";
import { LIMITS } from "./limits";
import { Complaint, running } from "./command-line";
import { refuseSameFile } from "./files";
import { harmless } from "./harmless";
import type { Copied, CopyJob } from "./plain-copy";

/** Runs a command that reads one workbook and writes another. */
export function copyWith(
  task: string,
  command: string,
  done: string,
  typed: string[],
  startedIn: string,
): Promise<number> {
  const usage = `npm run ${command} -- BOOK.xlsx OUT.xlsx [--for excel|calc]`;
  return running(usage, { for: { type: "string" } }, typed, startedIn, async ({ options, words, path }) => {
    const [book, out] = words;
    if (book === undefined || out === undefined || words.length > 2) throw new Complaint(`usage: ${usage}`);
    refuseSameFile(path(out), path(book), out);
    const job: CopyJob = { file: path(book), called: book, out: path(out), host: hostIn(options.for) };
    const [result] = await inChildren<CopyJob, Copied>(task, [job], LIMITS, (_, why) => ({
      changed: 0,
      error: `${book} ${why}`,
    }));
    if (result?.error !== undefined) throw new Complaint(`${result.error}\n${out} was not written`);
    for (const why of result?.kept ?? []) console.error(harmless(why));
    console.error(`${out} written: ${result?.changed ?? 0} ${done}`);
    return 0;
  });
}
