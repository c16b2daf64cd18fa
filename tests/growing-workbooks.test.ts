import type { Workbook } from "@cj-tech-master/excelts";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, test } from "vitest";
import { remembering, SAMPLE_WORKBOOKS } from "../sample-workbooks/build";
import type { Entry } from "../sample-workbooks/scripts/kit";
import { heightOf, widthOf } from "../src/recalculate/addresses";
import { openBook } from "../src/recalculate/book";
import { formulasOf } from "../src/recalculate/calculation";
import { writeWorkbook, type Filled } from "../src/recalculate/stored-form";
import { bundledFunctions } from "./support/functions";

/** A row more in a Table of inputs is enough: every block that reads it grows by itself, and the checks still hold. */
interface Growth {
  /** Rows that are typed below the last of a Table. */
  readonly rows: Readonly<Record<string, readonly (Entry | null)[]>>;
  /** The first cells of the blocks, each of which gets a row more. */
  readonly blocks: readonly string[];
  /** Blocks that get more rows than one. */
  readonly more?: Readonly<Record<string, number>>;
  /** Columns that are typed beside the last of a Table: heading, and what stands below in the rows that are there. */
  readonly columns?: Readonly<Record<string, readonly Entry[]>>;
  /** The first cells of the blocks, each of which gets a column more. */
  readonly wider?: readonly string[];
}

/** Reflectances of a grey and of a pale green, 400 to 700 nm; invented. */
const SLATE = [0.09, 0.1, 0.11, 0.115, 0.12, 0.12, 0.118, 0.115, 0.112, 0.11, 0.11, 0.112, 0.115, 0.12, 0.125, 0.13];
const LICHEN = [0.14, 0.15, 0.16, 0.18, 0.2, 0.23, 0.26, 0.28, 0.28, 0.27, 0.25, 0.24, 0.24, 0.25, 0.26, 0.28];

const GROWTHS: Readonly<Record<string, Growth>> = {
  "order-planner": {
    rows: {
      Orders: ["Lagoon", 300, 0.2, 0, 0, 0, 0.3, 0.5, 0, "late"],
      WoolStages: ["backwash", 0.1825, 0.002, 0, ""],
      YarnStages: ["inspect", 0.1825, 0.001, 0, ""],
    },
    blocks: ["Wool route!A10", "Yarn route!A11", "Blends!A8", "Blends!C8", "Blends!D8", "Spinning!A13", "Spinning!D13"],
  },
  "landed-cost": {
    rows: {
      Yarns: ["Aran marl", 803, 0.1, 90, 0.6, 8, 1000, ""],
      Standards: ["Aran marl", 0.6, 0.45, 0, 1, ""],
      Rates: ["GBP", "EUR", 1.16, 46269, ""],
      Bills: ["S-205", "Aran marl", "spin", 46251, "GBP", 79.5, 500, 430, 0.005, 81.2, 7.5, ""],
      MovesA: [46210, "Issue", "Aran marl", -50, null, ""],
      MovesB: [46210, "Issue", "Aran marl", -35, null, ""],
      Charges: ["Storage", 60, "mass", ""],
    },
    blocks: [
      ...["Top A!H6", "Top B!H6", "Invoices!A8", "Invoices!J8", "To pay!C9", "To pay!H9", "Yarns made!A8"],
      ...["Yarns made!F8", "Yarns made!K8", "Landed!A5", "Skein!A26", "Skein!F26", "Price!B8", "Price!J8"],
    ],
  },
  "lot-reconciliation": {
    rows: {
      Contractors: ["Knitter"],
      Weighings: ["wind", "Knitter", 593.5, 0.169, 592.1, 150, 128, 0, 0.16, 8, ""],
      Terms: ["wind", 0.005, 0, "net in", 1.1, 593.5, 35, 0, "house"],
    },
    blocks: ["Masses!A13", "Masses!G13", "Losses!C25", "Losses!I25", "Charges!E8", "Charges!J8", "Settlement!H8"],
  },
  "wool-buying": {
    rows: { Lots: ["Lot 108", 12, 2100, 0.615, 0.012, 20.1, 0.209, 85, 38, 0.47, 7.9, "late"] },
    blocks: ["Lots!G8", "Prices!B7", "Yields!G8", "Top!B7", "Sampling!C8", "To buy!C8", "To buy!G8", "To buy!K8"],
  },
  "order-to-landed-cost": {
    rows: {
      Recipes: ["Heath", 500, 0.25, 0.25, 0.5, 0, 0, 0, 0, 0, "late"],
      Lots: ["Lot 4", 300, 0.605, 0.01, 6.7, ""],
      WorstedStages: ["twist again", "Finisher", "per out", 0.3, 0, 0, 0.002, 0, 0, 0.1825, ""],
      TopStages: ["recomb", "Comber", "per out", 0.7, 0, 0, 0.01, 0.02, 2.5, 0.1825, ""],
      Charges: ["Storage", "volume", 60, ""],
    },
    blocks: [
      "Wool!H13",
      "Blends!A12",
      "Blends!E12",
      "Charges!F14",
      "To skeins!A34",
      "To dyer!A30",
      "Fibre cost!A9",
      "Landed!A9",
      "Skein!A29",
      "Skein!D29",
      "Skein!F28",
    ],
  },
  quality: {
    rows: {
      FirstLot: ["Test 13", 0.155, 15.8, 190, 98.3, ""],
      SecondLot: ["Test 9", 0.157, 16.1, 188, 97, "late"],
      DyeLots: ["Dye lot 9", 42.2, 22, 13.8, ""],
    },
    blocks: ["Tests!A26", "Tests!E26", "Tests!J26", "Shades!A25", "Shades!J26", "Sorted!A7", "Sorted!I7", "Sorted!N7"],
  },
  "spinners-order": {
    rows: {
      Passages: ["Roving, second", 0, 2, 2, ""],
      Colours: ["Solid 4", "none yet", 0],
      Diameters: [27],
    },
    blocks: [
      "Drawing!A18",
      "Drawing!H19",
      "Colours!A7",
      "Colours!C7",
      "Colours!D7",
      "Wools!A7",
      "Wools!B7",
      "Wools!C7",
    ],
  },
  "shade-and-recipe": {
    rows: {
      Solids: ["Slate", 17, 0.15, 25, ...SLATE, "new"],
      Targets: ["Lichen", "", 60, ...LICHEN],
      Pads: ["Pad 6", 0.5, 0.5, 0, 0, 0, 0, 0, 0, 41.99, 0, 3.29, "day shift"],
    },
    blocks: [
      ...["Shades!A7", "Shades!B7", "Shades!C7", "Shades!F7", "Shades!I7", "Exact!A6"],
      ...["Recipes!A6", "Recipes!B7", "Recipes!C7", "Recipes!D6", "Recipes!E6", "Recipes!F6", "Recipes!G6"],
      ...["Differences!A7", "Differences!E7", "Differences!H7", "Differences!J7", "Second light!A7", "Second light!J7"],
      ...["Weigh-up!A6", "Weigh-up!F6", "Weigh-up!G6", "Need!A8", "Need!C8", "Need!D8", "Need!E8"],
    ],
  },
  "mill-schedule": {
    rows: {
      Orders: ["Heron", 150, 46521],
      Holidays: [46510, "closed: invented"],
      Contractors: ["Printer"],
      Stages: ["inspect", "Finisher", 0, 0.1825, 0, 0, 0, 0, 1, "wash and reel", ""],
      Gills: ["draw again", 40, 6, 2, 0.8],
      Frames: ["wind", 24, 4000, 200, 162, 0.85, 900],
    },
    blocks: ["Overview!A8", "Overview!D8", "Overview!I8", "Dye lots!A11", "Dye lots!F11", "Route!A6"].concat([
      "Rates!A7",
      "Rates!B7",
      "Rates!D7",
      "Rates!G7",
      "Rates!L7",
    ]),
    // Of four orders sixteen lines each, of three fifteen; five contractors with four orders, and four with three.
    more: {
      ...Object.fromEntries(
        ["Plan!A7", "Plan!E7", "Plan!K7", "Times!A7", "Times!I7", "Steps!A7", "Steps!G7"].map((cell) => [cell, 19]),
      ),
      ...Object.fromEntries(["Who works when!A7", "Who works when!E7", "Who works when!G7"].map((cell) => [cell, 8])),
    },
  },
  starter: {
    rows: { Yarns: ["Single D", 9.5, "Nm", 40, 0.16, "another"] },
    blocks: ["Calc!A11", "Calc!B11", "Calc!D11", "Calc!F11"],
  },
};

/** A solid more: a column of the recipes behind all others, and a row of what is known of each solid. */
const SOLIDS: Readonly<Record<string, Growth>> = {
  "order-planner": {
    columns: { Orders: ["Rose", 0, 0, 0, 0, 0, 0, 0, 0] },
    rows: {
      Orders: ["Lagoon", 300, 0.2, 0, 0, 0, 0.3, 0.3, 0, "late", 0.2],
      Solids: ["Rose", "R8", 5, ""],
    },
    blocks: ["Dyeing!A8", "Dyeing!B8", "Dyeing!F8", "Dyeing!H8", "Cards!A6", "Cards!G7"],
    wider: ["Blends!E6", "Blends!E8"],
  },
  "order-to-landed-cost": {
    columns: { Recipes: ["Rose", 0, 0, 0, 0, 0, 0] },
    rows: {
      Recipes: ["Heath", 500, 0.25, 0.25, 0.2, 0, 0, 0, 0, 0, "late", 0.3],
      Solids: ["Rose", 4.2, 55, ""],
    },
    blocks: ["Solids!F26", "Solids!I26", "Solids!O26", "Cards!A6", "Cards!G7"],
    wider: [
      "Recipes!B6",
      "Recipes!B7",
      "Blends!B6",
      "Blends!B7",
      "Blends!E11",
      "Blends!E12",
      "Slivers!D7",
      "Slivers!D8",
    ],
  },
};

const functions = remembering(bundledFunctions());
const folder = mkdtempSync(join(tmpdir(), "growing-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** How much each formula of a book fills. */
type Extents = ReadonlyMap<string, Pick<Filled, "rows" | "columns">>;

/** The book as it stands, which is what its script makes (tests/sample-workbooks.test.ts). */
function standing(name: string): Extents {
  const file = `sample-workbooks/${name}.xlsx`;
  const extents = formulasOf(openBook(readFileSync(file), file)).map(({ sheet, cell, saved }) => {
    return [`${sheet.name}!${cell.address}`, { rows: heightOf(saved), columns: widthOf(saved) }] as const;
  });
  return new Map(extents);
}

async function grown(name: string, { rows, columns = {} }: Growth): Promise<ReadonlyMap<string, Filled>> {
  const { workbook } = (SAMPLE_WORKBOOKS[name] as () => { workbook: Workbook })();
  const tableNamed = (table: string) => {
    const found = workbook.worksheets.find((sheet) => sheet.getTables().some((each) => each.name === table));
    const typed = found?.getTable(table);
    expect([table, typed === undefined]).toEqual([table, false]);
    return typed;
  };
  for (const [table, [heading, ...values]] of Object.entries(columns)) {
    const typed = tableNamed(table);
    typed?.addColumn({ name: String(heading) }, values);
    typed?.commit();
  }
  for (const [table, row] of Object.entries(rows)) {
    const typed = tableNamed(table);
    typed?.addRow([...row]);
    typed?.commit();
  }
  const { filled, errors } = await writeWorkbook(workbook, join(folder, `${name}.xlsx`), functions);
  expect(errors).toEqual([]);
  return new Map(filled.map((each) => [`${each.sheet}!${each.cell}`, each]));
}

async function grows(name: string, growth: Growth): Promise<void> {
  const before = standing(name);
  const after = await grown(name, growth);
  const grew = (along: "rows" | "columns", expected: Readonly<Record<string, number>>) =>
    expect(
      Object.fromEntries(
        Object.keys(expected).map((cell) => [cell, (after.get(cell)?.[along] ?? 0) - (before.get(cell)?.[along] ?? 0)]),
      ),
    ).toEqual(expected);
  const byOne = (cells: readonly string[] = []) => Object.fromEntries(cells.map((cell) => [cell, 1]));
  grew("rows", { ...byOne(growth.blocks), ...growth.more });
  grew("columns", byOne(growth.wider));
  expect(after.get("Checks!B4")?.values).toEqual([["hold"]]);
}

test.each(Object.entries(GROWTHS))("%s.xlsx grows with its inputs, and its checks hold", grows, 120_000);

test.each(Object.entries(SOLIDS))("%s.xlsx takes a solid more, and its checks hold", grows, 120_000);
