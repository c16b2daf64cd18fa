import { forgetErrors, worksheetError } from "../../src/sheet/errors";
import { forgetPlaces } from "../../src/sheet/places";
import { forgetWords } from "../../src/sheet/words";

/** What the sheet would show for what a call throws, code and message; fails the test when it throws nothing. */
export function refusalOf(call: () => unknown): string {
  // Where entries stand is remembered from one call of a sheet to its end; this is a call of its own.
  forgetPlaces();
  let answer: unknown;
  forgetErrors();
  forgetWords();
  try {
    answer = call();
  } catch (thrown) {
    const { code, message } = worksheetError(thrown);
    return message === undefined ? code : `${code} ${message}`;
  }
  throw new Error(`gave ${JSON.stringify(answer)}, not an error`);
}
