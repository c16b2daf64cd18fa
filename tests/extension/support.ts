import { spawn } from "node:child_process";
import { existsSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";

/** Debian's Python, for which python3-uno is made; another one in the path does not know LibreOffice. */
const PYTHON = "/usr/bin/python3";
const PROGRAM = "/usr/bin/soffice";

/** Without LibreOffice these tests are left out, but where CI is set they fail. */
export const calcMissing = !(existsSync(PROGRAM) && existsSync(PYTHON)) && !process.env.CI;
if (calcMissing) console.warn(`${PROGRAM} is missing: the tests in LibreOffice Calc are skipped`);

/** The step that installs the extension. */
export const INSTALL = { install: resolve("dist/yarn.oxt") } as const;

/** A number or text; an error is a list with Calc's number of it; a blank is an empty text. */
export type CalcCell = number | string | [number];
/** Rows of cells from the first on. */
export type CalcSheet = CalcCell[][];

export type Step =
  | { readonly install: string }
  | { readonly book: string; readonly copy: string | null; readonly papers: readonly string[] }
  | { readonly formulas: readonly (readonly [place: string, text: string])[]; readonly until?: string }
  | { readonly program: string; readonly text: string }
  | { readonly kill: "calculator" | "program" };

/** A book as Calc works it out, and as it lays it out on each paper. */
export interface CalcBook {
  readonly sheets: Record<string, CalcSheet>;
  readonly printed: Record<string, Printed>;
}

/** For each sheet the columns and rows that begin a page, but for the first. */
export interface Printed {
  readonly pages: number;
  readonly sheets: Readonly<Record<string, { readonly across: readonly number[]; readonly down: readonly number[] }>>;
}

/**
 * What each step came to: a book what it holds, formulas one sheet, a killing the processes before and after, the others
 * nothing.
 */
export async function inCalc(steps: readonly Step[], environment: Record<string, string> = {}): Promise<unknown[]> {
  const profile = mkdtempSync(join(tmpdir(), "calc-profile-"));
  try {
    const child = spawn(PYTHON, ["tests/extension/in-calc.py", JSON.stringify({ profile, steps })], {
      env: { ...process.env, ...environment },
      stdio: ["ignore", "pipe", "pipe"],
    });
    let [out, told] = ["", ""];
    child.stdout.setEncoding("utf8").on("data", (text: string) => (out += text));
    child.stderr.setEncoding("utf8").on("data", (text: string) => (told += text));
    const code = await new Promise<number | null>((ended) => child.on("close", ended));
    if (code !== 0) throw new Error(`Calc: ${told}`);
    return out
      .trim()
      .split("\n")
      .map((line) => JSON.parse(line) as unknown);
  } finally {
    rmSync(profile, { recursive: true, force: true });
  }
}
