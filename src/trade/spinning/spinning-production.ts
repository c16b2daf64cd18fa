/** Grams that one spindle spins in an hour: rpm/tpm metres a minute, 60 minutes, tex grams in 1000 m. */
export function spindleRate(spindleRevolutions: number, turns: number, tex: number, efficiency: number): number {
  return (spindleRevolutions * 60 * tex * efficiency) / (1000 * turns);
}

/** A quotient this near a whole number is that number: a rate that came out of a division must not cost a spindle. */
const ROUNDING = 1e-12;

/** Spindles for so many kilograms in so many hours at grams per spindle-hour, rounded up. */
export function spindlesFor(massKg: number, hours: number, rate: number): number {
  const exact = (massKg * 1000) / (hours * rate);
  return Math.ceil(exact * (1 - ROUNDING));
}

/** Hours that so many spindles need for a mass. */
export function machineHours(massKg: number, spindles: number, rate: number): number {
  return (massKg * 1000) / (spindles * rate);
}
