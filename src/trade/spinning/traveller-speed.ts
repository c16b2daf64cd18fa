import { refuse } from "../refusal";

/** Rings are between these diameters, in metres; common practice, no source. Another figure is in another unit. */
const SMALLEST_RING = 0.02;
const LARGEST_RING = 0.4;

/** Speed of the traveller on the ring in m/s: π·D·n/60. It falls behind the spindle by too little to count. */
export function travellerSpeed(ringMetres: number, spindleRpm: number): number {
  return (Math.PI * ring(ringMetres) * spindleRpm) / 60;
}

/** The spindle speed in rpm at which the traveller runs at this speed. */
export function spindleLimit(ringMetres: number, metresPerSecond: number): number {
  return (60 * metresPerSecond) / (Math.PI * ring(ringMetres));
}

function ring(metres: number): number {
  if (metres >= SMALLEST_RING && metres <= LARGEST_RING) return metres;
  return refuse(
    "ring_diameter",
    `${Number((metres * 1000).toPrecision(6))} mm`,
    "must be 20 to 400 mm; check its unit",
  );
}
