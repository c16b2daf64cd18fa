import { asShown, Decimal } from "../money";
import { at, refuse } from "../refusal";

/** One stage of the route. Loss and by-product are shares of its dry input. */
export interface Stage {
  readonly stage: string;
  readonly loss: number;
  /** Moisture regain at which the goods leave the stage. */
  readonly regain_out: number;
  readonly by_product: number;
}

/** Is the quantity the mass wanted out of the last stage, or the mass there is for the first? */
export type Direction = "needed" | "made";

/** One stage of the mass ledger: dry in = by-product dry + loss dry + dry out. */
export interface StageMasses {
  readonly massIn: Decimal;
  readonly dryIn: Decimal;
  readonly byProductDry: Decimal;
  readonly lossDry: Decimal;
  readonly dryOut: Decimal;
  /** Dry out at the regain out; where the actual output is known, this is still the expected one. */
  readonly massOut: Decimal;
}

/**
 * The mass ledger of a route. Losses act on dry mass and moisture is added to what is left, so that a gain of
 * moisture never passes for a negative loss. Kept in decimal: a charge on a mass rounds like the exact figure.
 *
 * Where a stage's actual output is known, the next stage starts from it. The first input then still follows from
 * the expected losses: it is what was put in before anybody knew.
 */
export function massLedger(
  quantity: number,
  stages: readonly Stage[],
  direction: Direction,
  regainStart: number,
  actualOut: readonly (number | undefined)[] = [],
): StageMasses[] {
  const kept = stages.map(shareKept);
  let massIn = direction === "made" ? new Decimal(quantity) : firstMassFor(quantity, stages, kept, regainStart);
  let dryIn = massIn.div(wet(regainStart));
  return stages.map((stage, index) => {
    const dryOut = dryIn.times(kept[index] as Decimal);
    const masses: StageMasses = {
      massIn,
      dryIn,
      byProductDry: dryIn.times(stage.by_product),
      lossDry: dryIn.times(stage.loss),
      dryOut,
      massOut: dryOut.times(wet(stage.regain_out)),
    };
    const actual = actualOut[index];
    massIn = actual === undefined ? masses.massOut : new Decimal(actual);
    dryIn = actual === undefined ? dryOut : massIn.div(wet(stage.regain_out));
    return masses;
  });
}

/** Mass of one unit of dry matter at a regain. */
export function wet(regain: number): Decimal {
  return new Decimal(1).plus(regain);
}

function shareKept({ loss, by_product }: Stage, index: number): Decimal {
  const gone = new Decimal(loss).plus(by_product);
  if (asShown(gone).gte(1)) {
    refuse(at("stages", index, "loss and by-product"), `${gone.toString()} in all`, "must be below 1 (100%)");
  }
  return new Decimal(1).minus(gone);
}

function firstMassFor(
  quantity: number,
  stages: readonly Stage[],
  kept: readonly Decimal[],
  regainStart: number,
): Decimal {
  const last = stages[stages.length - 1] as Stage;
  const keptInAll = kept.reduce((sofar, share) => sofar.times(share), new Decimal(1));
  return new Decimal(quantity).times(wet(regainStart)).div(wet(last.regain_out).times(keptInAll));
}
