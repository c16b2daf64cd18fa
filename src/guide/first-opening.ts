import { code, escaped, type Page } from "./html";

interface Point {
  readonly title: string;
  readonly doThis: readonly string[];
  readonly expected: string;
  /** What the library does if it is otherwise, or whom it concerns. */
  readonly otherwise: string;
}

interface Part {
  readonly anchor: string;
  readonly title: string;
  readonly minutes: number;
  readonly points: readonly Point[];
}

/** Formulas stand between backquotes. */
const PARTS: readonly Part[] = [
  {
    anchor: "loading",
    title: "Loading",
    minutes: 6,
    points: [
      {
        title: "The add-in loads",
        doThis: [
          "Sideload manifest.xml (npm start prints how).",
          "Type `=YARN.VERSION()` in a cell of a new workbook.",
        ],
        expected:
          "The version that stands at the foot of this page, within a few seconds. No trust prompt beyond the usual one.",
        otherwise: "If #NAME? stays: note the host, its version, and what the add-in's developer console says.",
      },
      {
        title: "ReadDocument is enough",
        doThis: ["Nothing more: the manifest asks for the permission ReadDocument only."],
        expected: "The functions load and work out with this permission.",
        otherwise:
          "If the host refuses the manifest over it, the permission in the manifest has to be raised to ReadWriteDocument.",
      },
      {
        title: "The content policy of functions.html",
        doThis: ['On the web and on a Mac, type `=YARN.COUNT(24,"Nm","tex")`.', "Look at the browser's console."],
        expected:
          "41.6666666666667, and no message that the content policy blocked a script that the functions need. A blocked telemetry request is harmless.",
        otherwise: "If a script is blocked: note its address; it has to be allowed in manifest/functions.html.",
      },
      {
        title: "The manifests describe the same add-in",
        doThis: [
          "Where the host takes the unified manifest, remove the first, then install unified-manifest.zip instead (never both).",
        ],
        expected: "The same functions under the same names; a workbook saved with the one works out with the other.",
        otherwise: "Until then, deploy manifest.xml only.",
      },
      {
        title: "The guide in a pane",
        doThis: ["Open the add-in from Home > Add-ins, if the host offers to."],
        expected:
          "The index of this guide. It does not load Office.js, so a host may say after some seconds that the add-in did not start; the functions work all the same.",
        otherwise:
          "If it disturbs people, the guide's index has to load Office.js too, and its content policy has to allow it.",
      },
    ],
  },
  {
    anchor: "entering",
    title: "Entering formulas",
    minutes: 6,
    points: [
      {
        title: "Descriptions and help",
        doThis: ["Type `=YARN.CO` and choose COUNT from the list; open the function dialogue (fx)."],
        expected:
          "Description, argument names, optional ones in square brackets, the description of each argument, and a help link to this guide's page of COUNT.",
        otherwise: "Note what is missing or cut off, and after how many characters.",
      },
      {
        title: "functions.json is within the limits",
        doThis: ["On desktop Excel, look through the list after `=YARN.`"],
        expected: "Every function of this guide is there, the last families too. (The file must stay below 1 MB.)",
        otherwise: "If the tail is missing, the file is too large for this host: descriptions have to be shortened.",
      },
      {
        title: "One formula, a whole column",
        doThis: ["Put 20, 24 and 30 in A1:A3.", 'In B1 type `=YARN.COUNT(A1:A3,"Nm","tex")`.'],
        expected:
          'B1:B3 fill with 50, 41.67 and 33.33. In an Excel Table the row-wise form `=YARN.COUNT([@Count],"Nm","tex")` does the same.',
        otherwise: "A #SPILL! means something stands below B1.",
      },
      {
        title: "Left out means the default",
        doThis: [
          'Type `=YARN.PLYCOUNT(34,2,"tex")`, `=YARN.PLYCOUNT(34,2,"tex",)` and `=YARN.PLYCOUNT(34,2,"tex",,)`.',
        ],
        expected: "68 three times.",
        otherwise: "An omitted argument then arrives as something else than null on this host.",
      },
    ],
  },
  {
    anchor: "cells",
    title: "What cells hand over",
    minutes: 6,
    points: [
      {
        title: "A blank cell: 0 or nothing",
        doThis: ["Leave E1 blank.", 'Type `=YARN.COUNT(E1,"Nm","tex")`.'],
        expected:
          "#VALUE!. Its message says blank where the host hands over nothing (the web), and 0 where it hands over a zero (the desktop).",
        otherwise: "Note which host says which; both are meant to be harmless.",
      },
      {
        title: "A blank row in a column",
        doThis: ["Blank A2 of the column above."],
        expected: "B2 looks empty, or shows an error where the host hands over a zero; B1 and B3 keep their values.",
        otherwise: "Note it.",
      },
      {
        title: "An error value in a column",
        doThis: ["Put `=1/0` in A2."],
        expected:
          "B2 shows #DIV/0!; B1 and B3 keep their values. So error values reach the functions (allowErrorForDataTypeAny), and their form is one of the two that are understood.",
        otherwise: "If all of B1:B3 fails, the host does not honour the flag; if B2 shows something else, note what.",
      },
      {
        title: "Numbers from formulas, dates and percents",
        doThis: [
          "Put `=DATE(2026,11,2)` in one cell and 18.25 % in another.",
          "Refer to them in a function that takes a date (EXCHANGE) and a regain (CONDITIONED).",
        ],
        expected: "The date counts as its serial number and the percent as 0.1825.",
        otherwise: "Note what arrived; the message names it.",
      },
    ],
  },
  {
    anchor: "errors",
    title: "Error messages",
    minutes: 3,
    points: [
      {
        title: "The message of a refused argument",
        doThis: ['Type `=YARN.COUNT(20,"Ne","tex")` and open the card at the error mark of the cell.'],
        expected: "#VALUE!, and a card with the text that asks for NeC (cotton) or NeW (worsted).",
        otherwise: "Note whether the card shows nothing, or cuts the text off.",
      },
      {
        title: "The message of #N/A, and of a bad row",
        doThis: ['Type `=YARN.REGAIN("unobtainium")`.', "Make one row of a column bad and open the card of its cell."],
        expected: "#N/A with a message; the bad row of a spilled column has its own card.",
        otherwise: "Messages inside spilled results may be missing on some hosts: note which.",
      },
    ],
  },
  {
    anchor: "workbooks",
    title: "Workbooks",
    minutes: 7,
    points: [
      {
        title: "A generated workbook binds on opening",
        doThis: [
          "With the add-in loaded, open a workbook of sample-workbooks.",
          "Press F2 and Enter in one YARN cell; then recalculate all (Ctrl+Alt+F9).",
        ],
        expected: "No repair message. Formulas show as =YARN.… without an @ in front, and values do not change.",
        otherwise:
          "If #NAME? stays until each cell is entered again, the stored form _xldudf_YARN_… does not bind on this host.",
      },
      {
        title: "Spills are true spills",
        doThis: ["Select a cell inside a spilled table of that workbook."],
        expected:
          'A thin border round the whole table, and the formula greyed in the formula bar; not {=…} in braces. (The cells were saved with cm="1" and the dynamic-array part in xl/metadata.xml, whose entry has no attribute adjust="1", as Excel itself saved it.)',
        otherwise: "Save the workbook, and compare xl/metadata.xml with the one we wrote.",
      },
      {
        title: "A recipient without the add-in",
        doThis: ["Open the same workbook on a computer or in an account without the add-in.", "Do not recalculate."],
        expected:
          "All values are there. After editing an input the cells that depend on it show #NAME?, and nothing else is lost; closing without saving restores it.",
        otherwise: "Note it.",
      },
      {
        title: "Saved by Excel, read by us",
        doThis: ["Save the workbook in Excel under a new name.", "Run npm run recalc on it."],
        expected: "No cell changes.",
        otherwise: "Keep the file: it shows what Excel writes otherwise than we do.",
      },
    ],
  },
  {
    anchor: "updating",
    title: "Updating (needs a second day)",
    minutes: 2,
    points: [
      {
        title: "A new version arrives",
        doThis: [
          "Upload a build of a later version to the same address.",
          "Look at `=YARN.VERSION()` at once, after starting Excel again, and after 24 hours.",
        ],
        expected: "The new version after 24 hours at the latest; clearing the Office cache brings it at once.",
        otherwise: "Note how long it took and on which host.",
      },
      {
        title: "Unit words as a list",
        doThis: [
          "None yet: hosts that support custom enumerations could offer the count systems as a list while typing.",
        ],
        expected: "The library does not use it; the words are typed.",
        otherwise: "If your host shows such lists for other add-ins, say so: it would help here.",
      },
    ],
  },
];

export function firstOpeningPage(): Page {
  const minutes = PARTS.reduce((sum, part) => sum + part.minutes, 0);
  let number = 0;
  const parts = PARTS.map(({ anchor, title, minutes: own, points }) => {
    const first = number + 1;
    number += points.length;
    return `<section aria-labelledby="${anchor}"><h2 id="${anchor}">${escaped(title)} <span class="minutes">${own} min</span></h2>
<ol class="points" start="${first}">
${points.map(pointItem).join("\n")}
</ol></section>`;
  });
  return {
    file: "first-opening.html",
    title: "First opening in Excel · Yarn worksheet functions",
    description: "What could not be tested without Excel, as a checklist with what is expected.",
    body: `<h1>First opening in Excel</h1>
<p class="lead">The library was built and tested without Excel at hand. What only Excel can show stands here, as a checklist of ${number} points for the first person who has it: about ${minutes} minutes.</p>
<p>Do it once on each host you can reach: Windows, Mac, web. Write down the host, its version, and every point that came out otherwise.</p>
${parts.join("\n")}`,
  };
}

function pointItem({ title, doThis, expected, otherwise }: Point): string {
  return `<li><h3>${escaped(title)}</h3>
<p>${doThis.map(withCode).join(" ")}</p>
<dl><dt>Expected</dt><dd>${withCode(expected)}</dd><dt>Otherwise</dt><dd>${withCode(otherwise)}</dd></dl></li>`;
}

function withCode(text: string): string {
  return text
    .split("`")
    .map((part, place) => (place % 2 === 1 ? code(part) : escaped(part)))
    .join("");
}
