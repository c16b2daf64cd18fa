export * from "./pack-check";
export * from "./reel";
export * from "./skeins";
export * from "./tolerable-shortfall";
