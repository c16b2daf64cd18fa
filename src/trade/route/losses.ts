import { Decimal } from "../money";
import { at, refuse } from "../refusal";

/** What a loss is a share of: of what goes into its stage (y = 1 - w) or of what comes out (y = 1/(1 + w)). */
export type LossBasis = "input" | "output";

/** Output for one unit of input, through losses in process order. */
export function yieldThrough(losses: readonly number[], basis: LossBasis): Decimal {
  const one = new Decimal(1);
  return losses.reduce((sofar, loss, index) => {
    if (basis === "input") return sofar.times(one.minus(loss));
    // Minus everything is fine on the input, where it doubles the mass; on the output there would be no input left.
    if (loss <= -1) refuse(at("losses", index), String(loss), "a loss on the output must be above -1");
    return sofar.div(one.plus(loss));
  }, one);
}

/** Quantities through one list of losses, on either basis; each basis is worked out once, when first asked for. */
export class LossChain {
  private readonly yields = new Map<LossBasis, Decimal>();

  constructor(private readonly losses: readonly number[]) {}

  /** Output from an input. */
  made(input: number, basis: LossBasis): Decimal {
    return this.yieldOn(basis).times(input);
  }

  /** Input for an output. */
  needed(output: number, basis: LossBasis): Decimal {
    return new Decimal(output).div(this.yieldOn(basis));
  }

  private yieldOn(basis: LossBasis): Decimal {
    let through = this.yields.get(basis);
    if (through === undefined) {
      through = yieldThrough(this.losses, basis);
      this.yields.set(basis, through);
    }
    return through;
  }
}
