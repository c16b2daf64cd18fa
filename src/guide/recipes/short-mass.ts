import type { Recipe } from "./recipe";

export const SHORT_MASS: Recipe = {
  file: "recipe-short-mass.html",
  title: "A claim for short mass, at standard condition",
  situation:
    "A spinner was sent top and owes yarn, less a loss that was agreed. Top and yarn were each weighed at the moisture of their day, so both are brought to standard condition before anything is claimed.",
  cells: [
    { name: "TopSent", value: 1000, meaning: "kg of top, as weighed" },
    { name: "TopRegain", value: 0.16, meaning: "its regain then" },
    { name: "AgreedLoss", value: 0.04, meaning: "of the dry mass" },
    { name: "YarnBack", value: 930, meaning: "kg of yarn, net as weighed" },
    { name: "Sample", value: 500, meaning: "g of sample from it" },
    { name: "SampleDry", value: 430, meaning: "g of the sample, oven-dry" },
    { name: "Standard", value: 0.1825, meaning: "regain that the contract names" },
    { name: "Price", value: 18.4, meaning: "money for a kg of yarn at standard" },
  ],
  tables: [],
  formulas: [
    {
      name: "Owed",
      formula: "=YARN.MADE(YARN.CONDITIONED(TopSent,TopRegain,Standard),AgreedLoss)",
      meaning: "kg owed, at standard",
    },
    {
      name: "Delivered",
      formula: "=YARN.INVOICEMASS(YarnBack,Sample,SampleDry,Standard)",
      meaning: "kg delivered, at standard",
    },
    { name: "Claim", formula: "=ROUND((Owed-Delivered)*Price,2)", meaning: "money for what is missing" },
    {
      name: "TrueLoss",
      formula: "=YARN.STAGELOSS(TopSent,TopRegain,YarnBack,YARN.MEASUREDREGAIN(Sample,SampleDry))",
      meaning: "loss as it was, of the dry mass",
    },
  ],
  reading:
    "Reckoned as weighed, 960 kg were owed and 30 are missing; at standard condition it is more, because the yarn came back a little damper than the top had left. The last figure, beside the agreed loss, says the same without any standard.",
  cautions: ["tax"],
  rests:
    "Net × dry / sample × (1 + standard regain), as a conditioning house reckons. Figures worked by hand. What may be claimed, and until when, is in the contract.",
  words:
    "claim short mass weight shortage shortfall contractor spinner missing kilograms complaint under-delivery standard condition",
};
