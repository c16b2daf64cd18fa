import { readFileSync } from "node:fs";

/**
 * Measured reflectances of textiles, 400 to 700 nm by 10 nm, by their number in the collection. Source: M. J. Vrhel,
 * R. Gershon, L. S. Iwan, Measurement and analysis of object reflectance spectra, Color Res. Appl. 19 (1994) 4-9.
 */
export const TEXTILES: ReadonlyMap<number, readonly number[]> = new Map(
  readFileSync("tests/data/measured-textiles.csv", "utf8")
    .split("\n")
    .filter((line) => /^\d/.test(line))
    .map((line) => {
      const [id, , ...bands] = line.replace(/"[^"]*"/, "").split(",");
      return [Number(id), bands.map(Number)] as const;
    }),
);

export function textile(id: number): readonly number[] {
  const bands = TEXTILES.get(id);
  if (bands?.length !== 31) throw new Error(`no measured textile ${id}`);
  return bands;
}

/** As an array constant of one row. */
export function rowText(values: readonly number[]): string {
  return `{${values.join(",")}}`;
}

/** As an array constant of several rows. */
export function rowsText(rows: readonly (readonly number[])[]): string {
  return `{${rows.map((row) => row.join(",")).join(";")}}`;
}
