import { bars } from "../bars";
import { figure, type Drawing } from "../svg";
import type { Work } from "../../work";
import { textOf } from "../../page/written";

/** What one skein costs when it has landed, taken apart: each charge stands on those before it. */
export function landedDrawing({ table, number }: Work): Drawing {
  const duty = number(`=YARN.DUTY(2400,0,6%)`);
  const rows = table(
    `=YARN.LANDED({"name","value","mass","quantity";"yarn",2400,60,600},{"name","amount","basis";"freight",210,"mass";"insurance",14.4,"value";"duty",${duty},"value";"broker",75,"equal"})`,
  );
  const [head = [], first = []] = rows;
  const quantity = Number(first[head.length - 2]);
  const each = Number(first[head.length - 1]);
  let so = 0;
  const parts = head.slice(1, -3).map((name, place) => {
    const from = so;
    so += Number(first[place + 1]) / quantity;
    return { name: place === 0 ? "yarn, ex mill" : (textOf(name).split(" by ")[0] ?? ""), from, to: so };
  });
  return {
    title: "One skein landed, taken apart",
    says: `${parts.map(({ name, from, to }) => `${name} ${(to - from).toFixed(2)}`).join(", ")}: ${each.toFixed(2)} a skein, of ${figure(quantity)} skeins.`,
    ...bars([
      ...parts.map((part) => ({ ...part, said: (part.to - part.from).toFixed(2) })),
      { name: "landed, a skein", from: 0, to: each, said: each.toFixed(2), colour: "second" },
    ]),
  };
}
