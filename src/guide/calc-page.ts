import { code, escaped, scrollingTable, type Page } from "./html";

/** Sentences, with code between backquotes. */
function withCode(text: string): string {
  return text
    .split("`")
    .map((piece, place) => (place % 2 === 0 ? escaped(piece) : code(piece)))
    .join("");
}

function listed(kind: "ol" | "ul", items: readonly string[]): string {
  return `<${kind}>${items.map((item) => `<li>${withCode(item)}</li>`).join("\n")}</${kind}>`;
}

const INSTALL: readonly string[] = [
  "Install Node.js, version 20.19 or later, from nodejs.org or from your system's packages. The extension asks it for every result.",
  "On Debian and Ubuntu install the package `python3-uno` as well; elsewhere LibreOffice brings its own Python.",
  "Open yarn.oxt with LibreOffice, or add it under Tools > Extensions, and start LibreOffice again.",
  "Type `=YARN.VERSION()` in a cell. The function wizard has the functions in the category Add-in.",
];

const WHEN_WRONG: readonly string[] = [
  'A cell shows only the name of an error. The message behind it: `=YARN.WHY("COUNT";A1;"Nm";"tex")`, the function\'s name and the arguments as they were given.',
  "`=YARN.WHY()` alone says why no function works, for instance that no Node was found. A window says the same once.",
  "Node is sought in the path and where its installers put it; the environment variable `YARN_NODE` names another one.",
  "A call that takes longer than 120 seconds or more than 2 GB is given up.",
];

const OTHERWISE: readonly (readonly [thing: string, here: string])[] = [
  [
    "Results of several cells",
    "Calc has no spills: select the cells and enter the formula with Ctrl+Shift+Enter, or take one value with INDEX.",
  ],
  [
    "An error in a range",
    "Calc stops the call before it begins, so one bad cell costs the whole column. Catch it there with IFERROR.",
  ],
  ["A single blank cell", "It arrives as 0. In a range it arrives as blank."],
  [
    "TRUE and FALSE",
    "They are the numbers 1 and 0, which the functions give as well; format the cell as Boolean value to read the words.",
  ],
  ["Arguments", "The wizard calls all of them optional. Those that are needed say so."],
];

const FILES: readonly string[] = [
  "In .ods and .xlsx that Calc saves, the calls stand under their plain names and work when Calc opens them again.",
  "A workbook that Excel saved holds the calls in Excel's own form, which Calc shows as #NAME?. `npm run mend -- BOOK.xlsx NEW.xlsx --for calc` writes a copy with plain names, with array formulas where the results spilled.",
  "The other way, `npm run mend -- BOOK.xlsx NEW.xlsx` writes Excel's form. `recalc` and `plain` take `--for calc` too, and read what Calc saved: 15 digits, and numbers for TRUE and FALSE.",
  "A shape that a result has when the copy is written stays its shape: an array formula does not grow.",
];

const UNTESTED: readonly string[] = [
  "Proved: LibreOffice 7.4 on Debian 12. Every cell of the sample workbooks, without any saved value, comes out as in the other engine.",
  "The function wizard and the message that Node is missing were looked at on Debian.",
  "Not yet tried: Windows, Mac, and LibreOffice newer than 7.4.",
  "A LibreOffice that is shut into a box of its own, from Flatpak or Snap, may not be allowed to start Node.",
];

/** The functions in LibreOffice Calc: installing, what is otherwise there, what nobody has tried. */
export function calcPage(): Page {
  return {
    file: "libreoffice-calc.html",
    title: "LibreOffice Calc · Yarn worksheet functions",
    description: "The same functions in LibreOffice Calc: how to install the extension, and what is otherwise there.",
    body: `<h1>LibreOffice Calc</h1>
<p class="lead">The same functions in LibreOffice Calc, from the same file as in Excel. Nothing leaves the computer.</p>
<p><a class="download" href="../yarn.oxt" download>yarn.oxt</a></p>
<section aria-labelledby="install"><h2 id="install">Install</h2>
${listed("ol", INSTALL)}</section>
<section aria-labelledby="why"><h2 id="why">When something is wrong</h2>
${listed("ul", WHEN_WRONG)}</section>
<section aria-labelledby="otherwise"><h2 id="otherwise">What is otherwise than in Excel</h2>
${scrollingTable(
  "What is otherwise than in Excel",
  ["What", "In Calc"],
  OTHERWISE.map(([thing, here]) => [escaped(thing), withCode(here)]),
)}</section>
<section aria-labelledby="files"><h2 id="files">Workbooks for both</h2>
${listed("ul", FILES)}</section>
<section aria-labelledby="untested"><h2 id="untested">What has been tried</h2>
${listed("ul", UNTESTED)}</section>`,
  };
}
