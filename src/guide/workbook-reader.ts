import { strFromU8, unzipSync } from "fflate";

/** What a workbook says of itself. */
export interface WorkbookFacts {
  readonly title: string;
  /** Label and text of the About sheet, in order; a blank label goes on with the one before. */
  readonly about: readonly (readonly [label: string, text: string])[];
  readonly sheets: readonly { readonly name: string; readonly sentence: string }[];
  /** Ids of the functions it calls. */
  readonly functions: readonly string[];
}

const XML_ENTITIES: Readonly<Record<string, string>> = { amp: "&", lt: "<", gt: ">", quot: '"', apos: "'" };

/** Reads the texts of a workbook's columns A and B, straight from its parts. */
export function readWorkbook(bytes: Uint8Array): WorkbookFacts {
  const parts = unzipSync(bytes);
  const part = (name: string): string => (parts[name] ? strFromU8(parts[name]) : "");
  const shared = elements(part("xl/sharedStrings.xml"), "si").map(({ inner }) => textIn(inner));
  const targets = new Map(
    elements(part("xl/_rels/workbook.xml.rels"), "Relationship").map(({ attributes }) => [
      attribute(attributes, "Id"),
      attribute(attributes, "Target"),
    ]),
  );
  const functions = new Set<string>();
  const sheets = elements(part("xl/workbook.xml"), "sheet").map(({ attributes }) => {
    const target = targets.get(attribute(attributes, "r:id")) ?? "";
    const xml = part(target.startsWith("/") ? target.slice(1) : `xl/${target}`);
    for (const [, id] of xml.matchAll(/_xldudf_YARN_([A-Z0-9]+)/gi)) functions.add((id as string).toUpperCase());
    return { name: attribute(attributes, "name"), cells: cellsIn(xml, shared) };
  });
  const about = sheets.find(({ name }) => name === "About")?.cells ?? new Map<string, string>();
  const rows = Math.max(0, ...[...about.keys()].map((address) => Number(address.slice(1))));
  // The list of sheets below its heading: they have their own place on the page.
  const listed = new Set<number>();
  const heading = [...about].find(([address, text]) => address.startsWith("A") && text === "Sheets")?.[0] ?? "A0";
  for (let row = Number(heading.slice(1)) + 1; sheets.some(({ name }) => name === about.get(`A${row}`)); row++)
    listed.add(row);
  return {
    title: about.get("A1") ?? "",
    about: Array.from({ length: rows }, (_, row) => row + 1)
      .filter((row) => row > 1 && about.has(`B${row}`) && !listed.has(row))
      .map((row) => [about.get(`A${row}`) ?? "", about.get(`B${row}`) ?? ""] as const),
    sheets: sheets
      .filter(({ name }) => name !== "About")
      .map(({ name, cells }) => ({ name, sentence: cells.get("A2") ?? "" })),
    functions: [...functions].sort(),
  };
}

function cellsIn(xml: string, shared: readonly string[]): Map<string, string> {
  const cells = new Map<string, string>();
  for (const { attributes, inner } of elements(xml, "c")) {
    const address = attribute(attributes, "r");
    if (!/^[AB]\d+$/.test(address)) continue;
    const kind = attribute(attributes, "t");
    const value = unescaped(/<v[^>]*>([\s\S]*?)<\/v>/.exec(inner)?.[1] ?? "");
    const text = kind === "s" ? (shared[Number(value)] ?? "") : kind === "inlineStr" ? textIn(inner) : value;
    if (text !== "") cells.set(address, text);
  }
  return cells;
}

function elements(xml: string, name: string): { attributes: string; inner: string }[] {
  const found = xml.matchAll(new RegExp(`<${name}(?=[\\s/>])([^>]*?)(?:/>|>([\\s\\S]*?)</${name}>)`, "g"));
  return [...found].map(([, attributes = "", inner = ""]) => ({ attributes, inner }));
}

function attribute(attributes: string, name: string): string {
  return unescaped(new RegExp(`(?:^|\\s)${name}="([^"]*)"`).exec(attributes)?.[1] ?? "");
}

/** The runs of a text, without its phonetic hints. */
function textIn(xml: string): string {
  return elements(xml.replace(/<rPh[\s\S]*?<\/rPh>/g, ""), "t")
    .map(({ inner }) => unescaped(inner))
    .join("");
}

function unescaped(text: string): string {
  return text.replace(/&(?:#(\d+)|#x([0-9a-f]+)|(\w+));/gi, (whole, decimal?: string, hex?: string, name?: string) => {
    if (decimal) return String.fromCodePoint(Number(decimal));
    if (hex) return String.fromCodePoint(parseInt(hex, 16));
    return XML_ENTITIES[name ?? ""] ?? whole;
  });
}
