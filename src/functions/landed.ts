import { quotient, type Amount } from "../trade/money";
import * as pricing from "../trade/prices";
import { at, dividedByZero, refuse, said } from "../trade/refusal";
import { oneOr, optional, required, table, tableInPlace, withoutBlankEnd } from "../sheet/arguments";
import { rowsOf, shown, type Cells, type Results } from "../sheet/cells";
import { headingOf, placesOf, plainHeading } from "../sheet/headings";
import {
  anyNumber,
  blankIs,
  decimalPlaces,
  fraction,
  notNegative,
  numberOr,
  numberThat,
  percentOf,
  positive,
} from "../sheet/kinds";
import { text, truth, word, type Kind } from "../sheet/kinds";
import { dateSerial, wholeDays } from "../sheet/dates";
import { cellOrError, finiteRows, lift } from "../sheet/lift";
import { withNames } from "../sheet/names";
import { inPlaces } from "../sheet/shape";
import { vocabulary, wordsFor } from "../sheet/words";
import { expectFooted } from "../sheet/work";

const sharingBasis = word<pricing.SharingBasis | "own">(
  vocabulary("basis", [
    ["value", "value", "by value", "invoice value"],
    ["mass", "mass", "weight", "by mass", "by weight", "kg", "per kg"],
    ["volume", "volume", "by volume", "cbm", "m3", "m³"],
    ["quantity", "quantity", "qty", "by quantity", "pieces", "pcs", "skeins", "per skein"],
    ["equal", "equal", "equally", "per line"],
    ["own", "own"],
  ]),
);
const dutyRule = word<pricing.DutyRule>(wordsFor("rule", "sum", "higher", "lower"));
/** A 1.2 is 1.2% typed whole; where a duty really is higher, a second line of duty carries the rest. */
const dutyRate = fraction(0, 1, "must be at most 1 (100%); a higher duty is two lines");
/** A fee or a premium above a tenth of the value is a percent typed whole. */
const smallRate = percentOf(0.1, "must be at most 0.1 (10%)");
const UPLIFT = fraction(0, 0.5, "must be 0 to 0.5 (50%)");
/** What is insured on top of cost and freight, which some write as 110% of them; a trifle is the rate in its place. */
const uplift_: Kind<number> = (cell, argument) => {
  if (typeof cell === "number" && cell > 1 && cell <= 1.5) {
    const more = Number((cell - 1).toPrecision(12));
    refuse(
      argument,
      String(cell),
      `the uplift is what is above 100%: write ${Number((more * 100).toPrecision(12))}% or ${more}`,
    );
  }
  const uplift = UPLIFT(cell, argument);
  if (uplift > 0 && uplift < 0.02) refuse(argument, String(uplift), "must be 0, or 2% to 50%; swapped with rate?");
  return uplift;
};
/** No carrier counts a cubic metre above the mass of water, or as next to nothing; 6000 is the cm³ for a kg. */
const carriersDensity = numberThat(
  "must be 50 to 1000 kg/m³; 6000 is cm³ a kg: write 1000000/6000",
  (value) => value >= 50 && value <= 1000,
);
const maybe = blankIs<number | undefined>(notNegative, undefined);
const SHIPMENT_LINE = { value: anyNumber, mass: maybe, volume: maybe, quantity: maybe };

/** An own charge may be called by its heading in the place of its amount. */
const chargeAmount = blankIs<number | string | undefined>(numberOr(anyNumber, text), undefined);
const ownAmount = blankIs(anyNumber, 0);

/** Where amounts stand under another heading, as that of their currency, people call the column of names so. */
const CHARGE_WORDS = {
  name: ["charge", "kind of charge", "cost"],
  amount: ["eur", "usd", "gbp", "chf", "€", "$", "£"],
};

/**
 * Table of landed cost per line and unit: every shared charge foots over the lines to the minor unit.
 * @customfunction LANDED
 * @param {any[][]} lines Table, one row per line: value (money), mass, volume, quantity; a first column of names may come along. A mass, volume or quantity may be blank when no charge is shared by it. With its heading row, columns in any order among others; further columns may hold charges of a line's own.
 * @param {any[][]} charges Table, one row per charge: amount (money, negative for a rebate), basis ("value", "mass", "volume", "quantity", "equal", or "own"); a first column of names may come along. "own" is a charge of each line's own, in the column of lines that is headed by its name. With its heading row, columns in any order among others.
 * @param {any[][]} [decimals] Decimals of the money, -9 to 9; default 2.
 * @returns {any[][]} Header, one row per line, totals row; columns: the lines' names if given, value, one per charge, landed total, quantity, landed per unit (not rounded).
 * @remarks Each amount is rounded to decimals and shared by largest remainder, the first of equals first. Values stay as they are. An own charge (duty by tariff line, a claim) is written with its name, or with the heading in the place of the amount: {"duty","own"}; an amount beside a name is checked against the sum of the lines' own. A blank own charge is none. Recoverable taxes (input VAT and the like) are no cost: leave them out of the charges. Duty on value with freight and insurance is a formula in the lines' own column. Rates and bases of duty are set by law and change; take them from the authority and leave filings to a licensed broker.
 * @throws #VALUE! when a cell is blank or of the wrong kind (with its row), a line lacks the measure a charge is shared by, or lines have no column for an own charge. #DIV/0! when the weights of a charge sum to 0, and in the last column where the quantity is 0.
 * @example =YARN.LANDED({"name","value","mass","quantity";"4 ply",1000,50,500;"chunky",2000,30,300},{"name","amount","basis";"freight",100,"mass";"broker",45,"equal"}) → {"line","value (money)","freight by mass (money)","broker by equal (money)","landed total (money)","quantity (unit of quantity)","landed per unit (money)";"4 ply",1000,62.5,22.5,1085,500,2.17;"chunky",2000,37.5,22.5,2060,300,6.8667;"total",3000,100,45,3145,800,3.9312}
 * @example =INDEX(YARN.LANDED({1000,50,0.2,500;2000,30,0.1,300},{100,"value"}),4,3) → 3100
 * @example =INDEX(YARN.LANDED({"value","mass","duty";1000,50,80;2000,30,0},{100,"value";"duty","own"}),0,3) → {"duty (money)";80;0;80}
 * @see IAS-2, DEFINITION
 */
export function landed(lines: any[][], charges: any[][], decimals?: any[][]): any[][] {
  const columns = { amount: chargeAmount, basis: sharingBasis };
  const isWide = withoutBlankEnd(rowsOf(charges)).some((row) => row.length > 2);
  const { rows: given, names: called } = tableInPlace({ charges }, columns, { named: isWide, synonyms: CHARGE_WORDS });
  const owns = given.map(({ amount, basis }, index) =>
    basis === "own" ? ownHeading(lines, called?.[index], amount, index) : undefined,
  );
  const ownColumns: Record<string, Kind<number>> = {};
  owns.forEach((heading, index) => {
    if (heading === undefined) return;
    if (owns.indexOf(heading) < index) refuse(at("charges", index), `"${heading}" again`, "charge it once");
    ownColumns[heading] = ownAmount;
  });
  const traits = {
    ...{ adding: Object.keys(SHIPMENT_LINE), zerosAreBlank: true, named: true },
    own: Object.keys(ownColumns),
  };
  const wanted = { ...SHIPMENT_LINE, ...ownColumns };
  const { rows: shipped, blanks, names } = tableInPlace({ lines }, wanted, traits);
  expectFooted("charges", given.length, "lines", shipped.length);
  const all = given.map(({ amount, basis }, index) => {
    const heading = owns[index];
    if (heading !== undefined) {
      // A blank may arrive as 0.
      const whole = typeof amount === "number" && amount !== 0 ? amount : undefined;
      return { amounts: shipped.map((line) => ownOf(line, heading)), amount: whole };
    }
    const place = at("charges", index, "amount");
    if (amount === undefined) refuse(place, "blank", "fill it in; a blank is not 0");
    if (typeof amount === "string") refuse(place, shown(amount), 'must be a number, or the basis "own"');
    return { amount, basis: basis as pricing.SharingBasis };
  });
  const header = [
    "value (money)",
    ...given.map(({ basis }, index) => {
      const name = called?.[index] === "" ? undefined : called?.[index];
      return owns[index] === undefined
        ? `${name ?? `charge ${index + 1}`} by ${basis} (money)`
        : `${owns[index]} (money)`;
    }),
    ...["landed total (money)", "quantity (unit of quantity)", "landed per unit (money)"],
  ];
  const rows = pricing.landedCost(shipped, all, oneOr({ decimals }, decimalPlaces, 2)).map(landedRow);
  const named = withNames([header, ...rows], names && ["line", ...names, "total"], undefined);
  return finiteRows([named[0] as Results[number], ...inPlaces(blanks, named.slice(1))]);
}

function ownOf(line: object, heading: string): number {
  const own: unknown = (line as Record<string, unknown>)[heading];
  return typeof own === "number" ? own : 0;
}

/** The heading in lines of a charge that each line has of its own: its name, or the text in the place of its amount. */
function ownHeading(
  lines: Cells,
  name: string | undefined,
  amount: number | string | undefined,
  index: number,
): string {
  const heading = name !== undefined && name !== "" ? name : amount;
  if (typeof heading !== "string") {
    refuse(at("charges", index), "own", "give the heading of its column in lines, as name or in place of the amount");
  }
  const headings = (rowsOf(lines)[0] as Cells[number]).map((cell) =>
    typeof cell === "string" ? plainHeading(cell) : "",
  );
  if (plainHeading(heading) in SHIPMENT_LINE || placesOf(headingOf(heading, true), headings).length !== 1) {
    refuse("lines", `without a column of charges "${heading.slice(0, 24)}"`, said`${at("charges", index)} is own`);
  }
  return heading;
}

function landedRow({ amounts, total, quantity }: pricing.LandedLine): Results[number] {
  const row = new Array<Results[number][number]>(amounts.length + 3);
  for (let place = 0; place < amounts.length; place++) row[place] = Number(amounts[place]);
  row[amounts.length] = Number(total);
  row[amounts.length + 1] = quantity === undefined ? "" : Number(quantity);
  row[amounts.length + 2] = quantity === undefined ? "" : cellOrError(() => perUnit(total, quantity));
  return row;
}

function perUnit(total: Amount, quantity: Amount): number {
  if (Number(quantity) === 0) dividedByZero("quantity", "0", "there is no cost per unit of nothing");
  return quotient(total, quantity);
}

/**
 * Customs duty on a line, in the money of value: ad valorem, specific, or both by a rule.
 * @customfunction DUTY
 * @param {any[][]} value Customs value, in money; 0 or more.
 * @param {any[][]} quantity Quantity in the unit of the specific duty, e.g. kg; 0 or more (0 when there is none).
 * @param {any[][]} ad_valorem Duty as a fraction of the value: 0.05 is 5%; at most 1 (100%).
 * @param {any[][]} [specific] Duty on one unit of quantity, in money; default none.
 * @param {any[][]} [rule] "sum" (default), or "higher" or "lower" of the two; these need specific.
 * @returns {any[][]} Duty, not rounded, in the shape of the arguments.
 * @remarks value × ad_valorem and quantity × specific. Recoverable taxes (VAT and the like on import) are not duty and stay out of cost. Rates, bases and rounding are set by law and change; take them from the authority and leave filings to a licensed broker.
 * @throws #VALUE! when an amount is negative, ad_valorem is above 1 (5 for 5%), the rule compares and specific is missing, or rule is unknown.
 * @example =YARN.DUTY(10000,0,0.05) → 500
 * @example =YARN.DUTY(10000,400,0.05,1.5,{"sum","higher","lower"}) → {1100,600,500}
 * @see WTO-VALUATION
 */
export function duty(
  value: any[][],
  quantity: any[][],
  ad_valorem: any[][],
  specific?: any[][],
  rule?: any[][],
): any[][] {
  return lift(
    (worth, amount, share, perUnit, how) => {
      if (perUnit !== undefined && perUnit > 0 && amount === 0 && worth > 0) {
        refuse(
          "quantity",
          "0",
          `a specific duty of ${perUnit} a unit needs it; leave specific out where there is none`,
        );
      }
      return pricing.duty(worth, amount, share, perUnit, how).toNumber();
    },
    required({ value }, notNegative),
    required({ quantity }, notNegative),
    required({ ad_valorem }, dutyRate),
    optional<number | undefined>({ specific }, notNegative, undefined),
    optional({ rule }, dutyRule, "sum"),
  );
}

/**
 * Fee as a share of a value with a floor and a cap, in the money of value; e.g. a customs processing fee.
 * @customfunction FEE
 * @param {any[][]} value Value the fee is charged on, in money; 0 or more.
 * @param {any[][]} rate Fee as a fraction of value, at most 0.1 (10%): 0.003464 is 0.3464%.
 * @param {any[][]} [minimum] Floor, in money; default 0.
 * @param {any[][]} [maximum] Cap, in money, more than 0; default none.
 * @returns {any[][]} Fee, not rounded, in the shape of the arguments.
 * @remarks min(max(value × rate, minimum), maximum). Rates, floors and caps are set by law and change (the US merchandise fee each 1 October); take them from the authority and leave filings to a licensed broker.
 * @throws #VALUE! when value is negative, rate is above 0.1 (0.3464 for 0.3464%), or maximum is below minimum.
 * @example =YARN.FEE({5000;100000;500000},0.003464,33.58,651.5) → {33.58;346.40;651.50}
 * @see 19-CFR-24.23
 */
export function fee(value: any[][], rate: any[][], minimum?: any[][], maximum?: any[][]): any[][] {
  return lift(
    (worth, share, floor, cap) => pricing.fee(worth, share, floor, cap).toNumber(),
    required({ value }, notNegative),
    required({ rate }, smallRate),
    optional({ minimum }, notNegative, 0),
    optional<number | undefined>({ maximum }, positive, undefined),
  );
}

/**
 * Chargeable mass in kg: the greater of gross mass and volume at the carrier's kg per m³, up to a step.
 * @customfunction CHARGEABLE
 * @param {any[][]} gross_kg Gross mass in kg; 0 or more.
 * @param {any[][]} volume_m3 Volume in m³; 0 or more.
 * @param {any[][]} [kg_per_m3] Mass the carrier counts for 1 m³, 50 to 1000 kg; default 1000000/6000, the 6,000 cm³ a kg of air freight. Some carriers write 167.
 * @param {any[][]} [step] Step in kg to round up to, e.g. 0.5; default none.
 * @returns {any[][]} Chargeable mass in kg, in the shape of the arguments.
 * @remarks max(gross, volume × kg_per_m3), then up to the step. The figure is the carrier's own and differs by way of transport and carrier: take it from the quotation.
 * @throws #VALUE! when a figure is negative, step is not above 0, kg_per_m3 is not 50 to 1000 (6000 is cm³ a kg: write 1000000/6000), or mass and volume are of no goods (swapped, litres).
 * @example =YARN.CHARGEABLE(150,1.4*1*0.9) → 210
 * @example =YARN.CHARGEABLE(60,0.45,167,0.5) → 75.5
 * @see CARRIER
 */
export function chargeable(gross_kg: any[][], volume_m3: any[][], kg_per_m3?: any[][], step?: any[][]): any[][] {
  return lift(
    (gross, volume, density, round) => {
      pricing.expectGoods(gross, volume);
      return pricing.chargeableMass(gross, volume, density, round).toNumber();
    },
    required({ gross_kg }, notNegative),
    required({ volume_m3 }, notNegative),
    optional({ kg_per_m3 }, carriersDensity, pricing.AIR_KG_PER_CUBIC_METRE),
    optional<number | undefined>({ step }, positive, undefined),
  );
}

/**
 * Insurance premium on cost and freight with an uplift, in their money; plain or circular.
 * @customfunction INSURANCE
 * @param {any[][]} cost_and_freight Cost and freight, in money; 0 or more.
 * @param {any[][]} rate Premium as a fraction of the insured value, at most 0.1 (10%): 0.005 is 0.5%.
 * @param {any[][]} [uplift] Uplift on the insured value as a fraction, at most 0.5; default 0.1 (10%, when 110% are insured). Write 0 for none.
 * @param {any[][]} [circular] TRUE: the insured value includes its own premium; default FALSE.
 * @returns {any[][]} Premium, not rounded, in the shape of the arguments.
 * @remarks Plain: (1 + u)·(C + F)·r. Circular: (1 + u)·(C + F)·r / (1 - (1 + u)·r), so that the premium is r of (1 + u)·(C + F + premium). The 10% uplift is common practice; the policy says which form holds.
 * @throws #VALUE! when the value is negative, rate is above 0.1 (0.5 for 0.5%) or uplift is above 0.5 (110% for 10%).
 * @example =YARN.INSURANCE(100000,0.005) → 550
 * @example =YARN.INSURANCE(100000,0.005,0.1,{FALSE;TRUE}) → {550.00;553.04}
 * @see DEFINITION, PRACTICE
 */
export function insurance(cost_and_freight: any[][], rate: any[][], uplift?: any[][], circular?: any[][]): any[][] {
  return lift(
    (amount, share, more, round) => pricing.premium(amount, share, more, round).toNumber(),
    required({ cost_and_freight }, notNegative),
    required({ rate }, smallRate),
    optional({ uplift }, uplift_, 0.1),
    optional({ circular }, truth, false),
  );
}

const RATE = { date: dateSerial, from: text, to: text, rate: positive };
const RATE_WORDS = {
  synonyms: { rate: ["exchange rate", "rate of exchange", "course"], date: ["rate date", "as at", "published"] },
};

/**
 * Amount in another currency by a dated table: the latest rate on or before the date; direct, inverse or one cross.
 * @customfunction EXCHANGE
 * @param {any[][]} amount Amount in the currency "from"; may be negative.
 * @param {any[][]} from Currency of amount, as in the table, e.g. "EUR".
 * @param {any[][]} to Currency wanted.
 * @param {any[][]} date Date of the exchange, a date of the sheet (a whole number).
 * @param {any[][]} rates Table, in any order: date, from, to, rate (units of "to" for one unit of "from"). With its heading row, columns in any order among others.
 * @param {any[][]} [max_age] Days that a rate may be old on the date; default any age.
 * @returns {any[][]} Amount in the currency "to", not rounded, in the shape of the arguments.
 * @remarks Of direct and inverse rates the more recent holds, on one date the direct one; only without either, one third currency is used, the one whose older leg is the most recent. A rate older than max_age does not count, in a leg of a cross neither. Which rate must be used (of the day, of the month, of customs) is set by the standard or the authority: fill the table with that one.
 * @throws #N/A when the date is before the first rate, every rate is older than max_age, a currency is not in the table or nothing connects the two. #VALUE! when a date is none (20240301), a row of rates is incomplete, repeats a date for one pair, or is over 5% off the opposite rate of its day (with the row).
 * @example =YARN.EXCHANGE(100,"EUR","USD",45010,{"date","from","to","rate";45000,"EUR","USD",1.1;45010,"EUR","USD",1.2;45020,"EUR","USD",1.3}) → 120
 * @example =YARN.EXCHANGE({110;220},"USD","EUR",45005,{45000,"EUR","USD",1.1}) → {100;200}
 * @see IAS-21
 */
export function exchange(
  amount: any[][],
  from: any[][],
  to: any[][],
  date: any[][],
  rates: any[][],
  max_age?: any[][],
): any[][] {
  const quotes = new pricing.RateTable(table({ rates }, RATE, RATE_WORDS)).expectSteady();
  return lift(
    (sum, source, target, day, age) => quotes.exchange(sum, source, target, day, age).toNumber(),
    required({ amount }, anyNumber),
    required({ from }, text),
    required({ to }, text),
    required({ date }, dateSerial),
    optional<number | undefined>({ max_age }, wholeDays, undefined),
  );
}
