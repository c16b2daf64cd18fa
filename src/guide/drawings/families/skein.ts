import { dot, figure, line, text, WIDTH, type Drawing } from "../svg";
import type { Work } from "../../work";
import { textOf } from "../../page/written";

const MASSES = [101.2, 99.1, 103, 100.4, 98.2, 96.1, 101.8, 100.9];
const [NOMINAL, LEAST, MOST] = [100, 89, 105];

/** Packs on the scale of what the average system allows. */
export function skeinDrawing({ number, table }: Work): Drawing {
  const allowed = number(`=YARN.SHORTFALL(${NOMINAL})`);
  const [, row = []] = table(`=YARN.NETCHECK({${MASSES.join(";")}},${NOMINAL})`);
  const x = (mass: number) => ((mass - LEAST) / (MOST - LEAST)) * WIDTH;
  const marks: [number, string][] = [
    [NOMINAL, `${NOMINAL} g`],
    [NOMINAL - allowed, `less T: ${figure(NOMINAL - allowed)}`],
    [NOMINAL - 2 * allowed, `less 2 T: ${figure(NOMINAL - 2 * allowed)}`],
  ];
  const body = marks.map(
    ([mass, name], place) =>
      line(
        [
          [x(mass), 8 + 20 * place],
          [x(mass), 112],
        ],
        "rule",
      ) + text(x(mass) + 5, 20 + 20 * place, name, "start", "soft"),
  );
  const dots = MASSES.map((mass) => dot(x(mass), 92, mass < NOMINAL - allowed ? "second" : "first"));
  const below = Number(row[3]);
  return {
    title: "Packs against the average system",
    says: `${MASSES.length} packs of nominal ${NOMINAL} g on one scale, with the nominal mass, the nominal less T of ${figure(allowed)} g and less 2 T: the mean is ${figure(Number(row[1]))} g, ${below} lie below less T, ${Number(row[5])} below less 2 T. The verdict of the three packers' rules: ${textOf(row[6])}.`,
    height: 140,
    body: [
      ...body,
      ...dots,
      text(0, 134, `mean ${figure(Number(row[1]))} g, ${below} below less T: ${textOf(row[6])}`),
    ].join(""),
  };
}
