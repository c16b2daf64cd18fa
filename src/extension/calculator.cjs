/**
 * The process that works out what Calc asks. One line of JSON in, [id, arguments], one line out: rows of cells, an
 * error among them as [code, message]. It ends when its input does, so that it never outlives the program.
 *
 * Written so that the oldest Node reads it: the first line out says which Node this is, and whoever asked decides.
 */
"use strict";
var fs = require("fs");
var path = require("path");

process.stdout.write(JSON.stringify(process.version) + "\n");

/**
 * Excel's runtime as far as the library uses it.
 * @type {any}
 */
var CellError = /** @this {any} */ function (/** @type {string} */ code, /** @type {string} */ message) {
  this.code = code;
  this.message = message;
};

/** What Calc shows when something goes wrong that is no error of the library. */
var BROKEN = "#VALUE!";

/** @type {Record<string, (...cells: unknown[]) => unknown[][]>} */
var functions = {};
var file = path.join(__dirname, "functions.js");
var runtime = {
  Error: CellError,
  /** @param {string} id @param {(...cells: unknown[]) => unknown[][]} implementation */
  associate: function (id, implementation) {
    functions[id] = implementation;
  },
};
new Function("CustomFunctions", fs.readFileSync(file, "utf8"))(runtime);

/** @param {string} line */
function answerTo(line) {
  var asked = JSON.parse(line);
  var implementation = functions[asked[0]];
  try {
    if (implementation === undefined) throw new CellError(BROKEN, asked[0] + " is no function of this library");
    return implementation.apply(null, asked[1].map(asRows)).map(asCells);
  } catch (fault) {
    return [[asCell(fault instanceof CellError ? fault : new CellError(BROKEN, String(fault)))]];
  }
}

/**
 * A single value arrives bare; what was left out stays nothing.
 * @param {unknown} argument
 */
function asRows(argument) {
  return argument === null || Array.isArray(argument) ? argument : [[argument]];
}

/** @param {unknown[]} row */
function asCells(row) {
  return row.map(asCell);
}

/** @param {any} value */
function asCell(value) {
  if (value instanceof CellError) return [value.code, value.message || ""];
  return value === null || value === undefined ? "" : value;
}

var waiting = "";
process.stdin.setEncoding("utf8");
process.stdin.on("data", function (chunk) {
  var lines = (waiting + chunk).split("\n");
  waiting = lines.pop() || "";
  lines.forEach(function (line) {
    process.stdout.write(JSON.stringify(answerTo(line)) + "\n");
  });
});
process.stdin.on("end", function () {
  process.exit(0);
});
// Nobody is left to read the answer.
process.stdout.on("error", function () {
  process.exit(0);
});
