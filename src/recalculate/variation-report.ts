import type { Mark, SwingBar } from "./chart-drawings";
import type { Figures } from "./figures";
import { histogramOf, type Bin } from "./histogram";
import type { Input } from "./ranges";
import { shownAs, type Column, type ReportTable, type Shows } from "./report-page";
import type { Plan } from "./sampling";
import type { Shape } from "./shapes";
import { shownIn, widestFirst } from "./vary-told";
import { leadersOf, nameOf, type Told } from "./variation";
import type { Setting } from "./vary-tasks";

/** What a report says of one workbook, whether on a page or on a sheet. */
export interface VariationReport {
  readonly called: string;
  readonly lead: string;
  readonly outcomes: readonly OutcomeReport[];
  readonly ranges: ReportTable;
  readonly cautions: readonly string[];
}

export interface OutcomeReport {
  readonly title: string;
  readonly sentences: readonly string[];
  readonly failures?: ReportTable;
  /** Nothing where no run gave a number. */
  readonly found?: Found;
}

interface Found {
  readonly shows: Shows;
  readonly figures: ReportTable;
  readonly bins: readonly Bin[];
  readonly marks: readonly Mark[];
  readonly mean: number;
  /** Those that can be seen, widest first. */
  readonly swings: readonly SwingBar[];
  readonly parts: ReportTable;
  /** The outcome of some runs over the input that matters most. */
  readonly dots: readonly (readonly [input: number, outcome: number])[];
  readonly across: string;
  readonly acrossShows: Shows;
}

const MOST_DOTS = 500;
const MOST_FAILURES = 50;

const CAUTIONS = [
  "The ranges are what somebody holds for likely; the figures are no better than they are.",
  "Inputs are drawn independently of each other, except where one moves with another.",
  "The workbook itself is taken as right: what it leaves out, and cells without a range, add no doubt here.",
  "The standard error says what the number of runs leaves open, not what the ranges do.",
];

export function reportOf(setting: Setting, plan: Plan, told: readonly Told[]): VariationReport {
  const { called, inputs } = setting;
  const runs = told[0]?.runs ?? 0;
  return {
    called,
    lead: `${counted(runs)} runs, seed ${plan.seed}: the ${inputs.length} inputs below are drawn from their ranges and the workbook is worked out each time with its own formulas.`,
    outcomes: told.map((one) => outcomeOf(setting, one)),
    ranges: rangesOf(inputs),
    cautions: CAUTIONS,
  };
}

function outcomeOf({ inputs }: Setting, { outcome, now, runs, figures, sound, failures }: Told): OutcomeReport {
  const failed: ReportTable = {
    title: `${counted(failures.length)} of ${counted(runs)} runs gave no number and are in no figure`,
    columns: [
      { heading: "Run", shows: { decimals: 0 } },
      { heading: "What came" },
      ...inputs.map(({ place, low, high }) => ({ heading: place.called, shows: showsFor(high - low) })),
    ],
    rows: failures.slice(0, MOST_FAILURES).map(({ run, error, inputs: drawn }) => [run + 1, error, ...drawn]),
    ...(failures.length > MOST_FAILURES ? { note: `The first ${MOST_FAILURES} of them.` } : {}),
  };
  const rest = failures.length === 0 ? {} : { failures: failed };
  if (figures === undefined) return { title: outcome, sentences: ["No run gave a number."], ...rest };

  const shows = showsFor(figures.deviation.value);
  const written = (value: number) => shownAs(value, shows);
  const at = (percent: number) => figures.percentiles.get(percent)?.value as number;
  const [first] = widestFirst(figures);
  const widest = first?.input ?? 0;
  const { low, high } = inputs[widest] as Input;
  return {
    title: outcome,
    sentences: [
      `Nine runs in ten lie from ${written(at(5))} to ${written(at(95))}, half of them from ${written(at(25))} to ${written(at(75))}; their mean is ${written(figures.mean.value)}. As the file stands it is ${typeof now === "number" ? written(now) : shownIn(now)}.`,
      ...figures.chances.map(
        ({ limit, value, error }) =>
          `The chance of ${outcome} ${limit.relation} ${limit.value} is ${share(value)} (standard error ${share(error)}).`,
      ),
    ],
    ...rest,
    found: {
      shows,
      figures: figuresTable(figures, shows),
      bins: histogramOf(sound.map(({ value }) => value)),
      marks: [
        { at: at(5), words: `5 %: ${written(at(5))}` },
        { at: at(50), words: `half: ${written(at(50))}` },
        { at: at(95), words: `95 %: ${written(at(95))}` },
        ...(typeof now === "number" ? [{ at: now, words: `file: ${written(now)}` }] : []),
        ...figures.chances.map(({ limit: { relation, value } }) => ({
          at: value,
          words: `limit ${relation} ${value}`,
        })),
      ],
      mean: figures.mean.value,
      swings: [...figures.parts]
        .filter(({ low, high }) => written(low) !== written(high))
        .sort((one, other) => Math.abs(other.high - other.low) - Math.abs(one.high - one.low))
        .map((part) => ({ name: nameOf(inputs, part.input), low: part.low, high: part.high })),
      parts: partsTable(inputs, figures, shows),
      dots: sound.slice(0, MOST_DOTS).map((run) => [run.inputs[widest] as number, run.value] as const),
      across: nameOf(inputs, widest),
      acrossShows: showsFor((high - low) / 10),
    },
  };
}

function figuresTable({ mean, deviation, percentiles }: Figures, shows: Shows): ReportTable {
  const finer = { decimals: Math.min(MOST_DECIMALS, shows.decimals + 1) };
  return {
    columns: [{ heading: "Figure" }, { heading: "Value", shows }, { heading: "Standard error", shows: finer }],
    rows: [
      ["Mean", mean.value, mean.error],
      ["Standard deviation", deviation.value, deviation.error],
      ...[...percentiles].map(([percent, { value, error }]) => [`${percent} % lie below`, value, error]),
    ],
  };
}

function partsTable(inputs: readonly Input[], figures: Figures, shows: Shows): ReportTable {
  const part = { decimals: 1, percent: true };
  const all = figures.parts.reduce((sum, { value }) => sum + value, 0);
  return {
    columns: [
      { heading: "Input" },
      { heading: "Part of the variance", shows: part },
      { heading: "Standard error", shows: { ...part, decimals: 2 } },
      { heading: "Outcome, lowest tenth", shows },
      { heading: "Outcome, highest tenth", shows },
    ],
    rows: widestFirst(figures).map(({ input, value, error, low, high }) => [
      nameOf(inputs, input),
      value,
      error,
      low,
      high,
    ]),
    note: `The parts add up to ${share(all)}; what is missing comes of inputs together and of steps. The last two columns: where the outcome lies on average in the tenth of the runs in which the input is lowest, and highest.`,
  };
}

function rangesOf(inputs: readonly Input[]): ReportTable {
  const columns: Column[] = [
    { heading: "Input" },
    { heading: "Low", figures: true },
    { heading: "Likely", figures: true },
    { heading: "High", figures: true },
    { heading: "Shape" },
    { heading: "Moves with" },
    { heading: "In the file", figures: true },
  ];
  const exact = (value: number) => String(Number(value.toPrecision(10)));
  const leaders = leadersOf(inputs);
  return {
    columns,
    rows: inputs.map(({ place, shape, follows, now }, index) => [
      place.called,
      ...rangeOf(shape).map((value) => (typeof value === "number" ? exact(value) : value)),
      shape.kind,
      leaders.includes(index) ? "" : (inputs[follows]?.place.called ?? ""),
      exact(now),
    ]),
    note: "A triangle runs from low to high with its top at the likely value; a normal has 5 % of its cases below low and 5 % above high; even and list have no likely value.",
  };
}

function rangeOf(shape: Shape): [low: string | number, likely: string | number, high: string | number] {
  switch (shape.kind) {
    case "triangle":
      return [shape.low, shape.likely, shape.high];
    case "list":
      return ["", shape.values.join("; "), ""];
    default:
      return [shape.low, "", shape.high];
  }
}

const MOST_DECIMALS = 12;

/** So many decimals that a spread of this size shows three digits. */
export function showsFor(spread: number): Shows {
  const decimals = spread > 0 ? 2 - Math.floor(Math.log10(spread)) : 6;
  return { decimals: Math.min(MOST_DECIMALS, Math.max(0, decimals)) };
}

function share(value: number): string {
  return shownAs(value, { decimals: 1, percent: true });
}

function counted(value: number): string {
  return shownAs(value, { decimals: 0 });
}
