import * as packs from "../trade/packs";
import { list, listOr, one, optional, required } from "../sheet/arguments";
import { notNegative, positive, regain, standardRegain } from "../sheet/kinds";
import { finiteRows, lift } from "../sheet/lift";
import { lengthUnit } from "../sheet/units";
import { refuseTotalOfMeasurements } from "../sheet/totals";
import { alongside, namedList } from "../sheet/names";

/**
 * Whole skeins of a stated mass in a mass of yarn, conditioned first when both regains are given.
 * @customfunction SKEINS
 * @param {any[][]} mass Mass of yarn; 0 or more.
 * @param {any[][]} skein_mass Mass of one skein, in the same unit as mass; more than 0.
 * @param {any[][]} [regain_now] Regain of the yarn now, as a fraction; left out with the next: no correction.
 * @param {any[][]} [regain_standard] Regain at which the skein's mass is stated, a fraction up to 0.3; left out with the last: no correction.
 * @returns {any[][]} Whole skeins, rounded down, in the shape of the arguments.
 * @remarks Mass × (1 + standard)/(1 + now) / skein, whole part. SKEINREMAINDER gives what is left over. Mass and skein in
 * one unit: 100 kg of 100 g skeins is SKEINS(100,0.1).
 * @throws #VALUE! when a mass is out of range or only one regain is given.
 * @example =YARN.SKEINS(100,0.1) → 1000
 * @example =YARN.SKEINS(100,0.1,12%,18.25%) → 1055
 * @see DEFINITION
 */
export function skeins(mass: any[][], skein_mass: any[][], regain_now?: any[][], regain_standard?: any[][]): any[][] {
  return lift(
    packs.wholeSkeins,
    required({ mass }, notNegative),
    required({ skein_mass }, positive),
    optional({ regain_now }, regain, undefined),
    optional({ regain_standard }, standardRegain, undefined),
  );
}

/**
 * Mass left over when yarn is made up into whole skeins, in the unit of the mass, at standard regain when both regains are given.
 * @customfunction SKEINREMAINDER
 * @param {any[][]} mass Mass of yarn; 0 or more.
 * @param {any[][]} skein_mass Mass of one skein, in the same unit as mass; more than 0.
 * @param {any[][]} [regain_now] Regain of the yarn now, as a fraction; left out with the next: no correction.
 * @param {any[][]} [regain_standard] Regain at which the skein's mass is stated, a fraction up to 0.3; left out with the last: no correction.
 * @returns {any[][]} Mass over, in the unit of mass, below one skein; in the shape of the arguments.
 * @remarks Conditioned mass − whole skeins × skein, exactly what SKEINS leaves.
 * @throws #VALUE! when a mass is out of range or only one regain is given.
 * @example =YARN.SKEINREMAINDER(1.25,0.1) → 0.05
 * @see DEFINITION
 */
export function skeinRemainder(
  mass: any[][],
  skein_mass: any[][],
  regain_now?: any[][],
  regain_standard?: any[][],
): any[][] {
  return lift(
    (yarn: number, skein: number, now: number | undefined, standard: number | undefined) =>
      packs.skeinsOf(yarn, skein, now, standard).remainder,
    required({ mass }, notNegative),
    required({ skein_mass }, positive),
    optional({ regain_now }, regain, undefined),
    optional({ regain_standard }, standardRegain, undefined),
  );
}

/**
 * Turns of a reel that wind a length of yarn.
 * @customfunction REELTURNS
 * @param {any[][]} length Length to wind; 0 or more.
 * @param {any[][]} length_unit Unit of length: "m", "yd", "ft" …
 * @param {any[][]} circumference Circumference of the reel; 5 cm to 10 m.
 * @param {any[][]} circumference_unit Unit of the circumference: "m", "cm", "in", "yd" …
 * @returns {any[][]} Turns, not rounded, in the shape of the arguments.
 * @remarks Length / circumference. Yarn under tension on the reel is shorter when it is off.
 * @throws #VALUE! when a figure is out of range or a unit unknown.
 * @example =YARN.REELTURNS(120,"yd",54,"in") → 80
 * @see DEFINITION, NIST-YD-LB
 */
export function reelTurns(
  length: any[][],
  length_unit: any[][],
  circumference: any[][],
  circumference_unit: any[][],
): any[][] {
  return lift(
    (wound, metres, round, roundMetres) => {
      packs.expectReel(round * roundMetres);
      return packs.reelTurns(wound, metres, round, roundMetres);
    },
    required({ length }, notNegative),
    required({ length_unit }, lengthUnit),
    required({ circumference }, positive),
    required({ circumference_unit }, lengthUnit),
  );
}

/**
 * Tolerable negative error (g) of an e-marked pack of a nominal mass in grams.
 * @customfunction SHORTFALL
 * @param {any[][]} nominal_g Nominal mass of the pack, g; 5 to 10,000.
 * @returns {any[][]} Grams by which a pack may fall short, in the shape of nominal_g.
 * @remarks To 50 g 9 %, to 100 g 4.5 g, to 200 g 4.5 %, to 300 g 9 g, to 500 g 3 %, to 1 kg 15 g, to 10 kg 1.5 %; percents
 * are rounded up to 0.1 g. Packs are decided by law: this is no legal advice.
 * @throws #N/A outside 5 g to 10 kg; #VALUE! when the mass is not above 0.
 * @example =YARN.SHORTFALL({50;100;150}) → {4.5;4.5;6.8}
 * @see EU-76-211
 */
export function shortfall(nominal_g: any[][]): any[][] {
  return lift(
    (nominal: number) => packs.tolerableShortfall(nominal, "nominal_g").toNumber(),
    required({ nominal_g }, positive),
  );
}

/**
 * Check of weighed packs (g) by the three packers' rules: mean, packs too short, verdict; no legal advice.
 * @customfunction NETCHECK
 * @param {any[][]} masses Masses of the packs as weighed, g; a list, taken whole.
 * @param {any[][]} nominal Nominal mass, g; 5 to 10,000.
 * @param {any[][]} [tare] Mass of the packing, g: one for all packs, or a list with one for each; default 0.
 * @returns {any[][]} Header row, then one row: packs, mean, T, packs below nominal − T and how many are allowed, packs
 * below nominal − 2T, verdict.
 * @remarks T is SHORTFALL. Rules: mean not below nominal; at most one pack in forty short by more than T (fewer than 40
 * packs allow none); none short by more than 2T. Yarn must be weighed at standard regain. An official test samples and
 * judges differently: this is a help for the packer and no legal advice.
 * @throws #VALUE! when a mass or tare is no number, tares do not match or exceed a mass; #N/A when nominal is outside the rule.
 * @example =YARN.NETCHECK({101;99;103;100.4;98.8},100) → {"packs","mean (g)","T (g)","below nominal - T","allowed below nominal - T","below nominal - 2T","verdict";5,100.44,4.5,0,0,0,"passes"}
 * @example =INDEX(YARN.NETCHECK({101;99;103},100),2,7) → "passes"
 * @see EU-76-211, PACKERS-RULES
 */
export function netCheck(masses: any[][], nominal: any[][], tare?: any[][]): any[][] {
  const { figures, along } = namedList({ masses }, positive, "mass");
  const weighed = list(figures, positive);
  refuseTotalOfMeasurements("masses", weighed);
  const packing = listOr(alongside({ tare }, notNegative, "tare", along), notNegative, [0]);
  const check = packs.packCheck(weighed, one({ nominal }, positive), packing);
  return finiteRows([
    ["packs", "mean (g)", "T (g)", "below nominal - T", "allowed below nominal - T", "below nominal - 2T", "verdict"],
    [check.packs, check.mean, check.shortfall, check.short, check.shortAllowed, check.veryShort, check.verdict],
  ]);
}
