import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { AMBIGUOUS_COUNT_WORDS, COUNT_SYSTEMS, type CountSystem } from "../../../src/tables/count-systems";
import { SOURCES } from "../../../src/tables/sources";
import { convertCount } from "../../../src/trade/counts/counts";
import { decimal, exactly, fraction, over, relativeError, times, type Fraction } from "../../support/ratios";

const POUND = times(decimal("0.45359237"), fraction(1000));
const GRAMS: Record<string, Fraction> = {
  mg: fraction(1, 1000),
  g: fraction(1),
  kg: fraction(1000),
  lb: POUND,
  oz: over(POUND, fraction(16)),
  dram: over(POUND, fraction(256)),
  grain: over(POUND, fraction(7000)),
};
const METRES: Record<string, Fraction> = { m: fraction(1), km: fraction(1000), yd: decimal("0.9144") };

/** Every system in words, written down apart from the table that the library uses. */
const DIRECT = `
  tex: 1 g in 1 km
  ktex: 1 kg in 1 km
  dtex: 1 g in 10 km
  mtex: 1 mg in 1 km
  den: 1 g in 9000 m
  g/m: 1 g in 1 m
  g/km: 1 g in 1 km
  g/yd: 1 g in 1 yd
  gr/yd: 1 grain in 1 yd
  gr/100yd: 1 grain in 100 yd
  gr/120yd: 1 grain in 120 yd
  dram/1000yd: 1 dram in 1000 yd
  dram/40yd: 1 dram in 40 yd
  oz/yd: 1 oz in 1 yd
  oz/5yd: 1 oz in 5 yd
  oz/10yd: 1 oz in 10 yd
  oz/40yd: 1 oz in 40 yd
  lb/14400yd: 1 lb in 14400 yd
  lb/11520yd: 1 lb in 11520 yd`;
const INDIRECT = `
  Nm: 1 m in 1 g
  NeC: 840 yd in 1 lb
  NeW: 560 yd in 1 lb
  NeL: 300 yd in 1 lb
  cut: 300 yd in 1 lb
  run: 1600 yd in 1 lb
  YSW: 256 yd in 1 lb
  Galashiels: 300 yd in 24 oz
  WoE: 320 yd in 1 lb
  Dewsbury: 1 yd in 1 oz
  Leicester: 176 yd in 1 lb
  typp: 1000 yd in 1 lb
  AlloaB: 240 yd in 1 lb
  AlloaA: 480 yd in 1 lb
  Hawick: 300 yd in 26 oz
  Irish: 64 yd in 1 lb
  NF: 1000 m in 500 g
  yd/lb: 1 yd in 1 lb
  m/kg: 1 m in 1 kg
  m/50g: 1 m in 50 g
  m/100g: 1 m in 100 g
  yd/50g: 1 yd in 50 g
  yd/100g: 1 yd in 100 g
  yd/oz: 1 yd in 1 oz`;

/** Grams a metre (direct) or metres a gram (indirect) of count 1. */
function sizes(words: string): Map<string, Fraction> {
  return new Map(
    words
      .trim()
      .split("\n")
      .map((line) => {
        const [, word, amount, unit, inAmount, inUnit] = /^\s*(\S+): (\d+) (\S+) in (\d+) (\S+)$/.exec(
          line,
        ) as unknown as [string, string, string, string, string, string];
        const units = { ...GRAMS, ...METRES };
        const above = times(decimal(amount), units[unit] as Fraction);
        return [word, over(above, times(decimal(inAmount), units[inUnit] as Fraction))];
      }),
  );
}

const direct = sizes(DIRECT);
const indirect = sizes(INDIRECT);

function gramsAMetre(count: Fraction, word: string): Fraction {
  const size = direct.get(word);
  return size ? times(count, size) : over(fraction(1), times(count, indirect.get(word) as Fraction));
}

function countOf(gramsInMetre: Fraction, word: string): Fraction {
  const size = direct.get(word);
  return size ? over(gramsInMetre, size) : over(over(fraction(1), gramsInMetre), indirect.get(word) as Fraction);
}

function named(word: string): CountSystem {
  return COUNT_SYSTEMS.find((system) => system.word === word) as CountSystem;
}

const anySystem = fc.constantFrom(...COUNT_SYSTEMS);
const anyCount = fc.double({ min: 1e-6, max: 1e6, noNaN: true });

describe("the table of count systems", () => {
  test("holds exactly the systems that the oracle has in words, direct and indirect as there", () => {
    const listed = (wanted: boolean) =>
      COUNT_SYSTEMS.filter((system) => system.direct === wanted).map(({ word }) => word);
    expect(listed(true).sort()).toEqual([...direct.keys()].sort());
    expect(listed(false).sort()).toEqual([...indirect.keys()].sort());
  });

  test("spells no two systems alike, nor one like a word with two meanings", () => {
    const spellings = COUNT_SYSTEMS.flatMap(({ word, aliases }) => [word, ...aliases])
      .concat(Object.keys(AMBIGUOUS_COUNT_WORDS))
      .map((spelling) => spelling.toLowerCase());
    expect(spellings.filter((spelling, place) => spellings.indexOf(spelling) !== place)).toEqual([]);
  });

  test("has a known source for every system, and says so where it is memory", () => {
    const known = new Set(SOURCES.map(({ key }) => key));
    for (const { word, source, meaning } of COUNT_SYSTEMS) {
      expect([word, known.has(source)]).toEqual([word, true]);
      expect([word, meaning.includes("from memory, verify before use")]).toEqual([word, source === "MEMORY"]);
    }
    expect(COUNT_SYSTEMS.filter(({ source }) => source === "MEMORY").map(({ word }) => word)).toEqual([
      "AlloaA",
      "Hawick",
      "Irish",
    ]);
  });

  test("knows Galashiels as 200 yd in 1 lb and the Yorkshire skein as 1 yd in 1 dram", () => {
    expect(convertCount(1, named("Galashiels"), named("yd/lb"))).toBe(200);
    expect(convertCount(1, named("YSW"), named("yd/lb"))).toBe(256);
  });

  test("keeps its sizes in whole numbers that a double holds exactly", () => {
    for (const { word, size } of COUNT_SYSTEMS) {
      expect([word, Number.isSafeInteger(size.numerator), Number.isSafeInteger(size.denominator)]).toEqual([
        word,
        true,
        true,
      ]);
    }
  });
});

describe("converting a count", () => {
  const VALUES = [1, 3, 0.1, 7.3, 28, 1 / 3, 69.3, 1234.5678, 1e-6, 987654.321, Math.PI];

  test("agrees with exact fractions to 1e-15 for every pair of systems", () => {
    const errors = COUNT_SYSTEMS.flatMap((from) =>
      COUNT_SYSTEMS.flatMap((to) =>
        VALUES.map((value) => ({
          what: `${value} ${from.word} in ${to.word}`,
          error: relativeError(convertCount(value, from, to), countOf(gramsAMetre(exactly(value), from.word), to.word)),
        })),
      ),
    );
    expect(errors.length).toBe(COUNT_SYSTEMS.length ** 2 * VALUES.length);
    expect(errors.filter(({ error }) => error > 1e-15)).toEqual([]);
  });

  test("agrees with exact fractions to 1e-15 for any count", () => {
    fc.assert(
      fc.property(anyCount, anySystem, anySystem, (value, from, to) => {
        const wanted = countOf(gramsAMetre(exactly(value), from.word), to.word);
        expect(relativeError(convertCount(value, from, to), wanted)).toBeLessThanOrEqual(1e-15);
      }),
      { numRuns: 3000 },
    );
  });

  test("leaves a count in its own system as it is, and comes back from any other", () => {
    fc.assert(
      fc.property(anyCount, anySystem, anySystem, (value, from, to) => {
        expect(convertCount(value, from, from)).toBe(value);
        const back = convertCount(convertCount(value, from, to), to, from);
        expect(Math.abs(back - value) / value).toBeLessThanOrEqual(1e-15);
      }),
    );
  });
});
