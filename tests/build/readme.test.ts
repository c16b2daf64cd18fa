import { existsSync, readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { countedReadme, functionsPage } from "../../src/build/readme.mjs";

test("the table of all functions is that of the docblocks (npm run readme writes it)", () => {
  expect(readFileSync("src/guide/functions.md", "utf8")).toBe(functionsPage());
});

test("README fits a screen or two, and leads to files that are there", () => {
  const text = readFileSync("README.md", "utf8");
  expect(text.split("\n").length).toBeLessThan(70);
  const links = [...text.matchAll(/\]\(([^)#]+)[^)]*\)/g)].map(([, link]) => link as string);
  expect(links.length).toBeGreaterThan(5);
  expect(links.filter((link) => !existsSync(link))).toEqual([]);
});

test("README counts the cases as they are (npm run readme counts them)", () => {
  const text = readFileSync("README.md", "utf8");
  expect(countedReadme(text)).toBe(text);
});
