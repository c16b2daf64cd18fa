/** How well a source is known: its figures were read in a text, are recalled, or are common practice without a source. */
export type SourceStatus = "read" | "memory" | "practice";

export interface Source {
  readonly key: string;
  readonly title: string;
  readonly status: SourceStatus;
}

type Row = readonly [key: string, title: string, status: SourceStatus];

const ROWS: readonly Row[] = [
  ["DEFINITION", "Arithmetic or geometry that follows from the definition itself", "read"],
  ["PRACTICE", "Common practice of the trade, no source", "practice"],
  ["MEMORY", "Recalled without a text at hand: from memory, verify before use", "memory"],
  ["ASTM-D2260", "ASTM D2260-03 (2013), Table 1: conversion factors between yarn numbering systems", "read"],
  ["GNU-UNITS", "GNU units database 3.15, textile section", "read"],
  ["NIST-YD-LB", "International yard and pound (1959): yd = 0.9144 m, lb = 0.45359237 kg exactly", "read"],
  ["ISO-1144", "ISO 1144 and ISO 2947: tex system and rounding (scope)", "read"],
  ["ISO-1139", "ISO 1139: designation of yarns", "memory"],
  ["DAVIS-1920", "W. Davis, Hosiery Manufacture (1920), ch. V-VI, worked examples of counts and folding", "read"],
  ["LINCOLN-1885", "F. L. Lincoln, Instruction Book on Ring Spinning (1885)", "read"],
  ["BROOKS", "C. P. Brooks, Cotton Manufacturing", "read"],
  ["TAYLOR", "J. T. Taylor, Cotton Weaving and Designing", "read"],
  ["KILGOUR", "Kilgour & Woodhouse, The Jute Industry", "read"],
  ["DRAPER-1896", "Draper, Facts and Figures (1896)", "read"],
  ["LORD", "P. R. Lord, Handbook of Yarn Production (2003), App. 2 worked examples", "read"],
  ["RIETER", "Rieter Manual of Spinning: twist, traveller, limiting irregularity", "read"],
  ["NPTEL-32", "A. Das, Evaluation of Textile Materials, lecture 32", "read"],
  ["EXAM", "Indian national examination in textile engineering, solved papers 1992-2022", "read"],
  ["ASHENHURST", "Ashenhurst: yarn diameters in an inch, 0.9 root of yd/lb worsted, 0.84 woollen", "read"],
  [
    "J-STAGE-1968",
    "Twist shrinkage of two-fold staple yarn, J. Text. Mach. Soc. Japan 14 (3-4) 115 (1968), abstract",
    "read",
  ],
  ["A-A-55211", "US commercial item description A-A-55211, yarn, wool (1993)", "read"],
  ["ISO-2060", "ISO 2060 and ASTM D1907: linear density by the skein method (scope)", "read"],
  ["ISO-2061", "ISO 2061: determination of twist (scope)", "read"],
  ["19-CFR-151.61", "US customs regulations, 19 CFR 151.61: clean content and clean yield of wool", "read"],
  [
    "ASTM-D584",
    "ASTM D584, D1060, D1909, D2118, D2494: clean wool fibre and commercial moisture (definitions)",
    "read",
  ],
  ["ASTM-D1909", "ASTM D1909-13: commercial moisture regains, as an open review of fibres (2020) quotes them", "read"],
  ["CERTIFICATE", "A test house's published example of combining core-test certificates", "read"],
  [
    "EU-1007-2011",
    "Regulation (EU) 1007/2011, Annexes VIII and IX (figures as in the French order of 24 June 1998)",
    "read",
  ],
  ["GB-9994", "GB 9994-1988: conventional moisture regains (read in part)", "read"],
  ["USDA-GRADES", "US wool grades, average diameter and limit of deviation (NMSU Guide B-409, Table 1)", "read"],
  ["TEAM-2", "TEAM-2 staple-to-top prediction equations, one damaged published page, its lost sign corrected", "read"],
  ["DEAN-VOSS", "Dean & Voss, Table 17.1: clean-wool core data, 7 bales of 4 cores", "read"],
  ["PRESS-1988", "The Press, 7 October 1988: 472 greasy at 80 % is 590 clean", "read"],
  ["EU-76-211", "Council Directive 76/211/EEC, Annexes I and II: tolerable negative error", "read"],
  ["PACKERS-RULES", "The three packers' rules of the average system, as a trading-standards text gives them", "read"],
  ["SHARMA-2005", "Sharma, Wu, Dalal (2005): CIEDE2000 test pairs", "read"],
  ["CIE-15", "CIE 15 and ISO/CIE 11664: illuminants, observers, L*a*b* and its colour differences", "read"],
  ["ISO-105-J03", "ISO 105-J03: colour difference CMC(l:c), as two public colour libraries write it", "read"],
  ["ISO-105-A02", "ISO 105-A02: grey scale for change in colour", "read"],
  ["ISO-105-A04", "ISO 105-A04: instrumental rating of staining, as two public programs write it", "read"],
  ["ISO-105-A05", "ISO 105-A05: instrumental grey-scale rating, as two public programs write it", "read"],
  ["IEC-61966-2-1", "IEC 61966-2-1: sRGB", "memory"],
  [
    "STEARNS-NOECHEL-1944",
    "Stearns & Noechel, Am. Dyest. Rep. 33 (1944) 177: shade of a fibre blend; the function as a public program writes it",
    "read",
  ],
  ["FRIELE-1952", "Friele, J. Text. Inst. 43 (1952) P604: shade of a fibre blend", "memory"],
  ["BURNS-2017", "Burns (2017), arXiv 1710.05732: a smooth reflectance from tristimulus values", "read"],
  ["VRHEL-1994", "Vrhel, Gershon, Iwan (1994): measured reflectances of objects", "read"],
  ["STIGLER-1945", "Stigler, The Cost of Subsistence (1945): least-cost diet", "read"],
  [
    "FOSSEE-1208",
    "Worked examples of a cost-accounting text (process cost 8.7, 8.9, 8.13; variances 9.7, 9.8, 9.18, 9.22)",
    "read",
  ],
  ["IAS-2", "IAS 2: inventories, what is cost (read in part)", "read"],
  ["IAS-21", "IAS 21: exchange rates (read in part)", "read"],
  ["WTO-VALUATION", "WTO Customs Valuation Agreement", "read"],
  ["19-CFR-24.23", "US customs fees, 19 CFR 24.23 and 24.24; 90 FR 34665 (fiscal year 2026)", "read"],
  ["CARRIER", "Published carriers' guides to chargeable mass", "read"],
  ["IEEE-754", "IEEE 754 and ISO 80000-1: rounding", "memory"],
];

export const SOURCES: readonly Source[] = ROWS.map(([key, title, status]) => ({ key, title, status }));
