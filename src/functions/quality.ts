import * as quality from "../trade/quality";
import { nameOf, one, oneOr, optional, required, type Named } from "../sheet/arguments";
import { fraction, positive, shareAboveZero, variation, word } from "../sheet/kinds";
import { normalDeviate } from "../sheet/fibre-kinds";
import { finiteRows, lift } from "../sheet/lift";
import { wordsFor } from "../sheet/words";
import { refuseSlippedPoint, refuseTotalOfMeasurements } from "../sheet/totals";
import { figuresOf } from "../sheet/names";

const confidenceLevel = fraction(0.5, 0.9999, "must be 0.5 to 0.9999 (50% to 99.99%)");
const spreadMethod = word<quality.SpreadMethod>(wordsFor("method", "pooled", "unequal"));
/** What is half off is another yarn; a larger figure is in the unit of the values. Common practice, no source. */
const orderTolerance = fraction(Number.MIN_VALUE, 0.5, "must be above 0 and at most 0.5 (50%), a fraction of ordered");
const USUAL_CONFIDENCE = 0.95;

/** Measurements of one thing, as their list stands. */
function measured(argument: Named): quality.Sample {
  const values = figuresOf(argument, positive, "measured");
  const [name] = nameOf(argument);
  refuseTotalOfMeasurements(name, values);
  refuseSlippedPoint(name, values);
  return quality.sampleOf(values, name);
}

/**
 * Tests needed so that a mean of count, twist, mass or diameter is known within an error; whole tests, rounded up.
 * @customfunction TESTSNEEDED
 * @param {any[][]} cv CV of single tests, a fraction (7.5% or 0.075).
 * @param {any[][]} error Error allowed in the mean, a fraction of it, above 0.
 * @param {any[][]} [z] Normal deviate of the confidence; default 1.96, for 95%.
 * @returns {any[][]} Number of tests, in the shape of the arguments.
 * @remarks (z × cv / error)², rounded up. For few tests MEANRANGE tells what is really known.
 * @throws #VALUE! when a fraction is typed as a whole percent, error is 0 or z is out of range.
 * @example =YARN.TESTSNEEDED(7.5%,1.5%) → 97
 * @see DEFINITION
 */
export function testsNeeded(cv: any[][], error: any[][], z?: any[][]): any[][] {
  return lift(
    quality.testsNeeded,
    required({ cv }, variation),
    required({ error }, shareAboveZero),
    optional({ z }, normalDeviate, 1.96),
  );
}

/**
 * Mean of measured values with the range in which the true mean lies: tests, mean, spread, low, high.
 * @customfunction MEANRANGE
 * @param {any[][]} values Measured values, numbers above 0 (count, twist, mass, diameter); a list of 2 or more.
 * @param {any[][]} [confidence] Confidence of the range, a fraction; default 0.95.
 * @returns {any[][]} Header row and one row: tests, mean, standard deviation, CV, standard error, low, high.
 * @remarks Standard deviation on n - 1; range = mean ± t × standard deviation / √n, Student's t with n - 1 degrees of
 * freedom, two-sided. The tests must be of one lot, taken by chance.
 * @throws #VALUE! when there are fewer than 2 values, one is not above 0, or confidence is not 50% to 99.99%.
 * @example =YARN.MEANRANGE({28.1;27.6;28.9;28.4;27.9;28.3}) → {"tests","mean","standard deviation","CV (fraction)","standard error","low","high";6,28.2,0.4472,0.0159,0.1826,27.7307,28.6693}
 * @see DEFINITION
 */
export function meanRange(values: any[][], confidence?: any[][]): any[][] {
  const sample = measured({ values });
  const half = quality.halfRange(sample, oneOr({ confidence }, confidenceLevel, USUAL_CONFIDENCE));
  const { tests, mean, deviation } = sample;
  return finiteRows([
    ["tests", "mean", "standard deviation", "CV (fraction)", "standard error", "low", "high"],
    [tests, mean, deviation, deviation / mean, quality.standardError(sample), mean - half, mean + half],
  ]);
}

/**
 * Does a lot hold the order? Measured values against what was ordered within a tolerance, with a verdict that says when
 * the tests are too few.
 * @customfunction ORDERCHECK
 * @param {any[][]} values Measured values, numbers above 0 (count, twist, mass, diameter); a list of 2 or more.
 * @param {any[][]} ordered What was ordered, a number in the unit of the values.
 * @param {any[][]} tolerance Tolerance to either side, a fraction of what was ordered (0.03 is 3%), at most 0.5.
 * @param {any[][]} [confidence] Confidence of the range, a fraction; default 0.95.
 * @returns {any[][]} Header row and one row: tests, mean, CV, off by (fraction of ordered), low, high, verdict.
 * @remarks "holds" when the whole range of the mean (MEANRANGE) is within ordered × (1 ± tolerance), "does not hold"
 * when all of it is outside, else "too few tests to tell" with the number that would do at the same spread. The
 * contract and the test method decide a claim; this only says what the tests show.
 * @throws #VALUE! when there are fewer than 2 values, one is not above 0, or tolerance is typed as a whole percent.
 * @example =YARN.ORDERCHECK({28.1;27.6;28.9;28.4;27.9;28.3},28,3%) → {"tests","mean","CV (fraction)","off by (fraction of ordered)","low","high","verdict";6,28.2,0.0159,0.0071,27.7307,28.6693,"holds"}
 * @example =INDEX(YARN.ORDERCHECK({28.1;27.6;28.9;28.4;27.9;28.3},28,1.5%),2,7) → "too few tests to tell; 19 would do"
 * @see DEFINITION
 */
export function orderCheck(values: any[][], ordered: any[][], tolerance: any[][], confidence?: any[][]): any[][] {
  const sample = measured({ values });
  const { low, high, offBy, verdict } = quality.orderCheck(
    sample,
    one({ ordered }, positive),
    one({ tolerance }, orderTolerance),
    oneOr({ confidence }, confidenceLevel, USUAL_CONFIDENCE),
  );
  const { tests, mean, deviation } = sample;
  return finiteRows([
    ["tests", "mean", "CV (fraction)", "off by (fraction of ordered)", "low", "high", "verdict"],
    [tests, mean, deviation / mean, offBy, low, high, verdict],
  ]);
}

/**
 * Do two lots differ? Student's t of the difference of their means, with the chance of it between lots that are alike.
 * @customfunction LOTSDIFFER
 * @param {any[][]} values_1 Measured values of the first lot, numbers above 0; a list of 2 or more.
 * @param {any[][]} values_2 Measured values of the second lot, numbers above 0; a list of 2 or more.
 * @param {any[][]} [confidence] Confidence asked for, a fraction; default 0.95.
 * @param {any[][]} [method] "unequal" (default): each lot's own spread; "pooled": one spread for both. A word.
 * @returns {any[][]} Header row and one row: t, degrees of freedom, p, verdict.
 * @remarks t = (mean 1 - mean 2) / standard error of the difference; unequal spreads by Welch's degrees of freedom.
 * "differ" when p is at most 1 - confidence, else "no difference shown", which does not show that they are alike.
 * @throws #VALUE! when a lot has fewer than 2 values or one is not above 0; #DIV/0! when neither lot has any spread.
 * @example =YARN.LOTSDIFFER({28.1;27.6;28.9;28.4;27.9;28.3},{29.2;28.8;29.9;29.4}) → {"t","degrees of freedom","p","verdict";-3.8446,6.467,0.0074,"differ"}
 * @example =INDEX(YARN.LOTSDIFFER({28.1;27.6;28.9;28.4;27.9;28.3},{29.2;28.8;29.9;29.4},95%,"pooled"),2,0) → {-3.864049,8,0.004781,"differ"}
 * @see DEFINITION
 */
export function lotsDiffer(values_1: any[][], values_2: any[][], confidence?: any[][], method?: any[][]): any[][] {
  const asked = oneOr({ confidence }, confidenceLevel, USUAL_CONFIDENCE);
  const first = measured({ values_1 });
  const second = measured({ values_2 });
  const { t, degrees, chance } = quality.compareLots(first, second, oneOr({ method }, spreadMethod, "unequal"));
  return finiteRows([
    ["t", "degrees of freedom", "p", "verdict"],
    [t, degrees, chance, chance <= 1 - asked ? "differ" : "no difference shown"],
  ]);
}
