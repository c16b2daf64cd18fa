import * as wool from "../trade/wool";
import { optional, required } from "../sheet/arguments";
import { cleanYield, fraction, positive, share, word } from "../sheet/kinds";
import { finiteRows, lift } from "../sheet/lift";
import { yieldKind } from "../sheet/wool-words";
import { wordsFor } from "../sheet/words";
import { refuseTotalWithMean } from "../sheet/totals";
import { namedTogether } from "../sheet/names";

const woolBase = fraction(Number.MIN_VALUE, 1, "must be above 0 and at most 1 (100%)");
const roundingWord = word(wordsFor("rounding", "certificate", "none"));

/**
 * Clean yield of greasy wool (fraction) from the wool base and vegetable matter base of a core test; one kind is from memory, verify before use.
 * @customfunction WOOLYIELD
 * @param {any[][]} kind Kind of yield: "scoured 16", "scoured 17", "clean fibre", "customs clean" or "top and noil".
 * @param {any[][]} wool_base Wool base: dry wool free of grease, dirt and vegetable matter, a fraction of the greasy mass.
 * @param {any[][]} vm_base Vegetable matter base, a fraction of the greasy mass.
 * @returns {any[][]} Yield as a fraction, not rounded, in the shape of the arguments.
 * @remarks Scoured: (WB + VMB)(1 + R)/0.9773. Clean fibre: WB/0.86. Customs clean: A − min(0.5 % of A + 60 % of VMB, 15 %
 * of A) with A = WB/0.86. Top and noil: 1.207·WB − (7.7 − 40.60/(7.80 + VMB in %))/100, from memory, verify before use.
 * For any other yield pass the certificate's figure as a number. A customs entry is decided by law: leave it to a
 * licensed broker.
 * @throws #N/A when the kind is not in the table; #VALUE! when a base is not a fraction, both pass 1 or vm_base
 * passes wool_base; #NUM! when no
 * yield is left.
 * @example =YARN.WOOLYIELD("scoured 16",60%,1%) → 0.724036
 * @example =YARN.WOOLYIELD("customs clean",45.5%,8.2%) → 0.477224
 * @see CERTIFICATE, 19-CFR-151.61, ASTM-D584, MEMORY
 */
export function woolYield(kind: any[][], wool_base: any[][], vm_base: any[][]): any[][] {
  return lift(
    wool.woolYield,
    required({ kind }, yieldKind),
    required({ wool_base }, woolBase),
    required({ vm_base }, share),
  );
}

/**
 * Clean mass (kg) of a net mass of greasy wool at a yield, rounded in the order of certificates.
 * @customfunction CLEANMASS
 * @param {any[][]} net Net greasy mass, kg; more than 0, and from 50 kg on where the mass is rounded.
 * @param {any[][]} clean_yield Clean yield as a fraction, 0.1 to 1.5: what WOOLYIELD gives or a certificate states.
 * @param {any[][]} [rounding] "certificate" (default): the yield to 0.1 %, then the mass to 1 kg. "none": not rounded.
 * @returns {any[][]} Clean mass, kg, in the shape of the arguments.
 * @remarks Net × yield. Certificates round the yield before the mass, so 12,000 kg at 72.4036 % is 8,688 kg. Their
 * rounding is made for kilograms: for another unit use "none".
 * @throws #VALUE! when net is not above 0 (or below 50 kg, so perhaps in tonnes), the yield is not a fraction of 0.1 to 1.5, or the word is unknown.
 * @example =YARN.CLEANMASS(12000,72.4036%) → 8688
 * @example =YARN.CLEANMASS(12000,72.4036%,"none") → 8688.432
 * @see CERTIFICATE
 */
export function cleanMass(net: any[][], clean_yield: any[][], rounding?: any[][]): any[][] {
  return lift(
    wool.cleanMass,
    required({ net }, positive),
    required({ clean_yield }, cleanYield),
    optional({ rounding }, roundingWord, "certificate" as const),
  );
}

/**
 * Clean yield (fraction) of several certified lots together: their rounded clean masses on their net masses.
 * @customfunction COMBINEDYIELD
 * @param {any[][]} nets Net greasy mass of each lot, 50 kg or more; a list, taken whole.
 * @param {any[][]} yields Clean yield of each lot as a fraction; a list of the same length.
 * @returns {any[][]} One yield, not rounded; a certificate shows it to 0.1 %.
 * @remarks Σ clean / Σ net, each clean mass rounded as its own certificate has it (yield to 0.1 %, mass to 1 kg).
 * @throws #VALUE! when the lists differ in length, have gaps, or hold what is no mass or no yield.
 * @example =YARN.COMBINEDYIELD({12000;14000},{0.724;0.611}) → 0.66315
 * @see CERTIFICATE
 */
export function combinedYield(nets: any[][], yields: any[][]): any[][] {
  const { items } = namedTogether<{ net: number; fraction: number }>({
    net: [{ nets }, positive, "net"],
    fraction: [{ yields }, cleanYield, "yield"],
  });
  const masses = items.map(({ net }) => net);
  const fractions = items.map(({ fraction }) => fraction);
  refuseTotalWithMean("nets", masses, fractions);
  return finiteRows([[wool.combinedYield(masses, fractions)]]);
}

/**
 * Price of clean wool from the price of greasy wool: price / yield, per the same unit of mass.
 * @customfunction CLEANPRICE
 * @param {any[][]} greasy_price Price of a unit of greasy mass; more than 0.
 * @param {any[][]} clean_yield Clean yield as a fraction, 0.1 to 1.5.
 * @returns {any[][]} Price of a unit of clean mass, not rounded, in the shape of the arguments.
 * @remarks Clean prices compare only on the same kind of yield.
 * @throws #VALUE! when the price is not above 0 or the yield is not a fraction of 0.1 to 1.5.
 * @example =YARN.CLEANPRICE(472,80%) → 590
 * @see PRESS-1988, DEFINITION
 */
export function cleanPrice(greasy_price: any[][], clean_yield: any[][]): any[][] {
  return lift(wool.cleanPrice, required({ greasy_price }, positive), required({ clean_yield }, cleanYield));
}

/**
 * Price of greasy wool from the price of clean wool: price × yield, per the same unit of mass.
 * @customfunction GREASYPRICE
 * @param {any[][]} clean_price Price of a unit of clean mass; more than 0.
 * @param {any[][]} clean_yield Clean yield as a fraction, 0.1 to 1.5.
 * @returns {any[][]} Price of a unit of greasy mass, not rounded, in the shape of the arguments.
 * @remarks The inverse of CLEANPRICE.
 * @throws #VALUE! when the price is not above 0 or the yield is not a fraction of 0.1 to 1.5.
 * @example =YARN.GREASYPRICE(590,80%) → 472
 * @see PRESS-1988, DEFINITION
 */
export function greasyPrice(clean_price: any[][], clean_yield: any[][]): any[][] {
  return lift(wool.greasyPrice, required({ clean_price }, positive), required({ clean_yield }, cleanYield));
}
