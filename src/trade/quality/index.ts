export * from "./lots-differ";
export * from "./order-check";
export * from "./sample";
export * from "./students-t";
export * from "./tests-needed";
