import { expect, test } from "vitest";
import { sizeFaults } from "../../src/build/checks.mjs";

test("the bundle and functions.json are within the limits that stop a build", () => {
  expect(sizeFaults("dist")).toEqual([]);
});

test("beyond the limits both are named with their sizes", () => {
  expect(sizeFaults("dist", 1, 1)).toEqual([
    expect.stringMatching(/^functions\.js is \d+\.\d kB gzipped; the limit is 1 kB$/),
    expect.stringMatching(/^functions\.json is \d+\.\d kB as it is; the limit is 1 kB$/),
  ]);
});
