import { stacks } from "../stacks";
import { figure, type Colour, type Drawing } from "../svg";
import type { Work } from "../../work";

const SOLIDS: readonly (readonly [name: string, colour: Colour])[] = [
  ["red", "second"],
  ["grey", "fourth"],
  ["cream", "quiet"],
];
const WAYS: readonly (readonly [name: string, kg: number, shares: readonly number[]])[] = [
  ["Moor", 100, [0.6, 0.4, 0]],
  ["Heath", 40, [0.25, 0.25, 0.5]],
];

/** Colourways as sums of solids, and what is to be dyed of each solid for all of them. */
export function blendDrawing({ table }: Work): Drawing {
  const recipes = WAYS.map(([, , shares]) => shares.join(",")).join(";");
  const need = (table(`=YARN.MIXNEED({${recipes}},{${WAYS.map(([, kg]) => kg).join(";")}},{0.05})`)[0] ?? []).map(
    Number,
  );
  const rows = WAYS.map(([name, kg, shares]) => ({
    name,
    said: `${kg} kg`,
    parts: shares.map((share, place) => ({ size: share * kg, colour: SOLIDS[place]?.[1] ?? "quiet" })),
  }));
  const all = need.reduce((sum, kg) => sum + kg, 0);
  return {
    title: "Two colourways, and the solids to dye for both",
    says: `${WAYS.map(([name, kg, shares]) => `${name}, ${kg} kg: ${shares.map((share, place) => `${figure(share * 100)} % ${SOLIDS[place]?.[0]}`).join(", ")}`).join(". ")}. With 5 % lost after blending, ${need.map((kg, place) => `${figure(kg)} kg of ${SOLIDS[place]?.[0]}`).join(", ")} are to be dyed.`,
    ...stacks(
      [
        ...rows,
        {
          name: "to dye, 5 % lost after",
          said: `${figure(all)} kg`,
          parts: need.map((size, place) => ({ size, colour: SOLIDS[place]?.[1] ?? "quiet" })),
        },
      ],
      SOLIDS.map(([name, colour], place) => [colour, `${name}, ${figure(need[place] ?? 0)} kg to dye`] as const),
    ),
  };
}
