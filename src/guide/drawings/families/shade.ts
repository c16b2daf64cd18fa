import { figure, text, type Drawing } from "../svg";
import { swatches } from "../swatches";
import type { Work } from "../../work";

const LIGHT = [85, 0, 8];
const DARK = [30, 0, 0];
/** L* beside a standard of 60, of which the grey scale makes its steps. */
const PAIRS = [60, 61.7, 63.4, 66.8];

/** What a model says of a blend and what averaging would say; under them steps of the grey scale. */
export function shadeDrawing({ table, number, word }: Work): Drawing {
  const hex = (lab: readonly number[]) => word(`=YARN.LABTORGB({${lab.join(",")}})`);
  const blend = (table(`=YARN.MIXSHADE({0.5,0.5},{${LIGHT.join(",")};${DARK.join(",")}})`)[0] ?? []).map(Number);
  const average = LIGHT.map((value, place) => (value + (DARK[place] ?? 0)) / 2);
  const apart = number(`=YARN.SHADEDIFF({${blend.join(",")}},{${average.join(",")}})`);
  const lightness = (lab: readonly number[]) => `L* ${figure(lab[0] ?? 0)}`;
  const above = swatches([
    { name: "cream", said: lightness(LIGHT), colour: hex(LIGHT) },
    { name: "black", said: lightness(DARK), colour: hex(DARK) },
    { name: "half, half", said: lightness(blend), colour: hex(blend) },
    { name: "averaged", said: lightness(average), colour: hex(average) },
  ]);
  const steps = PAIRS.map((lightOne) => ({
    lightOne,
    step: word(`=YARN.GREYSCALE({60,0,0},{${lightOne},0,0},"step")`),
  }));
  const below = swatches(
    steps.flatMap(({ lightOne, step }) => [
      { name: "", said: "", colour: hex([60, 0, 0]) },
      { name: step, said: "", colour: hex([lightOne, 0, 0]) },
    ]),
    8,
  );
  return {
    title: "A blend is darker than the average of its solids",
    says: `Half cream (${lightness(LIGHT)}) and half black (${lightness(DARK)}): the model gives ${lightness(blend)}, averaging would give ${lightness(average)}, ${figure(apart)} units of CIEDE2000 apart. Under them four pairs of greys beside L* 60: ${steps.map(({ lightOne, step }) => `L* ${lightOne} is step ${step}`).join(", ")} of the grey scale.`,
    height: above.height + 22 + 76,
    body: `${above.body}${text(0, above.height + 14, "steps of the grey scale", "start", "soft")}<g transform="translate(0 ${above.height + 22})">${below.body}</g>`,
  };
}
