import { describe, expect, test } from "vitest";
import { entriesStandIn, forgetPlaces, inWords } from "../../src/sheet/places";
import { at, Refusal, said, type Subject, type Words } from "../../src/trade/refusal";
import { messageOf } from "../support/functions";

function worded(subject: Subject, came: Words, allowed: Words): string {
  return inWords(new Refusal("argument", subject, came, allowed));
}

describe("what a calculation refuses, in the words of the sheet", () => {
  test("an entry of a list is an item, one with a field is a row", () => {
    forgetPlaces();
    expect(worded(at("losses", 1), "2", "must be below 1")).toBe("losses item 2 is 2; must be below 1");
    expect(worded(at("stages", 1, "by_product"), "2", "must be below 1")).toBe(
      "stages row 2, by product, is 2; must be below 1",
    );
    expect(worded(at("limits", 0, 2), "2", "too much")).toBe("limits row 1, column 3 is 2; too much");
  });

  test("a place in the text is named by its list unless that list is spoken of", () => {
    const [breaks, charges] = [at("breaks", 0), at("charges", 2)];
    expect(worded(at("breaks", 1), "4", said`must be above ${breaks}, which is ${5}`)).toBe(
      "breaks item 2 is 4; must be above item 1, which is 5",
    );
    expect(worded(at("lines", 1, "mass"), "blank", said`${charges} is shared by mass`)).toBe(
      "lines row 2, mass, is blank; charges item 3 is shared by mass",
    );
  });

  test("entries stand in the rows that were read for them, and that is forgotten with the call", () => {
    forgetPlaces();
    entriesStandIn("lines", [2, 5]);
    expect(worded(at("lines", 1), "blank", "fill it in")).toBe("lines row 5 is blank; fill it in");
    forgetPlaces();
    expect(worded(at("lines", 1), "blank", "fill it in")).toBe("lines item 2 is blank; fill it in");
  });
});

describe("a refusal names the row that the person sees", () => {
  const rest = '"made",10)';
  test.each([
    [`=YARN.ROUTECOST(1,{"a",0.1,0,0,0,"per in",1;"b",0.1,0,0,0,"per in",""},${rest}`, "stages row 2, rate,"],
    // Below a heading row.
    [
      `=YARN.ROUTECOST(1,{"stage","loss","regain out","by-product","by-product price","basis","rate";"a",0.1,0,0,0,"per in",1;"b",0.1,0,0,0,"per in",""},${rest}`,
      "stages row 3, rate,",
    ],
    // Below a blank row.
    [
      `=YARN.ROUTECOST(1,{"a",0.1,0,0,0,"per in",1;"","","","","","","";"b",0.1,0,0,0,"per in",""},${rest}`,
      "stages row 3, rate,",
    ],
    [
      '=YARN.LANDED({"value","mass";100,1;50,""},{"amount","basis";10,"equal";5,"mass"})',
      "lines row 3, mass, is blank; charges row 3 is shared by mass",
    ],
    [
      '=YARN.EXCHANGE(1,"EUR","USD",45100,{"date","from","to","rate";45000,"EUR","USD",1.1;45000,"EUR","USD",1.2})',
      "rates row 3, date, is 2023-03-15, as in row 2 for EUR to USD",
    ],
    ["=YARN.MIXNEED({0.6,0.4;0.5,0.4},{10;10})", "recipes row 2 is 0.9 in all"],
    ['=YARN.NEED(1,{0.1;-1},"output")', "losses item 2 is -1"],
  ])("%s", (formula, told) => expect(messageOf(formula)).toContain(told));

  test("also in a ledger, whose good rows stand", () => {
    const ledger = '=INDEX(YARN.STOCKLEDGER({"quantity","unit cost";3,170;"","";-4,""},"fifo"),4,1)';
    expect(messageOf(ledger)).toBe("#VALUE! events row 4, quantity, is -4; only 3 is in stock");
  });
});
