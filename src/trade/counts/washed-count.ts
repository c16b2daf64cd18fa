import type { CountSystem } from "../../tables/count-systems";
import { heavier } from "./counts";

/** Count after washing: the same yarn lies in less length (shrinkage) and has lost some mass (oil, size). */
export function washedCount(count: number, system: CountSystem, lengthShrink: number, massLoss: number): number {
  return heavier(count, (1 - massLoss) / (1 - lengthShrink), system);
}
