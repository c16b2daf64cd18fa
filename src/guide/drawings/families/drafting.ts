import { figure, line, rectangle, text, type Drawing } from "../svg";
import type { Work } from "../../work";

const PASSAGES: readonly (readonly [name: string, doublings: number, draft: number])[] = [
  ["first gill", 8, 8],
  ["second gill", 8, 10],
  ["third gill", 6, 9],
  ["roving", 1, 12],
];
const ROW = 58;

/** Slivers go in together and come out drawn: the bar on the right is as thick as what comes out. */
export function draftingDrawing({ table }: Work): Drawing {
  const plan = PASSAGES.map(([, doublings, draft]) => `${doublings},${draft}`).join(";");
  const rows = table(`=YARN.DRAFTPLAN(20,"ktex",{${plan}})`).slice(1);
  const body = rows.flatMap((row, place) => {
    const [, into, doublings, draft, out] = row.map(Number) as [number, number, number, number, number];
    const top = place * ROW;
    const ends = Array.from({ length: doublings }, (_, end) => {
      const y = top + 22 + ((end + 0.5) * 26) / doublings;
      return line(
        [
          [0, y],
          [70, y],
          [110, top + 35],
        ],
        "thread first thin",
      );
    });
    return [
      text(0, top + 14, PASSAGES[place]?.[0] ?? ""),
      text(360, top + 14, `${doublings} × ${figure(into)} ktex, draft ${draft}`, "end", "soft"),
      ...ends,
      rectangle(110, top + 35 - out / 2, 150, Math.max(out, 1), "first"),
      text(360, top + 40, `${figure(out)} ktex`, "end"),
    ];
  });
  const last = rows[rows.length - 1] ?? [];
  const [doubled, drafted] = [Number(last[5]), Number(last[6])];
  return {
    title: "Doublings and draft, from sliver to roving",
    says: `Slivers of 20 ktex through ${rows.length} passages: ${rows.map((row, place) => `${PASSAGES[place]?.[0]} gives ${figure(Number(row[4]))} ktex`).join(", ")}. ${figure(doubled)} slivers lie in the roving, and the draft is ${figure(drafted)} in all.`,
    height: rows.length * ROW,
    body: body.join(""),
  };
}
