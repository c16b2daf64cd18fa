import { type Page } from "./html";

/** A page that does in the browser what the commands recalc, vary, mend and plain do. */
export function recalculatePage(): Page {
  return {
    file: "recalculate-here.html",
    title: "Recalculate here · Yarn worksheet functions",
    description:
      "A workbook checked, recalculated, mended or made plain in this page, and what its results are known to; nothing leaves the computer.",
    scripts: ["recalculate.js"],
    body: `<h1>Recalculate here</h1>
<p class="lead">A workbook is read, checked and worked out in this page. Nothing leaves your computer, and the file itself is never changed.</p>
<noscript><p>This page works with JavaScript only.</p></noscript>
<form class="open" hidden>
<label for="workbook">Workbook (.xlsx or .xlsm); or drop one on this page</label>
<input type="file" id="workbook" accept=".xlsx,.xlsm">
</form>
<div class="at-work"><p class="said" role="status"></p><progress aria-label="Runs worked out" hidden></progress><button type="button" class="stop" hidden>Stop</button></div>
<div class="opened" hidden>
<section aria-labelledby="says"><h2 id="says">What <span class="name-of-book">it</span> says</h2>
<div class="summary"></div>
<div class="told"></div></section>
<section aria-labelledby="change"><h2 id="change">Change inputs and see what follows</h2>
<form class="change">
<p class="no-inputs">The workbook gives no cell with a value a name. Any cell can be changed below.</p>
<div class="inputs"></div>
<div class="other"><div><label for="other-place">Another cell, as Sheet!A1</label><input id="other-place" type="text" autocomplete="off" spellcheck="false"></div>
<div><label for="other-value">Its new value: a number, 3%, 2026-03-01, TRUE or a text</label><input id="other-value" type="text" autocomplete="off" spellcheck="false"></div></div>
<div class="buttons"><button type="submit">See what follows</button><button type="reset">As it was</button></div>
</form>
<div class="changes"></div></section>
<section aria-labelledby="known"><h2 id="known">What the answer is known to</h2>
<p class="no-ranges">The workbook holds no ranges. Give it a Table named <code>Ranges</code> with the headings <code>input</code>, <code>low</code>, <code>likely</code> and <code>high</code>, and this page says what its results are known to and which input matters: <a href="known-to.html#ranges">how to write it</a>.</p>
<form class="vary" hidden>
<p>Inputs are drawn from their ranges in the Table <span class="name-of-ranges"></span>, and the workbook as it is in its file is worked out each time with its own formulas: <a href="known-to.html">how to read the result</a>.</p>
<div class="fields">
<div class="choice-of-ranges" hidden><label for="ranges">Table of ranges</label><select id="ranges"></select></div>
<div><label for="runs">Runs</label><input id="runs" type="text" inputmode="numeric" autocomplete="off" value="500"></div>
<div><label for="seed">Seed: the same gives the same figures</label><input id="seed" type="text" inputmode="numeric" autocomplete="off" value="1"></div>
<div><label for="of">Results, as Cost!H12; blank for those marked</label><input id="of" type="text" autocomplete="off" spellcheck="false"></div>
<div><label for="limit">Limit, as Cost!H12&lt;4.30, or blank</label><input id="limit" type="text" autocomplete="off" spellcheck="false"></div>
</div>
<div class="buttons"><button type="submit">Draw the runs</button></div>
</form>
<div class="known"></div>
<dl class="arguments keep-known" hidden>
<dt><button type="button" data-known="report">Save the report</button></dt><dd>A page to read, print and file.</dd>
<dt><button type="button" data-known="figures">Save the figures</button></dt><dd>Every digit, a line of JSON for each result.</dd>
</dl></section>
<section aria-labelledby="save"><h2 id="save">Save</h2>
<p class="with-changes" hidden>The recalculated copy and the report hold your changed inputs.</p>
<label for="host">The copy is for</label>
<select id="host"><option value="excel">Excel</option><option value="calc">LibreOffice Calc</option></select>
<dl class="arguments">
<dt><button type="button" data-copy="recalculated">Recalculated copy</button></dt><dd>Calls of ours that differ, and what follows from them, get their true values; nothing else changes.</dd>
<dt><button type="button" data-copy="mended">Mended copy</button></dt><dd>Calls that show #NAME? for ever, because they were typed without the add-in or damaged, work again.</dd>
<dt><button type="button" data-copy="plain">Plain copy</button></dt><dd>Values in place of our formulas, each with a note of its formula, for someone without the add-in.</dd>
<dt><button type="button" data-report>Report</button></dt><dd>A page to read and file.</dd>
</dl></section>
</div>
<section aria-labelledby="limits"><h2 id="limits">Limits</h2>
<ul>
<li>The same code as the commands <code>recalc</code>, <code>vary</code>, <code>mend</code> and <code>plain</code>: copies, reports and figures are byte for byte theirs, with the first of their two engines (<code>--one-engine</code>). Native formulas are judged on the saved values of what they read, and never replaced unless what they read has changed.</li>
<li>Not more than 100 MB, 300 MB unpacked, and 120 seconds, for runs 120 seconds a block of fifty. How much memory a page may take is for the browser to say; a workbook that takes more ends with the page.</li>
<li>Links to other workbooks, macros and pictures are left as they are and not read.</li>
</ul></section>`,
  };
}
