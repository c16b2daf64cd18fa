/** The parts of the packages without types that the benchmark calls. */
declare module "convert-units" {
  export default function convert(value: number): { from(unit: string): { to(unit: string): number } };
}

declare module "js-quantities" {
  export default function Qty(value: number, unit: string): { to(unit: string): { scalar: number } };
}
