import type { Light } from "../../tables/lights";
import { additiveValues, type BlendModel } from "./blend-models";
import { squaredDifference2000 } from "./shade-difference";
import { BANDS } from "./spectra";
import { labOf, labOfTristimulus, lightnessCurveSlope, tristimulusOf, type Lab, type Tristimulus } from "./tristimulus";

/**
 * What the closeness of the two reflectances counts beside the squared colour difference. Four solids can meet a shade
 * in one light exactly in many ways; this little weight picks the one whose curve is nearest, which holds in other
 * lights too. It moves the difference by no more than some thousandths of a unit.
 */
const CURVE_WEIGHT = 1e-7;
/** Per band, on reflectance in percent. */
const CURVE_FACTOR = Math.sqrt(CURVE_WEIGHT / BANDS) * 100;
/** How far a shade is moved to see the slope of the difference, in units of L*a*b*. */
const NUDGE = 1e-4;
/** The same to all digits: as wide as the difference, for the last to count little, once and twice to see what bends. */
const WIDE_NUDGE = 0.02;
/** How far to see its metric, and the least the metric is taken for: along it nothing can be seen to differ. */
const METRIC_NUDGE = 0.01;
const LEAST_METRIC = 1e-6;

const NO_ROWS = new Float64Array(0);

interface View {
  readonly light: Light;
  readonly target: Lab;
  /** U with UᵀU = the metric of CIEDE2000 at the target, so that |U·δ| is the difference of a nearby shade. */
  readonly metric: readonly Lab[];
}

/**
 * How far a blend is from the target, as the search sees it: the mean square of CIEDE2000 over the lights, and a little
 * of the closeness of the curves. It keeps nothing of what it has measured.
 */
export class ShadeObjective {
  /** The target's own additive values: where the first guess is worked out. */
  readonly targetValues: Float64Array;
  readonly views: readonly View[];
  /** Room to mix a blend in that is measured and left; nothing in it outlives a call. */
  readonly room = new Float64Array(BANDS);
  private readonly passing: MeasuredBlend;

  constructor(
    readonly target: readonly number[],
    readonly model: BlendModel,
    lights: readonly Light[],
  ) {
    this.targetValues = additiveValues(target, model);
    this.views = lights.map((light) => {
      const lab = labOf(target, light);
      return { light, target: lab, metric: metricAt(lab) };
    });
    this.passing = new MeasuredBlend(this, false);
  }

  /** The objective of a blend with these additive values. */
  measure(values: Float64Array): number {
    return this.passing.become(values);
  }

  /** The same blend to be asked further: for its curvature and its slopes, to some digits or to all. */
  at(values: Float64Array, exactly = false): MeasuredBlend {
    const blend = new MeasuredBlend(this, exactly);
    blend.become(values);
    return blend;
  }
}

/** A blend that was measured against a target: its error, and how that moves with the additive values. */
export class MeasuredBlend {
  error = Infinity;
  readonly values = new Float64Array(BANDS);
  private readonly reflectance = new Float64Array(BANDS);
  private readonly tristimulus: Tristimulus[] = [];
  private readonly labs: Lab[] = [];
  /** Worked out when they are first asked for: most blends are measured and left. */
  private curves: KnownCurves | undefined;
  private slopesKnown: Float64Array | undefined;

  constructor(
    private readonly objective: ShadeObjective,
    private readonly exactly: boolean,
  ) {}

  /** Becomes the blend with these additive values and gives its error; what was known of the one before is forgotten. */
  become(values: Float64Array): number {
    const { model, target, views } = this.objective;
    this.values.set(values);
    this.curves = undefined;
    this.slopesKnown = undefined;
    let curve = 0;
    for (let band = 0; band < BANDS; band++) {
      const reflectance = model.reflectance(values[band]!);
      this.reflectance[band] = reflectance;
      curve += (reflectance - target[band]!) ** 2;
    }
    let colour = 0;
    for (let index = 0; index < views.length; index++) {
      const { light, target: wanted } = views[index]!;
      const tristimulus = tristimulusOf(this.reflectance, light);
      const lab = labOfTristimulus(tristimulus, light.white);
      this.tristimulus[index] = tristimulus;
      this.labs[index] = lab;
      colour += squaredDifference2000(wanted, lab);
    }
    this.error = colour / views.length + CURVE_FACTOR ** 2 * curve;
    return this.error;
  }

  /** Half the slope of the error along each additive value. */
  slopes(): Float64Array {
    return (this.slopesKnown ??= this.slopesHere());
  }

  private slopesHere(): Float64Array {
    const { target, views } = this.objective;
    const { ofModel, ofLightness } = this.curvesHere();
    const width = this.exactly ? Math.min(Math.sqrt(this.error), WIDE_NUDGE) : 0;
    const slopes = this.reflectance.map((value, band) => CURVE_FACTOR ** 2 * (value - target[band]!));
    views.forEach((view, index) => {
      const byLab = slopeByLab(view.target, this.labs[index]!, width);
      addByBand(slopes, 0, view.light, byTristimulus(byLab, ofLightness[index]!, 1 / (2 * views.length)));
    });
    return slopes.map((value, band) => value * ofModel[band]!);
  }

  /**
   * The squares of Gauss and Newton for columns taken from this blend, row by row. Without the colour, only the
   * closeness of the curves counts.
   */
  curvature(columns: readonly Float64Array[], withColour = true, into?: Float64Array): Float64Array {
    const colours = withColour ? 3 * this.objective.views.length : 0;
    const effects = this.effectsOf(columns, colours);
    const size = columns.length;
    const length = BANDS + colours;
    const gram = into ?? new Float64Array(size * size);
    for (let i = 0; i < size; i++) {
      for (let j = 0; j <= i; j++) {
        let product = 0;
        for (let row = 0; row < length; row++) product += effects[i * length + row]! * effects[j * length + row]!;
        gram[i * size + j] = gram[j * size + i] = product;
      }
    }
    return gram;
  }

  /** What moving towards each column changes: the reflectance in every band, then the colour in so many rows. */
  private effectsOf(columns: readonly Float64Array[], colours: number): Float64Array {
    const { ofModel } = this.curvesHere();
    const colourRows = colours > 0 ? this.colourRows() : NO_ROWS;
    const length = BANDS + colours;
    const effects = new Float64Array(columns.length * length);
    for (let index = 0; index < columns.length; index++) {
      const column = columns[index]!;
      const start = index * length;
      for (let band = 0; band < BANDS; band++) effects[start + band] = column[band]! - this.values[band]!;
      // Three rows a light, in one pass over the bands.
      for (let row = 0; row < colours; row += 3) {
        const [one, two, three] = [row * BANDS, (row + 1) * BANDS, (row + 2) * BANDS];
        let [first, second, third] = [0, 0, 0];
        for (let band = 0; band < BANDS; band++) {
          const effect = effects[start + band]!;
          first += colourRows[one + band]! * effect;
          second += colourRows[two + band]! * effect;
          third += colourRows[three + band]! * effect;
        }
        effects[start + BANDS + row] = first;
        effects[start + BANDS + row + 1] = second;
        effects[start + BANDS + row + 2] = third;
      }
      for (let band = 0; band < BANDS; band++) effects[start + band]! *= CURVE_FACTOR * ofModel[band]!;
    }
    return effects;
  }

  private curvesHere(): KnownCurves {
    return (this.curves ??= this.curvesOf(this.objective));
  }

  private curvesOf({ model, views }: ShadeObjective): KnownCurves {
    const slope = (value: number, white: number): number => lightnessCurveSlope(value / white) / white;
    const ofLightness = views.map(({ light: { white } }, index): Tristimulus => {
      const [X, Y, Z] = this.tristimulus[index]!;
      return [slope(X, white[0]), slope(Y, white[1]), slope(Z, white[2])];
    });
    return { ofModel: this.reflectance.map((value) => model.slope(value)), ofLightness };
  }

  /** How the weighted colour moves with the additive value of each band: three rows a light. */
  private colourRows(): Float64Array {
    const { views } = this.objective;
    const { ofModel, ofLightness } = this.curvesHere();
    const rows = new Float64Array(3 * views.length * BANDS);
    for (let row = 0; row < 3 * views.length; row++) {
      const index = Math.floor(row / 3);
      const { light, metric } = views[index]!;
      const start = row * BANDS;
      addByBand(rows, start, light, byTristimulus(metric[row % 3]!, ofLightness[index]!, 1 / Math.sqrt(views.length)));
      for (let band = 0; band < BANDS; band++) rows[start + band]! *= ofModel[band]!;
    }
    return rows;
  }
}

interface KnownCurves {
  /** How the reflectance in a band moves with its additive value. */
  readonly ofModel: Float64Array;
  /** How the lightness curve moves with X, Y and Z, a light each. */
  readonly ofLightness: readonly Tristimulus[];
}

/** What moves by so much with L*, a* and b*: how it moves with X, Y and Z, weighted. */
function byTristimulus([l, a, b]: Lab, [byX, byY, byZ]: Tristimulus, weight: number): Tristimulus {
  return [weight * 500 * a * byX, weight * (116 * l - 500 * a + 200 * b) * byY, weight * -200 * b * byZ];
}

/** Adds how it moves with the reflectance in each band. */
function addByBand(into: Float64Array, start: number, { x, y, z }: Light, [byX, byY, byZ]: Tristimulus): void {
  for (let band = 0; band < BANDS; band++) into[start + band]! += byX * x[band]! + byY * y[band]! + byZ * z[band]!;
}

/** The slope of the squared difference by L*, a*, b* of the sample, to all digits where a width is given. */
function slopeByLab(target: Lab, [lightness, a, b]: Lab, width: number): Lab {
  const nudge = Math.max(width, NUDGE);
  const across = (x: number, y: number, z: number): number =>
    squaredDifference2000(target, [lightness + x, a + y, b + z]) -
    squaredDifference2000(target, [lightness - x, a - y, b - z]);
  const along = (x: number, y: number, z: number): number =>
    width > 0 ? (8 * across(x, y, z) - across(2 * x, 2 * y, 2 * z)) / (12 * nudge) : across(x, y, z) / (2 * nudge);
  return [along(nudge, 0, 0), along(0, nudge, 0), along(0, 0, nudge)];
}

/** The metric of CIEDE2000 at a shade, read off the formula itself, as an upper triangular root. */
function metricAt(lab: Lab): Lab[] {
  const along = [0, 1, 2].map((axis) => squaredDifference2000(lab, moved(lab, axis, METRIC_NUDGE)) / METRIC_NUDGE ** 2);
  const metric = [0, 1, 2].map((row) =>
    [0, 1, 2].map((column) => {
      if (row === column) return along[row]!;
      const both =
        squaredDifference2000(lab, moved(moved(lab, row, METRIC_NUDGE), column, METRIC_NUDGE)) / METRIC_NUDGE ** 2;
      return (both - along[row]! - along[column]!) / 2;
    }),
  );
  const root: [number, number, number][] = [
    [0, 0, 0],
    [0, 0, 0],
    [0, 0, 0],
  ];
  for (let row = 0; row < 3; row++) {
    for (let column = row; column < 3; column++) {
      let value = metric[row]![column]!;
      for (let k = 0; k < row; k++) value -= root[k]![row]! * root[k]![column]!;
      root[row]![column] = row === column ? Math.sqrt(Math.max(value, LEAST_METRIC)) : value / root[row]![row]!;
    }
  }
  return root;
}

function moved(lab: Lab, axis: number, by: number): Lab {
  return lab.map((value, index) => (index === axis ? value + by : value)) as unknown as Lab;
}
