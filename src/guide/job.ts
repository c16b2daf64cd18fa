/** The job as ten steps, each with the families of functions that belong to it and the sign it is drawn with. */
export interface Step {
  readonly sign: string;
  readonly title: string;
  readonly sentence: string;
  readonly families: readonly string[];
}

export const STEPS: readonly Step[] = [
  {
    sign: "thicknesses",
    title: "Say which yarn",
    sentence: "Its count, in whatever system the contractor writes.",
    families: ["count"],
  },
  {
    sign: "strands",
    title: "Twist and ply it",
    sentence: "Turns, twist factor and what plying takes up.",
    families: ["twist"],
  },
  {
    sign: "drafts",
    title: "Draw it fine",
    sentence: "Drafts, doublings, and how even it can be.",
    families: ["drafting", "evenness"],
  },
  {
    sign: "bale",
    title: "Buy the wool",
    sentence: "What a core test says a bale is worth.",
    families: ["wool", "fineness"],
  },
  {
    sign: "stream",
    title: "Work out the quantities",
    sentence: "What to start with, what comes out, what is lost.",
    families: ["route"],
  },
  {
    sign: "shades",
    title: "Find the shade",
    sentence: "Which solids in which shares, and how far off.",
    families: ["shade"],
  },
  {
    sign: "layers",
    title: "Blend the solids",
    sentence: "Kilograms to dye, slivers to creel, layers to weigh.",
    families: ["blend"],
  },
  {
    sign: "days",
    title: "Give it days and machines",
    sentence: "Who must start when, and how long it runs.",
    families: ["schedule", "production"],
  },
  {
    sign: "skein",
    title: "Weigh, test and pack",
    sentence: "Regain, the order's tolerances, skeins and labels.",
    families: ["condition", "quality", "skein"],
  },
  {
    sign: "pile",
    title: "Work out the cost",
    sentence: "Charges, landed cost, margins and stock.",
    families: ["cost", "landed", "control"],
  },
];
