import { createHash } from "node:crypto";
import { appendFileSync, readFileSync } from "node:fs";
import { bundleDigest } from "./bundle";
import { Complaint } from "./command-line";
import type { Shows } from "./drawing";
import type { Shown } from "./model";
import { blockSize, type Plan } from "./sampling";
import type { Setting } from "./vary-tasks";

/**
 * Runs that are kept or handed on, as lines of JSON: one tells what is drawn, every other holds a block of runs. Each
 * line says by itself to what it belongs, so that files may be joined, mixed and cut off anywhere.
 */
export interface KeptRuns {
  readonly setting: KeptSetting;
  readonly plan: Plan;
  readonly shows: Shows;
}

/** What is varied, and what tells its runs from those of anything else. */
export interface KeptSetting extends Setting {
  /** Of this workbook, these ranges and outcomes and this build of the library. */
  readonly digest: string;
}

export function withDigest(setting: Setting): KeptSetting {
  const { file, inputs, outcomes } = setting;
  const digest = createHash("sha256")
    .update(readFileSync(file))
    .update(bundleDigest())
    .update(JSON.stringify(["", inputs, outcomes]))
    .digest("hex");
  return { ...setting, digest };
}

interface Head {
  readonly variation: string;
  readonly setting: KeptSetting;
  readonly plan: Plan;
}

interface BlockOfRuns {
  readonly variation: string;
  readonly block: number;
  readonly shown: readonly (readonly Shown[])[];
}

/** What two runs must share to belong together: workbook, ranges, outcomes, library, seed and size of the blocks. */
export function variationOf({ digest }: KeptSetting, { seed, block }: Plan): string {
  return `${digest}-${seed}-${block}`;
}

export function headLine(setting: KeptSetting, plan: Plan): string {
  // Where the file stands is nobody's business elsewhere.
  const head: Head = { variation: variationOf(setting, plan), setting: { ...setting, file: "" }, plan };
  return JSON.stringify(head);
}

export function blockLine(
  setting: KeptSetting,
  plan: Plan,
  block: number,
  shown: readonly (readonly Shown[])[],
): string {
  const line: BlockOfRuns = { variation: variationOf(setting, plan), block, shown };
  return JSON.stringify(line);
}

/** Adds a line to a file; what a stopped command left without an end stays a line of its own. */
export function lineAdder(file: string, text: string): (line: string) => void {
  if (text !== "" && !text.endsWith("\n")) appendFileSync(file, "\n");
  return (line) => appendFileSync(file, `${line}\n`);
}

/** What files of runs hold, by what the runs belong to; a line that was cut off is passed over. */
export function runsIn(files: readonly { readonly called: string; readonly text: string }[]): Map<string, KeptRuns> {
  const heads = new Map<string, Head>();
  const blocks = new Map<string, Shows>();
  for (const { called, text } of files) {
    let understood = 0;
    for (const written of text.split("\n")) {
      const line = lineIn(written);
      if (line === undefined) continue;
      understood++;
      const { variation } = line;
      if ("setting" in line) {
        const other = heads.get(variation);
        if (other === undefined || other.plan.runs < line.plan.runs) heads.set(variation, line);
        continue;
      }
      const shows = blocks.get(variation) ?? new Map<number, BlockOfRuns["shown"]>();
      const same = shows.get(line.block);
      if (same?.length === line.shown.length && JSON.stringify(same) !== JSON.stringify(line.shown)) {
        throw new Complaint(
          `${called} holds other figures for block ${line.block} than were found before; draw it again`,
        );
      }
      if (same === undefined || same.length < line.shown.length) shows.set(line.block, line.shown);
      blocks.set(variation, shows);
    }
    if (understood === 0 && text.trim() !== "") throw new Complaint(`${called} holds no runs`);
  }
  for (const variation of blocks.keys()) {
    if (!heads.has(variation))
      throw new Complaint("there are runs without the line that says what they were drawn from");
  }
  return new Map(
    [...heads].map(([variation, { setting, plan }]) => {
      // The last block of fewer runs than are wanted now has other draws than a whole one.
      const whole = [...(blocks.get(variation) ?? [])].filter(
        ([block, shown]) => shown.length === blockSize(plan, block),
      );
      return [variation, { setting, plan, shows: new Map(whole) }];
    }),
  );
}

function lineIn(written: string): Head | BlockOfRuns | undefined {
  let line: Partial<Head & BlockOfRuns> | null;
  try {
    line = JSON.parse(written) as typeof line;
  } catch {
    return undefined;
  }
  if (typeof line !== "object" || typeof line?.variation !== "string") return undefined;
  const { variation, setting, plan, block, shown } = line;
  if (Array.isArray(setting?.inputs) && Array.isArray(setting.outcomes) && typeof plan?.runs === "number") {
    return { variation, setting, plan };
  }
  return typeof block === "number" && Array.isArray(shown) ? { variation, block, shown } : undefined;
}
