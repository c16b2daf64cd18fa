import { execFileSync, spawnSync } from "node:child_process";
import { describe, expect, test } from "vitest";
import { COUNT_SYSTEMS } from "../../../src/tables/count-systems";
import { convertCount } from "../../../src/trade/counts/counts";

/** The units database's own name for each system, or the words of the system in the database's yard, pound and gram. */
const IN_UNITS: Record<string, string> = {
  tex: "tex",
  ktex: "kilotex",
  dtex: "drex",
  mtex: "millitex",
  den: "denier",
  "g/m": "gram/meter",
  "g/km": "gram/km",
  "g/yd": "gram/yard",
  "gr/yd": "grain/yard",
  "gr/100yd": "grain/(100 yard)",
  "gr/120yd": "grain/(120 yard)",
  "dram/1000yd": "manchesteryarnnumber",
  "dram/40yd": "dram/(40 yard)",
  "oz/yd": "ounce/yard",
  "oz/5yd": "ounce/(5 yard)",
  "oz/10yd": "ounce/(10 yard)",
  "oz/40yd": "ounce/(40 yard)",
  "lb/14400yd": "pound/(14400 yard)",
  "lb/11520yd": "pound/(11520 yard)",
  Nm: "metricyarncount",
  NeC: "cottonyarncount",
  NeW: "worstedyarncount",
  NeL: "linenyarncount",
  cut: "yarncut",
  run: "woolyarnrun",
  YSW: "256 yard/pound",
  Galashiels: "cut/(24 ounce)",
  WoE: "320 yard/pound",
  Dewsbury: "yard/ounce",
  Leicester: "11 yard/ounce",
  typp: "typp",
  AlloaB: "11520 yard/(48 pound)",
  AlloaA: "11520 yard/(24 pound)",
  Hawick: "cut/(26 ounce)",
  Irish: "64 yard/pound",
  NF: "km/(500 gram)",
  "yd/lb": "yard/pound",
  "yd/oz": "yard/ounce",
  "m/kg": "meter/kg",
  "m/50g": "meter/(50 gram)",
  "m/100g": "meter/(100 gram)",
  "yd/50g": "yard/(50 gram)",
  "yd/100g": "yard/(100 gram)",
};

const present = spawnSync("units", ["--version"]).status === 0;

/** Many conversions in one run of the program, which reads pairs of lines. */
function units(questions: readonly (readonly [have: string, want: string])[]): number[] {
  const asked = questions.map(([have, want]) => `${have}\n${want}\n`).join("");
  const said = execFileSync("units", ["--quiet", "--terse", "--digits", "15"], {
    input: asked,
    encoding: "utf8",
    env: { ...process.env, LC_ALL: "C" },
  });
  return said.trim().split("\n").map(Number);
}

describe("the units program as a witness", () => {
  test.runIf(process.env.CI)("is installed where every proof is required", () => {
    expect(present, "install the Debian package units").toBe(true);
  });

  test("is asked about every system of the table", () => {
    expect(Object.keys(IN_UNITS).sort()).toEqual(COUNT_SYSTEMS.map(({ word }) => word).sort());
  });

  test.runIf(present)("converts every pair of systems alike, to the 15 digits that it prints", () => {
    const value = 28.7;
    const pairs = COUNT_SYSTEMS.flatMap((from) => COUNT_SYSTEMS.map((to) => [from, to] as const));
    const answers = units(
      pairs.map(([from, to]) => {
        const have = `${value} (${IN_UNITS[from.word] as string})`;
        return [from.direct === to.direct ? have : `1/(${have})`, `(${IN_UNITS[to.word] as string})`] as const;
      }),
    );
    expect(answers.length).toBe(pairs.length);
    const different = pairs.filter(([from, to], index) => {
      const ours = convertCount(value, from, to);
      return !(Math.abs(ours - (answers[index] as number)) <= 1e-14 * ours);
    });
    expect(different.map(([from, to]) => `${from.word} to ${to.word}`)).toEqual([]);
  });
});
