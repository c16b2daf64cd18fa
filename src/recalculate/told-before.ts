import { appendFileSync, existsSync, readFileSync, truncateSync } from "node:fs";
import { Complaint } from "./command-line";
import { digestOfFile, VERSION } from "./failed";
import { harmlessJson } from "./harmless";
import type { Job, Recalculated } from "./recalculation";

/** What a line of an earlier run is asked for. */
type Line = Pick<Recalculated, "workbook" | "digest" | "version" | "differences" | "faults" | "error" | "code">;

/**
 * The file of lines that a run writes and a later run goes on with. A workbook is done when a line of this version
 * tells of the file as it is now and its copy, where one is wanted, is there. What was stopped or broke off is tried
 * again; what cannot be read never.
 */
export class ToldBefore {
  private readonly lines = new Map<string, { readonly line: Line; readonly code: number }>();

  constructor(
    private readonly file: string,
    called: string,
    private readonly codeOf: (line: Pick<Line, "differences" | "faults" | "error">) => number,
  ) {
    try {
      if (existsSync(file)) this.read(readFileSync(file));
    } catch (fault) {
      throw new Complaint(`${called} cannot be gone on with: ${(fault as Error).message}`);
    }
  }

  private read(bytes: Uint8Array): void {
    // A run that was killed may have left half a line; it counts as not written.
    const whole = bytes.lastIndexOf(LINE_END) + 1;
    if (whole < bytes.length) truncateSync(this.file, whole);
    for (const text of new TextDecoder().decode(bytes.subarray(0, whole)).split("\n")) {
      if (text === "") continue;
      const { workbook, digest, version, differences, faults, error, code } = JSON.parse(text) as Line;
      const ended = this.codeOf({ differences, faults, ...(error === undefined ? {} : { error }) });
      const line = { workbook, digest, version, differences: [], faults: [], ...(code ? { code } : {}) };
      this.lines.set(workbook, { line, code: ended });
    }
  }

  /** The exit code that the workbook came to, if it is done. */
  codeFor({ file, called, out }: Job): number | undefined {
    const { line, code } = this.lines.get(called) ?? {};
    if (line === undefined || line.version !== VERSION) return undefined;
    if (line.code !== undefined && line.code !== "unreadable") return undefined;
    if (line.digest !== digestOfFile(file)) return undefined;
    return out !== undefined && line.code === undefined && !existsSync(out) ? undefined : code;
  }

  /** Adds a line at once, so that a kill costs only what is being worked out. */
  add(result: Recalculated): void {
    appendFileSync(this.file, `${harmlessJson(result)}\n`);
  }
}

const LINE_END = 10;
