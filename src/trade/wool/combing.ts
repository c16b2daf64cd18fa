import { dividedByZero, refuse } from "../refusal";

/** A top that is combed again leaves least; common practice, no source. */
const LEAST_ROMAINE = 0.003;

/** Romaine is noil on top and noil; tear is top on noil. */
export function romaineOfTear(tear: number): number {
  return 1 / (tear + 1);
}

export function tearOfRomaine(romaine: number): number {
  if (romaine === 0) dividedByZero("romaine", "0", "without noil there is no tear");
  if (romaine < LEAST_ROMAINE) {
    const meant = Number((romaine * 100).toPrecision(12));
    refuse(
      "romaine",
      String(romaine),
      `less noil than combs leave; write ${Number((meant * 100).toPrecision(12))}% or ${meant}`,
    );
  }
  return (1 - romaine) / romaine;
}
