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
<section aria-labelledby="licence"><h2 id="licence">Licence</h2>
${paragraphs}</section>`,
  };
}
