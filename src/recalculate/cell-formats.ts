import type { Book } from "./book";
import { textOf } from "./package-safety";
import { relationsIn, relationsPartOf } from "./relations";
import type { StoredCell } from "./sheet-part";
import { unescaped } from "./stored-text";
import { elements, firstElement } from "./xml";

/** The formats that files name by number alone (ECMA-376 part 1, 18.8.30), in the order of the United States. */
const BY_NUMBER: Readonly<Record<number, string>> = {
  1: "0",
  2: "0.00",
  3: "#,##0",
  4: "#,##0.00",
  9: "0%",
  10: "0.00%",
  11: "0.00E+00",
  12: "# ?/?",
  13: "# ??/??",
  14: "m/d/yyyy",
  15: "d-mmm-yy",
  16: "d-mmm",
  17: "mmm-yy",
  18: "h:mm AM/PM",
  19: "h:mm:ss AM/PM",
  20: "h:mm",
  21: "h:mm:ss",
  22: "m/d/yyyy h:mm",
  37: "#,##0;(#,##0)",
  38: "#,##0;(#,##0)",
  39: "#,##0.00;(#,##0.00)",
  40: "#,##0.00;(#,##0.00)",
  41: "#,##0;(#,##0);-",
  42: "$#,##0;($#,##0);-",
  43: "#,##0.00;(#,##0.00);-",
  44: "$#,##0.00;($#,##0.00);-",
  45: "mm:ss",
  46: "[h]:mm:ss",
  47: "mm:ss.0",
  48: "##0.0E+0",
  49: "@",
};

const GENERAL = "General";

/** The number format of each cell of a book. */
export function formatsOf(book: Book): (cell: StoredCell | undefined) => string {
  const { parts, workbookPart, called } = book;
  const relations = relationsIn(textOf(parts, relationsPartOf(workbookPart), called), workbookPart);
  const part = relations.find(({ kind }) => kind === "styles")?.part;
  const xml = (part === undefined ? undefined : textOf(parts, part, called)) ?? "";
  const own = new Map<number, string>();
  for (const { attributes } of elements(firstElement(xml, "numFmts")?.inner ?? "", "numFmt")) {
    own.set(Number(attributes.numFmtId), unescaped(attributes.formatCode ?? GENERAL));
  }
  const formats = [...elements(firstElement(xml, "cellXfs")?.inner ?? "", "xf")].map(({ attributes }) => {
    const number = Number(attributes.numFmtId ?? 0);
    return own.get(number) ?? BY_NUMBER[number] ?? GENERAL;
  });
  return (cell) => formats[Number(cell?.attributes.s ?? 0)] ?? GENERAL;
}
