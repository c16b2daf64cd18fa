import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { unzipSync } from "fflate";
import { XmlDocument, XsdValidator, type XmlAttribute, type XmlElement } from "libxml2-wasm";
import { xmlRegisterFsInputProviders } from "libxml2-wasm/lib/nodejs.mjs";

/**
 * The folder that holds a copy of the transitional schemas of ECMA-376 part 4 under the names that follow, where
 * somebody has one: no package brings them.
 */
const SCHEMAS = process.env.OOXML_SCHEMAS;
export const schemasMissing = SCHEMAS === undefined;
if (SCHEMAS !== undefined && !existsSync(join(SCHEMAS, "sml.xsd")))
  throw new Error(`OOXML_SCHEMAS is ${SCHEMAS}, and there is no sml.xsd`);

const SCHEMA_OF: readonly (readonly [part: RegExp, schema: string])[] = [
  [/^\[Content_Types\]\.xml$/, "opc-contentTypes.xsd"],
  [/\.rels$/, "opc-relationships.xsd"],
  [/^docProps\/app\.xml$/, "shared-documentPropertiesExtended.xsd"],
  [/^docProps\/custom\.xml$/, "shared-documentPropertiesCustom.xsd"],
  [/\/charts\/chart\d+\.xml$/, "dml-chart.xsd"],
  [/\/drawings\/drawing\d+\.xml$/, "dml-spreadsheetDrawing.xsd"],
  [/\/theme\/theme\d+\.xml$/, "dml-main.xsd"],
  [/^xl\/(?:workbook|styles|sharedStrings|metadata|calcChain|comments\d+|(?:worksheets|tables)\/\w+)\.xml$/, "sml.xsd"],
];

const validators = new Map<string, XsdValidator>();

function validatorFor(schema: string): XsdValidator {
  const known = validators.get(schema);
  if (known !== undefined) return known;
  if (validators.size === 0) xmlRegisterFsInputProviders();
  const file = join(SCHEMAS as string, schema);
  // The validator goes on reading the document that it was made from.
  const made = XsdValidator.fromDoc(XmlDocument.fromBuffer(readFileSync(file), { url: file }));
  validators.set(schema, made);
  return made;
}

/** What the schemas say against the parts of a file; and how many parts they were asked about. */
export function schemaFaults(bytes: Uint8Array): { faults: string[]; asked: number } {
  const faults: string[] = [];
  let asked = 0;
  for (const [name, content] of Object.entries(unzipSync(bytes))) {
    const schema = SCHEMA_OF.find(([part]) => part.test(name))?.[1];
    if (schema === undefined) continue;
    asked++;
    using document = XmlDocument.fromBuffer(content);
    withoutIgnorable(document);
    try {
      validatorFor(schema).validate(document);
    } catch (fault) {
      faults.push(`${name}: ${(fault as Error).message.trim()}`);
    }
  }
  return { faults, asked };
}

/** Excel writes xml:space on every text that begins or ends with a blank, and the schema of a text does not know it. */
const ALWAYS_KNOWN = "http://www.w3.org/XML/1998/namespace";
const COMPATIBILITY = "http://schemas.openxmlformats.org/markup-compatibility/2006";

/** Takes out what a part itself says may be passed over (ECMA-376 part 3): the schemas do not know it. */
function withoutIgnorable(document: XmlDocument): void {
  const { root } = document;
  const declared = root.nsDeclarations;
  const stated = root.attrs.find(({ name, namespaceUri }) => name === "Ignorable" && namespaceUri === COMPATIBILITY);
  const prefixes = (stated?.value ?? "").split(/\s+/).filter((prefix) => prefix !== "");
  const unknown = [COMPATIBILITY, ALWAYS_KNOWN, ...prefixes.map((prefix) => declared[prefix])];
  for (const uri of unknown) {
    if (uri === undefined) continue;
    for (const path of ["//@*", "//*"]) {
      const outermost = `${path}[namespace-uri()="${uri}"][not(ancestor::*[namespace-uri()="${uri}"])]`;
      for (const node of document.find(outermost)) (node as XmlAttribute | XmlElement).remove();
    }
  }
}
