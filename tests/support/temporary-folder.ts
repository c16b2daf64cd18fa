import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

/** One folder for whatever tests write beside the project, so that a run leaves nothing behind. */
export function setup(): () => void {
  const folder = mkdtempSync(join(tmpdir(), "yarn-tests-"));
  // Each system asks for it under a name of its own.
  for (const name of ["TMPDIR", "TEMP", "TMP"]) process.env[name] = folder;
  return () => rmSync(folder, { recursive: true, force: true, maxRetries: 3 });
}
