import type { Recipe } from "./recipe";

export const RECOVERABLE_TAX: Recipe = {
  file: "recipe-recoverable-tax.html",
  title: "Tax that comes back, and tax that does not",
  situation:
    "Bills for a lot of yarn carry tax, of which most comes back and some does not. Only what does not come back is a cost of the yarn.",
  cells: [{ name: "Skeins", value: 600, meaning: "of the lot" }],
  tables: [
    {
      name: "Bills",
      rows: [
        ["bill", "net", "tax rate", "recovered"],
        ["yarn", 2400, 0.2, 1],
        ["freight", 210, 0.2, 1],
        ["duty", 144, 0, 1],
        ["agent", 75, 0.2, 0.4],
      ],
    },
  ],
  formulas: [
    { name: "Tax", formula: "=YARN.ROUNDCASH(Bills[net]*Bills[tax rate],2)", meaning: "tax on each bill" },
    {
      name: "Cost",
      formula: "=Bills[net]+Tax-YARN.ROUNDCASH(Tax*Bills[recovered],2)",
      meaning: "cost of each, with the tax that stays",
    },
    { name: "Reclaim", formula: "=SUM(YARN.ROUNDCASH(Tax*Bills[recovered],2))", meaning: "tax to reclaim" },
    { name: "EachSkein", formula: "=SUM(Cost)/Skeins", meaning: "cost of a skein" },
  ],
  reading:
    "The tax to reclaim is an amount owed to you and no part of the stock; what is not recovered goes into the cost of the yarn and of each skein.",
  cautions: ["tax", "customs"],
  rests:
    "Cost of purchase leaves out taxes that can be recovered (IAS 2, read in part). Figures worked by hand; rates and shares are invented.",
  words: "vat gst sales tax import tax recoverable recover reclaim input tax non-recoverable partial exemption",
};
