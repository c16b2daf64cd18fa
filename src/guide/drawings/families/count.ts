import { figure, rectangle, text, type Drawing } from "../svg";
import type { Work } from "../../work";

const TEX = [500, 250, 100, 50, 25];
const SYSTEMS = ["Nm", "NeW", "NeC"] as const;
/** Of the drawing, for a millimetre of yarn. */
const SCALE = 26;

/** One yarn a row, as thick as it is to the others, with its count in four systems. */
export function countDrawing({ number }: Work): Drawing {
  const rows = TEX.map((tex) => ({
    tex,
    diameter: number(`=YARN.DIAMETER(${tex},"tex")`),
    counts: SYSTEMS.map((system) => number(`=YARN.COUNT(${tex},"tex","${system}")`)),
  }));
  const columns = [170, 232, 298, 360];
  const heads = ["tex", ...SYSTEMS].map((word, place) => text(columns[place] as number, 14, word, "end", "soft"));
  const body = rows.flatMap(({ tex, diameter, counts }, place) => {
    const middle = 40 + place * 34;
    const thick = diameter * SCALE;
    return [
      rectangle(0, middle - thick / 2, 120, thick, "first"),
      ...[tex, ...counts].map((count, column) => text(columns[column] as number, middle + 5, figure(count), "end")),
    ];
  });
  const said = rows.map(
    ({ tex, counts: [nm = 0, worsted = 0] }) => `${tex} tex is Nm ${figure(nm)} and worsted ${figure(worsted)}`,
  );
  return {
    title: "One yarn in four count systems, drawn as thick as it is",
    says: `Five yarns drawn to one scale: ${said.join("; ")}. Tex rises with the thickness, the other numbers fall.`,
    height: 40 + TEX.length * 34 - 10,
    body: heads.join("") + body.join(""),
  };
}
