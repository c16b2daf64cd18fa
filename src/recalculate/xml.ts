/**
 * Just enough XML to read and repair the parts of a workbook without disturbing what is not understood: elements are
 * found in the text and everything between them stays as it was written.
 */

export type Attributes = Record<string, string>;

export interface Element {
  readonly name: string;
  /** With the prefix as written, if any ("x:" in <x:c>). */
  readonly prefix: string;
  readonly attributes: Attributes;
  readonly inner: string;
  readonly start: number;
  readonly end: number;
}

/** The elements of this name in document order. They must not hold elements of the same name. */
export function* elements(xml: string, name: string): Generator<Element> {
  const opening = new RegExp(`<((?:[\\w.-]+:)?)${name}(?=[\\s/>])`, "g");
  const comments = commentsIn(xml);
  for (let found = opening.exec(xml); found !== null; found = opening.exec(xml)) {
    const commentEnd = endOfComment(comments, found.index);
    if (commentEnd !== undefined) {
      opening.lastIndex = commentEnd;
      continue;
    }
    const prefix = found[1] as string;
    const tagEnd = endOfTag(xml, opening.lastIndex);
    const attributes = attributesIn(xml.slice(opening.lastIndex, tagEnd));
    if (xml[tagEnd - 1] === "/") {
      yield { name, prefix, attributes, inner: "", start: found.index, end: tagEnd + 1 };
      opening.lastIndex = tagEnd + 1;
      continue;
    }
    const close = closingTag(xml, `</${prefix}${name}`, tagEnd, comments);
    const end = xml.indexOf(">", close) + 1;
    yield { name, prefix, attributes, inner: xml.slice(tagEnd + 1, close), start: found.index, end };
    opening.lastIndex = end;
  }
}

/** Where a comment begins and ends. */
type Comment = readonly [number, number];

function commentsIn(xml: string): readonly Comment[] {
  const found: Comment[] = [];
  for (let start = xml.indexOf("<!--"); start >= 0; start = xml.indexOf("<!--", start)) {
    const end = xml.indexOf("-->", start + 4);
    if (end < 0) break;
    found.push([start, end + 3]);
    start = end + 3;
  }
  return found;
}

/** Where the comment ends that this place stands in, if it stands in one: nothing in a comment is an element. */
function endOfComment(comments: readonly Comment[], place: number): number | undefined {
  return comments.find(([start, end]) => start < place && place < end)?.[1];
}

function closingTag(xml: string, closing: string, from: number, comments: readonly Comment[]): number {
  for (let close = xml.indexOf(closing, from); close >= 0; close = xml.indexOf(closing, close + 1)) {
    if (!/[\s>]/.test(xml[close + closing.length] ?? "")) continue;
    const commentEnd = endOfComment(comments, close);
    if (commentEnd === undefined) return close;
    close = commentEnd - 1;
  }
  throw new SyntaxError(`${closing.replace("/", "")}> is not closed`);
}

export function firstElement(xml: string, name: string): Element | undefined {
  for (const element of elements(xml, name)) return element;
  return undefined;
}

/** Where the tag that is open at this place closes; a quoted value may hold ">". */
export function endOfTag(xml: string, from: number): number {
  for (let place = from; place < xml.length; place++) {
    const character = xml[place];
    if (character === ">") return place;
    if (character === '"' || character === "'") {
      place = xml.indexOf(character, place + 1);
      if (place < 0) break;
    }
  }
  throw new SyntaxError("a tag is not closed");
}

export function attributesIn(tag: string): Attributes {
  const attributes: Attributes = {};
  for (const [, name, doubled, single] of tag.matchAll(/([\w:.-]+)\s*=\s*(?:"([^"]*)"|'([^']*)')/g)) {
    attributes[name as string] = decoded(doubled ?? single ?? "");
  }
  return attributes;
}

export function withAttributes(name: string, attributes: Attributes): string {
  return Object.entries(attributes).reduce((tag, [key, value]) => `${tag} ${key}="${encoded(value)}"`, name);
}

const NAMED: Record<string, string> = { lt: "<", gt: ">", amp: "&", quot: '"', apos: "'" };

/** Only the five entities of XML itself exist here: a part that declares others is refused when it is opened. */
export function decoded(text: string): string {
  if (!text.includes("&") && !text.includes("<")) return text;
  return withoutComments(text).replace(
    /&(?:#x([0-9a-f]+)|#(\d+)|(\w+));/gi,
    (whole, hex?: string, decimal?: string, name?: string) => {
      if (name !== undefined) return NAMED[name] ?? whole;
      const point = hex !== undefined ? parseInt(hex, 16) : Number(decimal);
      return point <= 0x10ffff ? String.fromCodePoint(point) : whole;
    },
  );
}

function withoutComments(text: string): string {
  return text.includes("<!--") ? text.replace(/<!--[^]*?-->/g, "") : text;
}

export function encoded(text: string): string {
  return text
    .replace(/&/g, "&amp;")
    .replace(/</g, "&lt;")
    .replace(/>/g, "&gt;")
    .replace(/"/g, "&quot;")
    .replace(/\r/g, "&#13;")
    .replace(/\n/g, "&#10;");
}
