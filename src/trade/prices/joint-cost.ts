import { apportion } from "../largest-remainder";
import { asShown, Decimal, sum, type Amount } from "../money";
import { at, dividedByZero, refuse } from "../refusal";

export interface JointProduct {
  readonly quantity: number;
  /** Per unit of the quantity. */
  readonly price: number;
  /** What is spent on this product alone after the split, in total. */
  readonly separable: number;
}

export type JointMethod = "physical" | "sales value" | "net realisable" | "constant margin";

/** What each product bears of a cost they have in common, to the cent; the parts sum to the cost exactly. */
export function jointCostShares(cost: number, products: readonly JointProduct[], method: JointMethod): Amount[] {
  if (method === "physical") {
    return apportion(
      cost,
      products.map(({ quantity }) => quantity),
      2,
      "quantities",
    );
  }
  const sales = products.map(({ quantity, price }) => new Decimal(quantity).times(price));
  if (method === "sales value") return apportion(cost, sales, 2, "sales value");
  if (method === "net realisable") {
    return apportion(
      cost,
      sales.map((value, index) => netRealisable(value, products[index] as JointProduct, index)),
      2,
      "net realisable value",
    );
  }
  // The same share of every product's sales is cost, joint and separable together; so a product with a large
  // separable cost can get less than nothing of the joint cost, which is the method's own and not an error.
  const totalSales = sum(sales);
  if (totalSales.isZero()) dividedByZero("sales value", "0 in all", "must not sum to 0");
  const totalCost = sum(products.map(({ separable }) => separable)).plus(cost);
  return apportion(
    cost,
    sales.map((value, index) =>
      value
        .times(totalCost)
        .div(totalSales)
        .minus((products[index] as JointProduct).separable),
    ),
  );
}

function netRealisable(sales: Decimal, { separable }: JointProduct, index: number): Decimal {
  const value = asShown(sales).minus(asShown(separable));
  if (value.isNegative()) {
    refuse(at("separable", index), String(separable), `must not exceed its sales value of ${sales.toString()}`);
  }
  return value;
}
