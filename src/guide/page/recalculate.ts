import type { NamedInput } from "../../recalculate/named-inputs";
import type { Job, Recalculated } from "../../recalculate/recalculation";
import { Calculating, TOO_LONG } from "./calculating";
import { at, namedAfter, paragraph, save } from "./elements";
import { KnownTo, showProgress } from "./known-to";
import type { Answer, Asked, Kind } from "./recalculate-worker";
import { counted, shown, summaryOf, toldCells, toldChanges, type ToldSheet } from "./told-cells";

/** A workbook that the page has open. */
interface Opened {
  readonly name: string;
  readonly bytes: Uint8Array<ArrayBuffer>;
  readonly sheets: readonly string[];
  readonly inputs: readonly NamedInput[];
  readonly result: Recalculated;
  readonly oursOnly?: string;
  /** What was last asked for, and what came of it. */
  changed?: { readonly set: NonNullable<Job["set"]>; readonly result: Recalculated };
}

const MOST_ROWS = 200;
const WORKBOOK = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";

document.addEventListener("DOMContentLoaded", () => {
  const file = at<HTMLInputElement>("#workbook");
  const said = at(".said");
  const stop = at<HTMLButtonElement>(".stop");
  const place = at(".opened");
  const calculating = new Calculating();
  let opened: Opened | undefined;
  const knownTo = new KnownTo({
    ask: async (asked, doing) => {
      if (opened === undefined) return undefined;
      const { name, bytes } = opened;
      const answer = await ask({ ...asked, bytes, job: jobFor(name, undefined) }, doing);
      if (answer.error !== undefined) say(sentence(name, answer.error), true);
      return answer;
    },
    nameOfBook: () => opened?.name ?? "",
    say,
  });
  at("form.open").hidden = false;

  // The same file can be chosen again when it has changed.
  file.addEventListener("click", () => (file.value = ""));
  file.addEventListener("change", () => void open(file.files?.[0]));
  document.addEventListener("dragover", (event) => event.preventDefault());
  document.addEventListener("drop", (event) => {
    event.preventDefault();
    void open(event.dataTransfer?.files[0]);
  });
  stop.addEventListener("click", () => calculating.stop());
  at("form.change").addEventListener("submit", (event) => {
    event.preventDefault();
    void change();
  });
  at("form.change").addEventListener("reset", () => showChange(undefined));
  for (const button of document.querySelectorAll<HTMLButtonElement>("[data-copy]"))
    button.addEventListener("click", () => void saveCopy(button.dataset.copy as Kind));
  at("[data-report]").addEventListener("click", () => void saveReport());

  /** Asks the worker, and shows that it is at work. */
  async function ask(asked: Asked, doing: string): Promise<Answer> {
    said.className = "said";
    said.textContent = `${doing} …`;
    stop.hidden = false;
    place.toggleAttribute("inert", true);
    const answer = await calculating.ask(asked, showProgress);
    showProgress(undefined);
    stop.hidden = true;
    place.toggleAttribute("inert", false);
    return answer;
  }

  function say(text: string, isFault = false): void {
    said.className = isFault ? "said error" : "said";
    said.textContent = text;
  }

  async function open(chosen: File | undefined): Promise<void> {
    if (chosen === undefined) return;
    const { name } = chosen;
    place.hidden = true;
    opened = undefined;
    let bytes: Uint8Array<ArrayBuffer>;
    try {
      bytes = new Uint8Array(await chosen.arrayBuffer());
    } catch {
      say(`${name} cannot be read.`, true);
      return;
    }
    const began = performance.now();
    const opening = (oursOnly?: string) =>
      ask({ task: "open", bytes, job: jobFor(name, oursOnly) }, `${name} is worked out`);
    let answer = await opening();
    let oursOnly: string | undefined;
    if (answer.error === TOO_LONG) {
      // Native formulas never cost a verdict on our calls.
      oursOnly = `with its native formulas it ${TOO_LONG}`;
      answer = await opening(oursOnly);
    }
    const { result, sheets = [], inputs = [], ranges = [] } = answer;
    if (result === undefined) {
      say(sentence(name, answer.error ?? ""), true);
      return;
    }
    opened = { name, bytes, sheets, inputs, result, ...(oursOnly === undefined ? {} : { oursOnly }) };
    say(`${name} was worked out in ${((performance.now() - began) / 1000).toFixed(2)} seconds.`);
    at(".name-of-book").textContent = name;
    showTold(at(".told"), toldCells(result, sheets), nothingToTell(result));
    at(".summary").replaceChildren(...summaryOf(result).map(paragraph));
    // What was typed for the workbook before goes.
    at<HTMLFormElement>("form.change").reset();
    showInputs(inputs);
    knownTo.offer(ranges);
    place.hidden = false;
  }

  function showInputs(inputs: readonly NamedInput[]): void {
    at(".inputs").replaceChildren(
      ...inputs.map(({ name, sheet, cell, value }, index) => {
        const label = document.createElement("label");
        label.htmlFor = `input-${index}`;
        label.append(name, " ", note(`${sheet}!${cell}`));
        const box = document.createElement("input");
        Object.assign(box, { id: `input-${index}`, type: "text", autocomplete: "off", spellcheck: false });
        // What the book has is the default, so that a changed box is known by it.
        box.defaultValue = shown(value);
        box.dataset.place = name;
        const line = document.createElement("div");
        line.append(label, box);
        return line;
      }),
    );
    at(".no-inputs").hidden = inputs.length > 0;
  }

  async function change(): Promise<void> {
    if (opened === undefined) return;
    const book = opened;
    const boxes = [...document.querySelectorAll<HTMLInputElement>(".inputs input")];
    const set = boxes
      .filter((box) => box.value !== box.defaultValue)
      .map((box) => ({ place: box.dataset.place ?? "", value: box.value.trim() }));
    const other = {
      place: at<HTMLInputElement>("#other-place").value.trim(),
      value: at<HTMLInputElement>("#other-value").value.trim(),
    };
    if (other.place !== "") set.push(other);
    if (set.length === 0) {
      say("No input was changed.");
      return;
    }
    const job = { ...jobFor(book.name, book.oursOnly), set };
    const answer = await ask({ task: "change", bytes: book.bytes, job }, "What follows is worked out");
    if (answer.result === undefined) {
      say(sentence(book.name, answer.error ?? ""), true);
      return;
    }
    book.changed = { set, result: answer.result };
    showChange(answer.result);
    say(`${counted(answer.result.recalculated.length, "cell")} changed.`);
  }

  function showChange(result: Recalculated | undefined): void {
    if (opened !== undefined && result === undefined) delete opened.changed;
    const told = at(".changes");
    if (opened === undefined || result === undefined) told.replaceChildren();
    else showTold(told, toldChanges(result, opened.sheets), "Nothing changes.");
    at(".with-changes").hidden = result === undefined;
  }

  async function saveCopy(kind: Kind): Promise<void> {
    if (opened === undefined) return;
    const { name, bytes, oursOnly, changed } = opened;
    const host = at<HTMLSelectElement>("#host").value as NonNullable<Job["host"]>;
    const set = kind === "recalculated" && changed ? { set: changed.set } : {};
    const job = { ...jobFor(name, oursOnly), host, ...set };
    const answer = await ask({ task: "copy", kind, bytes, job }, "The copy is made");
    if (answer.file === undefined) {
      say(sentence(name, answer.error ?? ""), true);
      return;
    }
    save(answer.file, namedAfter(name, kind), WORKBOOK);
    say([`The ${kind} copy was made.`, ...(answer.kept ?? []).map((why) => `${why}.`)].join(" "));
  }

  async function saveReport(): Promise<void> {
    if (opened === undefined) return;
    const { name, bytes, result, changed, oursOnly } = opened;
    const results = [changed?.result ?? result];
    const answer = await ask({ task: "report", bytes, job: jobFor(name, oursOnly), results }, "The report is written");
    if (answer.file === undefined) say(sentence(name, answer.error ?? ""), true);
    else {
      save(answer.file, namedAfter(name, "report", ".html"), "text/html");
      say("The report was written.");
    }
  }
});

function nothingToTell({ cells, nativeUnjudged }: Recalculated): string {
  if (cells === 0) return "There was nothing to compare.";
  return nativeUnjudged === undefined
    ? "Every cell holds what its formula gives."
    : "Every call of ours holds what it gives.";
}

function jobFor(name: string, oursOnly: string | undefined): Job {
  return { file: name, called: name, ...(oursOnly === undefined ? {} : { oursOnly }) };
}

/** Why there is no result, as a sentence that names the book once, or the box that is meant. */
function sentence(name: string, error: string): string {
  const whole = /^--/.test(error) || error.includes(name) ? error.replace(/^--(set )?/, "") : `${name} ${error}`;
  return `${whole}.`;
}

function showTold(place: HTMLElement, sheets: readonly ToldSheet[], nothing: string): void {
  place.replaceChildren(...(sheets.length === 0 ? [paragraph(nothing)] : sheets.flatMap(shownSheet)));
}

const HEADERS = ["Cell", "Formula", "Saved", "Now", "Verdict"];

function shownSheet({ sheet, cells }: ToldSheet): HTMLElement[] {
  const heading = document.createElement("h3");
  heading.textContent = sheet;
  const table = document.createElement("table");
  table.className = "wide";
  const head = table.createTHead().insertRow();
  for (const header of HEADERS) {
    const cell = document.createElement("th");
    cell.scope = "col";
    cell.textContent = header;
    head.append(cell);
  }
  const body = table.createTBody();
  for (const { cell, formula, saved, now, verdict } of cells.slice(0, MOST_ROWS)) {
    const row = body.insertRow();
    const first = document.createElement("th");
    first.scope = "row";
    first.textContent = cell;
    row.append(first);
    for (const [text, kind] of [
      [formula, "formula"],
      [saved, "figure"],
      [now, "figure"],
      [verdict, ""],
    ] as const) {
      const entry = row.insertCell();
      entry.textContent = text;
      if (kind !== "") entry.className = kind;
    }
  }
  const scroller = document.createElement("div");
  scroller.className = "scroller";
  scroller.tabIndex = 0;
  scroller.setAttribute("role", "region");
  scroller.setAttribute("aria-label", `Cells of ${sheet}`);
  scroller.append(table);
  if (cells.length <= MOST_ROWS) return [heading, scroller];
  return [
    heading,
    scroller,
    paragraph(`The first ${MOST_ROWS} of ${cells.length} cells are shown; the report holds all that differ.`),
  ];
}

function note(text: string): HTMLElement {
  const one = document.createElement("span");
  one.className = "optional";
  one.textContent = text;
  return one;
}
