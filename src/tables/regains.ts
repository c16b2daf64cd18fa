import { FINE_HAIRS } from "./fibres";
import type { SourceStatus } from "./sources";

/** A table of standard (conventional, commercial) regains, by the word a person writes. */
export type RegainSchedule = "EU label" | "GB 9994" | "ASTM" | "trade";

export interface ScheduleRow {
  readonly word: RegainSchedule;
  readonly aliases: readonly string[];
}

export const REGAIN_SCHEDULES: readonly ScheduleRow[] = [
  { word: "EU label", aliases: ["EU", "EU 1007/2011", "Annex IX", "label"] },
  { word: "GB 9994", aliases: ["GB", "GB/T 9994", "GB9994"] },
  { word: "ASTM", aliases: ["ASTM D1909", "D1909", "US"] },
  { word: "trade", aliases: ["trade custom"] },
];

export interface RegainRow {
  readonly fibre: string;
  /** Blank: the schedule gives one value whatever the form. */
  readonly form: string;
  /** Further forms that fall under this row. */
  readonly covers: readonly string[];
  /** Water on dry mass, as a fraction: 0.1825 is 18.25 %. */
  readonly regain: number;
  readonly schedule: RegainSchedule;
  /** Key of tables/sources.ts. */
  readonly source: string;
  readonly status: SourceStatus;
}

type Row = readonly [fibre: string, form: string, percent: number, ...covers: string[]];

// Wool and hair of an unknown cycle: note (1) to the table gives 17.00.
function cycles(fibre: string): readonly Row[] {
  return [
    [fibre, "combed", 18.25, "dry top", "oil top", "worsted yarn"],
    [fibre, "carded", 17, "woollen yarn"],
    [fibre, "unknown", 17],
  ];
}

const EU_LABEL: readonly Row[] = [
  ...cycles("wool"),
  ...([] as Row[]).concat(...FINE_HAIRS.map(([hair]) => cycles(hair))),
  ...cycles("animal hair"),
  ["horsehair", "combed", 16],
  ["horsehair", "carded", 15],
  ["silk", "", 11],
  ["cotton", "normal", 8.5],
  ["cotton", "mercerised", 10.5],
  ["kapok", "", 10.9],
  ["flax", "", 12],
  ["hemp", "", 12],
  ["jute", "", 17],
  ["abaca", "", 14],
  ["alfa", "", 14],
  ["coir", "", 13],
  ["broom", "", 14],
  ["ramie", "bleached", 8.5],
  ["sisal", "", 14],
  ["sunn", "", 12],
  ["henequen", "", 14],
  ["maguey", "", 14],
  ["acetate", "", 9],
  ["alginate", "", 20],
  ["cupro", "", 13],
  ["modal", "", 13],
  ["protein", "", 17],
  ["triacetate", "", 7],
  ["viscose", "", 13],
  ["acrylic", "", 2],
  ["chlorofibre", "", 2],
  ["fluorofibre", "", 0],
  ["modacrylic", "", 2],
  ["polyamide", "staple", 6.25],
  ["polyamide", "filament", 5.75],
  ["aramid", "", 8],
  ["polyimide", "", 3.5],
  ["lyocell", "", 13],
  ["polylactide", "", 1.5],
  ["polyester", "staple", 1.5],
  ["polyester", "filament", 1.5],
  ["polyethylene", "", 1.5],
  ["polypropylene", "", 2],
  ["polycarbamide", "", 2],
  ["polyurethane", "staple", 3.5],
  ["polyurethane", "filament", 3],
  ["vinylal", "", 5],
  ["trivinyl", "", 3],
  ["elastodiene", "", 1],
  ["elastane", "", 1.5],
  ["glass fibre", "over 5 micron", 2],
  ["glass fibre", "5 micron or less", 3],
  ["metal fibre", "", 2],
  ["metallised fibre", "", 2],
  ["asbestos", "", 2],
  ["paper yarn", "", 13.75],
  ["elastomultiester", "", 1.5],
];

/** Fibres that joined the list after the text that was read, or that it has under another name (linen is its flax). */
const EU_LABEL_RECALLED: readonly Row[] = [
  ["linen", "", 12],
  ["elastolefin", "", 1.5],
  ["melamine", "", 7],
  ["polypropylene/polyamide bicomponent", "", 1],
  ["polyacrylate", "", 30],
];

const GB_9994: readonly Row[] = [
  ["wool", "scoured mixed", 15],
  ["wool", "scoured", 16],
  ["wool", "noil", 16],
  ["wool", "recycled", 17],
  ["wool", "dry top", 18.25],
  ["wool", "oil top", 19],
  ["cotton", "normal", 8.5],
  ["cotton", "fabric", 8],
];

const GB_9994_RECALLED: readonly Row[] = [
  ["wool", "worsted yarn", 16],
  ["wool", "woollen yarn", 15],
  ["wool", "hand-knitting yarn", 15],
  ["wool", "fabric", 14],
  ["cashmere", "", 15],
  ["angora", "", 15],
  ["camel", "", 15],
  ["yak", "", 15],
  ["mohair", "", 14],
  ["cotton", "yarn", 8.5],
  ["silk", "", 11],
  ["flax", "", 12],
  ["linen", "", 12],
  ["ramie", "", 12],
  ["hemp", "", 12],
  ["jute", "", 14],
  ["viscose", "", 13],
  ["acetate", "", 7],
  ["triacetate", "", 3.5],
  ["polyamide", "", 4.5],
  ["polyester", "", 0.4],
  ["acrylic", "", 2],
  ["polypropylene", "", 0],
  ["vinylal", "", 5],
  ["chlorofibre", "", 0],
  ["elastane", "", 1.3],
];

const ASTM: readonly Row[] = [
  ["wool", "", 13.6],
  ["cotton", "normal", 8.5],
  ["flax", "", 12],
  ["hemp", "", 12],
  ["jute", "", 13.75],
  ["silk", "", 11],
];

const ASTM_RECALLED: readonly Row[] = [
  ["cotton", "yarn", 7],
  ["cotton", "mercerised", 8.5],
  ["linen", "", 8.75],
  ["acetate", "", 6.5],
  ["triacetate", "", 3.5],
  ["viscose", "", 11],
  ["acrylic", "", 1.5],
  ["polyamide", "", 4.5],
  ["polyester", "", 0.4],
  ["polypropylene", "", 0],
  ["elastane", "", 1.3],
];

/** Customary in contracts for wool and its tops, noils and yarns. */
const TRADE_RECALLED: readonly Row[] = [
  ["wool", "scoured", 16],
  ["wool", "dry top", 18.25],
  ["wool", "oil top", 19],
  ["wool", "noil", 16],
  ["wool", "worsted yarn", 18.25],
  ["wool", "woollen yarn", 17],
  ["silk", "", 11],
  ["cotton", "normal", 8.5],
];

function rows(schedule: RegainSchedule, source: string, status: SourceStatus, list: readonly Row[]): RegainRow[] {
  return list.map(([fibre, form, percent, ...covers]) => ({
    fibre,
    form,
    covers,
    // The shortest decimal of the quotient is the printed figure: 18.25 / 100 is 0.1825.
    regain: percent / 100,
    schedule,
    source,
    status,
  }));
}

export const REGAINS: readonly RegainRow[] = [
  ...rows("EU label", "EU-1007-2011", "read", EU_LABEL),
  ...rows("EU label", "MEMORY", "memory", EU_LABEL_RECALLED),
  ...rows("GB 9994", "GB-9994", "read", GB_9994),
  ...rows("GB 9994", "MEMORY", "memory", GB_9994_RECALLED),
  ...rows("ASTM", "ASTM-D1909", "read", ASTM),
  ...rows("ASTM", "MEMORY", "memory", ASTM_RECALLED),
  ...rows("trade", "MEMORY", "memory", TRADE_RECALLED),
];
