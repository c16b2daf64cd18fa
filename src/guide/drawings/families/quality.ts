import { dot, figure, line, rectangle, text, WIDTH, type Drawing } from "../svg";
import type { Work } from "../../work";
import { textOf } from "../../page/written";

const TESTS = [28.1, 27.6, 28.9, 28.4, 27.9, 28.3];
const [ORDERED, LEAST, MOST] = [28, 26.6, 29.4];
const TOLERANCES = [0.03, 0.015];
const ROW = 88;

/** The same six tests against a wide and a narrow tolerance. */
export function qualityDrawing({ table }: Work): Drawing {
  const x = (value: number) => ((value - LEAST) / (MOST - LEAST)) * WIDTH;
  const rows = TOLERANCES.map((tolerance) => {
    const [, row = []] = table(`=YARN.ORDERCHECK({${TESTS.join(";")}},${ORDERED},${tolerance})`);
    return { tolerance, mean: Number(row[1]), low: Number(row[4]), high: Number(row[5]), verdict: textOf(row[6]) };
  });
  const body = rows.map(({ tolerance, mean, low, high, verdict }, place) => {
    const top = place * ROW;
    const [from, to] = [x(ORDERED * (1 - tolerance)), x(ORDERED * (1 + tolerance))];
    return [
      text(0, top + 15, `Nm ${ORDERED} ± ${figure(tolerance * 100)} %`),
      text(0, top + 34, verdict, "start", "soft"),
      rectangle(from, top + 42, to - from, 34, "quiet"),
      line(
        [
          [x(low), top + 66],
          [x(high), top + 66],
        ],
        "thread second",
      ),
      ...TESTS.map((test) => dot(x(test), top + 52, "first")),
      dot(x(mean), top + 66, "second"),
    ].join("");
  });
  return {
    title: "Six tests, their mean and its range, against the order",
    says: `Six tests of an ordered Nm ${ORDERED}. ${rows.map(({ tolerance, low, high, verdict }) => `With a tolerance of ${figure(tolerance * 100)} % the verdict is: ${verdict}. The mean lies between ${figure(low)} and ${figure(high)}`).join(". ")}. A band shows what is allowed, points the tests, a line the range of the mean.`,
    height: rows.length * ROW,
    body: body.join(""),
  };
}
