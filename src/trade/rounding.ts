import { Decimal } from "./money";

/** How a tie, or any remainder, is rounded. */
export type RoundingMode = "half away" | "half even" | "up" | "down";

/** "up" is away from zero and "down" towards it, like the sheet's ROUNDUP and ROUNDDOWN. Source: IEEE-754, ISO-80000-1. */
const MODES = {
  "half away": Decimal.ROUND_HALF_UP,
  "half even": Decimal.ROUND_HALF_EVEN,
  up: Decimal.ROUND_UP,
  down: Decimal.ROUND_DOWN,
} as const;

/** Rounds the shortest decimal of the double, which is what a person sees in the cell, not the binary value behind it. */
export function roundCash(value: number, decimals: number, mode: RoundingMode): Decimal {
  return decimals >= 0
    ? new Decimal(value).toDecimalPlaces(decimals, MODES[mode])
    : new Decimal(value).toNearest(new Decimal(10).pow(-decimals), MODES[mode]);
}
