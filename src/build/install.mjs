import { spawnSync } from "node:child_process";
import { existsSync } from "node:fs";

/** Installs the packages of the lock file when they are missing. Needs nothing but Node itself. */
export function installMissing() {
  if (existsSync("node_modules/.package-lock.json")) return;
  console.error("Installing the packages of package-lock.json (once) …");
  const { status } = spawnSync("npm", ["ci", "--no-audit", "--no-fund", "--loglevel=error"], {
    stdio: ["ignore", 2, 2],
    shell: process.platform === "win32",
  });
  if (status !== 0) process.exit(status ?? 1);
}
