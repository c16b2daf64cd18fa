export * from "./linear-equations";
export * from "./linear-programme";
export * from "./simplex-least-squares";
