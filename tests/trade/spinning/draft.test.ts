import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { texOf } from "../../../src/trade/counts/counts";
import { draftChangeWheel } from "../../../src/trade/spinning/change-wheel";
import { countDrawn, draftBetween, rollerDraft } from "../../../src/trade/spinning/draft";
import { drawingPlan } from "../../../src/trade/spinning/drawing-plan";
import { anySystem, between } from "../../support/spinning";
import { expectClose } from "../../support/closeness";

const anyPassage = fc.record({
  doublings: fc.integer({ min: 1, max: 12 }),
  waste: between(0, 0.3),
  contraction: between(-0.1, 0.2),
});

describe("drafts", () => {
  test("the draft that makes a count makes that count, in any two systems", () => {
    fc.assert(
      fc.property(
        between(0.1, 100),
        anySystem,
        between(1, 200),
        anySystem,
        anyPassage,
        (countIn, from, draft, to, passage) => {
          const countOut = countDrawn(countIn, from, draft, to, passage);
          expectClose(draftBetween(countIn, from, countOut, to, passage), draft, 1e-13);
        },
      ),
    );
  });

  test("mass in is mass out and waste: doublings × tex × length fed", () => {
    fc.assert(
      fc.property(between(0.1, 100), anySystem, between(1, 200), anyPassage, (countIn, system, draft, passage) => {
        // One metre fed becomes `draft` metres at the nip and draft × (1 − contraction) metres of yarn.
        const fed = passage.doublings * texOf(countIn, system);
        const made =
          texOf(countDrawn(countIn, system, draft, system, passage), system) * draft * (1 - passage.contraction);
        expectClose(made + fed * passage.waste, fed, 1e-12);
      }),
    );
  });

  test("roller drafts multiply along the frame", () => {
    fc.assert(
      fc.property(
        between(10, 60),
        between(1, 500),
        between(10, 60),
        between(1, 500),
        between(10, 60),
        between(1, 500),
        (a, p, b, q, c, r) => {
          expectClose(rollerDraft(a, p, b, q) * rollerDraft(b, q, c, r), rollerDraft(a, p, c, r), 1e-14);
        },
      ),
    );
  });
});

describe("a drawing plan", () => {
  const passages = fc.array(
    fc.record({ doublings: fc.integer({ min: 1, max: 10 }), draft: between(1, 30), waste: between(0, 0.1) }),
    { minLength: 1, maxLength: 8 },
  );

  test("agrees with the single machines passage by passage, and with one machine of the whole draft", () => {
    fc.assert(
      fc.property(between(1, 50), anySystem, passages, anySystem, (countIn, from, planned, to) => {
        const plan = drawingPlan(countIn, from, planned, to);
        let [count, system] = [countIn, from];
        let kept = 1;
        plan.forEach((row, index) => {
          const passage = planned[index] as (typeof planned)[number];
          expectClose(texOf(row.countIn, to), texOf(count, system), 1e-13);
          count = countDrawn(count, system, passage.draft, to, { ...passage, contraction: 0 });
          system = to;
          kept *= 1 - passage.waste;
          expectClose(row.countOut, count, 1e-13);
        });
        const last = plan[plan.length - 1] as (typeof plan)[number];
        const whole = (texOf(countIn, from) * last.doublingsSoFar * kept) / last.draftSoFar;
        expectClose(texOf(last.countOut, to), whole, 1e-12);
      }),
    );
  });
});

describe("the draft-change wheel", () => {
  test("changing there and back gives the wheel again, and the drafts stand inversely to the wheels", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 15, max: 120 }),
        between(1, 100),
        between(1, 100),
        between(0.1, 5),
        anySystem,
        (wheel, now, wanted, roving, system) => {
          const other = draftChangeWheel(wheel, now, wanted, system);
          expectClose(draftChangeWheel(other, wanted, now, system), wheel, 1e-14);
          const plain = { doublings: 1, waste: 0, contraction: 0 };
          const [draftNow, draftThen] = [now, wanted].map((count) =>
            draftBetween(roving, system, count, system, plain),
          );
          expectClose((draftThen as number) * other, (draftNow as number) * wheel, 1e-13);
        },
      ),
    );
  });

  test("teeth follow the weight: more teeth for heavier yarn", () => {
    fc.assert(
      fc.property(between(1, 100), between(1, 100), anySystem, (now, wanted, system) => {
        fc.pre(Math.abs(now / wanted - 1) > 1e-12);
        const heavier = texOf(wanted, system) > texOf(now, system);
        expect(draftChangeWheel(40, now, wanted, system) > 40).toBe(heavier);
      }),
    );
  });
});
