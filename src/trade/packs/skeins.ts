import { asShown, Decimal } from "../money";
import { refuse } from "../refusal";
import { wholeDown } from "../whole";

/** A mass as whole skeins and what is left over. */
export interface Skeins {
  readonly whole: number;
  /** At the standard regain, in the unit of the mass. */
  readonly remainder: number;
}

/** Skeins of a stated mass from a mass of yarn, and what is over. */
export function skeinsOf(...given: Parameters<typeof counted>): Skeins {
  const { whole, yarn, skein, now } = counted(...given);
  const left = yarn.minus(whole.times(skein)).div(now);
  // The last skein may be a trace short of what its cell shows.
  return { whole: whole.toNumber(), remainder: Decimal.max(left, 0).toNumber() };
}

/** The whole skeins alone. */
export function wholeSkeins(...given: Parameters<typeof counted>): number {
  return counted(...given).whole.toNumber();
}

/**
 * A skein's label mass is a mass at standard regain, so with both regains the yarn is conditioned first. In decimal:
 * 0.3 kg holds three skeins of 0.1 kg, not two. Yarn and skein are told times (1 + regain now).
 */
function counted(
  mass: number,
  skeinMass: number,
  regainNow: number | undefined,
  regainStandard: number | undefined,
): { readonly whole: Decimal; readonly yarn: Decimal; readonly skein: Decimal; readonly now: Decimal } {
  if ((regainNow === undefined) !== (regainStandard === undefined)) {
    const missing = regainNow === undefined ? "regain_now" : "regain_standard";
    refuse(missing, "left out", "give both regains or neither");
  }
  const now = new Decimal(1).plus(regainNow ?? 0);
  // Everything times (1 + regain now), so that nothing is rounded before it is counted.
  const yarn = new Decimal(1).plus(regainStandard ?? 0).times(asShown(mass));
  const skein = now.times(asShown(skeinMass));
  return { whole: wholeDown(yarn, skein), yarn, skein, now };
}
