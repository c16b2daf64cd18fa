import * as counting from "../trade/counts";
import * as spinning from "../trade/spinning";
import { one, optional, required } from "../sheet/arguments";
import { numberBetween, positive, wholeNumber } from "../sheet/kinds";
import { finiteRows, lift } from "../sheet/lift";
import { efficiencyShare, unitOfTwist } from "../sheet/spinning";
import { countSystem, lengthUnit } from "../sheet/units";

const MILLIMETRE = 0.001;

/** What a package of yarn weighs, a doll's bobbin and a warp beam among them; common practice, no source. */
const packageOfYarn = numberBetween(1, 1e6, "must be 1 to 1000000 g, as packages hold; not kg");

/**
 * Production of one spindle in grams an hour, from its speed, the twist and the count.
 * @customfunction SPINRATE
 * @param {any[][]} spindle_rpm Revolutions of the spindle a minute; more than 0.
 * @param {any[][]} twist Twist of the yarn, in twist_unit; more than 0.
 * @param {any[][]} twist_unit Unit of the twist: "tpm", "tpi" or "tpcm".
 * @param {any[][]} count Count of the yarn, in system; more than 0.
 * @param {any[][]} system Count system, such as "Nm", "NeW", "tex".
 * @param {any[][]} [efficiency] Running time over working time, a fraction, 0.05 to 1; default 1.
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
      spinning.spindleRate(
        spinning.expectSpindle("spindle_rpm", spindle, spindle),
        spinning.expectTwist(turns, unit, number, words),
        counting.texOf(number, words),
        running,
      ),
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
 * @param {any[][]} rate Grams per spindle-hour, as SPINRATE gives; 0.1 to 10,000.
 * @returns {any[][]} Whole spindles, in the shape of the arguments.
 * @remarks 1000 × mass/(hours × rate), rounded up. Speeds and limits are the machine maker's; guards and lock-out as
 * local rules demand.
 * @throws #VALUE! when a number is not above 0.
 * @example =YARN.SPINDLESNEEDED({100;540},40,33.75) → {75;400}
 * @see DEFINITION
 */
export function spindlesNeeded(mass_kg: any[][], hours: any[][], rate: any[][]): any[][] {
  return lift(
    (mass, time, grams) => {
      const needed = spinning.expectSpindles(grams, spinning.spindlesFor(mass, time, grams));
      spinning.expectRate(grams);
      return needed;
    },
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
 * @param {any[][]} rate Grams per spindle-hour, as SPINRATE gives; 0.1 to 10,000.
 * @returns {any[][]} Hours, in the shape of the arguments.
 * @remarks 1000 × mass/(spindles × rate). Setting up and changing are not in it. Speeds and limits are the machine
 * maker's; guards and lock-out as local rules demand.
 * @throws #VALUE! when a number is out of range.
 * @example =YARN.MACHINEHOURS(540,400,33.75) → 40
 * @see DEFINITION
 */
export function machineHours(mass_kg: any[][], spindles: any[][], rate: any[][]): any[][] {
  return lift(
    (mass, number, grams) => spinning.machineHours(mass, number, spinning.expectRate(grams)),
    required({ mass_kg }, positive),
    required({ spindles }, wholeNumber),
    required({ rate }, positive),
  );
}

/**
 * Production of any machine in kg an hour, from its delivery speed and the count: gill, roving frame, winder, twister.
 * @customfunction MACHINERATE
 * @param {any[][]} speed Delivery speed of one delivery, a length in m/min; more than 0.
 * @param {any[][]} count Count of what is delivered, in system; more than 0.
 * @param {any[][]} system Count system, such as "ktex", "Nm", "tex".
 * @param {any[][]} [deliveries] Deliveries that run, a whole number; default 1.
 * @param {any[][]} [efficiency] Running time over working time, a fraction, 0.05 to 1; default 1.
 * @returns {any[][]} Kilograms an hour, in the shape of the arguments.
 * @remarks m/min × ktex × 0.06 × deliveries × efficiency. Speeds and limits are the machine maker's; guards and lock-out
 * as local rules demand.
 * @throws #VALUE! when a number is out of range, a percent is typed whole, or a word is unknown.
 * @example =YARN.MACHINERATE(120,20,"ktex",2,85%) → 244.8
 * @see DEFINITION
 */
export function machineRate(
  speed: any[][],
  count: any[][],
  system: any[][],
  deliveries?: any[][],
  efficiency?: any[][],
): any[][] {
  return lift(
    (metres, number, words, several, running: number) =>
      spinning.machineRate(
        spinning.expectDelivery("speed", metres),
        counting.texOf(counting.expectCount("count", number, words), words),
        several,
        running,
      ),
    required({ speed }, positive),
    required({ count }, positive),
    required({ system }, countSystem),
    optional({ deliveries }, wholeNumber, 1),
    optional({ efficiency }, efficiencyShare, 1),
  );
}

/**
 * Packages, doffs and hours of a lot on a spinning, winding or twisting machine, and the ends to join for a kilogram.
 * @customfunction DOFFPLAN
 * @param {any[][]} mass_kg Mass of the lot in kg; more than 0.
 * @param {any[][]} spindles Spindles that run, a whole number.
 * @param {any[][]} package_g Mass of yarn on a full package in g, 1 to 1,000,000.
 * @param {any[][]} rate Grams per spindle-hour, as SPINRATE gives; 0.1 to 10,000.
 * @returns {any[][]} Header row and one row: packages, doffs, hours a doff, hours in all, ends to join a kilogram.
 * @remarks Packages = mass / package, up; doffs = packages / spindles, up; hours a doff = package / rate. The last doff
 * takes as long as the others; doffing and piecing are not in the hours. Guards and lock-out as local rules demand.
 * @throws #VALUE! when a number is out of range; #NUM! when the packages pass all counting.
 * @example =YARN.DOFFPLAN(540,400,100,33.75) → {"packages","doffs","hours a doff","hours in all","ends to join (per kg)";5400,14,2.962963,41.481481,10}
 * @see DEFINITION
 */
export function doffPlan(mass_kg: any[][], spindles: any[][], package_g: any[][], rate: any[][]): any[][] {
  const { packages, doffs, hoursPerDoff, hours, endsPerKilogram } = spinning.doffPlan(
    one({ mass_kg }, positive),
    one({ spindles }, wholeNumber),
    one({ package_g }, packageOfYarn),
    spinning.expectRate(one({ rate }, positive)),
  );
  return finiteRows([
    ["packages", "doffs", "hours a doff", "hours in all", "ends to join (per kg)"],
    [packages, doffs, hoursPerDoff, hours, endsPerKilogram],
  ]);
}

/**
 * Speed of the ring traveller in m/s, from the diameter of the ring and the spindle speed; its limit is the maker's.
 * @customfunction TRAVELLERSPEED
 * @param {any[][]} ring_diameter Diameter of the ring, in diameter_unit; 20 to 400 mm.
 * @param {any[][]} spindle_rpm Revolutions of the spindle a minute; more than 0.
 * @param {any[][]} [diameter_unit] Unit of the diameter: "mm" (default), "cm", "in".
 * @returns {any[][]} Metres a second, in the shape of the arguments.
 * @remarks π × diameter × rpm / 60. The speed that ring and traveller bear is their maker's; guards and lock-out as local
 * rules demand.
 * @throws #VALUE! when a number is out of range, the spindle above 27,000 rpm, the ring in another unit, or the unit is unknown.
 * @example =YARN.TRAVELLERSPEED(46,13500) → 32.515484
 * @see RIETER
 */
export function travellerSpeed(ring_diameter: any[][], spindle_rpm: any[][], diameter_unit?: any[][]): any[][] {
  return lift(
    (diameter, revolutions, metres: number) => spinning.travellerSpeed(diameter * metres, revolutions),
    required({ ring_diameter }, positive),
    required({ spindle_rpm }, positive),
    optional({ diameter_unit }, lengthUnit, MILLIMETRE),
  );
}

/**
 * Spindle speed in rpm at which the ring traveller reaches a speed in m/s that its maker allows.
 * @customfunction SPINDLELIMIT
 * @param {any[][]} ring_diameter Diameter of the ring, in diameter_unit; 20 to 400 mm.
 * @param {any[][]} speed Speed of the traveller, a number in m/s; more than 0.
 * @param {any[][]} [diameter_unit] Unit of the diameter: "mm" (default), "cm", "in".
 * @returns {any[][]} Revolutions a minute, in the shape of the arguments.
 * @remarks 60 × speed / (π × diameter). The limit itself is the maker's, of ring, traveller and spindle; guards and
 * lock-out as local rules demand.
 * @throws #VALUE! when a number is out of range, the ring is in another unit, or the unit is unknown.
 * @example =YARN.SPINDLELIMIT(46,30) → 12455.6
 * @see RIETER
 */
export function spindleLimit(ring_diameter: any[][], speed: any[][], diameter_unit?: any[][]): any[][] {
  return lift(
    (diameter, metresPerSecond, metres: number) => {
      const limit = spinning.spindleLimit(diameter * metres, metresPerSecond);
      return spinning.expectRingSpindle(limit, metresPerSecond, diameter * metres);
    },
    required({ ring_diameter }, positive),
    required({ speed }, positive),
    optional({ diameter_unit }, lengthUnit, MILLIMETRE),
  );
}
