import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { lightTables } from "../../src/build/light-tables";

test("what the library carries is what the tables of the CIE give", async () => {
  expect(readFileSync("src/tables/light-tables.ts", "utf8")).toBe(await lightTables());
});
