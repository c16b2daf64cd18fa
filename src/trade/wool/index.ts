export * from "./blend-fineness";
export * from "./clean-mass";
export * from "./clean-price";
export * from "./clean-yield";
export * from "./combing";
export * from "./core-sampling";
export * from "./top-forecast";
export * from "./wool-grade";
