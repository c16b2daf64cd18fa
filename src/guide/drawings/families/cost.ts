import { quantities, steps } from "../steps";
import { figure, type Drawing } from "../svg";
import type { Work } from "../../work";

const BREAKS = [0, 50, 100];
const RATES = [8, 6.5, 5];

export function costDrawing({ table }: Work): Drawing {
  const asked = quantities(BREAKS);
  const charged = (mode: string) =>
    table(`=YARN.TIERED({${asked.join(";")}},{${BREAKS.join(";")}},{${RATES.join(";")}},"${mode}")`).map(
      ([cost], place) => [asked[place] as number, Number(cost)] as const,
    );
  const at = (mode: string) =>
    table(`=YARN.TIERED(49,{${BREAKS.join(";")}},{${RATES.join(";")}},"${mode}")`).map(([cost]) => Number(cost))[0] ??
    0;
  return {
    title: "Price breaks, read in three ways",
    says: `A rate of ${RATES[0]}, ${RATES[1]} from ${BREAKS[1]} on and ${RATES[2]} from ${BREAKS[2]} on. 49 units cost ${figure(at("all units"))} when the rate holds for all units, ${figure(at("incremental"))} when it holds from the break on, ${figure(at("next break"))} when they may be billed as the next break.`,
    ...steps(
      [
        { name: "all units at the rate reached", colour: "first", points: charged("all units") },
        { name: "the rate only from the break on", colour: "second", points: charged("incremental") },
        { name: "billed as the next break if cheaper", colour: "third", points: charged("next break") },
      ],
      BREAKS,
    ),
  };
}
