import { Decimal, rounded } from "./money";

/** How a tie, or any remainder, is rounded. */
export type RoundingMode = "half away" | "half even" | "up" | "down";

/** "up" is away from zero and "down" towards it, like the sheet's ROUNDUP and ROUNDDOWN. Source: IEEE-754, ISO-80000-1. */
const MODES = {
  "half away": Decimal.ROUND_HALF_UP,
  "half even": Decimal.ROUND_HALF_EVEN,
  up: Decimal.ROUND_UP,
  down: Decimal.ROUND_DOWN,
} as const;

export function roundCash(value: number, decimals: number, mode: RoundingMode): Decimal {
  return rounded(value, decimals, MODES[mode]);
}
