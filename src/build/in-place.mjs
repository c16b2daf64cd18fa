import { mkdirSync, mkdtempSync, renameSync, rmSync } from "node:fs";
import { basename, dirname, join } from "node:path";

/**
 * Makes a folder beside its place and then puts it there: what was there before stays until all is made, and stays where
 * that fails. Two that are made at once are both made whole, and the later one stays.
 * @param {string} out
 * @param {(fresh: string) => Promise<void>} make
 */
export async function madeInPlace(out, make) {
  mkdirSync(dirname(out), { recursive: true });
  const beside = mkdtempSync(join(dirname(out), `.${basename(out)}-`));
  const fresh = join(beside, "fresh");
  try {
    mkdirSync(fresh);
    await make(fresh);
    // Between the two moves another may have put its own there.
    let former = 1;
    do movedUnless(["ENOENT"], out, join(beside, `former-${former}`));
    while (!movedUnless(former++ < MOST_TRIES ? TAKEN : [], fresh, out));
  } finally {
    rmSync(beside, { recursive: true, force: true });
  }
}

const MOST_TRIES = 10;

/** How systems say that there is a folder of this name already. */
const TAKEN = ["ENOTEMPTY", "EEXIST", "EPERM"];

/**
 * @param {string[]} codes what may hinder it
 * @param {string} from
 * @param {string} to
 */
function movedUnless(codes, from, to) {
  try {
    renameSync(from, to);
    return true;
  } catch (fault) {
    if (codes.includes(/** @type {NodeJS.ErrnoException} */ (fault).code ?? "")) return false;
    throw fault;
  }
}
