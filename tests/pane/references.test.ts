import { describe, expect, test } from "vitest";
import { readFormula } from "../../src/guide/page/formula";
import { readReference, referencesIn, type Reference } from "../../src/pane/references";

/** Forms of references as Excel writes them in a formula (Microsoft's page "Using structured references"). */
const READ: readonly (readonly [text: string, reference: Reference | undefined])[] = [
  ["A1", { kind: "area", address: "A1" }],
  ["$A$1:B$3", { kind: "area", address: "A1:B3" }],
  ["C:C", { kind: "area", address: "C:C" }],
  ["Lots!B2:B9", { kind: "area", sheet: "Lots", address: "B2:B9" }],
  ["'Bob''s lots'!$B$2", { kind: "area", sheet: "Bob's lots", address: "B2" }],
  ["A1#", { kind: "spill", address: "A1" }],
  ["Plan!$B$4#", { kind: "spill", sheet: "Plan", address: "B4" }],
  ["Regain", { kind: "name", name: "Regain" }],
  ["Inputs!Regain", { kind: "name", sheet: "Inputs", name: "Regain" }],
  ["Lots[count]", { kind: "columns", table: "Lots", columns: { part: "data", from: "count", to: "count" } }],
  ["Lots[@count]", { kind: "columns", table: "Lots", columns: { part: "this row", from: "count", to: "count" } }],
  ["[@[count, tex]]", { kind: "columns", columns: { part: "this row", from: "count, tex", to: "count, tex" } }],
  ["Lots[@[a]:[b]]", { kind: "columns", table: "Lots", columns: { part: "this row", from: "a", to: "b" } }],
  ["Lots[[a]:[b]]", { kind: "columns", table: "Lots", columns: { part: "data", from: "a", to: "b" } }],
  ["Lots[[#This Row],[a]]", { kind: "columns", table: "Lots", columns: { part: "this row", from: "a", to: "a" } }],
  ["Lots[[#Headers],[a]]", { kind: "columns", table: "Lots", columns: { part: "headers", from: "a", to: "a" } }],
  ["Lots[#All]", { kind: "columns", table: "Lots", columns: { part: "all" } }],
  ["Lots['#1]", { kind: "columns", table: "Lots", columns: { part: "data", from: "#1", to: "#1" } }],
  ["Lots[]", { kind: "columns", table: "Lots", columns: { part: "data" } }],
  ["Sheet1:Sheet3!A1", undefined],
];

describe("a reference", () => {
  test.each(READ)("%s", (text, reference) => {
    expect(readReference(text)).toEqual(reference);
    // The reader of formulas takes the same text as one reference.
    expect(referencesIn(readFormula(`=YARN.COUNT(${text},"Nm","tex")`))).toEqual([text]);
  });
});

test("each reference is asked for once, and texts, words and numbers are none", () => {
  const formula = '=IF(A1>0,YARN.COUNT(Lots[@count],B1,"A1"),-Lots[@count])&{1,2}&TRUE&@B1';
  expect(referencesIn(readFormula(formula))).toEqual(["A1", "Lots[@count]", "B1"]);
});
