import "./functions";
import { button, guideLink, make } from "./elements";
import { putInPanel } from "./put-in";
import { supports, told } from "./sheet";
import { thisCell } from "./this-cell";
import { thisWorkbook } from "./this-workbook";
import type { Revival } from "./workbook";

/** The pane beside the sheet: three panels, of which one is shown and kept up to date. */
interface Panel {
  readonly name: string;
  readonly purpose: string;
  readonly fill: () => Promise<HTMLElement[]>;
  /** Filled anew whenever other cells are selected; otherwise when it is opened. */
  readonly followsSelection: boolean;
}

let revival: Revival | undefined;

const PANELS: Readonly<Record<string, Panel>> = {
  cell: {
    name: "This cell",
    purpose: "What the selected formula gives, and why",
    fill: thisCell,
    followsSelection: true,
  },
  workbook: {
    name: "This workbook",
    purpose: "Are the functions live in this workbook",
    fill: async () => {
      const last = revival;
      revival = undefined;
      return thisWorkbook((result) => {
        revival = result;
        void show("workbook");
      }, last);
    },
    followsSelection: false,
  },
  "put-in": {
    name: "Put in",
    purpose: "Find a function and put its formula in",
    fill: putInPanel,
    followsSelection: false,
  },
};

const FIRST = "cell";
let open = FIRST;
/** Answers of Excel can overtake each other; only the youngest is shown. */
let round = 0;

async function show(id: string): Promise<void> {
  open = id;
  const own = ++round;
  for (const tab of document.querySelectorAll<HTMLElement>("[role=tab]")) {
    const selected = tab.id === `tab-${id}`;
    tab.setAttribute("aria-selected", String(selected));
    tab.tabIndex = selected ? 0 : -1;
  }
  const panel = document.getElementById("panel") as HTMLElement;
  panel.setAttribute("aria-labelledby", `tab-${id}`);
  panel.setAttribute("aria-busy", "true");
  const content = await (PANELS[id] as Panel).fill().catch((fault: unknown) => refusal(id, fault));
  if (own !== round) return;
  panel.replaceChildren(...content);
  panel.removeAttribute("aria-busy");
}

function refusal(id: string, fault: unknown): HTMLElement[] {
  const { code } = fault as { code?: string };
  const why: Readonly<Record<string, string>> = {
    InvalidSelection: "Several separate areas are selected. Select one.",
    InvalidOperationInCellEditMode: "Excel is waiting for the cell that is being edited. Press Enter or Esc there.",
  };
  const known = code === undefined ? undefined : why[code];
  return [make("p", { class: "note" }, known ?? `Excel refused: ${told(fault)}`), button("Try again", () => show(id))];
}

function tabs(): HTMLElement {
  const list = make("div", { role: "tablist", "aria-label": "Yarn pane" });
  for (const [id, { name, purpose }] of Object.entries(PANELS)) {
    const tab = make(
      "button",
      { type: "button", role: "tab", id: `tab-${id}`, "aria-controls": "panel", title: purpose },
      name,
    );
    tab.addEventListener("click", () => void show(id));
    list.append(tab);
  }
  list.addEventListener("keydown", ({ key }) => {
    const step = { ArrowRight: 1, ArrowLeft: -1 }[key];
    if (step === undefined) return;
    const ids = Object.keys(PANELS);
    const next = ids[(ids.indexOf(open) + step + ids.length) % ids.length] as string;
    void show(next);
    document.getElementById(`tab-${next}`)?.focus();
  });
  return list;
}

/** Without Excel beside it, or with one that is too old, the page says so and leads to the guide. */
function alone(why: string): void {
  document.body.replaceChildren(
    make(
      "main",
      {},
      make("h1", {}, "Yarn pane"),
      make("p", {}, why),
      make("p", {}, guideLink("index.html", "The guide of the functions")),
    ),
  );
}

async function start(): Promise<void> {
  if (!("Office" in globalThis))
    return alone("This page works beside a sheet in Excel; Office.js could not be loaded.");
  const { host } = await Office.onReady();
  if (host !== Office.HostType.Excel) return alone("This page works beside a sheet in Excel.");
  if (!supports("1.1")) return alone("This Excel is too old for the pane; the functions do not need it.");
  document.body.replaceChildren(
    tabs(),
    make("main", { id: "panel", role: "tabpanel", tabindex: "0" }),
    make(
      "footer",
      {},
      button("Read again", () => show(open)),
      guideLink("index.html", "Guide"),
      guideLink("privacy-and-licence.html#pane", "Reads by itself, writes on a click"),
    ),
  );
  await show(FIRST);
  if (supports("1.2")) {
    await Excel.run(async (context) => {
      context.workbook.onSelectionChanged.add(async () => {
        if ((PANELS[open] as Panel).followsSelection) await show(open);
      });
      await context.sync();
    }).catch(() => undefined);
  }
}

document.addEventListener("DOMContentLoaded", () => void start());
