import { PERCENTS, type Figure, type Figures } from "./figures";
import { histogramOf } from "./histogram";
import type { Plan } from "./sampling";
import { nameOf, type Told } from "./variation";
import type { Setting } from "./vary-tasks";

/** What was found in a workbook, before anything is drawn. */
export function headOf({ called, inputs, worked, unsaved }: Setting): string {
  const found = `${called}: ${inputs.length} inputs; each run works out ${worked} formulas, all others keep their saved values`;
  return unsaved === 0
    ? found
    : `${found}\n${called}: ${unsaved} of them have no saved value to be held against; recalculate and save it first`;
}

const MOST_FAILURES_TOLD = 10;

/** One line for a program. */
export function asJson({ called, inputs }: Setting, { outcome, runs, figures, failures }: Told): string {
  const percentiles = PERCENTS.map((percent) => [`p${percent}`, figures?.percentiles.get(percent)] as const);
  return JSON.stringify({
    workbook: called,
    outcome,
    runs,
    mean: figures?.mean.value ?? null,
    ...Object.fromEntries(percentiles.map(([key, figure]) => [key, figure?.value ?? null])),
    error: figures?.mean.error ?? null,
    deviation: figures?.deviation.value ?? null,
    errors: figures && {
      ...Object.fromEntries(percentiles.map(([key, figure]) => [key, figure?.error])),
      deviation: figures.deviation.error,
    },
    ...(figures === undefined || figures.chances.length === 0
      ? {}
      : {
          chances: figures.chances.map(({ limit, value, error }) => ({
            limit: `${limit.relation}${limit.value}`,
            chance: value,
            error,
          })),
        }),
    parts: widestFirst(figures).map(({ input, value, error, low, high }) => ({
      input: nameOf(inputs, input),
      part: value,
      error,
      low,
      high,
    })),
    failed: failures.length,
    ...(failures.length === 0
      ? {}
      : {
          failures: failures.slice(0, MOST_FAILURES_TOLD).map(({ run, error, inputs: drawn }) => ({
            run,
            error,
            inputs: Object.fromEntries(inputs.map(({ place }, index) => [place.called, drawn[index]])),
          })),
        }),
  });
}

const BAR = 32;

/** The figures of one outcome, for reading. */
export function asText({ called, inputs }: Setting, { seed }: Plan, told: Told): string {
  const { outcome, now, runs, figures, sound, failures } = told;
  const lines = ["", `${outcome} of ${called}: ${runs} runs, seed ${seed}; as the file stands ${shownIn(now)}`];
  if (figures !== undefined) {
    lines.push("", ...aligned([["", "value", "standard error"], ...linesOf(figures)]));
    for (const { limit, value, error } of figures.chances) {
      lines.push(
        "",
        `chance of ${outcome} ${limit.relation} ${limit.value}: ${percent(value)} (standard error ${rounded(100 * error, 2)} %)`,
      );
    }
    const bins = histogramOf(sound.map(({ value }) => value));
    const most = Math.max(...bins.map(({ count }) => count));
    lines.push(
      "",
      ...aligned(
        bins.map(({ from, to, count }) => [rounded(from), "to", rounded(to), String(count), bar(count / most)]),
      ),
      "",
      ...aligned([
        ["part of the variance", "", "standard error", "lowest tenth", "highest tenth", ""],
        ...widestFirst(figures).map(({ input, value, error, low, high }) => [
          nameOf(inputs, input),
          percent(value),
          `${rounded(100 * error, 2)} %`,
          rounded(low),
          rounded(high),
          bar(value),
        ]),
      ]),
      rest(figures),
    );
  }
  if (failures.length > 0) {
    lines.push("", `${failures.length} of ${runs} runs gave no number and are not in the figures:`);
    for (const { run, error, inputs: drawn } of failures.slice(0, MOST_FAILURES_TOLD)) {
      const values = inputs.map(({ place }, index) => `${place.called} ${rounded(drawn[index] as number)}`);
      lines.push(`  run ${run + 1}: ${error}; ${values.join(", ")}`);
    }
  }
  return lines.join("\n");
}

function linesOf({ mean, deviation, percentiles }: Figures): string[][] {
  const line = (what: string, { value, error }: Figure) => [what, rounded(value), rounded(error, 2)];
  return [
    line("mean", mean),
    line("standard deviation", deviation),
    ...[...percentiles].map(([share, figure]) => line(`${share} % lie below`, figure)),
  ];
}

function rest({ parts }: Figures): string {
  const all = parts.reduce((sum, { value }) => sum + value, 0);
  return `The parts add up to ${percent(all)}; what is missing from 100 % comes of inputs together and of steps.`;
}

export function widestFirst(figures: Figures | undefined): Figures["parts"][number][] {
  return [...(figures?.parts ?? [])].sort((one, other) => other.value - one.value);
}

export function shownIn(shown: Told["now"] | undefined): string {
  return typeof shown === "number" ? rounded(shown) : (shown?.error ?? "");
}

export function rounded(value: number, digits = 6): string {
  return String(Number(value.toPrecision(digits)));
}

export function percent(share: number, digits = 1): string {
  return `${(100 * share).toFixed(digits)} %`;
}

function bar(share: number): string {
  return "#".repeat(Math.round(BAR * Math.min(1, Math.max(0, share))));
}

/** Columns under each other: words to the left, figures to the right. */
function aligned(rows: readonly (readonly string[])[]): string[] {
  const widths = (rows[0] ?? []).map((_, column) => Math.max(...rows.map((row) => row[column]?.length ?? 0)));
  return rows.map((row) =>
    row
      .map((text, column) =>
        column === 0 || /^#/.test(text)
          ? text.padEnd(widths[column] as number)
          : text.padStart(widths[column] as number),
      )
      .join("  ")
      .trimEnd(),
  );
}
