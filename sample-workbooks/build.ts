import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { loadBundle, type Implementation, type Implementations } from "../src/recalculate/bundle";
import { writeWorkbook } from "../src/recalculate/stored-form";
import type { SampleBook } from "./scripts/kit";
import { landedCost } from "./scripts/landed-cost";
import { lotReconciliation } from "./scripts/lot-reconciliation";
import { millSchedule } from "./scripts/mill-schedule";
import { orderPlanner } from "./scripts/order-planner";
import { orderToLandedCost } from "./scripts/order-to-landed-cost";
import { quality } from "./scripts/quality";
import { shadeAndRecipe } from "./scripts/shade-and-recipe";
import { spinnersOrder } from "./scripts/spinners-order";
import { starter } from "./scripts/starter";
import { woolBuying } from "./scripts/wool-buying";

/** Every sample workbook and the script that makes it. */
export const SAMPLE_WORKBOOKS: Readonly<Record<string, () => SampleBook>> = {
  "order-to-landed-cost": orderToLandedCost,
  "order-planner": orderPlanner,
  "landed-cost": landedCost,
  "spinners-order": spinnersOrder,
  "mill-schedule": millSchedule,
  quality,
  "shade-and-recipe": shadeAndRecipe,
  "wool-buying": woolBuying,
  "lot-reconciliation": lotReconciliation,
  starter,
};

/**
 * The same functions, that answer the same question once: they are pure, and a book is calculated twice, each time in
 * several rounds until all spills have settled.
 */
export function remembering(functions: Implementations): Implementations {
  const once = ([id, implementation]: readonly [string, Implementation]): [string, Implementation] => {
    const answers = new Map<string, unknown>();
    return [
      id,
      (...cells) => {
        const question = JSON.stringify(cells);
        if (!answers.has(question)) answers.set(question, implementation(...cells));
        // A copy, so that nobody changes what is remembered.
        return (answers.get(question) as unknown[][]).map((row) => [...row]);
      },
    ];
  };
  return new Map([...functions].map(once));
}

/** Builds one sample workbook. The first writing tells what each formula gives, the second dresses the cells and the charts with it. */
export async function buildSample(name: string, folder: string): Promise<string[]> {
  const functions = remembering(loadBundle());
  const book = (SAMPLE_WORKBOOKS[name] as () => SampleBook)();
  const drafts = mkdtempSync(join(tmpdir(), "sample-"));
  const { filled } = await writeWorkbook(book.workbook, join(drafts, "draft.xlsx"), functions);
  rmSync(drafts, { recursive: true });
  book.dress(filled);
  const { errors } = await writeWorkbook(book.workbook, join(folder, `${name}.xlsx`), functions);
  return errors.map(
    ({ sheet, cell, formula, code, message }) => `${name} ${sheet}!${cell} ${formula}: ${code} ${message}`,
  );
}

/** Builds all of them, or those named. */
export async function main(words: string[]): Promise<number> {
  const names = words.length > 0 ? words : Object.keys(SAMPLE_WORKBOOKS);
  let failed = false;
  for (const name of names) {
    const faults = await buildSample(name, "sample-workbooks");
    for (const fault of faults) console.error(fault);
    failed ||= faults.length > 0;
    console.log(`sample-workbooks/${name}.xlsx`);
  }
  return failed ? 1 : 0;
}
