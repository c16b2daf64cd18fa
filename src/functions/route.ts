import * as routing from "../trade/route";
import { list, one, oneOr, optional, required, tableInPlace, type Named } from "../sheet/arguments";
import { loss, notNegative, numberBetween, positive, regain, share, word } from "../sheet/kinds";
import { finiteRows, lift, liftRows } from "../sheet/lift";
import { columnOf, inPlaces } from "../sheet/shape";
import { expectRoute, routeDirection, STAGE } from "../sheet/stages";
import { refuseTotal, refuseTotalLoss } from "../sheet/totals";
import { wordsFor } from "../sheet/words";
import { figuresOf, namedList } from "../sheet/names";

const lossBasis = word<routing.LossBasis>(wordsFor("loss basis", "input", "output"));
/** Losses in process order, without their sum at the foot, as a chain that is looked at when it is first asked for. */
function chainOf(given: Named): (on: routing.LossBasis) => routing.LossChain {
  const losses = figuresOf(given, loss, "loss");
  refuseTotalLoss("losses", losses);
  const chain = new routing.LossChain(losses);
  const ready = (on: routing.LossBasis): (() => routing.LossChain) =>
    once(() => {
      if (on === "input") routing.expectLosses("losses", losses);
      else routing.expectLossesOnOutput("losses", losses);
      chain.made(1, on);
      return chain;
    });
  const chains = { input: ready("input"), output: ready("output") };
  return (on) => chains[on]();
}

/** Worked out when it is first asked for; what is refused then is refused each time, and not worked out again. */
function once<T>(calculate: () => T): () => T {
  let again = (): T => {
    try {
      const value = calculate();
      again = () => value;
    } catch (thrown) {
      again = () => {
        throw thrown;
      };
    }
    return again();
  };
  return () => again();
}

/** A laboratory goes up to 1:100; common practice, no source. */
const liquorRatio = numberBetween(1, 200, "must be a number, 1 to 200 (10 for 1:10)");

/**
 * Input needed for an output, through losses in process order, in the unit of the output.
 * @customfunction NEED
 * @param {any[][]} output Quantity wanted at the end, in any unit; 0 or more. A column gives a column.
 * @param {any[][]} losses Loss of each stage in process order, as a list of fractions below 1; one list for all outputs. Negative where something is taken up.
 * @param {any[][]} [basis] What a loss is a share of: "input" (default), y = 1 - w, or "output", y = 1/(1 + w).
 * @returns {any[][]} Quantity to put in, in the unit and shape of output.
 * @remarks Input = output / product of the yields y. Only for goods at one moisture: use ROUTE when regain changes on the way. Losses quoted on the output are common in spinning: 5% on output is less than 5% on input.
 * @throws #VALUE! when output is negative or not a number, a loss is 1 or more (18.25 for 18.25%), a loss between others is blank, or basis is unknown.
 * @example =YARN.NEED(100,0.08) → 108.695652
 * @example =YARN.NEED({100;200},{0.1;0.2},"output") → {132;264}
 * @see FOSSEE-1208, DEFINITION
 */
export function need(output: any[][], losses: any[][], basis?: any[][]): any[][] {
  const chain = chainOf({ losses });
  return lift(
    (quantity, on) => chain(on).needed(quantity, on).toNumber(),
    required({ output }, notNegative),
    optional({ basis }, lossBasis, "input"),
  );
}

/**
 * Output made from an input, through losses in process order, in the unit of the input.
 * @customfunction MADE
 * @param {any[][]} input Quantity put in, in any unit; 0 or more. A column gives a column.
 * @param {any[][]} losses Loss of each stage in process order, as a list of fractions below 1; one list for all inputs. Negative where something is taken up.
 * @param {any[][]} [basis] What a loss is a share of: "input" (default), y = 1 - w, or "output", y = 1/(1 + w).
 * @returns {any[][]} Quantity that comes out, in the unit and shape of input.
 * @remarks Output = input × product of the yields y. Losses do not add: three of 10% leave 72.9%. Only for goods at one moisture: use ROUTE when regain changes on the way.
 * @throws #VALUE! when input is negative or not a number, a loss is 1 or more (18.25 for 18.25%), a loss between others is blank, or basis is unknown.
 * @example =YARN.MADE(1000,{0.1;0.1;0.1}) → 729
 * @example =YARN.MADE({132;264},{0.1;0.2},"output") → {100;200}
 * @see FOSSEE-1208, DEFINITION
 */
export function made(input: any[][], losses: any[][], basis?: any[][]): any[][] {
  const chain = chainOf({ losses });
  return lift(
    (quantity, on) => chain(on).made(quantity, on).toNumber(),
    required({ input }, notNegative),
    optional({ basis }, lossBasis, "input"),
  );
}

/**
 * Table of masses through every stage: in, dry, by-product, loss, out at regain, yield; in the unit of the quantity.
 * @customfunction ROUTE
 * @param {any[][]} quantity Mass, more than 0: out of the last stage ("needed") or into the first ("made").
 * @param {any[][]} stages Table in process order, one row per stage: stage, loss, regain out, [by-product]. Loss and by-product are fractions of the dry input, together below 1; blank by-product is 0. With its heading row, columns in any order among others.
 * @param {any[][]} direction "needed" (from the mass wanted out back to the first stage) or "made" (forward).
 * @param {any[][]} [regain_start] Regain of what enters the first stage, as a fraction; default 0, as for greasy wool.
 * @returns {any[][]} Header, then one row per stage: stage, mass in, dry in, by-product dry, loss dry, dry out, regain out, mass out, yield so far (mass out / first mass in).
 * @remarks Dry out = dry in × (1 - loss - by-product); mass out = dry out × (1 + regain out); dry in = by-product + loss + dry out. For greasy wool the loss is all that is not dry clean fibre, so the regain at the start is 0. A gain of moisture is never a negative loss; a negative loss is oil or dye taken up.
 * @throws #VALUE! when quantity is not above 0, a cell of stages is blank or of the wrong kind (with its row), loss and by-product leave nothing, or direction is unknown.
 * @example =YARN.ROUTE(1000,{"stage","loss","regain out","by-product";"scour",0.42,0.16,0;"card and comb",0.03,0.18,0.09;"spin",0.05,0.1825,0},"made") → {"stage","mass in (unit of quantity)","dry in (unit of quantity)","by-product dry (unit of quantity)","loss dry (unit of quantity)","dry out (unit of quantity)","regain out (fraction)","mass out (unit of quantity)","yield so far (mass out / first mass in)";"scour",1000,1000,0,420,580,0.16,672.8,0.6728;"card and comb",672.8,580,52.2,17.4,510.4,0.18,602.272,0.6023;"spin",602.272,510.4,0,25.52,484.88,0.1825,573.3706,0.5734}
 * @example =INDEX(YARN.ROUTE(651.5575,{"scour",0.42,0.16;"spin",0.05,0.1825},"needed"),2,2) → 1000.000
 * @see DEFINITION
 */
export function route(quantity: any[][], stages: any[][], direction: any[][], regain_start?: any[][]): any[][] {
  const { rows, blanks } = tableInPlace({ stages }, STAGE);
  const [mass, way] = [one({ quantity }, positive), one({ direction }, routeDirection)];
  const ledger = routing.massLedger(mass, rows, way, oneOr({ regain_start }, regain, 0));
  expectRoute(rows);
  return finiteRows([
    ROUTE_HEADER,
    ...inPlaces(
      blanks,
      ledger.map((masses, row) => routeRow(rows[row] as (typeof rows)[0], masses, ledger)),
    ),
  ]);
}

const ROUTE_HEADER = [
  "stage",
  "mass in (unit of quantity)",
  "dry in (unit of quantity)",
  "by-product dry (unit of quantity)",
  "loss dry (unit of quantity)",
  "dry out (unit of quantity)",
  "regain out (fraction)",
  "mass out (unit of quantity)",
  "yield so far (mass out / first mass in)",
];

function routeRow(
  { stage, regain_out }: { stage: string; regain_out: number },
  { massIn, dryIn, byProductDry, lossDry, dryOut, massOut }: routing.StageMasses,
  ledger: readonly routing.StageMasses[],
): (string | number)[] {
  const masses = [massIn, dryIn, byProductDry, lossDry, dryOut].map((mass) => mass.toNumber());
  const yieldSoFar = massOut.div((ledger[0] as routing.StageMasses).massIn);
  return [stage, ...masses, regain_out, massOut.toNumber(), yieldSoFar.toNumber()];
}

/**
 * Loss of a stage as it was, as a fraction of its dry input, from weighed masses and regains.
 * @customfunction STAGELOSS
 * @param {any[][]} mass_in Mass put in, in any unit; more than 0.
 * @param {any[][]} regain_in Regain of what was put in, as a fraction (0 for greasy wool).
 * @param {any[][]} mass_out Mass that came out, in the same unit.
 * @param {any[][]} regain_out Regain of what came out, as a fraction.
 * @param {any[][]} [byproduct_mass] Mass of the by-product (noil, soft waste kept), in the same unit; default 0.
 * @param {any[][]} [byproduct_regain] Regain of the by-product; default that of the output.
 * @returns {any[][]} Fraction of the dry input that is gone, in the shape of the arguments; negative when something was taken up.
 * @remarks 1 - (dry out + by-product dry) / dry in, each dry mass = mass / (1 + regain). Compare it with the loss in the stages of ROUTE.
 * @throws #VALUE! when a mass is negative, mass_in is not above 0 or a regain is not 0 to 1 (18.25 for 18.25%).
 * @example =YARN.STAGELOSS(1160,0.16,1045,0.1) → 0.05
 * @example =YARN.STAGELOSS({116;116},0.16,{104.5;93.5},0.1,{0;5.5}) → {0.05;0.10}
 * @see DEFINITION
 */
export function stageLoss(
  mass_in: any[][],
  regain_in: any[][],
  mass_out: any[][],
  regain_out: any[][],
  byproduct_mass?: any[][],
  byproduct_regain?: any[][],
): any[][] {
  return lift(
    (...masses: Parameters<typeof routing.stageLoss>) => routing.stageLoss(...masses).toNumber(),
    required({ mass_in }, positive),
    required({ regain_in }, regain),
    required({ mass_out }, notNegative),
    required({ regain_out }, regain),
    optional({ byproduct_mass }, notNegative, 0),
    optional<number | undefined>({ byproduct_regain }, regain, undefined),
  );
}

/**
 * Table of dye lots: the fewest equal lots within the capacity, with their mass and the surplus over the mass wanted.
 * @customfunction DYELOTS
 * @param {any[][]} mass Mass to dye, in any unit; more than 0.
 * @param {any[][]} capacity Most that one lot can hold, in the same unit.
 * @param {any[][]} [minimum] Least that one lot must hold, in the same unit; default none. Not above capacity.
 * @returns {any[][]} Header, one row per lot, totals row; columns: lot, mass, surplus (mass of the lot beyond an equal part of the mass wanted).
 * @remarks Equal lots keep the liquor ratio, and with it the shade, alike from lot to lot. Where an equal part would fall below the minimum every lot is raised to it, and the surplus is fibre that must be there to be dyed.
 * @throws #VALUE! when a mass is not above 0, minimum passes capacity, or there would be more than 10,000 lots.
 * @example =YARN.DYELOTS(250,100) → {"lot","mass (unit of mass)","surplus (unit of mass)";1,83.333,0;2,83.333,0;3,83.333,0;"total",250,0}
 * @example =INDEX(YARN.DYELOTS(130,100,80),4,3) → 30
 * @see PRACTICE
 */
export function dyeLots(mass: any[][], capacity: any[][], minimum?: any[][]): any[][] {
  const { lots, lotMass, lotSurplus } = routing.dyeLots(
    one({ mass }, positive),
    one({ capacity }, positive),
    oneOr({ minimum }, notNegative, 0),
  );
  const each = Array.from({ length: lots }, (_, lot) => [lot + 1, lotMass.toNumber(), lotSurplus.toNumber()]);
  const total = ["total", lotMass.times(lots).toNumber(), lotSurplus.times(lots).toNumber()];
  return finiteRows([["lot", "mass (unit of mass)", "surplus (unit of mass)"], ...each, total]);
}

/**
 * Table of a dye bath: litres of liquor and kilograms of each dye, for a mass of fibre in kg.
 * @customfunction DYEBATH
 * @param {any[][]} fibre_mass Mass of fibre in kg, more than 0; a list gives one row per lot.
 * @param {any[][]} liquor_ratio Litres of liquor per kg of fibre, 1 to 200: 10 for 1:10 (a cell with 1:10 typed in it is a time of day).
 * @param {any[][]} shares Each dye or auxiliary as a fraction of the mass of fibre, a list, with names if you like: 2% is 0.02 (from 0 to 1).
 * @returns {any[][]} Header, then one row per mass of fibre: liquor (litres), dye 1 (kg), dye 2 (kg) and so on in the order of shares, or their names.
 * @remarks Liquor = mass × ratio; dye = mass × share. A share of 0.5 is 50%, not 0.5%: write 0.5% or 0.005. Follow the dye maker's safety data sheet; pressure dyeing machines are run by trained people under local codes.
 * @throws #VALUE! when fibre_mass is not above 0, liquor_ratio is not 1 to 200, or a share is not 0 to 1 (2 for 2%).
 * @example =YARN.DYEBATH(100,10,{0.02;0.005}) → {"liquor (litres)","dye 1 (kg)","dye 2 (kg)";1000,2,0.5}
 * @see DEFINITION, PRACTICE
 */
export function dyeBath(fibre_mass: any[][], liquor_ratio: any[][], shares: any[][]): any[][] {
  const { figures, along } = namedList({ shares }, share, "share");
  const dyes = list(figures, share);
  refuseTotal("shares", dyes);
  const baths = liftRows(
    dyes.length + 1,
    (mass, ratio) => routing.dyeBath(mass, ratio, dyes),
    required({ fibre_mass: columnOf(fibre_mass) }, positive),
    required({ liquor_ratio: columnOf(liquor_ratio) }, liquorRatio),
  );
  return [["liquor (litres)", ...dyes.map((_, dye) => `${along.names?.[dye] ?? `dye ${dye + 1}`} (kg)`)], ...baths];
}
