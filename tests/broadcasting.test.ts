import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { declarationFiles } from "../src/documentation/docblocks.mjs";
import { called, knownCalls, type Called, type KnownCall } from "./support/calls";
import { bundledFunctions } from "./support/functions";

const calls = knownCalls(bundledFunctions());

/** Everything that stands in a cell of any example: words and numbers that some argument takes. */
const stock = [...new Set(calls.flatMap(({ cells }) => cells.flatMap((own) => (own ?? []).flat())))].filter(
  (cell) => typeof cell === "string" || typeof cell === "number" || typeof cell === "boolean",
);

/** Words that no example has in a cell of its own. */
const WORDS =
  "2/20 NeW|30/2 NeW|resultant|plies|ply/count|count/ply|axial|two-thirds|same|opposite|customs clean|scoured 17|carded|ASTM|GB 9994|romaine|hauteur|A/10|F11/10|tpcm|tex tpcm";
stock.push(...WORDS.split("|"));

/** Values that may do instead of the usual one: first its neighbours, then everything there is. */
function candidates(usual: unknown): unknown[] {
  const near = typeof usual === "number" ? [usual * 1.25, usual * 0.8, usual + 1, usual - 1, usual / 2] : [];
  const others = stock.filter((cell) => cell !== usual && (usual === null || typeof cell === typeof usual));
  return [...(typeof usual === "boolean" ? [!usual] : near), ...others];
}

/** An argument of one function, in two valid values, and what each alone gives. */
interface Argument {
  readonly known: KnownCall;
  readonly name: string;
  readonly optional: boolean;
  readonly index: number;
  readonly values: readonly [unknown, unknown];
  readonly alone: readonly [unknown[], unknown[]];
}

/** The known call with every broadcasting argument in one cell. */
function singled({ known, index }: Pick<Argument, "known" | "index">, cells: unknown): unknown[] {
  const broadcasting = lifted.get(known.id) as Set<string>;
  return known.cells.map((own, place) => {
    if (place === index) return cells;
    return own !== null && broadcasting.has((known.parameters[place] as { name: string }).name) ? [[own[0]?.[0]]] : own;
  });
}

function callWith(argument: Pick<Argument, "known" | "index">, cells: unknown): Called {
  return called(argument.known.call, singled(argument, cells));
}

function oneRowOf(outcome: Called): unknown[] | undefined {
  return "rows" in outcome && outcome.rows.length === 1 ? outcome.rows[0] : undefined;
}

/** Which arguments the code reads in one way, found in the declarations. */
function declared(reading: RegExp): Map<string, Set<string>> {
  return new Map(
    declarationFiles().flatMap((file) =>
      readFileSync(file, "utf8")
        .split(/(?=\/\*\*\n \* )/)
        .flatMap((part) => {
          const id = /@customfunction (\w+)/.exec(part)?.[1];
          if (id === undefined) return [];
          const names = [...part.slice(part.indexOf("*/")).matchAll(reading)];
          return [[id, new Set(names.map(([, name]) => name as string))] as const];
        }),
    ),
  );
}

/** Those that are handed to lift or liftRows item by item. */
const lifted = declared(/\b(?:required|optional)(?:<[^(]*>)?\(\s*\{ (\w+) \}/g);
const SHADES_AND_MORE = ["GREYSCALE", "METAMERISM", "SHADEDIFF", "SHADEPASS"];

/** Every broadcasting argument, with two values that are both valid; and those for which there was none. */
const found: Argument[] = [];
const without: string[] = [];
for (const known of calls) {
  known.parameters.forEach(({ name, optional }, index) => {
    if (!lifted.get(known.id)?.has(name)) return;
    const usual = known.cells[index]?.[0]?.[0] ?? null;
    const argument = { known, name, optional, index };
    const valid: [unknown, unknown[]][] = [];
    let spare: [unknown, unknown[]] | undefined;
    for (const value of usual === null ? candidates(usual) : [usual, ...candidates(usual)]) {
      const row = oneRowOf(callWith(argument, [[value]]));
      if (row === undefined) continue;
      const differs = valid.every(([, other]) => JSON.stringify(other) !== JSON.stringify(row));
      if (differs) valid.push([value, row]);
      else spare ??= [value, row];
      if (valid.length === 2) break;
    }
    // Some make no difference beside the other arguments of the example.
    if (valid.length === 1 && spare !== undefined) valid.push(spare);
    const [first, second] = valid;
    if (first === undefined || second === undefined) without.push(`${known.id} ${name}`);
    else found.push({ ...argument, values: [first[0], second[0]], alone: [first[1], second[1]] });
  });
}

const cases = found.map((argument) => [`${argument.known.id} ${argument.name}`, argument] as const);

test("two valid values are known for every argument that broadcasts, but for those that go with another", () => {
  expect(found.length).toBeGreaterThan(200);
  // The examples' turns are turns a metre; a yarn of so many an inch is refused.
  const turns = ["TWISTANGLE twist_unit", "TAKEUP twist_unit", "PLYTAKEUP twist_unit"];
  // So are a spindle's, and a draft that would draw nothing.
  const spindles = ["SPINDLESPEED twist_unit", "ROLLSPEED twist_unit"];
  // A ring of so many inches or metres is none.
  const rings = ["TRAVELLERSPEED diameter_unit", "SPINDLELIMIT diameter_unit"];
  // A reel of so many yards or kilometres is none either.
  expect(without).toEqual([
    "DESIGNATE plies",
    ...spindles,
    ...turns,
    "DRAFT system_in",
    "SPINRATE twist_unit",
    ...rings,
    "SKEINREMAINDER regain_now",
    "SKEINREMAINDER regain_standard",
    "REELTURNS circumference_unit",
  ]);
});

describe.each(cases)("%s", (_, argument) => {
  const [a, b] = argument.values;
  const [alone, other] = argument.alone;
  const wide = alone.length > 1;

  test("a column gives what its cells give one by one", () => {
    expect(callWith(argument, [[a], [b], [a]])).toEqual({ rows: [alone, other, alone] });
  });

  test("so do a row and a matrix", () => {
    const row = callWith(argument, [[a, b]]);
    // Where each result is a row, the items must lie in a column.
    if (wide)
      expect(row).toMatchObject({
        error: { code: "#VALUE!", message: expect.stringContaining("2 columns wide") as string },
      });
    else {
      expect(row).toEqual({ rows: [[alone[0], other[0]]] });
      expect(
        callWith(argument, [
          [a, b],
          [b, a],
        ]),
      ).toEqual({
        rows: [
          [alone[0], other[0]],
          [other[0], alone[0]],
        ],
      });
    }
  });

  test("a bad row stays alone, and an error value goes through in either form", () => {
    const bad = [{ code: "#DIV/0!" }, { type: "Error", basicValue: "#DIV/0!" }];
    for (const cell of bad) {
      const outcome = callWith(argument, [[a], [cell], [b]]);
      expect(outcome).toMatchObject({ rows: [alone, alone.map(() => ({ code: "#DIV/0!" })), other] });
      expect(callWith(argument, [[cell]])).toMatchObject({ error: { code: "#DIV/0!" } });
    }
    const outcome = callWith(argument, [[a], ["no such word 7Q"], [b]]) as { rows: unknown[][] };
    expect([outcome.rows[0], outcome.rows[2]]).toEqual([alone, other]);
    // A text argument may take any text; what comes back is then no error.
    if (typeof a !== "string")
      expect(outcome.rows[1]).toEqual(
        alone.map(
          () => expect.objectContaining({ code: expect.stringMatching(/^#(VALUE!|N\/A)$/) as string }) as object,
        ),
      );
  });

  test("a blank row stays blank, or takes the default", () => {
    const left = argument.optional ? callWith(argument, null) : undefined;
    for (const blank of [null, undefined, ""]) {
      const outcome = callWith(argument, [[a], [blank], [b]]) as { rows: unknown[][] };
      expect([outcome.rows[0], outcome.rows[2]]).toEqual([alone, other]);
      if (left === undefined) expect(outcome.rows[1]).toEqual(alone.map(() => ""));
      else if ("rows" in left) expect(outcome.rows[1]).toEqual(left.rows[0]);
      else
        expect(outcome.rows[1]).toEqual(
          alone.map(() => expect.objectContaining({ code: "error" in left ? left.error.code : "" }) as object),
        );
    }
  });

  test("a column of it against a row of any other gives what the pairs give", () => {
    if (wide) return;
    for (const partner of found) {
      if (partner.known !== argument.known || partner.index === argument.index) continue;
      const crossed = (down: unknown[][], along: unknown[][]): Called => {
        const cells = singled(argument, down);
        cells[partner.index] = along;
        return called(argument.known.call, cells);
      };
      const [c, d] = partner.values;
      const single = (one: unknown, two: unknown): unknown => {
        const outcome = crossed([[one]], [[two]]);
        return "rows" in outcome ? outcome.rows[0]?.[0] : "error" in outcome ? outcome.error : outcome;
      };
      const outcome = crossed([[a], [b], [a]], [[c, d]]);
      expect(outcome).toEqual({ rows: [a, b, a].map((one) => [single(one, c), single(one, d)]) });
      // What is out of the usual in the column stays in its row, and the rows beside it are as they were.
      const odd = crossed([[a], [null], [{ code: "#DIV/0!" }], [b]], [[c, d]]) as { rows: unknown[][] };
      expect([odd.rows[0], odd.rows[3]]).toEqual([a, b].map((one) => [single(one, c), single(one, d)]));
      expect(odd.rows[1]).toEqual([c, d].map((two) => (argument.optional ? single(null, two) : "")));
      expect(odd.rows[2]).toMatchObject([{ code: "#DIV/0!" }, { code: "#DIV/0!" }]);
    }
  });

  test("shapes that do not match are refused with both in the message", () => {
    const partner = found.find(({ known, index }) => known === argument.known && index !== argument.index);
    if (partner === undefined) return;
    const cells = singled(argument, [[a], [b]]);
    cells[partner.index] = [0, 1, 0].map((which) => [partner.values[which]]);
    expect(called(argument.known.call, cells)).toMatchObject({
      error: { code: "#VALUE!", message: expect.stringMatching(/2×1.*3×1|3×1.*2×1/) as string },
    });
  });
});

/** Arguments of which one item is a shade along a row, of functions that give one result a shade. */
const shadeArguments = declared(/\bshadeColumn\(\s*\{ (\w+) \}/g);

describe("shades in a column against a row of another argument give the matrix", () => {
  const narrow = found.filter(({ known, alone }) => shadeArguments.get(known.id)?.size && alone[0].length === 1);

  test("of every function that has both", () => {
    expect([...new Set(narrow.map(({ known }) => known.id))].sort()).toEqual(SHADES_AND_MORE);
  });

  test.each(narrow.map((partner) => [`${partner.known.id} ${partner.name}`, partner] as const))("%s", (_, partner) => {
    const { known, values } = partner;
    for (const name of shadeArguments.get(known.id) as Set<string>) {
      const place = known.parameters.findIndex((own) => own.name === name);
      const usual = known.cells[place]?.[0] as number[];
      const other = usual.map((value) => value * 0.97);
      const crossed = (down: unknown[][], along: unknown[][]): Called => {
        const cells = singled(partner, along);
        cells[place] = down;
        return called(known.call, cells);
      };
      const single = (shade: unknown[], value: unknown): unknown => {
        const outcome = crossed([shade], [[value]]);
        return "rows" in outcome ? outcome.rows[0]?.[0] : outcome;
      };
      expect(crossed([usual, other], [[...values]])).toEqual({
        rows: [usual, other].map((shade) => values.map((value) => single(shade, value))),
      });
    }
  });
});
