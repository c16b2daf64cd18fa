/** Set by the build (src/build/constants.mjs). */
declare const LIBRARY_VERSION: string;
/** Set by the build from the docblocks: each function's id and source keys with a blank between, functions with a semicolon. */
declare const FUNCTION_SOURCES: string;
