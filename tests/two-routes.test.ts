import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { openBook } from "../src/recalculate/book";
import { CellError, shownAs } from "../src/recalculate/values";
import { valueIn } from "../src/recalculate/stored-text";
import { checksOf, valueAt, workedOutWith } from "./support/checks";
import { command, place } from "./support/workbooks";

const FILE = "sample-workbooks/order-to-landed-cost.xlsx";

/**
 * The stages of each route as the trade names them, and the mass of an order of 600 kg worked back through their losses
 * by hand, with the regain that the yarn and the fibre at the dyer's have.
 */
const ROUTES = [
  {
    route: "worsted",
    toDyer: ["scour", "card and comb"],
    toSkein: ["blend and gill", "draw", "spin", "ply", "wash", "reel and label"],
    regain: 0.1825,
    losses: [0.006, 0.01, 0.03, 0.01, 0.015, 0.005],
    fibre: { regain: 0.1825, kept: 1 - 0.025 - 0.06 },
  },
  {
    route: "semi-worsted dyed loose",
    toDyer: ["scour"],
    toSkein: ["lay down", "card", "draw", "spin", "ply", "wash", "reel and label"],
    regain: 0.17,
    losses: [0.004, 0.02, 0.01, 0.03, 0.01, 0.015, 0.005],
    fibre: { regain: 0.16, kept: 1 },
  },
  {
    route: "semi-worsted dyed as top",
    toDyer: ["scour", "card and comb"],
    toSkein: ["lay down", "card", "draw", "spin", "ply", "wash", "reel and label"],
    regain: 0.1825,
    losses: [0.004, 0.02, 0.01, 0.03, 0.01, 0.015, 0.005],
    fibre: { regain: 0.1825, kept: 1 - 0.025 - 0.06 },
  },
] as const;

describe.each(ROUTES)("the order by the route $route", ({ route, toDyer, toSkein, regain, losses, fibre }) => {
  const book = workedOutWith(FILE, { RouteChosen: route });
  const stagesBelow = (sheet: string, heading: RegExp): string[] => {
    const texts = Array.from({ length: 60 }, (_, row) => shownAs(valueAt(book, `'${sheet}'!A${row + 1}`)));
    const start = texts.findIndex((text) => heading.test(text)) + 2;
    return texts.slice(start, texts.indexOf("", start));
  };

  test("goes through its own stages", () => {
    expect(stagesBelow("To skeins", /^Dyed solids to skeins/)).toEqual(toSkein);
    expect(stagesBelow("To dyer", /^Greasy wool to (top|loose)/)).toEqual(toDyer);
  });

  test("every check holds, and no cell of the book is an error or no finite number", () => {
    expect([...checksOf(book)].filter(([, holds]) => holds !== true)).toEqual([]);
    expect(valueAt(book, "AllChecks")).toBe("hold");
    for (const { name, part } of book.sheets) {
      for (const cell of part.cells()) {
        const value = valueIn(cell.value, book.shared);
        expect(value instanceof CellError, `${name}!${cell.address}`).toBe(false);
        if (typeof value === "number") expect(Number.isFinite(value), `${name}!${cell.address}`).toBe(true);
      }
    }
  });

  test("needs the masses that its losses and regains ask for", () => {
    expect(valueAt(book, "StandardRegain")).toBe(regain);
    const kept = losses.reduce((share, loss) => share * (1 - loss), 1);
    expect(valueAt(book, "DyedNeeded")).toBeCloseTo(600 / kept, 9);
    // The dyer's loss is 1 %; what each lot makes is a matter of its machine, so it is taken from the book.
    const dry = (valueAt(book, "DyedInLots") as number) / 0.99 / (1 + regain);
    expect(valueAt(book, "FibreToDyer")).toBeCloseTo(dry * (1 + fibre.regain), 9);
    // Scoured at 16 % regain the lots together yield 988 of 1,360 kg greasy.
    expect(valueAt(book, "GreasyNeeded")).toBeCloseTo((dry / fibre.kept) * 1.16 * (1360 / 988), 8);
  });
});

test("the semi-worsted regain is asked: without an answer there is no figure, and the check does not hold", () => {
  const at = openBook(readFileSync(FILE), FILE);
  const row = [24, 25, 26].find((each) => valueAt(at, `Inputs!D${each}`) === "semi-worsted dyed loose") as number;
  const book = workedOutWith(FILE, { RouteChosen: "semi-worsted dyed loose", [`Inputs!G${row}`]: null });
  for (const name of ["StandardRegain", "DyedNeeded", "GreasyNeeded", "LandedPerSkein"]) {
    expect(valueAt(book, name), name).toBeInstanceOf(CellError);
  }
  expect(checksOf(book).get("The route says what its yarn is: a form of regain is agreed")).toBe(false);
});

test("recalc --set changes the route in a copy, with nothing left as it was", async () => {
  const out = place("loose.xlsx");
  const { out: told } = await command(
    "recalc",
    FILE,
    "--set",
    "RouteChosen=semi-worsted dyed loose",
    "--out",
    out,
    "--json",
  );
  const { notRecalculated, differences } = JSON.parse(told.trim()) as Record<string, unknown[]>;
  expect({ notRecalculated, differences }).toEqual({ notRecalculated: [], differences: [] });
  const [set, whole] = [
    openBook(readFileSync(out), out),
    workedOutWith(FILE, { RouteChosen: "semi-worsted dyed loose" }),
  ];
  for (const name of ["GreasyNeeded", "LandedPerSkein"]) {
    expect((valueAt(set, name) as number) / (valueAt(whole, name) as number)).toBeCloseTo(1, 12);
  }
}, 120_000);
