import { createRequire } from "node:module";

/**
 * The compiler, loaded as the kind of file that it is: where it is imported as a module it is looked through for names
 * first, which takes twice as long again.
 * @type {typeof import("typescript")}
 */
export const ts = createRequire(import.meta.url)("typescript");
