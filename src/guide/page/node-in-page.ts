/**
 * The few parts of Node that the commands' code uses, for a page's worker: files are kept in memory, and the bundle of
 * functions is loaded as a script. The build puts this file in the place of every one of Node's own modules.
 */

/** Files by name; those with a known digest remember it, because the browser's own works only while others wait. */
const files = new Map<string, Uint8Array>();
const digests = new WeakMap<Uint8Array, string>();

/** Makes a file known to the commands' code. */
export async function keepFile(name: string, bytes: Uint8Array<ArrayBuffer>): Promise<void> {
  const digest = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
  digests.set(bytes, [...digest].map((byte) => byte.toString(16).padStart(2, "0")).join(""));
  files.set(name, bytes);
}

/** Takes away a file that the commands' code has written. */
export function takeFile(name: string): Uint8Array<ArrayBuffer> {
  const bytes = readFileSync(name) as Uint8Array<ArrayBuffer>;
  files.delete(name);
  return bytes;
}

declare const LIBRARY_VERSION: string;

// node:fs

export function readFileSync(file: string | URL, encoding?: string): Uint8Array | string {
  if (String(file).endsWith("package.json")) return JSON.stringify({ version: LIBRARY_VERSION });
  // The script that a browser loads by itself needs no text.
  if (encoding !== undefined) return "";
  const bytes = files.get(String(file));
  if (bytes === undefined) throw new Error(`there is no file ${String(file)}`);
  return bytes;
}

export function writeFileSync(file: string, content: Uint8Array | string): void {
  files.set(file, typeof content === "string" ? new TextEncoder().encode(content) : content);
}

export function renameSync(from: string, to: string): void {
  files.set(to, readFileSync(from) as Uint8Array);
  files.delete(from);
}

export function rmSync(file: string): void {
  files.delete(file);
}

export function existsSync(file: string): boolean {
  return files.has(file);
}

// node:path

export function basename(file: string): string {
  return file.replace(/^.*\//, "");
}

export function dirname(): string {
  return "";
}

export function join(folder: string, file: string): string {
  return folder === "" ? file : `${folder}/${file}`;
}

export const resolve = join;

// node:url

export const fileURLToPath = ({ pathname }: URL): string => pathname;

// node:crypto

export const randomUUID = (): string => crypto.randomUUID();

export function createHash(): { update(bytes: Uint8Array): { digest(): string } } {
  return { update: (bytes) => ({ digest: () => digests.get(bytes) ?? "" }) };
}

// node:zlib

const REMAINDERS = Uint32Array.from({ length: 256 }, (_, byte) => {
  let remainder = byte;
  for (let bit = 0; bit < 8; bit++) remainder = remainder & 1 ? (remainder >>> 1) ^ 0xedb88320 : remainder >>> 1;
  return remainder;
});

/** The checksum of ISO 3309, as zip files have it. */
export function crc32(bytes: Uint8Array): number {
  let checksum = 0xffffffff;
  for (const byte of bytes) checksum = (REMAINDERS[(checksum ^ byte) & 255] as number) ^ (checksum >>> 8);
  return (checksum ^ 0xffffffff) >>> 0;
}

// node:vm

declare function importScripts(address: string): void;

/** The bundle, as a script that finds its runtime under the name that Excel gives it; nothing is made from text. */
export function compileFunction(): (runtime: object) => void {
  return (runtime) => {
    (globalThis as { CustomFunctions?: object }).CustomFunctions = runtime;
    importScripts("../functions.js");
  };
}

// node:module

/** The second engine is several times larger than all the rest, and no page has it. */
export function createRequire(): { (): never; resolve(): never } {
  const absent = () => {
    throw new Error("a page has no packages");
  };
  return Object.assign(absent, { resolve: absent });
}

// node:util

export function parseArgs(): never {
  throw new Error("a page has no command line");
}
