import { Fraction, greater } from "./fractions";

/** The rules of the route and its cost, written again from their words in exact fractions. */

export interface RuledStage {
  readonly loss: number;
  readonly regainOut: number;
  readonly byProduct: number;
}

export interface RuledPrice {
  readonly byProductPrice: number;
  readonly basis: string;
  readonly rate: number;
  readonly minimum: number;
  readonly fixed: number;
}

const ONE = Fraction.of(1n);

/** Columns of the ledger from "mass in" to "yield so far", one row a stage. */
export function ruledMasses(
  quantity: number,
  stages: readonly RuledStage[],
  direction: string,
  regainStart: number,
): Fraction[][] {
  const forward = (first: Fraction): Fraction[][] => {
    let massIn = first;
    let dryIn = first.over(ONE.plus(Fraction.from(regainStart)));
    return stages.map((stage) => {
      const loss = dryIn.times(Fraction.from(stage.loss));
      const byProduct = dryIn.times(Fraction.from(stage.byProduct));
      const dryOut = dryIn.times(ONE.minus(Fraction.from(stage.loss)).minus(Fraction.from(stage.byProduct)));
      const massOut = dryOut.times(ONE.plus(Fraction.from(stage.regainOut)));
      const row = [
        massIn,
        dryIn,
        byProduct,
        loss,
        dryOut,
        Fraction.from(stage.regainOut),
        massOut,
        massOut.over(first),
      ];
      massIn = massOut;
      dryIn = dryOut;
      return row;
    });
  };
  const given = Fraction.from(quantity);
  if (direction === "made") return forward(given);
  // Every stage is in proportion to the first mass: what one unit makes says how many are needed.
  const madeOfOne = (forward(ONE)[stages.length - 1] as Fraction[])[6] as Fraction;
  return forward(given.over(madeOfOne));
}

/** Columns from "mass in" to "cost per unit out", the row "start" first. */
export function ruledCosts(
  masses: readonly Fraction[][],
  stages: readonly (RuledStage & RuledPrice)[],
  startPrice: number,
  skeinMass: number,
): Fraction[][] {
  const zero = Fraction.of(0n);
  const first = (masses[0] as Fraction[])[0] as Fraction;
  let cost = first.times(Fraction.from(startPrice)).rounded(2);
  const rows = [[first, first, cost, zero, cost, cost.over(first)]];
  stages.forEach((stage, index) => {
    const [massIn, , byProduct, , , , massOut] = masses[index] as Fraction[] as [
      Fraction,
      Fraction,
      Fraction,
      Fraction,
      Fraction,
      Fraction,
      Fraction,
    ];
    const quantities: Record<string, Fraction> = {
      "per in": massIn,
      "per out": massOut,
      "per lot": ONE,
      "per skein": Fraction.of(massOut.over(Fraction.from(skeinMass)).floor()),
      percent: cost,
    };
    const atRate = (quantities[stage.basis] as Fraction).times(Fraction.from(stage.rate));
    const charge = greater(atRate, Fraction.from(stage.minimum)).plus(Fraction.from(stage.fixed)).rounded(2);
    const credit = byProduct
      .times(ONE.plus(Fraction.from(stage.regainOut)))
      .times(Fraction.from(stage.byProductPrice))
      .rounded(2);
    cost = cost.plus(charge).minus(credit);
    rows.push([massIn, massOut, charge, credit, cost, cost.over(massOut)]);
  });
  return rows;
}
