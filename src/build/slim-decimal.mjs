/** What the decimal package offers on angles. The library reckons money and masses with it. */
const ANGLES = new Set(
  `cosine sine tangent inverseCosine inverseSine inverseTangent hyperbolicCosine hyperbolicSine hyperbolicTangent
  inverseHyperbolicCosine inverseHyperbolicSine inverseHyperbolicTangent`.split(/\s+/),
);

/**
 * Leaves the angles out of the decimal package, and cuts its two constants of 1,025 digits, ln 10 and pi, to 100: the
 * package measures their length itself and refuses to work beyond it. Together a twentieth of the bundle.
 * @param {string} source
 */
export default function slimDecimal(source) {
  let left = 0;
  const slim = source
    .replace(/^P\.(\w+) = P\.\w+ = function [^]*?^\};\r?\n/gm, (whole, name) =>
      ANGLES.has(name) ? (left++, "") : whole,
    )
    .replace(/'([23]\.\d{99})\d{900,}'/g, (_, digits) => (left++, `'${digits}'`));
  if (left !== ANGLES.size + 2) throw new Error(`the decimal package is not as slim-decimal.mjs expects it (${left})`);
  return slim;
}
