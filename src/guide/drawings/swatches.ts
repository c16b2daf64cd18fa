import { rectangle, text, WIDTH } from "./svg";

export interface Swatch {
  readonly name: string;
  readonly said: string;
  /** "#RRGGBB" */
  readonly colour: string;
}

/** Squares of colour in rows of at most four, each with its name and a word under it. */
export function swatches(all: readonly Swatch[], across = Math.min(4, all.length)): { height: number; body: string } {
  const [gap, row] = [8, 96];
  const wide = (WIDTH - gap * (across - 1)) / across;
  const body = all.map(({ name, said, colour }, place) => {
    const [x, y] = [(place % across) * (wide + gap), Math.floor(place / across) * row];
    return [
      rectangle(x, y, wide, 50, `#${colour.replace(/[^0-9A-F]/gi, "")}`),
      text(x, y + 67, name),
      text(x, y + 84, said, "start", "soft"),
    ].join("");
  });
  return { height: Math.ceil(all.length / across) * row, body: body.join("") };
}
