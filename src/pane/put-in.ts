import { answersTo } from "../guide/page/matching";
import { addressParts, cellName, sheetPrefix } from "./addresses";
import { readQuestion } from "./answer";
import { button, guideLink, make } from "./elements";
import type { FunctionFacts, Listed, ParameterFacts } from "../guide/page/function-facts";
import { factsOf, listOfFunctions } from "./facts";
import { formulaText, putIn } from "./formula-writing";
import { functions, loadedVersion } from "./functions";
import { proposedHeading } from "./headings";
import { readReferences, told } from "./sheet";
import { shownResult } from "./shown";

const MOST_FOUND = 12;

/** The panel: find a function, fill its arguments from the sheet, put the formula in. Writes on the last click only. */
export async function putInPanel(): Promise<HTMLElement[]> {
  const listed = await listOfFunctions();
  const box = make("input", { id: "wanted", type: "search", autocomplete: "off", spellcheck: "false" });
  const found = make("ul", { class: "found" });
  const said = make("p", { class: "soft", role: "status" });
  const chosen = make("div");
  const choose = async (id: string) => {
    found.replaceChildren();
    said.textContent = "";
    chosen.replaceChildren(...(await form(await factsOf(id))));
    chosen.querySelector<HTMLElement>("h3")?.focus();
  };
  const search = () => {
    const asked = box.value.trim();
    const answers = asked === "" ? [] : answersTo(asked, listed.map(searched));
    found.replaceChildren(
      ...answers.slice(0, MOST_FOUND).map((place) => {
        const { id, description } = listed[place] as Listed;
        const pick = button(id, () => choose(id), "name");
        return make("li", {}, pick, ` ${description}`);
      }),
    );
    said.textContent =
      asked === "" ? "" : answers.length === 0 ? "Nothing found." : `${answers.length} found, the nearest first.`;
  };
  box.addEventListener("input", search);
  box.addEventListener("keydown", (event) => {
    if (event.key === "Enter") found.querySelector<HTMLElement>("button")?.focus();
  });
  return [
    make("h2", {}, "Put in"),
    make("label", { for: "wanted" }, "What would you call it?"),
    box,
    said,
    found,
    chosen,
  ];
}

function searched({ id, nearest, trade, description }: Listed) {
  return { id: id.toLowerCase(), nearest, trade, description, details: "" };
}

interface Target {
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
}

async function form(facts: FunctionFacts): Promise<HTMLElement[]> {
  const { id, description, parameters, returns } = facts;
  let target = await activeCell();
  const where = make("b", {}, nameOf(target));
  const fields = parameters.map((parameter) => new Field(parameter, () => target.sheet));
  const heading = make("input", { id: "heading", autocomplete: "off" });
  const bringsHeadings = /^header row/i.test(returns);
  const preview = make("pre", { class: "formula", tabindex: "0", role: "region", "aria-label": "Formula" });
  const outcome = make("div", { role: "status" });
  let ownHeading = false;
  let typed = 0;

  const formula = () =>
    formulaText(
      id,
      fields.map(({ value }) => value),
    );
  const showPreview = async () => {
    preview.textContent = formula();
    if (!ownHeading && !bringsHeadings)
      heading.value = proposedHeading(
        facts,
        fields.map(({ value }) => value),
      );
    const missing = fields.filter(({ isMissing }) => isMissing).map(({ name }) => name);
    const round = ++typed;
    const shown =
      missing.length > 0
        ? [make("p", { class: "soft" }, `Still needed: ${missing.join(", ")}.`)]
        : [await worth(formula(), target)];
    if (round === typed) outcome.replaceChildren(...shown);
  };
  for (const field of fields) field.changed = () => void showPreview();
  heading.addEventListener("input", () => (ownHeading = true));

  const write = async (replacing: boolean): Promise<void> => {
    if (fields.some(({ isMissing }) => isMissing)) return showPreview();
    const placing = {
      ...target,
      formula: formula(),
      version: loadedVersion(),
      heading: bringsHeadings ? "" : heading.value,
      replacing,
    };
    const placed = await Excel.run((context) => putIn(context, placing)).catch((fault: unknown) => ({
      inTheWay: `Excel refused: ${told(fault)}`,
      final: true,
    }));
    if ("shown" in placed) {
      outcome.replaceChildren(
        make("p", { class: "note" }, `${nameOf(target)} now shows ${placed.shown || "nothing"}.`),
      );
      return;
    }
    outcome.replaceChildren(
      make("p", { class: "note" }, placed.inTheWay),
      ...("final" in placed ? [] : [button("Replace what is there", () => write(true))]),
    );
  };
  await showPreview();
  return [
    make("h3", { tabindex: "-1" }, id),
    make("p", {}, description, " ", guideLink(`${id}.html`, `Page of ${id}`)),
    make(
      "p",
      {},
      "Goes into ",
      where,
      ". ",
      button("Take the selected cell", async () => {
        target = await activeCell();
        where.textContent = nameOf(target);
        await showPreview();
      }),
    ),
    ...fields.map(({ element }) => element),
    bringsHeadings
      ? make("p", { class: "soft" }, "The result brings its own headings.")
      : make(
          "div",
          { class: "field" },
          make("label", { for: "heading" }, "Heading for the cell above; empty for none"),
          heading,
        ),
    preview,
    button("Put it in", () => write(false), "main"),
    outcome,
  ];
}

/** What the formula would give, worked out in the pane. */
async function worth(formula: string, target: Target): Promise<HTMLElement> {
  const question = readQuestion(formula);
  try {
    const found = await Excel.run((context) =>
      readReferences(
        context,
        question.references.map((text) => ({ text, from: target })),
      ),
    );
    const cells = new Map(question.references.map((text, place) => [text, found[place] as (typeof found)[number]]));
    return shownResult(question.answer(cells, functions).rows, target);
  } catch (fault) {
    return make("p", { class: "note" }, told(fault));
  }
}

class Field {
  readonly element: HTMLElement;
  readonly name: string;
  changed: () => void = () => {};
  private readonly box: HTMLInputElement;
  private readonly needed: boolean;

  constructor({ name, optional, description, words }: ParameterFacts, sheetOfTarget: () => string) {
    this.name = name;
    this.needed = !optional;
    const id = `argument-${name}`;
    const list =
      words && make("datalist", { id: `${id}-words` }, ...words.map((word) => make("option", { value: word })));
    this.box = make("input", {
      id,
      autocomplete: "off",
      spellcheck: "false",
      "aria-describedby": `${id}-meaning`,
      ...(list ? { list: list.id } : {}),
    });
    this.box.addEventListener("input", () => this.changed());
    const fromSheet = button("Selection", async () => {
      const { sheet, cells } = await selectedAddress();
      this.box.value = sheet === sheetOfTarget() ? cells : `${sheetPrefix(sheet)}${cells}`;
      this.changed();
    });
    fromSheet.setAttribute("aria-label", `Selection for ${name}`);
    this.element = make(
      "div",
      { class: "field" },
      make("label", { for: id }, make("b", {}, name), optional ? " (optional)" : ""),
      make("div", { class: "row" }, this.box, fromSheet),
      make("p", { class: "soft", id: `${id}-meaning` }, description),
      list,
    );
  }

  get value(): string {
    return this.box.value;
  }

  get isMissing(): boolean {
    return this.needed && this.box.value.trim() === "";
  }
}

function selectedAddress(): Promise<{ sheet: string; cells: string }> {
  return Excel.run(async (context) => {
    const range = context.workbook.getSelectedRange();
    range.load("address");
    await context.sync();
    return addressParts(range.address);
  });
}

function activeCell(): Promise<Target> {
  return Excel.run(async (context) => {
    const cell = context.workbook.getSelectedRange().getCell(0, 0);
    cell.load("rowIndex,columnIndex");
    cell.worksheet.load("name");
    await context.sync();
    return { sheet: cell.worksheet.name, row: cell.rowIndex, column: cell.columnIndex };
  });
}

function nameOf({ sheet, row, column }: Target): string {
  return `${sheetPrefix(sheet)}${cellName(row, column)}`;
}
