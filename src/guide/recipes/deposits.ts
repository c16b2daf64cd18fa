import type { Recipe } from "./recipe";

export const DEPOSITS: Recipe = {
  file: "recipe-deposits.html",
  title: "Deposits and instalments at their own exchange rates",
  situation:
    "A mill abroad was paid a deposit when the order was placed, an instalment in between and the rest on delivery. Each payment takes the rate of its own day, so the yarn has no single exchange rate.",
  cells: [],
  tables: [
    {
      name: "Paid",
      rows: [
        ["date", "amount", "what"],
        [46035, 6000, "deposit"],
        [46066, 4000, "instalment"],
        [46096, 10000, "on delivery"],
      ],
    },
    {
      name: "Rates",
      rows: [
        ["date", "from", "to", "rate"],
        [46023, "EUR", "USD", 1.1],
        [46054, "EUR", "USD", 1.12],
        [46082, "EUR", "USD", 1.08],
      ],
    },
  ],
  formulas: [
    {
      name: "Each",
      formula: '=YARN.EXCHANGE(Paid[amount],"EUR","USD",Paid[date],Rates[#All])',
      meaning: "each payment at the rate that held on its day",
    },
    { name: "YarnCost", formula: "=SUM(Each)", meaning: "what the yarn cost" },
    { name: "OneRate", formula: "=YarnCost/SUM(Paid[amount])", meaning: "the rate that it comes to" },
  ],
  reading:
    "The cost is the sum of the payments, each at its own rate, and stays so however the rate moves later. Dates are the sheet's own; the table of rates may be as long as you like.",
  cautions: ["tax"],
  rests:
    "What was paid in advance keeps the rate of its day (IAS 21 as IFRIC 22 reads it, from memory: verify before use). Figures worked by hand.",
  words:
    "deposit deposits instalment instalments prepayment advance payment exchange rate currency ifric 22 down payment",
};
