import { bars } from "../bars";
import { percent, type Drawing } from "../svg";
import type { Work } from "../../work";

const KINDS = ["clean fibre", "scoured 16", "scoured 17"];

/** One core test, and what each yield makes of it. */
export function woolDrawing({ number }: Work): Drawing {
  const [base, vegetable] = [0.6, 0.01];
  const rows = KINDS.map((kind) => ({ kind, share: number(`=YARN.WOOLYIELD("${kind}",${base},${vegetable})`) }));
  return {
    title: "From the core test to the yields it stands for",
    says: `A core test of ${percent(base)} wool base and ${percent(vegetable)} vegetable matter. ${rows.map(({ kind, share }) => `Yield ${kind}: ${percent(share)}`).join(". ")}. The bars reach from nothing to the greasy mass.`,
    ...bars([
      { name: "wool base, on the certificate", from: 0, to: base, said: percent(base), colour: "second", on: 1 },
      ...rows.map(({ kind, share }) => ({ name: `yield, ${kind}`, from: 0, to: share, said: percent(share), on: 1 })),
    ]),
  };
}
