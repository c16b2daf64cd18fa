import { asShown } from "../money";
import { wholeUp } from "../whole";

/** What a contractor's rate is charged on. */
export type QuoteBasis = "per in" | "per out" | "per lot";

/** A contractor's quote for one stage. */
export interface Quote {
  readonly name: string;
  readonly basis: QuoteBasis;
  readonly rate: number;
  readonly minimum: number;
  readonly fixed: number;
  /** Largest mass in of one lot; without it everything is one lot. */
  readonly lot_size: number | undefined;
  readonly lot_fee: number;
  /** Share of the dry input. */
  readonly loss: number;
  /** Regain at which masses are billed; without it that of the quantity. */
  readonly regain: number | undefined;
}

/** A quote for the quantity, with the material that goes into it. */
export interface QuoteLine {
  readonly quote: Quote;
  /** At the regain of the quantity, as it is paid for. */
  readonly massIn: number;
  readonly material: number;
  readonly charge: number;
  readonly perUnit: number;
  /** The quantity nearest to the one asked for at which it costs the same as the quote ranked before it. */
  readonly turnsAt: number | undefined;
}

/** What is needed to work a quote out for any quantity. */
interface Terms {
  readonly quote: Quote;
  readonly materialPrice: number;
  /** Mass in for a unit delivered, at the regain of the quantity. */
  readonly inPerUnit: number;
  /** Masses billed for a unit delivered. */
  readonly billedIn: number;
  readonly billedOut: number;
}

/** Quotes for a quantity delivered at a regain, the cheapest first; equals keep their order. */
export function rankQuotes(
  quantity: number,
  quotes: readonly Quote[],
  materialPrice: number,
  regain: number,
): QuoteLine[] {
  const lines = quotes.map((quote) => {
    const inPerUnit = 1 / (1 - quote.loss);
    const billed = (1 + (quote.regain ?? regain)) / (1 + regain);
    const terms: Terms = { quote, materialPrice, inPerUnit, billedIn: inPerUnit * billed, billedOut: billed };
    const [material, charge] = [materialOf(terms, quantity), chargeOf(terms, quantity)];
    const perUnit = (material + charge) / quantity;
    return { terms, line: { quote, massIn: quantity * inPerUnit, material, charge, perUnit } };
  });
  lines.sort((a, b) => asShown(a.line.perUnit).cmp(asShown(b.line.perUnit)));
  return lines.map(({ terms, line }, rank) => {
    const before = lines[rank - 1];
    return { ...line, turnsAt: before && turnOf(before.terms, terms, quantity) };
  });
}

function materialOf({ materialPrice, inPerUnit }: Terms, quantity: number): number {
  return materialPrice * inPerUnit * quantity;
}

/** In the order of a price list: rate, minimum, fixed charge, lot fees. */
function chargeOf({ quote, billedIn, billedOut }: Terms, quantity: number, lots?: number): number {
  const begun = lots ?? lotsOf(quote, billedIn * quantity);
  const units = { "per in": billedIn * quantity, "per out": billedOut * quantity, "per lot": begun };
  return Math.max(quote.rate * units[quote.basis], quote.minimum) + quote.fixed + quote.lot_fee * begun;
}

function lotsOf({ lot_size }: Quote, massIn: number): number {
  return lot_size === undefined ? 1 : wholeUp(massIn, lot_size).toNumber();
}

/** So far away an order of another size would be asked for anew. */
const FURTHEST = 100;
const MOST_STEPS = 5000;

/**
 * Between the steps of their lots and the ends of their minimums both quotes are straight lines, so that a turn is where
 * two lines meet or at such a step. The nearest of those above and below the quantity, at which the other costs no less.
 */
function turnOf(one: Terms, other: Terms, quantity: number): number | undefined {
  if (leadAlong(one, other, quantity, quantity) === 0) return quantity;
  const [first, second] = [stepsOf(one, quantity), stepsOf(other, quantity)];
  const [least, most] = [Math.max(first.least, second.least), Math.min(first.most, second.most)];
  const steps = [...first.steps, ...second.steps].filter((step) => step > least && step < most).sort((a, b) => a - b);
  const above = firstTurn(one, other, [quantity, ...steps.filter((step) => step > quantity), most]);
  const below = steps.filter((step) => step < quantity).reverse();
  const under = firstTurn(one, other, [quantity, ...below, least]);
  return (above ?? Infinity) - quantity <= quantity - (under ?? -Infinity) ? above : under;
}

/** Quantities at which a lot is full or the minimum is reached, and between which bounds these are all there are. */
function stepsOf(
  { quote, billedIn, billedOut }: Terms,
  quantity: number,
): { readonly steps: readonly number[]; readonly least: number; readonly most: number } {
  const lot = (quote.lot_size ?? Infinity) / billedIn;
  const from = Math.max(1, Math.floor(quantity / lot) - MOST_STEPS);
  const least = Math.max(from > 1 ? from * lot : 0, quantity / FURTHEST);
  const most = Math.min((from + 2 * MOST_STEPS) * lot, quantity * FURTHEST);
  const steps: number[] = [];
  for (let count = from; count * lot < most; count++) steps.push(count * lot);
  // Without a rate or a minimum it is no number, or lies out of reach.
  const perUnit = quote.rate * (quote.basis === "per in" ? billedIn : billedOut);
  if (quote.basis !== "per lot") steps.push(quote.minimum / perUnit);
  return { steps, least, most };
}

/** Along places in one direction, where the other first costs less than the one. */
function firstTurn(one: Terms, other: Terms, places: readonly number[]): number | undefined {
  for (let index = 0; index + 1 < places.length; index++) {
    const [from, to] = [places[index] as number, places[index + 1] as number];
    // The lots of a stretch are those in its middle: a step belongs to the lot that it fills.
    const middle = (from + to) / 2;
    const [start, end] = [leadAlong(one, other, from, middle), leadAlong(one, other, to, middle)];
    if (start < 0) return from;
    if (end < 0) return from + ((to - from) * start) / (start - end);
  }
  return undefined;
}

/** How much more the other costs, with the lots of the middle; 0 where they differ in the last digits only. */
function leadAlong(one: Terms, other: Terms, quantity: number, middle: number): number {
  const [less, more] = [costAlong(one, quantity, middle), costAlong(other, quantity, middle)];
  return Math.abs(more - less) <= 1e-9 * less ? 0 : more - less;
}

function costAlong(terms: Terms, quantity: number, middle: number): number {
  return materialOf(terms, quantity) + chargeOf(terms, quantity, lotsOf(terms.quote, terms.billedIn * middle));
}
