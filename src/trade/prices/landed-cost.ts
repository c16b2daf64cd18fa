import { apportion, Weights } from "../largest-remainder";
import { plainSum, roundHalfAway, sum, type Amount, type Decimal } from "../money";
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

/** A line, or the total. */
export interface LandedLine {
  /** The value, then its part of every charge. */
  readonly amounts: readonly Amount[];
  readonly total: Amount;
  /** Undefined where no line has a quantity. */
  readonly quantity: Amount | undefined;
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
    const amounts = new Array<Amount>(1 + parts.length);
    amounts[0] = value;
    for (let charge = 0; charge < parts.length; charge++) {
      amounts[1 + charge] = (parts[charge] as readonly Amount[])[row] as Amount;
    }
    return { amounts, total: plainSum(amounts), quantity };
  });
  const amounts = [lines.map(({ value }) => value), ...parts].map(plainSum);
  const counted = lines.map(({ quantity }) => quantity).filter((quantity) => quantity !== undefined);
  const quantity = counted.length === 0 ? undefined : plainSum(counted);
  return [...landed, { amounts, total: plainSum(amounts), quantity }];
}

function ownParts({ amounts, amount }: OwnCharge, index: number, decimals: number): Decimal[] {
  const parts = amounts.map((own) => roundHalfAway(own, decimals));
  const [whole, given] = [sum(parts), amount === undefined ? undefined : roundHalfAway(amount, decimals)];
  if (given !== undefined && !whole.eq(given)) {
    refuse(at("charges", index, "amount"), given.toString(), `the lines' own come to ${whole.toString()}`);
  }
  return parts;
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
