import { scrollingTable, type Page } from "./html";

const RANGES = [
  ["SpinningLoss", "0.02", "0.03", "0.045", "", ""],
  ["Inputs!C24", "6.60", "", "7.25", "normal", ""],
  ["Inputs!C25", "6.15", "", "6.80", "normal", "Inputs!C24"],
  ["Cost!H12", "", "", "", "outcome", ""],
];

/** How to read what a figure is known to, and what that does not say. */
export function knownToPage(): Page {
  return {
    file: "known-to.html",
    title: "What a figure is known to · Yarn worksheet functions",
    description:
      "Inputs drawn from their ranges through your own workbook: how to read the result, and what it does not say.",
    body: `<h1>What a figure is known to</h1>
<p class="lead">Yields, moistures, losses and rates are each known to a few per cent. The command <code>vary</code> draws them from their ranges, works your own workbook out each time, and tells what the quote is known to and which figure is worth measuring better.</p>
<pre class="syntax" tabindex="0" role="region" aria-label="Command"><code>npm run vary -- sample-workbooks/order-to-landed-cost.xlsx</code></pre>
<p>The page <a href="recalculate-here.html">Recalculate here</a> does the same with a workbook that is dropped on it, without a command: same runs and same seed, same figures.</p>
<section aria-labelledby="ranges"><h2 id="ranges">The ranges</h2>
<p>They stand in the workbook itself, in a Table named <code>Ranges</code> (or in the only Table with these headings), on any sheet:</p>
${scrollingTable("Example of a Table of ranges", ["input", "low", "likely", "high", "shape", "moves with"], RANGES, [1, 2, 3])}
<ul>
<li><strong>input</strong>: a cell with a typed number, or its name. <strong>low</strong>, <strong>likely</strong>, <strong>high</strong> in the unit of that cell; a blank likely is what the cell holds.</li>
<li><strong>shape</strong>, which may be left out: triangle (where nothing is said), normal with 5 % of its cases below low and 5 % above high, even, or list (<code>0.04; 0.05; 0.06</code> in place of the three). A row of shape <strong>outcome</strong> names a result instead of an input.</li>
<li><strong>moves with</strong>, which may be left out: another input that rises and falls together with this one, as prices of one market do.</li>
</ul>
<p>The sheet Known to of the workbook <a href="sample-workbooks.html">order-to-landed-cost</a> holds such a Table, with invented figures.</p></section>
<section aria-labelledby="read"><h2 id="read">How to read it</h2>
<ul>
<li><strong>5 % and 95 % lie below</strong>: nine runs in ten are between the two. That, and not the mean alone, is what a quote is known to.</li>
<li><strong>Mean against the file</strong>: where ranges reach further to one side, the mean lies off the figure that the workbook shows. The difference is what such a workbook quietly leaves out.</li>
<li><strong>Chance of a limit</strong> (<code>--limit "Cost!H12&lt;4.30"</code>): how often the result keeps to it.</li>
<li><strong>Part of the variance</strong>: what would be gone of the spread (squared) if that input were known exactly. The first line is the one to measure better; one of a few per cent is known well enough.</li>
<li><strong>Lowest and highest tenth</strong>: where the result lies on average when that input is at its end, with all others moving.</li>
<li><strong>Standard error</strong>: what so few runs leave open. More runs make it smaller and the spread no smaller.</li>
</ul></section>
<section aria-labelledby="not"><h2 id="not">What it does not say</h2>
<ul>
<li>Whether the ranges are right: the result is no better than they are. Take them from your own tests and invoices.</li>
<li>Whether the workbook is right: what it leaves out, and every cell without a range, adds no doubt here.</li>
<li>What goes together, unless <em>moves with</em> says so. Prices that rise together and are drawn apart make a total look better known than it is.</li>
<li>What the worst case is: beyond 5 and 95 % lies one run in ten.</li>
</ul>
<p>A result that rests on a formula whose saved value is not reproduced here is refused. <code>--one-by-one</code> gives the table that <a href="SWING.html">SWING</a> takes, <code>--seek "Cost!H12=4.00" --by Inputs!B12</code> the input that meets a wanted result, <code>--report</code> a page or a sheet to file.</p>
</section>`,
  };
}
