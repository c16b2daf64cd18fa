import { Decimal, quotient } from "../money";

/** Price of clean wool from the price of greasy: 472 at a yield of 80 % is 590. Source: PRESS-1988. */
export function cleanPrice(greasyPrice: number, cleanYield: number): number {
  return quotient(greasyPrice, cleanYield);
}

export function greasyPrice(priceOfClean: number, cleanYield: number): number {
  return new Decimal(priceOfClean).times(cleanYield).toNumber();
}
