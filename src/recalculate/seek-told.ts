import { STEPS, type Bracket, type Tried } from "./seek";
import { rounded, shownIn } from "./vary-told";
import type { Seeking } from "./vary-tasks";

/** What a search found, for reading. */
export function seekingAsText(seeking: Seeking): string {
  const { called, outcome, by, now, between, value, sought } = seeking;
  const where = `${called}: between ${by} = ${exact(between[0])} and ${exact(between[1])}`;
  const bracketed = (bracket: Bracket) =>
    bracket.map(({ input, outcome: shown }) => `${exact(input)} (${shownIn(shown)})`).join(" and ");
  switch (sought.kind) {
    case "met": {
      const { from, to, bracket } = sought;
      const found =
        from.input === to.input
          ? `${by} = ${exact(from.input)} gives ${outcome} = ${shownIn(from.outcome)}`
          : `every ${by} from ${exact(from.input)} to ${exact(to.input)} gives ${outcome} = ${shownIn(from.outcome)}`;
      return [
        `${called}: as the file stands ${by} = ${exact(now.input)} gives ${outcome} = ${shownIn(now.outcome)}`,
        `${where}, in ${STEPS} steps, the one bracket: ${bracketed(bracket)}`,
        found,
      ].join("\n");
    }
    case "passed over":
      return `${where} ${outcome} passes over ${value}: it goes from ${shownIn(sought.below.outcome)} to ${shownIn(sought.above.outcome)} at ${by} = ${exact(sought.above.input)}; what it rests on goes in steps there`;
    case "several":
      return [
        `${where} ${outcome} is ${value} more than once; name one of these brackets with --between:`,
        ...sought.brackets.map((bracket) => `  ${bracketed(bracket)}`),
      ].join("\n");
    case "none":
      return `${where} ${outcome} is nowhere ${value}${reached(sought.least, sought.most)}${failedAt(sought.failed)}; look elsewhere with --between`;
    case "broken":
      return `${where} the search stopped at ${by} = ${exact(sought.at.input)}, where ${outcome} ${shownIn(sought.at.outcome)}; bracket: ${bracketed(sought.bracket)}`;
  }
}

function reached(least: Tried | undefined, most: Tried | undefined): string {
  if (least === undefined || most === undefined) return ", because it is no number anywhere";
  return `; it goes from ${shownIn(least.outcome)} (at ${exact(least.input)}) to ${shownIn(most.outcome)} (at ${exact(most.input)})`;
}

function failedAt(failed: readonly Tried[]): string {
  const [first] = failed;
  if (first === undefined) return "";
  return `, and is no number at ${failed.length} of ${STEPS + 1} values, as at ${exact(first.input)}: ${shownIn(first.outcome)}`;
}

/** One line for a program. */
export function seekingAsJson(seeking: Seeking): string {
  const { called, outcome, value, by, now, between, sought } = seeking;
  const brackets = sought.kind === "several" ? sought.brackets : "bracket" in sought ? [sought.bracket] : [];
  return JSON.stringify({
    workbook: called,
    outcome,
    wanted: value,
    by,
    now,
    between,
    brackets,
    found:
      sought.kind === "met" ? { from: sought.from.input, to: sought.to.input, outcome: sought.from.outcome } : null,
    ...(sought.kind === "met" ? {} : { why: seekingAsText(seeking) }),
  });
}

/** As many digits as the search knows, without those of the computer. */
function exact(value: number): string {
  return rounded(value, 10);
}
