/** How a commercial clean yield is worked out from the two bases of a core test. */
export type YieldKindRule =
  | { readonly rule: "scoured"; readonly regain: number }
  | { readonly rule: "clean fibre" }
  | { readonly rule: "customs clean" }
  | { readonly rule: "top and noil" };

export interface YieldKind {
  readonly word: string;
  readonly aliases: readonly string[];
  readonly meaning: string;
  readonly is: YieldKindRule;
  /** Key of tables/sources.ts. */
  readonly source: string;
}

export const YIELD_KINDS: readonly YieldKind[] = [
  {
    word: "scoured 16",
    aliases: ["scoured yield 16", "scoured 16%"],
    meaning: "scoured wool with its vegetable matter, at 16 % regain and 2.27 % residues",
    is: { rule: "scoured", regain: 0.16 },
    source: "CERTIFICATE",
  },
  {
    word: "scoured 17",
    aliases: ["scoured yield 17", "scoured 17%"],
    meaning: "scoured wool with its vegetable matter, at 17 % regain and 2.27 % residues",
    is: { rule: "scoured", regain: 0.17 },
    source: "CERTIFICATE",
  },
  {
    word: "clean fibre",
    aliases: ["clean fiber", "clean wool fibre", "clean wool fiber", "absolute clean content"],
    meaning: "wool fibre with 12 % moisture, 1.5 % extractables and 0.5 % ash",
    is: { rule: "clean fibre" },
    source: "ASTM-D584",
  },
  {
    word: "customs clean",
    aliases: ["customs", "clean yield"],
    meaning: "clean fibre less the allowance of US customs for losses in cleaning",
    is: { rule: "customs clean" },
    source: "19-CFR-151.61",
  },
  {
    word: "top and noil",
    aliases: ["top & noil", "tops and noils"],
    meaning: "top and noil after a processing allowance; from memory, verify before use",
    is: { rule: "top and noil" },
    source: "MEMORY",
  },
];
