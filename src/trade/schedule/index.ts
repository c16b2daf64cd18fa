export * from "./time-plan";
export * from "./working-days";
