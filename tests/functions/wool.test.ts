import { describe, expect, test } from "vitest";
import { messageOf, sheet } from "../support/functions";

describe("WOOLYIELD", () => {
  test("an unknown kind gives #N/A with the known ones and the advice to pass the certificate's figure", () => {
    expect(messageOf('=YARN.WOOLYIELD("dry combed",60%,1%)')).toBe(
      `#N/A kind is "dry combed"; known: scoured 16/17, clean fibre, customs clean, top and noil; else the certificate's figure`,
    );
  });
  test("the message fits whatever was typed", () => {
    const message = messageOf('=YARN.WOOLYIELD("another kind of yield altogether",60%,1%)');
    expect(message).toMatch(/else the certificate's figure$/);
    expect(message.length).toBeLessThanOrEqual("#N/A ".length + 120);
  });
  test("kinds are matched without regard to case and space", () => {
    expect(sheet('=YARN.WOOLYIELD("  Scoured   16 ",60%,1%)')).toBe(sheet('=YARN.WOOLYIELD("scoured 16",60%,1%)'));
  });
  test("a percent typed whole is answered with how to write it", () => {
    expect(messageOf('=YARN.WOOLYIELD("scoured 16",60,1%)')).toMatch(/^#VALUE! wool_base is 60; write 60% or 0\.6/);
    expect(messageOf('=YARN.WOOLYIELD("scoured 16",60%,1.5)')).toMatch(
      /^#VALUE! vm_base is 1\.5; write 1\.5% or 0\.015/,
    );
  });
  test("bases that pass 100 % together are refused", () => {
    expect(messageOf('=YARN.WOOLYIELD("scoured 16",60%,50%)')).toBe(
      "#VALUE! vm_base is 0.5; with wool_base 0.6 passes 1 (100%)",
    );
  });
  test("nothing left is #NUM!", () => {
    expect(messageOf('=YARN.WOOLYIELD("top and noil",1%,1%)')).toMatch(/^#NUM! wool_base is 0\.01/);
  });
  test("a column keeps its shape: blank rows stay blank, a bad row stays alone, an error passes through", () => {
    expect(sheet('=YARN.WOOLYIELD("clean fibre",{43%;"";"x";#DIV/0!},0)')).toEqual([
      [0.5],
      [""],
      [expect.objectContaining({ code: "#VALUE!" })],
      [expect.objectContaining({ code: "#DIV/0!" })],
    ]);
  });
  test("shapes that do not match name both", () => {
    expect(messageOf('=YARN.WOOLYIELD("clean fibre",{0.4;0.5},{0;0;0})')).toMatch(
      /wool_base is 2×1; must be one cell or match vm_base, which is 3×1/,
    );
  });
});

describe("CLEANMASS", () => {
  test("rounds like a certificate unless told not to", () => {
    expect(sheet("=YARN.CLEANMASS(100,72.449%)")).toBe(72);
    expect(sheet('=YARN.CLEANMASS(100,72.449%,"none")')).toBe(72.449);
  });
  test("rounds half away from zero", () => {
    expect(sheet("=YARN.CLEANMASS({1000;1000},{72.45%;72.4499%})")).toEqual([[725], [724]]);
    expect(sheet("=YARN.CLEANMASS(125,50%)")).toBe(63);
  });
  test("a yield typed as a percent is refused", () => {
    expect(messageOf("=YARN.CLEANMASS(100,72.4)")).toMatch(/^#VALUE! clean_yield is 72\.4; write 72\.4% or 0\.724/);
  });
  test("a blank mass is not 0", () => {
    expect(messageOf('=YARN.CLEANMASS("",72%)')).toBe("#VALUE! net is blank; must be given");
  });
  test("an unknown rounding names the choices", () => {
    expect(messageOf('=YARN.CLEANMASS(100,72%,"kg")')).toMatch(/write certificate or none$/);
  });
});

describe("COMBINEDYIELD", () => {
  test("lists of different length are refused", () => {
    expect(messageOf("=YARN.COMBINEDYIELD({1;2},{0.5;0.6;0.7})")).toBe(
      "#VALUE! yields is 3 items long; must match nets, which has 2",
    );
  });
  test("a gap in a list is refused, and names the item", () => {
    expect(messageOf('=YARN.COMBINEDYIELD({1;"";3},{0.5;0.6;0.7})')).toBe(
      "#VALUE! nets item 2 is blank; fill it in; a blank is not 0",
    );
  });
});

describe("prices", () => {
  test("a price of 0 and a blank price are refused", () => {
    expect(messageOf("=YARN.CLEANPRICE(0,80%)")).toMatch(/^#VALUE! greasy_price is 0; must be a number above 0/);
    expect(messageOf('=YARN.GREASYPRICE("",80%)')).toMatch(/^#VALUE! clean_price is blank/);
  });
  test("one yield serves a column of prices", () => {
    expect(sheet("=YARN.CLEANPRICE({472;236},80%)")).toEqual([[590], [295]]);
  });
});
