/** A cell by its numbers from 0, as a person writes it. */
export function cellName(row: number, column: number): string {
  let letters = "";
  for (let left = column + 1; left > 0; left = Math.floor((left - 1) / 26))
    letters = String.fromCharCode(65 + ((left - 1) % 26)) + letters;
  return `${letters}${row + 1}`;
}

/** The name of a sheet as it stands in front of a reference. */
export function sheetPrefix(sheet: string): string {
  return /^[\p{L}_][\p{L}\p{N}_.]*$/u.test(sheet) && !/^([A-Z]{1,3}\d+|R\d*C\d*)$/i.test(sheet)
    ? `${sheet}!`
    : `'${sheet.replace(/'/g, "''")}'!`;
}

/** What Excel calls an address, in its two halves. */
export function addressParts(address: string): { sheet: string; cells: string } {
  const mark = address.lastIndexOf("!");
  const sheet = address.slice(0, Math.max(0, mark)).replace(/^'|'$/g, "").replace(/''/g, "'");
  return { sheet, cells: address.slice(mark + 1) };
}
