import { expectWithin, figure } from "../plausible";
import { revolutionsFor } from "./surface-speed";

/** Rings are between these diameters, in metres; common practice, no source. Another figure is in another unit. */
const SMALLEST_RING = 0.02;
const LARGEST_RING = 0.4;

/** The fastest ring spindles turn at 25,000 rpm; common practice, no source. */
const FASTEST_RING_SPINDLE = 27_000;

/** Speed of the traveller on the ring in m/s: π·D·n/60. It falls behind the spindle by too little to count. */
export function travellerSpeed(ringMetres: number, spindleRpm: number): number {
  const allowed = "must be at most 27000 rpm, as ring spindles turn";
  expectWithin(spindleRpm, 0, FASTEST_RING_SPINDLE, "spindle_rpm", spindleRpm, allowed);
  return (Math.PI * ring(ringMetres) * spindleRpm) / 60;
}

/** The spindle speed in rpm at which the traveller runs at this speed. */
export function spindleLimit(ringMetres: number, metresPerSecond: number): number {
  return (60 * metresPerSecond) / (Math.PI * ring(ringMetres));
}

/** A traveller's speed that a ring spindle can make. */
export function expectRingSpindle(revolutions: number, metresPerSecond: number, ringMetres: number): number {
  const came = (): string => `${metresPerSecond} m/s on ${figure(ringMetres * 1000)} mm`;
  const allowed = (shown: number): string => `a spindle at ${shown} rpm; swapped with the ring, or m/min?`;
  return expectWithin(revolutions, 0, FASTEST_RING_SPINDLE, "speed", came, allowed);
}

/** Revolutions a minute that a traveller falls behind; common practice, no source. */
const MOST_LAG = 800;

/** Revolutions by which the traveller falls behind while it winds on so many metres a minute. */
export function travellerLag(delivery: number, windMetres: number): number {
  const came = (): string => `${delivery} m/min on ${figure(windMetres * 1000)} mm`;
  const allowed = (shown: number): string => `a lag of ${shown} rpm, above 800; swapped with the diameter?`;
  return expectWithin(revolutionsFor(delivery, windMetres), 0, MOST_LAG, "delivery", came, allowed);
}

function ring(metres: number): number {
  return expectWithin(
    metres,
    SMALLEST_RING,
    LARGEST_RING,
    "ring_diameter",
    () => `${figure(metres * 1000, 6)} mm`,
    "must be 20 to 400 mm; check its unit",
  );
}
