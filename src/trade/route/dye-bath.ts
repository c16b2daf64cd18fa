import { Decimal } from "../money";

/** Litres of liquor and kilograms of each dye for a mass of fibre in kg; a litre of liquor counts as a kilogram. */
export function dyeBath(fibreMass: number, liquorRatio: number, shares: readonly number[]): number[] {
  const fibre = new Decimal(fibreMass);
  return [liquorRatio, ...shares].map((share) => fibre.times(share).toNumber());
}
