import { firstOf, type Elements, type Invoke, type Received } from "./lifting";

/** Functions with criteria, and where the first range with its criterion behind it stands. */
const FIRST_RANGE: ReadonlyMap<string, number> = new Map([
  ...["COUNTIF", "COUNTIFS", "SUMIF", "AVERAGEIF"].map((name) => [name, 0] as const),
  ...["SUMIFS", "AVERAGEIFS", "MAXIFS", "MINIFS"].map((name) => [name, 1] as const),
]);

/**
 * The criteria "=" and "<>" ask whether a cell is empty, and a formula that shows nothing is none; the engine takes
 * its empty text for an empty cell. And a range of one cell is a range, which the engine takes for no range.
 */
export function withCriteria(name: string, work: Invoke): Invoke {
  const first = FIRST_RANGE.get(name);
  if (first === undefined) return work;
  return (received) => {
    const given = received.map((value, at) => {
      const criterion = (at - first) % 2 === 0 ? received[at + 1] : undefined;
      if (at < first || criterion === undefined) return value;
      const range = asRange(value);
      return ASKS_FOR_EMPTY.test(textOf(criterion)) ? withFilledTexts(range) : range;
    });
    return work(given);
  };
}

const ASKS_FOR_EMPTY = /^(=|<>)$/;

function textOf(value: Received): string {
  const one = firstOf(value);
  return "value" in one && typeof one.value === "string" ? one.value : "";
}

function asRange(value: Received): Elements {
  return "rows" in value ? value : { kind: ARRAY, rows: [[value]], height: 1, width: 1 };
}

/** An empty text as one that no cell holds. */
function withFilledTexts(range: Elements): Elements {
  const rows = range.rows.map((row) =>
    row.map((cell) => ("value" in cell && cell.value === "" ? { ...cell, value: FILLED } : cell)),
  );
  return { ...range, rows };
}

const FILLED = "\u0001";

/** How the engine marks an array. */
const ARRAY = 5;
