import type { Recipe } from "./recipe";

export const PARTIAL_SHIPMENTS: Recipe = {
  file: "recipe-partial-shipments.html",
  title: "Partial shipments that foot over time",
  situation:
    "An order leaves in parts, and each invoice bears its share of a charge that was paid once. The shares must come to the charge in the end, and one that was invoiced cannot be changed any more.",
  cells: [
    { name: "Charge", value: 1000, meaning: "money, paid once for the whole order" },
    { name: "Ordered", value: 700, meaning: "kg of the whole order" },
  ],
  tables: [
    {
      name: "Shipped",
      rows: [
        ["shipment", "mass", "so far"],
        ["first", 233, 233],
        ["second", 233, 466],
        ["third", 234, 700],
      ],
    },
  ],
  formulas: [
    {
      name: "Share",
      formula:
        "=YARN.ROUNDCASH(YARN.ROUNDCASH(Charge*Shipped[so far]/Ordered,2)-YARN.ROUNDCASH(Charge*(Shipped[so far]-Shipped[mass])/Ordered,2),2)",
      meaning: "what each shipment bears",
    },
    { name: "InAll", formula: "=SUM(Share)", meaning: "foots to the charge" },
    {
      name: "AtOnce",
      formula: "=YARN.APPORTION(Charge,Shipped[mass])",
      meaning: "for comparison: shared when all masses are known",
    },
  ],
  reading:
    "Each shipment bears what is due so far, rounded, less what was due before it, rounded: no cent is lost or charged twice, whatever is still to come. APPORTION foots as well, but needs every mass before the first invoice.",
  cautions: ["tax"],
  rests: "Differences of rounded sums so far. Figures worked by hand.",
  words:
    "partial shipment shipments part deliveries instalment share charge foot foots rounding cents several invoices over time",
};
