import type { PropertyLimit } from "../trade/blending/least-cost";
import { counted, refuse } from "../trade/refusal";
import { matrix, nameOf, type Named } from "./arguments";
import { anyNumber, blankIs, numberThat, share, word, type Kind } from "./kinds";
import { eachOf } from "./lists";
import { wordsFor } from "./words";

const limitNumber = numberThat("must be a number, or none for no limit", () => true);
/** A limit, or undefined where there is none. */
const limit: Kind<number | undefined> = blankIs(
  (cell, argument) =>
    typeof cell === "string" && cell.trim().toLowerCase() === "none" ? undefined : limitNumber(cell, argument),
  undefined,
);
const weighting = word(wordsFor("weighting", "mass", "length"));

/** Properties, one row a component, with their limits (minimum row, maximum row) and what their means are taken by. */
export function propertyLimits(
  properties: Named,
  limits: Named,
  weightings: Named,
  cvs: Named,
  components: number,
): PropertyLimit[] {
  const values = matrix(properties, anyNumber);
  const [name] = nameOf(properties);
  if (values.length !== components) {
    refuse(name, `${counted(values.length, "row")} long`, `must have one row per price, ${components}`);
  }
  const width = (values[0] as number[]).length;
  const [minimum, maximum] = limitRows(limits, width);
  const by = eachOf(weightings, weighting, "mass", `${name}' columns`, width);
  const cv = eachOf(cvs, share, 0, "prices", components);
  return minimum.map((least, column) => {
    const own = values.map((row) => row[column] as number);
    const weights = own.map((value, row) => {
      if (by[column] === "mass") return 1;
      if (value <= 0)
        refuse(`${name} row ${row + 1}, column ${column + 1}`, String(value), "must be above 0 by length");
      return 1 / (value * value * (1 + (cv[row] as number) ** 2));
    });
    const most = maximum[column];
    expectMeant(`${nameOf(limits)[0]} row 1, column ${column + 1}`, least, Math.min(...own));
    expectMeant(`${nameOf(limits)[0]} row 2, column ${column + 1}`, most, -Math.max(...own));
    return { values: own, weights, least: least ?? -Infinity, most: most ?? Infinity };
  });
}

/** Both rows of limits, filled up to the width of the properties. */
function limitRows(limits: Named, width: number): [(number | undefined)[], (number | undefined)[]] {
  const [name, cells] = nameOf(limits);
  const rows = matrix(limits, limit);
  if (cells.length < 2 || rows.length > 2) {
    refuse(name, `${counted(cells.length, "row")} long`, "must be two rows, minimum and maximum");
  }
  const across = (rows[0] as unknown[]).length;
  if (across !== width)
    refuse(name, `${counted(across, "column")} wide`, `must have one column per property, ${width}`);
  const none = new Array<undefined>(width).fill(undefined);
  return [rows[0] as (number | undefined)[], rows[1] ?? none];
}

/** Some hosts hand a blank cell over as 0; where a limit of 0 would bind, it has to be said which of the two is meant. */
function expectMeant(place: string, bound: number | undefined, headroom: number): void {
  if (bound === 0 && headroom < 0)
    refuse(place, "0, as a blank cell may arrive", "write none, or 1E-9 for a limit of 0");
}
