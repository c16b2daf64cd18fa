import * as pricing from "../trade/prices";
import * as sharing from "../trade/largest-remainder";
import * as rounding from "../trade/rounding";
import { list, one, oneOr, optional, required, table, tableInPlace, type TableColumns } from "../sheet/arguments";
import { anyNumber, blankIs, blankOrZero, decimalPlaces, fraction, loss, notNegative } from "../sheet/kinds";
import { positive, regain as regainKind, share, text, wholeThat, word } from "../sheet/kinds";
import { finiteRows, lift } from "../sheet/lift";
import { PRICED_STAGE, quoteBasis, routeDirection } from "../sheet/stages";
import { wordsFor } from "../sheet/words";
import { refuseTotal } from "../sheet/totals";
import { likeList, namedList } from "../sheet/names";
import { inPlaces } from "../sheet/shape";
import { type Results } from "../sheet/cells";

const tierMode = word<pricing.TierMode>(wordsFor("mode", "all units", "incremental", "next break"));
const roundingMode = word<rounding.RoundingMode>(wordsFor("mode", "half away", "half even", "up", "down"));
/** A surcharge of 1 is 1% typed whole. */
const surchargeRate = fraction(0, 1, "must be 0 to below 1 (100%)", true);
/** The sheet's own ROUND goes this far, and a double holds no more. */
const roundingPlaces = wholeThat("must be a whole number from -15 to 15", (value) => value >= -15 && value <= 15);

/**
 * Cost of a quantity by a price list with breaks, in the money of the rates; "all units" drops just past a break.
 * @customfunction TIERED
 * @param {any[][]} quantity Quantity, 0 or more, in the unit of the breaks.
 * @param {any[][]} breaks Quantity from which each rate holds, a list: the first is 0, and they rise.
 * @param {any[][]} rates Price of one unit from each break on, a list as long as breaks.
 * @param {any[][]} [mode] "all units" (default): all at the rate of the tier reached; "incremental": each part at its own tier's rate; "next break": billed at a later break where that is cheaper.
 * @returns {any[][]} Money, not rounded, in the shape of quantity and mode.
 * @remarks With "all units" and falling rates the cost dips at every break: 49 at 8.00 cost more than 50 at 6.50. "next break" takes the dip away by billing the later break; "incremental" never has it. Check the mode against the contract: the three differ. "next break" looks at every later break.
 * @throws #VALUE! when breaks do not start at 0 or do not rise (with the item), a rate is missing or negative, or mode is unknown.
 * @example =YARN.TIERED(49,{0;50;100},{8;6.5;5}) → 392
 * @example =YARN.TIERED({49;50;120},{0;50;100},{8;6.5;5},"next break") → {325;325;600}
 * @example =YARN.TIERED(120,{0;50;100},{8;6.5;5},"incremental") → 825
 * @see DEFINITION, PRACTICE
 */
export function tiered(quantity: any[][], breaks: any[][], rates: any[][], mode?: any[][]): any[][] {
  const prices = new pricing.PriceList(list({ breaks }, notNegative), list({ rates }, notNegative));
  return lift(
    (amount, how) => prices.cost(amount, how).toNumber(),
    required({ quantity }, notNegative),
    optional({ mode }, tierMode, "all units"),
  );
}

/**
 * Contractor's charge for a quantity, in the money of the rate: rate, then minimum, then lot fees, then surcharge.
 * @customfunction CHARGE
 * @param {any[][]} quantity Quantity, 0 or more, e.g. kg.
 * @param {any[][]} rate Price of one unit.
 * @param {any[][]} [minimum] Least charge at the rate, in money; default 0.
 * @param {any[][]} [lot_size] Largest quantity in one lot; default all in one lot.
 * @param {any[][]} [lot_fee] Fee for each lot begun, in money; default 0.
 * @param {any[][]} [below] The surcharge holds for a quantity below this; default for every quantity.
 * @param {any[][]} [surcharge] Surcharge as a fraction of all before it (0.15 is 15%); default 0.
 * @returns {any[][]} Money, not rounded, in the shape of the arguments.
 * @remarks (max(quantity × rate, minimum) + lots × lot_fee) × (1 + surcharge), in this order; lots = quantity / lot_size, rounded up. A quantity of 0 has no lot and still owes the minimum. Contracts differ in the order: check yours.
 * @throws #VALUE! when an amount is negative, lot_size is not above 0 or surcharge is not 0 to below 1 (15 for 15%).
 * @example =YARN.CHARGE({180;400},0.85,250) → {250;340}
 * @example =YARN.CHARGE(250,2,0,100,30,300,0.1) → 649
 * @see PRACTICE
 */
export function charge(
  quantity: any[][],
  rate: any[][],
  minimum?: any[][],
  lot_size?: any[][],
  lot_fee?: any[][],
  below?: any[][],
  surcharge?: any[][],
): any[][] {
  return lift(
    (amount, price, least, lotSize, lotFee, under, extra) =>
      pricing.charge(amount, price, { minimum: least, lotSize, lotFee, below: under, surcharge: extra }).toNumber(),
    required({ quantity }, notNegative),
    required({ rate }, notNegative),
    optional({ minimum }, notNegative, 0),
    optional<number | undefined>({ lot_size }, positive, undefined),
    optional({ lot_fee }, notNegative, 0),
    optional<number | undefined>({ below }, positive, undefined),
    optional({ surcharge }, surchargeRate, 0),
  );
}

/**
 * Amount shared out by weight so that the parts foot to the last minor unit, in the money of the total.
 * @customfunction APPORTION
 * @param {any[][]} total Amount to share, one cell; may be negative. It is rounded to decimals first.
 * @param {any[][]} weights Weight of each part, a list, with names if you like; they must not sum to 0. One below 0, as of a credit among the lines, gets a part of the other sign.
 * @param {any[][]} [decimals] Decimals of the money, -9 to 9; default 2.
 * @returns {any[][]} One amount per weight, in the shape of weights, with the names if given.
 * @remarks Largest remainder: each part gets the whole units of its exact share, and the units left go to the largest remainders, the first of equals first. No part is a unit or more off its exact share.
 * @throws #VALUE! when total or a weight is not a number or blank between others. #DIV/0! when the weights sum to 0. #NUM! when the total has too many digits.
 * @example =YARN.APPORTION(33.34,{1;1;1;1}) → {8.34;8.34;8.33;8.33}
 * @example =YARN.APPORTION(-10,{1,1,1}) → {-3.34,-3.33,-3.33}
 * @see DEFINITION
 */
export function apportion(total: any[][], weights: any[][], decimals?: any[][]): any[][] {
  const given = namedList({ weights }, anyNumber, "weight");
  const shares = list(given.figures, anyNumber);
  refuseTotal("weights", shares);
  const parts = sharing.apportion(one({ total }, anyNumber), shares, oneOr({ decimals }, decimalPlaces, 2));
  return likeList(given, parts.map(Number));
}

/**
 * Table of cost through every stage, to the cent: charges, by-product credits, cost so far and cost per unit out.
 * @customfunction ROUTECOST
 * @param {any[][]} quantity Mass, more than 0: out of the last stage ("needed") or into the first ("made").
 * @param {any[][]} stages Table in process order: stage, loss, regain out, by-product, by-product price (per unit of its mass at the regain out), basis, rate, minimum, fixed, [actual out], [hours], [lot size] (mass in), [currency rate]. Basis is "per in", "per out" (unit of mass), "per lot", "per skein", "per hour" or "percent" (of the cost so far, as a fraction). Blank minimum and fixed are 0; blank basis and rate together mean no rate. With its heading row, columns in any order among others.
 * @param {any[][]} direction "needed" (from the mass wanted out back to the first stage) or "made" (forward).
 * @param {any[][]} start_price Price of one unit of mass of what enters the first stage.
 * @param {any[][]} [regain_start] Regain of what enters the first stage, as a fraction; default 0, as for greasy wool.
 * @param {any[][]} [skein_mass] Mass of one skein, in the unit of quantity; left out: no stage may be "per skein".
 * @returns {any[][]} Header, a row "start" (the material), then one row per stage: stage, mass in, mass out, charge, by-product credit, cost so far, cost per unit out.
 * @remarks Charge = max(rate × quantity of the basis, minimum) + fixed. Masses as in ROUTE. Charges and credits are rounded to the cent, so that charges less credits foot to the cost so far; cost per unit out is not rounded. Normal loss carries no cost. Actual out (column 10, blank or 0: as expected) adds a row after its stage: the mass above or below the expected leaves or enters at the unit cost reached, as a negative or positive charge, and the next stage starts from the actual mass; "per out" and "per skein" are billed on it. Hours (column 11) are the machine hours billed, a figure of the invoice that no mass gives. Lot size (column 12): "per lot" and fixed are paid for each lot begun, mass in / lot size rounded up. Currency rate (column 13): money of the result for one unit of the money in which the stage is priced (rate, minimum, fixed, by-product price); charges are rounded to the cent in both; which rate holds is set by the contract or the standard. Leave recoverable taxes out of every price.
 * @throws #VALUE! when a cell of stages is wrong or a basis, rate, hours, by-product price or skein_mass is missing (with the row), or loss and by-product leave nothing.
 * @example =YARN.ROUTECOST(1000,{"stage","loss","regain out","by-product","by-product price","basis","rate";"scour",0.42,0.16,0,0,"per in",0.9;"card and comb",0.03,0.18,0.09,3.2,"per out",2.1;"spin",0.05,0.1825,0,0,"per out",4.4},"made",7.8) → {"stage","mass in (unit of quantity)","mass out (unit of quantity)","charge (money)","by-product credit (money)","cost so far (money)","cost per unit out (money)";"start",1000,1000,7800,0,7800,7.8;"scour",1000,672.8,900,0,8700,12.931;"card and comb",672.8,602.272,1264.77,197.11,9767.66,16.218;"spin",602.272,573.3706,2522.83,0,12290.49,21.4355}
 * @example =INDEX(YARN.ROUTECOST(1000,{"dye",0,0,0,"","per lot",90,0,15,"","",300,1.1},"made",5),3,4) → 462
 * @example =INDEX(YARN.ROUTECOST(100,{"wind",0.02,0,0,0,"per out",1.5,0,20,95},"made",10),4,1) → "wind: abnormal loss"
 * @see FOSSEE-1208, IAS-2
 */
export function routeCost(
  quantity: any[][],
  stages: any[][],
  direction: any[][],
  start_price: any[][],
  regain_start?: any[][],
  skein_mass?: any[][],
): any[][] {
  const { rows, blanks } = tableInPlace({ stages }, PRICED_STAGE);
  const lines = pricing.routeCost(
    one({ quantity }, positive),
    rows,
    one({ direction }, routeDirection),
    one({ start_price }, notNegative),
    oneOr({ regain_start }, regainKind, 0),
    oneOr({ skein_mass }, positive, undefined),
  );
  const [start, ...below] = lines.map(routeCostRow);
  const places: boolean[] = [];
  let stage = 0;
  for (const blank of blanks) {
    places.push(blank);
    // What is abnormal has a row of its own after that of its stage.
    if (!blank && rows[stage++]?.actual_out !== undefined) places.push(false);
  }
  return finiteRows([ROUTECOST_HEADER, start as Results[number], ...inPlaces(places, below)]);
}

const ROUTECOST_HEADER = [
  "stage",
  "mass in (unit of quantity)",
  "mass out (unit of quantity)",
  "charge (money)",
  "by-product credit (money)",
  "cost so far (money)",
  "cost per unit out (money)",
];

function routeCostRow({ stage, massIn, massOut, charge, credit, costSoFar }: pricing.CostLine): (string | number)[] {
  const figures = [massIn, massOut, charge, credit, costSoFar, costSoFar.div(massOut)];
  return [stage, ...figures.map((figure) => figure.toNumber())];
}

/**
 * Contractors' quotes for one stage on one basis: cost per unit delivered with the material that is lost, the cheapest
 * first, and the quantity at which the order turns.
 * @customfunction QUOTES
 * @param {any[][]} quantity Mass to be delivered, more than 0, e.g. kg.
 * @param {any[][]} quotes Table, one row per quote: name, basis, rate, minimum, fixed, lot size, lot fee, loss, regain. Basis is "per in", "per out" (unit of mass billed) or "per lot". Lot size is mass in. Loss is a share of the dry input. Blank minimum, fixed, lot fee and loss are 0; a blank lot size is one lot, a blank regain that of the quantity. With its heading row, columns in any order among others.
 * @param {any[][]} material_price Price of a unit of mass of the material that goes in, money.
 * @param {any[][]} [regain] Regain, a fraction, at which quantity and material price are meant; default 0 (dry, or all at one condition).
 * @returns {any[][]} Header, one row per quote, the cheapest first: name, mass in, material, charge, cost per unit delivered, and the quantity at which its order with the one above turns (blank where none).
 * @remarks Mass in = quantity / (1 - loss), paid at material price. Charge = max(rate × quantity of the basis, minimum) + fixed + lots × lot fee, lots = mass in / lot size rounded up; masses are billed at the quote's regain, × (1 + its regain) / (1 + regain). Nothing is rounded. The turn is the nearest quantity above or below, within a hundredth and a hundred times and 5,000 lots either way. What a contractor is worth in time and quality is not in it.
 * @throws #VALUE! when a cell of quotes is wrong (with its row), a loss is typed as a whole percent or is 1 or more.
 * @example =YARN.QUOTES(100,{"name","basis","rate","fixed","loss";"mill A","per in",2,0,0.2;"mill B","per in",3,60,0.04},10) → {"name","mass in (unit of quantity)","material (money)","charge (money)","cost per unit delivered (money)","order turns at (unit of quantity)";"mill B",104.1667,1041.6667,372.5,14.1417,"";"mill A",125,1250,250,15,41.1429}
 * @example =INDEX(YARN.QUOTES(100,{"name","basis","rate","loss";"A","per in",2,0.2;"B","per in",3,0.04},10),0,5) → {"cost per unit delivered (money)";13.541667;15}
 * @see DEFINITION, PRACTICE
 */
export function quotes(quantity: any[][], quotes: any[][], material_price: any[][], regain?: any[][]): any[][] {
  const lines = pricing.rankQuotes(
    one({ quantity }, positive),
    table({ quotes }, QUOTE),
    one({ material_price }, notNegative),
    oneOr({ regain }, regainKind, 0),
  );
  return finiteRows([
    QUOTES_HEADER,
    ...lines.map(({ quote, massIn, material, charge, perUnit, turnsAt }) => [
      ...[quote.name, massIn, material, charge, perUnit],
      turnsAt ?? "",
    ]),
  ]);
}

const QUOTE: TableColumns<pricing.Quote> = {
  name: text,
  basis: quoteBasis,
  rate: notNegative,
  minimum: blankIs(notNegative, 0),
  fixed: blankIs(notNegative, 0),
  lot_size: blankOrZero(positive, undefined),
  lot_fee: blankIs(notNegative, 0),
  loss: blankIs(loss, 0),
  regain: blankIs<number | undefined>(regainKind, undefined),
};

const QUOTES_HEADER = [
  "name",
  "mass in (unit of quantity)",
  "material (money)",
  "charge (money)",
  "cost per unit delivered (money)",
  "order turns at (unit of quantity)",
];

/**
 * What the cost per unit of a route is known to: low, expected and high, and each input's part of the variance, the
 * widest first.
 * @customfunction COSTSPREAD
 * @param {any[][]} quantity Mass, more than 0: out of the last stage ("needed") or into the first ("made").
 * @param {any[][]} stages Table of the route and its charges as in ROUTECOST, without actual out.
 * @param {any[][]} spreads Table: stage, loss, regain out, by-product, rate: how far each figure may be off to either side, loss, regain and by-product as fractions, rate as money; blank or 0: known. Only stages with something uncertain need a row. With its heading row, columns in any order among others.
 * @param {any[][]} direction "needed" (from the mass wanted out back to the first stage) or "made" (forward).
 * @param {any[][]} start_price Price of one unit of mass of what enters the first stage.
 * @param {any[][]} [start_spread] How far the start price may be off to either side, money; default 0.
 * @param {any[][]} [regain_start] Regain of what enters the first stage, as a fraction; default 0, as for greasy wool.
 * @param {any[][]} [skein_mass] Mass of one skein, in the unit of quantity; left out: no stage may be "per skein".
 * @returns {any[][]} Header, a row of the cost per unit out, then one row per uncertain input: input, low, expected, high (of the cost per unit when this input alone is off), part of the variance.
 * @remarks Expected is ROUTECOST's cost per unit out. Off = √Σ(slope × spread)², slopes exact by the rules of sums, products and quotients. So the spreads must be of one kind (all limits of the same confidence, or all standard deviations), small, and independent; what moves together adds, and is not seen. A minimum that holds and whole lots have no slope. A gap to a minimum or a lot may hide more: vary it.
 * @throws #VALUE! when a stage of spreads is none of stages, an actual out is given, or a cell is wrong (with its row).
 * @example =YARN.COSTSPREAD(1000,{"stage","loss","regain out","by-product","by-product price","basis","rate";"scour",0.42,0.16,0,0,"per in",0.9;"spin",0.05,0.1825,0,0,"per out",4.4},{"stage","loss","rate";"scour",0.03,0.05;"spin",0.01,0.2},"made",7.8,0.3) → {"input","low (money)","expected (money)","high (money)","part of the variance";"cost per unit out",16.8839,17.7526,18.6213,1;"scour: loss",17.062,17.7526,18.4433,0.6321;"start price",17.2922,17.7526,18.2131,0.2809;"spin: rate",17.5526,17.7526,17.9526,0.053;"spin: loss",17.6121,17.7526,17.8932,0.0262;"scour: rate",17.6759,17.7526,17.8294,0.0078}
 * @example =INDEX(YARN.COSTSPREAD(1000,{"scour",0.5,0,0,"","",""},{"scour",0.05,0,0,0},"made",4,0.3),0,5) → {"part of the variance";1;0.64;0.36}
 * @see DEFINITION
 */
export function costSpread(
  quantity: any[][],
  stages: any[][],
  spreads: any[][],
  direction: any[][],
  start_price: any[][],
  start_spread?: any[][],
  regain_start?: any[][],
  skein_mass?: any[][],
): any[][] {
  const known = pricing.costSpread(
    one({ quantity }, positive),
    table({ stages }, PRICED_STAGE),
    table({ spreads }, STAGE_SPREAD),
    one({ direction }, routeDirection),
    one({ start_price }, notNegative),
    oneOr({ start_spread }, notNegative, 0),
    oneOr({ regain_start }, regainKind, 0),
    oneOr({ skein_mass }, positive, undefined),
  );
  return finiteRows([
    ["input", "low (money)", "expected (money)", "high (money)", "part of the variance"],
    ...known.map(({ input, low, expected, high, part }) => [input, low, expected, high, part]),
  ]);
}

const STAGE_SPREAD: TableColumns<pricing.StageSpread> = {
  stage: text,
  loss: blankIs(share, 0),
  regain_out: blankIs(share, 0),
  by_product: blankIs(share, 0),
  rate: blankIs(notNegative, 0),
};

/**
 * Money rounded to decimals; half away from zero like the sheet's own ROUND, or another mode by its name.
 * @customfunction ROUNDCASH
 * @param {any[][]} value Amount to round.
 * @param {any[][]} decimals Decimals, -15 to 15: 2 for cents, 0 for whole units, -1 for tens.
 * @param {any[][]} [mode] "half away" (default), "half even", "up" (away from zero) or "down" (towards zero).
 * @returns {any[][]} Rounded amount, in the shape of the arguments.
 * @remarks The decimal that the cell shows is rounded, not the binary value behind it: 1.005 gives 1.01 and 2.675 gives 2.68. "up" and "down" act on any remainder, not only on a half.
 * @throws #VALUE! when value is not a number, decimals is not whole or mode is unknown.
 * @example =YARN.ROUNDCASH({1.005;2.675;-2.5},{2;2;0}) → {1.01;2.68;-3}
 * @example =YARN.ROUNDCASH({0.125;0.135},2,"half even") → {0.12;0.14}
 * @see IEEE-754
 */
export function roundCash(value: any[][], decimals: any[][], mode?: any[][]): any[][] {
  return lift(
    (amount, places, how) => rounding.roundCash(amount, places, how).toNumber(),
    required({ value }, anyNumber),
    required({ decimals }, roundingPlaces),
    optional({ mode }, roundingMode, "half away"),
  );
}
