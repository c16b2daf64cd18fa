import { areaOf } from "./addresses";
import { openBook, type Book } from "./book";
import { loadBundle } from "./bundle";
import { calculated, formulasOf } from "./calculation";
import { compared } from "./compare";
import { bytesOf } from "./recalculation";
import { storeResults } from "./stored-form";
import { valueIn } from "./stored-text";
import { CellError, shownAs, type Value } from "./values";

const WORKBOOK = "sample-workbooks/order-to-landed-cost.xlsx";

/** Recalculates the sample workbook of the main job with the built functions and prints what the planner asks for. */
export function main(): number {
  const started = performance.now();
  const book = openBook(bytesOf(WORKBOOK), WORKBOOK);
  const formulas = formulasOf(book);
  const results = calculated(book, formulas, loadBundle());
  const comparison = compared(book, results);
  const { cells } = comparison;
  const differences = [...comparison.differences, ...comparison.unreproduced];
  storeResults(book, formulas, results);
  const seconds = (performance.now() - started) / 1000;

  const [greasy] = named(book, "GreasyNeeded").flat();
  const solids = named(book, "SolidsDyed");
  const landed = named(book, "LandedColourways");
  const checks = named(book, "CheckLines");
  const [all] = named(book, "AllChecks").flat();

  console.log(`${WORKBOOK}: an invented yarn house, six heather colourways from eight dyed solids\n`);
  console.log(`Wool to buy: ${shown(greasy, 1)} kg greasy\n`);
  console.log("Solids to dye (kg)");
  for (const row of solids) print(row[0], [shown(row[5], 1), `in lots ${shown(row[8], 1)}`]);
  console.log("\nCost of each skein, landed (EUR)");
  for (const row of landed) {
    const [total, skeins, each] = row.slice(-3);
    print(row[0], [shown(each, 2), `${shown(skeins, 0)} skeins`, `${shown(total, 2)} in all`]);
  }
  console.log("\nChecks");
  for (const [what, holds] of checks) console.log(`  ${holds === true ? "holds" : "FAILS"}  ${shownAs(what ?? null)}`);
  const sound = all === "hold" && differences.length === 0 && checks.every(([, holds]) => holds === true);
  console.log(
    `\n${results.length} formulas, ${cells} cells recalculated in ${seconds.toFixed(2)} s; ${differences.length} differ from the saved values`,
  );
  console.log(sound ? "All checks hold." : "CHECKS FAIL.");
  return sound ? 0 : 1;
}

function print(label: Value | undefined, columns: readonly string[]): void {
  console.log(`  ${shownAs(label ?? null).padEnd(12)}${columns.map((column) => column.padStart(18)).join("")}`);
}

/** The values of a named cell or range. */
function named(book: Book, name: string): Value[][] {
  const [sheetName, reference] = (book.names.find((entry) => entry.name === name)?.ranges[0] ?? "").split("!");
  const sheet = book.sheets.find((entry) => entry.name === sheetName?.replace(/^'|'$/g, ""));
  const area = areaOf((reference ?? "").replace(/\$/g, ""));
  if (!sheet || !area) throw new Error(`${book.called} has no range named ${name}`);
  const rows: Value[][] = [];
  for (let row = area.top; row <= area.bottom; row++) {
    const values: Value[] = [];
    for (let column = area.left; column <= area.right; column++) {
      const cell = sheet.part.find(row, column);
      values.push(cell ? valueIn(cell.value, book.shared) : null);
    }
    rows.push(values);
  }
  return rows;
}

function shown(value: Value | undefined, decimals: number): string {
  if (value instanceof CellError) return value.code;
  return typeof value === "number"
    ? value.toLocaleString("en-GB", { minimumFractionDigits: decimals, maximumFractionDigits: decimals })
    : String(value ?? "");
}
