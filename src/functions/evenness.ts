import * as counting from "../trade/counts";
import * as spinning from "../trade/spinning";
import type { CountSystem } from "../tables/count-systems";
import { wholeRecipe } from "../trade/whole-recipe";
import * as kinds from "../sheet/kinds";
import { list, one, optional, required, type Named } from "../sheet/arguments";
import { isOmitted } from "../sheet/cells";
import { fibreDensity, fibreMicron, fibresInYarn, leastFibres, woolMicron } from "../sheet/fibre-kinds";
import { expectSystem } from "../sheet/heading-units";
import { finiteRows, lift } from "../sheet/lift";
import { countSystem } from "../sheet/units";
import { refuseTotal, refuseTotalInBoth, refuseTotalWithMean } from "../sheet/totals";
import { eachAlong, namedList, namedTogether } from "../sheet/names";

/** CV of the mass of a strand; a bundle of slubs stays below. */
const massVariation = kinds.fraction(0, 1, "must be 0 to 1 (0% to 100%)");

/**
 * Fibres in the cross-section of a yarn, from its count and the fibre diameter in micrometres.
 * @customfunction FIBRES
 * @param {any[][]} count Count of the yarn, in system; more than 0.
 * @param {any[][]} system Count system, such as "Nm", "NeW", "tex".
 * @param {any[][]} micron Mean fibre diameter in micrometres, 4 to 150.
 * @param {any[][]} [cv] Coefficient of variation of the diameter, a fraction up to 1; default 0.
 * @param {any[][]} [density] Fibre density, 0.8 to 3 g/cm³; default 1.31 (wool).
 * @param {any[][]} [shares] Shares of mass of the fibres of a blend, fractions that sum to 1; default one fibre. With them micron, cv and density are lists, one a fibre, or one cell for all.
 * @returns {any[][]} Mean number of fibres, not rounded, in the shape of the arguments; with shares in that of the count.
 * @remarks Blend: the sum over its fibres of share × tex, as FIBRES(20,"tex",{21;18},,{1.31;1.38},{0.8;0.2}). 4000 × tex/(π × density × micron² × (1 + cv²)). Geometry. The handbooks' 972 is 4000/(π × 1.31), their
 * 917 has a cv near 24.5 % built in, so 917 and cv are never used together; both are recalled and rest on no source here.
 * @throws #VALUE! when a number is out of range, cv is typed as a whole percent, or the word is unknown.
 * @example =YARN.FIBRES(31.25,"tex",21,0.21) → 65.9642
 * @see DEFINITION
 */
export function fibres(
  count: any[][],
  system: any[][],
  micron: any[][],
  cv?: any[][],
  density?: any[][],
  shares?: any[][],
): any[][] {
  if (!isOmitted(shares)) {
    const blend = blendOf(micron, cv, density, shares as any[][]);
    return lift(
      (number, words) => spinning.blendedFibresInSection(texIn(number, words), blend),
      required({ count }, kinds.positive),
      required({ system }, countSystem),
    );
  }
  return lift(
    (number, words, diameter: number, spread: number, weight: number) =>
      spinning.fibresInSection(texIn(number, words), diameter, spread, weight),
    required({ count }, kinds.positive),
    required({ system }, countSystem),
    required({ micron }, fibreMicron),
    optional({ cv }, kinds.diameterVariation, 0),
    optional({ density }, fibreDensity, spinning.WOOL_DENSITY),
  );
}

function texIn(count: number, system: CountSystem): number {
  return counting.texOf(counting.expectCount("count", count, system), system);
}

function blendOf(
  micron: any[][],
  cv: any[][] | undefined,
  density: any[][] | undefined,
  shares: any[][],
): spinning.BlendedFibre[] {
  const { figures, along: components } = namedList({ shares }, kinds.share, "share");
  const parts = wholeRecipe("shares", list(figures, kinds.share));
  if (isOmitted(micron)) one({ micron }, fibreMicron);
  const along = <T>(given: Named, kind: kinds.Kind<T>, fallback: T, heading: string): T[] =>
    eachAlong(given, kind, fallback, heading, { ...components, count: parts.length });
  const diameters = along({ micron }, fibreMicron, 0, "micron");
  const spreads = along({ cv }, kinds.diameterVariation, 0, "cv");
  const densities = along({ density }, fibreDensity, spinning.WOOL_DENSITY, "density");
  return parts.map((share, index) => ({
    share,
    micron: diameters[index] as number,
    variation: spreads[index] as number,
    density: densities[index] as number,
  }));
}

/**
 * Limiting irregularity: the lowest CV of mass, a fraction, that a yarn of so many fibres can have.
 * @customfunction LIMITCV
 * @param {any[][]} fibres Fibres in the cross-section; 1 or more.
 * @param {any[][]} [cv] Coefficient of variation of fibre diameter, a fraction; default 0.
 * @returns {any[][]} Coefficient of variation, a fraction, in the shape of the arguments.
 * @remarks √(1 + 4 × cv²)/√fibres. With cv 0.25 it is the rule for wool, 112 %/√n; with 0 the one for even fibres,
 * 100 %/√n.
 * @throws #VALUE! when fibres is below 1 or cv is typed as a whole percent.
 * @example =YARN.LIMITCV({64;100},0) → {0.125;0.1}
 * @example =YARN.LIMITCV(100,25%) → 0.1118
 * @see RIETER, NPTEL-32
 */
export function limitCv(fibres: any[][], cv?: any[][]): any[][] {
  return lift(
    spinning.limitingVariation,
    required({ fibres }, fibresInYarn),
    optional({ cv }, kinds.diameterVariation, 0),
  );
}

/**
 * Index of irregularity: measured CV over the limiting CV; 1 is the best possible.
 * @customfunction EVENNESSINDEX
 * @param {any[][]} cv_measured Measured CV of mass, a fraction.
 * @param {any[][]} fibres Fibres in the cross-section; 1 or more.
 * @param {any[][]} [cv] Coefficient of variation of fibre diameter, a fraction; default 0.
 * @returns {any[][]} Index, a ratio, in the shape of the arguments.
 * @remarks cv_measured/LIMITCV(fibres, cv).
 * @throws #VALUE! when a number is out of range or a CV is typed as a whole percent.
 * @example =YARN.EVENNESSINDEX(0.125,100) → 1.250
 * @see EXAM, RIETER
 */
export function evennessIndex(cv_measured: any[][], fibres: any[][], cv?: any[][]): any[][] {
  return lift(
    spinning.indexOfIrregularity,
    required({ cv_measured }, massVariation),
    required({ fibres }, fibresInYarn),
    optional({ cv }, kinds.diameterVariation, 0),
  );
}

/**
 * CV, a fraction, after doubling several strands of equal CV.
 * @customfunction DOUBLEDCV
 * @param {any[][]} cv CV of mass of one strand, a fraction.
 * @param {any[][]} doublings Strands doubled, a whole number.
 * @param {any[][]} [cv_added] CV that the drafting itself adds, a fraction; default 0.
 * @returns {any[][]} Coefficient of variation, a fraction, in the shape of the arguments.
 * @remarks √(cv²/doublings + cv_added²), for strands that vary independently of each other.
 * @throws #VALUE! when a number is out of range or a CV is typed as a whole percent.
 * @example =YARN.DOUBLEDCV(0.08,4,0.03) → 0.05
 * @see DEFINITION
 */
export function doubledCv(cv: any[][], doublings: any[][], cv_added?: any[][]): any[][] {
  return lift(
    spinning.doubledVariation,
    required({ cv }, kinds.variation),
    required({ doublings }, kinds.wholeNumber),
    optional({ cv_added }, kinds.variation, 0),
  );
}

/**
 * Finest count that a wool spins to, keeping a minimum number of fibres in the section.
 * @customfunction SPINLIMIT
 * @param {any[][]} micron Mean fibre diameter in micrometres, 4 to 150.
 * @param {any[][]} min_fibres Fewest fibres in the cross-section, 25 to 5000.
 * @param {any[][]} system Count system of the result, such as "Nm", "NeW", "tex".
 * @param {any[][]} [cv] Coefficient of variation of the diameter, a fraction up to 1; default 0.
 * @param {any[][]} [density] Fibre density, 0.8 to 3 g/cm³; default 1.31 (wool).
 * @returns {any[][]} Count in the system, in the shape of the arguments.
 * @remarks The inverse of FIBRES. A rule of thumb: 35 to 40 fibres for worsted ring spinning, common practice, no
 * source. Length, noil and the frame decide too; ask the spinner.
 * @throws #VALUE! when a number is out of range, cv is typed as a whole percent, or the word is unknown.
 * @example =YARN.SPINLIMIT(21,{35;40},"Nm",0.21) → {60.3101;52.7713}
 * @see PRACTICE, DEFINITION
 */
export function spinLimit(
  micron: any[][],
  min_fibres: any[][],
  system: any[][],
  cv?: any[][],
  density?: any[][],
): any[][] {
  return lift(
    (diameter: number, number: number, words, spread: number, weight: number) =>
      counting.fromTex(spinning.finestTex(number, diameter, spread, weight), words),
    required({ micron }, fibreMicron),
    required({ min_fibres }, leastFibres),
    required({ system }, countSystem),
    optional({ cv }, kinds.diameterVariation, 0),
    optional({ density }, fibreDensity, spinning.WOOL_DENSITY),
  );
}

/**
 * Spinning fineness in micrometres of a wool, from mean diameter and its CV; from memory, verify before use.
 * @customfunction SPINFINENESS
 * @param {any[][]} micron Mean fibre diameter in micrometres, 8 to 60.
 * @param {any[][]} cv Coefficient of variation of the diameter, a fraction up to 1.
 * @returns {any[][]} Spinning fineness in micrometres, in the shape of the arguments.
 * @remarks 0.881 × micron × √(1 + 5 × cv²), from memory, verify before use. A rule of thumb: the diameter at a cv of
 * 24 % that would spin alike; 0.881 is the printed constant, so that at 24 % it gives 0.99988 of the diameter.
 * @throws #VALUE! when micron is not 8 to 60 or cv is typed as a whole percent.
 * @example =YARN.SPINFINENESS(20,24%) → 20.0
 * @see MEMORY
 */
export function spinFineness(micron: any[][], cv: any[][]): any[][] {
  return lift(spinning.spinningFineness, required({ micron }, woolMicron), required({ cv }, kinds.diameterVariation));
}

/**
 * Standard deviation, a fraction, of one colour's share of the fibres in the cross-section of a blended yarn.
 * @customfunction SHAREVARIATION
 * @param {any[][]} share Share of the colour among the fibres, by number, 0 to 1; that of mass only where all are equally fine.
 * @param {any[][]} fibres Fibres in the cross-section; 1 or more.
 * @returns {any[][]} Standard deviation of the share, a fraction, in the shape of the arguments.
 * @remarks √(share × (1 − share)/fibres), for fibres that lie at random: the best that blending can do. From shares of
 * mass w and fibre tex t the share of fibres is (w/t)/Σ(w/t).
 * @throws #VALUE! when share is not 0 to 1 (or a percent typed whole), or fibres is below 1.
 * @example =YARN.SHAREVARIATION({0.5;0.1},100) → {0.05;0.03}
 * @see DEFINITION
 */
export function shareVariation(share: any[][], fibres: any[][]): any[][] {
  return lift(spinning.shareDeviation, required({ share }, kinds.share), required({ fibres }, fibresInYarn));
}

/**
 * Linear density of one fibre, in any count system, from its diameter in micrometres.
 * @customfunction FIBRECOUNT
 * @param {any[][]} micron Mean fibre diameter in micrometres, 4 to 150.
 * @param {any[][]} system Count system of the result, such as "dtex", "den", "mtex".
 * @param {any[][]} [density] Fibre density, 0.8 to 3 g/cm³; default 1.31 (wool).
 * @param {any[][]} [cv] Coefficient of variation of the diameter, a fraction up to 1; default 0.
 * @returns {any[][]} Count of the fibre, in the shape of the arguments.
 * @remarks π/4 × micron² × (1 + cv²) × density: the mean area of unequal fibres is larger than that of the mean
 * diameter. Geometry of a round fibre.
 * @throws #VALUE! when a number is out of range, cv is typed as a whole percent, or the word is unknown.
 * @example =YARN.FIBRECOUNT(20,"dtex",1.31) → 4.115486
 * @see DEFINITION
 */
export function fibreCount(micron: any[][], system: any[][], density?: any[][], cv?: any[][]): any[][] {
  return lift(
    (diameter, words, weight: number, spread: number) =>
      counting.fromTex(spinning.fibreTex(diameter, spread, weight), words),
    required({ micron }, fibreMicron),
    required({ system }, countSystem),
    optional({ density }, fibreDensity, spinning.WOOL_DENSITY),
    optional({ cv }, kinds.diameterVariation, 0),
  );
}

/**
 * Mean count of fibres or slivers of unlike counts mixed by mass, in their common count system.
 * @customfunction MIXCOUNT
 * @param {any[][]} counts Counts of the components, in system; a list of numbers above 0.
 * @param {any[][]} masses Mass (or share) of each component, a list as long; all in one unit.
 * @param {any[][]} system Count system of counts and result, such as "dtex", "den", "Nm"; one cell.
 * @returns {any[][]} Mean count of the mixture, one value.
 * @remarks The lengths add up: Σ mass / Σ (mass / tex). Harmonic for direct systems (1.5 and 2.5 den, half and half, are
 * 1.875 den), plain by mass for indirect ones. The number of fibres in a section goes by this mean.
 * @throws #VALUE! when a number is not above 0, the lists differ in length, or the word is unknown.
 * @example =YARN.MIXCOUNT({1.5;2.5},{50;50},"den") → 1.875
 * @see DEFINITION
 */
export function mixCount(counts: any[][], masses: any[][], system: any[][]): any[][] {
  const { items } = namedTogether<{ count: number; mass: number }>({
    count: [{ counts }, kinds.positive, "count"],
    mass: [{ masses }, kinds.positive, "mass"],
  });
  const own = items.map(({ count }) => count);
  const weights = items.map(({ mass }) => mass);
  const words = one({ system }, countSystem);
  expectSystem(words);
  refuseTotal("masses", weights);
  refuseTotalInBoth("masses", weights, own);
  refuseTotalWithMean("masses", weights, own, (rows) => {
    const [parts, counts] = [rows.map((row) => weights[row] as number), rows.map((row) => own[row] as number)];
    return counting.mixtureCount(counts, parts, words);
  });
  return finiteRows([[counting.mixtureCount(own, weights, words)]]);
}
