import { dividedByZero } from "../refusal";

/** Romaine is noil on top and noil; tear is top on noil. */
export function romaineOfTear(tear: number): number {
  return 1 / (tear + 1);
}

export function tearOfRomaine(romaine: number): number {
  if (romaine === 0) dividedByZero("romaine", "0", "without noil there is no tear");
  return (1 - romaine) / romaine;
}
