import { bars } from "../bars";
import { figure, type Drawing } from "../svg";
import type { Work } from "../../work";
import { textOf } from "../../page/written";

const EXPECTED = 17.75;

export function controlDrawing({ table }: Work): Drawing {
  const rows = table(
    '=YARN.SWING({"price of wool";"yield";"spinning rate";"exchange rate"},{16.6;19.1;17.3;17.5},{18.9;16.6;18.2;18})',
  )
    .slice(1)
    .map(([name, low, high, swing]) => ({
      name: textOf(name),
      low: Number(low),
      high: Number(high),
      swing: Number(swing),
    }));
  return {
    title: "Which input moves the cost most",
    says: `Cost of a kilogram, ${EXPECTED} expected, the widest first: ${rows.map(({ name, low, high, swing }) => `${name} from ${low} to ${high}, a swing of ${figure(swing)}`).join("; ")}.`,
    ...bars(
      rows.map(({ name, low, high }) => ({ name, from: low, to: high, said: `${low} to ${high}` })),
      EXPECTED,
    ),
  };
}
