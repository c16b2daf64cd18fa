import { asShown, Decimal, ZERO } from "../money";
import { proportion } from "../proportion";
import { at, refuse } from "../refusal";

/** Stock after an event. */
export interface LedgerLine {
  readonly quantity: Decimal;
  /** At full precision: never the quantity times a rounded average. */
  readonly value: Decimal;
  /** None when the stock is empty. */
  readonly averageCost: Decimal | undefined;
  readonly costOfIssue: Decimal;
}

export type LedgerMethod = "fifo" | "average";

/** Why the value of the stock changes while its quantity does not. */
export type ValueChange = "late charge" | "credit note" | "write-down" | "reversal" | "net realisable";

/** What is shared by proportion is kept to so many decimals: two doubles hold them beside a stock worth billions. */
const DECIMALS = 20;

/** A stock of so many units is never worth what one of them cost: not even waste is. Common practice, no source. */
const SOME = 30;

interface Layer {
  quantity: Decimal;
  unitCost: Decimal;
}

/**
 * An empty stock, as the function that enters the next event in it: a quantity in (above 0, with its unit cost), out
 * (below 0), or a value alone. `event` is its place among the events, from 0. A refused event leaves the stock as it
 * was.
 */
export function stockLedger(
  method: LedgerMethod,
): (moved: number, unitCost: number | undefined, event: number, changed?: number, change?: ValueChange) => LedgerLine {
  let quantity = ZERO;
  let cost = ZERO;
  /** What the stock is carried below its cost. */
  let writtenDown = ZERO;
  const layers = new Layers();

  function receive(moved: number, unitCost: number | undefined, event: number): void {
    if (unitCost === undefined) refuse(at("events", event, "unit_cost"), "blank", "a receipt needs its cost per unit");
    // A blank cell can arrive as 0, and stock that cost nothing would pull the average down unseen.
    if (unitCost <= 0) refuse(at("events", event, "unit_cost"), String(unitCost), "must be above 0 for a receipt");
    const [received, each] = [asShown(moved), asShown(unitCost)];
    quantity = quantity.plus(received);
    cost = cost.plus(received.times(each));
    if (method === "fifo") layers.add({ quantity: received, unitCost: each });
  }

  function issue(wanted: Decimal, event: number): Decimal {
    if (wanted.gt(quantity)) {
      refuse(at("events", event, "quantity"), wanted.negated().toString(), `only ${quantity.toString()} is in stock`);
    }
    const taken = method === "fifo" ? layers.take(wanted) : proportion(cost, wanted, quantity, DECIMALS);
    quantity = quantity.minus(wanted);
    // The last unit takes all that is left, so that an empty stock is worth nothing, to the last digit.
    const issued = quantity.isZero() ? cost : taken;
    const below =
      quantity.isZero() || writtenDown.isZero() ? writtenDown : proportion(writtenDown, issued, cost, DECIMALS);
    cost = cost.minus(issued);
    writtenDown = writtenDown.minus(below);
    return issued.minus(below);
  }

  /** IAS-2: a reversal goes up to what was written down and no further, so the stock never stands above its cost. */
  function revalue(changed: number, change: ValueChange, event: number): void {
    const by = asShown(changed);
    const refused = (allowed: string): never => refuse(at("events", event, "value"), by.toString(), allowed);
    if (quantity.isZero()) refused("nothing is in stock; it belongs to what was sold");
    if (change === "net realisable") {
      // About the cost of one unit is what one would bring.
      const units = cost.div(quantity).toNumber() / Number(by);
      if (by.isNegative() || (quantity.gt(SOME) && units > 0.7 && units < 3))
        refused("must be what the whole stock would bring");
      writtenDown = Decimal.max(cost.minus(by), ZERO);
      return;
    }
    const upwards = change === "late charge" || change === "reversal";
    if (by.isNegative() === upwards) refused(`a ${change} must be ${upwards ? "above" : "below"} 0`);
    if (by.negated().gt(cost.minus(writtenDown))) refused("the stock would be worth less than nothing");
    if (change === "reversal" && by.gt(writtenDown)) refused(`only ${writtenDown.toString()} is written down`);
    if (change === "write-down" || change === "reversal") writtenDown = writtenDown.minus(by);
    else {
      if (method === "fifo") layers.spread(by, cost);
      cost = cost.plus(by);
    }
  }

  /** What a value alone must be, where nobody says; a rise after a fall could be two things. */
  function likelyChange(changed: number, event: number): ValueChange {
    if (changed < 0) return "write-down";
    if (writtenDown.isZero()) return "late charge";
    if (asShown(changed).lte(writtenDown)) return "reversal";
    const allowed = `only ${writtenDown.toString()} is written down; say in a column "kind" what it is`;
    return refuse(at("events", event, "value"), String(changed), allowed);
  }

  return (moved, unitCost, event, changed, change) => {
    let costOfIssue = ZERO;
    const isValueAlone = changed !== undefined && (changed !== 0 || change === "net realisable");
    if (isValueAlone && moved !== 0) {
      refuse(at("events", event, "value"), String(changed), "a value alone has no quantity; give it a row of its own");
    }
    if (change !== undefined && !isValueAlone) refuse(at("events", event, "kind"), change, "its row has no value");
    if (moved > 0) receive(moved, unitCost, event);
    else {
      if (unitCost !== undefined && unitCost > 0) {
        const advice =
          moved < 0 ? "an issue takes its cost from the stock; leave it blank" : "nothing came in; leave it blank";
        refuse(at("events", event, "unit_cost"), String(unitCost), advice);
      }
      if (moved < 0) costOfIssue = issue(asShown(moved).negated(), event);
      else if (isValueAlone) revalue(changed, change ?? likelyChange(changed, event), event);
    }
    const value = cost.minus(writtenDown);
    return { quantity, value, averageCost: quantity.isZero() ? undefined : value.div(quantity), costOfIssue };
  };
}

/** What was received, the oldest first. */
class Layers {
  private readonly layers: Layer[] = [];
  private oldest = 0;

  add(layer: Layer): void {
    this.layers.push(layer);
  }

  /** Shares a later cost out over what is left, by what it cost. */
  spread(amount: Decimal, cost: Decimal): void {
    for (const layer of this.layers.slice(this.oldest)) {
      layer.unitCost = layer.unitCost.plus(proportion(amount, layer.unitCost, cost, DECIMALS));
    }
  }

  /** The cost of the oldest so many units, which leave the stock. */
  take(wanted: Decimal): Decimal {
    let left = wanted;
    let cost = ZERO;
    while (left.gt(0)) {
      const layer = this.layers[this.oldest] as Layer;
      const part = Decimal.min(left, layer.quantity);
      cost = cost.plus(part.times(layer.unitCost));
      layer.quantity = layer.quantity.minus(part);
      left = left.minus(part);
      if (layer.quantity.isZero()) this.oldest++;
    }
    return cost;
  }
}
