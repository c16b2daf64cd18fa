import { refuse } from "./refusal";

/** A figure as messages show it; one beside the end of doubles is not rounded beyond it. */
export function figure(value: number, digits = 4): number {
  const shown = Number(value.toPrecision(digits));
  return Number.isFinite(shown) ? shown : value;
}

/**
 * The value itself, where it lies within limits that nothing of the trade passes: they judge nothing, they catch figures
 * in another unit or in each other's place. What is no finite number is told elsewhere.
 */
export function expectWithin(
  value: number,
  least: number,
  most: number,
  argument: string,
  came: string | number,
  allowed: string | ((shown: number) => string),
): number {
  if ((value >= least && value <= most) || !Number.isFinite(value)) return value;
  return refuse(argument, String(came), typeof allowed === "string" ? allowed : allowed(figure(value)));
}
