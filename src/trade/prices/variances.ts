import { Decimal, sum } from "../money";
import { proportion } from "../proportion";
import { dividedByZero } from "../refusal";

/** One material of a mix. The standard quantity is what the output actually made should have taken. */
export interface Material {
  readonly standardQuantity: number;
  readonly actualQuantity: number;
  readonly standardPrice: number;
  readonly actualPrice: number;
}

/** Money; above 0 is favourable. usage = mix + yield and total = price + usage, exactly. */
export interface Variances {
  readonly price: Decimal;
  readonly mix: Decimal;
  readonly yield: Decimal;
  readonly usage: Decimal;
  readonly total: Decimal;
}

/** At what price a departure from the standard mix is valued: the material's own, or its difference from the average. */
export type MixMethod = "individual" | "average";

/** Variances of each material. */
export function materialVariances(materials: readonly Material[], method: MixMethod): Variances[] {
  const standardTotal = sum(materials.map(({ standardQuantity }) => standardQuantity));
  const actualTotal = sum(materials.map(({ actualQuantity }) => actualQuantity));
  if (standardTotal.isZero()) dividedByZero("standard_quantity", "0 in all", "must not sum to 0");
  const standardCost = sum(materials.map((material) => costOf(material.standardQuantity, material.standardPrice)));

  return materials.map(({ standardQuantity, actualQuantity, standardPrice, actualPrice }) => {
    const expected = costOf(standardQuantity, standardPrice);
    const actualAtStandard = costOf(actualQuantity, standardPrice);
    const price = actualAtStandard.minus(costOf(actualQuantity, actualPrice));
    const usage = expected.minus(actualAtStandard);
    // The quantity actually used, at the standard mix and the standard price.
    let mix = proportion(expected, actualTotal, standardTotal).minus(actualAtStandard);
    if (method === "average") {
      // (standard mix - actual) × (price - average price): the part at the average price belongs to the yield. Over
      // all materials that part is nothing, so both methods agree in total.
      const departure = actualTotal.times(standardQuantity).minus(standardTotal.times(actualQuantity));
      mix = mix.minus(proportion(departure, standardCost, standardTotal.times(standardTotal)));
    }
    // As the remainder it makes the three add up exactly; by itself it is (standard - standard mix) × price.
    return { price, mix, yield: usage.minus(mix), usage, total: price.plus(usage) };
  });
}

export function totalOf(variances: readonly Variances[]): Variances {
  return {
    price: sum(variances.map(({ price }) => price)),
    mix: sum(variances.map(({ mix }) => mix)),
    yield: sum(variances.map((each) => each.yield)),
    usage: sum(variances.map(({ usage }) => usage)),
    total: sum(variances.map(({ total }) => total)),
  };
}

function costOf(quantity: number, price: number): Decimal {
  return new Decimal(quantity).times(price);
}
