import { attributesIn, elements, encoded, firstElement, type Attributes } from "./xml";

/** How the parts of a package refer to each other. */
export interface Relation {
  readonly id: string;
  /** The last word of its type: "worksheet", "table", "sheetMetadata" … */
  readonly kind: string;
  readonly part: string;
}

export function relationsPartOf(part: string): string {
  const slash = part.lastIndexOf("/");
  return `${part.slice(0, slash + 1)}_rels/${part.slice(slash + 1)}.rels`;
}

export function relationsIn(xml: string | undefined, part: string): Relation[] {
  if (xml === undefined) return [];
  return [...elements(xml, "Relationship")]
    .filter(({ attributes }) => attributes.TargetMode !== "External")
    .map(({ attributes }) => ({
      id: attributes.Id ?? "",
      kind: (attributes.Type ?? "").replace(/^.*\//, ""),
      part: resolved(attributes.Target ?? "", part),
    }));
}

function resolved(target: string, part: string): string {
  if (target.startsWith("/")) return target.slice(1);
  const folders = part.split("/").slice(0, -1);
  for (const step of target.split("/")) {
    if (step === "..") folders.pop();
    else if (step !== ".") folders.push(step);
  }
  return folders.join("/");
}

const DOCUMENT = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";

/** Adds a relation to a relations part (or makes the part) and gives the id it got. */
export function withRelation(xml: string | undefined, kind: string, target: string): { xml: string; id: string } {
  const text =
    xml ??
    '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"></Relationships>';
  const taken = new Set([...elements(text, "Relationship")].map(({ attributes }) => attributes.Id));
  let number = taken.size + 1;
  while (taken.has(`rId${number}`)) number++;
  const id = `rId${number}`;
  const relation = `<Relationship Id="${id}" Type="${DOCUMENT}/${kind}" Target="${encoded(target)}"/>`;
  return { xml: insertedAtEnd(text, "Relationships", relation), id };
}

export function withContentType(xml: string, part: string, type: string): string {
  if ([...elements(xml, "Override")].some(({ attributes }) => attributes.PartName === `/${part}`)) return xml;
  return insertedAtEnd(xml, "Types", `<Override PartName="/${part}" ContentType="${type}"/>`);
}

export function withDefaultType(xml: string, extension: string, type: string): string {
  const known = [...elements(xml, "Default")].some(
    ({ attributes }) => attributes.Extension?.toLowerCase() === extension,
  );
  return known ? xml : insertedAtEnd(xml, "Types", `<Default Extension="${extension}" ContentType="${type}"/>`);
}

/** Takes out the elements of this name that the test picks. */
export function without(xml: string, name: string, unwanted: (attributes: Attributes) => boolean): string {
  let kept = "";
  let from = 0;
  for (const { attributes, start, end } of elements(xml, name)) {
    if (!unwanted(attributes)) continue;
    kept += xml.slice(from, start);
    from = end;
  }
  return kept + xml.slice(from);
}

/** Puts a piece before the end of the outermost element. */
export function insertedAtEnd(xml: string, name: string, piece: string): string {
  const close = xml.lastIndexOf("</");
  if (close >= 0) return xml.slice(0, close) + piece + xml.slice(close);
  const root = firstElement(xml, name);
  if (root === undefined) throw new SyntaxError(`there is no <${name}>`);
  const tag = xml.slice(root.start, root.end).replace(/\/>$/, ">");
  return `${xml.slice(0, root.start)}${tag}${piece}</${root.prefix}${name}>${xml.slice(root.end)}`;
}

/** Changes the attributes of the first element of this name. */
export function withChanged(xml: string, name: string, change: (attributes: Attributes) => Attributes): string {
  const found = firstElement(xml, name);
  if (found === undefined) return xml;
  const tagEnd = xml.indexOf(">", found.start);
  const selfClosing = xml[tagEnd - 1] === "/";
  const written = attributesIn(xml.slice(found.start, tagEnd));
  const tag = Object.entries(change(written)).reduce(
    (text, [key, value]) => `${text} ${key}="${encoded(value)}"`,
    `<${found.prefix}${name}`,
  );
  return `${xml.slice(0, found.start)}${tag}${selfClosing ? "/>" : ">"}${xml.slice(tagEnd + 1)}`;
}
