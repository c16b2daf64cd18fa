import * as counting from "../trade/counts";
import * as spinning from "../trade/spinning";
import { TURNS_PER_METRE, type TwistUnit } from "../tables/twist-units";
import { TWIST_CONVENTIONS } from "../tables/twist-conventions";
import { optional, required } from "../sheet/arguments";
import { anyNumber, notNegative, positive } from "../sheet/kinds";
import { specificVolume } from "../sheet/fibre-kinds";
import { finiteRows, lift } from "../sheet/lift";
import { plyDirection, plyRule, strands, takeUpModel, twistConvention, unitOfTwist } from "../sheet/spinning";
import { countSystem, lengthUnit } from "../sheet/units";

/** Roll diameters are in millimetres unless the formula says otherwise; lengthUnit gives metres. */
const MILLIMETRE = 1 / 1000;

/** Turns per metre of a twist as given. */
function turnsOf(twist: number, unit: TwistUnit): number {
  return spinning.expectTurns("twist", () => `${twist} ${unit.word}`, spinning.turnsPerMetre(twist, unit));
}

/**
 * Delivery speed in m/min of a roll, from its diameter and its revolutions a minute.
 * @customfunction DELIVERY
 * @param {any[][]} roll_diameter Diameter of the delivery roll, in diameter_unit; 5 to 2000 mm.
 * @param {any[][]} roll_rpm Revolutions of the roll a minute; more than 0.
 * @param {any[][]} [diameter_unit] Unit of the diameter: "mm" (default), "cm", "in".
 * @returns {any[][]} Surface speed in m/min, in the shape of the arguments.
 * @remarks Speed = π × diameter × rpm. Slip is not in it: measure the delivered length where it matters.
 * @throws #VALUE! when a number is not above 0 or the unit is unknown.
 * @example =YARN.DELIVERY(27,177) → 15.0137
 * @example =YARN.DELIVERY(1,{100;200},"in") → {7.9796;15.9593}
 * @see DEFINITION
 */
export function delivery(roll_diameter: any[][], roll_rpm: any[][], diameter_unit?: any[][]): any[][] {
  return lift(
    (diameter: number, revolutions: number, unit: number) =>
      spinning.surfaceSpeed(spinning.expectRoll("roll_diameter", diameter * unit), revolutions),
    required({ roll_diameter }, positive),
    required({ roll_rpm }, positive),
    optional({ diameter_unit }, lengthUnit, MILLIMETRE),
  );
}

/**
 * Twist put in by a spindle, from spindle rpm and delivery in m/min; turns per metre, or tpi, tpcm.
 * @customfunction TWIST
 * @param {any[][]} spindle_rpm Revolutions of the spindle a minute; more than 0.
 * @param {any[][]} delivery Delivery speed in m/min; more than 0 (DELIVERY works it out).
 * @param {any[][]} [unit] Unit of the result: "tpm" (default), "tpi" or "tpcm".
 * @returns {any[][]} Twist in the unit, in the shape of the arguments.
 * @remarks Twist = spindle rpm / delivery. That is the twist of the yarn unwound over the end of its package; while it
 * lies on the bobbin it is lower by the lag of the traveller (TRAVELLERLAG). For two-for-one twisters, double the rpm.
 * @throws #VALUE! when a number is not above 0 or the unit is unknown.
 * @example =YARN.TWIST(15000,15) → 1000
 * @example =YARN.TWIST({6000;8000},20,"tpi") → {7.62;10.16}
 * @see RIETER
 */
export function twist(spindle_rpm: any[][], delivery: any[][], unit?: any[][]): any[][] {
  return lift(
    (spindle, speed, wanted) => {
      const came = (): string => `${spindle} at ${speed} m/min`;
      const turns = spinning.twistFromSpindle(spinning.expectSpindle("spindle_rpm", came, spindle), speed);
      return spinning.fromTurnsPerMetre(spinning.expectTurns("spindle_rpm", came, turns), wanted);
    },
    required({ spindle_rpm }, positive),
    required({ delivery }, positive),
    optional({ unit }, unitOfTwist, TURNS_PER_METRE),
  );
}

/**
 * Twist put in by a spindle, from spindle rpm and the delivery roll's own rpm and diameter.
 * @customfunction ROLLTWIST
 * @param {any[][]} spindle_rpm Revolutions of the spindle a minute; more than 0.
 * @param {any[][]} roll_rpm Revolutions of the delivery roll a minute; more than 0.
 * @param {any[][]} roll_diameter Diameter of the delivery roll, in diameter_unit; 5 to 2000 mm.
 * @param {any[][]} [diameter_unit] Unit of the diameter: "mm" (default), "cm", "in".
 * @param {any[][]} [unit] Unit of the result: "tpm" (default), "tpi" or "tpcm".
 * @returns {any[][]} Twist in the unit, in the shape of the arguments.
 * @remarks Twist = spindle rpm / (π × diameter × roll rpm). With roll_rpm 1, spindle_rpm is the spindle's turns to one
 * turn of the roll, as counted by hand.
 * @throws #VALUE! when a number is not above 0 or a unit is unknown.
 * @example =YARN.ROLLTWIST(86,1,1,"in","tpi") → 27.37
 * @see LINCOLN-1885, RIETER
 */
export function rollTwist(
  spindle_rpm: any[][],
  roll_rpm: any[][],
  roll_diameter: any[][],
  diameter_unit?: any[][],
  unit?: any[][],
): any[][] {
  return lift(
    (spindle, revolutions, diameter, length: number, wanted) => {
      const speed = spinning.surfaceSpeed(spinning.expectRoll("roll_diameter", diameter * length), revolutions);
      const turns = spinning.twistFromSpindle(spindle, speed);
      return spinning.fromTurnsPerMetre(
        spinning.expectTurns("spindle_rpm", () => `${spindle} at a roll_rpm of ${revolutions}`, turns),
        wanted,
      );
    },
    required({ spindle_rpm }, positive),
    required({ roll_rpm }, positive),
    required({ roll_diameter }, positive),
    optional({ diameter_unit }, lengthUnit, MILLIMETRE),
    optional({ unit }, unitOfTwist, TURNS_PER_METRE),
  );
}

/**
 * Spindle speed in rpm for a wanted twist at a delivery in m/min.
 * @customfunction SPINDLESPEED
 * @param {any[][]} twist Twist wanted, in twist_unit; more than 0.
 * @param {any[][]} twist_unit Unit of the twist: "tpm", "tpi" or "tpcm".
 * @param {any[][]} delivery Delivery speed in m/min; more than 0.
 * @returns {any[][]} Revolutions of the spindle a minute, in the shape of the arguments.
 * @remarks rpm = turns per metre × m/min. What a spindle and a traveller may run at is the machine maker's to say.
 * @throws #VALUE! when a number is not above 0 or the unit is unknown.
 * @example =YARN.SPINDLESPEED(1000,"tpm",15) → 15000
 * @see RIETER
 */
export function spindleSpeed(twist: any[][], twist_unit: any[][], delivery: any[][]): any[][] {
  return lift(
    (turns, unit, speed) =>
      spinning.expectSpindle("delivery", () => `${speed} m/min`, spinning.spindleSpeedFor(turnsOf(turns, unit), speed)),
    required({ twist }, positive),
    required({ twist_unit }, unitOfTwist),
    required({ delivery }, positive),
  );
}

/**
 * Delivery-roll speed in rpm for a wanted twist at a spindle speed.
 * @customfunction ROLLSPEED
 * @param {any[][]} twist Twist wanted, in twist_unit; more than 0.
 * @param {any[][]} twist_unit Unit of the twist: "tpm", "tpi" or "tpcm".
 * @param {any[][]} spindle_rpm Revolutions of the spindle a minute; more than 0.
 * @param {any[][]} roll_diameter Diameter of the delivery roll, in diameter_unit; 5 to 2000 mm.
 * @param {any[][]} [diameter_unit] Unit of the diameter: "mm" (default), "cm", "in".
 * @returns {any[][]} Revolutions of the roll a minute, in the shape of the arguments.
 * @remarks rpm = spindle rpm / (twist × π × diameter). The inverse of ROLLTWIST.
 * @throws #VALUE! when a number is not above 0 or a unit is unknown.
 * @example =YARN.ROLLSPEED(400,"tpm",8000,27) → 235.785
 * @see RIETER
 */
export function rollSpeed(
  twist: any[][],
  twist_unit: any[][],
  spindle_rpm: any[][],
  roll_diameter: any[][],
  diameter_unit?: any[][],
): any[][] {
  return lift(
    (turns, unit, spindle, diameter, length: number) =>
      spinning.revolutionsFor(
        spinning.expectFed("twist", () => `${turns} ${unit.word}`, spinning.deliveryFor(spindle, turnsOf(turns, unit))),
        spinning.expectRoll("roll_diameter", diameter * length),
      ),
    required({ twist }, positive),
    required({ twist_unit }, unitOfTwist),
    required({ spindle_rpm }, positive),
    required({ roll_diameter }, positive),
    optional({ diameter_unit }, lengthUnit, MILLIMETRE),
  );
}

/**
 * Lag of the ring traveller behind the spindle in rpm, from delivery in m/min and winding diameter.
 * @customfunction TRAVELLERLAG
 * @param {any[][]} delivery Delivery speed in m/min; more than 0.
 * @param {any[][]} wind_diameter Diameter at which the yarn winds on, in diameter_unit; 5 to 2000 mm.
 * @param {any[][]} [diameter_unit] Unit of the diameter: "mm" (default), "cm", "in".
 * @returns {any[][]} Revolutions a minute that the traveller falls behind, in the shape of the arguments.
 * @remarks Lag = delivery / (π × diameter): one turn less for every turn wound on. Over-end unwinding puts those turns
 * back, so the yarn leaves the package with the full spindle twist.
 * @throws #VALUE! when a number is not above 0 or the unit is unknown.
 * @example =YARN.TRAVELLERLAG(15,25) → 190.986
 * @see RIETER, DRAPER-1896
 */
export function travellerLag(delivery: any[][], wind_diameter: any[][], diameter_unit?: any[][]): any[][] {
  return lift(
    (speed, diameter, length: number) =>
      spinning.travellerLag(speed, spinning.expectRoll("wind_diameter", diameter * length)),
    required({ delivery }, positive),
    required({ wind_diameter }, positive),
    optional({ diameter_unit }, lengthUnit, MILLIMETRE),
  );
}

/**
 * Twist converted between turns per metre, per inch and per centimetre.
 * @customfunction TWISTUNIT
 * @param {any[][]} value Twist in the unit "from"; may be negative, for what RESIDUALTWIST gives.
 * @param {any[][]} from Unit of value: "tpm", "tpi" or "tpcm".
 * @param {any[][]} to Unit wanted.
 * @returns {any[][]} Twist in the unit "to", in the shape of the arguments.
 * @remarks Exact by the inch of 25.4 mm: 1 tpi = 5000/127 tpm.
 * @throws #VALUE! when value is not a number or a unit is unknown.
 * @example =YARN.TWISTUNIT({10;12},"tpi","tpm") → {393.70079;472.44094}
 * @see NIST-YD-LB
 */
export function twistUnit(value: any[][], from: any[][], to: any[][]): any[][] {
  return lift(
    (turns, unit, wanted) => {
      spinning.expectTurnsAtMost("value", () => `${turns} ${unit.word}`, spinning.turnsPerMetre(turns, unit));
      return spinning.convertTwist(turns, unit, wanted);
    },
    required({ value }, anyNumber),
    required({ from }, unitOfTwist),
    required({ to }, unitOfTwist),
  );
}

/**
 * Twist factor (twist multiplier) of a yarn, under a named convention.
 * @customfunction TWISTFACTOR
 * @param {any[][]} twist Twist of the yarn, in twist_unit; more than 0.
 * @param {any[][]} twist_unit Unit of the twist: "tpm", "tpi" or "tpcm".
 * @param {any[][]} count Count of the yarn, in system; more than 0.
 * @param {any[][]} system Count system, such as "Nm", "NeW", "tex".
 * @param {any[][]} convention "metric", "tex tpcm", "tex tpm", "cotton", "worsted", "run", "YSW" or "Galashiels".
 * @returns {any[][]} Twist factor, in the shape of the arguments.
 * @remarks metric: tpm/√Nm; tex tpcm: tpcm × √tex; tex tpm: tpm × √tex; the others: tpi/√count of that system. Three
 * conventions go by the name of alpha and two by that of tex, so those words alone are refused. The twist and the count
 * may be in any unit and system: they are converted first. TWISTCONVENTIONS lists the words.
 * @throws #VALUE! when a number is not above 0, the factor is none of a yarn (turns in another unit), a word is unknown, or the convention has several
 * meanings ("alpha").
 * @example =YARN.TWISTFACTOR(10,"tpi",10,"NeW","metric") → 117.175558
 * @example =YARN.TWISTFACTOR(1000,"tpm",25,"NeC","cotton") → 5.08
 * @see RIETER, EXAM
 */
export function twistFactor(
  twist: any[][],
  twist_unit: any[][],
  count: any[][],
  system: any[][],
  convention: any[][],
): any[][] {
  return lift(
    (turns, unit, number, words, rule) =>
      spinning.expectFactor(
        "twist",
        () => `${turns} ${unit.word}`,
        spinning.twistFactor(turns, unit, counting.expectCount("count", number, words), words, rule),
        rule,
      ),
    required({ twist }, positive),
    required({ twist_unit }, unitOfTwist),
    required({ count }, positive),
    required({ system }, countSystem),
    required({ convention }, twistConvention),
  );
}

/**
 * Twist of a yarn that has a given twist factor, under a named convention.
 * @customfunction TWISTFOR
 * @param {any[][]} factor Twist factor under the convention; more than 0.
 * @param {any[][]} convention "metric", "tex tpcm", "tex tpm", "cotton", "worsted", "run", "YSW" or "Galashiels".
 * @param {any[][]} count Count of the yarn, in system; more than 0.
 * @param {any[][]} system Count system, such as "Nm", "NeW", "tex".
 * @param {any[][]} twist_unit Unit of the result: "tpm", "tpi" or "tpcm".
 * @returns {any[][]} Twist in twist_unit, in the shape of the arguments.
 * @remarks The inverse of TWISTFACTOR. Which factor suits a wool and a use is a matter for a sample, not for a formula.
 * @throws #VALUE! when a number is not above 0, the factor is none of a yarn (another convention's), a word is unknown, or the convention has several
 * meanings ("alpha").
 * @example =YARN.TWISTFOR(80,"metric",{16;25},"Nm","tpm") → {320;400}
 * @see RIETER
 */
export function twistFor(
  factor: any[][],
  convention: any[][],
  count: any[][],
  system: any[][],
  twist_unit: any[][],
): any[][] {
  return lift(
    (value, rule, number, words, unit) =>
      spinning.twistForFactor(
        spinning.expectFactor("factor", () => `${value} ${rule.word}`, value, rule),
        rule,
        counting.expectCount("count", number, words),
        words,
        unit,
      ),
    required({ factor }, positive),
    required({ convention }, twistConvention),
    required({ count }, positive),
    required({ system }, countSystem),
    required({ twist_unit }, unitOfTwist),
  );
}

/**
 * Twist factor converted from one named convention to another.
 * @customfunction FACTORUNIT
 * @param {any[][]} value Twist factor under the convention "from"; more than 0.
 * @param {any[][]} from Convention of value: "metric", "tex tpcm", "tex tpm", "cotton", "worsted", "run", "YSW", "Galashiels".
 * @param {any[][]} to Convention wanted.
 * @returns {any[][]} Twist factor under the convention "to", in the shape of the arguments.
 * @remarks The count is not needed: every convention is turns per metre × √tex but for a constant.
 * @throws #VALUE! when value is not above 0, a word is unknown, or a convention has several meanings ("alpha").
 * @example =YARN.FACTORUNIT(1,"worsted","metric") → 37.05417
 * @example =YARN.FACTORUNIT(1,"cotton","tex tpm") → 956.7344
 * @see DEFINITION, NIST-YD-LB
 */
export function factorUnit(value: any[][], from: any[][], to: any[][]): any[][] {
  return lift(
    (value: number, rule, wanted) =>
      spinning.convertFactor(
        spinning.expectFactorAtMost(() => `${value} ${rule.word}`, value, rule),
        rule,
        wanted,
      ),
    required({ value }, positive),
    required({ from }, twistConvention),
    required({ to }, twistConvention),
  );
}

/**
 * Table of the twist-factor conventions: word, formula, unit of twist, count system, size, source.
 * @customfunction TWISTCONVENTIONS
 * @returns {any[][]} Header row, then one row per convention.
 * @remarks Size: what a factor of 1 is in turns per metre × √tex. Convert with FACTORUNIT.
 * @throws Nothing.
 * @example =YARN.TWISTCONVENTIONS() → {"word","factor is","twist unit","count system","size (turns per metre × √tex)","source";"metric","turns per metre / √Nm","tpm","Nm",31.6228,"RIETER";"tex tpcm","turns per centimetre × √tex","tpcm","tex",100,"DEFINITION";"tex tpm","turns per metre × √tex","tpm","tex",1,"EXAM";…}
 * @see RIETER, EXAM, DEFINITION
 */
export function twistConventions(): any[][] {
  return finiteRows([
    ["word", "factor is", "twist unit", "count system", "size (turns per metre × √tex)", "source"],
    ...TWIST_CONVENTIONS.map(({ word, meaning, unit, system, source }) => [
      word,
      meaning,
      unit.word,
      system.word,
      spinning.turnsPerMetre(Math.sqrt(system.size.numerator / system.size.denominator), unit),
      source,
    ]),
  ]);
}

/**
 * Angle in degrees between the outside fibres of a yarn and its axis.
 * @customfunction TWISTANGLE
 * @param {any[][]} twist Twist of the yarn, in twist_unit; more than 0.
 * @param {any[][]} twist_unit Unit of the twist: "tpm", "tpi" or "tpcm".
 * @param {any[][]} count Count of the yarn, in system; more than 0.
 * @param {any[][]} system Count system, such as "Nm", "NeW", "tex".
 * @param {any[][]} [specific_volume] Specific volume of the yarn, 0.5 to 20 cm³/g; default 1.26108 (the worsted rule).
 * @returns {any[][]} Angle in degrees, in the shape of the arguments.
 * @remarks tan α = π × diameter × twist, with the diameter of a round yarn of that count. The default volume is a rule
 * of thumb: the one at which an inch holds 0.9 × √(yd/lb) diameters.
 * @throws #VALUE! when a number is not above 0, the angle passes 60 degrees (turns in another unit) or a word is unknown.
 * @example =YARN.TWISTANGLE(400,"tpm",31.25,"tex",1.25) → 15.6555
 * @see DEFINITION, ASHENHURST
 */
export function twistAngle(
  twist: any[][],
  twist_unit: any[][],
  count: any[][],
  system: any[][],
  specific_volume?: any[][],
): any[][] {
  return lift(
    (turns, unit, number, words, volume) =>
      spinning.degreesOf(spinning.surfaceTangent(turns, unit, number, words, volume)),
    required({ twist }, positive),
    required({ twist_unit }, unitOfTwist),
    required({ count }, positive),
    required({ system }, countSystem),
    optional({ specific_volume }, specificVolume, counting.WORSTED_SPECIFIC_VOLUME),
  );
}

/**
 * Take-up in spinning: the fraction of its untwisted length that a yarn loses to twist.
 * @customfunction TAKEUP
 * @param {any[][]} twist Twist of the yarn, in twist_unit; more than 0.
 * @param {any[][]} twist_unit Unit of the twist: "tpm", "tpi" or "tpcm".
 * @param {any[][]} count Count of the yarn, in system; more than 0.
 * @param {any[][]} system Count system, such as "Nm", "NeW", "tex".
 * @param {any[][]} [specific_volume] Specific volume of the yarn, 0.5 to 20 cm³/g; default 1.26108 (the worsted rule).
 * @param {any[][]} [model] "ideal" (default) or "staple".
 * @returns {any[][]} Take-up as a fraction of the untwisted length, in the shape of the arguments.
 * @remarks With α from TWISTANGLE, ideal: tan²(α/2); staple: 1 + ln(cos α) × cos α/(1 − cos α). Estimates from
 * geometry, to start a frame with; weigh a sample. 1 metre delivered becomes 1 − take-up metres.
 * @throws #VALUE! when a number is not above 0, the angle passes 60 degrees (turns in another unit) or a word is unknown.
 * @example =YARN.TAKEUP(400,"tpm",31.25,"tex",1.25) → 0.0189
 * @example =YARN.TAKEUP(400,"tpm",31.25,"tex",1.25,"staple") → 0.018783
 * @see DEFINITION, J-STAGE-1968, ASHENHURST
 */
export function takeUp(
  twist: any[][],
  twist_unit: any[][],
  count: any[][],
  system: any[][],
  specific_volume?: any[][],
  model?: any[][],
): any[][] {
  return lift(
    (turns, unit, number, words, volume, form) =>
      spinning.takeUp(spinning.surfaceTangent(turns, unit, number, words, volume), form),
    required({ twist }, positive),
    required({ twist_unit }, unitOfTwist),
    required({ count }, positive),
    required({ system }, countSystem),
    optional({ specific_volume }, specificVolume, counting.WORSTED_SPECIFIC_VOLUME),
    optional({ model }, takeUpModel, "ideal"),
  );
}

/**
 * Ply twist to start a sample with, from the singles twist and a rule or ratio that you name.
 * @customfunction PLYTWIST
 * @param {any[][]} single_twist Twist of the singles, in any unit; more than 0.
 * @param {any[][]} plies Number of strands, 2 to 12.
 * @param {any[][]} rule A ratio such as 0.67, or "two-thirds", "n/(n+1)" or "axial". There is no default.
 * @returns {any[][]} Ply twist in the unit of single_twist, in the shape of the arguments.
 * @remarks A rule of thumb, common practice, no source: a starting point for a sample. Handbooks disagree on the ratio
 * and none is an authority; one published specification has 2 tpi on singles of 5 tpi (0.4). axial =
 * 1/(1 + 1/sin(π/n)): the outside of the ply at the angle of the singles, outer fibres along the axis.
 * @throws #VALUE! when a number is out of range, or rule is left out or unknown.
 * @example =YARN.PLYTWIST({300;450},2,"two-thirds") → {200;300}
 * @example =YARN.PLYTWIST(5,2,0.4) → 2
 * @see PRACTICE, A-A-55211
 */
export function plyTwist(single_twist: any[][], plies: any[][], rule: any[][]): any[][] {
  return lift(
    (single, number, chosen) => single * spinning.plyRatio(chosen, number),
    required({ single_twist }, positive),
    required({ plies }, strands),
    required({ rule }, plyRule),
  );
}

/**
 * Twist left in the singles after plying, in the unit of the two twists.
 * @customfunction RESIDUALTWIST
 * @param {any[][]} single_twist Twist of the singles; more than 0.
 * @param {any[][]} ply_twist Ply twist in the same unit; 0 or more.
 * @param {any[][]} [direction] "opposite" (default: the ply is twisted against the singles) or "same".
 * @returns {any[][]} Residual twist, in the shape of the arguments; negative when the ply has reversed the singles.
 * @remarks opposite: singles − ply; same: singles + ply. The change of length in plying is left out.
 * @throws #VALUE! when a number is out of range or direction is unknown.
 * @example =YARN.RESIDUALTWIST(5,2) → 3
 * @see DEFINITION
 */
export function residualTwist(single_twist: any[][], ply_twist: any[][], direction?: any[][]): any[][] {
  return lift(
    (single, ply, way) => spinning.residualTwist(single, spinning.expectPlyTwist(single, ply), way),
    required({ single_twist }, positive),
    required({ ply_twist }, notNegative),
    optional({ direction }, plyDirection, "opposite"),
  );
}

/**
 * Take-up in plying singles, as a fraction of their length; negative when the ply lengthens them. A model of two-fold yarn, an estimate for more plies.
 * @customfunction PLYTAKEUP
 * @param {any[][]} single_twist Twist of the singles, in twist_unit; more than 0.
 * @param {any[][]} ply_twist Ply twist in the same unit; 0 or more.
 * @param {any[][]} twist_unit Unit of both twists: "tpm", "tpi" or "tpcm".
 * @param {any[][]} single_count Count of one single, in system; more than 0.
 * @param {any[][]} system Count system, such as "Nm", "NeW", "tex".
 * @param {any[][]} [specific_volume] Specific volume of the singles, 0.5 to 20 cm³/g; default 1.26108 (the worsted rule).
 * @param {any[][]} [direction] "opposite" (default: the ply is twisted against the singles) or "same".
 * @param {any[][]} [plies] Number of strands, 2 to 12; default 2. Beyond 2 it is an estimate.
 * @returns {any[][]} Take-up as a fraction of the singles' length, in the shape of the arguments.
 * @remarks A model for two-fold staple yarn: 1 − k = (1 − k(θ′))/(1 − k(θ)) × cos β; θ from the singles twist, θ′ from
 * what is left of it, tan β = π × strand diameter × ply twist, k(θ) the staple model of TAKEUP. Against the singles it
 * comes out negative up to about two thirds of their twist. Beyond two plies an estimate without a source: the strands
 * touch in a ring, d/sin(π/plies) across their centres (as in PLYTWIST axial), and β is taken there. Weigh a sample.
 * @throws #VALUE! when a number is out of range, an angle passes 60 degrees (turns in another unit) or a word is unknown.
 * @example =YARN.PLYTAKEUP(400,{150;400},"tpm",31.25,"tex",1.25) → {-0.005923;0.018666}
 * @example =YARN.PLYTAKEUP(400,{150;400},"tpm",31.25,"tex",1.25,"opposite",3) → {-0.004096;0.030364}
 * @see J-STAGE-1968, ASHENHURST
 */
export function plyTakeUp(
  single_twist: any[][],
  ply_twist: any[][],
  twist_unit: any[][],
  single_count: any[][],
  system: any[][],
  specific_volume?: any[][],
  direction?: any[][],
  plies?: any[][],
): any[][] {
  return lift(
    (single, ply, unit, count, words, volume, way, number) =>
      spinning.plyTakeUp(
        counting.diameter(counting.expectCount("single_count", count, words), words, volume),
        spinning.turnsPerMetre(single, unit),
        spinning.turnsPerMetre(spinning.expectPlyTwist(single, ply), unit),
        way,
        number,
      ),
    required({ single_twist }, positive),
    required({ ply_twist }, notNegative),
    required({ twist_unit }, unitOfTwist),
    required({ single_count }, positive),
    required({ system }, countSystem),
    optional({ specific_volume }, specificVolume, counting.WORSTED_SPECIFIC_VOLUME),
    optional({ direction }, plyDirection, "opposite"),
    optional({ plies }, strands, 2),
  );
}
