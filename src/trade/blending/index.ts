export * from "./creel-search";
export * from "./lay-down";
export * from "./least-cost";
export * from "./practical-shares";
export * from "./share-bounds";
export * from "./sliver-plan";
export * from "./solids-needed";
export * from "./stock-plan";
