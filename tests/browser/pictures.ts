import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { makePlain } from "../../src/recalculate/plain-copy";
import { openBrowser } from "./support";

/**
 * The pictures of README and manual, made again from the guide and the sample workbooks as they are. Beside Chromium it
 * takes LibreOffice, pdftotext and pdftoppm (poppler), and ImageMagick.
 */
interface Picture {
  readonly out: string;
  /** A part of a page of the guide, or of that from its top to where something within it ends. */
  readonly page?: readonly [page: string, part: string, until?: string];
  /** The first printed page of a sheet. */
  readonly sheet?: readonly [book: string, sheet: string];
}

const PICTURES: readonly Picture[] = [
  { out: "src/guide/pictures/function-page.png", page: ["guide/ROUTE.html", "section[aria-labelledby=try]", "figure"] },
  { out: "src/guide/pictures/ten-steps.png", page: ["guide/index.html", "section[aria-labelledby=job]"] },
  { out: "sample-workbooks/pictures/landed-cost.png", sheet: ["landed-cost", "Skein"] },
  { out: "sample-workbooks/pictures/who-works-when.png", sheet: ["mill-schedule", "Who works when"] },
];

const MOST_BYTES = 60_000;
const COLOURS = 64;
const RESOLUTION = 85;
const MARGIN = 12;

/** Makes all of them, or those whose names hold one of the words. */
export async function main(words: string[]): Promise<number> {
  const folder = mkdtempSync(join(tmpdir(), "pictures-"));
  const wanted = PICTURES.filter(({ out }) => words.length === 0 || words.some((word) => out.includes(word)));
  const opened = await openBrowser();
  let tooLarge = false;
  for (const { out, page, sheet } of wanted) {
    const drawn = join(folder, "drawn.png");
    if (page) {
      const tab = await opened.browser.newPage({ viewport: { width: 700, height: 900 } });
      await tab.goto(`${opened.address}/${page[0]}`);
      const part = tab.locator(page[1]);
      const whole = await part.boundingBox();
      const end = page[2] === undefined ? whole : await part.locator(page[2]).first().boundingBox();
      if (!whole || !end) throw new Error(`${page.join(" ")}: not there`);
      const [x, y] = [whole.x - MARGIN, whole.y - MARGIN];
      const clip = { x, y, width: whole.width + 2 * MARGIN, height: end.y + end.height + MARGIN - y };
      await tab.screenshot({ path: drawn, clip, fullPage: true });
      await tab.close();
    } else if (sheet) drawSheet(folder, sheet, drawn);
    const margins = sheet ? ["-trim", "+repage", "-bordercolor", "white", "-border", "12"] : [];
    execFileSync("convert", [drawn, ...margins, "-strip", "+dither", "-colors", String(COLOURS), `PNG8:${out}`]);
    const { size } = statSync(out);
    console.log(`${out}: ${size} bytes`);
    tooLarge ||= size > MOST_BYTES;
  }
  await opened.close();
  rmSync(folder, { recursive: true });
  return tooLarge ? 1 : 0;
}

function drawSheet(folder: string, [book, sheet]: readonly [string, string], drawn: string): void {
  const name = `${book}.xlsx`;
  const copy = join(folder, name);
  const made = makePlain({ file: join("sample-workbooks", name), called: name, out: copy, host: "calc" });
  if ("error" in made) throw new Error(String(made.error));
  const profile = `-env:UserInstallation=file://${join(folder, "profile")}`;
  execFileSync("soffice", [profile, "--headless", "--convert-to", "pdf", "--outdir", folder, copy], {
    stdio: "ignore",
  });
  const pdf = join(folder, `${book}.pdf`);
  const pages = execFileSync("pdftotext", ["-layout", pdf, "-"], { encoding: "utf8" }).split("\f");
  const number = String(pages.findIndex((text) => text.trimStart().split("\n")[0]?.trim() === sheet) + 1);
  if (number === "0") throw new Error(`${name} prints no page of ${sheet}`);
  // The foot of the page is no part of the sheet.
  const foot = ["-x", "0", "-y", "0", "-W", "4000", "-H"];
  const high = execFileSync("pdfinfo", ["-f", number, "-l", number, pdf], { encoding: "utf8" });
  const points = Number(/Page.*size:\s+[\d.]+ x ([\d.]+)/.exec(high)?.[1]);
  const height = String(Math.round(((points - 60) / 72) * RESOLUTION));
  execFileSync("pdftoppm", [
    "-r",
    String(RESOLUTION),
    "-f",
    number,
    "-l",
    number,
    ...foot,
    height,
    "-singlefile",
    "-png",
    pdf,
    drawn.replace(/\.png$/, ""),
  ]);
}
