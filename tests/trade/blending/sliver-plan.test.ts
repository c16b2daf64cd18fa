import fc from "fast-check";
import { describe, expect, test, vi } from "vitest";
import { sliverPlan, type SliverPlan } from "../../../src/trade/blending/sliver-plan";
import { refusalOf } from "../../support/refusals";

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);

/** All ways to take at most so many slivers of so many solids, by trying them. */
function creels(solids: number, most: number): number[][] {
  if (solids === 0) return [[]];
  return Array.from({ length: most + 1 }, (_, first) => first).flatMap((first) =>
    creels(solids - 1, most - first).map((rest) => [first, ...rest]),
  );
}

interface Outcome {
  readonly off: number;
  readonly slivers: number;
}

function offOf(masses: readonly number[], wanted: readonly number[]): number {
  const whole = sum(masses);
  return Math.max(...masses.map((mass, solid) => Math.abs(mass / whole - (wanted[solid] as number))));
}

/** Every plan of one passage. */
function onePassage(wanted: readonly number[], counts: readonly number[], most: number): Outcome[] {
  return creels(wanted.length, most)
    .filter(
      (creel) => sum(creel) > 0 && creel.every((slivers, solid) => slivers === 0 || (wanted[solid] as number) > 0),
    )
    .map((creel) => ({
      off: offOf(
        creel.map((slivers, solid) => slivers * (counts[solid] as number)),
        wanted,
      ),
      slivers: sum(creel),
    }));
}

/** Every plan with a pre-blend of a carrier and all small solids, drawn to the count of the carrier. */
function withPreBlend(wanted: readonly number[], counts: readonly number[], most: number): Outcome[] {
  const lengths = wanted.map((share, solid) => share / (counts[solid] as number));
  const isSmall = lengths.map((length) => length > 0 && (length / sum(lengths)) * most < 1);
  return wanted.flatMap((share, carrier) => {
    const inPreBlend = wanted.map((_, solid) => solid === carrier || (isSmall[solid] as boolean));
    if (share === 0 || inPreBlend.filter(Boolean).length < 2) return [];
    const firsts = creels(wanted.length, most).filter(
      (first) =>
        (first[carrier] as number) > 0 && first.every((slivers, solid) => slivers === 0 || inPreBlend[solid] === true),
    );
    // The last place counts the slivers of pre-blend.
    const lasts = creels(wanted.length + 1, most).filter(
      (last) =>
        (last[wanted.length] as number) > 0 &&
        wanted.every(
          (part, solid) => last[solid] === 0 || solid === carrier || (part > 0 && inPreBlend[solid] === false),
        ),
    );
    return firsts.flatMap((first) => {
      const masses = first.map((slivers, solid) => slivers * (counts[solid] as number));
      const whole = sum(masses);
      return lasts.map((last) => {
        const drawn = (last[wanted.length] as number) * (counts[carrier] as number);
        const all = masses.map(
          (mass, solid) => (last[solid] as number) * (counts[solid] as number) + (drawn * mass) / whole,
        );
        return { off: offOf(all, wanted), slivers: sum(first) + sum(last) };
      });
    });
  });
}

/** The least of the greatest deviations and, of the plans that have it, the fewest slivers. */
function best(outcomes: readonly Outcome[]): Outcome {
  const off = Math.min(...outcomes.map((outcome) => outcome.off));
  const equals = outcomes.filter((outcome) => outcome.off <= off + 1e-12);
  return { off, slivers: Math.min(...equals.map(({ slivers }) => slivers)) };
}

function outcomeOf({ slivers, preBlend, wanted, made }: SliverPlan): Outcome {
  const inAll = sum(slivers) + (preBlend === undefined ? 0 : preBlend.drawn + sum(preBlend.slivers));
  return { off: Math.max(...made.map((part, solid) => Math.abs(part - (wanted[solid] as number)))), slivers: inAll };
}

const recipe = (most: number, weight: number) =>
  fc
    .array(fc.tuple(fc.integer({ min: 0, max: weight }), fc.constantFrom(15, 18, 20, 20, 20, 22.5, 30)), {
      minLength: 1,
      maxLength: most,
    })
    .filter((solids) => solids.some(([part]) => part > 0))
    .map((solids) => {
      const whole = sum(solids.map(([part]) => part));
      return { wanted: solids.map(([part]) => part / whole), counts: solids.map(([, count]) => count) };
    });

describe("slivers of one passage", () => {
  test("no plan within the limit comes nearer, and none as near has fewer slivers (all plans tried)", () => {
    fc.assert(
      fc.property(recipe(4, 50), fc.integer({ min: 1, max: 9 }), ({ wanted, counts }, most) => {
        const found = outcomeOf(sliverPlan(wanted, counts, most, 1));
        const proved = best(onePassage(wanted, counts, most));
        expect(found.off).toBeCloseTo(proved.off, 11);
        expect(found.slivers).toBe(proved.slivers);
      }),
      { numRuns: 400 },
    );
  });

  test("made shares are masses of the slivers over the mass of them all, and a solid that is not wanted gets none", () => {
    const { slivers, made } = sliverPlan([0.5, 0, 0.5], [20, 20, 10], 12, 1);
    expect(slivers).toEqual([1, 0, 2]);
    expect(made).toEqual([0.5, 0, 0.5]);
  });

  test("a recipe in whole slivers of a full creel is made exactly, in its lowest terms", () => {
    expect(sliverPlan([0.4, 0.35, 0.25], [20, 20, 20], 20, 1).slivers).toEqual([8, 7, 5]);
    expect(sliverPlan([0.5, 0.25, 0.25], [20, 20, 20], 20, 1).slivers).toEqual([2, 1, 1]);
  });
});

describe("slivers with a pre-blend", () => {
  test("no plan comes nearer, and none as near has fewer slivers (all plans tried)", () => {
    fc.assert(
      fc.property(recipe(3, 40), fc.integer({ min: 2, max: 5 }), ({ wanted, counts }, most) => {
        const found = outcomeOf(sliverPlan(wanted, counts, most, 2));
        const proved = best([...onePassage(wanted, counts, most), ...withPreBlend(wanted, counts, most)]);
        expect(found.off).toBeCloseTo(proved.off, 11);
        expect(found.slivers).toBe(proved.slivers);
      }),
      { numRuns: 250 },
    );
  });

  test("never comes less near than one passage, and nearer where a solid wants less than a sliver", () => {
    fc.assert(
      fc.property(recipe(12, 1000), fc.integer({ min: 1, max: 60 }), ({ wanted, counts }, most) => {
        const [one, two] = ([1, 2] as const).map((passages) => sliverPlan(wanted, counts, most, passages));
        expect(outcomeOf(two as SliverPlan).off).toBeLessThanOrEqual(outcomeOf(one as SliverPlan).off + 1e-12);
        expect(sum((two as SliverPlan).made)).toBeCloseTo(1, 12);
      }),
      { numRuns: 60 },
    );
    const { slivers, preBlend } = sliverPlan([0.02, 0.98], [20, 20], 10, 2);
    expect([slivers, preBlend]).toEqual([[0, 9], { carrier: 1, drawn: 1, slivers: [1, 4] }]);
  });
});

test("what is near early spares nearly all of the search", () => {
  /** The search rounds up once for each solid of each box that it looks at. */
  const looked = vi.spyOn(Math, "ceil");
  let state = 3;
  const drawn = (below: number): number => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return Math.floor((state / 2 ** 32) * below);
  };
  // Of 12 solids in 60 slivers there are over ten million million creels, of 5 in 3 there are 55.
  const most = [
    [1, 4, 20, 265],
    [1, 6, 20, 475],
    [1, 8, 30, 580],
    [1, 12, 60, 1470],
    [1, 5, 3, 1550],
    [1, 6, 4, 1150],
    [2, 4, 20, 650],
    [2, 6, 20, 1730],
    [2, 8, 30, 5480],
    [2, 12, 60, 14_200],
    [2, 5, 3, 840],
    [2, 6, 4, 1430],
  ] as const;
  const over: string[] = [];
  for (const [passages, solids, slivers, allowed] of most) {
    looked.mockClear();
    for (let index = 0; index < 6; index++) {
      const parts = Array.from({ length: solids }, () => 1 + drawn(index % 2 === 1 ? 40 : 400));
      const counts = parts.map(() => [15, 18, 20, 20, 22.5][drawn(5)] as number);
      sliverPlan(
        parts.map((part) => part / sum(parts)),
        counts,
        slivers,
        passages,
      );
    }
    if (looked.mock.calls.length > allowed)
      over.push(`${passages}, ${solids}, ${slivers}: ${looked.mock.calls.length}`);
  }
  looked.mockRestore();
  expect(over).toEqual([]);
});

test("more solids or slivers than can be searched are refused with the size allowed", () => {
  expect(refusalOf(() => sliverPlan(new Array(13).fill(1 / 13), new Array(13).fill(20), 20, 1))).toBe(
    "#VALUE! shares is 13 solids; must be 12 at most",
  );
  expect(sliverPlan([1], [20], 60, 1).slivers).toEqual([1]);
  expect(refusalOf(() => sliverPlan([0.5, 0.4], [20, 20], 5, 1))).toContain("shares ");
  expect(refusalOf(() => sliverPlan([1], [20], 61, 1))).toBe("#VALUE! slivers is 61; must be 60 at most");
});
