import { code, type Page } from "./html";

/** When Excel shows #NAME? in the place of a figure: why, and how it is healed by hand, by the pane and without Excel. */
export function deadCallsPage(): Page {
  return {
    file: "dead-calls.html",
    title: "When a cell shows #NAME? · Yarn worksheet functions",
    description: "Why calls go dead in Excel, and how they are healed.",
    body: `<h1>When a cell shows #NAME?</h1>
<p class="lead">Excel did not have the functions when it calculated the cell. Such a call never comes back by itself, not even when the add-in is loaded later; it has to be entered again. Nothing is lost: the formula is still in the cell.</p>
<section aria-labelledby="by-hand"><h2 id="by-hand">By hand</h2><ol>
<li>Home &gt; Add-ins &gt; My Add-ins: click the icon of Yarn worksheet functions, even if it seems to be loaded. On some builds this alone brings the functions back.</li>
<li>Type ${code("=YARN.VERSION()")} into an empty cell. When it shows a version, the functions are there.</li>
<li>Enter the dead cells again: F2 and Enter in one of them, or for a whole workbook Find and Replace (Ctrl+H), find ${code("=")}, replace with ${code("=")}, within the workbook, look in formulas.</li>
</ol></section>
<section aria-labelledby="pane"><h2 id="pane">With the pane</h2>
<p>Home &gt; Yarn pane &gt; This workbook lists every dead call and enters all of them again, also those that another add-in has tied to a workbook that does not exist (${code("[2]!_xldudf_YARN_…")}).</p></section>
<section aria-labelledby="without"><h2 id="without">Without Excel</h2>
<p>${code("npm run mend -- BOOK.xlsx OUT.xlsx")} writes a copy in which every call is in the form that Excel binds when it opens the file.</p></section>
<section aria-labelledby="not-saved"><h2 id="not-saved">If the add-in cannot be had</h2>
<p>Close without saving: the figures in the file are still the true ones, and stand as long as nothing calculates the cells anew. ${code("npm run plain")} makes a copy with values for somebody without the add-in.</p>
<p>The functions need Excel of a Microsoft 365 subscription, Excel 2024 or later, or Excel on the web. They do not load on an iPad, nor in Excel 2021 and older under a volume licence.</p></section>
<section aria-labelledby="builds"><h2 id="builds">Builds of Excel that broke functions</h2>
<p>Reported to Microsoft's public tracker of Office.js; not seen by us.</p><ul>
<li>Version 2607 does not load functions of sideloaded add-ins (6824, 6875). Update Excel, go back to an earlier version, or have the add-in deployed by the administrator instead.</li>
<li>After several sideloaded add-ins in one session functions can be missing until Excel is started again (6126).</li>
<li>Functions that are gone after some time come back with a click on the add-in's icon (5912, 4487), and dead calls do not heal by themselves on any build (6355, 6611).</li>
<li>Windows and Mac may show no message at an error (4971, 4813); the pane shows it.</li>
<li>A new version of the functions can be up to a day late, and its list of functions may come at another time than its code (2777). The pane tells both versions; clearing the Office cache brings the new one at once.</li>
</ul></section>
<section aria-labelledby="first"><h2 id="first">Not yet tried in Excel</h2>
<p>Everything here follows from what Microsoft writes, from reports, and from files that Excel saved. <a href="first-opening.html">The first opening in Excel</a> has not happened yet.</p></section>`,
  };
}
