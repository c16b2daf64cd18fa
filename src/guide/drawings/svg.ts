import { escaped } from "../html";

/** A drawing as the guide shows it: a title, what it shows in words for whoever does not see it, and its lines. */
export interface Drawing {
  readonly title: string;
  readonly says: string;
  readonly height: number;
  readonly body: string;
}

/** Narrow enough that letters of 14 stay readable on a phone of 320. */
export const WIDTH = 360;

/** Colours of style.css by their place, so that dark pages and print have their own. */
export type Colour = "first" | "second" | "third" | "fourth" | "quiet";

/** A colour of the pages, or one of its own as a swatch has it. */
export type Fill = Colour | `#${string}`;

type Anchor = "start" | "middle" | "end";

export function text(x: number, y: number, words: string, anchor: Anchor = "start", kind = ""): string {
  const at = anchor === "start" ? "" : ` text-anchor="${anchor}"`;
  return `<text x="${short(x)}" y="${short(y)}"${at}${classed(kind)}>${escaped(words)}</text>`;
}

export function rectangle(x: number, y: number, width: number, height: number, colour: Fill): string {
  const fill = colour.startsWith("#") ? ` fill="${colour}"` : classed(colour);
  return `<rect x="${short(x)}" y="${short(y)}" width="${short(Math.max(width, 0))}" height="${short(height)}"${fill}/>`;
}

export function line(points: readonly (readonly [x: number, y: number])[], kind: string): string {
  return `<polyline points="${points.map(([x, y]) => `${short(x)},${short(y)}`).join(" ")}"${classed(kind)}/>`;
}

export function dot(x: number, y: number, colour: Colour): string {
  return `<circle cx="${short(x)}" cy="${short(y)}" r="4"${classed(colour)}/>`;
}

/** A filled shape between points. */
export function shape(points: readonly (readonly [x: number, y: number])[], colour: Colour): string {
  return `<polygon points="${points.map(([x, y]) => `${short(x)},${short(y)}`).join(" ")}"${classed(colour)}/>`;
}

function classed(kind: string): string {
  return kind === "" ? "" : ` class="${kind}"`;
}

function short(number: number): string {
  return String(Number(number.toFixed(1)));
}

/** A figure as a person reads it: three digits that matter, and every digit before the point. */
export function figure(value: number): string {
  const digits = Math.max(0, 2 - Math.floor(Math.log10(Math.abs(value) || 1)));
  const [whole = "", part] = String(Number(value.toFixed(Math.min(digits, 6)))).split(".");
  return whole.replace(/\B(?=(\d{3})+$)/g, ",") + (part === undefined ? "" : `.${part}`);
}

export function percent(share: number): string {
  return `${figure(share * 100)} %`;
}

/** The drawing with its two texts, as it stands in a page. */
export function shown({ title, says, height, body }: Drawing, id: string): string {
  return `<figure class="drawing"><svg viewBox="0 0 ${WIDTH} ${Math.ceil(height)}" role="img" aria-labelledby="${id}-title ${id}-says"><title id="${id}-title">${escaped(title)}</title><desc id="${id}-says">${escaped(says)}</desc>${body}</svg>
<figcaption aria-hidden="true">${escaped(title)}</figcaption></figure>`;
}
