import * as wool from "../trade/wool";
import { oneOr, optional, required } from "../sheet/arguments";
import {
  combedMicron,
  micronDeviation,
  normalDeviate,
  stapleLength,
  tearOfTop,
  stapleStrength,
  woolMicron,
  woolMicronOr,
} from "../sheet/fibre-kinds";
import {
  diameterVariation,
  noilShare,
  notNegative,
  positive,
  share,
  vegetableMatter,
  wholeNumber,
  word,
} from "../sheet/kinds";
import { finiteRows, lift } from "../sheet/lift";
import { wordsFor } from "../sheet/words";
import { refuseTotalWithMean } from "../sheet/totals";
import { namedTogether } from "../sheet/names";
import { isOmitted } from "../sheet/cells";

const weightingWord = word(wordsFor("weighting", "mass", "length"));
const micronOfComponent = woolMicronOr("; swapped with masses?");
const finenessResult = word(wordsFor("result", "mean", "sd", "cv"));
const topProperty = word(wordsFor("result", "hauteur", "cv hauteur", "romaine"));

/** Two-sided 95 %, as sampling plans write it. */
const USUAL_Z = 1.96;

/**
 * Fibre diameter of a wool blend (micron), or its standard deviation (micron) or CV (fraction), by pooled mean square.
 * @customfunction BLENDMICRON
 * @param {any[][]} masses Mass of each component, in one unit; a list, 0 or more.
 * @param {any[][]} microns Mean fibre diameter of each component, 8 to 60 micron; a list of the same length.
 * @param {any[][]} [cvs] CV of diameter of each component as a fraction; a list. Left out: only "mean" can be answered.
 * @param {any[][]} [weighting] "mass" (default): as certificates combine. "length": as an instrument reads the blend.
 * @param {any[][]} [result] "mean" (default), "sd" or "cv".
 * @returns {any[][]} One value: micron, or a fraction for "cv".
 * @remarks Mean Σw·d, mean square Σw·d²(1 + cv²); w is the share of mass, or of fibre length m/(d²(1 + cv²)). Weighted by
 * length without cvs, all components count as equally variable.
 * @throws #VALUE! when the lists differ in length, a diameter is not 8 to 60 micron, or "sd" or "cv" is asked without cvs; #DIV/0! when all masses are 0.
 * @example =YARN.BLENDMICRON({2000;24000},{24;30}) → 29.5385
 * @example =YARN.BLENDMICRON({50;50},{20;20},{0.2;0.25},"mass","cv") → 0.2264
 * @see CERTIFICATE, DEFINITION
 */
export function blendMicron(
  masses: any[][],
  microns: any[][],
  cvs?: any[][],
  weighting?: any[][],
  result?: any[][],
): any[][] {
  const { items } = namedTogether<{ mass: number; micron: number; cv: number }>({
    mass: [{ masses }, notNegative, "mass"],
    micron: [{ microns }, micronOfComponent, "micron"],
    cv: [{ cvs }, diameterVariation, "cv", 0],
  });
  const parts = items.map(({ mass }) => mass);
  const diameters = items.map(({ micron }) => micron);
  const variations = isOmitted(cvs) ? undefined : items.map(({ cv }) => cv);
  refuseTotalWithMean("masses", parts, diameters);
  const by = oneOr({ weighting }, weightingWord, "mass" as const);
  const wanted = oneOr({ result }, finenessResult, "mean" as const);
  return finiteRows([[wool.blendFineness(parts, diameters, variations, by, wanted)]]);
}

/**
 * US grade of grease wool ("64s") from average diameter (micron); grades coarser than 40s and the rule for sd are from memory, verify before use.
 * @customfunction WOOLGRADE
 * @param {any[][]} micron Average fibre diameter, 8 to 60 micron.
 * @param {any[][]} [sd] Standard deviation of diameter, 1 to 30 micron; left out or 0: not judged. Above the grade's limit the wool drops one grade.
 * @returns {any[][]} Grade as text, from "Finer than 80s" to "Coarser than 36s".
 * @remarks Diameter and deviation are rounded to 0.01 micron, as the table is written. From memory, verify before use:
 * the grades "36s" and "Coarser than 36s", and the drop of one grade.
 * @throws #VALUE! when micron is not 8 to 60, or sd is a CV or otherwise no deviation in micron.
 * @example =YARN.WOOLGRADE(21) → "64s"
 * @example =YARN.WOOLGRADE(21,5.5) → "62s"
 * @see USDA-GRADES, MEMORY
 */
export function woolGrade(micron: any[][], sd?: any[][]): any[][] {
  return lift(wool.woolGrade, required({ micron }, woolMicron), optional({ sd }, micronDeviation, undefined));
}

/**
 * Romaine (noil as a fraction of top and noil) from tear (top on noil).
 * @customfunction ROMAINE
 * @param {any[][]} tear Mass of top for one of noil; 1 or more.
 * @returns {any[][]} Romaine as a fraction.
 * @remarks 1/(tear + 1).
 * @throws #VALUE! when tear is below 1, as a romaine is.
 * @example =YARN.ROMAINE(13.5) → 0.068966
 * @see DEFINITION
 */
export function romaine(tear: any[][]): any[][] {
  return lift(wool.romaineOfTear, required({ tear }, tearOfTop));
}

/**
 * Tear (top on noil) from romaine (noil as a fraction of top and noil).
 * @customfunction TEAR
 * @param {any[][]} romaine Noil as a fraction of top and noil, at most 50 %.
 * @returns {any[][]} Mass of top for one of noil.
 * @remarks (1 − romaine)/romaine.
 * @throws #VALUE! when romaine is not 0 to 0.5; #DIV/0! when it is 0.
 * @example =YARN.TEAR(8%) → 11.5
 * @see DEFINITION
 */
export function tear(romaine: any[][]): any[][] {
  return lift(wool.tearOfRomaine, required({ romaine }, noilShare));
}

/**
 * Forecast of the top from greasy wool by the TEAM-2 equations: hauteur (mm), CV of hauteur or romaine (fractions) in an average mill.
 * @customfunction TOPFORECAST
 * @param {any[][]} staple_mm Staple length, 20 to 400 mm.
 * @param {any[][]} strength Staple strength, 5 to 70 N/ktex.
 * @param {any[][]} micron Mean fibre diameter, 12 to 32 micron.
 * @param {any[][]} vm Vegetable matter base as a fraction, at most 30 %.
 * @param {any[][]} mid_breaks Breaks in the middle of the staple as a fraction; below 45 % it counts as 45 %.
 * @param {any[][]} result "hauteur", "cv hauteur" or "romaine".
 * @returns {any[][]} Hauteur in mm; CV of hauteur and romaine as fractions.
 * @remarks Hauteur 0.52·L + 0.47·S + 0.95·D − 0.45·V − 0.19·M − 3.5; CV % 0.12·L − 0.41·S − 0.35·D + 0.20·M + 49.9;
 * romaine % −0.11·L − 0.14·S − 0.35·D + 0.94·V + 27.7 (the published page lost the first minus). The constant 49.9
 * of the CV stands on one damaged page: check it before use. A later edition of the equations exists and is not this.
 * An average of many mills: correct it by your own comber's results.
 * @throws #VALUE! when an argument is out of range or the word unknown; #NUM! when the forecast is not above 0.
 * @example =YARN.TOPFORECAST(85,38,21,1.5%,50%,"hauteur") → 68.335
 * @example =YARN.TOPFORECAST(85,38,21,1.5%,50%,"romaine") → 0.0709
 * @see TEAM-2
 */
export function topForecast(
  staple_mm: any[][],
  strength: any[][],
  micron: any[][],
  vm: any[][],
  mid_breaks: any[][],
  result: any[][],
): any[][] {
  return lift(
    wool.topForecast,
    required({ staple_mm }, stapleLength),
    required({ strength }, stapleStrength),
    required({ micron }, combedMicron),
    required({ vm }, vegetableMatter),
    required({ mid_breaks }, share),
    required({ result }, topProperty),
  );
}

/**
 * Bales to core so that the mean of a lot is known within an error; whole bales, rounded up.
 * @customfunction BALESTOCORE
 * @param {any[][]} sd_between Standard deviation between bale means, in the unit of error (such as yield in percent).
 * @param {any[][]} sd_within Standard deviation between cores of one bale, same unit; 0 or more.
 * @param {any[][]} cores_per_bale Cores taken from each bale; a whole number.
 * @param {any[][]} error Error allowed either way, same unit; more than 0.
 * @param {any[][]} [z] Normal deviate of the confidence, 1 to 10; default 1.96 (95 %, two-sided).
 * @param {any[][]} [bales] Bales in the lot; left out, the lot counts as endless.
 * @returns {any[][]} Number of bales to core.
 * @remarks n = (sb² + sw²/k)/(error²/z² + sb²/N). The finite lot spares only what lies between bales: (1 − n/N)·sb²/n +
 * sw²/(n·k) is the variance. sb² = (mean square between − mean square within)/k. Test standards set their own least
 * numbers of bales and cores: these come first.
 * @throws #VALUE! when an argument is out of range; #N/A when even all bales of the lot do not reach the error.
 * @example =YARN.BALESTOCORE(1.0879,2.5021,4,1) → 11
 * @example =YARN.BALESTOCORE(1.0879,2.5021,4,1,1.96,20) → 9
 * @see DEAN-VOSS, DEFINITION
 */
export function balesToCore(
  sd_between: any[][],
  sd_within: any[][],
  cores_per_bale: any[][],
  error: any[][],
  z?: any[][],
  bales?: any[][],
): any[][] {
  return lift(
    (between, within, cores, error, z: number, lot) =>
      wool.expectBales(
        error,
        wool.balesToCore(between, within, cores, wool.expectError(error, between, within), z, lot),
      ),
    required({ sd_between }, notNegative),
    required({ sd_within }, notNegative),
    required({ cores_per_bale }, wholeNumber),
    required({ error }, positive),
    optional({ z }, normalDeviate, USUAL_Z),
    optional({ bales }, wholeNumber, undefined),
  );
}
