import { readFileSync } from "node:fs";
import { compileFunction } from "node:vm";
import { customFunctionsRuntime, type Implementation, type Implementations } from "../../src/recalculate/bundle";

/** What the language leaves to the runtime: the last digit is another in the next one. */
const INEXACT = ["pow", "exp", "log", "log10", "log2", "cbrt", "sin", "cos", "tan", "atan", "atan2", "asin", "acos", "hypot"] as const; // prettier-ignore

/** The built bundle in a runtime whose functions are off by a last digit, up, down or not at all, as the value has it. */
export function bundleInAnotherRuntime(): Implementations {
  const functions = new Map<string, Implementation>();
  const code = compileFunction(readFileSync("dist/functions.js", "utf8"), ["CustomFunctions", "Math"]);
  (code as (given: object, math: object) => void)(customFunctionsRuntime(functions), anotherMath());
  return functions;
}

function anotherMath(): object {
  const names = Object.getOwnPropertyNames(Math) as (keyof typeof Math)[];
  const own: Record<string, unknown> = Object.fromEntries(names.map((name) => [name, Math[name]]));
  for (const name of INEXACT) {
    const exact: (...values: number[]) => number = Math[name];
    own[name] = (...values: number[]) => aside(exact(...values));
  }
  return own;
}

const bits = new BigInt64Array(1);
const double = new Float64Array(bits.buffer);

/** The double beside, above or below, or the same one; whole numbers are known to all. */
function aside(value: number): number {
  if (!Number.isFinite(value) || Number.isInteger(value)) return value;
  double[0] = value;
  const own = bits[0]!;
  bits[0] = own + ((own ^ (own >> 17n)) % 3n === 0n ? 0n : own % 2n === 0n ? 1n : -1n);
  return double[0];
}
