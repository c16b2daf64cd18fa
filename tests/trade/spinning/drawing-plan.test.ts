import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { COUNT_SYSTEMS, type CountSystem } from "../../../src/tables/count-systems";
import { drawingPlan } from "../../../src/trade/spinning/drawing-plan";

const system = (word: string) => COUNT_SYSTEMS.find((one) => one.word === word) as CountSystem;

describe("a drawing set", () => {
  test("by hand: 20 ktex, 6 doublings at draft 8 and 4 at draft 6 deliver 15 and then 10 ktex", () => {
    const passages = [
      { doublings: 6, draft: 8, waste: 0 },
      { doublings: 4, draft: 6, waste: 0 },
    ];
    const [first, second] = drawingPlan(20, system("ktex"), passages, system("ktex"));
    expect(first).toMatchObject({ countIn: 20, countOut: 15, doublingsSoFar: 6, draftSoFar: 8 });
    expect(second).toMatchObject({ countIn: 15, countOut: 10, doublingsSoFar: 24, draftSoFar: 48 });
  });

  test("delivers what goes in times doublings over draft, less the waste of each passage", () => {
    const passage = fc.record({
      doublings: fc.integer({ min: 1, max: 12 }),
      draft: fc.integer({ min: 20, max: 150 }).map((tenths) => tenths / 10),
      waste: fc.integer({ min: 0, max: 5 }).map((percent) => percent / 100),
    });
    fc.assert(
      fc.property(fc.array(passage, { minLength: 1, maxLength: 5 }), (passages) => {
        const last = drawingPlan(20000, system("tex"), passages, system("tex")).at(-1)!;
        const wanted = passages.reduce(
          (tex, { doublings, draft, waste }) => ((tex * doublings) / draft) * (1 - waste),
          20000,
        );
        expect(last.countOut / wanted).toBeCloseTo(1, 12);
      }),
    );
  });
});
