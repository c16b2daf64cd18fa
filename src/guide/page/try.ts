import { evaluate } from "./evaluate";
import { functions } from "./host";
import { CellError, type Value } from "./values";

const MOST_ROWS = 100;

document.addEventListener("DOMContentLoaded", () => {
  const form = document.querySelector<HTMLFormElement>("form.try");
  const box = form?.querySelector("textarea");
  const place = document.querySelector<HTMLElement>(".worked-out");
  if (!form || !box || !place) return;
  form.hidden = false;

  const workOut = () => place.replaceChildren(shownResult(evaluate(box.value, functions)));
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

function shownResult(rows: Value[][]): HTMLElement {
  const [first] = rows;
  if (rows.length === 1 && first?.length === 1) return shownSingle(first[0] as Value);
  const table = document.createElement("table");
  const caption = table.createCaption();
  caption.textContent = `${counted(rows.length, "row")}, ${counted(first?.length ?? 0, "column")}`;
  const body = table.createTBody();
  for (const row of rows.slice(0, MOST_ROWS)) {
    const line = body.insertRow();
    for (const value of row) {
      const cell = line.insertCell();
      cell.textContent = shown(value);
      if (typeof value === "number") cell.className = "number";
      if (value instanceof CellError) cell.title = value.message;
    }
  }
  if (rows.length > MOST_ROWS) caption.textContent += `; the first ${MOST_ROWS} rows are shown`;
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
  if (typeof value === "number") return String(Number(value.toPrecision(12)));
  if (typeof value === "boolean") return value ? "TRUE" : "FALSE";
  if (value instanceof CellError) return value.code;
  return value ?? "";
}

function counted(number: number, thing: string): string {
  return `${number} ${thing}${number === 1 ? "" : "s"}`;
}
