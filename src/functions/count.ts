import * as counting from "../trade/counts";
import { dayShown } from "../trade/calendar";
import { refuse } from "../trade/refusal";
import * as kinds from "../sheet/kinds";
import { COUNT_SYSTEMS, type CountSystem } from "../tables/count-systems";
import { list, listOr, one, oneOr, optional, required, sameLength } from "../sheet/arguments";
import { finiteRows, lift } from "../sheet/lift";
import { foldedPlies } from "../sheet/spinning";
import { specificVolume } from "../sheet/fibre-kinds";
import { refuseTotal } from "../sheet/totals";
import { expectSystem } from "../sheet/heading-units";
import { countSystem, lengthUnit, massUnit } from "../sheet/units";
import { wordsFor } from "../sheet/words";
import { alongside, figuresOf, likeList, namedList, type NamedList } from "../sheet/names";

const takeUpBasis = kinds.word(wordsFor("basis", "initial", "final"));
const designationPart = kinds.word(wordsFor("part of a designation", ...counting.DESIGNATION_PARTS));
const foldOrder = kinds.word(wordsFor("order", "ply/count", "count/ply", "silk"));
const twistDirection = kinds.word(wordsFor("twist direction", "S", "Z", "t0"));
/** A yarn finer than a microfibre is one whose count is in another unit. */
const texOfSingle = kinds.numberBetween(0.1, 1e6, "must be 0.1 to 1000000 tex; COUNT makes tex of another count");
/** What washing takes away, at most; common practice, no source. A 0.5 is 0.5% typed whole. */
const shrinkage = kinds.fraction(-0.4, 0.4, "must be -0.4 to 0.4 (40%); 0.5% is 0.005");
const washedOut = kinds.fraction(-0.4, 0.4, "must be -0.4 to 0.4 (40%); 0.5% is 0.005");
/** A text; the number of a date is what the sheet made of a ply such as 2/12. */
const writtenDesignation: kinds.Kind<string> = (cell, argument) => {
  if (typeof cell === "number" && counting.canBeDate(cell)) {
    refuse(argument, `${cell}, the date ${dayShown(cell)}`, "format the cell as text and type the ply again");
  }
  return kinds.text(cell, argument);
};
const systemNamed = (name: string) => countSystem(name, "text");

/** The count of a yarn as dense as a worsted one, or of anything whose specific volume is given. */
function yarnOf(count: number, system: CountSystem, volume: number): number {
  const expected = volume === counting.WORSTED_SPECIFIC_VOLUME ? counting.expectSpun : counting.expectCount;
  return expected("count", count, system);
}

/**
 * Yarn count converted from one count system to another.
 * @customfunction COUNT
 * @param {any[][]} value Count in the system "from"; more than 0.
 * @param {any[][]} from Count system of value, e.g. "Nm", "NeC", "NeW", "tex".
 * @param {any[][]} to Count system wanted.
 * @returns {any[][]} Count in the system "to", in the shape of the arguments.
 * @remarks Direct: tex = size × count; indirect: tex = size / count, with exact sizes. COUNTSYSTEMS lists the words. AlloaA, Hawick and Irish are from memory, verify before use.
 * @throws #VALUE! when value is not above 0, or a word is unknown or has two meanings ("Ne").
 * @example =YARN.COUNT(10,"NeC","NeW") → 15
 * @example =YARN.COUNT({20;40},"NeC","NeL") → {56;112}
 * @see ASTM-D2260, NIST-YD-LB, DAVIS-1920, GNU-UNITS, MEMORY
 */
export function count(value: any[][], from: any[][], to: any[][]): any[][] {
  return lift(
    (number, system, wanted) => counting.convertCount(counting.expectNoDate("value", number, system), system, wanted),
    required({ value }, kinds.positive),
    required({ from }, countSystem),
    required({ to }, countSystem),
  );
}

/**
 * Table of the count systems: word, meaning, direct or indirect, size in tex, source, further spellings.
 * @customfunction COUNTSYSTEMS
 * @returns {any[][]} Header row, then one row per system.
 * @remarks Direct systems: tex = size × count. Indirect systems: tex = size / count. Where the source is MEMORY, the system is from memory, verify before use.
 * @throws Nothing.
 * @example =YARN.COUNTSYSTEMS() → {"word","meaning","kind","size (tex × count, or tex / count)","source","also written";"tex","grams in 1,000 m","direct",1,"ISO-1144","Tt";"ktex","kilograms in 1,000 m (grams in 1 m)","direct",1000,"ISO-1144","kilotex";"dtex","grams in 10,000 m","direct",0.1,"ISO-1144","decitex, drex";…}
 * @example =INDEX(YARN.COUNTSYSTEMS(),2,1) → "tex"
 * @see ISO-1144, ASTM-D2260, NIST-YD-LB, BROOKS, DAVIS-1920, KILGOUR, MEMORY
 */
export function countSystems(): any[][] {
  return finiteRows([
    ["word", "meaning", "kind", "size (tex × count, or tex / count)", "source", "also written"],
    ...COUNT_SYSTEMS.map(({ word: written, meaning, direct, size, source, aliases }) => [
      written,
      meaning,
      direct ? "direct" : "indirect",
      size.numerator / size.denominator,
      source,
      aliases.join(", "),
    ]),
  ]);
}

/**
 * One part of a written yarn designation such as "2/30 Nm" or "34 tex S 600 x 2 Z 400; R 69,3 tex": tex, plies, turns/m.
 * @customfunction DESIGNATION
 * @param {any[][]} text Designation, with its count system: "Nm 28", "30/2 NeW", "R 69,3 tex Z 400 / 2 S 600; 34 tex".
 * @param {any[][]} part "resultant" or "single" (tex), "plies", "twist single", "twist ply" or "twist cable" (turns/m), "direction single", "direction ply" or "direction cable".
 * @param {any[][]} [order] Decides only where either number can be the ply (8/8): "ply/count" or "count/ply"; "silk" for spun silk in NeC, whose count is the finished yarn's. Left out: such a text is refused.
 * @returns {any[][]} Number, or "S", "Z" or "t0" (no twist) for a direction; in the shape of the arguments.
 * @remarks Resultant is plies × single without take-up unless R states it; an R below 0.9 or above 1.25 times that is refused. Without R a density is the single's (72 tex/2), and a twist behind 28/2 Nm is the finished yarn's. Plies counts the single yarns: 6 in a 2 × 3 cable. A ply is taken to be a whole number from 1 to 12 (common practice, no source). Forms of ISO 1139 are from memory, verify before use. A cell that holds a date was probably typed as 2/12: format it as text.
 * @throws #VALUE! when the text cannot be read, can be read in two ways ("1.200 den") or contradicts itself; #N/A when it does not state the part.
 * @example =YARN.DESIGNATION("5/12.5 Nm","resultant") → 400
 * @example =YARN.DESIGNATION("34 tex S 600 x 2 Z 400; R 69,3 tex","twist ply") → 400
 * @example =YARN.DESIGNATION({"2/30 NeW";"60/2 NeC"},"plies",{"";"silk"}) → {2;2}
 * @see ISO-1139, BROOKS, TAYLOR, PRACTICE, MEMORY
 */
export function designation(text: any[][], part: any[][], order?: any[][]): any[][] {
  return lift(
    (written, wanted, inOrder) =>
      counting.partOf(counting.readDesignation(written, systemNamed, inOrder), wanted, written),
    required({ text }, writtenDesignation),
    required({ part }, designationPart),
    optional({ order }, foldOrder, undefined),
  );
}

/**
 * Yarn designation as text, single-to-fold, e.g. "34 tex S 600 x 2 Z 400; R 69.3 tex", from tex, plies and turns/m.
 * @customfunction DESIGNATE
 * @param {any[][]} single_tex Linear density of the single yarn, tex; more than 0.
 * @param {any[][]} plies Number of singles folded together, 1 to 12; 1 for a single yarn.
 * @param {any[][]} [twist_single] Twist of the single, turns/m; left out or 0: not stated.
 * @param {any[][]} [direction_single] "S", "Z", or "t0" for no twist; left out: not stated.
 * @param {any[][]} [twist_ply] Twist of the folding, turns/m; left out or 0: not stated.
 * @param {any[][]} [direction_ply] "S", "Z", or "t0" for no twist; left out: not stated.
 * @param {any[][]} [resultant_tex] Linear density of the finished yarn, tex, 0.9 to 1.25 times plies × single; left out: not stated.
 * @returns {any[][]} Designation that DESIGNATION reads back, in the shape of the arguments.
 * @remarks Numbers are written as they are, with a decimal point: round them first. Three decimals get a fourth, 0, because 1.200 can be read as 1,200. The form is that of ISO 1139, from memory, verify before use.
 * @throws #VALUE! when a twist has no direction, a single yarn is given a ply twist, or a number is out of range.
 * @example =YARN.DESIGNATE(34,2,600,"S",400,"Z",69.3) → "34 tex S 600 x 2 Z 400; R 69.3 tex"
 * @example =YARN.DESIGNATE(30,1) → "30 tex"
 * @see ISO-1139, MEMORY
 */
export function designate(
  single_tex: any[][],
  plies: any[][],
  twist_single?: any[][],
  direction_single?: any[][],
  twist_ply?: any[][],
  direction_ply?: any[][],
  resultant_tex?: any[][],
): any[][] {
  return lift(
    (single, folds, turns, direction, plyTurns, plyDirection, resultant) =>
      counting.writeDesignation(
        single,
        folds,
        counting.statedTwist(turns, direction, "single"),
        counting.statedTwist(plyTurns, plyDirection, "ply"),
        resultant,
      ),
    required({ single_tex }, texOfSingle),
    required({ plies }, kinds.wholeNumber),
    optional({ twist_single }, kinds.notNegative, 0),
    optional({ direction_single }, twistDirection, undefined),
    optional({ twist_ply }, kinds.notNegative, 0),
    optional({ direction_ply }, twistDirection, undefined),
    optional({ resultant_tex }, kinds.positive, undefined),
  );
}

/**
 * Count of a yarn plied from equal singles, in the system of the single, with the take-up of plying.
 * @customfunction PLYCOUNT
 * @param {any[][]} single Count of one single yarn; more than 0.
 * @param {any[][]} plies Number of singles; a whole number from 1 to 12.
 * @param {any[][]} system Count system of single and result, e.g. "Nm".
 * @param {any[][]} [takeup] Take-up in plying, a fraction up to 0.4, negative if the yarn gets longer; left out: 0.
 * @param {any[][]} [basis] "initial": take-up on the length before plying; "final": on the plied length. Left out: "initial".
 * @returns {any[][]} Resultant count, in the shape of the arguments.
 * @remarks Direct: plies × single / (1 − takeup), or × (1 + takeup) on the final length; indirect: single / plies × (1 − takeup), or / (1 + takeup). Both bases are in print: ask which one a figure is on.
 * @throws #VALUE! when a count is not above 0, plies is not whole, or takeup is a percent typed whole.
 * @example =YARN.PLYCOUNT(28,2,"Nm") → 14
 * @example =YARN.PLYCOUNT(34,2,"tex",0.02) → 69.3878
 * @example =YARN.PLYCOUNT(34,2,"tex",0.02,{"initial","final"}) → {69.3878,69.36}
 * @see DAVIS-1920, BROOKS, DEFINITION
 */
export function plyCount(single: any[][], plies: any[][], system: any[][], takeup?: any[][], basis?: any[][]): any[][] {
  return lift(
    (count, number, words, takenUp: number, on) =>
      counting.plyCount(counting.expectCount("single", count, words), number, words, takenUp, on),
    required({ single }, kinds.positive),
    required({ plies }, foldedPlies),
    required({ system }, countSystem),
    optional({ takeup }, kinds.takeUp, 0),
    optional({ basis }, takeUpBasis, "initial"),
  );
}

/**
 * Count of the single to spin for a plied yarn of the count wanted, allowing for the take-up of plying.
 * @customfunction SINGLECOUNT
 * @param {any[][]} resultant Count of the plied yarn; more than 0.
 * @param {any[][]} plies Number of singles; a whole number from 1 to 12.
 * @param {any[][]} system Count system of resultant and result, e.g. "NeW".
 * @param {any[][]} [takeup] Take-up in plying, a fraction up to 0.4, negative if the yarn gets longer; left out: 0.
 * @param {any[][]} [basis] "initial": take-up on the length before plying; "final": on the plied length. Left out: "initial".
 * @returns {any[][]} Count of the single, in the shape of the arguments.
 * @remarks The inverse of PLYCOUNT with the same plies, takeup and basis.
 * @throws #VALUE! when a count is not above 0, plies is not whole, or takeup is a percent typed whole.
 * @example =YARN.SINGLECOUNT(14,2,"Nm") → 28
 * @example =YARN.SINGLECOUNT(16,2,"NeC",0.1,"initial") → 35.5556
 * @see DAVIS-1920, BROOKS, DEFINITION
 */
export function singleCount(
  resultant: any[][],
  plies: any[][],
  system: any[][],
  takeup?: any[][],
  basis?: any[][],
): any[][] {
  return lift(
    (count, number, words, takenUp: number, on) =>
      counting.singleCount(counting.expectCount("resultant", count, words), number, words, takenUp, on),
    required({ resultant }, kinds.positive),
    required({ plies }, foldedPlies),
    required({ system }, countSystem),
    optional({ takeup }, kinds.takeUp, 0),
    optional({ basis }, takeUpBasis, "initial"),
  );
}

/** Counts in their common system, none of another unit and without their fold at the foot. */
function expectCounts(counts: readonly number[], system: CountSystem): void {
  expectSystem(system);
  counts.forEach((count, index) => {
    counting.expectCount(counts.length === 1 ? "counts" : `counts item ${index + 1}`, count, system);
  });
  refuseTotal(
    "counts",
    counts,
    counts.map((count) => counting.texOf(count, system)),
  );
}

/** The counts that are folded, as they lie, and the feeds, one a count; undefined where all are 1. */
function components(
  counts: any[][],
  words: CountSystem,
  feeds: any[][] | undefined,
): { readonly given: NamedList; readonly own: number[]; readonly lengths: number[] | undefined } {
  const given = namedList({ counts }, kinds.positive, "count");
  const own = list(given.figures, kinds.positive);
  expectCounts(own, words);
  const lengths = listOr(alongside({ feeds }, kinds.positive, "feed", given.along), kinds.positive, undefined);
  if (lengths !== undefined) sameLength("counts", own.length, "feeds", lengths.length);
  return { given, own, lengths };
}

/**
 * Count of unlike yarns folded together, in their common count system.
 * @customfunction FOLD
 * @param {any[][]} counts Counts of the components, one a cell.
 * @param {any[][]} system Count system of counts and result: one cell. Convert with COUNT first where they differ.
 * @param {any[][]} [takeup] Common take-up as a fraction of the length before it, one cell; left out: 0.
 * @param {any[][]} [feeds] Length of each component for a unit of length of the yarn before the common take-up, one a count; left out: 1 each.
 * @returns {any[][]} Resultant count, one cell.
 * @remarks Masses a unit of length add up: direct, sum of feed × count / (1 − takeup); indirect, (1 − takeup) / sum of feed / count. Where feeds are measured on the finished yarn they hold the take-up already: leave takeup out.
 * @throws #VALUE! when a count is blank or not above 0, or feeds and counts differ in number.
 * @example =YARN.FOLD({60;40},"NeC") → 24
 * @example =YARN.FOLD({40;40},"tex",0.02,{1;1.5}) → 102.0408
 * @see BROOKS, DAVIS-1920, TAYLOR
 */
export function fold(counts: any[][], system: any[][], takeup?: any[][], feeds?: any[][]): any[][] {
  const words = one({ system }, countSystem);
  const { own, lengths } = components(counts, words, feeds);
  const common = oneOr({ takeup }, kinds.takeUp, 0);
  return finiteRows([[counting.fold(own, words, common, lengths)]]);
}

/**
 * Share of the mass (fraction) that each component makes up in a yarn folded from unlike yarns.
 * @customfunction FOLDSHARES
 * @param {any[][]} counts Counts of the components, one a cell, with names if you like.
 * @param {any[][]} system Count system of counts: one cell.
 * @param {any[][]} [takeup] Common take-up, one cell, as in FOLD; left out: 0. It changes no share.
 * @param {any[][]} [feeds] Length of each component for a unit of length of the yarn, one a count; left out: 1 each.
 * @returns {any[][]} Shares that sum to 1, in the shape of counts, with the names if given.
 * @remarks Share = feed × mass a unit of length, over the sum of these. The arguments are those of FOLD, in the same places.
 * @throws #VALUE! when a count is blank or not above 0, or feeds and counts differ in number.
 * @example =YARN.FOLDSHARES({16;48},"NeW") → {0.75;0.25}
 * @example =YARN.FOLDSHARES({30,60},"tex",,{1,1.5}) → {0.25,0.75}
 * @see DAVIS-1920, DEFINITION
 */
export function foldShares(counts: any[][], system: any[][], takeup?: any[][], feeds?: any[][]): any[][] {
  const words = one({ system }, countSystem);
  const { given, own, lengths } = components(counts, words, feeds);
  oneOr({ takeup }, kinds.takeUp, 0);
  return likeList(given, counting.foldShares(own, words, lengths));
}

/**
 * Count of the yarn still needed to fold, with those given, to the resultant count wanted.
 * @customfunction FOLDMISSING
 * @param {any[][]} resultant Count wanted of the folded yarn; a range gives one result a cell.
 * @param {any[][]} counts Counts of the components there are, one a cell; taken whole.
 * @param {any[][]} system Count system of all counts: one cell.
 * @returns {any[][]} Count of the missing component, in the shape of resultant.
 * @remarks Masses a unit of length: missing = resultant − sum of the given; no take-up.
 * @throws #VALUE! when a count is blank or not above 0; #N/A when the given ones alone are as heavy as the resultant.
 * @example =YARN.FOLDMISSING(10,{48;24},"NeW") → 26.6667
 * @see DAVIS-1920, DEFINITION
 */
export function foldMissing(resultant: any[][], counts: any[][], system: any[][]): any[][] {
  const given = figuresOf({ counts }, kinds.positive, "count");
  const words = one({ system }, countSystem);
  expectCounts(given, words);
  const missing = counting.foldMissing(given, words);
  return lift(
    (wanted) => missing(counting.expectCount("resultant", wanted, words)),
    required({ resultant }, kinds.positive),
  );
}

/**
 * Length of yarn in a mass of it, from its count.
 * @customfunction YARNLENGTH
 * @param {any[][]} mass Mass of yarn; 0 or more.
 * @param {any[][]} mass_unit Unit of mass: "g", "kg", "oz", "lb" …
 * @param {any[][]} count Count of the yarn; more than 0. A plied yarn's resultant count.
 * @param {any[][]} system Count system of count.
 * @param {any[][]} length_unit Unit of length wanted: "m", "km", "yd" …
 * @returns {any[][]} Length in length_unit, in the shape of the arguments.
 * @remarks Length = mass / linear density; 1 tex is 1 g in 1,000 m. Mass and count must be at the same regain.
 * @throws #VALUE! when a number is out of range or a word is unknown.
 * @example =YARN.YARNLENGTH(100,"g",14,"Nm","m") → 1400
 * @see DEFINITION, NIST-YD-LB
 */
export function yarnLength(
  mass: any[][],
  mass_unit: any[][],
  count: any[][],
  system: any[][],
  length_unit: any[][],
): any[][] {
  return lift(
    (amount, grams, number, of, metres) =>
      counting.metresOf(amount * grams, counting.expectCount("count", number, of), of) / metres,
    required({ mass }, kinds.notNegative),
    required({ mass_unit }, massUnit),
    required({ count }, kinds.positive),
    required({ system }, countSystem),
    required({ length_unit }, lengthUnit),
  );
}

/**
 * Mass of a length of yarn, from its count.
 * @customfunction YARNMASS
 * @param {any[][]} length Length of yarn; 0 or more.
 * @param {any[][]} length_unit Unit of length: "m", "km", "yd" …
 * @param {any[][]} count Count of the yarn; more than 0. A plied yarn's resultant count.
 * @param {any[][]} system Count system of count.
 * @param {any[][]} mass_unit Unit of mass wanted: "g", "kg", "oz", "lb" …
 * @returns {any[][]} Mass in mass_unit, in the shape of the arguments.
 * @remarks Mass = length × linear density; 1 tex is 1 g in 1,000 m. The mass is at the regain of the count.
 * @throws #VALUE! when a number is out of range or a word is unknown.
 * @example =YARN.YARNMASS(9240,"yd",44,"NeC","lb") → 0.25
 * @see BROOKS, NIST-YD-LB
 */
export function yarnMass(
  length: any[][],
  length_unit: any[][],
  count: any[][],
  system: any[][],
  mass_unit: any[][],
): any[][] {
  return lift(
    (amount, metres, number, of, grams) =>
      counting.gramsOf(amount * metres, counting.expectCount("count", number, of), of) / grams,
    required({ length }, kinds.notNegative),
    required({ length_unit }, lengthUnit),
    required({ count }, kinds.positive),
    required({ system }, countSystem),
    required({ mass_unit }, massUnit),
  );
}

/**
 * Count of a weighed skein of yarn, corrected to standard regain when both regains are given.
 * @customfunction SKEINCOUNT
 * @param {any[][]} length Length of yarn weighed; more than 0.
 * @param {any[][]} length_unit Unit of length: "m", "yd" …
 * @param {any[][]} mass Mass of that length; more than 0.
 * @param {any[][]} mass_unit Unit of mass: "g", "gr", "oz" …
 * @param {any[][]} system Count system wanted.
 * @param {any[][]} [regain_now] Regain of the yarn as weighed, a fraction (water on dry mass); left out: no correction.
 * @param {any[][]} [regain_standard] Regain to correct to, a fraction such as 0.1825; given with regain_now or not at all.
 * @returns {any[][]} Count, in the shape of the arguments.
 * @remarks Corrected mass = mass × (1 + regain_standard) / (1 + regain_now). 0 is bone dry, not "unknown".
 * @throws #VALUE! when a number is out of range, a regain is a percent typed whole, or only one regain is given.
 * @example =YARN.SKEINCOUNT(20,"yd",10,"gr","NeW") → 25
 * @example =YARN.SKEINCOUNT(100,"m",3,"g","tex",0.12,0.1825) → 31.6741
 * @see ISO-2060, DAVIS-1920
 */
export function skeinCount(
  length: any[][],
  length_unit: any[][],
  mass: any[][],
  mass_unit: any[][],
  system: any[][],
  regain_now?: any[][],
  regain_standard?: any[][],
): any[][] {
  return lift(
    (amount, metres, weight, grams, wanted, now, standard) => {
      counting.expectReeled(amount * metres, weight * grams);
      return counting.skeinCount(amount * metres, weight * grams, wanted, { now, standard });
    },
    required({ length }, kinds.positive),
    required({ length_unit }, lengthUnit),
    required({ mass }, kinds.positive),
    required({ mass_unit }, massUnit),
    required({ system }, countSystem),
    optional({ regain_now }, kinds.regain, undefined),
    optional({ regain_standard }, kinds.standardRegain, undefined),
  );
}

/**
 * Diameter of a yarn in mm, taken as a round rod, from its count; a rule of thumb.
 * @customfunction DIAMETER
 * @param {any[][]} count Count of the yarn; more than 0.
 * @param {any[][]} system Count system of count.
 * @param {any[][]} [specific_volume] Volume of a gram of yarn with its air, 0.5 to 20 cm³/g; left out: 1.26108, the worsted rule.
 * @returns {any[][]} Diameter in mm, in the shape of the arguments.
 * @remarks d = √(4 × tex × v × 10⁻⁵ / π) cm. The default makes 25.4 / d = 0.9 × √(yd/lb), Ashenhurst's rule for worsted; his 0.84 for woollen is v = 1.4477. Real yarns are soft: measure where it matters.
 * @throws #VALUE! when a number is not above 0 or the system is unknown.
 * @example =YARN.DIAMETER(31.25,"tex",1.25) → 0.223016
 * @see ASHENHURST, DEFINITION
 */
export function diameter(count: any[][], system: any[][], specific_volume?: any[][]): any[][] {
  return lift(
    (number, words, volume: number) => counting.diameter(yarnOf(number, words, volume), words, volume),
    required({ count }, kinds.positive),
    required({ system }, countSystem),
    optional({ specific_volume }, specificVolume, counting.WORSTED_SPECIFIC_VOLUME),
  );
}

/**
 * Wraps per inch of a yarn: diameters side by side in 25.4 mm, from its count; a rule of thumb.
 * @customfunction WRAPS
 * @param {any[][]} count Count of the yarn; more than 0.
 * @param {any[][]} system Count system of count.
 * @param {any[][]} [specific_volume] Volume of a gram of yarn with its air, 0.5 to 20 cm³/g; left out: 1.26108, the worsted rule.
 * @returns {any[][]} Wraps per inch, in the shape of the arguments.
 * @remarks 25.4 / DIAMETER; with the default it is Ashenhurst's 0.9 × √(yd/lb). Wound by hand on a rule, a soft yarn gives fewer or more, as it is pulled.
 * @throws #VALUE! when a number is not above 0 or the system is unknown.
 * @example =YARN.WRAPS({14;20},"Nm") → {75.0017;89.6442}
 * @see ASHENHURST, DEFINITION
 */
export function wraps(count: any[][], system: any[][], specific_volume?: any[][]): any[][] {
  return lift(
    (number, words, volume: number) => counting.wraps(yarnOf(number, words, volume), words, volume),
    required({ count }, kinds.positive),
    required({ system }, countSystem),
    optional({ specific_volume }, specificVolume, counting.WORSTED_SPECIFIC_VOLUME),
  );
}

/**
 * Count of a yarn after washing or wet finishing, from its shrinkage in length and its loss of mass (fractions).
 * @customfunction WASHED
 * @param {any[][]} count Count before washing; more than 0.
 * @param {any[][]} system Count system of count and result.
 * @param {any[][]} length_shrink Shrinkage on the length before washing, a fraction up to 0.4; negative if the yarn gets longer.
 * @param {any[][]} [mass_loss] Oil and dirt lost, a fraction of the mass before washing, up to 0.4; left out: 0.
 * @returns {any[][]} Count after washing, in the shape of the arguments.
 * @remarks tex × (1 − mass_loss) / (1 − length_shrink). Weigh both times at the same regain.
 * @throws #VALUE! when a fraction is 1 or more, or a percent typed whole.
 * @example =YARN.WASHED(100,"tex",0.05,0.02) → 103.1579
 * @example =YARN.WASHED(14,"Nm",0.05) → 13.3
 * @see DEFINITION
 */
export function washed(count: any[][], system: any[][], length_shrink: any[][], mass_loss?: any[][]): any[][] {
  return lift(
    (number, words, shorter: number, lost: number) =>
      counting.washedCount(counting.expectCount("count", number, words), words, shorter, lost),
    required({ count }, kinds.positive),
    required({ system }, countSystem),
    required({ length_shrink }, shrinkage),
    optional({ mass_loss }, washedOut, 0),
  );
}
