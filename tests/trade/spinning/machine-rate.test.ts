import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { draftChangeWheel, twistChangeWheel, wheelConstant } from "../../../src/trade/spinning/change-wheel";
import { doffPlan, machineRate } from "../../../src/trade/spinning/machine-rate";
import { spindleLimit, travellerSpeed } from "../../../src/trade/spinning/traveller-speed";
import { twistFactor as factorOf } from "../../../src/trade/spinning/twist-factor";
import { COUNT_SYSTEMS } from "../../../src/tables/count-systems";
import { TWIST_CONVENTIONS } from "../../../src/tables/twist-conventions";
import { TWIST_UNITS } from "../../../src/tables/twist-units";
import { expectClose } from "../../support/closeness";
import { refusalOf } from "../../support/refusals";

const figure = fc.double({ min: 0.1, max: 1000, noNaN: true });

describe("a machine's rate", () => {
  test("is length by time by mass per length", () => {
    // 100 m/min of 1 g/m for an hour is 6 kg.
    expectClose(machineRate(100, 1000, 1, 1), 6);
    expectClose(machineRate(100, 1000, 2, 0.5), 6);
    fc.assert(
      fc.property(figure, figure, fc.integer({ min: 1, max: 400 }), (speed, tex, deliveries) => {
        expectClose(machineRate(speed, tex, deliveries, 0.9), deliveries * machineRate(speed, tex, 1, 0.9), 1e-14);
      }),
    );
  });

  test("doffs take all packages and one fewer would not", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 5000 }), fc.integer({ min: 1, max: 600 }), (kilograms, spindles) => {
        const plan = doffPlan(kilograms, spindles, 125, 30);
        expect(plan.packages).toBe(kilograms * 8);
        expect(plan.doffs * spindles).toBeGreaterThanOrEqual(plan.packages);
        expect((plan.doffs - 1) * spindles).toBeLessThan(plan.packages);
        expectClose(plan.hours, (plan.doffs * 125) / 30);
      }),
    );
  });

  test("a doff takes as long as a spindle fills a package, and every package has its end", () => {
    // 125 g at 25 g an hour is 5 h; 1 kg is 8 packages.
    expect(doffPlan(100, 300, 125, 25)).toEqual({
      packages: 800,
      doffs: 3,
      hoursPerDoff: 5,
      hours: 15,
      endsPerKilogram: 8,
    });
  });

  test("more packages than any lot has are a unit that slipped", () => {
    expect(doffPlan(10_000, 1000, 1, 1).packages).toBe(10_000_000);
    expect(refusalOf(() => doffPlan(10_000.001, 1, 1, 1))).toBe(
      "#NUM! mass_kg is 10000001 packages; must be at most 10000000",
    );
  });

  test("traveller and spindle are inverse; a ring in another unit is refused", () => {
    fc.assert(
      fc.property(fc.double({ min: 0.02, max: 0.4, noNaN: true }), figure, (ring, speed) => {
        const spindle = spindleLimit(ring, speed);
        fc.pre(spindle <= 27000);
        expectClose(travellerSpeed(ring, spindle), speed);
      }),
    );
    expect(refusalOf(() => travellerSpeed(0.0046, 9000))).toBe(
      "#VALUE! ring_diameter is 4.6 mm; must be 20 to 400 mm; check its unit",
    );
    expect(refusalOf(() => spindleLimit(46, 30))).toMatch(/46000 mm/);
  });

  test("the twist wheel keeps the twist factor", () => {
    const tpm = TWIST_UNITS.find(({ word }) => word === "tpm")!;
    const metric = TWIST_CONVENTIONS.find(({ word }) => word === "metric")!;
    for (const system of COUNT_SYSTEMS) {
      // More teeth deliver faster, so the twist goes with 1/teeth.
      const [now, wanted] = [12, 18];
      const teeth = twistChangeWheel(40, now, wanted, system);
      expectClose(factorOf((400 * 40) / teeth, tpm, wanted, system, metric), factorOf(400, tpm, now, system, metric));
    }
  });
});

describe("a wheel's constant", () => {
  test("leads to the same wheel as going from one count to the other", () => {
    const tex = COUNT_SYSTEMS.find(({ word }) => word === "tex") as (typeof COUNT_SYSTEMS)[0];
    fc.assert(
      fc.property(fc.integer({ min: 20, max: 80 }), figure, figure, (wheel, now, wanted) => {
        // From one roving the draft goes against the tex, and the twist of one factor against its root.
        const draft = wheelConstant(1000 / now, wheel, "draft") / (1000 / wanted);
        expectClose(draft, draftChangeWheel(wheel, now, wanted, tex), 1e-13);
        const twist = wheelConstant(100 / Math.sqrt(now), wheel, "twist") / (100 / Math.sqrt(wanted));
        expectClose(twist, twistChangeWheel(wheel, now, wanted, tex), 1e-13);
        expectClose(wheel * wheelConstant(12, wheel, "driven"), 12, 1e-14);
      }),
    );
  });
});
