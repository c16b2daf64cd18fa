/** A starting point for the ply twist. Handbooks disagree, so nothing here is a default. */
export type PlyRule = "two-thirds" | "n/(n+1)" | "axial";

/** Is the ply twisted against the singles, as hand-knitting yarn is, or with them? */
export type PlyDirection = "opposite" | "same";

/** Ply twist as a share of the singles twist. */
export function plyRatio(rule: PlyRule | number, plies: number): number {
  if (typeof rule === "number") return rule;
  if (rule === "two-thirds") return 2 / 3;
  if (rule === "n/(n+1)") return plies / (plies + 1);
  // Strands touching in a ring reach 1 + 1/sin(π/n) strand diameters across: there the outside of the ply turns at
  // the angle of the outside of the single, and the outer fibres come to lie along the axis.
  return 1 / (1 + 1 / Math.sin(Math.PI / plies));
}

/** Twist left in the singles after plying. Negative when the ply takes out more than there was. */
export function residualTwist(single: number, ply: number, direction: PlyDirection): number {
  return direction === "opposite" ? single - ply : single + ply;
}
