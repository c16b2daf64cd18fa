import { readFileSync } from "node:fs";
import { loadBundle } from "./bundle";
import { Complaint, running } from "./command-line";
import { evaluate } from "./engine";
import { fileTrouble } from "./file-trouble";
import { CellError, shownAs, type Outcome, type Value } from "./values";

const USAGE = `npm run -s calc -- [--json] '=YARN.COUNT(10,"NeC","NeW")' …   or   npm run -s calc -- --from FILE`;

/** Works out formulas with the built bundle. */
export function main(typed: string[], startedIn: string): Promise<number> {
  return running(USAGE, { json: { type: "boolean" }, from: { type: "string" } }, typed, startedIn, (called) => {
    const { json, from } = called.options;
    if (from !== undefined) {
      if (called.words.length > 0) throw new Complaint(`--from takes the formulas from the file\nusage: ${USAGE}`);
      const formulas = formulasIn(from === "-" ? 0 : called.path(from), from);
      // A list is worked through to its end and each line tells its own error, so the list as a whole has succeeded.
      process.stdout.write(
        evaluate(formulas, loadBundle())
          .map((outcome) => `${asJson(outcome)}\n`)
          .join(""),
      );
      return 0;
    }
    if (called.words.length === 0) throw new Complaint(`usage: ${USAGE}`);
    const outcomes = evaluate(called.words, loadBundle());
    outcomes.forEach(json ? (outcome) => console.log(asJson(outcome)) : print);
    return outcomes.some((outcome) => outcome instanceof CellError) ? 1 : 0;
  });
}

/** One formula a line; only the last line may be missing its end. */
function formulasIn(file: string | number, named: string): string[] {
  let text: string;
  try {
    text = readFileSync(file, "utf8");
  } catch (fault) {
    throw new Complaint(`${named} cannot be read: ${fileTrouble(fault)}`);
  }
  const lines = text.replace(/^\uFEFF/, "").split(/\r\n|\n|\r/);
  if (lines[lines.length - 1] === "") lines.pop();
  return lines;
}

function print(outcome: Outcome): void {
  if (outcome instanceof CellError) console.error(`${outcome.code} ${outcome.message}`.trimEnd());
  else if (Array.isArray(outcome)) for (const row of outcome) console.log(row.map(shownAs).join("\t"));
  else console.log(shownAs(outcome));
}

/** {"value":15}, {"value":[[…]],"messages":[…]} or {"error":"#VALUE!","message":"…"}. */
function asJson(outcome: Outcome): string {
  if (outcome instanceof CellError) return JSON.stringify({ error: outcome.code, message: outcome.message });
  if (!Array.isArray(outcome)) return JSON.stringify({ value: plain(outcome) });
  const messages = outcome.flatMap((cells, row) =>
    cells.flatMap((cell, column) =>
      cell instanceof CellError && cell.message !== "" ? [{ row, column, message: cell.message }] : [],
    ),
  );
  const value = outcome.map((row) => row.map(plain));
  return JSON.stringify(messages.length > 0 ? { value, messages } : { value });
}

function plain(value: Value): number | string | boolean | null {
  return value instanceof CellError ? value.code : value;
}
