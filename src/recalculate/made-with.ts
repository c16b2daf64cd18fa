import type { Book } from "./book";
import { put } from "./dynamic-arrays";
import { textOf } from "./package-safety";
import { withContentType, withRelation } from "./relations";
import { encoded } from "./xml";

const PART = "docProps/custom.xml";
const TYPE = "application/vnd.openxmlformats-officedocument.custom-properties+xml";
const OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006";
/** The set of properties that a person sees among those of the document; 2 is the first number in it. */
const SET = 'fmtid="{D5CDD505-2E9C-101B-9397-08002B2CF9AE}" pid="2"';

/** Notes in a book of our own which version of the functions it was made with; the pane in Excel reads it. */
export function noteMadeWith({ parts, called }: Book, version: string): void {
  if (parts.has(PART)) return;
  put(
    parts,
    PART,
    `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n<Properties xmlns="${OFFICE}/custom-properties" xmlns:vt="${OFFICE}/docPropsVTypes"><property ${SET} name="YARN version"><vt:lpwstr>${encoded(version)}</vt:lpwstr></property></Properties>`,
  );
  put(parts, "_rels/.rels", withRelation(textOf(parts, "_rels/.rels", called), "custom-properties", PART).xml);
  const types = textOf(parts, "[Content_Types].xml", called) ?? "";
  put(parts, "[Content_Types].xml", withContentType(types, PART, TYPE));
}
