import { refuse } from "./refusal";

/** A figure as messages show it; one beside the end of doubles is not rounded beyond it. */
export function figure(value: number, digits = 4): number {
  const shown = Number(value.toPrecision(digits));
  return Number.isFinite(shown) ? shown : value;
}

/** What came, put in words only where it is refused: rows by the hundred thousand are not. */
export type Came = string | number | (() => string);

export function told(came: Came): string {
  return typeof came === "function" ? came() : String(came);
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
  came: Came,
  allowed: string | ((shown: number) => string),
): number {
  if ((value >= least && value <= most) || !Number.isFinite(value)) return value;
  return refuse(argument, told(came), typeof allowed === "string" ? allowed : allowed(figure(value)));
}
