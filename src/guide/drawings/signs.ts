import { line, rectangle, shape } from "./svg";

const SIZE = 48;

const wave = (side: number): [number, number][] =>
  Array.from({ length: 25 }, (_, place) => [2 * place, 24 + side * 9 * Math.cos((place * Math.PI) / 6)]);

/** A small sign for each step of the job. They show no figures. */
const SIGNS: Readonly<Record<string, string>> = {
  thicknesses: rectangle(2, 6, 44, 14, "first") + rectangle(2, 26, 44, 8, "first") + rectangle(2, 40, 44, 3, "first"),
  strands: line(wave(1), "thread first heavy") + line(wave(-1), "thread second heavy"),
  drafts: [8, 16, 24, 32, 40]
    .map((y) =>
      line(
        [
          [2, y],
          [20, y],
          [34, 24],
          [46, 24],
        ],
        "thread first",
      ),
    )
    .join(""),
  bale:
    rectangle(4, 10, 40, 30, "fourth") +
    line(
      [
        [16, 10],
        [16, 40],
      ],
      "rule",
    ) +
    line(
      [
        [32, 10],
        [32, 40],
      ],
      "rule",
    ),
  stream:
    shape(
      [
        [4, 4],
        [44, 4],
        [34, 24],
        [4, 24],
      ],
      "first",
    ) +
    shape(
      [
        [4, 26],
        [33, 26],
        [22, 46],
        [4, 46],
      ],
      "first",
    ),
  shades: rectangle(2, 12, 13, 24, "first") + rectangle(18, 12, 13, 24, "second") + rectangle(34, 12, 12, 24, "fourth"),
  layers: (["first", "fourth", "second", "first", "fourth"] as const)
    .map((colour, place) => rectangle(4, 6 + place * 8, 40, 7, colour))
    .join(""),
  days: rectangle(4, 8, 16, 8, "first") + rectangle(20, 20, 14, 8, "first") + rectangle(34, 32, 10, 8, "second"),
  skein: [0, 1, 2, 3]
    .map((place) =>
      line(
        Array.from({ length: 33 }, (_, step): [number, number] => {
          const turn = (step * Math.PI) / 16;
          return [24 + (20 - place * 2.4) * Math.cos(turn), 24 + (14 - place * 2.4) * Math.sin(turn)];
        }),
        "thread first",
      ),
    )
    .join(""),
  pile:
    rectangle(4, 34, 40, 10, "first") +
    rectangle(4, 24, 32, 9, "fourth") +
    rectangle(4, 15, 24, 8, "second") +
    rectangle(4, 8, 16, 6, "third"),
};

export function sign(name: string): string {
  const drawn = SIGNS[name];
  if (drawn === undefined) throw new Error(`no sign is called ${name}`);
  return `<svg class="sign" viewBox="0 0 ${SIZE} ${SIZE}" aria-hidden="true" focusable="false">${drawn}</svg>`;
}
