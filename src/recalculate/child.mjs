import { register } from "tsx/esm/api";

/** The same from the sources. */
register();
await import("./child.ts");
