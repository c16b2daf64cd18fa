export * from "./blend-regain";
export * from "./conditioned-mass";
export * from "./label-composition";
export * from "./regain";
export * from "./standard-regain";
