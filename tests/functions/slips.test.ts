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
    ['=YARN.TAKEUP(400,"tpm",31.25,"tex",1250)', "#VALUE! specific_volume is 1250; must be 0.5 to 20 cm³/g"],
    ['=YARN.SPINLIMIT(35,21,"Nm")', "#VALUE! min_fibres is 21; must be 25 to 5000 fibres; swapped with micron?"],
    ['=YARN.PLYCOUNT(2,28,"Nm")', "#VALUE! plies is 28; must be a whole number from 1 to 12"],
    ['=YARN.TOPFORECAST(38,85,21,1.5%,50%,"hauteur")', "#VALUE! strength is 85; must be 5 to 70 N/ktex"],
    ['=YARN.TOPFORECAST(85,21,38,1.5%,50%,"hauteur")', "#VALUE! micron is 38; must be 12 to 32 micron"],
    ["=YARN.DELIVERY(0.025,200)", "#VALUE! roll_diameter is 0.025 mm; must be 5 to 2000 mm; check its unit"],
    ["=YARN.TWIST(20,9000)", "#VALUE! spindle_rpm is 20 at 9000 m/min; 0.002222 turns a metre, which no yarn has"],
    ['=YARN.SPINDLESPEED(450,"tpi",20)', "#VALUE! twist is 450 tpi; 17720 turns a metre, which no yarn has"],
    ["=YARN.ROLLDRAFT(25,1000,25,20000)", "#VALUE! front_rpm is 1000 beside a back_rpm of 20000; a draft of 0.05"],
    ["=YARN.SPINDLESNEEDED(1000,60,0.016)", "#VALUE! rate is 0.016; 1041667 spindles; it is in g per spindle-hour"],
    ["=YARN.REGAINOF(90%)", "#VALUE! moisture is 0.9; must be 0 to 0.5 (50%), a regain of 100%"],
    ["=YARN.ORDERCHECK({28;28.2;27.9},0.28,3%)", "#VALUE! ordered is 0.28; the mean of values is 28.0333"],
    ["=YARN.NETCHECK({0.1;0.11},100)", "#VALUE! masses is 0.105 g on average; the nominal is 100 g"],
    [
      "=YARN.NETCHECK({100;101;99;300},100)",
      "#VALUE! masses item 4 is the sum of the items above; leave the total out",
    ],
    ["=YARN.COMBINEDYIELD({12000;14000;26000},{72.4%;61.1%;66.3%})", "#VALUE! nets item 3 is the sum of the items"],
    ["=YARN.BLENDMICRON({2000;3000;5000},{24;30;27.6})", "#VALUE! masses item 3 is the sum of the items above"],
    ["=YARN.APPORTION(100,{12.5;30.2;18.3;61})", "#VALUE! weights item 4 is the sum of the items above"],
    ['=YARN.PLYTAKEUP(400,4000,"tpm",31.25,"tex")', "#VALUE! ply_twist is 4000 turns a metre; an angle above 60°"],
    ['=YARN.FIBRES(31.25,"tex",21,21%,1310)', "#VALUE! density is 1310; must be 0.8 to 3 g/cm³"],
    // A percent or a fraction in the other's form.
    ["=YARN.ROMAINE(8%)", "#VALUE! tear is 0.08; must be 1 or more, top for one of noil; TEAR takes romaine"],
    ["=YARN.TEAR(1)", "#VALUE! romaine is 1; write 1% or 0.01; must be 0 to 0.5 (0% to 50%)"],
    ["=YARN.BALESTOCORE(1.1,2.5,4,1,95%)", "#VALUE! z is 0.95; must be 1 to 10, such as 1.96 for 95%"],
    ["=YARN.LIMITCV(0.64)", "#VALUE! fibres is 0.64; must be a number of fibres, 1 or more"],
    ["=YARN.SHAREVARIATION(50%,0.5)", "#VALUE! fibres is 0.5; must be a number of fibres, 1 or more"],
    // A heading in the place of a figure, or a total left in a list.
    ['=YARN.BLENDREGAIN({75%;25%},{"regain";18.25%},"dry")', "#VALUE! regains is 1 item long; must match shares"],
    ['=YARN.BLENDREGAIN({75%;25%;100%},{18%;6%;15%},"dry")', "#VALUE! shares is 2 in all; must sum to 1"],
    [
      "=YARN.BLENDMICRON({2000;24000;26000},{24;30})",
      "#VALUE! microns is 2 items long; must match masses, which has 3",
    ],
  ])("%s", (formula, message) => {
    expect(messageOf(formula)).toContain(message);
    expect(messageOf(formula).length).toBeLessThanOrEqual("#VALUE! ".length + 120);
  });

  test("a heading marked along with its list is no slip", () => {
    expect(sheet('=YARN.FOLD({"count";60;40},"NeC")')).toBe(24);
    expect(sheet('=YARN.COMBINEDYIELD({"net";12000;14000},{"yield";72.4%;61.1%})')).toBeCloseTo(0.66315, 5);
  });

  test("what is still a yarn stays: a roving, a voile, a crepe; a lot of 50 kg; as much noil as top", () => {
    // Metric factors of 10, 150 and 400 at Nm 25 are 50, 750 and 2000 turns a metre, the root of 25 being 5.
    expect(sheet('=YARN.TWISTFOR({10;150;400},"metric",25,"Nm","tpm")')).toEqual([[50], [750], [2000]]);
    expect(sheet('=YARN.CLEANMASS({50;0.5},50%,{"certificate";"none"})')).toEqual([[25], [0.25]]);
    expect(sheet("=YARN.TEAR(YARN.ROMAINE(1))")).toBe(1);
  });
});
