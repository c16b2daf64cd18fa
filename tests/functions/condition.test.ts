import { describe, expect, test } from "vitest";
import { messageOf, sheet } from "../support/functions";

describe("REGAIN refuses to choose", () => {
  test("between schedules: #N/A with their values", () => {
    expect(messageOf('=YARN.REGAIN("wool")')).toBe(
      "#N/A schedule is left out; wool: EU label 17%-18.25%, GB 9994 14%-19%, ASTM 13.6%, trade 16%-19%",
    );
    expect(messageOf('=YARN.REGAIN("wool","combed")')).toBe(
      "#N/A schedule is left out; wool: EU label 18.25%, GB 9994 14%-19%, ASTM 13.6%, trade 16%-19%",
    );
  });
  test("a word that is no form of the fibre is not answered by the one schedule that has no forms", () => {
    for (const form of ["yarn", "filament", "mercerised"]) {
      expect(messageOf(`=YARN.REGAIN("wool","${form}")`)).toMatch(
        new RegExp(`^#N/A form is ${form}; no form of wool; it has combed, .*; see REGAINS$`),
      );
    }
  });
  test("a form that one schedule lacks: its values are in the message", () => {
    // GB 9994 has wool fabric at 14 %, the EU label has no fabric, ASTM has one value for wool.
    expect(messageOf('=YARN.REGAIN("wool","fabric")')).toBe(
      "#N/A schedule is left out; wool: EU label 17%-18.25%, GB 9994 14%, ASTM 13.6%, trade 16%-19%",
    );
  });
  test("between forms: #N/A with their values", () => {
    expect(messageOf('=YARN.REGAIN("wool",,"EU label")')).toBe(
      "#N/A form is left out; wool in EU label: combed 18.25%, carded 17%, unknown 17%",
    );
  });
  test("a list too long for a message says where the rest is", () => {
    const message = messageOf('=YARN.REGAIN("wool",,"GB 9994")');
    expect(message).toMatch(/; see REGAINS$/);
    expect(message.length).toBeLessThanOrEqual("#N/A ".length + 120);
  });
  test("a value from memory is not a silent default", () => {
    expect(messageOf('=YARN.REGAIN("melamine")')).toMatch(/^#N\/A schedule is left out; from memory only/);
    expect(sheet('=YARN.REGAIN("melamine",,"EU label")')).toBe(0.07);
  });
  test("where all schedules agree there is nothing to choose", () => {
    expect(sheet('=YARN.REGAIN("silk")')).toBe(0.11);
    expect(sheet('=YARN.REGAIN("silk","filament")')).toBe(0.11);
    expect(sheet('=YARN.REGAIN("cotton","normal")')).toBe(0.085);
  });
});

describe("REGAIN words", () => {
  test.each([
    ["sheep's wool", "wool"],
    ["VIRGIN  WOOL", "wool"],
    ["lambswool", "wool"],
  ])("%s is %s", (alias, word) => {
    expect(sheet(`=YARN.REGAIN("${alias}","combed","EU label")`)).toBe(
      sheet(`=YARN.REGAIN("${word}","combed","EU label")`),
    );
  });
  test("nylon is polyamide, linen has the label regain of flax, rayon is viscose", () => {
    expect(sheet('=YARN.REGAIN({"nylon";"linen";"rayon"},"filament","EU label")')).toEqual([[0.0575], [0.12], [0.13]]);
  });
  test("linen is not flax where a schedule tells them apart", () => {
    expect(messageOf('=YARN.REGAIN("linen")')).toBe(
      "#N/A schedule is left out; linen: EU label 12%, GB 9994 12%, ASTM 8.75%",
    );
    expect(sheet('=YARN.REGAIN("flax",,"ASTM")')).toBe(0.12);
  });
  test("an unknown fibre gives #N/A, with the nearest where one is near", () => {
    expect(messageOf('=YARN.REGAIN("wol")')).toBe(
      '#N/A material is "wol"; not in the regain tables; REGAINS lists them',
    );
    expect(messageOf('=YARN.REGAIN("cashmeer")')).toBe(
      '#N/A material is "cashmeer"; not in the regain tables; the nearest is cashmere; REGAINS lists them',
    );
  });
  test("an unknown form gives #N/A with the nearest, a form with two meanings is refused", () => {
    expect(messageOf('=YARN.REGAIN("wool","combd","EU label")')).toMatch(/^#N\/A form is "combd"; .*nearest is combed/);
    expect(messageOf('=YARN.REGAIN("wool","top","EU label")')).toMatch(/^#VALUE! form is "top", of several meanings/);
  });
  test("an unknown schedule names the choices", () => {
    expect(messageOf('=YARN.REGAIN("wool","combed","ISO")')).toMatch(/write EU label, GB 9994, ASTM or trade$/);
  });
  test("a fibre or form that a schedule lacks gives #N/A", () => {
    expect(messageOf('=YARN.REGAIN("kapok",,"trade")')).toBe("#N/A material is kapok; not in trade; it is in EU label");
    expect(messageOf('=YARN.REGAIN("wool","fabric","EU label")')).toBe(
      "#N/A form is fabric; wool is known as combed 18.25%, carded 17%, unknown 17%",
    );
  });
  test("a column: blank rows stay blank, blank forms mean left out, a bad row stays alone", () => {
    expect(sheet('=YARN.REGAIN({"wool";"";"silk";"wol"},{"carded";"carded";"";""},"EU label")')).toEqual([
      [0.17],
      [""],
      [0.11],
      [expect.objectContaining({ code: "#N/A" })],
    ]);
  });
});

describe("REGAINS", () => {
  const rows = sheet("=YARN.REGAINS()") as (string | number)[][];
  test("has a header with units and a source and status in every row", () => {
    expect(rows[0]).toEqual(["material", "form", "regain (fraction of dry mass)", "schedule", "source", "status"]);
    for (const row of rows.slice(1)) {
      expect(row[4]).not.toBe("");
      expect(["read", "memory"]).toContain(row[5]);
    }
  });
  test("a schedule gives its own rows, and all schedules together give the table", () => {
    const schedules = ["EU label", "GB 9994", "ASTM", "trade"];
    const each = schedules.map((schedule) => (sheet(`=YARN.REGAINS("${schedule}")`) as unknown[][]).slice(1));
    expect(each.flat()).toEqual(rows.slice(1));
    each.forEach((list, index) => expect(list.every((row) => row[3] === schedules[index])).toBe(true));
  });
});

describe("moisture, regain and masses", () => {
  test("a percent typed whole is answered with how to write it", () => {
    expect(messageOf("=YARN.MOISTUREOF(18.25)")).toMatch(/^#VALUE! regain is 18\.25; write 18\.25% or 0\.1825/);
    expect(messageOf("=YARN.REGAINOF(12)")).toMatch(/^#VALUE! moisture is 12; write 12% or 0\.12/);
    expect(messageOf("=YARN.CONDITIONED(100,16,18.25%)")).toMatch(/^#VALUE! regain_now is 16; write 16% or 0\.16/);
  });
  test("moisture of 100 % is refused: there would be no fibre", () => {
    expect(messageOf("=YARN.REGAINOF(1)")).toMatch(/^#VALUE! moisture is 1; /);
  });
  test("a dry mass above the mass is refused", () => {
    expect(messageOf("=YARN.MEASUREDREGAIN(400,438.6)")).toBe("#VALUE! dry_mass is 438.6; cannot exceed mass 400");
    expect(messageOf("=YARN.INVOICEMASS(1000,400,438.6,17%)")).toBe(
      "#VALUE! sample_dry is 438.6; cannot exceed sample 400",
    );
  });
  test("grams beside kilograms, or a slipped point, is no regain", () => {
    expect(messageOf("=YARN.MEASUREDREGAIN(500,0.4386)")).toBe(
      "#VALUE! dry_mass is 0.4386; under half of mass 500, a regain above 100%; check unit and point",
    );
    expect(messageOf("=YARN.INVOICEMASS(1000,500,43.86,17%)")).toBe(
      "#VALUE! sample_dry is 43.86; under half of sample 500, a regain above 100%; check unit and point",
    );
    expect(messageOf("=YARN.INVOICEMASS(1000,5000,438.6,17%)")).toMatch(/^#VALUE! sample_dry is 438\.6; under half/);
    // As much water as fibre is the limit that every other regain has too.
    expect(sheet("=YARN.MEASUREDREGAIN({500;500.01},250)")).toEqual([
      [1],
      [expect.objectContaining({ code: "#VALUE!" })],
    ]);
  });
  test("the half-filled column stays readable", () => {
    expect(sheet('=YARN.DRYMASS({1182.5;"";"x";#N/A},18.25%)')).toEqual([
      [1000],
      [""],
      [expect.objectContaining({ code: "#VALUE!" })],
      [expect.objectContaining({ code: "#N/A" })],
    ]);
  });
  test("finish left out is none", () => {
    expect(sheet("=YARN.INVOICEMASS(1000,500,438.6,17%)")).toBe(sheet("=YARN.INVOICEMASS(1000,500,438.6,17%,0)"));
  });
});

describe("BLENDREGAIN", () => {
  test("without a basis it says that the two differ", () => {
    expect(messageOf("=YARN.BLENDREGAIN({0.5;0.5},{0.1;0.2})")).toBe(
      "#VALUE! basis is left out; write dry (shares of dry mass) or label (shares at regain); the results differ",
    );
  });
  test("shares that do not sum to 1 are refused with their sum", () => {
    expect(messageOf('=YARN.BLENDREGAIN({0.5;0.4},{0.1;0.2},"dry")')).toBe(
      "#VALUE! shares is 0.9 in all; must sum to 1 (100%); MIXROUND mends rounded shares",
    );
  });
  test("an error value among the shares is the result", () => {
    expect(sheet('=YARN.BLENDREGAIN({0.5;#REF!},{0.1;0.2},"dry")')).toMatchObject({ code: "#REF!" });
  });
});

describe("LABELSHARES", () => {
  test("keeps the list's shape: a row for a row", () => {
    expect(sheet("=YARN.LABELSHARES({1,2,3},{0.1,0.1,0.1},,0)")).toEqual([[0.17, 0.33, 0.5]]);
  });
  test("blank cells after the last item stay blank", () => {
    expect(sheet('=YARN.LABELSHARES({1;3;""},{0.1;0.1},,0)')).toEqual([[0.25], [0.75], [""]]);
  });
  test("thirds foot to 100 %, the first of equals first", () => {
    expect(sheet("=YARN.LABELSHARES({1;1;1},{0.1;0.1;0.1},,1)")).toEqual([[0.334], [0.333], [0.333]]);
  });
  test("lists of different length, and nothing but zeros", () => {
    expect(messageOf("=YARN.LABELSHARES({1;2},{0.1})")).toMatch(
      /^#VALUE! allowances is 1 item long; must match dry_masses/,
    );
    expect(messageOf("=YARN.LABELSHARES({1;2},{0.1;0.1},{0.1;0.1;0.1})")).toMatch(/^#VALUE! losses is 3 items long/);
    expect(messageOf("=YARN.LABELSHARES({0;0},{0.1;0.1})")).toMatch(/^#DIV\/0! dry_masses is 0 in all/);
  });
});
