import type { Worksheet } from "@cj-tech-master/excelts";
import { addressOf, place } from "./addresses";

/**
 * Says each validation of a sheet once, with all its cells: the writer's own gathering into areas lets some of them
 * overlap, and one cell may have one validation only.
 */
export function gatherValidations(sheet: Worksheet): void {
  const { model } = (sheet as unknown as { dataValidations: { model: Record<string, object> } }).dataValidations;
  const cellsOf = new Map<string, string[]>();
  for (const [address, validation] of Object.entries(model)) {
    const said = JSON.stringify(validation);
    cellsOf.set(said, [...(cellsOf.get(said) ?? []), address]);
    delete model[address];
  }
  // The writer takes what follows "range:" as it stands.
  for (const [said, cells] of cellsOf) model[`range:${runsDown(cells).join(" ")}`] = JSON.parse(said) as object;
}

/** Cells as areas of one column each. */
function runsDown(cells: readonly string[]): string[] {
  const places = cells.map(place).sort((a, b) => a.column - b.column || a.row - b.row);
  const runs: { column: number; from: number; to: number }[] = [];
  for (const { column, row } of places) {
    const last = runs[runs.length - 1];
    if (last?.column === column && last.to === row - 1) last.to = row;
    else runs.push({ column, from: row, to: row });
  }
  return runs.map(({ column, from, to }) =>
    from === to ? addressOf(column, from) : `${addressOf(column, from)}:${addressOf(column, to)}`,
  );
}
