/** The families of functions as they are declared, for tests that call them with cells. */
export * as blend from "../../src/functions/blend";
export * as control from "../../src/functions/control";
export * as cost from "../../src/functions/cost";
export * as drafting from "../../src/functions/drafting";
export * as landed from "../../src/functions/landed";
export * as route from "../../src/functions/route";
export * as shade from "../../src/functions/shade";
