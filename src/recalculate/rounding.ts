type Rows = unknown[][];

/** ROUND as a worksheet does it: the decimal a person sees is rounded, half away from zero. */
export function roundedAsShown(values: unknown, digits: unknown): Rows {
  const [numbers, places] = [values as Rows, (digits ?? [[0]]) as Rows];
  const height = Math.max(numbers.length, places.length);
  const width = Math.max(numbers[0]?.length ?? 0, places[0]?.length ?? 0);
  return Array.from({ length: height }, (_, row) =>
    Array.from({ length: width }, (_, column) => rounded(at(numbers, row, column), at(places, row, column))),
  );
}

function rounded(cell: unknown, places: unknown): unknown {
  const [value, digits] = [asNumber(cell), asNumber(places)];
  if (typeof value !== "number") return value;
  if (typeof digits !== "number") return digits;
  const whole = Math.round(shifted(Math.abs(value), Math.trunc(digits)));
  const result = Math.sign(value) * shifted(whole, -Math.trunc(digits));
  // Beyond the digits a number has there is nothing to round.
  return Number.isFinite(result) ? result + 0 : value;
}

/** Moves the decimal point in the digits themselves, so that 1.005 becomes 100.5 and not 100.49999999999999. */
function shifted(value: number, places: number): number {
  const [digits, exponent] = String(value).split("e");
  return Number(`${digits}e${Number(exponent ?? 0) + places}`);
}

function at(rows: Rows, row: number, column: number): unknown {
  const cells = rows.length === 1 ? rows[0] : rows[row];
  return cells === undefined || (cells.length > 1 && column >= cells.length)
    ? { code: "#N/A" }
    : cells[cells.length === 1 ? 0 : column];
}

function asNumber(cell: unknown): unknown {
  if (cell === null || cell === undefined) return 0;
  if (typeof cell === "boolean") return Number(cell);
  if (typeof cell !== "string") return cell;
  const number = cell.trim() === "" ? NaN : Number(cell);
  return Number.isNaN(number) ? { code: "#VALUE!" } : number;
}
