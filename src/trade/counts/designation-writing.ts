import type { Twist, TwistDirection } from "./designation";
import { unmistakable } from "./designation-words";
import { canBePlies, canBeResultant, PLIES_ALLOWED, RESULTANT_ALLOWED } from "./plausible-fold";
import { Decimal } from "../money";
import { refuse } from "../refusal";

/** A twist as given in two arguments. Turns of 0 are turns not stated: a blank cell can arrive as 0. */
export function statedTwist(
  turns: number,
  direction: TwistDirection | undefined,
  stage: "single" | "ply",
): Twist | undefined {
  if (direction === undefined) {
    if (turns === 0) return undefined;
    refuse(`direction_${stage}`, `left out beside a twist of ${turns}`, "write S or Z");
  }
  if (direction === "t0" && turns !== 0) refuse(`direction_${stage}`, `t0 beside a twist of ${turns}`, "write S or Z");
  return { direction, turns: turns === 0 ? undefined : turns };
}

/** ISO 1139, single-to-fold: the single, its twist, x plies, their twist; R and the resultant. All in tex and turns/m. */
export function writeDesignation(
  single: number,
  plies: number,
  singleTwist: Twist | undefined,
  plyTwist: Twist | undefined,
  resultant: number | undefined,
): string {
  if (!canBePlies(plies)) refuse("plies", String(plies), PLIES_ALLOWED);
  if (resultant !== undefined && !canBeResultant(resultant, single, plies)) {
    refuse("resultant_tex", `${resultant} beside ${plies} × ${single}`, RESULTANT_ALLOWED);
  }
  if (plies === 1 && plyTwist !== undefined) refuse("plies", "1", "a single yarn has no ply twist; leave it out");
  const folded = plies === 1 ? "" : ` x ${plain(plies)}${twistText(plyTwist)}`;
  const finished = resultant === undefined ? "" : `; R ${plain(resultant)} tex`;
  return `${plain(single)} tex${twistText(singleTwist)}${folded}${finished}`;
}

function twistText(twist: Twist | undefined): string {
  if (twist === undefined) return "";
  return ` ${twist.direction}${twist.turns === undefined ? "" : ` ${plain(twist.turns)}`}`;
}

/** Never with an exponent: 1e-7 is no number in a designation. */
function plain(value: number): string {
  const text = String(value);
  return unmistakable(text.indexOf("e") < 0 ? text : new Decimal(value).toFixed());
}
