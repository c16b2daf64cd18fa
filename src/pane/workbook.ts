import { asTyped, callsOurs } from "../recalculate/formula-text";
import { cellName, sheetPrefix } from "./addresses";
import { supports, told } from "./sheet";

/** A call that shows #NAME?, or stands in a form that Excel does not bind by itself. */
export interface DeadCall {
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
  /** What has to be entered. */
  readonly typed: string;
}

export interface Census {
  readonly live: number;
  readonly dead: readonly DeadCall[];
  /** What live calls of VERSION give: the functions that Excel has loaded. */
  readonly loaded: readonly string[];
  /** Sheets that could not be looked through, and why. */
  readonly unread: readonly string[];
}

const CELLS_AT_ONCE = 20_000;

/** Looks through every sheet; calls our functions, whatever their state, are counted by the cell. */
export async function takeCensus(context: Excel.RequestContext): Promise<Census> {
  const sheets = context.workbook.worksheets;
  sheets.load("items/name");
  await context.sync();
  const census = { live: 0, dead: [] as DeadCall[], loaded: new Set<string>(), unread: [] as string[] };
  for (const sheet of sheets.items) {
    try {
      await countIn(context, sheet, census);
    } catch (fault) {
      census.unread.push(`${sheet.name}: ${told(fault)}`);
    }
  }
  return { ...census, loaded: [...census.loaded] };
}

async function countIn(
  context: Excel.RequestContext,
  sheet: Excel.Worksheet,
  census: { live: number; dead: DeadCall[]; loaded: Set<string> },
): Promise<void> {
  const used = supports("1.4") ? sheet.getUsedRangeOrNullObject(true) : sheet.getUsedRange(true);
  used.load("rowIndex,columnIndex,rowCount,columnCount");
  await context.sync();
  if (used.isNullObject) return;
  const step = Math.max(1, Math.floor(CELLS_AT_ONCE / used.columnCount));
  for (let from = 0; from < used.rowCount; from += step) {
    const rows = Math.min(step, used.rowCount - from);
    const block = sheet
      .getCell(used.rowIndex + from, used.columnIndex)
      .getBoundingRect(sheet.getCell(used.rowIndex + from + rows - 1, used.columnIndex + used.columnCount - 1));
    block.load("formulas,values");
    await context.sync();
    (block.formulas as unknown[][]).forEach((line, down) =>
      line.forEach((formula, along) => {
        if (typeof formula !== "string" || !formula.startsWith("=") || !callsOurs(formula)) return;
        const shown = (block.values as unknown[][])[down]?.[along];
        const typed = `=${asTyped(formula.slice(1))}`;
        if (typed === formula && shown !== "#NAME?") {
          census.live++;
          if (/^=YARN\.VERSION\(\)$/i.test(formula)) census.loaded.add(String(shown));
        } else {
          const [row, column] = [used.rowIndex + from + down, used.columnIndex + along];
          census.dead.push({ sheet: sheet.name, row, column, typed });
        }
      }),
    );
  }
}

/** What became of entering calls again. */
export interface Revival {
  readonly entered: number;
  readonly alive: number;
  /** Where Excel refused, and in which words. */
  readonly refused: readonly string[];
}

/** Enters every dead call again: Excel then looks its function up. Writes; only ever after a click. */
export async function revive(context: Excel.RequestContext, dead: readonly DeadCall[]): Promise<Revival> {
  const refused: string[] = [];
  const entered: Excel.Range[] = [];
  for (const name of new Set(dead.map(({ sheet }) => sheet))) {
    const here = dead.filter(({ sheet }) => sheet === name);
    const cells = await enter(context, here);
    if (typeof cells !== "string") {
      entered.push(...cells);
      continue;
    }
    // One cell of the sheet is refused (part of an older array, locked …): the others need not wait for it.
    for (const call of here) {
      const cell = await enter(context, [call]);
      if (typeof cell === "string") refused.push(`${sheetPrefix(name)}${cellName(call.row, call.column)}: ${cell}`);
      else entered.push(...cell);
      if (refused.length > 0 && entered.length === 0 && refused.length === 3) {
        refused.push(`${name}: the other ${here.length - 3} were not tried`);
        break;
      }
    }
  }
  let alive = 0;
  for (const cell of entered) cell.load("values");
  await context.sync();
  for (const cell of entered) if ((cell.values as unknown[][])[0]?.[0] !== "#NAME?") alive++;
  return { entered: entered.length, alive, refused };
}

async function enter(context: Excel.RequestContext, calls: readonly DeadCall[]): Promise<Excel.Range[] | string> {
  try {
    const cells = calls.map(({ sheet, row, column, typed }) => {
      const cell = context.workbook.worksheets.getItem(sheet).getCell(row, column);
      cell.formulas = [[typed]];
      return cell;
    });
    await context.sync();
    return cells;
  } catch (fault) {
    return told(fault);
  }
}
