import { execFileSync, spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join, relative } from "node:path";
import { zipSync } from "fflate";
import { build } from "./build.mjs";
import { writePackage } from "./package.mjs";
import { prepare } from "./prepare.mjs";

const CHANGES = "CHANGELOG.md";

/**
 * Makes a release of what is committed: tests, dates the changelog, builds for the address with version and commit in
 * YARN.VERSION(), and puts the folder to upload and the package into one zip, with its checksum and a tag.
 * @param {{ origin: string, day?: string, proved?: () => boolean }} wanted
 * @returns {Promise<string>} the zip
 */
export async function release({ origin, day = new Date().toISOString().slice(0, 10), proved = everyTestPasses }) {
  const { name, version } = JSON.parse(readFileSync("package.json", "utf8"));
  const heading = `## ${version} (unreleased)`;
  const changes = readFileSync(CHANGES, "utf8");
  if (git("status", "--porcelain") !== "") throw new Error("there are changes that are not committed");
  if (git("tag", "--list", `v${version}`) !== "")
    throw new Error(`${version} is released already; raise the version in package.json`);
  if (!changes.includes(heading)) throw new Error(`${CHANGES} has no heading "${heading}"`);
  if (!proved()) throw new Error("a test fails");

  writeFileSync(CHANGES, changes.replace(heading, `## ${version}, ${day}`));
  git("commit", "-q", "-m", `Release ${version}`, CHANGES);
  const commit = git("rev-parse", "--short=7", "HEAD");
  const site = await build({ origin, label: `${version}+${commit}` });
  const folder = join("releases", `${name}-${version}`);
  await writePackage(join(folder, "package"), site);
  const packed = execFileSync("npm", ["pack", "--silent", "--pack-destination", "..", "."], {
    ...{ cwd: join(folder, "package"), encoding: "utf8", shell: process.platform === "win32" },
  }).trim();

  const parts = { [packed]: readFileSync(join(folder, packed)), ...filesOf(site, "site") };
  const zip = `${folder}.zip`;
  writeFileSync(zip, zipSync(parts, { mtime: new Date(`${day}T00:00:00`) }));
  writeFileSync(
    `${zip}.sha256`,
    `${createHash("sha256").update(readFileSync(zip)).digest("hex")}  ${name}-${version}.zip\n`,
  );
  rmSync(folder, { recursive: true });
  git("tag", "-a", `v${version}`, "-m", `${version}`);
  return zip;
}

function everyTestPasses() {
  const env = { ...process.env, CASES: "full" };
  return spawnSync("npm", ["test"], { env, stdio: "inherit", shell: process.platform === "win32" }).status === 0;
}

/** @param {string[]} words */
function git(...words) {
  return execFileSync("git", words, { encoding: "utf8" }).trim();
}

/**
 * Every file of a folder, under another name of the folder.
 * @param {string} folder
 * @param {string} named
 */
function filesOf(folder, named) {
  const files = readdirSync(folder, { recursive: true, withFileTypes: true }).filter((entry) => entry.isFile());
  return Object.fromEntries(
    files.map(({ parentPath, path, name }) => {
      const file = join(parentPath ?? path, name);
      return [[named, ...relative(folder, file).split(/[\\/]/)].join("/"), readFileSync(file)];
    }),
  );
}

if (process.argv[1]?.endsWith("release.mjs")) {
  const given = process.argv.indexOf("--origin");
  try {
    if (given < 0) throw new Error("give the address: npm run release -- --origin https://…");
    mkdirSync("releases", { recursive: true });
    await prepare();
    console.log(
      `${await release({ origin: process.argv[given + 1] ?? "" })}: see the checksum beside it; push the commit and the tag`,
    );
  } catch (fault) {
    console.error(fault instanceof Error ? fault.message : fault);
    process.exit(1);
  }
}
