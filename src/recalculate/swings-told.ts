import type { Swing } from "./alone";
import { rounded, shownIn } from "./vary-told";
import { nameOf } from "./variation";
import type { Setting } from "./vary-tasks";

const HEADINGS = ["input", "low", "high", "at low", "at high", "swing"];

/** A table to paste: its first column and those at low and at high are what SWING takes. */
export function swingsAsText(setting: Setting, place: number, swings: readonly Swing[]): string {
  const { called, inputs, outcomes, now } = setting;
  return [
    "",
    `${outcomes[place]?.called} of ${called}: each input to its low and to its high, the rest as they are; as the file stands ${shownIn(now[place])}`,
    "",
    HEADINGS.join("\t"),
    ...swings.map(({ input, atLow, atHigh, width }) => {
      const { low, high } = inputs[input] as Setting["inputs"][number];
      const cells = [
        rounded(low),
        rounded(high),
        shownIn(atLow),
        shownIn(atHigh),
        width === undefined ? "" : rounded(width),
      ];
      return [nameOf(inputs, input), ...cells].join("\t");
    }),
  ].join("\n");
}

/** One line for a program. */
export function swingsAsJson(
  { called, inputs, outcomes, now }: Setting,
  place: number,
  swings: readonly Swing[],
): string {
  return JSON.stringify({
    workbook: called,
    outcome: outcomes[place]?.called,
    now: now[place],
    inputs: swings.map(({ input, atLow, atHigh, width }) => ({
      input: nameOf(inputs, input),
      low: inputs[input]?.low,
      high: inputs[input]?.high,
      atLow,
      atHigh,
      swing: width ?? null,
    })),
  });
}
