import * as condition from "../trade/condition";
import * as kinds from "../sheet/kinds";
import { REGAINS } from "../tables/regains";
import { oneOr, optional, required } from "../sheet/arguments";
import { finiteRows, lift } from "../sheet/lift";
import { fibre, fibreForm, regainSchedule } from "../sheet/wool-words";
import { machineWaste } from "../sheet/spinning";
import { wordsFor } from "../sheet/words";
import { refuseTotal, refuseTotalWithMean } from "../sheet/totals";
import { likeList, namedTogether } from "../sheet/names";
import { expectItems } from "../sheet/work";

/** At a half the water weighs as much as the fibre, a regain of 1. */
const moistureContent = kinds.fraction(0, 0.5, "must be 0 to 0.5 (50%), a regain of 100%");
/** Oil and dressing on a yarn that is sold; common practice, no source. */
const dressing = kinds.fraction(0, 0.25, "must be 0 to 0.25 (25%); 0.5% is 0.005");
const labelDecimals = kinds.wholeThat("must be a whole number from 0 to 6", (value) => value >= 0 && value <= 6);
const blendBasis = kinds.word(wordsFor("basis", "dry", "label"));

/** Fibres of one label: each takes several decimals. */
const MOST_FIBRES = 100_000;

/**
 * Standard regain of a fibre (water as a fraction of dry mass) in a named schedule; some values are from memory, verify before use.
 * @customfunction REGAIN
 * @param {any[][]} material Fibre, such as "wool", "nylon", "silk"; REGAINS lists them.
 * @param {any[][]} [form] Form of the fibre where a schedule tells them apart: "combed", "carded", "unknown", "filament"; left out where none does.
 * @param {any[][]} [schedule] "EU label", "GB 9994", "ASTM" or "trade". Left out, an answer comes only where all agree.
 * @returns {any[][]} Regain as a fraction, in the shape of the arguments.
 * @remarks It never chooses: where forms or schedules differ the answer is #N/A with the values. With schedule left out
 * all schedules that know the fibre must agree, those too that do not know the form. Values recalled without
 * a text (all of "trade", parts of the others) say memory in REGAINS: from memory, verify before use; they are given
 * only when the schedule is named. Under the EU label tops and
 * worsted yarn count as combed, woollen yarn as carded. A contract's own regain is best kept in the workbook. Labels are
 * decided by law.
 * @throws #N/A when the fibre or form is not in the schedule, the word is no form of the fibre, or forms or schedules differ; #VALUE! when schedule is unknown.
 * @example =YARN.REGAIN("wool","combed","EU label") → 0.1825
 * @example =YARN.REGAIN("nylon","filament","EU label") → 0.0575
 * @example =YARN.REGAIN("wool") → #N/A
 * @see EU-1007-2011, GB-9994, ASTM-D1909, MEMORY
 */
export function regain(material: any[][], form?: any[][], schedule?: any[][]): any[][] {
  return lift(
    condition.standardRegain,
    required({ material }, fibre),
    optional({ form }, fibreForm, undefined),
    optional({ schedule }, regainSchedule, undefined),
  );
}

/**
 * Table of standard regains: material, form, regain, schedule, source, status; rows marked memory are from memory, verify before use.
 * @customfunction REGAINS
 * @param {any[][]} [schedule] "EU label", "GB 9994", "ASTM" or "trade"; left out, all of them.
 * @returns {any[][]} Header row, then one row per fibre, form and schedule; regain as a fraction of dry mass.
 * @remarks A blank form means any form. Copy the values of a contract into the workbook and pass them as numbers.
 * @throws #VALUE! when the schedule is unknown.
 * @example =YARN.REGAINS("EU label") → {"material","form","regain (fraction of dry mass)","schedule","source","status";"wool","combed",0.1825,"EU label","EU-1007-2011","read";"wool","carded",0.17,"EU label","EU-1007-2011","read";"wool","unknown",0.17,"EU label","EU-1007-2011","read";…}
 * @see EU-1007-2011, GB-9994, ASTM-D1909, MEMORY
 */
export function regains(schedule?: any[][]): any[][] {
  const wanted = oneOr({ schedule }, regainSchedule, undefined);
  const rows = REGAINS.filter((row) => wanted === undefined || row.schedule === wanted);
  return finiteRows([
    ["material", "form", "regain (fraction of dry mass)", "schedule", "source", "status"],
    ...rows.map((row) => [row.fibre, row.form, row.regain, row.schedule, row.source, row.status]),
  ]);
}

/**
 * Regain (water on dry mass) from moisture content (water on moist mass), both fractions.
 * @customfunction REGAINOF
 * @param {any[][]} moisture Moisture content as a fraction, 0 to 0.5.
 * @returns {any[][]} Regain as a fraction.
 * @remarks M/(1 − M).
 * @throws #VALUE! when moisture is not 0 or more and below 1.
 * @example =YARN.REGAINOF(12%) → 0.13636
 * @see ASTM-D584
 */
export function regainOf(moisture: any[][]): any[][] {
  return lift(condition.regainOfMoisture, required({ moisture }, moistureContent));
}

/**
 * Moisture content (water on moist mass) from regain (water on dry mass), both fractions.
 * @customfunction MOISTUREOF
 * @param {any[][]} regain Regain as a fraction.
 * @returns {any[][]} Moisture content as a fraction.
 * @remarks R/(1 + R).
 * @throws #VALUE! when regain is not 0 to 1.
 * @example =YARN.MOISTUREOF(18.25%) → 0.15433
 * @see ASTM-D584
 */
export function moistureOf(regain: any[][]): any[][] {
  return lift(condition.moistureOfRegain, required({ regain }, kinds.regain));
}

/**
 * Regain (fraction) that drying a sample found: (mass − dry mass) / dry mass.
 * @customfunction MEASUREDREGAIN
 * @param {any[][]} mass Mass of the sample as it lay; more than 0.
 * @param {any[][]} dry_mass Its oven-dry mass, in the same unit; more than 0, not more than mass.
 * @returns {any[][]} Regain as a fraction.
 * @remarks Weigh the sample at once when the lot is weighed: it takes up and loses water within minutes.
 * @throws #VALUE! when a mass is not above 0, or the dry mass exceeds the mass or is less than half of it (g beside kg).
 * @example =YARN.MEASUREDREGAIN(500,438.6) → 0.13999
 * @see ASTM-D584, DEFINITION
 */
export function measuredRegain(mass: any[][], dry_mass: any[][]): any[][] {
  return lift(condition.measuredRegain, required({ mass }, kinds.positive), required({ dry_mass }, kinds.positive));
}

/**
 * Dry mass of a mass of fibre at a regain, in the unit of the mass.
 * @customfunction DRYMASS
 * @param {any[][]} mass Mass as it lies; 0 or more.
 * @param {any[][]} regain Its regain as a fraction.
 * @returns {any[][]} Dry mass, in the unit of mass.
 * @remarks Mass / (1 + R).
 * @throws #VALUE! when mass is below 0 or regain is not 0 to 1.
 * @example =YARN.DRYMASS(1182.5,18.25%) → 1000
 * @see DEFINITION
 */
export function dryMass(mass: any[][], regain: any[][]): any[][] {
  return lift(condition.dryMass, required({ mass }, kinds.notNegative), required({ regain }, kinds.regain));
}

/**
 * Mass of the same fibre at the standard regain, in the unit of the mass.
 * @customfunction CONDITIONED
 * @param {any[][]} mass Mass as it lies; 0 or more.
 * @param {any[][]} regain_now Its regain now, as a fraction.
 * @param {any[][]} regain_standard Standard regain of the contract, a fraction up to 0.3 (30%).
 * @returns {any[][]} Conditioned mass, in the unit of mass.
 * @remarks Mass × (1 + standard)/(1 + now). A mass weighed moist is paid for at its conditioned mass.
 * @throws #VALUE! when mass is below 0 or a regain is not 0 to 1.
 * @example =YARN.CONDITIONED(1000,18.25%,16%) → 980.973
 * @see DEFINITION
 */
export function conditioned(mass: any[][], regain_now: any[][], regain_standard: any[][]): any[][] {
  return lift(
    condition.conditionedMass,
    required({ mass }, kinds.notNegative),
    required({ regain_now }, kinds.regain),
    required({ regain_standard }, kinds.standardRegain),
  );
}

/**
 * Invoice mass of a delivery from a dried sample: net × dry/sample × (1 + standard regain + finish), in the unit of net.
 * @customfunction INVOICEMASS
 * @param {any[][]} net Net mass of the delivery; 0 or more.
 * @param {any[][]} sample Mass of the sample when the delivery was weighed; more than 0.
 * @param {any[][]} sample_dry Oven-dry mass of the sample, same unit, clean of finish; more than 0.
 * @param {any[][]} regain_standard Standard regain of the contract, a fraction up to 0.3 (30%).
 * @param {any[][]} [finish] Agreed oil or dressing as a fraction of dry mass, 0 to 0.25; default 0.
 * @returns {any[][]} Mass to invoice, in the unit of net, not rounded.
 * @remarks The contract decides regain, finish and rounding. Trade measurement is governed by law.
 * @throws #VALUE! when a mass is not above 0, the dry sample exceeds the sample or is less than half of it, or a fraction is not 0
 * to 1.
 * @example =YARN.INVOICEMASS(1000,500,438.6,17%) → 1026.324
 * @see GB-9994, ASTM-D584
 */
export function invoiceMass(
  net: any[][],
  sample: any[][],
  sample_dry: any[][],
  regain_standard: any[][],
  finish?: any[][],
): any[][] {
  return lift(
    condition.invoiceMass,
    required({ net }, kinds.notNegative),
    required({ sample }, kinds.positive),
    required({ sample_dry }, kinds.positive),
    required({ regain_standard }, kinds.standardRegain),
    optional({ finish }, dressing, 0),
  );
}

/**
 * Regain of a blend (fraction) from the shares and regains of its components, on dry or on label shares.
 * @customfunction BLENDREGAIN
 * @param {any[][]} shares Shares of the components, a list that sums to 1.
 * @param {any[][]} regains Regain of each component as a fraction; a list of the same length.
 * @param {any[][]} basis "dry": shares of dry mass. "label": shares of mass with its regain, as on a label. No default.
 * @returns {any[][]} Regain of the blend as a fraction.
 * @remarks Dry: Σ d·R. Label: 1/Σ(c/(1 + R)) − 1. The two differ, so the basis must be said.
 * @throws #VALUE! when the basis is missing, the shares do not sum to 1, or the lists differ in length.
 * @example =YARN.BLENDREGAIN({0.75;0.25},{0.1825;0.0625},"dry") → 0.1525
 * @example =YARN.BLENDREGAIN({0.75;0.25},{0.1825;0.0625},"label") → 0.15003
 * @see DEFINITION, EU-1007-2011
 */
export function blendRegain(shares: any[][], regains: any[][], basis: any[][]): any[][] {
  const { items } = namedTogether<{ share: number; regain: number }>({
    share: [{ shares }, kinds.share, "share"],
    regain: [{ regains }, kinds.regain, "regain"],
  });
  const parts = items.map((item) => item.share);
  const waters = items.map((item) => item.regain);
  return finiteRows([[condition.blendRegain(parts, waters, oneOr({ basis }, blendBasis, undefined))]]);
}

/**
 * Label composition (fractions) from the dry masses of an analysis and the agreed allowances; with decimals it foots to 100 %.
 * @customfunction LABELSHARES
 * @param {any[][]} dry_masses Dry mass of each fibre in one unit or in percent; a list, 0 or more, with names if you like.
 * @param {any[][]} allowances Agreed allowance (label regain) of each fibre, a fraction up to 0.3; a list of the same length.
 * @param {any[][]} [losses] Loss of each fibre in the pre-treatment as a fraction, at most 0.4; a list; default 0.
 * @param {any[][]} [decimals] Decimals of the percentage, 0 to 6: the shares then foot to 100 %. Left out: not rounded.
 * @returns {any[][]} Share of each fibre, in the shape of dry_masses, with the names if given.
 * @remarks P ∝ d·(1 + a + b). Footing by largest remainder, the first of equals first. Names, order, tolerances and what
 * may be left off a label are decided by law: have labels checked.
 * @throws #VALUE! when the lists differ in length or hold what is no mass or fraction; #DIV/0! when all masses are 0.
 * @example =YARN.LABELSHARES({10.3;50;39.7},{0.17;0.0625;0.085},{0;0;0.04},1) → {0.11;0.484;0.406}
 * @see EU-1007-2011
 */
export function labelShares(dry_masses: any[][], allowances: any[][], losses?: any[][], decimals?: any[][]): any[][] {
  const { items, first } = namedTogether<{ mass: number; allowance: number; loss: number }>({
    mass: [{ dry_masses }, kinds.notNegative, "dry_mass"],
    allowance: [{ allowances }, kinds.standardRegain, "allowance"],
    loss: [{ losses }, machineWaste, "loss", 0],
  });
  expectItems("dry_masses", items.length, MOST_FIBRES);
  const masses = items.map(({ mass }) => mass);
  refuseTotal("dry_masses", masses);
  const agreed = items.map(({ allowance }) => allowance);
  const lost = items.map((item) => item.loss);
  refuseTotalWithMean("dry_masses", masses, agreed);
  return likeList(first, condition.labelShares(masses, agreed, lost, oneOr({ decimals }, labelDecimals, undefined)));
}
