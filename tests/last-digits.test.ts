import { beforeAll, describe, expect, test } from "vitest";
import { loadBundle, type Implementations } from "../src/recalculate/bundle";
import { called, type Called } from "./support/calls";
import { bundleInAnotherRuntime } from "./support/other-runtime";
import { cases } from "./support/random-cases";

let [here, there]: Implementations[] = [];
beforeAll(() => {
  here = loadBundle();
  there = bundleInAnotherRuntime();
});

/** The same figures in every run. */
let seed = 1;
function random(): number {
  seed = (seed * 1103515245 + 12345) % 2147483648;
  return seed / 2147483648;
}

const BANDS = 31;

/** Reflectances that rise or fall once over the bands, as those of dyed wool do. */
function curves(count: number): number[][] {
  return Array.from({ length: count }, () => {
    const [from, to, place] = [0.05 + 0.6 * random(), 0.05 + 0.6 * random(), BANDS * random()];
    return Array.from({ length: BANDS }, (_, band) =>
      typed(from + (to - from) * Math.min(1, Math.max(0, (band - place) / 6 + 0.5))),
    );
  });
}

function typed(value: number): number {
  return Math.round(value * 1e4) / 1e4;
}

function blend(solids: readonly number[][]): number[] {
  const weights = solids.map(() => (random() < 0.5 ? random() : 0.01));
  const all = weights.reduce((sum, weight) => sum + weight, 0);
  return Array.from({ length: BANDS }, (_, band) =>
    typed(solids.reduce((sum, solid, index) => sum + (solid[band]! * weights[index]!) / all, 0)),
  );
}

const lab = (): number[] => [30 + 45 * random(), 60 * (random() - 0.5), 60 * (random() - 0.5)].map(typed);

/** How far apart two results are, relative to what is above 1; other cells than figures must be the same. */
function apart(one: Called, other: Called): number {
  if (!("rows" in one && "rows" in other)) return JSON.stringify(one) === JSON.stringify(other) ? 0 : Infinity;
  const [cells, others] = [one.rows.flat(), other.rows.flat()];
  return cells.reduce((most: number, cell, index) => {
    const beside = others[index];
    if (typeof cell !== "number" || typeof beside !== "number") return cell === beside ? most : Infinity;
    return Math.max(most, Math.abs(cell - beside) / Math.max(1, Math.abs(cell)));
  }, cells.length - others.length === 0 ? 0 : Infinity); // prettier-ignore
}

describe("the same call gives the same value in a runtime whose functions are off by a last digit", () => {
  const questions: [what: string, id: string, cells: () => unknown[]][] = [
    ["blends of the solids", "MIXCHOICES", () => within(curves(6), (solids) => [[blend(solids)], solids])],
    ["any shade", "MIXCHOICES", () => [curves(1), curves(6)]],
    ["any shade in L*a*b*", "MIXCHOICES", () => [[lab()], Array.from({ length: 5 }, lab)]],
    ["two lights", "MIXCHOICES", () => [curves(1), curves(5), null, null, null, [["D65/10", "A/10"]]]],
    ["a greatest share", "MIXCHOICES", () => [curves(1), curves(5), ...new Array(7).fill(null), [[0.4]]]],
    ["one recipe", "MIXMATCH", () => within(curves(8), (solids) => [[blend(solids)], solids])],
  ];

  test.each(questions)("a match of %s", (_, id, cells) => {
    seed = 20;
    const distances = Array.from({ length: cases(20) }, () => {
      const given = cells();
      return apart(...([here, there].map((bundle) => called(bundle!.get(id)!, given)) as [Called, Called]));
    });
    // A share in a thousand lies where nine decimals are rounded up in one runtime and down in the other.
    expect(Math.max(...distances)).toBeLessThan(1e-6);
    expect(distances.filter((distance) => distance > 1e-12).length).toBeLessThanOrEqual(1);
  });
});

function within<T, R>(given: T, use: (given: T) => R): R {
  return use(given);
}
