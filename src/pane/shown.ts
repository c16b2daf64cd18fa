import { CellError, type Rows, type Value } from "../guide/page/values";
import { cellName } from "./addresses";
import { counted, make } from "./elements";

/** As a cell shows it, to 12 significant digits. */
export function asShown(value: Value): string {
  if (typeof value === "number") return String(Number(value.toPrecision(12)));
  if (typeof value === "boolean") return value ? "TRUE" : "FALSE";
  if (value instanceof CellError) return value.code;
  return value ?? "";
}

/** An area in a few words: its size where it has one, and what it begins with. */
export function inShort(rows: Rows): string {
  const values = rows.flat();
  const begin = values.slice(0, 4).map((value) => (value === null ? "blank" : asShown(value)));
  if (values.length === 1) return begin[0] as string;
  const size = rows[0]?.length === 1 ? counted(rows.length, "row") : `${rows.length} × ${rows[0]?.length ?? 0} cells`;
  return `${size}: ${begin.join(", ")}${values.length > 4 ? " …" : ""}`;
}

const MOST_ROWS = 12;
const MOST_ERRORS = 50;

/** A result: its value or its message in full; of a larger one the rows in error, and how it begins. */
export function shownResult(rows: Rows, anchor?: { row: number; column: number }): HTMLElement {
  const [first] = rows;
  if (rows.length === 1 && first?.length === 1) {
    const value = first[0] as Value;
    const isError = value instanceof CellError;
    return make(
      "p",
      { class: "result" },
      make("strong", { class: isError ? "error" : "value" }, asShown(value) || "(an empty text)"),
      isError && value.message !== "" ? ` ${value.message}` : undefined,
    );
  }
  const errors = rows.flatMap((row, down) =>
    row.flatMap((value, along) => (value instanceof CellError ? [{ value, down, along }] : [])),
  );
  const size = `${counted(rows.length, "row")}, ${counted(first?.length ?? 0, "column")}`;
  return make(
    "div",
    { class: "result" },
    make("p", {}, `${size}, ${errors.length === 0 ? "none" : String(errors.length)} in error.`),
    errors.length === 0 ? undefined : errorList(errors, anchor),
    table(rows),
  );
}

function errorList(
  errors: readonly { readonly value: CellError; readonly down: number; readonly along: number }[],
  anchor?: { row: number; column: number },
): HTMLElement {
  const items = errors.slice(0, MOST_ERRORS).map(({ value, down, along }) => {
    const place = anchor ? cellName(anchor.row + down, anchor.column + along) : `row ${down + 1}`;
    return errorItem(place, value);
  });
  const more = errors.length - items.length;
  return make("ul", { class: "errors" }, ...items, more > 0 ? make("li", {}, `and ${more} more`) : undefined);
}

/** One cell in error, and why. */
export function errorItem(place: string, { code, message }: CellError): HTMLElement {
  return make("li", {}, make("b", {}, place), " ", make("span", { class: "error" }, code), message && ` ${message}`);
}

function table(rows: Rows): HTMLElement {
  const body = make("tbody");
  for (const row of rows.slice(0, MOST_ROWS)) {
    const cells = row.map((value) =>
      make(
        "td",
        typeof value === "number" ? { class: "number" } : value instanceof CellError ? { class: "error" } : {},
        asShown(value),
      ),
    );
    body.append(make("tr", {}, ...cells));
  }
  const more = rows.length - MOST_ROWS;
  return make(
    "div",
    { class: "scroller", tabindex: "0", role: "region", "aria-label": "How the result begins" },
    make("table", {}, body),
    more > 0 ? make("p", { class: "soft" }, `and ${counted(more, "more row")}`) : undefined,
  );
}
