import { describe, expect, test } from "vitest";
import { messageOf, sheet } from "../support/functions";

/** Slips of a tired hand that used to give a plausible number: swapped, in another unit, a percent, a heading. */
describe("a slip ends in a refusal that says what to look at", () => {
  test.each([
    // Swapped.
    ['=YARN.WOOLYIELD("scoured 16",1%,60%)', "#VALUE! vm_base is 0.6; above wool_base 0.01; are the two swapped?"],
    ['=YARN.TOPFORECAST(85,38,21,50%,1.5%,"hauteur")', "#VALUE! vm is 0.5; must be 0 to 0.3 (0% to 30%)"],
    [
      '=YARN.TWISTFACTOR(28,"tpm",400,"Nm","metric")',
      "#VALUE! twist is 28 tpm; a metric twist factor below 3, which no",
    ],
    // Another unit.
    [
      "=YARN.COMBINEDYIELD({12;14},{72.4%;61.1%})",
      "#VALUE! nets item 1 is 12; too little to round to 1 kg; for tonnes write it in kg",
    ],
    ["=YARN.CLEANMASS(12,72.4%)", '#VALUE! net is 12; too little to round to 1 kg; for tonnes write rounding "none"'],
    ['=YARN.TWISTFACTOR(400,"tpi",28,"Nm","metric")', "#VALUE! twist is 400 tpi; a metric twist factor above 1000"],
    ['=YARN.TWISTFOR(80,"cotton",28,"Nm","tpm")', "#VALUE! factor is 80 cotton; a metric twist factor above 1000"],
    ['=YARN.TWISTANGLE(400,"tpi",31.25,"tex")', "#VALUE! twist is 400 tpi; an angle above 60°, which no yarn has"],
    ['=YARN.TAKEUP(400,"tpm",31.25,"tex",1250)', "#VALUE! twist is 400 tpm; an angle above 60°, which no yarn has"],
    ['=YARN.PLYTAKEUP(400,4000,"tpm",31.25,"tex")', "#VALUE! ply_twist is 4000 turns a metre; an angle above 60°"],
    ['=YARN.FIBRES(31.25,"tex",21,21%,1310)', "#VALUE! density is 1310; must be 0.8 to 3 g/cm³"],
    // A percent or a fraction in the other's form.
    ["=YARN.ROMAINE(8%)", "#VALUE! tear is 0.08; must be 1 or more, top for one of noil; TEAR takes romaine"],
    ["=YARN.TEAR(1)", "#VALUE! romaine is 1; write 1% or 0.01; must be 0 to 0.5 (0% to 50%)"],
    ["=YARN.BALESTOCORE(1.1,2.5,4,1,95%)", "#VALUE! z is 0.95; must be 1 to 10, such as 1.96 for 95%"],
    ["=YARN.LIMITCV(0.64)", "#VALUE! fibres is 0.64; must be a number of fibres, 1 or more"],
    ["=YARN.SHAREVARIATION(50%,0.5)", "#VALUE! fibres is 0.5; must be a number of fibres, 1 or more"],
    // A heading or a total left in a list.
    ['=YARN.FOLD({"count";60;40},"NeC")', '#VALUE! counts item 1 is text "count"; leave the heading out'],
    ['=YARN.COMBINEDYIELD({"net";12000},{"yield";72.4%})', '#VALUE! nets item 1 is text "net"; leave the heading out'],
    [
      '=YARN.BLENDREGAIN({75%;25%},{"regain";18.25%},"dry")',
      '#VALUE! regains item 1 is text "regain"; leave the heading',
    ],
    ['=YARN.BLENDREGAIN({75%;25%;100%},{18%;6%;15%},"dry")', "#VALUE! shares is 2 in all; must sum to 1"],
    [
      "=YARN.BLENDMICRON({2000;24000;26000},{24;30})",
      "#VALUE! microns is 2 items long; must match masses, which has 3",
    ],
  ])("%s", (formula, message) => {
    expect(messageOf(formula)).toContain(message);
    expect(messageOf(formula).length).toBeLessThanOrEqual("#VALUE! ".length + 120);
  });

  test("what is still a yarn stays: a roving, a voile, a crepe; a lot of 50 kg; as much noil as top", () => {
    // Metric factors of 10, 150 and 400 at Nm 25 are 50, 750 and 2000 turns a metre, the root of 25 being 5.
    expect(sheet('=YARN.TWISTFOR({10;150;400},"metric",25,"Nm","tpm")')).toEqual([[50], [750], [2000]]);
    expect(sheet('=YARN.CLEANMASS({50;0.5},50%,{"certificate";"none"})')).toEqual([[25], [0.25]]);
    expect(sheet("=YARN.TEAR(YARN.ROMAINE(1))")).toBe(1);
  });
});
