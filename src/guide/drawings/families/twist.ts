import { figure, line, text, WIDTH, type Drawing } from "../svg";
import type { Work } from "../../work";

const COUNT = '"tpm",31.25,"tex",1.25';
const SINGLES = [250, 500];
const THICK = 34;

/** The angle at which fibres lie, and what plying leaves of the twist in the singles. */
export function twistDrawing({ number }: Work): Drawing {
  const angles = SINGLES.map((turns) => number(`=YARN.TWISTANGLE(${turns},${COUNT})`));
  const ply = number(`=YARN.PLYTWIST(500,2,"two-thirds")`);
  const left = number(`=YARN.RESIDUALTWIST(500,${ply})`);
  const yarns = SINGLES.map((turns, place) => {
    const top = 22 + place * 72;
    return (
      text(0, top - 7, `single, ${turns} turns/m Z`) +
      text(WIDTH, top - 7, `${figure(angles[place] as number)}°`, "end", "soft") +
      strokes(top, angles[place] as number)
    );
  });
  const top = 22 + SINGLES.length * 72;
  const said = `plied ${figure(ply)} turns/m S; ${figure(left)} left in the singles`;
  return {
    title: "Twist angle of a single, and what plying leaves",
    says: `A single of 31.25 tex: at ${SINGLES[0]} turns a metre its outside fibres lie at ${figure(angles[0] as number)} degrees to the axis, at ${SINGLES[1]} at ${figure(angles[1] as number)}. Two singles of ${SINGLES[1]} turns Z, plied with two thirds of that the other way (${figure(ply)} turns), keep ${figure(left)}.`,
    height: top + 50,
    body: yarns.join("") + text(0, top - 7, said) + strands(top, ply),
  };
}

/** A yarn seen from the side, with lines at the angle. */
function strokes(top: number, angle: number): string {
  const along = THICK / Math.tan((angle * Math.PI) / 180);
  const lines: string[] = [];
  for (let from = -along; from < WIDTH; from += 12) {
    const [left, right] = [Math.max(from, 0), Math.min(from + along, WIDTH)];
    const height = (x: number): [number, number] => [x, top + THICK - ((x - from) / along) * THICK];
    lines.push(line([height(left), height(right)], "thread first thin"));
  }
  const edge = (y: number) =>
    line(
      [
        [0, y],
        [WIDTH, y],
      ],
      "rule",
    );
  return edge(top) + edge(top + THICK) + lines.join("");
}

/** Two strands around each other; the drawing is 12 mm long. */
function strands(top: number, turns: number): string {
  const turn = WIDTH / ((12 / 1000) * turns);
  const points = (side: number) =>
    Array.from({ length: 91 }, (_, place): [number, number] => {
      const x = (WIDTH * place) / 90;
      return [x, top + 20 + side * 11 * Math.cos((2 * Math.PI * x) / turn)];
    });
  return line(points(1), "thread first wide") + line(points(-1), "thread second wide");
}
