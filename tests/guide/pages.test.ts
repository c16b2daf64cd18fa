import { existsSync, readdirSync, readFileSync, statSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { documentedFunctions, FAMILIES } from "../../src/documentation/docblocks.mjs";
import { evaluate } from "../../src/guide/page/evaluate";
import { dayUnder } from "../../src/guide/page/written";

const FOLDER = "dist/guide";
const pages = readdirSync(FOLDER).filter((file) => file.endsWith(".html"));
const textOf = (file: string) => readFileSync(join(FOLDER, file), "utf8");
const all = (text: string, pattern: RegExp) => [...text.matchAll(pattern)].map((match) => match[1] as string);

const asCell = (value: unknown) => (typeof value === "boolean" ? String(value).toUpperCase() : String(value));

describe("the guide", () => {
  test("has a page for every function, and a link to it from the index", () => {
    const index = textOf("index.html");
    for (const { id } of documentedFunctions()) {
      expect(pages).toContain(`${id}.html`);
      expect(index).toContain(`href="${id}.html"`);
    }
  });

  test("weighs little: no page over 60 kB with its picture, all of it under 6 MB", () => {
    const heavy = pages.filter((file) => statSync(join(FOLDER, file)).size > 60_000);
    expect(heavy).toEqual([]);
    const all = readdirSync(FOLDER, { recursive: true, encoding: "utf8" }).map((file) => statSync(join(FOLDER, file)));
    expect(all.reduce((sum, file) => sum + (file.isFile() ? file.size : 0), 0)).toBeLessThan(6_000_000);
  });

  test("every family opens with one drawing, whose texts say what it shows", () => {
    for (const family of Object.keys(FAMILIES)) {
      const page = textOf(`family-${family}.html`);
      const [drawing = "", ...more] = all(page, /(<svg [\s\S]*?<\/svg>)/g);
      expect(more, family).toEqual([]);
      expect(drawing, family).toMatch(/^<svg viewBox="0 0 360 \d+" role="img" aria-labelledby="(\S+) (\S+)">/);
      const [title = ""] = all(drawing, /<title id="drawing-title">([^<]+)</g);
      const [says = ""] = all(drawing, /<desc id="drawing-says">([^<]+)</g);
      expect(title.length, family).toBeGreaterThan(15);
      expect(says.length, family).toBeGreaterThan(60);
      expect(`${title} ${says} ${drawing}`, family).not.toMatch(/NaN|Infinity|undefined|null|\[object/);
    }
  });

  test("has no two pages that a file system without upper and lower case would take for one", () => {
    expect(new Set(pages.map((page) => page.toLowerCase())).size).toBe(pages.length);
  });

  test("says of every function what its docblock says", () => {
    const plain = (text: string) =>
      text
        .replace(/<[^>]+>/g, "")
        .replace(/&quot;/g, '"')
        .replace(/&lt;/g, "<")
        .replace(/&gt;/g, ">")
        .replace(/&amp;/g, "&");
    for (const { id, description, remarks, throws, returns, parameters, examples } of documentedFunctions()) {
      const page = plain(textOf(`${id}.html`));
      const said = [description, remarks, throws, returns, ...parameters.map((own) => own.description)];
      for (const text of [...said, ...examples.map(({ formula }) => formula)]) expect(page, id).toContain(text);
      for (const { result } of examples) {
        // A table stands there as a table, so its values are looked for one by one.
        const cells = result.startsWith("#") ? [result] : evaluate(result, new Map()).flat().map(asCell);
        for (const text of page.includes(result) ? [result] : cells) expect(page, id).toContain(text);
      }
    }
  });
});

describe.each(pages)("%s", (file) => {
  const text = textOf(file);

  test("says beside a number under a heading of dates which day it is, and beside no other", () => {
    // Excel's documentation of DATE: 39448 is 1 January 2008; 46083 is 6635 days later.
    const later = new Date(Date.UTC(2008, 0, 1 + (46083 - 39448))).toISOString().slice(0, 10);
    expect(textOf("TIMEPLAN.html")).toContain(`46083 <small class="day">${later}</small>`);
    expect(all(textOf("ROUTE.html"), /(<small class="day">)/g)).toEqual([]);
    expect(dayUnder("Date", 39448)).toBe("2008-01-01");
    expect(dayUnder("latest start (date)", 39448)).toBe("2008-01-01");
    expect(["days", "update", "date of rate", undefined].map((heading) => dayUnder(heading, 39448))).toEqual([undefined, undefined, undefined, undefined]); // prettier-ignore
    expect(["39448", 39448.5, -1, undefined].map((value) => dayUnder("date", value))).toEqual([undefined, undefined, undefined, undefined]); // prettier-ignore
  });

  test("loads nothing but files beside it", () => {
    const [policy = ""] = all(text, /http-equiv="Content-Security-Policy" content="([^"]*)"/g);
    expect(policy).toMatch(/^default-src 'none';/);
    expect(policy).not.toMatch(/unsafe|https?:|\*|data:/);
    expect(text).not.toMatch(/<style|\sstyle="|\son[a-z]+="|javascript:/i);
    expect(text).not.toMatch(/<script(?![^>]*\ssrc=)/);
    for (const address of all(text, /\s(?:src|href)="([^"]*)"/g)) expect(address).not.toMatch(/^(?:\w+:|\/)/);
  });

  test("has one main heading, one title, a language and unique anchors", () => {
    expect(all(text, /<h1[^>]*>([^<]+)</g)).toHaveLength(1);
    expect(all(text, /<title>([^<]+)</g)).toHaveLength(1);
    expect(text).toContain('<html lang="en">');
    const anchors = all(text, /\sid="([^"]*)"/g);
    expect(new Set(anchors).size).toBe(anchors.length);
  });

  test("links only to what is there", () => {
    for (const address of all(text, /\s(?:src|href)="([^"]*)"/g)) {
      const [path = "", anchor] = address.split("#");
      const target = path === "" ? join(FOLDER, file) : join(FOLDER, decodeURIComponent(path));
      expect(existsSync(target), address).toBe(true);
      if (anchor !== undefined) expect(readFileSync(target, "utf8"), address).toContain(`id="${anchor}"`);
    }
  });
});
