/**
 * What the trade calls the columns of tables, besides their own names. Common practice, no source. No word may stand
 * for two columns of one table.
 */
export const HEADING_SYNONYMS: Readonly<Record<string, readonly string[]>> = {
  stage: ["process", "operation", "step"],
  loss: ["waste", "loss of dry input", "process loss"],
  regain_out: ["regain", "regain after", "moisture regain"],
  by_product: ["by-product share", "byproduct", "noil"],
  by_product_price: ["by-product value", "price of by-product", "noil price"],
  basis: ["per", "charged by", "charge basis", "shared by"],
  rate: ["price", "tariff", "charge rate"],
  minimum: ["minimum charge", "least charge"],
  fixed: ["fixed charge", "set-up", "set-up charge"],
  actual_out: ["actual mass out", "mass out", "weighed out"],
  hours: ["machine hours", "time"],
  doublings: ["doubling", "ends up", "slivers fed"],
  draft: ["drafts"],
  date: ["day", "valid from", "as of"],
  from: ["from currency", "currency"],
  to: ["to currency", "into"],
  quantity: ["qty", "pieces", "units"],
  unit_cost: ["cost per unit", "cost", "price per unit"],
  value: ["goods value", "invoice value", "net value"],
  mass: ["weight", "net mass", "net weight", "gross mass"],
  volume: ["cbm", "cubic metres"],
  amount: ["charge", "sum charged"],
};
