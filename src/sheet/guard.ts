import { counted, refuse } from "../trade/refusal";
import type { Cell, Cells, Results } from "./cells";
import { forgetErrors, worksheetError } from "./errors";
import { forgetUnits } from "./heading-units";
import { forgetPlaces } from "./places";
import { forgetWords } from "./words";

/**
 * A function as the host calls it. What hosts do beside the cells is met here, once: they may pass one more argument
 * (the invocation) after the last, and rich values instead of plain ones. Whatever is thrown inside leaves as a cell
 * error with a message.
 */
export function guarded<A extends unknown[]>(implementation: (...cells: A) => Results): (...cells: A) => Results {
  return (...cells) => {
    forgetPlaces();
    forgetUnits();
    forgetWords();
    forgetErrors();
    try {
      return withOwnHeader(implementation(...(withoutInvocation(cells).map(plainCells) as A)));
    } catch (thrown) {
      throw worksheetError(thrown);
    }
  };
}

/** A header row may be a constant of its function; the host gets a copy, so that nothing it does comes back. */
function withOwnHeader(results: Results): Results {
  if (results.length > 0) results[0] = (results[0] as Results[number]).slice();
  return results;
}

/** Functions take ranges; an object after them is the host's own. */
function withoutInvocation(cells: readonly unknown[]): readonly unknown[] {
  const last = cells[cells.length - 1];
  return isObject(last) && !Array.isArray(last) ? cells.slice(0, -1) : cells;
}

function isObject(value: unknown): value is object {
  return typeof value === "object" && value !== null;
}

/** The argument itself if all its cells are plain, as they nearly always are; a copy with plain cells otherwise. */
function plainCells(argument: unknown, index: number): unknown {
  if (!Array.isArray(argument) || !Array.isArray(argument[0])) return argument;
  const rows = argument as Cells;
  const width = argument[0].length;
  let rich = false;
  for (const row of rows) {
    if (!Array.isArray(row) || row.length !== width) ragged(index, width, row);
    for (let place = 0; place < width; place++) if (typeof row[place] === "object" && row[place] !== null) rich = true;
  }
  return rich ? rows.map((row) => row.map(plainCell)) : rows;
}

function ragged(index: number, width: number, row: unknown): never {
  const came = Array.isArray(row) ? counted(row.length, "cell") : "no row";
  return refuse(`argument ${index + 1}`, "ragged", `its first row has ${counted(width, "cell")}, another ${came}`);
}

/** A rich value (a formatted number, an entity) stands for its basic value; one whose basic value is an error, for that. */
function plainCell(cell: Cell): Cell {
  if (!isObject(cell)) return cell;
  const { type, basicType, basicValue } = cell as Record<string, unknown>;
  if (type === "Error" || typeof type !== "string") return cell;
  if (basicType === "Error") return { type: "Error", basicValue };
  return ["string", "number", "boolean"].indexOf(typeof basicValue) >= 0 ? basicValue : cell;
}
