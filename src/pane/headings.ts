import type { FunctionFacts } from "../guide/page/function-facts";

/** A heading for what a formula gives: what it is, and the unit where an argument names it. */
export function proposedHeading(
  { returns, parameters }: Pick<FunctionFacts, "returns" | "parameters">,
  filled: readonly string[],
): string {
  const [thing = ""] = returns.split(/[,;.(]| in | as | for | of each /);
  const place = parameters.findIndex(({ name, words }) => words !== undefined && /^to$|^unit$|_unit$|^to_/.test(name));
  const unit = (filled[place] ?? "").replace(/^"|"$/g, "").trim();
  return unit === "" || /[!:[\]#(]|^[A-Z]{1,3}\d+$/.test(unit) ? thing.trim() : `${thing.trim()}, ${unit}`;
}
