import { describe, expect, test } from "vitest";
import { documentedFunctions } from "../../src/documentation/docblocks.mjs";
import { answersTo, type Searched } from "../../src/guide/page/matching";
import { TRADE_WORDS } from "../../src/guide/trade-words";
import { STAGE_PURPOSES } from "../../src/guide/stages";

const entry = (id: string, description: string, more: Partial<Searched> = {}): Searched => ({
  id,
  nearest: "",
  trade: "",
  details: "",
  description,
  ...more,
});

describe("the search", () => {
  const entries = [
    entry("drymass", "Dry mass at a regain", { details: "moisture" }),
    entry("regain", "Standard regain of a fibre"),
    entry("plycount", "Count of a plied yarn", { nearest: "two three five ply" }),
    entry("wraps", "Wraps per inch", { trade: "wpi five" }),
  ];
  const found = (asked: string) => answersTo(asked, entries).map((place) => entries[place]?.id);

  test.each([
    ["regain", ["regain", "drymass"]],
    ["Regains", ["regain", "drymass"]],
    ["YARN.REGAIN", ["regain", "drymass"]],
    ["five", ["plycount", "wraps"]],
    ["five ply", ["plycount"]],
    ["the count of a yarn", ["plycount"]],
    ["moist", ["drymass"]],
    ["zebra", []],
    ["zebra five", ["plycount", "wraps"]],
    ["  ", ["drymass", "regain", "plycount", "wraps"]],
    ["of", ["drymass", "regain", "plycount"].slice(1)],
    ["regainn", ["regain", "drymass"]],
    ["moistrue", ["drymass"]],
    ["plyed", ["plycount"]],
    ["ze", []],
    ["?!", ["drymass", "regain", "plycount", "wraps"]],
  ])("%s", (asked, ids) => expect(found(asked)).toEqual(ids));
});

describe("the words of the trade", () => {
  const documented = documentedFunctions();
  const ids = documented.map(({ id }) => id);

  test("lead to functions that exist", () => {
    const named = new Set(TRADE_WORDS.flatMap(([, led]) => led.split(" ")));
    expect([...named].filter((id) => !ids.includes(id))).toEqual([]);
  });

  test("every family says what it is for", () => {
    const families = [...new Set(documented.map(({ family }) => family))];
    expect(families.filter((family) => (STAGE_PURPOSES[family] ?? "") === "")).toEqual([]);
  });
});
