export * from "./dye-bath";
export * from "./dye-lots";
export * from "./losses";
export * from "./plausible-losses";
export * from "./route";
export * from "./stage-loss";
