import { spawnSync } from "node:child_process";
import { readFileSync } from "node:fs";

const LOCK = "package-lock.json";
/** Npm's own record of what it has installed. */
const INSTALLED = "node_modules/.package-lock.json";

/** Installs the packages of the lock file when others are there, or none. Needs nothing but Node itself. */
export function installPackages() {
  const installed = packagesOf(INSTALLED);
  if (installed !== undefined && areInstalled(packagesOf(LOCK) ?? {}, installed)) return;
  console.error(`Installing the packages of ${LOCK} (${installed === undefined ? "once" : "it has changed"}) …`);
  // Where NODE_ENV says production, npm would leave out what builds and tests.
  const { status } = spawnSync("npm", ["ci", "--include=dev", "--no-audit", "--no-fund", "--loglevel=error"], {
    stdio: ["ignore", 2, 2],
    shell: process.platform === "win32",
  });
  if (status !== 0) process.exit(status ?? 1);
}

/**
 * Is what is installed what the lock file names? Compared by content: a checkout gives the lock file a new date and
 * the same packages.
 */
export function areInstalled(wanted, installed) {
  const names = Object.keys(wanted).filter((name) => name !== "");
  return (
    names.every((name) => {
      const { version, integrity, optional } = wanted[name];
      const found = installed[name];
      // Packages for other systems are optional and are not installed here.
      if (found === undefined) return optional === true;
      return found.version === version && found.integrity === integrity;
    }) && Object.keys(installed).every((name) => name in wanted)
  );
}

function packagesOf(file) {
  try {
    return JSON.parse(readFileSync(file, "utf8")).packages;
  } catch {
    return undefined;
  }
}
