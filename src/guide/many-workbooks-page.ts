import { readFileSync } from "node:fs";
import { escaped, type Page } from "./html";

/** The files that the page shows; tests run them as they are. */
export const MANY_WORKBOOKS = "src/guide/many-workbooks";

/** Auditing thousands of workbooks, on one machine and on several. */
export function manyWorkbooksPage(): Page {
  return {
    file: "many-workbooks.html",
    title: "Many workbooks · Yarn worksheet functions",
    description: "Audit thousands of workbooks: lists, resuming after a stop, batches on several machines.",
    body: `<h1>Many workbooks</h1>
<p class="lead">A group that checks every workbook of its mills runs one command over a list. What was done before a stop is not done again.</p>
<section aria-labelledby="one"><h2 id="one">One machine</h2>
<pre class="syntax" tabindex="0" role="region" aria-label="Command"><code>recalc --from workbooks.txt --out-dir copies --resume lines.jsonl</code></pre>
<ul>
<li><code>--from</code> takes a list, one workbook a line; <code>-</code> is standard input. Folders and patterns work too.</li>
<li><code>--out-dir</code> gets a recalculated copy of each, under its own name. The originals are only read.</li>
<li><code>--resume</code> names a file of JSON lines, one a workbook, written as each ends. Given again after a stop, with the same options, it passes over what its lines tell: the same content (<code>digest</code>), the same <code>version</code>, the copy in its place.</li>
<li>A line with <code>code</code> has no result. <code>unreadable</code> stays so until the file changes; <code>too long</code>, <code>out of memory</code> and <code>internal</code> are tried again.</li>
<li>All processors are used, each workbook within 2 GB and 120 seconds (<code>--seconds</code>). Memory does not grow with the list. The command ends with 0, with 1 where a cell differs, with 2 where a workbook could not be read.</li>
</ul></section>
${shown("parallel", "Several machines: GNU parallel", "batches.sh", "Workbooks do not need each other, so batches of 50 can go anywhere that sees the same folder.")}
${shown("make", "Make", "Makefile", "The same batches where a build tool is at hand and GNU parallel is not.")}
${shown("kubernetes", "Kubernetes", "job.yaml", "An indexed Job with the same command. Its form is checked, but it was not run on a cluster.")}`,
  };
}

function shown(id: string, title: string, file: string, sentence: string): string {
  const text = readFileSync(`${MANY_WORKBOOKS}/${file}`, "utf8");
  return `<section aria-labelledby="${id}"><h2 id="${id}">${title}</h2>
<p>${sentence} <a href="many-workbooks/${file}" download>${file}</a></p>
<pre class="syntax" tabindex="0" role="region" aria-label="${file}"><code>${escaped(text)}</code></pre></section>`;
}
