import type { CountSystem } from "../../tables/count-systems";
import { texOf } from "./counts";

/** Metres in so many grams of yarn: tex is grams in 1,000 m. */
export function metresOf(grams: number, count: number, system: CountSystem): number {
  return (grams * 1000) / texOf(count, system);
}

/** Grams that so many metres of yarn weigh. */
export function gramsOf(metres: number, count: number, system: CountSystem): number {
  return (metres * texOf(count, system)) / 1000;
}
