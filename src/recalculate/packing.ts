import { zipSync, type Zippable } from "fflate";
import type { Parts } from "./package-safety";

/** The earliest date a package can carry: the same bytes whenever it is written. */
const NO_DATE = new Date(1980, 0, 1);

/** The parts as a file, in their order, always the same bytes for the same parts. */
export function packed(parts: Parts): Uint8Array {
  const files: Zippable = {};
  for (const [name, content] of parts) files[name] = [content, { mtime: NO_DATE, level: 6, os: 0 }];
  return zipSync(files);
}

/** The order of parts that Excel writes: what the file is, then the workbook, then its sheets. */
export function inOrder(parts: Parts): Parts {
  const rank = (name: string) =>
    ["[Content_Types].xml", "_rels/.rels", "xl/workbook.xml", "xl/_rels/workbook.xml.rels"].indexOf(name);
  const names = [...parts.keys()].sort((a, b) => {
    const [first, second] = [rank(a), rank(b)];
    if (first >= 0 || second >= 0) return (first < 0 ? 9 : first) - (second < 0 ? 9 : second);
    return a < b ? -1 : 1;
  });
  return new Map(names.map((name) => [name, parts.get(name) as Uint8Array]));
}
