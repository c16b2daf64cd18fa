import { code, escaped, type Page } from "./html";

/** What one person looks at in Excel, once: what to do, what is to be seen, and what in the project is to be changed if it is not. */
interface Step {
  readonly title: string;
  readonly minutes: number;
  readonly doThis: string;
  readonly see: string;
  readonly change: string;
}

/** Formulas, file names and commands stand between backquotes. The first decides most. */
const STEPS: readonly Step[] = [
  {
    title: "The functions load",
    minutes: 2,
    doThis:
      "Run `npm run sideload` on the computer with Excel and wait for the workbook. Type `=YARN.VERSION()` in A10.",
    see: "The version that stands at the foot of this page, within a few seconds, and no prompt beyond the one for a trusted add-in.",
    change:
      "#NAME? that stays is the build of Excel or the loading, not the formula: follow the page on dead calls, and note build and host. A refused manifest: the host names the element; it is in `manifest/manifest.xml`.",
  },
  {
    title: "An error inside a returned array",
    minutes: 2,
    doThis: 'Type 24, -3 and 30 into A1:A3 and `=YARN.COUNT(A1:A3,"Nm","tex")` into B1.',
    see: "B1:B3 fill with 41.6666666666667, #VALUE! and 33.3333333333333: the slip stays in its row.",
    change:
      "If the whole of B1:B3 is one error: `npm run sideload -- --runtime shared`, and look again (a build to upload takes the same option). If that heals it, make `shared` the default of `build` in `src/build/build.mjs`. If not, a result with an error in it has to be refused as a whole in `src/sheet/lift.ts`, with the row in the message.",
  },
  {
    title: "The message of an error",
    minutes: 1,
    doThis: "Click the mark at B2 and open its card.",
    see: "The text: value is -3; must be a number above 0.",
    change:
      "Nothing: some hosts show no messages (on the web they are shown). The pane shows them on every host. Note which host showed what, for the page of Errors in the guide.",
  },
  {
    title: "An error value that comes in",
    minutes: 1,
    doThis: "Type `=1/0` into A2.",
    see: "B2 shows #DIV/0!; B1 and B3 keep their numbers.",
    change:
      "If all of B1:B3 is an error, the host passes over `allowErrorForDataTypeAny`, set in `src/build/build.mjs`: note it as a limit in MANUAL.md. If B2 alone shows something else, its form is a third one: write it into `src/sheet/cells.ts`.",
  },
  {
    title: "Blanks, and arguments that are left out",
    minutes: 1,
    doThis: 'Empty A2. Type `=YARN.PLYCOUNT(34,2,"tex")` into D1 and `=YARN.PLYCOUNT(34,2,"tex",)` into D2.',
    see: "B2 looks empty, or is #VALUE! where the host hands over a zero; B1 and B3 keep their numbers. D1 and D2 show 68.",
    change: "If D2 differs, what is left out arrives in a third form: write it into `src/sheet/arguments.ts`.",
  },
  {
    title: "The list, the help and the drop-downs",
    minutes: 1,
    doThis:
      "Type `=YARN.` and look at the end of the list. Go on to `=YARN.COUNT(24,` and look for a list of words. Press fx.",
    see: "The last functions of this guide are in the list; a list of count systems opens after the comma; the dialogue names the arguments and links to the page of COUNT.",
    change:
      "If functions are missing at the end, `functions.json` is too long for this host: shorten descriptions. If no list of words opens, the host takes such lists for single values only: nothing to change, the words are typed. If Excel stumbles over the lists, leave out `enums` in `src/build/build.mjs`.",
  },
  {
    title: "The pane",
    minutes: 2,
    doThis: "Press Yarn pane on the Home tab. Select B2; then look at This workbook; then put any function in.",
    see: "The message of B2 with the arguments below it; the number of live calls and twice the same version; the formula in the cell that was selected.",
    change:
      "An empty pane: open the developer tools in it. A script that the content policy blocked is allowed in `src/pane/pane.html`. No button: its place is in `manifest/manifest.xml`. A refusal to write: note its words; the permission is in the same file.",
  },
  {
    title: "A workbook of ours, with the add-in",
    minutes: 2,
    doThis: "Open a workbook of `sample-workbooks`. Look at a cell of a table that fills several rows. Close it again.",
    see: "No repair. Formulas read =YARN.… without @ in front; a thin border stands round the whole table; its About sheet says yes to the question whether the library is loaded; closing asks nothing.",
    change:
      "A repair: keep what Excel says, and add its cause to `tests/support/file-faults.ts`. #NAME? until a cell is entered again: the stored form in `src/recalculate/stored-form.ts` does not bind here. A question on closing: compare `calcPr` in `xl/workbook.xml` with what Excel saves.",
  },
  {
    title: "The same workbook without the add-in",
    minutes: 1,
    doThis: "Remove the add-in (`npm run sideload -- --stop`), start Excel again and open the workbook.",
    see: "Every figure is there, no #NAME?, and closing asks nothing.",
    change:
      "#NAME? at once means that Excel calculated the book anew: its number in `calcPr` is newer than `CURRENT_CALCULATION` in `src/recalculate/stored-form.ts`.",
  },
  {
    title: "Mending",
    minutes: 2,
    doThis:
      "Still without the add-in, change one grey input, so that cells turn to #NAME?, and save under a new name. Load the add-in again, open that file, and press Enter again in the pane.",
    see: "The figures are back; `npm run recalc` on the file tells no difference.",
    change:
      "If cells stay dead, note what stands in the formula bar: the forms that are known are in `src/recalculate/formula-text.ts`. If `recalc` tells differences, keep the file: it shows what Excel writes otherwise than we do.",
  },
];

/** What needs another day or another manifest. */
const LATER: readonly string[] = [
  "A later version at the same address: `=YARN.VERSION()` shows it after 24 hours at the latest; the pane says so until then.",
  "`unified-manifest.zip` in the place of the manifest (never both): the same functions and the same button; a workbook saved with the one works with the other.",
  "The other hosts: Windows, Mac, web. A form for each.",
];

export function firstOpeningPage(): Page {
  const minutes = STEPS.reduce((sum, step) => sum + step.minutes, 0);
  return {
    file: "first-opening.html",
    title: "First opening in Excel · Yarn worksheet functions",
    description: "A form for the first person who has Excel: what to see, and what to change if it is not so.",
    scripts: ["first-opening.js"],
    body: `<h1>First opening in Excel</h1>
<p class="lead">The first opening has not happened yet: the library was built and tested without Excel at hand. This form is for the first person who has it: ${STEPS.length} steps, about ${minutes} minutes, once. What it finds decides the last open questions.</p>
<form class="opening">
<div class="field"><label for="host">Excel: host and build, as File &gt; Account says</label><input id="host" autocomplete="off"></div>
<ol class="points">
${STEPS.map(stepItem).join("\n")}
</ol>
<section aria-labelledby="found" hidden><h2 id="found">What was found</h2>
<p>Nothing is kept or sent: copy this before the page is closed, and put it into the project.</p>
<label for="report">The filled form</label>
<textarea id="report" rows="14" readonly></textarea>
<button type="button">Copy it</button> <span role="status"></span></section>
</form>
<section aria-labelledby="later"><h2 id="later">Another day</h2><ul>
${LATER.map((text) => `<li>${withCode(text)}</li>`).join("\n")}
</ul></section>`,
  };
}

function stepItem({ title, minutes, doThis, see, change }: Step, place: number): string {
  const name = `step-${place + 1}`;
  const choice = (value: string, text: string) =>
    `<label class="choice"><input type="radio" name="${name}" value="${value}"> ${text}</label>`;
  return `<li data-title="${escaped(title)}"><h2>${escaped(title)} <span class="minutes">${minutes} min</span></h2>
<p>${withCode(doThis)}</p>
<dl><dt>To be seen</dt><dd>${withCode(see)}</dd><dt>If it is otherwise</dt><dd>${withCode(change)}</dd></dl>
<fieldset><legend>${escaped(title)}: what was seen</legend>${choice("as said", "as said")}${choice("otherwise", "otherwise")}
<label for="${name}-note">Note</label><input id="${name}-note" autocomplete="off"></fieldset></li>`;
}

function withCode(text: string): string {
  return text
    .split("`")
    .map((part, place) => (place % 2 === 1 ? code(part) : escaped(part)))
    .join("");
}
