import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { functionsIn, RECIPES, type Recipe } from "../../src/guide/recipes";
import { workedRecipe } from "../../src/guide/recipes/worked";
import { evaluate, type Outcome } from "../../src/recalculate/engine";
import { bundledFunctions } from "../support/functions";

const functions = bundledFunctions();

/** What each formula comes to, worked by hand, where "…" is left to the tests below. */
const BY_HAND: Readonly<Record<string, Readonly<Record<string, unknown[][]>>>> = {
  // HMRC manual GACV31050 (read): £250 sent out, £750 of processing, 10 % on £1,000 less 15 % of £250.
  "recipe-outward-processing.html": { WithoutRelief: [[100]], WithRelief: [[75]], LessItsOwn: [[62.5]] },
  // 6,000 × 1.10, 4,000 × 1.12, 10,000 × 1.08; 21,880 / 20,000.
  "recipe-deposits.html": { Each: [[6600], [4480], [10800]], YarnCost: [[21880]], OneRate: [[1.094]] },
  // 800 / 0.32 and 4,800 / 0.30; 4,000 kg at 2.88 and 800, at 3.20, at 2.58 and 5,600; 5,600 / 0.62.
  "recipe-lot-sizes.html": {
    MiddleFrom: [[2500]],
    LargeFrom: [[16000]],
    Ranked: [
      [
        "name",
        "mass in (unit of quantity)",
        "material (money)",
        "charge (money)",
        "cost per unit delivered (money)",
        "order turns at (unit of quantity)",
      ],
      ["middle", 4000, 0, 12320, 3.08, ""],
      ["small", 4000, 0, 12800, 3.2, 2500],
      ["large", 4000, 0, 15920, 3.98, 5600 / 0.62],
    ],
  },
  // 1,000 / 1.16 × 1.1825 × 0.96 = 978.6207; 930 × 0.86 × 1.1825 = 945.7635; 32.8572 × 18.40; 1 - 799.8 / 862.069.
  "recipe-short-mass.html": {
    Owed: [[(1000 / 1.16) * 1.1825 * 0.96]],
    Delivered: [[945.7635]],
    Claim: [[604.57]],
    TrueLoss: [[0.072232]],
  },
  // 1,000 × 233 / 700 = 332.857; 466 / 700: 665.714; what is due so far less what was due before.
  "recipe-partial-shipments.html": {
    Share: [[332.86], [332.85], [334.29]],
    InAll: [[1000]],
    AtOnce: [[332.86], [332.86], [334.28]],
  },
  // A fifth of 2,400, 210 and 75; six of the fifteen come back.
  "recipe-recoverable-tax.html": {
    Tax: [[480], [42], [0], [15]],
    Cost: [[2400], [210], [144], [84]],
    Reclaim: [[528]],
    EachSkein: [[4.73]],
  },
  // 500 / 446.43 - 1; 1,000 × 446.43 / 431.03; 1,000 × 446.43 / 500 × 1.1825 and 1,032 × 431.03 / 500 × 1.1825.
  "recipe-conditioning-in-transit.html": {
    Regains: [[500 / 446.43 - 1], [500 / 431.03 - 1]],
    ShouldBe: [[(1000 * 446.43) / 431.03]],
    AtStandard: [[1055.80695], [1052.0063004]],
    Missing: [[3.8006496]],
  },
  "recipe-correcting-a-batch.html": {},
  "recipe-sliver-or-lay-down.html": {},
};

/** The formulas of a recipe as plain formulas, with constants in the place of its names, by another engine. */
function byEngine({ cells, tables, formulas }: Recipe): Map<string, Outcome> {
  const known = new Map<string, string>();
  const constant = (rows: readonly (readonly unknown[])[]) =>
    `{${rows.map((row) => row.map((value) => (typeof value === "string" ? `"${value}"` : String(value))).join(",")).join(";")}}`;
  for (const { name, value } of cells) known.set(name, String(value));
  for (const { name, rows } of tables) {
    known.set(`${name}[#All]`, constant(rows));
    (rows[0] ?? []).forEach((head, column) =>
      known.set(`${name}[${head}]`, constant(rows.slice(1).map((row) => [row[column]]))),
    );
  }
  return new Map(
    formulas.map(({ name, formula }) => {
      const written = formula.replace(/"[^"]*"|[A-Z]\w+(?:\[[^\]]+\])?/g, (word) => known.get(word) ?? word);
      const [outcome] = evaluate([written], functions);
      known.set(name, Array.isArray(outcome) ? constant(outcome) : JSON.stringify(outcome));
      return [name, outcome as Outcome];
    }),
  );
}

const rowsOf = (outcome: Outcome | undefined): unknown[][] => (Array.isArray(outcome) ? outcome : [[outcome]]);

/** Equal to ten digits, blanks and words as they are. */
function expectClose(came: readonly (readonly unknown[])[], wanted: readonly (readonly unknown[])[], of: string): void {
  expect(
    came.map(({ length }) => length),
    of,
  ).toEqual(wanted.map(({ length }) => length));
  came.flat().forEach((value, place) => {
    const other = wanted.flat()[place];
    if (typeof value === "number" && typeof other === "number")
      expect(Math.abs(value - other), `${of}: ${value}, ${other}`).toBeLessThanOrEqual(
        1e-10 * Math.max(1, Math.abs(other)),
      );
    else expect(value, of).toBe(other);
  });
}

describe.each(RECIPES)("$title", (recipe) => {
  const worked = workedRecipe(recipe, functions);
  const byName = new Map(worked.map(({ name, rows }) => [name, rows]));

  test("comes to what was worked out by hand", () => {
    const wanted = BY_HAND[recipe.file];
    expect(wanted, "worked out by hand or in a test below").toBeDefined();
    for (const [name, rows] of Object.entries(wanted ?? {})) expectClose(byName.get(name) ?? [], rows, name);
  });

  test("comes to the same as plain formulas in the engine of the commands", () => {
    const other = byEngine(recipe);
    for (const { name, rows } of worked) expectClose(rows, rowsOf(other.get(name)), name);
  });

  test("its page shows formulas and results, and the pages of its functions lead to it", () => {
    const page = readFileSync(join("dist", "guide", recipe.file), "utf8");
    for (const { formula } of recipe.formulas) expect(page).toContain(formula.replace(/"/g, "&quot;"));
    expect(page).toContain('class="caution"');
    for (const id of functionsIn(recipe)) {
      expect(page).toContain(`href="${id}.html"`);
      expect(readFileSync(join("dist", "guide", `${id}.html`), "utf8"), id).toContain(`href="${recipe.file}"`);
    }
    expect(readFileSync("dist/guide/index.html", "utf8")).toContain(`href="${recipe.file}"`);
  });
});

describe("what cannot be worked out in a line", () => {
  const of = (file: string) => {
    const recipe = RECIPES.find((own) => own.file === file) as Recipe;
    const rows = workedRecipe(recipe, functions);
    return { recipe, rows: (name: string) => rows.find((own) => own.name === name)?.rows ?? [] };
  };

  test("no plan of whole slivers comes nearer to the recipe, and the lay-down foots", () => {
    const { recipe, rows } = of("recipe-sliver-or-lay-down.html");
    const shares = recipe.tables[0]?.rows.slice(1).map((row) => Number(row[1])) ?? [];
    const off = (plan: readonly number[]) => {
      const all = plan.reduce((sum, slivers) => sum + slivers, 0);
      return Math.max(...plan.map((slivers, place) => Math.abs(slivers / all - (shares[place] ?? 0))));
    };
    const creeled = rows("Creel")
      .slice(1, 4)
      .map((row) => Number(row[1]));
    let best = Infinity;
    for (let grey = 0; grey <= 16; grey++)
      for (let red = 0; red + grey <= 16; red++)
        for (let cream = 0; cream + red + grey <= 16; cream++)
          if (grey + red + cream > 0) best = Math.min(best, off([grey, red, cream]));
    expect(off(creeled)).toBeCloseTo(best, 12);
    const sections = rows("WeighUp").slice(1);
    for (const [solid, each, inAll] of sections) expect(Number(inAll), JSON.stringify(solid)).toBe(4 * Number(each));
    for (const [, each] of sections.slice(0, 3)) expect(Number(each) * 2).toBe(Math.round(Number(each) * 2));
    expect(Number(sections[3]?.[2])).toBe(500);
  });

  test("100 kg that are four fifths of the blend want 25 kg of the last fifth; a corrected recipe meets what its pad missed", () => {
    const { rows } = of("recipe-correcting-a-batch.html");
    const after = rows("Additions")[2] ?? [];
    expect(Number(after[1])).toBeCloseTo(25, 6);
    expect(Number(after[2])).toBe(0);
    expect(Number(after[3])).toBeCloseTo(125, 6);
    expect(Number(after[7])).toBeLessThan(0.001);
    // The pad came out 0.21 where the model said its own figure; the new recipe must be as much darker as that was off.
    const shares = rows("NextRecipe")[1]?.map(Number) ?? [];
    const band = (a: number, b: number) => {
      const flat = (value: number) => Array.from({ length: 16 }, () => value).join(",");
      const [outcome] = evaluate([`=YARN.MIXSHADE({${a},${b}},{${flat(0.1)};${flat(0.5)}},,"reflectance")`], functions);
      return Number(rowsOf(outcome)[0]?.[0]);
    };
    expect((shares[0] ?? 0) + (shares[1] ?? 0)).toBeCloseTo(1, 6);
    expect(band(shares[0] ?? 0, shares[1] ?? 0) * (0.21 / band(0.5, 0.5))).toBeCloseTo(0.2, 4);
  });
});
