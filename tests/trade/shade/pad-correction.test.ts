import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { DAYLIGHT } from "../../../src/tables/lights";
import { blended, fibreModel, type BlendModel } from "../../../src/trade/shade/blend-models";
import { correctedTarget } from "../../../src/trade/shade/pad-correction";
import { difference2000 } from "../../../src/trade/shade/shade-difference";
import { bestRecipes } from "../../../src/trade/shade/shade-match";
import { labOf } from "../../../src/trade/shade/tristimulus";
import { TEXTILES } from "../../support/measured-textiles";
import { cases } from "../../support/random-cases";
import { refusalOf } from "../../support/refusals";

const ALL = [...TEXTILES.values()];
const MODEL = fibreModel(0.15);

function matched(target: readonly number[], solids: readonly (readonly number[])[]): readonly number[] {
  const terms = { solids, parts: 4, leastShare: 0, model: MODEL, lights: [DAYLIGHT], step: 0, choices: 1 };
  return bestRecipes({ ...terms, target }).recipes[0]!.shares;
}

const off = (target: readonly number[], made: ArrayLike<number>) =>
  difference2000(labOf(target, DAYLIGHT), labOf(made, DAYLIGHT));

const median = (values: readonly number[]) => values.slice().sort((a, b) => a - b)[Math.floor(values.length / 2)]!;

/** A mill of its own: it blends by another constant than the model's, and every shade it is asked for it can make. */
function mill(truth: BlendModel): { before: number; once: number; twice: number } {
  const [before, once, twice]: number[][] = [[], [], []];
  const blends = fc.tuple(
    fc.shuffledSubarray(ALL, { minLength: 4, maxLength: 4 }),
    fc.array(fc.integer({ min: 1, max: 10 }), { minLength: 4, maxLength: 4 }),
  );
  // Drawn, not asserted one by one: a median is of many.
  for (const [solids, parts] of fc.sample(blends, Math.max(60, cases(120)))) {
    const sum = parts.reduce((all, part) => all + part, 0);
    const target = Array.from(
      blended(
        parts.map((part) => part / sum),
        solids,
        truth,
      ),
    );
    let shares = matched(target, solids);
    let pad = Array.from(blended(shares, solids, truth));
    before!.push(off(target, pad));
    for (const after of [once!, twice!]) {
      shares = matched(correctedTarget(target, blended(shares, solids, MODEL), pad, DAYLIGHT), solids);
      pad = Array.from(blended(shares, solids, truth));
      after.push(off(target, pad));
    }
  }
  return { before: median(before!), once: median(once!), twice: median(twice!) };
}

describe("a recipe corrected by its pad", () => {
  test.each([0.1, 0.11, 0.12, 0.2, 0.22])("in a mill whose constant is %d where the model takes 0.15", (constant) => {
    const { before, once, twice } = mill(fibreModel(constant));
    expect(before).toBeGreaterThan(0.6);
    expect(once).toBeLessThan(0.2);
    expect(twice).toBeLessThan(0.05);
  });

  test("where the pad is as predicted the target stays", () => {
    const [target, pad] = ALL as [number[], number[]];
    correctedTarget(target, pad, pad, DAYLIGHT).forEach((value, band) => expect(value).toBeCloseTo(target[band]!, 15));
  });

  test("carries the ratio band by band; a band that reflects nothing stays", () => {
    const [target, predicted] = ALL as [number[], number[]];
    const pad = predicted.map((value, band) => (band === 3 ? 0 : value * 0.9));
    correctedTarget(target, predicted, pad, DAYLIGHT).forEach((value, band) =>
      expect(value).toBeCloseTo(band === 3 ? target[band]! : target[band]! / 0.9, 12),
    );
  });

  test("a pad of another recipe is refused", () => {
    const [target, pad] = ALL as [number[], number[]];
    const far = ALL.find((shade) => off(pad, shade) > 15)!;
    expect(refusalOf(() => correctedTarget(target, far, pad, DAYLIGHT))).toMatch(
      /^#VALUE! pad is \d+\.\d off what the shares predict; at most 15: is it the pad of these shares\?$/,
    );
  });
});
