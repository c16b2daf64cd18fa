import { apportion, Weights, type Amount } from "../largest-remainder";
import { Decimal, roundHalfAway, sum } from "../money";
import { at, refuse, said } from "../refusal";

/** One line of a shipment. A blank measure may stay blank as long as no charge is shared by it. */
export interface ShipmentLine {
  readonly value: number;
  readonly mass: number | undefined;
  readonly volume: number | undefined;
  readonly quantity: number | undefined;
}

/** What a shared charge follows. */
export type SharingBasis = "value" | "mass" | "volume" | "quantity" | "equal";

/** A charge for the whole shipment. */
export interface SharedCharge {
  readonly amount: number;
  readonly basis: SharingBasis;
}

/** A charge that each line has of its own: duty by its tariff line, a claim. */
export interface OwnCharge {
  /** What each line bears, in the order of the lines. */
  readonly amounts: readonly number[];
  /** What they must come to, where it is known. */
  readonly amount: number | undefined;
}

/** A line, or the total, with its part of every charge. */
export interface LandedLine {
  readonly value: Decimal;
  readonly charges: readonly Amount[];
  readonly total: Decimal;
  /** Undefined where no line has a quantity. */
  readonly quantity: Decimal | undefined;
}

/**
 * Shares every charge out over the lines to the minor unit, so that it foots; then adds across. The total is the last
 * item. Values are taken as they stand in the invoice, so nothing is lost between it and the total.
 */
export function landedCost(
  lines: readonly ShipmentLine[],
  charges: readonly (SharedCharge | OwnCharge)[],
  decimals: number,
): LandedLine[] {
  const ready = new Map<SharingBasis, Weights>();
  const parts = charges.map((charge, index) => {
    if ("amounts" in charge) return ownParts(charge, index, decimals);
    const { amount, basis } = charge;
    let weights = ready.get(basis);
    if (weights === undefined) {
      ready.set(basis, (weights = new Weights(lines.map((line, row) => weightOf(line, row, basis, index)))));
    }
    return apportion(amount, weights, decimals, at("charges", index, `basis ${basis}`));
  });
  const landed = lines.map(({ value, quantity }, row) => {
    const own = parts.map((part) => part[row] as Amount);
    return landedLine(new Decimal(value), own, quantity === undefined ? undefined : new Decimal(quantity));
  });
  const counted = lines.map(({ quantity }) => quantity).filter((quantity) => quantity !== undefined);
  const total = landedLine(
    sum(lines.map(({ value }) => value)),
    parts.map((part) => sum(part)),
    counted.length === 0 ? undefined : sum(counted),
  );
  return [...landed, total];
}

function ownParts({ amounts, amount }: OwnCharge, index: number, decimals: number): Decimal[] {
  const parts = amounts.map((own) => roundHalfAway(own, decimals));
  const [whole, given] = [sum(parts), amount === undefined ? undefined : roundHalfAway(amount, decimals)];
  if (given !== undefined && !whole.eq(given)) {
    refuse(at("charges", index, "amount"), given.toString(), `the lines' own come to ${whole.toString()}`);
  }
  return parts;
}

function landedLine(value: Decimal, charges: readonly Amount[], quantity: Decimal | undefined): LandedLine {
  return { value, charges, total: value.plus(sum(charges)), quantity };
}

function weightOf(line: ShipmentLine, row: number, basis: SharingBasis, charge: number): number {
  if (basis === "equal") return 1;
  const weight = line[basis];
  if (weight !== undefined && weight < 0) {
    refuse(at("lines", row, basis), String(weight), "a return bears no share of a charge; leave the line out");
  }
  if (weight !== undefined) return weight;
  return refuse(at("lines", row, basis), "blank", said`${at("charges", charge)} is shared by ${basis}`);
}
