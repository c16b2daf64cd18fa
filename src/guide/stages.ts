/** What each family of functions is for, in a sentence a planner would say; the titles stand in docblocks.mjs. */
export const STAGE_PURPOSES: Readonly<Record<string, string>> = {
  count: "How thick the yarn is, in whatever system a contractor writes it, before and after plying and washing.",
  twist: "Spindle and roll speeds, turns, twist factors, and what twist takes up.",
  drafting: "Drafts and doublings from sliver to roving to yarn.",
  evenness: "Fibres in the cross-section, and how even a yarn can be.",
  production: "How long a lot keeps the spindles busy.",
  quality: "Whether what was measured holds what was ordered, and how many tests it takes to say so.",
  wool: "What a core test says a bale of greasy wool is worth.",
  condition: "Moisture: standard regain, conditioned and invoice mass, label composition.",
  fineness: "Micron, grade, combing, and how many bales to core.",
  skein: "How many skeins a lot gives, and whether a pack is heavy enough.",
  route: "How much to start with and how much comes out, stage by stage; dye lots and the bath.",
  schedule:
    "Which day each contractor must start so that the order is there on its day, and where there is time to spare.",
  blend: "Kilograms of each dyed solid for all colourways, and the weigh-up at the card.",
  shade: "Which solids in which shares come near a shade, and how far two shades are apart.",
  cost: "What contractors charge, and how a charge is shared so that it foots.",
  landed: "Freight, insurance, duty and exchange down to the cost of a skein.",
  control: "Margins, variances, joint cost and stock.",
  library: "Which version this is, and what every function rests on.",
};
