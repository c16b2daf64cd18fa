import { describe, expect, test } from "vitest";
import { documentedFunctions } from "../../src/documentation/docblocks.mjs";
import { bars } from "../../src/guide/drawings/bars";
import { FAMILY_DRAWINGS } from "../../src/guide/drawings/families";
import { flow } from "../../src/guide/drawings/flow";
import { quantities, steps } from "../../src/guide/drawings/steps";
import { figure, shown } from "../../src/guide/drawings/svg";
import { evaluate } from "../../src/guide/page/evaluate";
import { pictureOf } from "../../src/guide/page/pictures";
import { workOf } from "../../src/guide/work";
import { bundledFunctions } from "../support/functions";

const functions = bundledFunctions() as unknown as Parameters<typeof workOf>[0];
const work = workOf(functions);
const numbersOf = (text: string, attribute: string) =>
  [...text.matchAll(new RegExp(` ${attribute}="([-\\d.]+)"`, "g"))].map(([, number]) => Number(number));

describe("the drawing of a family says what its functions give", () => {
  /** Worked by hand beside each. */
  test.each([
    // 1,000 / 500 and 885.79 / 500: 45,359,237 g / (560 × 91.44 m × 1,000) a pound of worsted hanks in tex.
    ["count", "500 tex is Nm 2 and worsted 1.77"],
    // 500 × 2/3 = 333.3, and 166.7 stay.
    ["twist", "(333 turns), keep 167"],
    // 8 × 8 × 6 × 1 and 8 × 10 × 9 × 12.
    ["drafting", "384 slivers lie in the roving, and the draft is 8,640 in all"],
    // √(1 + 4 × 0.25²) / √150 = 0.0913.
    ["evenness", "9.13 % with 150 fibres"],
    // 31.25 tex × 8,000 × 60 × 0.9 / 400 / 1,000 = 33.75 g; 540,000 / 33.75 / 400 = 40.
    ["production", "40 hours on 400 spindles"],
    ["quality", "With a tolerance of 3 % the verdict is: holds"],
    // 61 % × 1.16 / 0.9773.
    ["wool", "Yield scoured 16: 72.4 %"],
    // 1,000 × 438.6 / 500 = 877.2; × 1.17 = 1,026.3.
    [
      "condition",
      "877 kg of dry wool, a regain of 14 %. At the standard regain of 17 % the same wool is invoiced as 1,026 kg",
    ],
    ["fineness", "staple of 70 mm gives"],
    // T of 100 g is 4.5 g; the eight packs weigh 800.7 g.
    ["skein", "less T of 4.5 g and less 2 T: the mean is 100 g, 0 lie below less T"],
    // 1,000 × 0.58 × 0.88 × 0.99 × 0.95 × 1.1825 = 567.6.
    ["route", "Yarn: 568."],
    // Five days from a Monday, three from the next, ten from there.
    ["schedule", "scour from day 1 to 5, none to spare"],
    // (60 + 10) / 0.95, (40 + 10) / 0.95, 20 / 0.95.
    ["blend", "73.7 kg of red, 52.6 kg of grey, 21.1 kg of cream"],
    // (85 + 30) / 2.
    ["shade", "averaging would give L* 57.5"],
    // 49 × 8; 50 × 6.5 is less.
    ["cost", "49 units cost 392 when the rate holds for all units, 392 when it holds from the break on, 325"],
    // (2,400 + 210 + 14.40 + 144 + 75) / 600.
    ["landed", "4.74 a skein, of 600 skeins"],
    // 19.1 - 16.6 and 18.9 - 16.6.
    ["control", "yield from 19.1 to 16.6, a swing of 2.5; price of wool from 16.6 to 18.9, a swing of 2.3"],
    ["library", "figures read in a text"],
  ])("%s", (family, words) => {
    const drawing = FAMILY_DRAWINGS[family]?.(work);
    expect(drawing?.says).toContain(words);
  });

  test("every family is among them", () => {
    const families = new Set(documentedFunctions().map(({ family }) => family));
    expect(Object.keys(FAMILY_DRAWINGS).sort()).toEqual([...families].sort());
  });
});

describe("kinds of drawing", () => {
  test("bars are as long as what they stand for", () => {
    const { body } = bars([20, 40, 80].map((to) => ({ name: "", from: 0, to, said: "" })));
    expect(numbersOf(body, "width")).toEqual([90, 180, 360]);
  });

  test("bars of nothing, and of one value only, are drawn without nonsense", () => {
    expect(bars([]).height).toBe(0);
    expect(bars([{ name: "all alike", from: 3, to: 3, said: "3" }]).body).not.toMatch(/NaN|Infinity/);
  });

  test("a stream is as wide as its mass and ends as wide as what comes out", () => {
    const { body } = flow([
      { name: "scour", into: 1000, out: 600, said: "" },
      { name: "spin", into: 600, out: 500, said: "" },
    ]);
    const widths = numbersOf(body, "width");
    expect(widths.map((width) => width / (widths[0] as number))).toEqual([1, 0.6, 0.5]);
  });

  test("steps jump at the break itself", () => {
    const asked = quantities([0, 50]);
    expect(asked.filter((quantity) => Math.abs(quantity - 50) < 0.01)).toHaveLength(2);
    expect(asked).toEqual([...asked].sort((a, b) => a - b));
    const line = asked.map((quantity) => [quantity, quantity * (quantity < 50 ? 8 : 6)] as const);
    expect(steps([{ name: "", colour: "first", points: line }], [0, 50]).body).not.toMatch(/NaN|Infinity/);
  });

  test.each([
    [0, "0"],
    [0.0312, "0.0312"],
    [12.345, "12.3"],
    [999.6, "1,000"],
    [1234567, "1,234,567"],
    [-1234.5, "-1,235"],
  ])("%d reads as %s", (value, said) => expect(figure(value)).toBe(said));
});

describe("the picture beside a result", () => {
  const examples = documentedFunctions().flatMap(({ examples: all }) => all.map(({ formula }) => formula));
  const pictures = examples.flatMap((formula) => {
    const picture = pictureOf(formula, evaluate(formula, functions), functions);
    return picture === undefined ? [] : [{ formula, drawn: shown(picture, "picture") }];
  });

  test("is drawn without nonsense for every example that has one", () => {
    expect(pictures.length).toBeGreaterThan(10);
    for (const { formula, drawn } of pictures) expect(drawn, formula).not.toMatch(/NaN|Infinity|undefined|\[object/);
  });

  test("is not drawn of an error, nor of another function", () => {
    for (const formula of ['=YARN.ROUTE(1000,{"scour",2,0},"made")', '=YARN.COUNT(10,"NeC","NeW")', "=1+", "=SUM(1,2)"])
      expect(pictureOf(formula, evaluate(formula, functions), functions), formula).toBeUndefined();
  });

  test("writes names as text, whatever they hold", () => {
    const formula = '=YARN.SWING({"<b>wool</b>";"yield"},{1;2},{3;5})';
    const picture = pictureOf(formula, evaluate(formula, functions), functions);
    expect(picture && shown(picture, "p")).toContain("&lt;b&gt;wool&lt;/b&gt;");
    expect(picture && shown(picture, "p")).not.toContain("<b>");
  });
});
