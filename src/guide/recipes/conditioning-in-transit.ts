import type { Recipe } from "./recipe";

export const CONDITIONING_IN_TRANSIT: Recipe = {
  file: "recipe-conditioning-in-transit.html",
  title: "Yarn that takes up moisture on the way",
  situation:
    "Yarn was weighed dry at the mill and damp at the warehouse, so it arrived heavier than it left or not as much heavier as it should be. The question is whether any yarn is missing.",
  cells: [{ name: "Standard", value: 0.1825, meaning: "regain of the contract" }],
  tables: [
    {
      name: "Weighed",
      rows: [
        ["where", "net", "sample", "dry"],
        ["mill", 1000, 500, 446.43],
        ["warehouse", 1032, 500, 431.03],
      ],
    },
  ],
  formulas: [
    {
      name: "Regains",
      formula: "=YARN.MEASUREDREGAIN(Weighed[sample],Weighed[dry])",
      meaning: "regain at both ends",
    },
    {
      name: "ShouldBe",
      formula: "=YARN.CONDITIONED(INDEX(Weighed[net],1),INDEX(Regains,1),INDEX(Regains,2))",
      meaning: "kg that what left would weigh at the warehouse",
    },
    {
      name: "AtStandard",
      formula: "=YARN.INVOICEMASS(Weighed[net],Weighed[sample],Weighed[dry],Standard)",
      meaning: "kg at both ends, at standard",
    },
    {
      name: "Missing",
      formula: "=INDEX(AtStandard,1)-INDEX(AtStandard,2)",
      meaning: "kg missing, at standard",
    },
  ],
  reading:
    "32 kg more on the scale, and yet less yarn: what left would have weighed more still at the warehouse's moisture. Only figures at one and the same regain can be compared.",
  cautions: ["labels"],
  rests: "Mass × dry / sample × (1 + regain). Figures worked by hand.",
  words:
    "transit transport moisture humidity sea container gained weight heavier damp arrived conditioning difference warehouse",
};
