import { spawnSync } from "node:child_process";
import { readFileSync } from "node:fs";

const LOCK = "package-lock.json";
/**
 * Npm's own record of what it has installed.
 * @typedef {{ version?: string, integrity?: string, optional?: boolean, dev?: boolean }} Locked one package of a lock file
 * @typedef {Record<string, Locked>} Packages
 */
const INSTALLED = "node_modules/.package-lock.json";

/**
 * Installs the packages of the lock file when others are there, or none: those that a command needs, or also those that
 * build the guide, test and measure. Needs nothing but Node itself.
 * @param {{ all: boolean }} extent
 */
export function installPackages({ all }) {
  const installed = packagesOf(INSTALLED);
  const wanted = packagesOf(LOCK) ?? {};
  // What was there for tests stays there when a command brings it up to date.
  const tools = all || Object.keys(installed ?? {}).some((name) => installed?.[name]?.dev === true);
  if (installed !== undefined && areInstalled(wanted, installed, { all: tools })) return;
  console.error(`Installing the packages of ${LOCK} (${reason(installed, wanted)}) …`);
  // Said outright, because npm goes by NODE_ENV otherwise.
  const extent = tools ? "--include=dev" : "--omit=dev";
  const { status } = spawnSync("npm", ["ci", extent, "--no-audit", "--no-fund", "--loglevel=error"], {
    stdio: ["ignore", 2, 2],
    shell: process.platform === "win32",
  });
  if (status !== 0) process.exit(status ?? 1);
}

/** @param {Packages | undefined} installed @param {Packages} wanted */
function reason(installed, wanted) {
  if (installed === undefined) return "once";
  return areInstalled(wanted, installed, { all: false }) ? "those that build and test" : "it has changed";
}

/**
 * Is what is installed what the lock file names? Compared by content: a checkout gives the lock file a new date and
 * the same packages.
 * @param {Packages} wanted
 * @param {Packages} installed
 * @param {{ all: boolean }} extent
 */
export function areInstalled(wanted, installed, { all }) {
  const names = Object.keys(wanted).filter((name) => name !== "" && (all || wanted[name]?.dev !== true));
  return (
    names.every((name) => {
      const { version, integrity, optional } = wanted[name] ?? {};
      const found = installed[name];
      // Packages for other systems are optional and are not installed here.
      if (found === undefined) return optional === true;
      return found.version === version && found.integrity === integrity;
    }) && Object.keys(installed).every((name) => name in wanted)
  );
}

/** @param {string} file @returns {Packages | undefined} */
function packagesOf(file) {
  try {
    return JSON.parse(readFileSync(file, "utf8")).packages;
  } catch {
    return undefined;
  }
}
