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

interface Layer {
  quantity: Decimal;
  readonly unitCost: Decimal;
}

/**
 * An empty stock, as the function that enters the next event in it: a quantity in (above 0, with its unit cost) or
 * out (below 0). `event` is its place among the events, from 0. A refused event leaves the stock as it was.
 */
export function stockLedger(
  method: LedgerMethod,
): (moved: number, unitCost: number | undefined, event: number) => LedgerLine {
  let quantity = ZERO;
  let value = ZERO;
  const layers = new Layers();

  function receive(moved: number, unitCost: number | undefined, event: number): void {
    if (unitCost === undefined) refuse(at("events", event, "unit_cost"), "blank", "a receipt needs its cost per unit");
    // A blank cell can arrive as 0, and stock that cost nothing would pull the average down unseen.
    if (unitCost <= 0) refuse(at("events", event, "unit_cost"), String(unitCost), "must be above 0 for a receipt");
    const [received, cost] = [asShown(moved), asShown(unitCost)];
    quantity = quantity.plus(received);
    value = value.plus(received.times(cost));
    if (method === "fifo") layers.add({ quantity: received, unitCost: cost });
  }

  function issue(wanted: Decimal, event: number): Decimal {
    if (wanted.gt(quantity)) {
      refuse(at("events", event, "quantity"), wanted.negated().toString(), `only ${quantity.toString()} is in stock`);
    }
    const taken = method === "fifo" ? layers.take(wanted) : proportion(value, wanted, quantity);
    quantity = quantity.minus(wanted);
    // The last unit takes all that is left, so that an empty stock is worth nothing, to the last digit.
    const cost = quantity.isZero() ? value : taken;
    value = value.minus(cost);
    return cost;
  }

  return (moved, unitCost, event) => {
    let costOfIssue = ZERO;
    if (moved > 0) receive(moved, unitCost, event);
    else {
      if (unitCost !== undefined && unitCost > 0) {
        const advice =
          moved < 0 ? "an issue takes its cost from the stock; leave it blank" : "nothing came in; leave it blank";
        refuse(at("events", event, "unit_cost"), String(unitCost), advice);
      }
      if (moved < 0) costOfIssue = issue(asShown(moved).negated(), event);
    }
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
