import { Decimal, roundHalfAway, ZERO } from "../money";
import { figure } from "../plausible";
import { at, refuse, said } from "../refusal";
import { massLedger, wet, type Direction, type Stage, type StageMasses } from "../route/route";
import { wholeDown, wholeUp } from "../whole";

/** No stage makes or loses so many times what is expected; a yield in the place of a mass does. Common practice, no source. */
const MOST_TIMES = 20;

/** What a stage's rate is charged on. */
export type ChargeBasis = "per in" | "per out" | "per lot" | "per skein" | "per hour" | "percent";

/** A stage with its price. A blank is undefined where it is not the same as 0. */
export interface PricedStage extends Stage {
  /** For a unit of the by-product's mass at the stage's regain out. */
  readonly by_product_price: number | undefined;
  readonly basis: ChargeBasis | undefined;
  readonly rate: number | undefined;
  readonly minimum: number;
  readonly fixed: number;
  /** Mass that really came out, where it is known. */
  readonly actual_out: number | undefined;
  readonly hours: number | undefined;
  /** Mass in of one lot: the rate per lot and the fixed charge are paid for every lot begun. */
  readonly lot_size?: number | undefined;
  /** Money of the result for a unit of the money in which the stage is priced. */
  readonly currency_rate?: number | undefined;
}

/** One line of the cost ledger: cost so far = the line before + charge - credit. */
export interface CostLine {
  readonly stage: string;
  readonly massIn: Decimal;
  readonly massOut: Decimal;
  readonly charge: Decimal;
  readonly credit: Decimal;
  readonly costSoFar: Decimal;
}

const CENT_DECIMALS = 2;
/** Masses are kept to forty digits; after a division a tie between two cents, or no difference at all, shows in thirty. */
const CERTAIN_DIGITS = 30;

/**
 * Rolls the charges of a route up on its mass ledger. A normal loss carries no cost: the cost stays on what comes out.
 * Where the actual output differs from the expected, the difference leaves on a line of its own at the unit cost
 * reached (IAS-2: abnormal waste is no cost of the goods); more than expected comes in at that unit cost.
 */
export function routeCost(
  quantity: number,
  stages: readonly PricedStage[],
  direction: Direction,
  startPrice: number,
  regainStart: number,
  skeinMass: number | undefined,
): CostLine[] {
  const actualOut = stages.map(({ actual_out }) => actual_out);
  const ledger = massLedger(quantity, stages, direction, regainStart, actualOut);
  const start = (ledger[0] as StageMasses).massIn;
  const material = cents(start.times(startPrice));
  const lines: CostLine[] = [
    { stage: "start", massIn: start, massOut: start, charge: material, credit: ZERO, costSoFar: material },
  ];
  let costSoFar = material;
  const add = (line: Omit<CostLine, "costSoFar">): void => {
    costSoFar = costSoFar.plus(line.charge).minus(line.credit);
    lines.push({ ...line, costSoFar });
  };
  stages.forEach((stage, index) => {
    const { massIn, byProductDry, massOut } = ledger[index] as StageMasses;
    const delivered = stage.actual_out === undefined ? massOut : new Decimal(stage.actual_out);
    const charge = stageCharge(stage, index, { massIn, delivered, costSoFar, skeinMass });
    add({ stage: stage.stage, massIn, massOut, charge, credit: byProductCredit(stage, index, byProductDry) });
    if (stage.actual_out === undefined) return;
    const times = delivered.div(massOut).toNumber();
    if (times > MOST_TIMES || times < 1 / MOST_TIMES) {
      refuse(
        at("stages", index, "actual_out"),
        String(stage.actual_out),
        `must be a mass; ${figure(massOut.toNumber())} is expected`,
      );
    }
    const lost = massOut.toSignificantDigits(CERTAIN_DIGITS).minus(delivered);
    add({
      stage: `${stage.stage}: abnormal ${lost.isNegative() ? "gain" : "loss"}`,
      massIn: massOut,
      massOut: delivered,
      charge: cents(costSoFar.times(lost).div(massOut)).negated(),
      credit: ZERO,
    });
  });
  return lines;
}

interface Charged {
  readonly massIn: Decimal;
  /** What the contractor hands over and bills: the actual output where it is known. */
  readonly delivered: Decimal;
  readonly costSoFar: Decimal;
  readonly skeinMass: number | undefined;
}

/** The larger of rate × quantity and the minimum, plus the fixed charge. */
function stageCharge(stage: PricedStage, index: number, charged: Charged): Decimal {
  const { basis, rate, minimum, fixed } = stage;
  if (basis !== undefined && rate === undefined) {
    refuse(at("stages", index, "rate"), "blank", `basis is ${basis}; give a rate, or leave both blank`);
  }
  if (basis === undefined && rate !== undefined && rate !== 0) {
    refuse(at("stages", index, "basis"), "blank", `rate is ${rate}; give a basis, or leave both blank`);
  }
  const atRate = basis === undefined ? ZERO : quantityOf(basis, stage, index, charged).times(rate as number);
  return converted(Decimal.max(atRate, minimum).plus(lotsOf(stage, charged.massIn).times(fixed)), stage);
}

function lotsOf({ lot_size }: PricedStage, massIn: Decimal): Decimal {
  return lot_size === undefined ? new Decimal(1) : wholeUp(massIn, lot_size);
}

/** As invoiced, to the cent, and then in the money of the result. */
function converted(amount: Decimal, { currency_rate }: PricedStage): Decimal {
  const invoiced = cents(amount);
  return currency_rate === undefined ? invoiced : cents(invoiced.times(currency_rate));
}

function quantityOf(basis: ChargeBasis, stage: PricedStage, index: number, charged: Charged): Decimal {
  const { rate, hours, currency_rate = 1 } = stage;
  switch (basis) {
    case "per in":
      return charged.massIn;
    case "per out":
      return charged.delivered;
    case "per lot":
      return lotsOf(stage, charged.massIn);
    case "per skein":
      if (charged.skeinMass === undefined)
        refuse("skein_mass", "blank", said`${at("stages", index)} is charged per skein; give it`);
      return wholeDown(charged.delivered, charged.skeinMass);
    case "per hour":
      if (hours === undefined) refuse(at("stages", index, "hours"), "blank", "basis is per hour; give them");
      return new Decimal(hours);
    case "percent":
      if ((rate as number) >= 1) {
        const written = Number(((rate as number) / 100).toPrecision(12));
        refuse(
          at("stages", index, "rate"),
          String(rate),
          `of basis percent must be below 1; write ${rate as number}% or ${written}`,
        );
      }
      return charged.costSoFar.div(currency_rate);
  }
}

function byProductCredit(stage: PricedStage, index: number, dry: Decimal): Decimal {
  const { by_product, by_product_price, regain_out } = stage;
  if (by_product !== 0 && by_product_price === undefined) {
    refuse(at("stages", index, "by_product_price"), "blank", "give what a unit of its mass brings, or 0");
  }
  return converted(dry.times(wet(regain_out)).times(by_product_price ?? 0), stage);
}

function cents(amount: Decimal): Decimal {
  return roundHalfAway(amount.toSignificantDigits(CERTAIN_DIGITS), CENT_DECIMALS);
}
