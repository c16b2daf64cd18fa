/**
 * The constants that the bundle (and the tests on the sources) get from outside src: the version from package.json
 * and, from the docblocks, what each function rests on.
 * @param {import("../documentation/docblocks.mjs").DocumentedFunction[]} documented
 * @param {string} version
 */
export function buildConstants(documented, version) {
  return {
    LIBRARY_VERSION: JSON.stringify(version),
    FUNCTION_SOURCES: JSON.stringify(documented.map(({ id, sources }) => [id, ...sources].join(" ")).join(";")),
  };
}
