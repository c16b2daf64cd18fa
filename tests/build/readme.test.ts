import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { currentReadme } from "../../src/build/readme.mjs";

test("the README's tables of functions are those of the docblocks (npm run readme writes them)", () => {
  const text = readFileSync("README.md", "utf8");
  expect(currentReadme(text)).toBe(text);
});
