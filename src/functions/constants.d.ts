/** Set by the build (src/build/constants.mjs). */
declare const LIBRARY_VERSION: string;
/** Set by the build from the docblocks: id and source keys. */
declare const FUNCTION_SOURCES: readonly (readonly [id: string, sources: readonly string[]])[];
