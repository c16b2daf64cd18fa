import type { Recipe } from "./recipe";

export const OUTWARD_PROCESSING: Recipe = {
  file: "recipe-outward-processing.html",
  title: "Outward processing: duty on what was added",
  situation:
    "Wool of your own went abroad to be spun and comes back as yarn. Under outward processing the duty falls on what was added abroad and not on your wool.",
  cells: [
    { name: "SentOut", value: 1250, meaning: "value of the wool as it was declared on leaving" },
    { name: "DutyRate", value: 0.1, meaning: "rate for the yarn that comes back" },
  ],
  tables: [
    {
      name: "Added",
      rows: [
        ["item", "amount"],
        ["spinning and dyeing", 625],
        ["freight and insurance back", 125],
      ],
    },
  ],
  formulas: [
    {
      name: "WithoutRelief",
      formula: "=YARN.DUTY(SentOut+SUM(Added[amount]),0,DutyRate)",
      meaning: "duty on the whole value",
    },
    {
      name: "WithRelief",
      formula: "=YARN.DUTY(SUM(Added[amount]),0,DutyRate)",
      meaning: "duty on what was added, the freight back with it",
    },
    {
      name: "FreightLeftOut",
      formula: "=YARN.DUTY(INDEX(Added[amount],1),0,DutyRate)",
      meaning: "where the law leaves the freight back out of the value",
    },
  ],
  reading:
    "The difference between the first figure and the one that your law means is what the authorisation is worth. The rate is that of the yarn, not that of the wool.",
  cautions: ["customs"],
  rests:
    "The added-value method: duty on the customs value less the value of the goods sent out, at the rate of the product (HMRC manual SPE14430, text read). Figures worked by hand.",
  words:
    "outward processing inward relief opr processing abroad duty value added sent out spun abroad re-import compensating",
};
