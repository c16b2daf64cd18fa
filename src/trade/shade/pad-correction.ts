import { refuse } from "../refusal";
import { difference2000 } from "./shade-difference";
import { labOf } from "./tristimulus";
import type { Light } from "../../tables/lights";

/** A pad so far from what its recipe predicts was carded from another, or is another pad. */
const FURTHEST = 15;

/**
 * The target that a model has to be given so that the mill makes the wanted one: what a pad came out as against what
 * was predicted for it, band by band, is carried into the target.
 */
export function correctedTarget(
  target: readonly number[],
  predicted: ArrayLike<number>,
  pad: readonly number[],
  light: Light,
): number[] {
  const off = difference2000(labOf(predicted, light), labOf(pad, light));
  if (off > FURTHEST) {
    refuse(
      "pad",
      `${off.toFixed(1)} off what the shares predict`,
      `at most ${FURTHEST}: is it the pad of these shares?`,
    );
  }
  return target.map((value, band) => {
    const measured = pad[band]!;
    return measured > 0 ? (value * predicted[band]!) / measured : value;
  });
}
