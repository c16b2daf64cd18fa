import { describe, expect, test } from "vitest";
import { DAYLIGHT, LIGHTS } from "../../../src/tables/lights";
import { additionsTable } from "../../../src/trade/shade/additions-table";
import { blended, fibreModel } from "../../../src/trade/shade/blend-models";
import { difference2000 } from "../../../src/trade/shade/shade-difference";
import { labOf } from "../../../src/trade/shade/tristimulus";
import { textile } from "../../support/measured-textiles";

const MODEL = fibreModel(0.15);
const [TARGET, BATCH, ...SOLIDS] = [textile(53), textile(79), textile(75), textile(60)];
const LAMP = LIGHTS.find(({ word }) => word === "A/10")!;
const measured = { measured: true, overWhite: false };

describe("a correction as a table", () => {
  const wish = {
    target: TARGET,
    batch: BATCH,
    batchMass: 80,
    solids: SOLIDS,
    most: [30, 10],
    model: MODEL,
    lights: [DAYLIGHT],
    step: 0,
  };

  test("says the masses, the shade and the difference before and after", () => {
    const [head, before, after] = additionsTable(wish, [20, 0], { ...measured, names: ["moss", "slate"] });
    expect(head).toEqual([
      ...["batch", "moss added (kg)", "slate added (kg)", "mass (kg)", "L*", "a*", "b*"],
      ...[`difference (CIEDE2000, ${DAYLIGHT.word})`, "note"],
    ]);
    expect(before![8]).toBe("");
    expect(before!.slice(0, 4)).toEqual(["before", 0, 0, 80]);
    expect(after!.slice(0, 4)).toEqual(["after", 20, 0, 100]);
    const mixed = Array.from(blended([0.8, 0.2, 0], [BATCH, ...SOLIDS], MODEL));
    labOf(mixed, DAYLIGHT).forEach((value, axis) => expect(after![4 + axis]).toBeCloseTo(value, 9));
    expect(after![7]).toBeCloseTo(difference2000(labOf(TARGET, DAYLIGHT), labOf(mixed, DAYLIGHT)), 9);
    expect(before![7]).toBeCloseTo(difference2000(labOf(TARGET, DAYLIGHT), labOf(BATCH, DAYLIGHT)), 9);
  });

  test("notes that nothing helps, and what is at its limit", () => {
    const noteOf = (added: number[]) => additionsTable(wish, added, measured as never)[2]![8];
    expect(noteOf([0, 0])).toContain("nothing helps");
    expect(noteOf([30, 0])).toContain("at the most");
    expect(noteOf([20, 0])).not.toContain("at the most");
    expect(noteOf([20, 0])).not.toContain("nothing helps");
    // A mass of which there is none is not at its most.
    const none = { ...wish, most: [0, 10] };
    expect(additionsTable(none, [0, 5], measured as never)[2]![8]).not.toContain("at the most");
    expect(additionsTable(none, [0, 10], measured as never)[2]![8]).toContain("at the most");
  });

  test("has nothing to note where the target is made and nothing is at its limit", () => {
    const target = Array.from(blended([0.8, 0.2, 0], [BATCH, ...SOLIDS], MODEL));
    expect(additionsTable({ ...wish, target }, [20, 0], measured as never)[2]![8]).toBe("");
  });

  test("has the differences in further lights at its right", () => {
    const [head, , after] = additionsTable({ ...wish, lights: [DAYLIGHT, LAMP] }, [20, 0], measured as never);
    expect(head!.length).toBeGreaterThan(9);
    expect(after).toHaveLength(head!.length);
    expect(head!.slice(9).join()).toContain("A/10");
  });
});
