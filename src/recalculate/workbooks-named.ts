import { readdirSync, statSync } from "node:fs";
import { Complaint } from "./command-line";
import { fileTrouble } from "./file-trouble";

/** A workbook and how the person called it. */
export interface NamedWorkbook {
  readonly file: string;
  readonly called: string;
}

/** What stands beside an open workbook ("~$book.xlsx") is none. */
const WORKBOOK = /^(?!~\$).*\.(xlsx|xlsm|xltx|xltm)$/i;
const WILD = /[*?]/;
/** On Windows both; elsewhere a backslash belongs to the name. */
const STEP = process.platform === "win32" ? /[\\/]/ : /\//;

/** The workbooks that a command is given: files, folders, and patterns that no shell has written out ("books/*.xlsx"). */
export function workbooksNamed(words: readonly string[], path: (typed: string) => string): NamedWorkbook[] {
  return words.flatMap((word) => {
    const kind = kindOf(path(word));
    if (kind === "folder") return found(within(word, path), `there is no workbook in ${word}`, path);
    if (kind === "file" || !WILD.test(word)) return [{ file: path(word), called: word }];
    return found(matching(word, path), `no workbook is called ${word}`, path);
  });
}

function found(names: readonly string[], otherwise: string, path: (typed: string) => string): NamedWorkbook[] {
  const workbooks = names.filter(
    (name) => WORKBOOK.test(name.split(STEP).at(-1) ?? "") && kindOf(path(name)) === "file",
  );
  if (workbooks.length === 0) throw new Complaint(otherwise);
  return workbooks.sort().map((called) => ({ file: path(called), called }));
}

function kindOf(file: string): "file" | "folder" | undefined {
  const known = statSync(file, { throwIfNoEntry: false });
  return known && (known.isDirectory() ? "folder" : "file");
}

function within(folder: string, path: (typed: string) => string): string[] {
  const start = folder === "" || /[\\/]$/.test(folder) ? folder : `${folder}/`;
  try {
    return readdirSync(path(folder === "" ? "." : folder)).map((name) => start + name);
  } catch (fault) {
    throw new Complaint(`${folder} cannot be read: ${fileTrouble(fault)}`);
  }
}

/** Step by step down the folders: * and ? stand for what is in a name, ** for folders at any depth. */
function matching(pattern: string, path: (typed: string) => string): string[] {
  const steps = pattern.split(STEP);
  let names = [""];
  steps.forEach((step, place) => {
    const last = place === steps.length - 1;
    const into = (name: string) => (last ? name : `${name}/`);
    if (!WILD.test(step)) names = names.map((name) => into(name + step));
    else if (step === "**") names = names.flatMap((name) => [name, ...foldersBelow(name, path)]);
    else {
      const matches = expressionFor(step);
      names = names.flatMap((folder) =>
        (kindOf(path(folder === "" ? "." : folder)) === "folder" ? within(folder, path) : [])
          .filter((name) => matches.test(name.slice(folder.length)))
          .map(into),
      );
    }
  });
  return names;
}

function foldersBelow(folder: string, path: (typed: string) => string): string[] {
  return within(folder, path)
    .filter((name) => kindOf(path(name)) === "folder")
    .flatMap((name) => [`${name}/`, ...foldersBelow(`${name}/`, path)]);
}

function expressionFor(step: string): RegExp {
  const written = step
    .replace(/[.+^${}()|[\]\\]/g, "\\$&")
    .replace(/\*+/g, ".*")
    .replace(/\?/g, ".");
  return new RegExp(`^${written}$`, process.platform === "win32" ? "i" : "");
}
