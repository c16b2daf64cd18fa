type Rows = unknown[][];

/** How what is left behind the wanted places is rounded, of a number that is not below 0. */
const WAYS: Readonly<Record<string, (value: number) => number>> = {
  ROUND: Math.round,
  ROUNDUP: Math.ceil,
  ROUNDDOWN: Math.floor,
};

/**
 * ROUND, ROUNDUP and ROUNDDOWN as Excel does them: a number is rounded as its cell shows it, to fifteen digits. 1.005
 * gives 1.01; 21.9/0.2, which is a trace below 109.5, gives 110; and 2.21 + 2.19, a trace above 4.4, is not rounded up.
 */
export const ROUNDINGS: ReadonlyMap<string, (values: unknown, digits: unknown) => Rows> = new Map(
  Object.entries(WAYS).map(([name, way]) => [name, (values, digits) => roundedAsShown(values, digits, way)]),
);

function roundedAsShown(values: unknown, digits: unknown, way: (value: number) => number): Rows {
  const [numbers, places] = [values as Rows, (digits ?? [[0]]) as Rows];
  const height = Math.max(numbers.length, places.length);
  const width = Math.max(numbers[0]?.length ?? 0, places[0]?.length ?? 0);
  return Array.from({ length: height }, (_, row) =>
    Array.from({ length: width }, (_, column) => rounded(at(numbers, row, column), at(places, row, column), way)),
  );
}

function rounded(cell: unknown, places: unknown, way: (value: number) => number): unknown {
  const [value, digits] = [asNumber(cell), asNumber(places)];
  if (typeof value !== "number") return value;
  if (typeof digits !== "number") return digits;
  const whole = way(shifted(Number(Math.abs(value).toPrecision(15)), Math.trunc(digits)));
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
