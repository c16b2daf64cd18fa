/**
 * A type library of one interface, in the binary form that LibreOffice reads (described in
 * unoidl/source/unoidlprovider.cxx): a component written in Python can offer only methods that such a library declares.
 */

const INTERFACE = 5;
const MODULE = 0;
const BASE = "com.sun.star.uno.XInterface";

/** Of the types that a spreadsheet function may take, the one that may also be left out. */
const ARGUMENT = "any";
/** Rows of cells: Python has no other way to give back several. */
const RESULT = "[][]any";

/**
 * @param {string} module
 * @param {string} name
 * @param {readonly { readonly name: string, readonly parameters: readonly string[] }[]} methods
 * @returns {Buffer}
 */
export function typeLibrary(module, name, methods) {
  const file = new Pieces();
  file.bytes(Buffer.from("UNOIDL\xff\0", "latin1"));
  const rootAt = file.number(0);
  file.number(1);

  const interfaceName = file.terminated(name);
  const interfaceAt = file.byte(INTERFACE);
  file.number(1);
  file.text(BASE);
  file.number(0); // optional bases
  file.number(0); // attributes
  file.number(methods.length);
  for (const method of methods) {
    file.text(method.name);
    file.text(RESULT);
    file.number(method.parameters.length);
    for (const parameter of method.parameters) {
      file.byte(0); // handed in
      file.text(parameter);
      file.text(ARGUMENT);
    }
    file.number(0); // exceptions
  }

  const moduleName = file.terminated(module);
  const moduleAt = file.byte(MODULE);
  file.number(1);
  file.number(interfaceName);
  file.number(interfaceAt);

  const root = file.number(moduleName);
  file.number(moduleAt);
  return file.withNumberAt(rootAt, root);
}

/** A file as it grows; each call tells where its piece begins. */
class Pieces {
  /** @type {Buffer[]} */
  #pieces = [];
  #length = 0;

  /** @param {Buffer} piece */
  bytes(piece) {
    const at = this.#length;
    this.#pieces.push(piece);
    this.#length += piece.length;
    return at;
  }

  /** @param {number} value */
  byte(value) {
    return this.bytes(Buffer.of(value));
  }

  /** @param {number} value */
  number(value) {
    const piece = Buffer.alloc(4);
    piece.writeUInt32LE(value);
    return this.bytes(piece);
  }

  /** @param {string} text */
  terminated(text) {
    return this.bytes(Buffer.from(`${text}\0`, "latin1"));
  }

  /** @param {string} text */
  text(text) {
    const at = this.number(text.length);
    this.bytes(Buffer.from(text, "latin1"));
    return at;
  }

  /** @param {number} at @param {number} value */
  withNumberAt(at, value) {
    const whole = Buffer.concat(this.#pieces);
    whole.writeUInt32LE(value, at);
    return whole;
  }
}
