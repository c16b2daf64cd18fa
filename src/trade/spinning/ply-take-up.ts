import { helixTangent, secantOf } from "./helix";
import { expectAngle } from "./plausible-twist";
import { residualTwist, type PlyDirection } from "./ply-twist";
import { stapleTakeUp } from "./take-up";
import { figure } from "../plausible";

/**
 * Take-up of a two-fold staple yarn on the length of its singles: 1 − k₁ = (1 − k(θ′))/(1 − k(θ))·cos β, with θ from
 * the singles twist, θ′ from the twist left in them and tan β = π·d·U on the strand diameter. Source: J-STAGE-1968.
 * For more strands the same on the ring through their centres, d/sin(π/n) across: an estimate of geometry alone.
 * The trap: plying against the singles untwists them, they lengthen, and up to about two thirds of the singles twist
 * that outweighs the winding round each other. The take-up is then negative and must stay so.
 */
export function plyTakeUp(diameterMm: number, single: number, ply: number, direction: PlyDirection, plies = 2): number {
  const left = Math.abs(residualTwist(single, ply, direction));
  const tangent = expectAngle("single_twist", () => shown(single), helixTangent(diameterMm, single));
  const before = stapleTakeUp(tangent);
  const after = stapleTakeUp(helixTangent(diameterMm, left));
  const ring = diameterMm / Math.sin(Math.PI / plies);
  const cosine = 1 / secantOf(expectAngle("ply_twist", () => shown(ply), helixTangent(ring, ply)));
  return 1 - ((1 - after) / (1 - before)) * cosine;
}

function shown(turns: number): string {
  return `${figure(turns, 6)} turns a metre`;
}
