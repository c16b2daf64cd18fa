import { figure, rectangle, shape, text, WIDTH } from "./svg";

/** One stage of a route: what goes in, what comes out, and what is said of it. */
export interface Stage {
  readonly name: string;
  readonly into: number;
  readonly out: number;
  readonly said: string;
}

const [LEFT, WIDEST, ROW] = [4, 120, 66];

/** The mass of a route as a stream from above: as wide as the mass, narrower after every stage. */
export function flow(stages: readonly Stage[]): { height: number; body: string } {
  const most = Math.max(...stages.flatMap(({ into, out }) => [into, out]));
  const wide = (mass: number) => (mass / most) * WIDEST;
  const right = LEFT + WIDEST + 14;
  const body = stages.map(({ name, into, out, said }, place) => {
    const y = place * ROW + 22;
    return [
      rectangle(LEFT, y, wide(into), 12, "first"),
      shape(
        [
          [LEFT, y + 12],
          [LEFT + wide(into), y + 12],
          [LEFT + wide(out), y + ROW],
          [LEFT, y + ROW],
        ],
        "quiet",
      ),
      text(right, y + 12, name),
      text(right, y + 31, said, "start", "soft"),
      text(WIDTH, y + 12, figure(into), "end"),
    ].join("");
  });
  const end = stages[stages.length - 1];
  const bottom = stages.length * ROW + 22;
  const heads = text(LEFT, 14, "mass", "start", "soft") + text(WIDTH, 14, "in", "end", "soft");
  const last =
    end === undefined
      ? ""
      : rectangle(LEFT, bottom, wide(end.out), 12, "second") +
        text(right, bottom + 12, "out") +
        text(WIDTH, bottom + 12, figure(end.out), "end");
  return { height: bottom + 18, body: heads + body.join("") + last };
}

/** The stages of a route as ROUTE tells them. */
export function routeStages(rows: readonly (readonly unknown[])[]): Stage[] {
  return rows.slice(1).map((row) => {
    const [byProduct, loss] = [Number(row[3]), Number(row[4])];
    const leaves = [
      byProduct > 0 ? `by-product ${figure(byProduct)}` : "",
      loss > 0 ? `loss ${figure(loss)}` : loss < 0 ? `gain ${figure(-loss)}` : "",
    ].filter((word) => word !== "");
    const said = leaves.length === 0 ? "nothing leaves" : `${leaves.join(", ")}, dry`;
    return { name: String(row[0]), into: Number(row[1]), out: Number(row[7]), said };
  });
}
