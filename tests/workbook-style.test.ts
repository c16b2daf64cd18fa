import { readdirSync, readFileSync } from "node:fs";
import {
  converter,
  differenceCiede2000,
  filterDeficiencyDeuter,
  filterDeficiencyProt,
  filterDeficiencyTrit,
} from "culori";
import { strFromU8, unzipSync } from "fflate";
import { describe, expect, test } from "vitest";
import { contrast, PALETTE, SERIES } from "../sample-workbooks/scripts/palette";

/** How the sample workbooks look, as their files say it. */

const books = readdirSync("sample-workbooks").filter((file) => file.endsWith(".xlsx") && !file.startsWith("~"));
const INK = "000000";
const PAPER = "FFFFFF";
/** WCAG 2.2, success criterion 1.4.3: letters of the usual size against what is behind them. */
const LEAST_CONTRAST = 4.5;
/** Digits of 7 pixels at 96 to the inch, and what is left of the narrower paper and the smaller size between margins. */
const ROOM = { portrait: 7.27 * 96, landscape: 10 * 96 };
/** A sheet of letters of 11 points is printed with 6.5 at least. */
const LEAST_SCALE = 6.5 / 11;

function partsOf(book: string): Record<string, string> {
  return Object.fromEntries(
    Object.entries(unzipSync(readFileSync(`sample-workbooks/${book}`)))
      .filter(([name]) => name.endsWith(".xml"))
      .map(([name, bytes]) => [name, strFromU8(bytes)]),
  );
}

function sheetsOf(parts: Record<string, string>): [name: string, xml: string][] {
  return Object.entries(parts).filter(([name]) => /^xl\/worksheets\/sheet\d+\.xml$/.test(name));
}

function inside(xml: string, name: string): string {
  return new RegExp(`<${name}\\b[^>]*>(.*?)</${name}>`, "s").exec(xml)?.[1] ?? "";
}

function all(xml: string, name: string): string[] {
  return xml.match(new RegExp(`<${name}\\b[^>]*?(/>|>.*?</${name}>)`, "gs")) ?? [];
}

function colour(xml: string, name: string, otherwise: string): string {
  const element = all(xml, name)[0];
  if (element === undefined) return otherwise;
  const rgb = /rgb="FF([0-9A-F]{6})"/.exec(element)?.[1];
  // A theme's colour is the program's choice.
  return rgb ?? element;
}

describe.each(books)("%s", (book) => {
  const parts = partsOf(book);
  const styles = parts["xl/styles.xml"] as string;
  const fonts = all(inside(styles, "fonts"), "font").map((font) => colour(font, "color", INK));
  const fills = all(inside(styles, "fills"), "fill").map((fill) =>
    fill.includes('patternType="solid"') ? colour(fill, "fgColor", PAPER) : PAPER,
  );
  const formats = all(inside(styles, "cellXfs"), "xf");

  test("can be read: letters of every style in use against what is behind them", () => {
    const used = new Set<number>();
    for (const [, xml] of sheetsOf(parts)) {
      for (const [, style] of xml.matchAll(/<c r="[A-Z]+\d+" s="(\d+)"[^>]*>(?:<f|<v|<is)/g)) used.add(Number(style));
    }
    expect(used.size).toBeGreaterThan(5);
    const faint = [...used].flatMap((style) => {
      const format = formats[style] as string;
      const font = fonts[Number(/fontId="(\d+)"/.exec(format)?.[1] ?? 0)] as string;
      const fill = fills[Number(/fillId="(\d+)"/.exec(format)?.[1] ?? 0)] as string;
      return /^\w+$/.test(font + fill) && contrast(font, fill) >= LEAST_CONTRAST ? [] : [`${font} on ${fill}`];
    });
    expect(faint).toEqual([]);
    for (const rule of all(inside(styles, "dxfs"), "dxf")) {
      expect(contrast(colour(rule, "color", PALETTE.ink), colour(rule, "bgColor", PAPER))).toBeGreaterThanOrEqual(
        rule.includes("<font>") ? LEAST_CONTRAST : 1,
      );
    }
  });

  test("shows what is typed in by a box as well as by a tint, and says so", () => {
    const tinted = formats.filter((format) => fills[Number(/fillId="(\d+)"/.exec(format)?.[1])] === PALETTE.input);
    expect(tinted.length).toBeGreaterThan(0);
    const borders = all(inside(styles, "borders"), "border");
    for (const format of tinted) {
      const border = borders[Number(/borderId="(\d+)"/.exec(format)?.[1])] as string;
      for (const side of ["left", "right", "top", "bottom"]) expect(border).toContain(`<${side} style="thin">`);
    }
    expect(parts["xl/sharedStrings.xml"]).toContain("Cells with a box and a tint are typed in");
    for (const table of Object.keys(parts).filter((name) => name.startsWith("xl/tables/"))) {
      expect(parts[table]).not.toMatch(/tableStyleInfo [^>]*name=/);
    }
  });

  test("its sheets keep their headings in view and are printed as wide as the paper, not too small", () => {
    const sheets = sheetsOf(parts);
    for (const [name, xml] of sheets) {
      const page = /<pageSetup [^>]*>/.exec(xml)?.[0] ?? "";
      const orientation = page.includes("landscape") ? "landscape" : "portrait";
      const fits = xml.includes('fitToPage="1"');
      if (fits) expect(page).not.toMatch(/fitToWidth/);
      const columns = [...xml.matchAll(/<col min="(\d+)" max="(\d+)" width="([\d.]+)"/g)];
      const pixels = columns.reduce(
        (sum, [, min, max, width]) => sum + (Number(max) - Number(min) + 1) * (Number(width) * 7 + 5),
        0,
      );
      // A scale of 100 is not written.
      const scale = Number(/scale="(\d+)"/.exec(page)?.[1] ?? 100) / 100;
      expect([name, fits || scale * pixels <= ROOM[orientation]]).toEqual([name, true]);
      expect([name, ROOM[orientation] / pixels >= LEAST_SCALE]).toEqual([name, true]);
      if (!xml.includes("hyperlinks")) expect([name, xml.includes('state="frozen"')]).toEqual([name, true]);
    }
  });

  test("its first sheet says what came out, and leads to every other", () => {
    const about = sheetsOf(parts).find(([, xml]) => xml.includes("<hyperlinks"))?.[1] as string;
    const names = [...(parts["xl/workbook.xml"] as string).matchAll(/<sheet [^>]*name="([^"]*)"/g)].map(
      ([, name]) => name as string,
    );
    const led = new Set([...about.matchAll(/location="&apos;(.*?)&apos;!A1"/g)].map(([, name]) => name as string));
    expect([...led].sort()).toEqual(names.filter((name) => name !== "About").sort());
  });
});

interface Rgb {
  mode: "rgb";
  r: number;
  g: number;
  b: number;
}

function rgbOf(fill: string): Rgb {
  const [r, g, b] = [0, 2, 4].map((from) => parseInt(fill.slice(from, from + 2), 16) / 255) as [number, number, number];
  return { mode: "rgb", r, g, b };
}

/** Colours that stand beside each other in a chart part for every eye, and on a grey print by their edge and order. */
describe.each([
  ["with all cones", (colour: Rgb) => colour],
  ["without red", filterDeficiencyProt(1)],
  ["without green", filterDeficiencyDeuter(1)],
  ["without blue", filterDeficiencyTrit(1)],
] as const)("seen %s", (_, seen) => {
  const difference = differenceCiede2000();
  const lab = converter("lab65");
  test("the fills of a chart with direct names differ", () => {
    const named = SERIES.slice(0, 5).map((fill) => lab(seen(rgbOf(fill))));
    for (const [index, one] of named.entries())
      for (const other of named.slice(index + 1)) expect(difference(one, other)).toBeGreaterThan(10);
  });
});

test("neighbours of a stack part on a grey print: one of the two is dark, the other light", () => {
  for (const [index, fill] of SERIES.slice(0, -1).entries())
    expect(contrast(fill, SERIES[index + 1] as string)).toBeGreaterThan(2);
});
