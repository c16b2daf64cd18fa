import { describe, expect, test } from "vitest";
import { enoughTold, ErrorInCell, errorIn, forgetErrors, toldBefore, worksheetError } from "../../src/sheet/errors";
import { absent, dividedByZero, impossible, LONGEST_MESSAGE, Refusal, refuse, saying } from "../../src/trade/refusal";
import { refusalOf } from "../support/refusals";

describe("an error value in a cell", () => {
  test.each(["#VALUE!", "#N/A", "#NUM!", "#DIV/0!", "#REF!", "#NAME?", "#NULL!"])(
    "%s is found in both forms, with the message it came with",
    (code) => {
      for (const cell of [{ code }, { type: "Error", basicValue: code }]) {
        expect(errorIn(cell)).toBeInstanceOf(ErrorInCell);
        expect(errorIn(cell)).toMatchObject({ name: "ErrorInCell", code, message: "" });
        expect(errorIn({ ...cell, message: "as it came" })).toMatchObject({ code, message: "as it came" });
      }
    },
  );

  test("of a kind that the runtime cannot give back is #VALUE!", () => {
    expect(errorIn({ type: "Error", basicValue: "#SPILL!" })?.code).toBe("#VALUE!");
    expect(errorIn({ code: "#CALC!" })?.code).toBe("#VALUE!");
  });

  test.each([
    [null],
    [undefined],
    ["#N/A"],
    [5],
    [{}],
    [{ code: 7 }],
    [{ type: "Entity", basicValue: "#N/A" }],
    [{ type: "Error" }],
    [{ basicValue: "#N/A" }],
  ])("%j is none", (cell) => expect(errorIn(cell)).toBeUndefined());

  test("a message that is no text is left out", () =>
    expect(errorIn({ code: "#N/A", message: 5 })).toMatchObject({ message: "" }));
});

describe("what the sheet is given for what was thrown", () => {
  test("each kind of refusal has its own error", () => {
    expect(refusalOf(() => refuse("mass", "-1", "must be above 0"))).toBe("#VALUE! mass is -1; must be above 0");
    expect(refusalOf(() => absent("mass", "-1", "look"))).toBe("#N/A mass is -1; look");
    expect(refusalOf(() => impossible("mass", "-1", "look"))).toBe("#NUM! mass is -1; look");
    expect(refusalOf(() => dividedByZero("mass", "0", "look"))).toBe("#DIV/0! mass is 0; look");
  });

  test("an error value goes out as it came, without a message when it had none", () => {
    expect({ ...worksheetError(errorIn({ code: "#REF!" })) }).toEqual({ code: "#REF!", message: undefined });
    expect({ ...worksheetError(errorIn({ code: "#REF!", message: "gone" })) }).toEqual({
      code: "#REF!",
      message: "gone",
    });
    expect(worksheetError(errorIn({ code: "#REF!" }))).toBeInstanceOf(CustomFunctions.Error);
  });

  test("anything else is owned up to as a fault of the library", () => {
    for (const thrown of [new Error("boom"), "boom"]) {
      expect(worksheetError(thrown)).toMatchObject({
        code: "#VALUE!",
        message: "internal fault, please report: boom",
      });
    }
  });
});

test("the first fifty thousand cells of a call say what is wrong, all further ones that these do", () => {
  forgetErrors();
  const wrong = new Refusal("absent", "mass", "-1", "look");
  for (let cell = 1; cell < 50_000; cell++) worksheetError(wrong);
  expect(enoughTold()).toBe(false);
  expect(worksheetError(wrong).message).toBe("mass is -1; look");
  expect(enoughTold()).toBe(true);
  const further = worksheetError(wrong);
  expect({ ...further }).toEqual({ code: "#N/A", message: "50000 cells before this one say what is wrong" });
  expect(toldBefore("absent")).toBe(further);
  expect(toldBefore("impossible").code).toBe("#NUM!");
  forgetErrors();
  expect(enoughTold()).toBe(false);
  expect(worksheetError(wrong).message).toBe("mass is -1; look");
  expect(toldBefore("absent")).not.toBe(further);
});

test("a message has 120 characters at most", () => {
  const frame = saying("a", "", "").length;
  const longest = saying("a", "x".repeat(LONGEST_MESSAGE - frame), "");
  expect(LONGEST_MESSAGE).toBe(120);
  expect(longest).toHaveLength(120);
  expect(longest.endsWith("x; ")).toBe(true);
  const cut = saying("a", "x".repeat(LONGEST_MESSAGE - frame + 1), "");
  expect(cut).toHaveLength(120);
  expect(cut.endsWith("x…")).toBe(true);
});
