import { describe, expect, test } from "vitest";
import { messageOf, sheet } from "../support/functions";

const rows = (formula: string): unknown[][] => sheet(formula) as unknown[][];

describe("TIMEPLAN", () => {
  test("finds its columns by their headings and keeps blank rows in their place", () => {
    const plain = rows('=YARN.TIMEPLAN({"card",5,"";"spin",10,"card"},46083,"from")');
    const headed = rows(
      '=YARN.TIMEPLAN({"After","mill","Duration (days)","Operation";"","A",5,"card";"","","","";"card","B",10,"spin"},46083,"from")',
    );
    expect(headed[2]).toEqual(["", "", "", "", "", "", ""]);
    expect([headed[0], headed[1], headed[3]]).toEqual(plain);
  });

  test("takes a name with a comma, names in any case, and a blank that arrived as 0", () => {
    const floats = rows('=INDEX(YARN.TIMEPLAN({"wash, dry",2,0;"spin",3,"WASH, DRY"},46083,"from"),0,4)');
    expect(floats.flat()).toEqual(["earliest finish (date)", 46084, 46087]);
  });

  test("an event is on the day that ends with it, and a holiday list may have room to spare", () => {
    const table = rows(
      '=YARN.TIMEPLAN({"spin",5,"";"lorry",0,"spin";"ship",1,"lorry"},46083,"from",{46084;46084;0;""})',
    );
    expect(table.slice(1).map(([, start, , finish]) => [start, finish])).toEqual([
      [46083, 46090],
      [46090, 46090],
      [46091, 46091],
    ]);
  });

  test("refuses what a person gets wrong", () => {
    for (const [call, message] of [
      ['{"card",5,"";"spin",10,"crad"},46083,"from"', 'tasks row 2, after, is "crad"; there is no such task'],
      ['{"task","days","after";"spin",10,"crad"},46083,"from"', 'tasks row 2, after, is "crad"'],
      ['{"card",5,"spin";"spin",10,"card"},46083,"from"', "a circle: card before spin before card"],
      ['{"card",2.5,""},46083,"from"', "tasks row 1, days, is 2.5; must be a whole number of days"],
      ['{"card","",""},46083,"from"', "tasks row 1, days, is blank"],
      ['{"card",5,"";"total",5,""},46083,"from"', "tasks row 2 is a totals row"],
      ['{"card",5,""},20260302,"from"', "date is 20260302; write DATE(2026,3,2)"],
      ['{"card",5,""},46083,"until"', 'direction is "until"'],
      ['{"card",5,""},46083,"from",20260302', "holidays is 20260302; write DATE(2026,3,2)"],
      ['{"task","days";"card",5},46083,"by"', 'direction is "by"'],
    ] as const) {
      expect(messageOf(`=YARN.TIMEPLAN(${call})`)).toContain(message);
    }
  });
});
