/** Surface speed in m/min of a roll: its circumference times its revolutions a minute. */
export function surfaceSpeed(diameterInMetres: number, revolutions: number): number {
  return Math.PI * diameterInMetres * revolutions;
}

/**
 * Revolutions a minute that give a surface speed. The same figure answers what a roll must run at and how far a
 * traveller falls behind its spindle: it has to wind on, once round the package for every circumference delivered.
 */
export function revolutionsFor(speed: number, diameterInMetres: number): number {
  return speed / (Math.PI * diameterInMetres);
}
