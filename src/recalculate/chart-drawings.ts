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

const WIDTH = 640;
const EDGE = 14;
const LINE = 16;
const TICKS = 6;

/** How often the outcome fell where; marked values are named above. */
export function histogramDrawing(bins: readonly Bin[], marks: readonly Mark[], axis: string): string {
  const [first, last] = [bins[0] as Bin, bins[bins.length - 1] as Bin];
  const span = first.to > first.from ? [first.from, last.to] : [first.from - 1, first.to + 1];
  const inside = marks.filter(({ at }) => at >= (span[0] as number) && at <= (span[1] as number));
  const top = EDGE + LINE * rowsFor(inside, span);
  const bottom = top + 200;
  const left = 52;
  const x = scale(span, [left, WIDTH - EDGE]);
  const most = Math.max(...bins.map(({ count }) => count));
  const y = scale([0, most], [bottom, top + 6]);
  const parts = [
    ...ticksAside(ticksOf(0, most, 4), y, left),
    ...bins.map(({ from, to, count }) => {
      const [start, end] = to > from ? [x(from), x(to)] : [x(from) - 20, x(from) + 20];
      return box(start + 0.5, y(count), Math.max(1, end - start - 1), bottom - y(count), "light");
    }),
    ...marked(inside, span, x, bottom),
    ...axisBelow(span, x, bottom, axis),
    text(left - 44, top - 4, "runs", "start"),
  ];
  return svg(bottom + 44, `Histogram of ${axis}`, parts);
}

/** Rows, the widest first: a white bar to where the low of the input leads, a dark one to where its high leads. */
export function swingsDrawing(bars: readonly SwingBar[], middle: Mark, axis: string, written: Written): string {
  const left = 210;
  const gap = 58;
  const ends = bars.flatMap(({ low, high }) => [low, high]);
  const span = spread([Math.min(middle.at, ...ends), Math.max(middle.at, ...ends)]);
  const x = scale(span, [left + gap, WIDTH - EDGE - gap]);
  const top = 44;
  const row = 30;
  const bottom = top + row * bars.length;
  const parts = bars.flatMap(({ name, low, high }, index) => {
    const y = top + row * index + 5;
    // Where both lead to the same side, one bar lies above the other.
    const sameSide = (low - middle.at) * (high - middle.at) > 0;
    const height = sameSide ? (row - 10) / 2 : row - 10;
    const bar = (value: number, kind: "open" | "fill", place: number) => {
      const [start, end] = [Math.min(x(value), x(middle.at)), Math.max(x(value), x(middle.at))];
      const outward = value < middle.at ? -1 : 1;
      const beside =
        sameSide && place === 1
          ? ""
          : text(x(value) + 5 * outward, y + row / 2, written(value), outward < 0 ? "end" : "start");
      return box(start, y + (sameSide ? place * height : 0), Math.max(0.5, end - start), height, kind) + beside;
    };
    return [text(left - 8, y + row / 2, shortened(name), "end", name), bar(low, "open", 0), bar(high, "fill", 1)];
  });
  return svg(bottom + 44, `Swings of ${axis}, the widest first`, [
    key(left, 14),
    ...parts,
    rule(x(middle.at), top - 6, x(middle.at), bottom, "ink"),
    text(x(middle.at), top - 10, middle.words, "middle"),
    ...axisBelow(span, x, bottom, axis),
  ]);
}

/** Every run a small ring: the outcome over one input. */
export function dotsDrawing(dots: readonly (readonly [number, number])[], across: string, up: string): string {
  const of = (place: 0 | 1) => spread(endsOf(dots.map((dot) => dot[place])));
  const [xs, ys] = [of(0), of(1)];
  const [left, top, bottom] = [84, 30, 290];
  const x = scale(xs, [left, WIDTH - EDGE]);
  const y = scale(ys, [bottom, top]);
  return svg(bottom + 44, `${up} over ${across}`, [
    text(8, 16, up, "start"),
    ...ticksAside(ticksOf(ys[0], ys[1], TICKS), y, left),
    ...dots.map(
      ([a, b]) =>
        `<circle cx="${short(x(a))}" cy="${short(y(b))}" r="2.2" fill="none" stroke="var(--ink)" stroke-opacity=".55"/>`,
    ),
    ...axisBelow(xs, x, bottom, across),
  ]);
}

/** The one pair of bars that says which is which. */
function key(left: number, y: number): string {
  return [
    box(left, y - 10, 22, 12, "open"),
    text(left + 28, y, "input at its low", "start"),
    box(left + 150, y - 10, 22, 12, "fill"),
    text(left + 178, y, "input at its high", "start"),
  ].join("");
}

/** Words that would touch each other stand in rows above each other. */
function rowsFor(marks: readonly Mark[], span: readonly number[]): number {
  return Math.max(0, ...placed(marks, span).map(({ row }) => row + 1));
}

function placed(marks: readonly Mark[], [from = 0, to = 1]: readonly number[]): { mark: Mark; row: number }[] {
  const ends: number[] = [];
  return [...marks]
    .sort((one, other) => one.at - other.at)
    .map((mark) => {
      const centre = ((mark.at - from) / (to - from)) * (WIDTH - 66);
      const half = widthOf(mark.words) / 2 + 4;
      let row = 0;
      while ((ends[row] ?? -Infinity) > centre - half) row++;
      ends[row] = centre + half;
      return { mark, row };
    });
}

function marked(
  marks: readonly Mark[],
  span: readonly number[],
  x: (value: number) => number,
  bottom: number,
): string[] {
  return placed(marks, span).map(({ mark: { at, words }, row }) => {
    const y = EDGE + LINE * row;
    const half = widthOf(words) / 2;
    const centre = Math.min(WIDTH - half, Math.max(half, x(at)));
    return `<line x1="${short(x(at))}" y1="${y + 4}" x2="${short(x(at))}" y2="${bottom}" stroke="var(--ink)" stroke-width="1.2" stroke-dasharray="5 3"/>${text(centre, y, words, "middle")}`;
  });
}

function axisBelow(span: readonly number[], x: (value: number) => number, bottom: number, words: string): string[] {
  const [from, to] = span as [number, number];
  return [
    rule(x(from), bottom, x(to), bottom, "ink"),
    ...ticksOf(from, to, TICKS).map(
      ({ at, words: value }) =>
        rule(x(at), bottom, x(at), bottom + 5, "ink") + text(x(at), bottom + 19, value, "middle"),
    ),
    text((x(from) + x(to)) / 2, bottom + 37, words, "middle"),
  ];
}

/** Lines across, with their values to the left. */
function ticksAside(ticks: readonly Tick[], y: (value: number) => number, left: number): string[] {
  return ticks.map(({ at, words }) => rule(left, y(at), WIDTH - EDGE, y(at)) + text(left - 6, y(at) + 4, words, "end"));
}

interface Tick {
  readonly at: number;
  readonly words: string;
}

/** Round values within the ends, so many or fewer, with the decimals that tell them apart. */
function ticksOf(from: number, to: number, most: number): Tick[] {
  const step = roundWidth((to - from) / most);
  const decimals = Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
  const first = Math.ceil(from / step - 1e-9);
  const last = Math.floor(to / step + 1e-9);
  return Array.from({ length: last - first + 1 }, (_, index) => {
    const at = (first + index) * step;
    return { at, words: shownAs(at, { decimals }) };
  });
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

const LONGEST_NAME = 32;

function shortened(name: string): string {
  return name.length > LONGEST_NAME ? `${name.slice(0, LONGEST_NAME - 1)}…` : name;
}

/** About what words take in this size of letters. */
function widthOf(words: string): number {
  return 6.2 * words.length;
}

function svg(height: number, label: string, parts: readonly string[]): string {
  return `<svg viewBox="0 0 ${WIDTH} ${short(height)}" role="img" aria-label="${encoded(label)}">\n${parts.join("\n")}\n</svg>`;
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
