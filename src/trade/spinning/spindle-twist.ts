/**
 * Turns per metre that a spindle puts in: revolutions a minute over metres a minute. The traveller puts in a little
 * less while winding; drawing the yarn off over the end of the package restores exactly that. Source: RIETER.
 */
export function twistFromSpindle(spindleRevolutions: number, delivery: number): number {
  return spindleRevolutions / delivery;
}

/** Revolutions a minute for a twist in turns per metre at a delivery in m/min. */
export function spindleSpeedFor(turnsPerMetre: number, delivery: number): number {
  return turnsPerMetre * delivery;
}

/** Delivery in m/min at which a spindle gives a twist in turns per metre. */
export function deliveryFor(spindleRevolutions: number, turnsPerMetre: number): number {
  return spindleRevolutions / turnsPerMetre;
}
