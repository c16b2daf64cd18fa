import { callsOurs } from "../recalculate/formula-text";
import { CellError } from "../guide/page/values";
import { cellName } from "./addresses";
import { readQuestion, type Answer, type AnsweredCall, type Question } from "./answer";
import { counted, guideLink, make } from "./elements";
import type { FunctionFacts } from "../guide/page/function-facts";
import { factsOf } from "./facts";
import { functions } from "./functions";
import { readReferences, readSelection, type FormulaCell, type Selection } from "./sheet";
import { asShown, errorItem, inShort, shownResult } from "./shown";

/** More formulas than are worked out in one go. */
const MOST_FORMULAS = 400;

interface Answered {
  readonly cell: FormulaCell;
  readonly answer: Answer;
}

/** The panel: what the selected formulas give and why. Reads only. */
export async function thisCell(): Promise<HTMLElement[]> {
  const { selection, answered } = await Excel.run(async (context) => {
    const found = await readSelection(context);
    const ours = found.formulas.filter(({ formula }) => callsOurs(formula)).slice(0, MOST_FORMULAS);
    return { selection: found, answered: await answers(context, ours) };
  });
  const heading = make("h2", {}, selection.address);
  if (answered.length === 0) return [heading, make("p", {}, withoutCall(selection))];
  const [first] = answered;
  if (answered.length === 1 && first) return [heading, ...(await single(first, selection))];
  return [heading, ...several(answered)];
}

async function answers(context: Excel.RequestContext, cells: readonly FormulaCell[]): Promise<Answered[]> {
  const questions = cells.map((cell): [FormulaCell, Question] => [cell, readQuestion(cell.formula)]);
  const asked = questions.flatMap(([from, { references }]) => references.map((text) => ({ text, from })));
  const found = await readReferences(context, asked);
  let next = 0;
  return questions.map(([cell, question]) => {
    const own = question.references.map((text) => [text, found[next++] as (typeof found)[number]] as const);
    return { cell, answer: question.answer(new Map(own), functions) };
  });
}

function withoutCall({ formulas, tooLarge }: Selection): string {
  if (tooLarge) return "Too many cells are selected to look at each of them. Select a column, or one cell.";
  if (formulas.length === 0) return "No formula here. Select a cell with a YARN formula, or a column of them.";
  return formulas.length === 1
    ? "The formula here calls no YARN function."
    : "None of the formulas here calls a YARN function.";
}

async function single({ cell, answer }: Answered, selection: Selection): Promise<HTMLElement[]> {
  const facts = await Promise.all(answer.calls.map(({ id }) => factsOf(id).catch(() => undefined)));
  return [
    ...(selection.spilledFrom === undefined
      ? []
      : [make("p", { class: "soft" }, `Filled by the formula in ${selection.spilledFrom}.`)]),
    make("pre", { class: "formula", tabindex: "0", role: "region", "aria-label": "Formula" }, cell.formula),
    ...(answer.unknown.length > 0
      ? [make("p", { class: "note" }, besideOthers(cell, answer))]
      : [shownResult(answer.rows, cell), ...whatTheSheetShows(cell, answer)]),
    ...answer.calls.map((call, place) => aboutCall(call, facts[place], place === 0)),
  ];
}

function besideOthers({ shown }: FormulaCell, { unknown }: Answer): string {
  return `The sheet shows ${asShown(shown) || "nothing"}. The pane does not work out ${unknown.join(", ")}; what the YARN calls of this formula give stands below.`;
}

/** Only where the sheet shows something else than is worked out here. */
function whatTheSheetShows({ shown }: FormulaCell, { rows }: Answer): HTMLElement[] {
  const here = rows[0]?.[0] ?? null;
  if (asShown(shown) === asShown(here)) return [];
  const said = (why: string) => [
    make("p", { class: "note" }, `The sheet shows ${asShown(shown) || "nothing"}. ${why}`),
  ];
  const code = shown instanceof CellError ? shown.code : "";
  if (code === "#NAME?") return said("The call is dead: open This workbook and enter it again.");
  if (code === "#SPILL!") {
    const size = `${counted(rows.length, "row")} and ${counted(rows[0]?.length ?? 1, "column")}`;
    return said(
      `The result needs ${size}, and something stands in its way; in a table no formula may fill other cells.`,
    );
  }
  if (code === "#BUSY!" || code === "#GETTING_DATA") return said("Excel has not finished.");
  return said("Recalculate (F9); if it stays, Excel has another version of the functions: see This workbook.");
}

function aboutCall({ id, rows, given }: AnsweredCall, facts: FunctionFacts | undefined, open: boolean): HTMLElement {
  const details = make(
    "details",
    open ? { open: "" } : {},
    make("summary", {}, make("b", {}, id), ` ${inShort(rows)}`),
  );
  if (facts === undefined) {
    details.append(make("p", {}, "This function is unknown to the pane."));
    return details;
  }
  details.append(make("p", {}, facts.description, " ", guideLink(`${id}.html`, `Page of ${id}`)));
  if (!open) details.append(shownResult(rows));
  const entries = facts.parameters.map(({ name, optional, description }, place) => {
    const one = given[place];
    const came =
      one?.rows === undefined
        ? make("span", { class: "soft" }, optional ? "left out" : "missing")
        : make(
            "span",
            {},
            make("code", {}, one.written),
            one.written === inShort(one.rows) ? "" : ` = ${inShort(one.rows)}`,
          );
    return make("div", {}, make("dt", {}, make("b", {}, name), " ", came), make("dd", {}, description));
  });
  const surplus = given.length - facts.parameters.length;
  details.append(
    make("dl", {}, ...entries),
    surplus > 0 ? make("p", { class: "note" }, `${counted(surplus, "argument")} too many.`) : "",
    make(
      "p",
      { class: "soft" },
      "Rests on: ",
      facts.sources.map(([title, status]) => `${title} (${status})`).join("; "),
      ".",
    ),
  );
  if (facts.cautions.length > 0) {
    const links = facts.cautions.flatMap(([title, page], place) => [place > 0 ? ", " : "", guideLink(page, title)]);
    details.append(make("p", { class: "note" }, "Cautions: ", ...links, "."));
  }
  return details;
}

function several(answered: readonly Answered[]): HTMLElement[] {
  const errors = answered.flatMap(({ cell, answer }) =>
    // Beside functions that the pane does not work out, the outermost call of ours has to tell.
    ((answer.unknown.length > 0 ? answer.calls[0]?.rows : undefined) ?? answer.rows).flatMap((row, down) =>
      row.flatMap((value, along) =>
        value instanceof CellError ? [errorItem(cellName(cell.row + down, cell.column + along), value)] : [],
      ),
    ),
  );
  const ids = new Set(answered.flatMap(({ answer }) => answer.calls.map(({ id }) => id)));
  const most = answered.length === MOST_FORMULAS ? ` The first ${MOST_FORMULAS} formulas were worked out.` : "";
  return [
    make("p", {}, `${answered.length} formulas with ${[...ids].join(", ")}: ${errors.length} in error.${most}`),
    errors.length === 0
      ? make("p", {}, "Every one of them gives a value.")
      : make("ul", { class: "errors" }, ...errors),
    make("p", { class: "soft" }, "Select one cell to see its arguments."),
  ];
}
