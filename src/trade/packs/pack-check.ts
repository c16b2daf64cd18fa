import { PACKS_FOR_ONE_SHORT } from "../../tables/pack-tolerances";
import { asShown, quotient, type Decimal, sum } from "../money";
import { counted, refuse } from "../refusal";
import { tolerableShortfall } from "./tolerable-shortfall";
import { figure } from "../plausible";

/** What the packers' rules say of a run of packs, grams. */
export interface PackCheck {
  readonly packs: number;
  readonly mean: number;
  readonly shortfall: number;
  /** Packs below nominal − T, and how many are allowed. */
  readonly short: number;
  readonly shortAllowed: number;
  /** Packs below nominal − 2T; none is allowed. */
  readonly veryShort: number;
  readonly verdict: string;
}

/**
 * The three packers' rules: the mean not below the nominal mass, at most one pack in forty below it by more than the
 * tolerable error T, none by more than 2T. Sources: EU-76-211, Annex I; PACKERS-RULES.
 */
export function packCheck(masses: readonly number[], nominal: number, tares: readonly number[]): PackCheck {
  if (tares.length !== 1 && tares.length !== masses.length) {
    refuse("tare", `${counted(tares.length, "item")} long`, `give one, or one for each of the ${masses.length} packs`);
  }
  const contents = masses.map((mass, index) => {
    const content = asShown(mass).minus(asShown(tares[index % tares.length] as number));
    return content.isNegative() ? refuse("tare", `above the mass of pack ${index + 1}`, "must not exceed it") : content;
  });
  const tolerable = tolerableShortfall(nominal, "nominal");
  const total = sum(contents);
  const mean = quotient(total, contents.length);
  // Packs that hold a fifth or five times of what they should are weighed in another unit.
  if (mean < nominal / 5 || mean > nominal * 5) {
    refuse("masses", `${figure(mean, 6)} g on average`, `the nominal is ${nominal} g; check unit and tare`);
  }
  const below = (limit: Decimal): number => contents.filter((content) => content.lt(limit)).length;
  const short = below(asShown(nominal).minus(tolerable));
  const veryShort = below(asShown(nominal).minus(tolerable.times(2)));
  const shortAllowed = Math.floor(contents.length / PACKS_FOR_ONE_SHORT);

  const faults: string[] = [];
  if (total.lt(asShown(nominal).times(contents.length))) faults.push("mean below nominal");
  if (short > shortAllowed) faults.push(`${short} below nominal - T, ${shortAllowed} allowed`);
  if (veryShort > 0) faults.push(`${veryShort} below nominal - 2T, none allowed`);
  return {
    packs: contents.length,
    mean,
    shortfall: tolerable.toNumber(),
    short,
    shortAllowed,
    veryShort,
    verdict: faults.length === 0 ? "passes" : `fails: ${faults.join("; ")}`,
  };
}
