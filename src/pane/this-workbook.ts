import { cellName, sheetPrefix } from "./addresses";
import { button, counted, guideLink, make } from "./elements";
import { MADE_WITH } from "./formula-writing";
import { loadedVersion } from "./functions";
import { supports } from "./sheet";
import { revive, takeCensus, type Census, type DeadCall, type Revival } from "./workbook";

const MOST_LISTED = 40;
export interface WorkbookState extends Census {
  readonly madeWith?: string;
}

/** The panel: are the functions live in this book. Reads; enters dead calls again on a click only. */
export async function thisWorkbook(again: (result: Revival) => void, result?: Revival): Promise<HTMLElement[]> {
  const state = await Excel.run(async (context): Promise<WorkbookState> => {
    const madeWith = await versionNoted(context);
    return { ...(await takeCensus(context)), ...(madeWith === undefined ? {} : { madeWith }) };
  });
  const { live, dead, unread } = state;
  return [
    make("h2", {}, "This workbook"),
    make("p", {}, liveSentence(state)),
    ...(result === undefined ? [] : [revived(result)]),
    ...(dead.length === 0 ? [] : deadCalls(dead, again)),
    ...unread.map((why) => make("p", { class: "note" }, `Not looked through: ${why}`)),
    make("h3", {}, "Versions"),
    versions(state),
    ...(live + dead.length === 0 ? [make("p", {}, "Put in writes the first one.")] : []),
  ];
}

async function versionNoted(context: Excel.RequestContext): Promise<string | undefined> {
  if (!supports("1.7")) return undefined;
  const noted = context.workbook.properties.custom.getItemOrNullObject(MADE_WITH);
  noted.load("value");
  try {
    await context.sync();
  } catch {
    return undefined;
  }
  return noted.isNullObject ? undefined : String(noted.value);
}

function liveSentence({ live, dead }: Census): string {
  if (live + dead.length === 0) return "No cell calls a YARN function.";
  if (dead.length === 0) return `${cells(live)} and all are live.`;
  if (live === 0) return `${cells(dead.length)}, and none is live: each shows #NAME? or is stored in a damaged form.`;
  return `${cells(live + dead.length)}: ${live} live, ${dead.length} dead.`;
}

function cells(number: number): string {
  return number === 1 ? "1 cell calls YARN functions" : `${number} cells call YARN functions`;
}

function deadCalls(dead: readonly DeadCall[], again: (result: Revival) => void): HTMLElement[] {
  const items = dead
    .slice(0, MOST_LISTED)
    .map(({ sheet, row, column, typed }) =>
      make("li", {}, make("b", {}, `${sheetPrefix(sheet)}${cellName(row, column)}`), " ", make("code", {}, typed)),
    );
  const more = dead.length - items.length;
  return [
    make(
      "p",
      {},
      "A dead call never comes back by itself. Entering it again makes Excel look the function up; nothing else of the cell changes.",
    ),
    button(
      dead.length === 1 ? "Enter it again" : `Enter all ${dead.length} again`,
      async () => again(await Excel.run((context) => revive(context, dead))),
      "main",
    ),
    make("ul", { class: "errors" }, ...items, more > 0 ? make("li", {}, `and ${more} more`) : undefined),
  ];
}

function revived({ entered, alive, refused }: Revival): HTMLElement {
  const line =
    alive === entered
      ? `${counted(entered, "call")} entered again; none shows #NAME? now.`
      : `${counted(entered, "call")} entered again; ${entered - alive} still show #NAME?.`;
  const why = [
    make(
      "p",
      {},
      "Excel has not loaded the functions: Home > Add-ins > My Add-ins, choose Yarn worksheet functions, then enter the calls again. ",
    ),
    make("p", {}, guideLink("dead-calls.html", "If that does not help")),
  ];
  return make(
    "div",
    { class: "note" },
    make("p", {}, line),
    ...(alive === entered ? [] : why),
    ...refused.map((refusal) => make("p", {}, `Excel refused: ${refusal}`)),
  );
}

function versions({ loaded, madeWith }: WorkbookState): HTMLElement {
  const here = loadedVersion();
  const line = (name: string, value: string) => [make("dt", {}, make("b", {}, name)), make("dd", {}, value)];
  const inExcel = loaded.length === 0 ? "not told: no live cell holds =YARN.VERSION()" : loaded.join(", ");
  const older =
    "Excel keeps another copy of the functions, for up to a day. Clear the Office cache, or start Excel again tomorrow.";
  return make(
    "div",
    {},
    make(
      "dl",
      {},
      ...line("In this pane", here),
      ...line("In Excel's cells", inExcel),
      ...line("The workbook was made with", madeWith ?? "not noted"),
    ),
    loaded.some((version) => version !== here) ? make("p", { class: "note" }, older) : undefined,
  );
}
