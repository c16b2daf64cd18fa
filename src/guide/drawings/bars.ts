import { line, rectangle, text, WIDTH, type Colour } from "./svg";

/** A bar lies from one figure to another, under its name and beside what is said of it. */
export interface Bar {
  readonly name: string;
  readonly from: number;
  readonly to: number;
  readonly said: string;
  readonly colour?: Colour;
  /** A paler end after the bar, up to this figure. */
  readonly on?: number;
}

const ROW = 40;

/** Bars under each other on one scale, and a rule through all of them where there is a middle. */
export function bars(rows: readonly Bar[], middle?: number): { height: number; body: string } {
  const ends = rows.flatMap(({ from, to, on }) => [from, to, on ?? to]);
  const [least, most] = [Math.min(...ends), Math.max(...ends)];
  const x = (value: number) => (most === least ? 0 : ((value - least) / (most - least)) * WIDTH);
  const body = rows.map(({ name, from, to, said, colour = "first", on }, place) => {
    const y = place * ROW;
    const [left, right] = [x(Math.min(from, to)), x(Math.max(from, to))];
    return [
      text(0, y + 15, name),
      text(WIDTH, y + 15, said, "end", "soft"),
      on === undefined ? "" : rectangle(right, y + 20, x(on) - right, 12, "quiet"),
      rectangle(left, y + 20, Math.max(right - left, 1.5), 12, colour),
    ].join("");
  });
  const height = rows.length * ROW;
  if (middle !== undefined)
    body.push(
      ...rows.map((_, place) =>
        line(
          [
            [x(middle), place * ROW + 18],
            [x(middle), place * ROW + 34],
          ],
          "rule",
        ),
      ),
    );
  return { height, body: body.join("") };
}
