import type { Recipe } from "./recipe";

export const OUTWARD_PROCESSING: Recipe = {
  file: "recipe-outward-processing.html",
  title: "Outward processing: duty on what was added",
  situation:
    "Wool of your own went abroad to be spun and comes back as yarn. Under outward processing the duty falls on what was added abroad and not on your wool.",
  cells: [
    { name: "SentOut", value: 250, meaning: "value of the wool as it was declared on leaving" },
    { name: "DutyRate", value: 0.1, meaning: "rate for the yarn that comes back" },
    { name: "OwnRate", value: 0.15, meaning: "rate for the wool that went out, had it been brought in" },
  ],
  tables: [
    {
      name: "Added",
      rows: [
        ["item", "amount"],
        ["spinning and dyeing", 680],
        ["freight and insurance back", 70],
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
      name: "LessItsOwn",
      formula: "=WithoutRelief-YARN.DUTY(SentOut,0,OwnRate)",
      meaning: "where the law takes off what the wool would have borne at its own rate",
    },
  ],
  reading:
    "The difference between the first figure and the one that your law means is what the authorisation is worth. On what was added the rate is that of the yarn, not that of the wool; whether the freight back belongs to it, the law says too.",
  cautions: ["customs"],
  rests:
    "The added-value method: duty on the customs value less the value of the goods sent out, at the rate of the product (HMRC manual SPE14430, text read). The other: duty on the whole less the duty on the goods sent out (HMRC manual GACV31050, whose example gives 100, 75 and 62.50 for 250 sent out and 750 of processing; read). Its figures, with the processing parted into two.",
  words:
    "outward processing inward relief opr processing abroad duty value added sent out spun abroad re-import compensating",
};
