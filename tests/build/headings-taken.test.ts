import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { headingsTaken } from "../../src/build/headings-taken";
import { declarationFiles, documentedFunctions, type DocumentedFunction } from "../../src/documentation/docblocks.mjs";
import { sourceFunctions } from "../support/functions";

const documented = documentedFunctions();
const taken = headingsTaken(documented, sourceFunctions);
const built = JSON.parse(readFileSync("dist/documentation.json", "utf8")) as DocumentedFunction[];

/** The arguments that a declaration hands to what reads tables, and lists with names. */
const read = declarationFiles().flatMap((file) =>
  readFileSync(file, "utf8")
    .split(/(?=\/\*\*\n \* )/)
    .flatMap((part) => {
      const id = /@customfunction (\w+)/.exec(part)?.[1];
      if (id === undefined) return [];
      const code = part.slice(part.indexOf("*/"));
      const direct = code.matchAll(
        /\b(?:table|tableInPlace|tableRows|runningRows|namedList|figuresOf|alongside|eachAlong|solidShades|shadeColumn|oneShade)(?:<[^(]*>)?\(\s*\{ (\w+) \}/g,
      );
      const together = /\bnamedTogether\b/.test(code) ? code.matchAll(/: \[\{ (\w+) \}/g) : [];
      // What stands between two declarations serves both.
      const own = documented.find((one) => one.id === id)?.parameters.map(({ name }) => name) ?? [];
      const names = [...direct, ...together].map(([, name]) => name as string);
      return names.filter((name) => own.includes(name)).map((name) => `${id} ${name}`);
    }),
);

test("every table, list with names and shade that a function reads tells its headings", () => {
  expect(read.length).toBeGreaterThan(60);
  expect(read.filter((each) => taken(...(each.split(" ") as [string, string])) === undefined)).toEqual([]);
});

test("what the build writes is what the functions tell, and the page of the function shows every word of it", () => {
  for (const { id, parameters } of built) {
    const page = readFileSync(`dist/guide/${id}.html`, "utf8");
    for (const { name, headings } of parameters) {
      expect([id, name, headings]).toEqual([id, name, taken(id, name)]);
      for (const { heading, synonyms } of headings ?? []) {
        expect(page).toContain(`<b>${heading}</b>`);
        for (const synonym of synonyms) expect(page, `${id} ${heading}`).toContain(synonym);
      }
    }
  }
});

test("a column that one call has named itself is no heading of the table", () => {
  expect(taken("LANDED", "lines")?.map(({ heading }) => heading)).toEqual([
    "value",
    "mass",
    "volume",
    "quantity",
    "name",
  ]);
  expect(taken("LANDED", "charges")?.map(({ heading }) => heading)).toContain("name");
  expect(taken("COUNT", "value")).toBeUndefined();
});

test("a function lists the forms of shade that it takes, and no other", () => {
  const lab = ["L*", "a*", "b*", "name"];
  for (const each of [
    "SHADEDIFF lab_1",
    "GREYSCALE lab_sample",
    "SHADEPARTS lab_sample",
    "SHADESORT labs",
    "LABTORGB lab",
  ]) {
    const [id, argument] = each.split(" ") as [string, string];
    expect([each, taken(id, argument)?.map(({ heading }) => heading)]).toEqual([each, lab]);
  }
  for (const each of ["LABOF reflectance", "METAMERISM reflectance_1", "METAMERISM reflectance_2", "MIXCORRECT pad"]) {
    const [id, argument] = each.split(" ") as [string, string];
    expect([each, taken(id, argument)?.map(({ heading }) => heading)]).toEqual([each, ["wavelengths in nm", "name"]]);
  }
  expect(taken("SHADEPASS", "lab_sample")?.map(({ heading }) => heading)).toEqual([...lab, "wavelengths in nm"]);
  expect(taken("MIXMATCH", "solids")?.map(({ heading }) => heading)).toContain("or wavelengths in nm");
});
