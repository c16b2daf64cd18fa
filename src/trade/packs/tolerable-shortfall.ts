import { LARGEST_PACK, PACK_TOLERANCES, SMALLEST_PACK } from "../../tables/pack-tolerances";
import { asShown, Decimal } from "../money";
import { absent } from "../refusal";

const COVERED = "the rule covers packs of 5 g to 10 kg";

/**
 * Tolerable negative error of a pack, grams; a percent of the nominal mass is rounded up to 0.1 g. Source: EU-76-211,
 * Annex I 2.4. In decimal: 9 % of 30 g is 2.7 g, which binary would round up to 2.8 g.
 */
export function tolerableShortfall(given: number, argument: string): Decimal {
  const nominal = asShown(given).toNumber();
  const band = nominal < SMALLEST_PACK ? undefined : PACK_TOLERANCES.find(({ upTo }) => nominal <= upTo);
  if (band === undefined || nominal > LARGEST_PACK) return absent(argument, `${given} g`, COVERED);
  if (band.grams !== undefined) return new Decimal(band.grams);
  return new Decimal(nominal).times(band.share as number).toDecimalPlaces(1, Decimal.ROUND_UP);
}
