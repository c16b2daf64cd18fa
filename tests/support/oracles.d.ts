/** The parts of the packages without types that the tests compare with. */
declare module "culori" {
  interface Lab {
    mode: "lab" | "lab65";
    l: number;
    a: number;
    b: number;
  }
  interface Rgb {
    mode: "rgb";
    r: number;
    g: number;
    b: number;
  }
  type Difference = (standard: Lab, sample: Lab) => number;
  export function differenceCiede2000(lightness?: number, chroma?: number, hue?: number): Difference;
  export function differenceCmc(lightness?: number, chroma?: number): Difference;
  export function differenceCie94(lightness?: number, k1?: number, k2?: number): Difference;
  export function differenceCie76(): Difference;
  export function converter(mode: "lab65"): (colour: Rgb) => Lab;
  /** A colour as an eye sees it that lacks one kind of cones, by the given share. */
  export function filterDeficiencyProt(severity: number): (colour: Rgb) => Rgb;
  export function filterDeficiencyDeuter(severity: number): (colour: Rgb) => Rgb;
  export function filterDeficiencyTrit(severity: number): (colour: Rgb) => Rgb;
}

declare module "quadprog" {
  /** Indices start from 1, as in Fortran. */
  export function solveQP(
    matrix: number[][],
    linear: number[],
    constraints: number[][],
    bounds: number[],
    equalities: number,
  ): { solution: number[]; message: string };
}
