import {
  type Ratio,
  ratio,
  DRAMS_IN_POUND,
  GRAINS_IN_POUND,
  OUNCES_IN_POUND,
  POUND_IN_HUNDREDTHS_OF_MG,
  YARD_IN_TENTHS_OF_MM,
} from "./exact";

/** A system for the count (linear density) of yarn. Direct: mass per length. Indirect: length per mass. */
export interface CountSystem {
  /** The word a person writes in a cell. */
  readonly word: string;
  readonly meaning: string;
  readonly direct: boolean;
  /** Direct: tex = size × count. Indirect: tex = size / count. Exact. */
  readonly size: Ratio;
  /** Key of tables/sources.ts. */
  readonly source: string;
  /** Further spellings. */
  readonly aliases: readonly string[];
  /** Place in the table, for looking up a pair of systems. */
  readonly index: number;
}

type Row = readonly [word: string, meaning: string, size: Ratio, source: string, ...aliases: string[]];

/** 1 tex = 1 g/km, so a gram a metre is 1000 tex. */
const TEX_IN_GRAM_A_METRE = 1000;

/** tex × (yards of yarn in a pound), the pivot between the metric and the yard-and-pound systems: 45359237/91.44. */
const TEX_YARDS_A_POUND = [POUND_IN_HUNDREDTHS_OF_MG, TEX_IN_GRAM_A_METRE, 10000];
const PER_TEX_YARDS_A_POUND = [YARD_IN_TENTHS_OF_MM, 100000];

/** Direct system: parts of a pound (16: ounces, 7000: grains) in so many yards. */
function poundParts(partsInPound: number, yards: number): Ratio {
  return ratio(TEX_YARDS_A_POUND, [...PER_TEX_YARDS_A_POUND, partsInPound, yards]);
}

/** Indirect system: hanks of so many yards in so many ounces (16 = a pound). */
function hanks(yards: number, ounces = OUNCES_IN_POUND): Ratio {
  return ratio([...TEX_YARDS_A_POUND, ounces], [...PER_TEX_YARDS_A_POUND, OUNCES_IN_POUND, yards]);
}

const DIRECT: readonly Row[] = [
  ["tex", "grams in 1,000 m", ratio([1], [1]), "ISO-1144", "Tt"],
  ["ktex", "kilograms in 1,000 m (grams in 1 m)", ratio([1000], [1]), "ISO-1144", "kilotex"],
  ["dtex", "grams in 10,000 m", ratio([1], [10]), "ISO-1144", "decitex", "drex"],
  ["mtex", "milligrams in 1,000 m", ratio([1], [1000]), "ISO-1144", "millitex"],
  ["den", "denier: grams in 9,000 m", ratio([1], [9]), "ASTM-D2260", "denier", "Td"],
  ["g/m", "grams in 1 m", ratio([1000], [1]), "ISO-1144"],
  ["g/km", "grams in 1,000 m", ratio([1], [1]), "ISO-1144"],
  ["g/yd", "grams in 1 yd", ratio([TEX_IN_GRAM_A_METRE, 10000], [YARD_IN_TENTHS_OF_MM]), "NIST-YD-LB"],
  ["gr/yd", "grains in 1 yd", poundParts(GRAINS_IN_POUND, 1), "ASTM-D2260", "grain/yd", "grains/yd"],
  ["gr/100yd", "grains in 100 yd", poundParts(GRAINS_IN_POUND, 100), "NIST-YD-LB", "grains/100yd"],
  ["gr/120yd", "grains in 120 yd (a lea of cotton)", poundParts(GRAINS_IN_POUND, 120), "BROOKS", "grains/120yd"],
  [
    "dram/1000yd",
    "drams in 1,000 yd (thrown silk)",
    poundParts(DRAMS_IN_POUND, 1000),
    "DAVIS-1920",
    "dr/1000yd",
    "drams/1000yd",
  ],
  [
    "dram/40yd",
    "drams in 40 yd (sliver and roving)",
    poundParts(DRAMS_IN_POUND, 40),
    "NIST-YD-LB",
    "dr/40yd",
    "drams/40yd",
  ],
  ["oz/yd", "ounces in 1 yd", poundParts(OUNCES_IN_POUND, 1), "NIST-YD-LB"],
  ["oz/5yd", "ounces in 5 yd", poundParts(OUNCES_IN_POUND, 5), "NIST-YD-LB"],
  ["oz/10yd", "ounces in 10 yd", poundParts(OUNCES_IN_POUND, 10), "NIST-YD-LB"],
  ["oz/40yd", "ounces in 40 yd", poundParts(OUNCES_IN_POUND, 40), "NIST-YD-LB"],
  ["lb/14400yd", "pounds in a spyndle of 14,400 yd (jute, hemp)", poundParts(1, 14400), "KILGOUR", "jute"],
  ["lb/11520yd", "pounds in 11,520 yd", poundParts(1, 11520), "NIST-YD-LB"],
];

const INDIRECT: readonly Row[] = [
  ["Nm", "metric count: metres in 1 g", ratio([1000], [1]), "ASTM-D2260", "metric", "m/g"],
  ["NeC", "cotton count: hanks of 840 yd in 1 lb", hanks(840), "ASTM-D2260", "cotton", "NeB", "c.c."],
  ["NeW", "worsted count: hanks of 560 yd in 1 lb", hanks(560), "ASTM-D2260", "Nw", "worsted", "NeK", "w.c."],
  ["NeL", "linen lea: leas of 300 yd in 1 lb", hanks(300), "ASTM-D2260", "lea", "linen"],
  ["cut", "woollen cut: cuts of 300 yd in 1 lb", hanks(300), "ASTM-D2260"],
  ["run", "woollen run: runs of 1,600 yd in 1 lb", hanks(1600), "ASTM-D2260"],
  ["YSW", "Yorkshire skeins woollen: skeins of 256 yd in 1 lb", hanks(256), "DAVIS-1920", "Yorkshire skein"],
  ["Galashiels", "cuts of 300 yd in 24 oz: 200 yd in 1 lb", hanks(300, 24), "DAVIS-1920", "Gala"],
  ["WoE", "West of England: hanks of 320 yd in 1 lb", hanks(320), "DAVIS-1920", "West of England"],
  ["Dewsbury", "yards in 1 oz", hanks(16), "DAVIS-1920"],
  ["Leicester", "176 yd in 1 lb (11 yd in 1 oz)", hanks(176), "DAVIS-1920"],
  ["typp", "thousands of yards in 1 lb", hanks(1000), "ASTM-D2260"],
  ["AlloaB", "spyndles of 11,520 yd in 48 lb: 240 yd in 1 lb", hanks(240), "DAVIS-1920"],
  ["AlloaA", "spyndles of 11,520 yd in 24 lb: 480 yd in 1 lb; from memory, verify before use", hanks(480), "MEMORY"],
  ["Hawick", "cuts of 300 yd in 26 oz; from memory, verify before use", hanks(300, 26), "MEMORY"],
  ["Irish", "64 yd in 1 lb; from memory, verify before use", hanks(64), "MEMORY"],
  ["NF", "French count: thousands of metres in 500 g", ratio([500], [1]), "BROOKS"],
  ["yd/lb", "yards in 1 lb", hanks(1), "NIST-YD-LB", "ypp"],
  ["yd/oz", "yards in 1 oz", hanks(16), "NIST-YD-LB"],
  ["m/kg", "metres in 1 kg", ratio([1000000], [1]), "ISO-1144"],
  ["m/50g", "metres in a skein of 50 g", ratio([50000], [1]), "ISO-1144"],
  ["m/100g", "metres in a skein of 100 g", ratio([100000], [1]), "ISO-1144"],
  ["yd/50g", "yards in a skein of 50 g", ratio([50, TEX_IN_GRAM_A_METRE, 10000], [YARD_IN_TENTHS_OF_MM]), "NIST-YD-LB"],
  [
    "yd/100g",
    "yards in a skein of 100 g",
    ratio([100, TEX_IN_GRAM_A_METRE, 10000], [YARD_IN_TENTHS_OF_MM]),
    "NIST-YD-LB",
  ],
];

export const COUNT_SYSTEMS: readonly CountSystem[] = [
  ...DIRECT.map((row) => [true, row] as const),
  ...INDIRECT.map((row) => [false, row] as const),
].map(([direct, [word, meaning, size, source, ...aliases]], index) => ({
  word,
  meaning,
  direct,
  size,
  source,
  aliases,
  index,
}));

/** The systems most often meant, for a person whose word is not known. */
export const LIKELY_COUNT_WORDS: readonly string[] = ["Nm", "NeC", "NeW", "tex", "dtex", "den", "YSW", "run"];

/** Words that two or more systems share, with what to write instead. */
export const AMBIGUOUS_COUNT_WORDS: Readonly<Record<string, string>> = {
  Ne: "NeC (cotton) or NeW (worsted)",
  Alloa: "AlloaA or AlloaB",
  spyndle: "lb/14400yd (jute) or lb/11520yd",
  silk: "NeC (spun silk), den or dram/1000yd (thrown silk)",
  woollen: "YSW, Galashiels, run, cut or another system by its full word",
  woolen: "run, cut or another system by its full word",
  N: "Nm, NeC, NeW or another system by its full word",
  count: "Nm, NeC, NeW or another system by its full word",
};
