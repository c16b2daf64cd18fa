import type { Light } from "../tables/lights";
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
  readonly metric: readonly (readonly number[])[];
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
  }

  /** The objective of a blend with these additive values. */
  measure(values: Float64Array): number {
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

  /** Half the slope of the objective along each additive value, at the blend last measured. */
  slopes(): Float64Array {
    const slopes = new Float64Array(BANDS);
    for (let band = 0; band < BANDS; band++) {
      slopes[band] = CURVE_FACTOR ** 2 * (this.reflectance[band]! - this.target[band]!);
    }
    this.views.forEach(({ light, target }, index) => {
      const byLab = slopeByLab(target, this.labs[index]!);
      const rows = labRows(light, this.tristimulus[index]!);
      for (let axis = 0; axis < 3; axis++) {
        const pull = byLab[axis]! / (2 * this.views.length);
        for (let band = 0; band < BANDS; band++) slopes[band]! += pull * rows[axis]![band]!;
      }
    });
    for (let band = 0; band < BANDS; band++) slopes[band]! *= this.model.slope(this.reflectance[band]!);
    return slopes;
  }

  /**
   * The squares of Gauss and Newton at the blend last measured, for columns taken from `centre`, into `gram`.
   * Without the colour, only the closeness of the curves counts.
   */
  curvature(columns: readonly Float64Array[], centre: Float64Array, gram: Float64Array, withColour = true): void {
    const rows = withColour ? this.colourRows() : [];
    const size = columns.length;
    const slope = new Float64Array(BANDS);
    for (let band = 0; band < BANDS; band++) slope[band] = this.model.slope(this.reflectance[band]!);
    const effects = columns.map((column) => {
      const effect = new Float64Array(BANDS + rows.length);
      for (let band = 0; band < BANDS; band++) effect[band] = slope[band]! * (column[band]! - centre[band]!);
      rows.forEach((row, index) => {
        let product = 0;
        for (let band = 0; band < BANDS; band++) product += row[band]! * effect[band]!;
        effect[BANDS + index] = product;
      });
      for (let band = 0; band < BANDS; band++) effect[band]! *= CURVE_FACTOR;
      return effect;
    });
    for (let i = 0; i < size; i++) {
      for (let j = 0; j <= i; j++) {
        let product = 0;
        for (let row = 0; row < BANDS + rows.length; row++) product += effects[i]![row]! * effects[j]![row]!;
        gram[i * size + j] = gram[j * size + i] = product;
      }
    }
  }

  private colourRows(): Float64Array[] {
    const weight = 1 / Math.sqrt(this.views.length);
    const colour: Float64Array[] = [];
    this.views.forEach(({ light, metric }, index) => {
      const rows = labRows(light, this.tristimulus[index]!);
      for (const factors of metric) {
        const row = new Float64Array(BANDS);
        for (let axis = 0; axis < 3; axis++) {
          const factor = weight * factors[axis]!;
          if (factor !== 0) for (let band = 0; band < BANDS; band++) row[band]! += factor * rows[axis]![band]!;
        }
        colour.push(row);
      }
    });
    return colour;
  }
}

/** How L*, a* and b* move with the reflectance in each band. */
function labRows({ x, y, z, white }: Light, tristimulus: Tristimulus): Float64Array[] {
  const [fx, fy, fz] = tristimulus.map((value, axis) => {
    return lightnessCurveSlope(value / white[axis]!) / white[axis]!;
  }) as [number, number, number];
  const rows = [new Float64Array(BANDS), new Float64Array(BANDS), new Float64Array(BANDS)];
  for (let band = 0; band < BANDS; band++) {
    const byX = fx * x[band]!;
    const byY = fy * y[band]!;
    rows[0]![band] = 116 * byY;
    rows[1]![band] = 500 * (byX - byY);
    rows[2]![band] = 200 * (byY - fz * z[band]!);
  }
  return rows;
}

/** The slope of the squared difference by L*, a*, b* of the sample. */
function slopeByLab(target: Lab, lab: Lab): number[] {
  return [0, 1, 2].map((axis) => {
    const up = squaredDifference2000(target, moved(lab, axis, NUDGE));
    const down = squaredDifference2000(target, moved(lab, axis, -NUDGE));
    return (up - down) / (2 * NUDGE);
  });
}

/** The metric of CIEDE2000 at a shade, read off the formula itself, as an upper triangular root. */
function metricAt(lab: Lab): number[][] {
  const small = 0.01;
  const along = [0, 1, 2].map((axis) => squaredDifference2000(lab, moved(lab, axis, small)) / small ** 2);
  const metric = [0, 1, 2].map((row) =>
    [0, 1, 2].map((column) => {
      if (row === column) return along[row]!;
      const both = squaredDifference2000(lab, moved(moved(lab, row, small), column, small)) / small ** 2;
      return (both - along[row]! - along[column]!) / 2;
    }),
  );
  const root = [new Array<number>(3).fill(0), new Array<number>(3).fill(0), new Array<number>(3).fill(0)];
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
