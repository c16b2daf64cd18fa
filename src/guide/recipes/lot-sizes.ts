import type { Recipe } from "./recipe";

export const LOT_SIZES: Recipe = {
  file: "recipe-lot-sizes.html",
  title: "From which quantity the larger lot pays",
  situation:
    "A dyehouse offers a small, a middle and a large vat: the larger, the more a lot costs before the first kilogram and the less each kilogram. The order is not fixed yet, and the question is where one becomes cheaper than the other.",
  cells: [{ name: "Ordered", value: 4000, meaning: "kilograms of this order" }],
  tables: [
    {
      name: "Vats",
      rows: [
        ["name", "basis", "rate", "fixed"],
        ["small", "per in", 3.2, 0],
        ["middle", "per in", 2.88, 800],
        ["large", "per in", 2.58, 5600],
      ],
    },
  ],
  formulas: [
    {
      name: "MiddleFrom",
      formula: "=YARN.BREAKEVEN(INDEX(Vats[fixed],2)-INDEX(Vats[fixed],1),INDEX(Vats[rate],1),INDEX(Vats[rate],2))",
      meaning: "kilograms from which the middle vat is no dearer than the small one",
    },
    {
      name: "LargeFrom",
      formula: "=YARN.BREAKEVEN(INDEX(Vats[fixed],3)-INDEX(Vats[fixed],2),INDEX(Vats[rate],2),INDEX(Vats[rate],3))",
      meaning: "kilograms from which the large vat is no dearer than the middle one",
    },
    {
      name: "Ranked",
      formula: "=YARN.QUOTES(Ordered,Vats[#All],0)",
      meaning: "the three for this order, the cheapest first",
    },
  ],
  reading:
    "What one lot costs more before the first kilogram, over what it saves on each, is the quantity at which both cost the same; up to it the smaller one is cheaper. The ranking says the same for one order.",
  cautions: ["pressure"],
  rests:
    "Two straight lines and where they meet, as books on operations reckon it (bought at 200, or 80,000 and 75 each, or 200,000 and 15 each: from 640 and from 2,000; read). Figures worked by hand.",
  words:
    "break-even breakeven lot size sizes vat small large batch indifference crossover cheaper from which quantity dyehouse minimum",
};
