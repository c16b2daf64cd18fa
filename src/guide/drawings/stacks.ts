import { rectangle, text, WIDTH, type Fill } from "./svg";

export interface Stack {
  readonly name: string;
  readonly said: string;
  readonly parts: readonly { readonly size: number; readonly colour: Fill }[];
}

const ROW = 46;

/** Bars of parts that add up, all on one scale, with what the colours mean under them. */
export function stacks(
  rows: readonly Stack[],
  meanings: readonly (readonly [colour: Fill, meaning: string])[],
): { height: number; body: string } {
  const whole = Math.max(...rows.map(({ parts }) => parts.reduce((sum, { size }) => sum + size, 0)));
  const body = rows.map(({ name, said, parts }, place) => {
    const y = place * ROW;
    let from = 0;
    const pieces = parts.map(({ size, colour }) => {
      const width = (size / whole) * WIDTH;
      const piece = rectangle(from, y + 21, Math.max(width - 1, 0.5), 16, colour);
      from += width;
      return piece;
    });
    return text(0, y + 15, name) + text(WIDTH, y + 15, said, "end", "soft") + pieces.join("");
  });
  const under = rows.length * ROW + 4;
  const named = meanings.map(
    ([colour, meaning], place) =>
      rectangle(0, under + place * 20 + 2, 12, 12, colour) + text(20, under + place * 20 + 13, meaning),
  );
  return { height: under + meanings.length * 20, body: body.join("") + named.join("") };
}
