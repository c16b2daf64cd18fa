import type { PropertyLimit } from "../trade/blending/least-cost";
import { at, counted, refuse, type Place } from "../trade/refusal";
import { nameOf, readItem, withoutBlankEnd, type Named } from "./arguments";
import { plainHeading } from "./headings";
import { anyNumber, blankIs, numberThat, share, word, type Kind } from "./kinds";
import { block, eachAlong, namedMatrix, orderOf, placesOfNames, refuseUnknown, type Along } from "./names";
import { entriesStandIn } from "./places";
import { wordsFor } from "./words";

const limitNumber = numberThat("must be a number, or none for no limit", () => true);
/** A limit, or undefined where there is none. */
const limit: Kind<number | undefined> = blankIs(
  (cell, argument) =>
    typeof cell === "string" && cell.trim().toLowerCase() === "none" ? undefined : limitNumber(cell, argument),
  undefined,
);
const weighting = word(wordsFor("weighting", "mass", "length"));

/**
 * Properties, one row a component, with their limits (minimum row, maximum row) and what their means are taken by; and
 * the names of the components where only the properties have them.
 */
export function propertyLimits(
  properties: Named,
  limits: Named,
  weightings: Named,
  cvs: Named,
  components: Along,
): { readonly kept: PropertyLimit[]; readonly names: readonly string[] | undefined } {
  const table = namedMatrix(properties, anyNumber);
  const { name, rows, columns } = table;
  const named = rows.names !== undefined && components.names !== undefined;
  if (!named && rows.count !== components.count) {
    const turned = columns.count === components.count ? ": TRANSPOSE turns it" : "";
    refuse(name, `${counted(rows.count, "row")} long`, `must have one row per price, ${components.count}${turned}`);
  }
  const order = named ? orderOf(name, rows.names, components) : undefined;
  const values = order ? order.map((row) => table.values[row] as number[]) : table.values;
  const limited = limitRows(limits, columns);
  const by = eachAlong(weightings, weighting, "mass", "weighting", { ...columns, of: `${name}' columns` });
  const cv = eachAlong(cvs, share, 0, "cv", components);
  const kept = limited.minimum.map((least, column): PropertyLimit => {
    const own = values.map((row) => row[column] as number);
    const weights = own.map((value, row) => {
      if (by[column] === "mass") return 1;
      if (value <= 0) {
        const place = at(name, order ? (order[row] as number) : row, column);
        refuse(place, String(value), "must be above 0 by length");
      }
      return 1 / (value * value * (1 + (cv[row] as number) ** 2));
    });
    const most = limited.maximum[column];
    expectMeant(at("limits", 0, column), least, Math.min(...own));
    expectMeant(at("limits", 1, column), most, -Math.max(...own));
    return { values: own, weights, least: least ?? -Infinity, most: most ?? Infinity };
  });
  return { kept, names: components.names ?? rows.names };
}

type Bounds = readonly (number | undefined)[];

/** Both rows of limits, filled up to the width of the properties and in their order. */
function limitRows(limits: Named, properties: Along): { readonly minimum: Bounds; readonly maximum: Bounds } {
  const [name, cells] = nameOf(limits);
  const held = withoutBlankEnd(cells);
  if (held.length === 0) refuse(name, "blank", "must hold at least one row");
  const { figures, rowNames, columnNames, above, before } = block({ [name]: held }, limit);
  const rows = figures.map((row, rowIndex) =>
    row.map((cell, column) =>
      readItem(cell, () => `${name} row ${rowIndex + 1 + above}, column ${column + 1 + before}`, limit),
    ),
  );
  const length = cells.length - above;
  if (length < 2 || rows.length > 2) {
    const turned = rows.length === properties.count && (rows[0] as Bounds).length === 2 ? ": TRANSPOSE turns it" : "";
    refuse(name, `${counted(length, "row")} long`, `must be two rows, minimum and maximum${turned}`);
  }
  const across = (rows[0] as Bounds).length;
  const named = columnNames !== undefined && properties.names !== undefined;
  if (!named && across !== properties.count)
    refuse(name, `${counted(across, "column")} wide`, `must have one column per property, ${properties.count}`);
  if (named) refuseUnknown(name, columnNames, properties);
  // A property that is not among the names has no limits.
  const columns = named ? placesOfNames(name, columnNames, properties) : (rows[0] as Bounds).map((_, place) => place);
  const none = new Array<undefined>(across).fill(undefined);
  const [first, second] = [rows[0] as Bounds, rows[1] ?? none].map((row) => columns.map((place) => row[place]));
  const isTurned = rowNames !== undefined && MAXIMA.test(plainHeading(rowNames[0] as string));
  const [minimum, maximum] = (isTurned ? [second, first] : [first, second]) as [Bounds, Bounds];
  entriesStandIn(
    name,
    (isTurned ? [2, 1] : [1, 2]).map((row) => row + above),
    columns.map((place) => place + 1 + before),
  );
  return { minimum, maximum };
}

/** What people call the row of greatest values; with it first, the rows stand the other way round. */
const MAXIMA = /^(max|most|at most|highest|upper)/;

/** Some hosts hand a blank cell over as 0; where a limit of 0 would bind, it has to be said which of the two is meant. */
function expectMeant(place: Place, bound: number | undefined, headroom: number): void {
  if (bound === 0 && headroom < 0)
    refuse(place, "0, as a blank cell may arrive", "write none, or 1E-9 for a limit of 0");
}
