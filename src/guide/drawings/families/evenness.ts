import { dot, figure, line, percent, text, WIDTH, type Drawing } from "../svg";
import type { Work } from "../../work";

const MARKED = [35, 64, 150];
const [FEWEST, MOST, TOP, BOTTOM] = [20, 200, 24, 180];

/** The fewer fibres in the cross-section, the less even the best yarn can be. */
export function evennessDrawing({ number }: Work): Drawing {
  const limit = (fibres: number) => number(`=YARN.LIMITCV(${fibres},25%)`);
  const most = limit(FEWEST);
  const x = (fibres: number) => ((fibres - FEWEST) / (MOST - FEWEST)) * WIDTH;
  const y = (cv: number) => BOTTOM - (cv / most) * (BOTTOM - TOP);
  const curve = Array.from({ length: 61 }, (_, place): [number, number] => {
    const fibres = FEWEST + ((MOST - FEWEST) * place) / 60;
    return [x(fibres), y(limit(fibres))];
  });
  const marks = MARKED.map((fibres) => {
    const [across, up] = [x(fibres), y(limit(fibres))];
    const said = `${fibres} fibres: ${percent(limit(fibres))}`;
    const beside = across > WIDTH / 2 ? text(WIDTH, up - 10, said, "end") : text(across + 8, up - 8, said);
    return dot(across, up, "second") + beside;
  });
  return {
    title: "The most even yarn that a number of fibres allows",
    says: `Limit of the CV of mass for wool: ${MARKED.map((fibres) => `${percent(limit(fibres))} with ${fibres} fibres in the cross-section`).join(", ")}. Four times the fibres halve it.`,
    height: BOTTOM + 24,
    body: [
      text(0, 14, "CV", "start", "soft"),
      line(
        [
          [0, BOTTOM],
          [WIDTH, BOTTOM],
        ],
        "rule",
      ),
      line(curve, "thread first"),
      ...marks,
      text(0, BOTTOM + 18, figure(FEWEST), "start", "soft"),
      text(WIDTH, BOTTOM + 18, `${figure(MOST)} fibres`, "end", "soft"),
    ].join(""),
  };
}
