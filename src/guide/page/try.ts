import { shown as shownDrawing } from "../drawings/svg";
import { evaluate } from "./evaluate";
import { functions } from "./host";
import { pictureOf } from "./pictures";
import { CellError, type Value } from "./values";
import { dayUnder, inTable, isHeaded, MOST_BESIDE, textOf } from "./written";

const MOST_ROWS = 100;

document.addEventListener("DOMContentLoaded", () => {
  const form = document.querySelector<HTMLFormElement>("form.try");
  const box = form?.querySelector("textarea");
  const place = document.querySelector<HTMLElement>(".worked-out");
  if (!form || !box || !place) return;
  form.hidden = false;

  const workOut = () => place.replaceChildren(shownResult(evaluate(box.value, functions), box.value));
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    workOut();
  });
  box.addEventListener("keydown", (event) => {
    // Enter works the formula out, as in a cell; with Shift it starts a new line.
    if (event.key === "Enter" && !event.shiftKey && !event.isComposing) {
      event.preventDefault();
      workOut();
    }
  });
  for (const example of document.querySelectorAll<HTMLElement>("[data-formula]")) {
    const buttons = document.createElement("div");
    buttons.className = "buttons";
    const offer = (name: string, formula: string | undefined) => {
      if (formula === undefined) return;
      const button = document.createElement("button");
      button.type = "button";
      button.textContent = name;
      button.addEventListener("click", () => {
        box.value = formula;
        workOut();
        box.focus();
      });
      buttons.append(button);
    };
    offer("Try this one", example.dataset.formula);
    offer("Whole result", example.dataset.whole);
    example.append(buttons);
  }
  workOut();
});

/** What came out, as a picture too where one helps. */
function shownResult(rows: Value[][], formula: string): DocumentFragment {
  const all = document.createDocumentFragment();
  const picture = pictureOf(formula, rows, functions);
  if (picture !== undefined) {
    const template = document.createElement("template");
    template.innerHTML = shownDrawing(picture, "picture");
    all.append(template.content);
  }
  const single = rows.length === 1 && rows[0]?.length === 1;
  all.append(single ? shownSingle(rows[0]?.[0] as Value) : shownTable(rows));
  return all;
}

function shownTable(rows: Value[][]): HTMLElement {
  const heads = isHeaded(rows) ? (rows[0] as string[]) : undefined;
  const body = heads === undefined ? rows : rows.slice(1);
  const width = rows[0]?.length ?? 0;
  const table = document.createElement("table");
  // More columns do not fit beside each other on a phone; there each row becomes a card.
  const cards = width > MOST_BESIDE;
  const withRole = (element: HTMLElement, role: string) => cards && element.setAttribute("role", role);
  withRole(table, "table");
  if (cards) table.className = "cards";
  const caption = table.createCaption();
  caption.textContent = `${counted(body.length, "row")}, ${counted(width, "column")}`;
  const numeric = Array.from({ length: width }, (_, column) => body.some((row) => typeof row[column] === "number"));
  if (heads !== undefined) {
    const head = table.createTHead();
    const line = head.insertRow();
    withRole(head, "rowgroup");
    withRole(line, "row");
    for (const [column, name] of heads.entries()) {
      const cell = document.createElement("th");
      cell.scope = "col";
      cell.textContent = name;
      if (numeric[column]) cell.className = "number";
      withRole(cell, "columnheader");
      line.append(cell);
    }
  }
  const part = table.createTBody();
  withRole(part, "rowgroup");
  for (const row of body.slice(0, MOST_ROWS)) {
    const line = part.insertRow();
    withRole(line, "row");
    for (const [column, value] of row.entries()) {
      const cell = line.insertCell();
      cell.textContent = typeof value === "number" ? inTable(value) : shown(value);
      if (typeof value === "number") {
        cell.className = "number";
        cell.title = shown(value);
      }
      if (value instanceof CellError) cell.title = value.message;
      const day = dayUnder(heads?.[column], value);
      if (day !== undefined) {
        const beside = document.createElement("small");
        beside.className = "day";
        beside.textContent = day;
        cell.append(" ", beside);
      }
      withRole(cell, "cell");
      if (cards) cell.dataset.heading = heads?.[column] ?? String(column + 1);
    }
  }
  if (body.length > MOST_ROWS) caption.textContent += `; the first ${MOST_ROWS} rows are shown`;
  const scroller = document.createElement("div");
  scroller.className = "scroller";
  scroller.tabIndex = 0;
  scroller.setAttribute("role", "region");
  scroller.setAttribute("aria-label", "Result");
  scroller.append(table);
  return scroller;
}

function shownSingle(value: Value): HTMLElement {
  const line = document.createElement("p");
  const result = document.createElement("strong");
  result.className = value instanceof CellError ? "value error" : "value";
  result.textContent = shown(value);
  line.append(result);
  if (value instanceof CellError && value.message !== "") line.append(` ${value.message}`);
  return line;
}

/** As a cell shows it, to 12 significant digits. */
function shown(value: Value): string {
  return textOf(typeof value === "number" ? Number(value.toPrecision(12)) : value);
}

function counted(number: number, thing: string): string {
  return `${number} ${thing}${number === 1 ? "" : "s"}`;
}
