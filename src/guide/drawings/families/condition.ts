import { stacks } from "../stacks";
import { figure, percent, type Drawing } from "../svg";
import type { Work } from "../../work";

/** What was weighed and what may be invoiced hold the same dry wool and not the same water. */
export function conditionDrawing({ number }: Work): Drawing {
  const regain = number(`=YARN.MEASUREDREGAIN(500,438.6)`);
  const dry = number(`=YARN.DRYMASS(1000,${regain})`);
  const invoiced = number(`=YARN.INVOICEMASS(1000,500,438.6,17%)`);
  const parts = (mass: number) => [
    { size: dry, colour: "first" as const },
    { size: mass - dry, colour: "third" as const },
  ];
  return {
    title: "Regain, and what is invoiced",
    says: `1,000 kg as weighed hold ${figure(dry)} kg of dry wool, a regain of ${percent(regain)}. At the standard regain of 17 % the same wool is invoiced as ${figure(invoiced)} kg.`,
    ...stacks(
      [
        { name: `as weighed, regain ${percent(regain)}`, said: "1,000 kg", parts: parts(1000) },
        { name: "invoiced, regain 17 %", said: `${figure(invoiced)} kg`, parts: parts(invoiced) },
      ],
      [
        ["first", `dry wool, ${figure(dry)} kg in both`],
        ["third", "water"],
      ],
    ),
  };
}
