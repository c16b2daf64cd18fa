import { roundWidth, type Bin } from "./histogram";
import { shownAs } from "./report-page";
import { encoded } from "./xml";

/** A value that a chart marks by a line and words of its own. */
export interface Mark {
  readonly at: number;
  readonly words: string;
}

/** One row of a chart of swings: where the outcome lies at the low and at the high of an input. */
export interface SwingBar {
  readonly name: string;
  readonly low: number;
  readonly high: number;
}

type Written = (value: number) => string;

/** A drawing is as wide as a sheet of paper, or as a phone; letters are of one size on both. */
type Size = "broad" | "narrow";
const WIDTHS = { broad: 640, narrow: 300 };
const TICKS = { broad: 6, narrow: 4 };
const EDGE = 14;
const LINE = 16;

/** The same drawing for paper and for a phone; the style of a page shows one of them. */
export function inBothSizes(drawing: (size: Size) => string): string {
  return `${drawing("broad")}\n${drawing("narrow")}`;
}

/** How often the outcome fell where; marked values are named above. */
export function histogramDrawing(bins: readonly Bin[], marks: readonly Mark[], axis: string, size: Size): string {
  const width = WIDTHS[size];
  const [first, last] = [bins[0] as Bin, bins[bins.length - 1] as Bin];
  const span = first.to > first.from ? [first.from, last.to] : [first.from - 1, first.to + 1];
  const left = 52;
  const x = scale(span, [left, width - EDGE]);
  const inside = placed(
    marks.filter(({ at }) => at >= (span[0] as number) && at <= (span[1] as number)),
    x,
    width,
  );
  const top = EDGE + LINE * Math.max(0, ...inside.map(({ row }) => row + 1));
  const bottom = top + (size === "broad" ? 200 : 160);
  const counts = bins.map(({ count }) => count);
  const most = Math.max(...counts);
  const fullest = bins[counts.indexOf(most)] as Bin;
  const written = writtenIn(first.to - first.from);
  const y = scale([0, most], [bottom, top + 6]);
  const parts = [
    ...ticksAside(ticksOf(0, most, 4), y, [left, width - EDGE]),
    ...bins.map(({ from, to, count }) => {
      const [start, end] = to > from ? [x(from), x(to)] : [x(from) - 20, x(from) + 20];
      return box(start + 0.5, y(count), Math.max(1, end - start - 1), bottom - y(count), "light");
    }),
    // The words last: no line goes through them.
    ...inside.map((mark) => lineOf(mark, x, bottom)),
    ...inside.map(({ mark, row, centre }) => text(centre, EDGE + LINE * row, mark.words, "middle")),
    ...axisBelow(span, x, bottom, axis, size),
    text(left - 44, top - 4, "runs", "start"),
  ];
  const told = [
    `Histogram of ${axis}: ${shownAs(sum(counts), COUNTED)} runs from ${written(first.from)} to ${written(last.to)}`,
    `most of them, ${shownAs(most, COUNTED)}, from ${written(fullest.from)} to ${written(fullest.to)}`,
    ...marks.map(({ words }) => words),
  ];
  return svg(size, bottom + 44, told.join("; "), parts);
}

/** Rows, the widest first: a white bar to where the low of the input leads, a dark one to where its high leads. */
export function swingsDrawing(
  bars: readonly SwingBar[],
  middle: Mark,
  axis: string,
  written: Written,
  size: Size,
): string {
  const broad = size === "broad";
  // Names stand beside the bars, or above them where there is no room.
  const left = broad ? 210 : 0;
  const above = broad ? 0 : 18;
  const gap = 58;
  const ends = bars.flatMap(({ low, high }) => [low, high]);
  const span = spread([Math.min(middle.at, ...ends), Math.max(middle.at, ...ends)]);
  const x = scale(span, [left + gap, WIDTHS[size] - (broad ? EDGE : 0) - gap]);
  const top = 44;
  const bar = 24;
  const row = bar + above;
  const bottom = top + row * bars.length;
  const parts = bars.flatMap(({ name, low, high }, index) => {
    const y = top + row * index + above + 5;
    // Where both lead to the same side, one bar lies above the other.
    const sameSide = (low - middle.at) * (high - middle.at) > 0;
    const height = sameSide ? (bar - 10) / 2 : bar - 10;
    const drawn = (value: number, kind: "open" | "fill", place: number) => {
      const [start, end] = [Math.min(x(value), x(middle.at)), Math.max(x(value), x(middle.at))];
      const outward = value < middle.at ? -1 : 1;
      const beside =
        sameSide && place === 1
          ? ""
          : text(x(value) + 5 * outward, y + bar / 2 - 1, written(value), outward < 0 ? "end" : "start");
      return box(start, y + (sameSide ? place * height : 0), Math.max(0.5, end - start), height, kind) + beside;
    };
    const label = broad
      ? text(left - 8, y + bar / 2 - 1, shortened(name, 32), "end", name)
      : text(0, y - 5, shortened(name, 44), "start", name);
    return [label, drawn(low, "open", 0), drawn(high, "fill", 1)];
  });
  const told = bars.map(({ name, low, high }) => `${name} from ${written(low)} to ${written(high)}`);
  return svg(size, bottom + 44, `Swings of ${axis}, the widest first: ${told.join("; ")}`, [
    key(left, 14),
    rule(x(middle.at), top - 6, x(middle.at), bottom, "ink"),
    ...parts,
    text(x(middle.at), top - 10, middle.words, "middle"),
    ...axisBelow(span, x, bottom, axis, size),
  ]);
}

/** Every run a small ring: the outcome over one input. */
export function dotsDrawing(
  dots: readonly (readonly [number, number])[],
  across: string,
  up: string,
  size: Size,
): string {
  const width = WIDTHS[size];
  const of = (place: 0 | 1) => spread(endsOf(dots.map((dot) => dot[place])));
  const [xs, ys] = [of(0), of(1)];
  const rises = ticksOf(ys[0], ys[1], TICKS[size]);
  const left = 20 + widthOf(longest(rises.map(({ words }) => words)));
  const [top, bottom] = [30, size === "broad" ? 290 : 230];
  const x = scale(xs, [left, width - EDGE]);
  const y = scale(ys, [bottom, top]);
  const rings = dots.map(([a, b]) => `<circle cx="${x(a).toFixed(1)}" cy="${y(b).toFixed(1)}" r="2.2"/>`);
  return svg(size, bottom + 44, `${up} over ${across}, ${shownAs(dots.length, COUNTED)} runs, each a ring`, [
    text(0, 16, up, "start"),
    ...ticksAside(rises, y, [left, width - EDGE]),
    `<g fill="none" stroke="var(--ink)" stroke-opacity=".55">${rings.join("")}</g>`,
    ...axisBelow(xs, x, bottom, across, size),
  ]);
}

/** The one pair of bars that says which is which. */
function key(left: number, y: number): string {
  return [
    box(left + 0.5, y - 10, 22, 12, "open"),
    text(left + 28, y, "input at its low", "start"),
    box(left + 150, y - 10, 22, 12, "fill"),
    text(left + 178, y, "input at its high", "start"),
  ].join("");
}

interface PlacedMark {
  readonly mark: Mark;
  readonly row: number;
  readonly centre: number;
}

/** Words that would touch each other stand in rows above each other. */
function placed(marks: readonly Mark[], x: (value: number) => number, width: number): PlacedMark[] {
  const ends: number[] = [];
  return [...marks]
    .sort((one, other) => one.at - other.at)
    .map((mark) => {
      const half = widthOf(mark.words) / 2;
      const centre = Math.min(width - half, Math.max(half, x(mark.at)));
      let row = 0;
      while ((ends[row] ?? -Infinity) > centre - half) row++;
      ends[row] = centre + half + 8;
      return { mark, row, centre };
    });
}

function lineOf({ mark: { at }, row }: PlacedMark, x: (value: number) => number, bottom: number): string {
  return `<line x1="${short(x(at))}" y1="${EDGE + LINE * row + 4}" x2="${short(x(at))}" y2="${bottom}" stroke="var(--ink)" stroke-width="1.2" stroke-dasharray="5 3"/>`;
}

function axisBelow(
  span: readonly number[],
  x: (value: number) => number,
  bottom: number,
  words: string,
  size: Size,
): string[] {
  const [from, to] = span as [number, number];
  return [
    rule(x(from), bottom, x(to), bottom, "ink"),
    ...ticksOf(from, to, TICKS[size]).map(
      ({ at, words: value }) =>
        rule(x(at), bottom, x(at), bottom + 5, "ink") + text(x(at), bottom + 19, value, "middle"),
    ),
    named(words, (x(from) + x(to)) / 2, bottom + 37, WIDTHS[size]),
  ];
}

/** The name of an axis, around a place but within the drawing. */
function named(words: string, x: number, y: number, width: number): string {
  const shown = shortened(words, Math.floor(width / LETTER));
  const half = widthOf(shown) / 2;
  return text(Math.min(width - half, Math.max(half, x)), y, shown, "middle", words);
}

/** Lines across, with their values to the left. */
function ticksAside(
  ticks: readonly Tick[],
  y: (value: number) => number,
  [left, right]: readonly [number, number],
): string[] {
  return ticks.map(({ at, words }) => rule(left, y(at), right, y(at)) + text(left - 6, y(at) + 4, words, "end"));
}

interface Tick {
  readonly at: number;
  readonly words: string;
}

/** Round values within the ends, so many or fewer, with the decimals that tell them apart. */
function ticksOf(from: number, to: number, most: number): Tick[] {
  const step = roundWidth((to - from) / most);
  const written = writtenIn(step);
  const first = Math.ceil(from / step - 1e-9);
  const last = Math.floor(to / step + 1e-9);
  return Array.from({ length: last - first + 1 }, (_, index) => {
    const at = (first + index) * step;
    return { at, words: written(at) };
  });
}

/** Values in steps of this width, with the decimals that tell them apart. */
function writtenIn(step: number): Written {
  const decimals = step > 0 ? Math.max(0, -Math.floor(Math.log10(step) + 1e-9)) : 6;
  return (value) => shownAs(value, { decimals });
}

const COUNTED = { decimals: 0 };

function sum(counts: readonly number[]): number {
  return counts.reduce((all, count) => all + count, 0);
}

function endsOf(values: readonly number[]): [number, number] {
  return values.reduce<[number, number]>(
    ([low, high], value) => [Math.min(low, value), Math.max(high, value)],
    [Infinity, -Infinity],
  );
}

/** Ends that are one value have room around it. */
function spread([low, high]: [number, number]): [number, number] {
  return high > low ? [low, high] : [low - Math.max(1, Math.abs(low)) / 2, high + Math.max(1, Math.abs(high)) / 2];
}

function scale(from: readonly number[], to: readonly [number, number]): (value: number) => number {
  const [low, high] = from as [number, number];
  return (value) => to[0] + ((value - low) / (high - low)) * (to[1] - to[0]);
}

function shortened(name: string, most: number): string {
  return name.length > most ? `${name.slice(0, most - 1)}…` : name;
}

function longest(words: readonly string[]): string {
  return words.reduce((longer, one) => (one.length > longer.length ? one : longer), "");
}

/** About what a letter takes in this size. */
const LETTER = 6.2;

function widthOf(words: string): number {
  return LETTER * words.length;
}

function svg(size: Size, height: number, label: string, parts: readonly string[]): string {
  return `<svg class="${size}" viewBox="0 0 ${WIDTHS[size]} ${short(height)}" role="img" aria-label="${encoded(label)}">\n${parts.join("\n")}\n</svg>`;
}

function text(x: number, y: number, words: string, anchor: "start" | "middle" | "end", whole = words): string {
  const title = whole === words ? "" : `<title>${encoded(whole)}</title>`;
  return `<text x="${short(x)}" y="${short(y)}" text-anchor="${anchor}">${title}${encoded(words)}</text>`;
}

function rule(x1: number, y1: number, x2: number, y2: number, kind: "line" | "ink" = "line"): string {
  return `<line x1="${short(x1)}" y1="${short(y1)}" x2="${short(x2)}" y2="${short(y2)}" stroke="var(--${kind})"/>`;
}

/** A bar is white, light or dark and has an edge: all are seen on any paper. */
function box(x: number, y: number, width: number, height: number, kind: "open" | "light" | "fill"): string {
  const inside = { open: "var(--paper)", light: "var(--line)", fill: "var(--fill)" }[kind];
  return `<rect x="${short(x)}" y="${short(y)}" width="${short(width)}" height="${short(height)}" fill="${inside}" stroke="var(--ink)"/>`;
}

function short(value: number): string {
  return String(Number(value.toFixed(2)));
}
