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
const NUDGE = 1e-4;

interface View {
  readonly light: Light;
  readonly target: Lab;
  /** U with UᵀU = the metric of CIEDE2000 at the target, so that |U·δ| is the difference of a nearby shade. */
  readonly metric: readonly Lab[];
}

/**
 * How far a blend is from the target, as the search sees it: the mean square of CIEDE2000 over the lights, and its
 * slope and curvature along the additive values of the blend model.
 */
export class ShadeObjective {
  /** The target's own additive values: where the first guess is worked out. */
  readonly targetValues: Float64Array;
  private readonly views: readonly View[];
  private readonly reflectance = new Float64Array(BANDS);
  private readonly tristimulus: Tristimulus[] = [];
  private readonly labs: Lab[] = [];
  /** Slopes at the blend last measured, worked out when they are first asked for. */
  private readonly ofModel = new Float64Array(BANDS);
  private readonly ofColour: readonly LabRows[];
  private readonly slope = new Float64Array(BANDS);
  private sloped = false;
  private readonly weights: Float64Array;
  private effects = new Float64Array(0);

  constructor(
    private readonly target: readonly number[],
    private readonly model: BlendModel,
    lights: readonly Light[],
  ) {
    this.targetValues = additiveValues(target, model);
    this.views = lights.map((light) => {
      const lab = labOf(target, light);
      return { light, target: lab, metric: metricAt(lab) };
    });
    this.ofColour = lights.map(() => [new Float64Array(BANDS), new Float64Array(BANDS), new Float64Array(BANDS)]);
    this.weights = new Float64Array(3 * lights.length * BANDS);
  }

  /** The objective of a blend with these additive values. */
  measure(values: Float64Array): number {
    this.sloped = false;
    let curve = 0;
    for (let band = 0; band < BANDS; band++) {
      const reflectance = this.model.reflectance(values[band]!);
      this.reflectance[band] = reflectance;
      curve += (reflectance - this.target[band]!) ** 2;
    }
    let colour = 0;
    for (let index = 0; index < this.views.length; index++) {
      const { light, target } = this.views[index]!;
      const tristimulus = tristimulusOf(this.reflectance, light);
      const lab = labOfTristimulus(tristimulus, light.white);
      this.tristimulus[index] = tristimulus;
      this.labs[index] = lab;
      colour += squaredDifference2000(target, lab);
    }
    return colour / this.views.length + CURVE_FACTOR ** 2 * curve;
  }

  /** Half the slope of the objective along each additive value, at the blend last measured; until the next call. */
  slopes(): Float64Array {
    const slopes = this.slope;
    for (let band = 0; band < BANDS; band++) {
      slopes[band] = CURVE_FACTOR ** 2 * (this.reflectance[band]! - this.target[band]!);
    }
    this.findSlopes();
    this.views.forEach(({ target }, index) => {
      const byLab = slopeByLab(target, this.labs[index]!);
      const rows = this.ofColour[index]!;
      for (let axis = 0; axis < 3; axis++) {
        const pull = byLab[axis]! / (2 * this.views.length);
        for (let band = 0; band < BANDS; band++) slopes[band]! += pull * rows[axis]![band]!;
      }
    });
    for (let band = 0; band < BANDS; band++) slopes[band]! *= this.ofModel[band]!;
    return slopes;
  }

  /**
   * The squares of Gauss and Newton at the blend last measured, for columns taken from `centre`, into `gram`.
   * Without the colour, only the closeness of the curves counts.
   */
  curvature(columns: readonly Float64Array[], centre: Float64Array, gram: Float64Array, withColour = true): void {
    const size = columns.length;
    this.findSlopes();
    const slope = this.ofModel;
    const weights = this.colourRows();
    const colours = withColour ? weights.length / BANDS : 0;
    const length = BANDS + colours;
    if (this.effects.length < size * length) this.effects = new Float64Array(size * length);
    const effects = this.effects;
    for (let index = 0; index < size; index++) {
      const column = columns[index]!;
      const start = index * length;
      for (let band = 0; band < BANDS; band++) effects[start + band] = column[band]! - centre[band]!;
      for (let row = 0; row < colours; row++) {
        let product = 0;
        for (let band = 0; band < BANDS; band++) product += weights[row * BANDS + band]! * effects[start + band]!;
        effects[start + BANDS + row] = product;
      }
      for (let band = 0; band < BANDS; band++) effects[start + band]! *= CURVE_FACTOR * slope[band]!;
    }
    for (let i = 0; i < size; i++) {
      for (let j = 0; j <= i; j++) {
        let product = 0;
        for (let row = 0; row < length; row++) product += effects[i * length + row]! * effects[j * length + row]!;
        gram[i * size + j] = gram[j * size + i] = product;
      }
    }
  }

  private findSlopes(): void {
    if (this.sloped) return;
    this.sloped = true;
    for (let band = 0; band < BANDS; band++) this.ofModel[band] = this.model.slope(this.reflectance[band]!);
    for (let index = 0; index < this.views.length; index++) {
      labRows(this.views[index]!.light, this.tristimulus[index]!, this.ofColour[index]!);
    }
  }

  /** How the weighted colour moves with the additive value of each band: three rows a light. */
  private colourRows(): Float64Array {
    const { ofModel: slope, weights } = this;
    const weight = 1 / Math.sqrt(this.views.length);
    for (let index = 0; index < this.views.length; index++) {
      const { metric } = this.views[index]!;
      const [byL, byA, byB] = this.ofColour[index]!;
      for (let row = 0; row < 3; row++) {
        const [l, a, b] = metric[row]!;
        const start = (3 * index + row) * BANDS;
        for (let band = 0; band < BANDS; band++) {
          weights[start + band] = weight * slope[band]! * (l * byL[band]! + a * byA[band]! + b * byB[band]!);
        }
      }
    }
    return weights;
  }
}

type LabRows = readonly [Float64Array, Float64Array, Float64Array];

/** How L*, a* and b* move with the reflectance in each band. */
function labRows({ x, y, z, white }: Light, tristimulus: Tristimulus, [lightness, a, b]: LabRows): void {
  const fx = lightnessCurveSlope(tristimulus[0] / white[0]) / white[0];
  const fy = lightnessCurveSlope(tristimulus[1] / white[1]) / white[1];
  const fz = lightnessCurveSlope(tristimulus[2] / white[2]) / white[2];
  for (let band = 0; band < BANDS; band++) {
    const byX = fx * x[band]!;
    const byY = fy * y[band]!;
    lightness[band] = 116 * byY;
    a[band] = 500 * (byX - byY);
    b[band] = 200 * (byY - fz * z[band]!);
  }
}

/** The slope of the squared difference by L*, a*, b* of the sample. */
function slopeByLab(target: Lab, [lightness, a, b]: Lab): Lab {
  const between = (up: Lab, down: Lab): number =>
    (squaredDifference2000(target, up) - squaredDifference2000(target, down)) / (2 * NUDGE);
  return [
    between([lightness + NUDGE, a, b], [lightness - NUDGE, a, b]),
    between([lightness, a + NUDGE, b], [lightness, a - NUDGE, b]),
    between([lightness, a, b + NUDGE], [lightness, a, b - NUDGE]),
  ];
}

/** The metric of CIEDE2000 at a shade, read off the formula itself, as an upper triangular root. */
function metricAt(lab: Lab): Lab[] {
  const small = 0.01;
  const along = [0, 1, 2].map((axis) => squaredDifference2000(lab, moved(lab, axis, small)) / small ** 2);
  const metric = [0, 1, 2].map((row) =>
    [0, 1, 2].map((column) => {
      if (row === column) return along[row]!;
      const both = squaredDifference2000(lab, moved(moved(lab, row, small), column, small)) / small ** 2;
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
      root[row]![column] = row === column ? Math.sqrt(Math.max(value, 1e-6)) : value / root[row]![row]!;
    }
  }
  return root;
}

function moved(lab: Lab, axis: number, by: number): Lab {
  return lab.map((value, index) => (index === axis ? value + by : value)) as unknown as Lab;
}
