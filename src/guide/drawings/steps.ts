import { figure, line, text, WIDTH, type Colour } from "./svg";

export interface Charged {
  readonly name: string;
  readonly colour: Colour;
  /** What a quantity costs. */
  readonly points: readonly (readonly [quantity: number, cost: number])[];
}

const [LEFT, TOP, BOTTOM] = [4, 24, 190];

/** What quantities cost, as lines that jump at the breaks. */
export function steps(
  lines: readonly Charged[],
  breaks: readonly number[],
  unit = "",
): { height: number; body: string } {
  const all = lines.flatMap(({ points }) => points);
  const [farthest, dearest] = [Math.max(...all.map(([x]) => x)), Math.max(...all.map(([, y]) => y), 1e-9)];
  const x = (quantity: number) => LEFT + (quantity / farthest) * (WIDTH - 2 * LEFT);
  const y = (cost: number) => BOTTOM - (cost / dearest) * (BOTTOM - TOP);
  const marks = breaks
    .filter((quantity) => quantity > 0 && quantity < farthest)
    .map(
      (quantity) =>
        line(
          [
            [x(quantity), TOP],
            [x(quantity), BOTTOM],
          ],
          "rule thin",
        ) + text(x(quantity), BOTTOM + 17, figure(quantity), "middle", "soft"),
    );
  const named = lines.map(
    ({ name, colour }, place) =>
      line(
        [
          [0, BOTTOM + 32 + place * 20],
          [22, BOTTOM + 32 + place * 20],
        ],
        `thread ${colour}`,
      ) + text(30, BOTTOM + 37 + place * 20, name),
  );
  const body = [
    text(0, 14, `cost, up to ${figure(dearest)}`, "start", "soft"),
    ...marks,
    line(
      [
        [LEFT, BOTTOM],
        [WIDTH - LEFT, BOTTOM],
      ],
      "rule",
    ),
    ...lines.map(({ points, colour }) =>
      line(
        points.map(([quantity, cost]) => [x(quantity), y(cost)] as const),
        `thread ${colour}`,
      ),
    ),
    text(WIDTH, BOTTOM + 17, `${figure(farthest)}${unit}`, "end", "soft"),
    ...named,
  ];
  return { height: BOTTOM + 24 + lines.length * 20, body: body.join("") };
}

/** Quantities from nothing on, close enough that a jump looks like one. */
export function quantities(breaks: readonly number[]): number[] {
  const farthest = Math.max(...breaks, 1) * 1.3;
  const between = Array.from({ length: 52 }, (_, place) => (farthest * place) / 51);
  const beside = breaks.filter((own) => own > 0).flatMap((own) => [own * (1 - 1e-6), own]);
  return [...between, ...beside].sort((a, b) => a - b);
}
