import { SOURCES, type Source } from "../tables/sources";
import { absent } from "../trade/refusal";
import { oneOr } from "../sheet/arguments";
import { text } from "../sheet/kinds";

/**
 * Version of the library, as text.
 * @customfunction VERSION
 * @returns {any[][]} Version, such as "0.1.0".
 * @throws Nothing.
 * @example =LEN(YARN.VERSION())>4 → TRUE
 * @see DEFINITION
 */
export function version(): any[][] {
  return [[LIBRARY_VERSION]];
}

/**
 * Table of what each function rests on: function, what it rests on, source key, status (read, memory or practice).
 * @customfunction SOURCES
 * @param {any[][]} [id] One function's id, such as "COUNT"; left out, all functions.
 * @returns {any[][]} Header row, then one row per function and source.
 * @remarks Status "memory" means: recalled, verify before use. "practice": common practice of the trade, no source.
 * @throws #N/A when there is no function of that id.
 * @example =YARN.SOURCES("COUNT") → {"function","what it rests on","source","status";"COUNT","ASTM D2260-03 (2013), Table 1: conversion factors between yarn numbering systems","ASTM-D2260","read";"COUNT","International yard and pound (1959): yd = 0.9144 m, lb = 0.45359237 kg exactly","NIST-YD-LB","read";"COUNT","W. Davis, Hosiery Manufacture (1920), ch. V-VI, worked examples of counts and folding","DAVIS-1920","read";"COUNT","GNU units database 3.15, textile section","GNU-UNITS","read";"COUNT","Recalled without a text at hand: from memory, verify before use","MEMORY","memory"}
 * @see DEFINITION
 */
export function sources(id?: any[][]): any[][] {
  const wanted = oneOr({ id }, text, undefined)
    ?.toUpperCase()
    .replace(/^YARN\./, "");
  const all = FUNCTION_SOURCES.split(";").map((line) => line.split(" "));
  const chosen = all.filter(([name]) => wanted === undefined || name === wanted);
  if (chosen.length === 0) absent("id", `"${wanted as string}"`, "no function of this library has that id");
  const rows = chosen.map(([name = "", ...places]) =>
    places.map((place) => {
      const { title, key, status } = SOURCES[Number(place)] as Source;
      return [name, title, key, status];
    }),
  );
  return [["function", "what it rests on", "source", "status"], ...([] as string[][]).concat(...rows)];
}
