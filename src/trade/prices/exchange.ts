import { Decimal } from "../money";
import { absent, refuse } from "../refusal";

/** One row of a rate table: on this date one unit of `from` was worth `rate` units of `to`. */
export interface QuotedRate {
  readonly date: number;
  readonly from: string;
  readonly to: string;
  readonly rate: number;
}

/** How to change one currency into another: multiply by one figure and divide by another, so that nothing is rounded. */
interface Conversion {
  readonly date: number;
  readonly times: Decimal;
  readonly over: Decimal;
}

/** The rates of one pair in one direction, by rising date. */
type History = readonly QuotedRate[];

const ONE = new Decimal(1);

/** Exchange by a dated table of rates: direct or inverse, else by one third currency. */
export class RateTable {
  private readonly histories = new Map<string, History>();
  private readonly currencies: readonly string[];
  private readonly dates: readonly number[];

  constructor(quotes: readonly QuotedRate[]) {
    const rowOf = new Map<string, number>();
    const currencies = new Set<string>();
    const gathered = new Map<string, QuotedRate[]>();
    quotes.forEach(({ date, rate, ...pair }, index) => {
      const [from, to] = [codeOf(pair.from), codeOf(pair.to)];
      const place = `rates row ${index + 1}`;
      if (from === to) refuse(`${place}, to,`, `${to} like from`, "must be another currency");
      const key = pairKey(from, to);
      const earlier = rowOf.get(`${key}\n${date}`);
      if (earlier !== undefined) {
        refuse(`${place}, date,`, `${date}, as in row ${earlier} for ${from} to ${to}`, "give one rate a date");
      }
      rowOf.set(`${key}\n${date}`, index + 1);
      currencies.add(from).add(to);
      const history = gathered.get(key) ?? [];
      history.push({ date, from, to, rate });
      gathered.set(key, history);
    });
    gathered.forEach((history, key) =>
      this.histories.set(
        key,
        history.sort((a, b) => a.date - b.date),
      ),
    );
    this.currencies = Array.from(currencies);
    this.dates = quotes.map(({ date }) => date).sort((a, b) => a - b);
  }

  /** The amount in another currency by the latest rate on or before the date; not rounded. */
  exchange(amount: number, fromCurrency: string, toCurrency: string, date: number): Decimal {
    const [from, to] = [codeOf(fromCurrency), codeOf(toCurrency)];
    if (from === to) return new Decimal(amount);
    this.mustKnow("from", from);
    this.mustKnow("to", to);
    const { times, over } = this.conversion(from, to, date) ?? this.noRate(from, to, date);
    return times.times(amount).div(over);
  }

  private conversion(from: string, to: string, date: number): Conversion | undefined {
    const straight = this.leg(from, to, date);
    if (straight) return straight;
    let best: Conversion | undefined;
    for (const third of this.currencies) {
      const first = this.leg(from, third, date);
      const second = first && this.leg(third, to, date);
      if (!first || !second) continue;
      // A cross is as old as its older leg; of several the freshest is taken, of equals the first in the table.
      const older = Math.min(first.date, second.date);
      if (best && older <= best.date) continue;
      best = { date: older, times: first.times.times(second.times), over: first.over.times(second.over) };
    }
    return best;
  }

  /** Direct or inverse, whichever is the more recent; on one date the direct one. */
  private leg(from: string, to: string, date: number): Conversion | undefined {
    const direct = latest(this.histories.get(pairKey(from, to)), date);
    const inverse = latest(this.histories.get(pairKey(to, from)), date);
    if (direct && !(inverse && inverse.date > direct.date)) {
      return { date: direct.date, times: new Decimal(direct.rate), over: ONE };
    }
    return inverse && { date: inverse.date, times: ONE, over: new Decimal(inverse.rate) };
  }

  private mustKnow(argument: string, currency: string): void {
    if (this.currencies.indexOf(currency) >= 0) return;
    absent(argument, `"${currency}"`, `rates has no such currency; it has ${this.currencies.join(", ")}`);
  }

  private noRate(from: string, to: string, date: number): never {
    const last = this.dates[this.dates.length - 1] as number;
    if (!this.conversion(from, to, last)) {
      absent("rates", `without a way from ${from} to ${to}`, "quote the pair, or both against one third currency");
    }
    const first = this.dates.find((day) => this.conversion(from, to, day)) as number;
    absent("date", `${date}, before the first rate from ${from} to ${to}`, `rates has one from ${first} on`);
  }
}

function latest(history: History | undefined, date: number): QuotedRate | undefined {
  if (!history) return undefined;
  let low = 0;
  let high = history.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((history[middle] as QuotedRate).date <= date) low = middle + 1;
    else high = middle;
  }
  return history[low - 1];
}

function codeOf(currency: string): string {
  return currency.trim().toUpperCase();
}

function pairKey(from: string, to: string): string {
  return `${from}\n${to}`;
}
