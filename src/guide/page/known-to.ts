import { at, namedAfter, paragraph, save } from "./elements";
import type { Progress, Varied } from "./varied";
import type { Answer, Asked } from "./recalculate-worker";

/** What the rest of the page does for this part of it. */
interface Around {
  /** Asks the worker about the workbook that is open, and says on the page why there is no answer. */
  ask(asked: Pick<Asked & { task: "vary" }, "task" | "words">, doing: string): Promise<Answer | undefined>;
  nameOfBook(): string;
  say(text: string): void;
}

const BOXES = ["ranges", "runs", "seed", "of", "limit"] as const;

/** The part of the page that says what results are known to when inputs move over their ranges. */
export class KnownTo {
  private found: Varied | undefined;

  constructor(private readonly around: Around) {
    at("form.vary").addEventListener("submit", (event) => {
      event.preventDefault();
      void this.run();
    });
    at("[data-known=report]").addEventListener("click", () =>
      this.keep("known-to.html", "text/html", ({ report }) => report),
    );
    at("[data-known=figures]").addEventListener("click", () =>
      this.keep("known-to.jsonl", "application/jsonl", ({ figures }) => figures),
    );
  }

  /** For another workbook, with these Tables of ranges. */
  offer(tables: readonly string[]): void {
    this.show(undefined);
    at("form.vary").hidden = tables.length === 0;
    at(".no-ranges").hidden = tables.length > 0;
    at(".name-of-ranges").textContent = tables.length === 1 ? (tables[0] ?? "") : "chosen below";
    at(".choice-of-ranges").hidden = tables.length < 2;
    at("#ranges").replaceChildren(...tables.map((name) => new Option(name, name)));
  }

  private async run(): Promise<void> {
    this.show(undefined);
    const given = BOXES.map((name) => [name, at<HTMLInputElement>(`#${name}`).value.trim()] as const);
    const words = Object.fromEntries(given.filter(([, value]) => value !== ""));
    const began = performance.now();
    const answer = await this.around.ask({ task: "vary", words }, "Runs are drawn and worked out");
    if (answer?.varied === undefined) return;
    this.show(answer.varied);
    this.around.say(`The runs were worked out in ${((performance.now() - began) / 1000).toFixed(1)} seconds.`);
  }

  private show(found: Varied | undefined): void {
    this.found = found;
    const place = at(".known");
    place.replaceChildren(...(found?.head ?? []).map(small));
    // Made by the code that makes the report: what a workbook says stands in it as text.
    place.insertAdjacentHTML("beforeend", found?.onPage ?? "");
    at(".keep-known").hidden = found === undefined;
  }

  private keep(what: string, type: string, of: (found: Varied) => string): void {
    if (this.found === undefined) return;
    const [, stem = "", ending = ""] = /^(.*)(\..*)$/.exec(what) ?? [];
    save(of(this.found), namedAfter(this.around.nameOfBook(), stem, ending), type);
    this.around.say("The file was written.");
  }
}

function small(text: string): HTMLElement {
  const one = paragraph(text);
  one.className = "small";
  return one;
}

/** Shows how far the worker is. */
export function showProgress(progress: Progress | undefined): void {
  const bar = at<HTMLProgressElement>(".at-work progress");
  bar.hidden = progress === undefined;
  if (progress !== undefined) Object.assign(bar, { max: progress.whole, value: progress.finished });
}
