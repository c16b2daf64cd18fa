import { COUNT_SYSTEMS } from "../tables/count-systems";
import { convertCount } from "../trade/counts";
import { required } from "../sheet/arguments";
import { positive } from "../sheet/kinds";
import { finiteRows, lift } from "../sheet/lift";
import { countSystem } from "../sheet/units";

/**
 * Yarn count converted from one count system to another.
 * @customfunction COUNT
 * @param {any[][]} value Count in the system "from"; more than 0.
 * @param {any[][]} from Count system of value, e.g. "Nm", "NeC", "NeW", "tex".
 * @param {any[][]} to Count system wanted.
 * @returns {any[][]} Count in the system "to", in the shape of the arguments.
 * @remarks Direct: tex = size × count; indirect: tex = size / count, with exact sizes. COUNTSYSTEMS lists the words.
 * @throws #VALUE! when value is not above 0, or a word is unknown or has two meanings ("Ne").
 * @example =YARN.COUNT(10,"NeC","NeW") → 15
 * @example =YARN.COUNT({20;40},"NeC","NeL") → {56;112}
 * @see ASTM-D2260, NIST-YD-LB
 */
export function count(value: any[][], from: any[][], to: any[][]): any[][] {
  return lift(
    convertCount,
    required({ value }, positive),
    required({ from }, countSystem),
    required({ to }, countSystem),
  );
}

/**
 * Table of the count systems: word, meaning, direct or indirect, size in tex, source.
 * @customfunction COUNTSYSTEMS
 * @returns {any[][]} Header row, then one row per system.
 * @remarks Direct systems: tex = size × count. Indirect systems: tex = size / count.
 * @throws Nothing.
 * @example =INDEX(YARN.COUNTSYSTEMS(),2,1) → "tex"
 * @see ASTM-D2260, GNU-UNITS, NIST-YD-LB
 */
export function countSystems(): any[][] {
  return finiteRows([
    ["word", "meaning", "kind", "size (tex × count, or tex / count)", "source"],
    ...COUNT_SYSTEMS.map(({ word, meaning, direct, size, source }) => [
      word,
      meaning,
      direct ? "direct" : "indirect",
      size.numerator / size.denominator,
      source,
    ]),
  ]);
}
