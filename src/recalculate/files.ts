import { existsSync, realpathSync, statSync } from "node:fs";
import { basename, dirname, join, resolve } from "node:path";
import { Complaint } from "./command-line";

/** Refuses to write over a workbook that is read: the original is never touched. */
export function refuseSameFile(written: string, read: string, called: string): void {
  if (sameFile(written, read)) throw new Complaint(`${called} is the original; give another name for the new file`);
  const folder = dirname(resolve(written));
  if (!existsSync(folder)) throw new Complaint(`there is no folder ${folder} to write ${basename(written)} into`);
}

function sameFile(one: string, other: string): boolean {
  if (whole(one) === whole(other)) return true;
  if (!existsSync(one) || !existsSync(other)) return false;
  const [first, second] = [statSync(one), statSync(other)];
  return first.dev === second.dev && first.ino === second.ino && first.ino !== 0;
}

/** A path without links, also when the file itself does not exist yet. */
function whole(file: string): string {
  if (existsSync(file)) return realpathSync(file);
  const folder = dirname(resolve(file));
  return join(existsSync(folder) ? realpathSync(folder) : folder, basename(file));
}
