import * as pricing from "../trade/prices";
import { at, refuse, type Subject } from "../trade/refusal";
import { list, one, oneOr, optional, required, type TableColumns } from "../sheet/arguments";
import {
  anyNumber,
  blankIs,
  blankOrZero,
  fraction,
  notNegative,
  positive,
  rate,
  share,
  text,
  word,
} from "../sheet/kinds";
import { finiteRows, lift, liftRows } from "../sheet/lift";
import { runningRows } from "../sheet/running";
import { columnOf, inPlaces } from "../sheet/shape";
import { likeList, namedTogether, withNames } from "../sheet/names";
import { wordsFor } from "../sheet/words";
import { isCalledTotal, plainHeading } from "../sheet/headings";
import { refuseTotalInBoth, refuseTotalWithMean } from "../sheet/totals";
import { rowsOf, type Results } from "../sheet/cells";
import { expectItems } from "../sheet/work";

const margins = fraction(-10, 1, "must be below 1 (100%) and not below -10", true);
const markups = fraction(-1, 10, "must be -1 to 10 (-100% to 1000%)");
const mixMethods = wordsFor<pricing.MixMethod>("method", "individual", "average");
const jointMethods = wordsFor<pricing.JointMethod>(
  "method",
  "physical",
  "sales value",
  "net realisable",
  "constant margin",
);
const processMethods = wordsFor<pricing.ProcessMethod>("method", "average", "fifo");
const valueChange = word<pricing.ValueChange>(
  wordsFor("kind", "late charge", "credit note", "write-down", "reversal", "net realisable"),
);
const ledgerMethods = wordsFor<pricing.LedgerMethod>("method", "fifo", "average");

/**
 * Selling price that leaves a margin on the price, in the currency of cost.
 * @customfunction PRICEFORMARGIN
 * @param {any[][]} cost Cost, money; 0 or more.
 * @param {any[][]} margin Margin wanted as a fraction of the price: 0.55 or 55%; below 1.
 * @returns {any[][]} Price, money, not rounded, in the shape of the arguments.
 * @remarks price = cost / (1 - margin). Margin is on the price, mark-up on the cost: 50% mark-up is 33.3% margin.
 * @throws #VALUE! when cost is below 0, or margin is 1 or more or a percent typed whole (55).
 * @example =YARN.PRICEFORMARGIN(36,55%) → 80
 * @example =YARN.PRICEFORMARGIN({12;30},0.4) → {20;50}
 * @see DEFINITION
 */
export function priceForMargin(cost: any[][], margin: any[][]): any[][] {
  return lift(pricing.priceForMargin, required({ cost }, notNegative), required({ margin }, margins));
}

/**
 * Selling price with a mark-up on the cost, in the currency of cost.
 * @customfunction PRICEFORMARKUP
 * @param {any[][]} cost Cost, money; 0 or more.
 * @param {any[][]} markup Mark-up as a fraction of the cost: 0.5 or 50%; -1 to 10.
 * @returns {any[][]} Price, money, not rounded, in the shape of the arguments.
 * @remarks price = cost × (1 + markup). Margin is on the price, mark-up on the cost: 50% mark-up is 33.3% margin.
 * @throws #VALUE! when cost is below 0, or markup is outside -1 to 10 or a percent typed whole (50).
 * @example =YARN.PRICEFORMARKUP(40,50%) → 60
 * @see DEFINITION
 */
export function priceForMarkup(cost: any[][], markup: any[][]): any[][] {
  return lift(pricing.priceForMarkup, required({ cost }, notNegative), required({ markup }, markups));
}

/**
 * Margin as a fraction of the price; negative when sold below cost.
 * @customfunction MARGIN
 * @param {any[][]} cost Cost, money; 0 or more.
 * @param {any[][]} price Selling price in the same currency and per the same unit.
 * @returns {any[][]} Margin, a fraction (0.25 is 25%), in the shape of the arguments.
 * @remarks margin = (price - cost) / price. Cost comes first, as in PRICEFORMARGIN.
 * @throws #VALUE! when an argument is below 0 or no number; #DIV/0! when price is 0.
 * @example =YARN.MARGIN(36,80) → 0.55
 * @see DEFINITION
 */
export function margin(cost: any[][], price: any[][]): any[][] {
  return lift(pricing.marginOf, required({ cost }, notNegative), required({ price }, notNegative));
}

/**
 * Mark-up as a fraction of the cost; negative when sold below cost.
 * @customfunction MARKUP
 * @param {any[][]} cost Cost, money; above 0.
 * @param {any[][]} price Selling price in the same currency and per the same unit; 0 or more.
 * @returns {any[][]} Mark-up, a fraction (0.5 is 50%), in the shape of the arguments.
 * @remarks markup = (price - cost) / cost. Cost comes first, as in PRICEFORMARKUP.
 * @throws #VALUE! when an argument is below 0 or no number; #DIV/0! when cost is 0.
 * @example =YARN.MARKUP(40,60) → 0.5
 * @see DEFINITION
 */
export function markup(cost: any[][], price: any[][]): any[][] {
  return lift(pricing.markupOf, required({ cost }, notNegative), required({ price }, notNegative));
}

/**
 * Break-even quantity: whole units that cover the fixed costs and a profit wanted.
 * @customfunction BREAKEVEN
 * @param {any[][]} fixed Fixed costs, money; 0 or more.
 * @param {any[][]} price Selling price per unit, money; above 0.
 * @param {any[][]} variable Variable cost per unit, money; 0 or more.
 * @param {any[][]} [profit] Profit wanted, money; 0 when left out.
 * @returns {any[][]} Units, rounded up to a whole number, in the shape of the arguments.
 * @remarks (fixed + profit) / (price - variable), rounded up. Holds while price and costs do not change with quantity.
 * @throws #N/A when variable is above price; #DIV/0! when they are equal; #VALUE! when an argument is out of range.
 * @example =YARN.BREAKEVEN(108000,50,32) → 6000
 * @example =YARN.BREAKEVEN(1000,9,2,500) → 215
 * @see DEFINITION
 */
export function breakEven(fixed: any[][], price: any[][], variable: any[][], profit?: any[][]): any[][] {
  return lift(
    pricing.breakEvenUnits,
    required({ fixed }, notNegative),
    required({ price }, positive),
    required({ variable }, notNegative),
    optional({ profit }, notNegative, 0),
  );
}

/**
 * Cost variances of a mix of materials: price, mix, yield, usage and total, in money; favourable is positive.
 * @customfunction VARIANCE
 * @param {any[][]} standard_quantity Standard quantity of each material for the output actually made; a list, with names if you like.
 * @param {any[][]} actual_quantity Quantity of each material actually used, in the same unit; a list as long.
 * @param {any[][]} standard_price Standard price of each material per unit of quantity, money; a list as long.
 * @param {any[][]} actual_price Price actually paid per unit of quantity, money; a list as long.
 * @param {any[][]} [method] What mix is valued at: "individual" prices (default) or difference from the "average" price.
 * @returns {any[][]} Header row, one row per material (after its name if given), totals row; columns price, mix, yield, usage, total.
 * @remarks price = AQ × (SP - AP); usage = (SQ - AQ) × SP = mix + yield; total = price + usage, exactly. Individual:
 * mix = (RSQ - AQ) × SP with RSQ = SQ × ΣAQ / ΣSQ. Average: mix = (RSQ - AQ) × (SP - ΣSQ·SP / ΣSQ), and yield is the
 * rest of usage; same totals. The average method is from memory, verify before use. The standard quantity is the one
 * for the output made, not the one planned. Labour hours and rates work the same way.
 * @throws #VALUE! when a figure is below 0 or missing, or the lists differ in length; #DIV/0! when the standard
 * quantities sum to 0.
 * @example =YARN.VARIANCE({10;8;4},{10;9;5},{8;6;12},{7;7;11}) → {"price variance (favourable +)","mix variance (favourable +)","yield variance (favourable +)","usage variance (favourable +)","total variance (favourable +)";10,7.2727,-7.2727,0,10;-9,-1.6364,-4.3636,-6,-15;5,-7.6364,-4.3636,-12,-7;6,-2,-16,-18,-12}
 * @see FOSSEE-1208, MEMORY
 */
export function variance(
  standard_quantity: any[][],
  actual_quantity: any[][],
  standard_price: any[][],
  actual_price: any[][],
  method?: any[][],
): any[][] {
  const { items: materials, first } = namedTogether<pricing.Material>({
    standardQuantity: [{ standard_quantity }, notNegative, "standard_quantity"],
    actualQuantity: [{ actual_quantity }, notNegative, "actual_quantity"],
    standardPrice: [{ standard_price }, notNegative, "standard_price"],
    actualPrice: [{ actual_price }, notNegative, "actual_price"],
  });
  expectItems("standard_quantity", materials.length, MOST_MATERIALS);
  const [standard, actual] = [materials.map((one) => one.standardQuantity), materials.map((one) => one.actualQuantity)];
  refuseTotalInBoth("standard_quantity", standard, actual);
  materials.forEach(({ standardPrice, actualPrice }, index) =>
    expectNear(at("actual_price", index), actualPrice, "standard_price", standardPrice),
  );
  const each = pricing.materialVariances(materials, oneOr({ method }, word(mixMethods), "individual"));
  const { names, blanks } = first.along;
  const rows = [VARIANCE_HEADER, ...each.concat(pricing.totalOf(each)).map(varianceCells)];
  const [header, ...below] = withNames(rows, names && ["material", ...names, "total"], undefined);
  return finiteRows([header as Results[number], ...inPlaces(blanks, below)]);
}

/** Each costs some forty microseconds. */
const MOST_MATERIALS = 50_000;

const VARIANCE_HEADER = ["price", "mix", "yield", "usage", "total"].map((kind) => `${kind} variance (favourable +)`);

function varianceCells({ price, mix, yield: yielded, usage, total }: pricing.Variances): number[] {
  // Below 18 decimals there is only the cut of a repeating quotient: a mix that cancels out must show 0.
  return [price, mix, yielded, usage, total].map((money) => money.toDecimalPlaces(18).toNumber());
}

/**
 * Fixed overhead variances of a period: expenditure, efficiency, capacity, volume and total, in money; favourable is
 * positive.
 * @customfunction OVERHEADVARIANCE
 * @param {any[][]} budget_cost Cost of the fixed overheads as planned for the period, money, above 0; one per period.
 * @param {any[][]} budget_hours Hours planned for the period, above 0; of machines or of people, the same all through.
 * @param {any[][]} actual_cost Cost of the fixed overheads as spent in the period, money.
 * @param {any[][]} actual_hours Hours run in the period.
 * @param {any[][]} standard_hours Hours that the output made should have taken.
 * @returns {any[][]} Header row, then one row per period: expenditure, efficiency, capacity, volume, total.
 * @remarks Rate = budget cost / budget hours. Expenditure = budget cost - actual cost; efficiency = (standard - actual
 * hours) × rate; capacity = (actual - budget hours) × rate; volume = efficiency + capacity; total = expenditure +
 * volume = standard hours × rate - actual cost. They foot exactly; nothing is rounded.
 * @throws #VALUE! when a figure is missing, negative or no number, or budget_cost or budget_hours is 0.
 * @example =YARN.OVERHEADVARIANCE(12000,4000,12600,3800,3900) → {"expenditure variance (favourable +)","efficiency variance (favourable +)","capacity variance (favourable +)","volume variance (favourable +)","total variance (favourable +)";-600,300,-600,-300,-900}
 * @see DEFINITION
 */
export function overheadVariance(
  budget_cost: any[][],
  budget_hours: any[][],
  actual_cost: any[][],
  actual_hours: any[][],
  standard_hours: any[][],
): any[][] {
  const periods = liftRows(
    OVERHEAD_VARIANCES.length,
    overheadCells,
    required({ budget_cost: columnOf(budget_cost) }, positive),
    required({ budget_hours: columnOf(budget_hours) }, positive),
    required({ actual_cost: columnOf(actual_cost) }, notNegative),
    required({ actual_hours: columnOf(actual_hours) }, notNegative),
    required({ standard_hours: columnOf(standard_hours) }, notNegative),
  );
  return [OVERHEAD_VARIANCES.map((kind) => `${kind} variance (favourable +)`), ...periods];
}

const OVERHEAD_VARIANCES = ["expenditure", "efficiency", "capacity", "volume", "total"] as const;

/** Figures of one thing or period; further apart, as minutes from hours, they are in different units. Common practice, no source. */
const MOST_TIMES = 50;

function expectNear(name: Subject, value: number, beside: string, other: number): void {
  if (value === 0 || other === 0 || (value <= MOST_TIMES * other && other <= MOST_TIMES * value)) return;
  refuse(name, String(value), `beside ${beside} of ${other}; are both of the period and in one unit?`);
}

function overheadCells(
  budgetCost: number,
  budgetHours: number,
  actualCost: number,
  actualHours: number,
  standardHours: number,
): number[] {
  expectNear("standard_hours", standardHours, "actual_hours", actualHours);
  expectNear("budget_hours", budgetHours, "actual_hours", actualHours);
  expectNear("budget_cost", budgetCost, "actual_cost", actualCost);
  const variances = pricing.overheadVariances({ budgetCost, budgetHours, actualCost, actualHours, standardHours });
  // Below 18 decimals there is only the cut of a repeating quotient.
  return OVERHEAD_VARIANCES.map((kind) => variances[kind].toDecimalPlaces(18).toNumber());
}

/**
 * Shares of a joint cost borne by products that come from one process, to the cent; the shares sum to the cost.
 * @customfunction JOINTCOST
 * @param {any[][]} joint_cost Cost up to the point where the products separate, money; one cell, above 0.
 * @param {any[][]} quantities Quantity of each product, all in one unit; a list, with names if you like.
 * @param {any[][]} prices Selling price of each product per unit of quantity, money; a list as long.
 * @param {any[][]} [separable] Cost of each product alone after the split, money in total, not per unit; 0 when left out.
 * @param {any[][]} [method] "physical", "sales value", "net realisable" (default) or "constant margin".
 * @returns {any[][]} Share of each product, money to the cent, in the shape of quantities, with the names if given.
 * @remarks Weights: physical: quantity; sales value: quantity × price; net realisable: that less separable. Constant
 * margin: quantity × price × (joint + separable in all) / (sales in all) - separable, which can be negative. Largest
 * remainders get the odd cents. Physical puts as much cost on a kilogram of noil as on one of top. Without separable
 * costs the last three agree.
 * @throws #VALUE! when a figure is missing or below 0, the lists differ in length, or separable exceeds a product's
 * sales (net realisable); #DIV/0! when the weights sum to 0.
 * @example =YARN.JOINTCOST(100000,{500;300},{300;300},,"physical") → {62500;37500}
 * @example =YARN.JOINTCOST(100,{1;1;1},{5;5;5}) → {33.34;33.33;33.33}
 * @see IAS-2, DEFINITION
 */
export function jointCost(
  joint_cost: any[][],
  quantities: any[][],
  prices: any[][],
  separable?: any[][],
  method?: any[][],
): any[][] {
  const { items: products, first } = namedTogether<pricing.JointProduct>({
    quantity: [{ quantities }, notNegative, "quantity"],
    price: [{ prices }, notNegative, "price"],
    separable: [{ separable }, notNegative, "separable_cost", 0],
  });
  const [amounts, each] = [products.map(({ quantity }) => quantity), products.map(({ price }) => price)];
  refuseTotalWithMean("quantities", amounts, each);
  const way = oneOr({ method }, word(jointMethods), "net realisable");
  const shares = pricing.jointCostShares(one({ joint_cost }, positive), products, way);
  return likeList(first, shares.map(Number));
}

/**
 * Equivalent units and process cost per unit, of completed units and of closing stock, for each cost element.
 * @customfunction EQUIVALENT
 * @param {any[][]} method "average" (opening cost is averaged in) or "fifo" (opening stock is completed first).
 * @param {any[][]} opening_units Units in process at the start; one per cost element, or one for all.
 * @param {any[][]} opening_done Share of this element already in them, 0 to 1; average does not use it.
 * @param {any[][]} completed_units Units completed in the period, the opening ones included.
 * @param {any[][]} closing_units Units in process at the end.
 * @param {any[][]} closing_done Share of this element already in them, 0 to 1.
 * @param {any[][]} opening_cost Cost of this element in the opening units, money.
 * @param {any[][]} added_cost Cost of this element added in the period, money.
 * @returns {any[][]} Header row, then per element: equivalent units, cost per unit, cost of completed, cost of closing.
 * @remarks Average: units = completed + closing × done; cost per unit = (opening + added) / units. Fifo: units =
 * completed + closing × done - opening × done; cost per unit = added / units. Completed takes what closing leaves, so
 * completed + closing = opening + added exactly; nothing is rounded. Normal loss is simply not in the units.
 * @throws #VALUE! when a figure is out of range, or by fifo fewer units are completed than were open; #DIV/0! when
 * there are no equivalent units.
 * @example =YARN.EQUIVALENT("average",0,0,900,200,50%,500,1500) → {"equivalent units","cost per unit","cost of completed","cost of closing";1000,2,1800,200}
 * @example =INDEX(YARN.EQUIVALENT("fifo",750,{1;0.6},3000,1000,{1;0.25},0,{3575;3640}),2,2) → 1.1
 * @see FOSSEE-1208, DEFINITION
 */
export function equivalent(
  method: any[][],
  opening_units: any[][],
  opening_done: any[][],
  completed_units: any[][],
  closing_units: any[][],
  closing_done: any[][],
  opening_cost: any[][],
  added_cost: any[][],
): any[][] {
  const elements = liftRows(
    EQUIVALENT_HEADER.length,
    equivalentCells,
    required({ method: columnOf(method) }, word(processMethods)),
    required({ opening_units: columnOf(opening_units) }, notNegative),
    required({ opening_done: columnOf(opening_done) }, share),
    required({ completed_units: columnOf(completed_units) }, notNegative),
    required({ closing_units: columnOf(closing_units) }, notNegative),
    required({ closing_done: columnOf(closing_done) }, share),
    required({ opening_cost: columnOf(opening_cost) }, notNegative),
    required({ added_cost: columnOf(added_cost) }, notNegative),
  );
  return [EQUIVALENT_HEADER, ...elements];
}

const EQUIVALENT_HEADER = ["equivalent units", "cost per unit", "cost of completed", "cost of closing"];

function equivalentCells(
  method: pricing.ProcessMethod,
  ...period: [number, number, number, number, number, number, number]
) {
  const [openingUnits, openingDone, completedUnits, closingUnits, closingDone, openingCost, addedCost] = period;
  const { units, costPerUnit, completedCost, closingCost } = pricing.equivalentUnits(method, {
    ...{ openingUnits, openingDone, completedUnits, closingUnits, closingDone },
    ...{ openingCost, addedCost },
  });
  return [units, costPerUnit, completedCost, closingCost].map((figure) => figure.toNumber());
}

/**
 * Stock ledger: quantity in stock, value, average cost and cost of issue after each event, by fifo or moving average.
 * @customfunction STOCKLEDGER
 * @param {any[][]} events Table, oldest first: quantity (+ in, - out), cost per unit of receipts in money (blank for issues), [value] (money that changes the value alone, with no quantity), [kind] of that value. With its heading row, columns in any order among others.
 * @param {any[][]} method "fifo" (oldest stock goes out first) or "average" (moving average).
 * @returns {any[][]} Header row, then one row per event, after its name (document) if given: quantity in stock, value, average cost, cost of issue.
 * @remarks Opening stock is the first event. Value is carried at full precision, never as quantity × a rounded
 * average; when the stock runs out its value is exactly 0 and average cost stays blank. A receipt's cost must be
 * above 0, because a blank cell can arrive as 0. Kinds of value: "late charge" (above 0) and "credit note" (below 0)
 * change the cost of what is in stock, shared by its cost; "write-down" (below 0) and "reversal" (above 0, up to what was
 * written down) leave the cost; "net realisable": the value is what the whole stock would bring, and the lower of it and
 * cost is carried. Without a kind a value below 0 is a write-down; one above 0 reverses what is written down, or is a late
 * charge where nothing is. What is written down leaves with the goods, by their cost. Which value may be carried is for
 * your accountant and the standard you report by.
 * @throws #VALUE! in the row of an event that is wrong or would make the stock negative, and in all rows after it; for the whole when a column date begins with the newest.
 * @example =YARN.STOCKLEDGER({"quantity","unit cost";3,170;10,180;-6,""},"fifo") → {"quantity in stock","value","average cost per unit","cost of issue";3,510,170,0;13,2310,177.6923,0;7,1260,180,1050}
 * @example =INDEX(YARN.STOCKLEDGER({10,4;10,5;-5,""},"average"),4,0) → {15,67.5,4.5,22.5}
 * @example =INDEX(YARN.STOCKLEDGER({100,7.2,"","";"","",690,"net realisable";"","",760,"net realisable"},"average"),0,2) → {"value";720;690;720}
 * @see IAS-2
 */
export function stockLedger(events: any[][], method: any[][]): any[][] {
  const enter = pricing.stockLedger(one({ method }, word(ledgerMethods)));
  const answer = ({ quantity, unit_cost, value, kind }: LedgerEvent, index: number): (number | string)[] => {
    if (quantity === undefined && value === undefined) {
      refuse(at("events", index, "quantity"), "blank", "fill it in; a blank is not 0");
    }
    return ledgerCells(enter(quantity ?? 0, unit_cost, index, value, kind));
  };
  expectOldestFirst(events);
  const { rows, names } = runningRows({ events }, LEDGER_EVENT, LEDGER_HEADER.length, answer, LEDGER_TRAITS);
  return withNames([LEDGER_HEADER, ...rows], names && ["event", ...names], undefined);
}

/** Refuses events of which the last is older than the first, where they have their dates with them. */
function expectOldestFirst(events: any[][]): void {
  const [headings = [], ...rows] = rowsOf(events);
  const place = headings.map((cell) => plainHeading(String(cell))).indexOf("date");
  const dates = rows.map((row) => row[place]).filter(Number) as number[];
  if (dates[0]! > dates[dates.length - 1]!) refuse("events", "newest first", "must be oldest first");
}

interface LedgerEvent {
  readonly quantity: number | undefined;
  readonly unit_cost: number | undefined;
  readonly value: number | undefined;
  readonly kind: pricing.ValueChange | undefined;
}

const LEDGER_EVENT: TableColumns<LedgerEvent> = {
  quantity: blankIs<number | undefined>(anyNumber, undefined),
  unit_cost: blankIs<number | undefined>(notNegative, undefined),
  value: blankIs<number | undefined>(anyNumber, undefined),
  kind: blankOrZero(valueChange, undefined),
};
const LEDGER_TRAITS = {
  needed: ["quantity"],
  named: true,
  synonyms: { name: ["document", "voucher", "reference"], quantity: ["movement", "in and out", "kg", "mass"] },
};
const LEDGER_HEADER = ["quantity in stock", "value", "average cost per unit", "cost of issue"];

function ledgerCells({ quantity, value, averageCost, costOfIssue }: pricing.LedgerLine): (number | string)[] {
  return [quantity.toNumber(), value.toNumber(), averageCost ? averageCost.toNumber() : "", costOfIssue.toNumber()];
}

/**
 * Rows for a tornado chart: label, result at the low and high of each input, and the swing, the widest first.
 * @customfunction SWING
 * @param {any[][]} labels Name of each input that is varied; a list.
 * @param {any[][]} lows Result when that input is at its low, all others unchanged; a list as long.
 * @param {any[][]} highs Result when that input is at its high; a list as long.
 * @returns {any[][]} Header row, then one row per input: input, at low, at high, swing; in the unit of the results.
 * @remarks swing = |high - low|; equals keep their order, and rows with an error come last. Bar charts draw the first
 * row at the bottom: set the axis to reverse order. Swings of inputs that move together do not add.
 * @throws #VALUE! in the row of a figure that is missing or no number; for the whole when the lists differ in length.
 * @example =YARN.SWING({"wool";"yield"},{95;108},{104;91}) → {"input","at low","at high","swing";"yield",108,91,17;"wool",95,104,9}
 * @see DEFINITION
 */
export function swing(labels: any[][], lows: any[][], highs: any[][]): any[][] {
  const rows = liftRows(
    SWING_HEADER.length,
    swingCells,
    optional({ labels: columnOf(labels) }, text, ""),
    optional<number | undefined>({ lows: columnOf(lows) }, anyNumber, undefined),
    optional<number | undefined>({ highs: columnOf(highs) }, anyNumber, undefined),
  ).filter((row) => row.some((cell) => cell !== ""));
  return [
    SWING_HEADER,
    ...pricing.widestFirst(rows, ([, , , width]) => (typeof width === "number" ? width : undefined)),
  ];
}

const SWING_HEADER = ["input", "at low", "at high", "swing"];

/** A wholly blank row is no input; a label without its figures is a mistake, not a swing of 0. */
function swingCells(label: string, low: number | undefined, high: number | undefined): (number | string)[] {
  if (label === "" && low === undefined && high === undefined) return SWING_HEADER.map(() => "");
  if (label === "") return refuse("labels", "blank beside figures", "name the input that they belong to");
  if (low === undefined) return refuse("lows", `blank beside "${label}"`, "fill it in; a blank is not 0");
  if (high === undefined) return refuse("highs", `blank beside "${label}"`, "fill it in; a blank is not 0");
  if (isCalledTotal([label])) refuse("labels", `"${label}"`, "leave the total out: it is no input");
  return [label, low, high, pricing.swing(low, high)];
}

/**
 * Order sizes that cover a need, with the cost per unit at the need, the minimum and each price break above it.
 * @customfunction ORDERSIZE
 * @param {any[][]} need Quantity needed, e.g. kg; one cell, above 0.
 * @param {any[][]} breaks Quantities from which each rate applies, rising, the first 0; a list in the unit of need.
 * @param {any[][]} rates Price per unit from each break on, for all units, money; a list as long.
 * @param {any[][]} [holding] Cost of holding the surplus, a fraction of what the surplus cost (0.15 or 15%); 0 when left out.
 * @param {any[][]} [minimum] Least quantity the supplier takes an order for; 0 when left out.
 * @returns {any[][]} Header row, then one row per order: order, quantity, cost, surplus, holding cost, cost per unit.
 * @remarks cost per unit = (cost of the order - cost of the surplus + holding) / need; with holding 0 it is the rate
 * paid. A surplus that is worth nothing has holding 1 (100%). Smaller orders than the need are not listed; when the
 * need is below the minimum its costs stay blank.
 * @throws #VALUE! when a break does not rise, the first is not 0, a rate is missing or 0, or need is not above 0.
 * @example =YARN.ORDERSIZE(45,{0;50;100},{8;6.5;5}) → {"order","order quantity","cost of order","surplus over need","cost of holding the surplus","cost per unit of need";"need",45,360,0,0,8;"break at 50",50,325,5,0,6.5;"break at 100",100,500,55,0,5}
 * @example =INDEX(YARN.ORDERSIZE(40,{0;50;100},{8;6.5;5},20%),0,6) → {"cost per unit of need";8;6.825;6.5}
 * @see DEFINITION, PRACTICE
 */
export function orderSize(
  need: any[][],
  breaks: any[][],
  rates: any[][],
  holding?: any[][],
  minimum?: any[][],
): any[][] {
  const tiers = [list({ breaks }, notNegative), list({ rates }, positive)] as const;
  const held = oneOr({ holding }, rate, 0);
  const choices = pricing.orderChoices(one({ need }, positive), ...tiers, held, oneOr({ minimum }, notNegative, 0));
  return finiteRows([ORDER_HEADER, ...choices.map(orderCells)]);
}

const ORDER_HEADER = [
  ...["order", "order quantity", "cost of order", "surplus over need"],
  ...["cost of holding the surplus", "cost per unit of need"],
];

function orderCells({ order, quantity, costs }: pricing.OrderChoice): (number | string)[] {
  if (!costs) return [order, quantity, "", "", "", ""];
  return [
    order,
    quantity,
    ...[costs.cost, costs.surplus, costs.holding, costs.perUnit].map((money) => money.toNumber()),
  ];
}
