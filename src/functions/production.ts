import { texOf } from "../trade/counts/counts";
import { machineHours as hoursFor, spindleRate, spindlesFor } from "../trade/spinning/spinning-production";
import { turnsPerMetre } from "../trade/spinning/twist-units";
import { optional, required } from "../sheet/arguments";
import { positive, wholeNumber } from "../sheet/kinds";
import { lift } from "../sheet/lift";
import { efficiencyShare, unitOfTwist } from "../sheet/spinning";
import { countSystem } from "../sheet/units";

/**
 * Production of one spindle in grams an hour, from its speed, the twist and the count.
 * @customfunction SPINRATE
 * @param {any[][]} spindle_rpm Revolutions of the spindle a minute; more than 0.
 * @param {any[][]} twist Twist of the yarn, in twist_unit; more than 0.
 * @param {any[][]} twist_unit Unit of the twist: "tpm", "tpi" or "tpcm".
 * @param {any[][]} count Count of the yarn, in system; more than 0.
 * @param {any[][]} system Count system, such as "Nm", "NeW", "tex".
 * @param {any[][]} [efficiency] Running time over working time, a fraction above 0 to 1; default 1.
 * @returns {any[][]} Grams per spindle-hour, in the shape of the arguments.
 * @remarks rpm × 60 × tex × efficiency/(1000 × turns per metre). Speeds and limits are the machine maker's; guards and
 * lock-out as local rules demand.
 * @throws #VALUE! when a number is out of range, a percent is typed whole, or a word is unknown.
 * @example =YARN.SPINRATE(8000,400,"tpm",31.25,"tex",0.9) → 33.75
 * @see RIETER
 */
export function spinRate(
  spindle_rpm: any[][],
  twist: any[][],
  twist_unit: any[][],
  count: any[][],
  system: any[][],
  efficiency?: any[][],
): any[][] {
  return lift(
    (spindle, turns, unit, number, words, running: number) =>
      spindleRate(spindle, turnsPerMetre(turns, unit), texOf(number, words), running),
    required({ spindle_rpm }, positive),
    required({ twist }, positive),
    required({ twist_unit }, unitOfTwist),
    required({ count }, positive),
    required({ system }, countSystem),
    optional({ efficiency }, efficiencyShare, 1),
  );
}

/**
 * Spindles needed, rounded up, for a mass in kg within so many hours.
 * @customfunction SPINDLESNEEDED
 * @param {any[][]} mass_kg Mass to spin in kg; more than 0.
 * @param {any[][]} hours Hours that the machine runs; more than 0.
 * @param {any[][]} rate Grams per spindle-hour, as SPINRATE gives; more than 0.
 * @returns {any[][]} Whole spindles, in the shape of the arguments.
 * @remarks 1000 × mass/(hours × rate), rounded up. Speeds and limits are the machine maker's; guards and lock-out as
 * local rules demand.
 * @throws #VALUE! when a number is not above 0.
 * @example =YARN.SPINDLESNEEDED({100;540},40,33.75) → {75;400}
 * @see DEFINITION
 */
export function spindlesNeeded(mass_kg: any[][], hours: any[][], rate: any[][]): any[][] {
  return lift(
    spindlesFor,
    required({ mass_kg }, positive),
    required({ hours }, positive),
    required({ rate }, positive),
  );
}

/**
 * Machine hours to spin a mass in kg on so many spindles.
 * @customfunction MACHINEHOURS
 * @param {any[][]} mass_kg Mass to spin in kg; more than 0.
 * @param {any[][]} spindles Spindles that run, a whole number.
 * @param {any[][]} rate Grams per spindle-hour, as SPINRATE gives; more than 0.
 * @returns {any[][]} Hours, in the shape of the arguments.
 * @remarks 1000 × mass/(spindles × rate). Setting up and changing are not in it. Speeds and limits are the machine
 * maker's; guards and lock-out as local rules demand.
 * @throws #VALUE! when a number is out of range.
 * @example =YARN.MACHINEHOURS(540,400,33.75) → 40
 * @see DEFINITION
 */
export function machineHours(mass_kg: any[][], spindles: any[][], rate: any[][]): any[][] {
  return lift(
    hoursFor,
    required({ mass_kg }, positive),
    required({ spindles }, wholeNumber),
    required({ rate }, positive),
  );
}
