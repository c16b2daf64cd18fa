import { Fraction, greater } from "./fractions";

/** The rules of the route and its cost, written again from their words in exact fractions. */

export interface RuledStage {
  readonly loss: number;
  readonly regainOut: number;
  readonly byProduct: number;
  /** Mass that really came out, where it is known: the next stage starts from it. */
  readonly actualOut?: number | undefined;
}

export interface RuledPrice {
  readonly byProductPrice: number;
  readonly basis: string;
  readonly rate: number;
  readonly minimum: number;
  readonly fixed: number;
  readonly hours?: number | undefined;
}

const ONE = Fraction.of(1n);

/** Columns of the ledger from "mass in" to "yield so far", one row a stage. */
export function ruledMasses(
  quantity: number,
  stages: readonly RuledStage[],
  direction: string,
  regainStart: number,
): Fraction[][] {
  const forward = (first: Fraction, known: boolean): Fraction[][] => {
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
      const actual = known ? stage.actualOut : undefined;
      massIn = actual === undefined ? massOut : Fraction.from(actual);
      dryIn = actual === undefined ? dryOut : massIn.over(ONE.plus(Fraction.from(stage.regainOut)));
      return row;
    });
  };
  const given = Fraction.from(quantity);
  if (direction === "made") return forward(given, true);
  // Every stage is in proportion to the first mass: what one unit is expected to make says how many are needed.
  const madeOfOne = (forward(ONE, false)[stages.length - 1] as Fraction[])[6] as Fraction;
  return forward(given.over(madeOfOne), true);
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
    const delivered = stage.actualOut === undefined ? massOut : Fraction.from(stage.actualOut);
    const quantities: Record<string, Fraction> = {
      "per in": massIn,
      "per out": delivered,
      "per lot": ONE,
      "per skein": Fraction.of(delivered.over(Fraction.from(skeinMass)).floor()),
      "per hour": Fraction.from(stage.hours ?? 0),
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
    if (stage.actualOut === undefined) return;
    // What is lost beyond the expected leaves at the unit cost reached; a gain comes in at it.
    const lost = cost.times(massOut.minus(delivered)).over(massOut).rounded(2);
    cost = cost.minus(lost);
    rows.push([massOut, delivered, zero.minus(lost), zero, cost, cost.over(delivered)]);
  });
  return rows;
}
