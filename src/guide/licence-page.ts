import { escaped, type Page } from "./html";

export function privacyAndLicencePage(licence: string): Page {
  const paragraphs = licence
    .split(/\n\s*\n/)
    .map((paragraph) => `<p>${escaped(paragraph.trim())}</p>`)
    .join("\n");
  return {
    file: "privacy-and-licence.html",
    title: "Privacy and licence · Yarn worksheet functions",
    description: "Nothing is collected; the licence of the library.",
    body: `<h1>Privacy and licence</h1>
<section aria-labelledby="privacy"><h2 id="privacy">Privacy</h2>
<p>The functions work out their results on your computer. They send nothing, fetch nothing and keep nothing between two calls. These pages load only files of the address they came from, set no cookies and count no visitors.</p>
<p>Inside Excel the page that loads the functions also loads Microsoft's Office.js from Microsoft's address; what Excel itself sends is for Microsoft to say.</p></section>
<section aria-labelledby="pane"><h2 id="pane">What the pane reads and writes</h2>
<p>The pane beside the sheet reads by itself: the selected formula and the cells it refers to, and in This workbook the formulas of every sheet. It works everything out in the page, with the same functions.</p>
<p>It writes on a click only, and says before what: Enter again puts dead calls back into their own cells; Put it in writes one formula, a heading above it where the cell is free, and once a workbook the version of the functions into the document's properties. That is why the manifest asks for the permission ReadWriteDocument; the functions alone would need ReadDocument.</p>
<p>Nothing that it reads leaves the computer. It fetches the descriptions of functions from the address that it came from, and its content policy lets it reach no other but Microsoft's Office.js.</p></section>
<section aria-labelledby="licence"><h2 id="licence">Licence</h2>
${paragraphs}</section>`,
  };
}
