import { crc32 } from "node:zlib";
import { unzipSync, type UnzipFileInfo } from "fflate";
import { Complaint } from "./command-line";

/** The parts of a workbook file by name, in the order of the file. */
export type Parts = Map<string, Uint8Array>;

/** More than any workbook of this trade needs; a file built to exhaust the machine asks for far more. */
const LARGEST_FILE = 100 * 2 ** 20;
const MOST_PARTS = 5_000;
const LARGEST_PART = 150 * 2 ** 20;
const LARGEST_WHOLE = 300 * 2 ** 20;

const NEEDED = ["[Content_Types].xml", "_rels/.rels"];

/** Unpacks a workbook file, after its own directory has said that it is not too large. */
export function openPackage(bytes: Uint8Array, called: string): Parts {
  if (bytes.length > LARGEST_FILE) throw new Complaint(`${called} is larger than ${inMegabytes(LARGEST_FILE)}`);
  refuseOtherFormats(bytes, called);
  const declared = listed(bytes, called);
  let whole = 0;
  const names = new Set<string>();
  for (const { name, originalSize } of declared) {
    whole += originalSize;
    if (originalSize > LARGEST_PART || whole > LARGEST_WHOLE) {
      throw new Complaint(
        `${called} would unpack to more than ${inMegabytes(originalSize > LARGEST_PART ? LARGEST_PART : LARGEST_WHOLE)}; it is not opened`,
      );
    }
    if (names.has(name)) throw new Complaint(`${called} holds two parts called ${name}; it is not opened`);
    names.add(name);
  }
  for (const name of NEEDED)
    if (!names.has(name)) throw new Complaint(`${called} is not a workbook: it has no ${name}`);
  return unpacked(bytes, declared, called);
}

/** What the directory at the end of the file declares, without unpacking anything. */
function listed(bytes: Uint8Array, called: string): UnzipFileInfo[] {
  const declared: UnzipFileInfo[] = [];
  try {
    unzipSync(bytes, {
      filter: (entry) => {
        declared.push(entry);
        if (declared.length > MOST_PARTS) throw new Complaint(`${called} holds more than ${MOST_PARTS} parts`);
        return false;
      },
    });
  } catch (fault) {
    throw complaintAbout(fault, called);
  }
  return declared;
}

function unpacked(bytes: Uint8Array, declared: readonly UnzipFileInfo[], called: string): Parts {
  let contents: Record<string, Uint8Array>;
  try {
    contents = unzipSync(bytes);
  } catch (fault) {
    throw complaintAbout(fault, called);
  }
  const parts: Parts = new Map();
  const checksums = checksumsIn(bytes);
  for (const [index, { name, originalSize }] of declared.entries()) {
    const content = contents[name];
    // The buffer for a part has its declared size, so a part that lies about it comes out cut or padded.
    if (content === undefined || content.length !== originalSize) throw complaintAbout(undefined, called);
    if (checksums !== undefined && crc32(content) !== checksums[index]) {
      throw new Complaint(`${called} is damaged: its part ${name} is not as it was written`);
    }
    if (!name.endsWith("/")) parts.set(name, content);
  }
  return parts;
}

/**
 * The checksums of the parts in the order of the directory at the end of the file (APPNOTE.TXT 4.3.12 and 4.3.16);
 * nothing for the large form of the directory, which no workbook within our limits needs.
 */
function checksumsIn(bytes: Uint8Array): number[] | undefined {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  let end = bytes.length - 22;
  while (end >= 0 && view.getUint32(end, true) !== 0x06054b50) end--;
  if (end < 0) return undefined;
  const count = view.getUint16(end + 10, true);
  let entry = view.getUint32(end + 16, true);
  if (count === 0xffff || entry === 0xffffffff) return undefined;
  const checksums: number[] = [];
  for (let index = 0; index < count; index++) {
    if (entry + 46 > bytes.length || view.getUint32(entry, true) !== 0x02014b50) return undefined;
    checksums.push(view.getUint32(entry + 16, true));
    entry +=
      46 + view.getUint16(entry + 28, true) + view.getUint16(entry + 30, true) + view.getUint16(entry + 32, true);
  }
  return checksums;
}

function refuseOtherFormats(bytes: Uint8Array, called: string): void {
  if (bytes.length === 0) throw new Complaint(`${called} is empty`);
  if (bytes[0] === 0xd0 && bytes[1] === 0xcf) {
    throw new Complaint(`${called} is in the old binary format or locked with a password; save it as an open .xlsx`);
  }
  if (bytes[0] !== 0x50 || bytes[1] !== 0x4b) throw new Complaint(`${called} is not an .xlsx workbook`);
}

function complaintAbout(fault: unknown, called: string): Complaint {
  if (fault instanceof Complaint) return fault;
  const why = fault instanceof Error ? ` (${fault.message})` : "";
  return new Complaint(`${called} is damaged and cannot be unpacked${why}`);
}

function inMegabytes(bytes: number): string {
  return `${bytes / 2 ** 20} MB`;
}

/** The text of an XML part; a part that declares entities could grow without bound and is refused. */
export function textOf(parts: Parts, name: string, called: string): string | undefined {
  const bytes = parts.get(name);
  if (bytes === undefined) return undefined;
  const wide =
    bytes[0] === 0xff && bytes[1] === 0xfe
      ? "utf-16le"
      : bytes[0] === 0xfe && bytes[1] === 0xff
        ? "utf-16be"
        : undefined;
  const text = new TextDecoder(wide ?? "utf-8").decode(bytes);
  if (/<!(DOCTYPE|ENTITY)/i.test(text)) {
    throw new Complaint(`${called}: the part ${name} declares its own entities; it is not opened`);
  }
  return text;
}
