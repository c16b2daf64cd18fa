import { Decimal } from "../money";
import { absent, at, counted, refuse, said } from "../refusal";
import { dayShown } from "../calendar";

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
type History = readonly DatedRate[];

/** A rate and the row it stands in. */
interface DatedRate {
  readonly date: number;
  readonly rate: number;
  readonly index: number;
}

/** Both directions in which one currency is quoted against another. */
interface Leg {
  readonly direct: History;
  readonly inverse: History;
}

/** All ways from one currency to another; the crosses in the order in which their third currencies stand in the table. */
interface Ways {
  readonly straight: Leg;
  readonly crosses: readonly (readonly [Leg, Leg])[];
}

const ONE = new Decimal(1);
const NO_RATES: History = [];

/** Buying and selling differ by far less in one day; more is a rate typed upside down or in the wrong row. */
const WIDEST_SPREAD = new Decimal("1.05");

/** Exchange by a dated table of rates: direct or inverse, else by one third currency. */
export class RateTable {
  private readonly histories = new Map<string, History>();
  private readonly currencies: readonly string[];
  private readonly waysOf = new Map<string, Ways>();

  constructor(quotes: readonly QuotedRate[]) {
    const entryOf = new Map<string, number>();
    const currencies = new Set<string>();
    const gathered = new Map<string, DatedRate[]>();
    quotes.forEach(({ date, rate, from: quoted, to: paid }, index) => {
      const [from, to] = [codeOf(quoted), codeOf(paid)];
      if (from === to) refuse(at("rates", index, "to"), `${to} like from`, "must be another currency");
      const key = pairKey(from, to);
      const earlier = entryOf.get(`${key}\n${date}`);
      if (earlier !== undefined) {
        refuse(
          at("rates", index, "date"),
          said`${dayShown(date)}, as in ${at("rates", earlier)} for ${from} to ${to}`,
          "give one rate a date",
        );
      }
      entryOf.set(`${key}\n${date}`, index);
      const opposite = entryOf.get(`${pairKey(to, from)}\n${date}`);
      if (opposite !== undefined) checkSpread(index, rate, opposite, quotes[opposite] as QuotedRate);
      currencies.add(from).add(to);
      const history = gathered.get(key) ?? [];
      history.push({ date, rate, index });
      gathered.set(key, history);
    });
    gathered.forEach((history, key) =>
      this.histories.set(
        key,
        history.sort((a, b) => a.date - b.date),
      ),
    );
    this.currencies = Array.from(currencies);
  }

  /** No rate that its neighbour of some days before contradicts, for 100 units instead of 1 or with a slipped point. */
  expectSteady(): this {
    this.histories.forEach((history) => history.forEach((quote, place) => checkJump(quote, history[place - 1])));
    return this;
  }

  /**
   * The amount in another currency by the latest rate on or before the date; not rounded. A rate that is older than
   * `maxAge` days on the date does not count, so that the legs of a cross lie no further apart than that either.
   */
  exchange(amount: number, fromCurrency: string, toCurrency: string, date: number, maxAge = Infinity): Decimal {
    const [from, to] = [codeOf(fromCurrency), codeOf(toCurrency)];
    const ways = this.ways(from, to);
    if (from === to) return new Decimal(amount);
    const { times, over } = conversion(ways, date, date - maxAge) ?? noRate(ways, from, to, date, maxAge);
    return times.times(amount).div(over);
  }

  /** Looked up once for each pair, however many amounts are asked for. */
  private ways(from: string, to: string): Ways {
    const key = pairKey(from, to);
    let ways = this.waysOf.get(key);
    if (ways === undefined) {
      this.mustKnow("from", from);
      this.mustKnow("to", to);
      const crosses: (readonly [Leg, Leg])[] = [];
      for (const third of this.currencies) {
        const cross = [this.leg(from, third), this.leg(third, to)] as const;
        if (cross.every(isQuoted)) crosses.push(cross);
      }
      ways = { straight: this.leg(from, to), crosses };
      this.waysOf.set(key, ways);
    }
    return ways;
  }

  private leg(from: string, to: string): Leg {
    return {
      direct: this.histories.get(pairKey(from, to)) ?? NO_RATES,
      inverse: this.histories.get(pairKey(to, from)) ?? NO_RATES,
    };
  }

  private mustKnow(argument: string, currency: string): void {
    if (this.currencies.indexOf(currency) >= 0) return;
    absent(argument, `"${currency}"`, `rates has no such currency; it has ${this.currencies.join(", ")}`);
  }
}

/** No currency moves so in so few days; common practice, no source. A new unit of money has a new code. */
const MOST_TIMES_IN_DAYS = 5;
const DAYS = 31;

function checkJump({ date, rate, index }: DatedRate, earlier: DatedRate | undefined): void {
  if (earlier === undefined || date - earlier.date > DAYS) return;
  const times = rate / earlier.rate;
  if (times <= MOST_TIMES_IN_DAYS && times >= 1 / MOST_TIMES_IN_DAYS) return;
  refuse(
    at("rates", index, "rate"),
    String(rate),
    said`${at("rates", earlier.index)} has ${earlier.rate} on ${dayShown(earlier.date)}: for 100 units, or a slipped point?`,
  );
}

function checkSpread(index: number, rate: number, oppositeIndex: number, { rate: opposite, date }: QuotedRate): void {
  const there = new Decimal(rate).times(opposite);
  if (there.lte(WIDEST_SPREAD) && there.times(WIDEST_SPREAD).gte(1)) return;
  const inverse = Number((1 / opposite).toPrecision(6));
  refuse(
    at("rates", index, "rate"),
    String(rate),
    said`must be near ${inverse}: ${at("rates", oppositeIndex)} has ${opposite} back on ${dayShown(date)}`,
  );
}

/** By the latest rates on or before a date and not before an oldest date. */
function conversion({ straight, crosses }: Ways, date: number, oldest: number): Conversion | undefined {
  const own = conversionOfLeg(straight, date, oldest);
  if (own) return own;
  let best: Conversion | undefined;
  for (const [firstLeg, secondLeg] of crosses) {
    const first = conversionOfLeg(firstLeg, date, oldest);
    const second = first && conversionOfLeg(secondLeg, date, oldest);
    if (!first || !second) continue;
    // A cross is as old as its older leg; of several the freshest is taken, of equals the first in the table.
    const older = Math.min(first.date, second.date);
    if (best && older <= best.date) continue;
    best = { date: older, times: first.times.times(second.times), over: first.over.times(second.over) };
  }
  return best;
}

/** Direct or inverse, whichever is the more recent; on one date the direct one. */
function conversionOfLeg(leg: Leg, date: number, oldest: number): Conversion | undefined {
  const direct = latest(leg.direct, date);
  const inverse = latest(leg.inverse, date);
  const byDirect = direct !== undefined && !(inverse && inverse.date > direct.date);
  const newest = byDirect ? direct : inverse;
  if (newest === undefined || newest.date < oldest) return undefined;
  const rate = new Decimal(newest.rate);
  return byDirect ? { date: newest.date, times: rate, over: ONE } : { date: newest.date, times: ONE, over: rate };
}

function noRate(ways: Ways, from: string, to: string, date: number, maxAge: number): never {
  const straight = firstDay(ways.straight);
  // A cross is there from the day of its later leg.
  const crosses = ways.crosses.map(([first, second]) => Math.max(firstDay(first), firstDay(second)));
  const first = crosses.reduce((least, day) => Math.min(least, day), straight);
  if (first === Infinity) {
    absent("rates", `without a way from ${from} to ${to}`, "quote the pair, or both against one third currency");
  }
  if (date < first) {
    const came = `${dayShown(date)}, before the first rate from ${from} to ${to}`;
    absent("date", came, `rates has one from ${dayShown(first)} on`);
  }
  const { date: newest } = conversion(ways, date, -Infinity) as Conversion;
  const age = `${counted(date - newest, "day")} before ${dayShown(date)}`;
  absent("max_age", String(maxAge), `the rate from ${from} to ${to} is of ${dayShown(newest)}, ${age}`);
}

function isQuoted({ direct, inverse }: Leg): boolean {
  return direct.length + inverse.length > 0;
}

function firstDay({ direct, inverse }: Leg): number {
  return Math.min(direct[0]?.date ?? Infinity, inverse[0]?.date ?? Infinity);
}

function latest(history: History, date: number): DatedRate | undefined {
  let low = 0;
  let high = history.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((history[middle] as DatedRate).date <= date) low = middle + 1;
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
