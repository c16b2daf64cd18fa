import { describe, expect, test } from "vitest";
import { faultsOf } from "../../src/build/checks.mjs";
import { documentedFunctions } from "../../src/documentation/docblocks.mjs";

type Documented = ReturnType<typeof documentedFunctions>[number];

const documented = documentedFunctions();
const sound = documented.find(({ id }) => id === "COUNT") as Documented;
const called = (ids: readonly string[]) => ({ functions: ids.map((id) => ({ id })) });
const faultsWith = (changed: Partial<Documented>) => {
  const entry = { ...sound, ...changed };
  return faultsOf([entry], called([entry.id]));
};

test("the docblocks as they are hold nothing back", () =>
  expect(faultsOf(documented, called(documented.map(({ id }) => id)))).toEqual([]));

describe("a build is stopped by", () => {
  const example = { formula: '=YARN.COUNT(10,"NeC","NeW")', result: "15" };
  const parameter = sound.parameters[0] as Documented["parameters"][number];

  test.each<[string, Partial<Documented>, string]>([
    ["a short id", { id: "AB", exportName: "AB", examples: [{ ...example, formula: "=YARN.AB(1)" }] }, "an id is 3"],
    ["another name exported", { exportName: "TALLY" }, "exported as TALLY, which does not spell the id"],
    ["no description", { description: "" }, "no description"],
    ["a description that Excel cuts", { description: "x".repeat(201) }, "description over 200 characters"],
    ["no example", { examples: [] }, "no example"],
    ["an example without a result", { examples: [{ ...example, result: "" }] }, "example not"],
    ["an example of another", { examples: [{ ...example, formula: "=YARN.TWIST(1,2)" }] }, "example not"],
    [
      "a percent between braces",
      { examples: [{ ...example, formula: "=YARN.COUNT({1%},1,2)" }] },
      "a percent between braces in =YARN.COUNT({1%},1,2)",
    ],
    ["no source", { sources: [] }, "no source key"],
    ["a source nobody knows", { sources: ["HEARSAY"] }, "unknown source key HEARSAY"],
    ["no word of what comes back", { returns: "" }, "@returns and @throws are both needed"],
    ["no word of what is refused", { throws: "" }, "@returns and @throws are both needed"],
    ["a parameter without a word", { parameters: [{ ...parameter, description: "" }] }, "is not described"],
    [
      "a parameter that is told too long",
      { parameters: [{ ...parameter, description: "x".repeat(513) }] },
      `parameter ${parameter.name}: description too long`,
    ],
  ])("%s", (_, changed, told) => expect(faultsWith(changed)).toEqual([expect.stringContaining(told)]));

  test("an id that stands twice", () =>
    expect(faultsOf([sound, sound], called(["COUNT"]))).toEqual(["COUNT: declared twice"]));

  test("metadata that name other functions", () =>
    expect(faultsOf([sound], called(["COUNT", "TWIST"]))).toEqual([
      "the generated metadata and the docblocks name different functions",
    ]));
});

test("a percent inside a text between braces is no fault", () =>
  expect(faultsWith({ examples: [{ formula: '=YARN.COUNT({"1%"},1,2)', result: "1" }] })).toEqual([]));
