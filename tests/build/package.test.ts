import { execFileSync, spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import {
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { pathToFileURL } from "node:url";
import { unzipSync } from "fflate";
import { afterAll, beforeAll, describe, expect, test } from "vitest";

/** A site and a package are built here, once for all tests; on a busy machine that takes its time. */
const PATIENCE = 240_000;

const KEPT = ["src", "bin", "manifest", "sample-workbooks", "package.json", "package-lock.json", "LICENSE", "README.md", "MANUAL.md", "CHANGELOG.md", "tsconfig.json", "tsconfig.bundle.json", ".gitignore"]; // prettier-ignore
/** What a build is for: this computer, and the address of a release. */
const FOLDERS = ["dist", "dist-functions.example"];
const BEFORE = "what was there before";
const DECLARATION = "src/functions/count.ts";
const SOUND = 'counting.convertCount(counting.expectNoDate("value", number, system), system, wanted)';
const BROKEN = "[number, system, wanted][0] as number";

const { version } = JSON.parse(readFileSync("package.json", "utf8")) as { version: string };

/** What one call of `release` came to: the zip, or why there is none, and how the repository stood then. */
interface Released {
  readonly zip?: string;
  readonly fault?: string;
  readonly stood: readonly string[];
}

let copy: string;
let before: string;
let released: readonly Released[];
/** What a build of a broken function said, and what stood there then. */
let broken: { readonly fault: string; readonly stood: readonly string[] };
/** The parts of the zip of the release. */
let parts: Record<string, Uint8Array>;

const git = (...words: string[]) =>
  execFileSync("git", ["-c", "user.name=t", "-c", "user.email=t@t.example", ...words], { cwd: copy, encoding: "utf8" }).trim(); // prettier-ignore

beforeAll(() => {
  copy = mkdtempSync(join(tmpdir(), "release-"));
  for (const name of KEPT) cpSync(name, join(copy, name), { recursive: true });
  symlinkSync(resolve("node_modules"), join(copy, "node_modules"), "junction");
  // The link is no folder, which is what is passed over otherwise.
  writeFileSync(join(copy, ".gitignore"), `${readFileSync(".gitignore", "utf8")}node_modules\n`);
  for (const folder of FOLDERS) {
    mkdirSync(join(copy, folder));
    writeFileSync(join(copy, folder, "before.txt"), BEFORE);
  }
  expect(readFileSync(join(copy, DECLARATION), "utf8")).toContain(SOUND);
  git("init", "-q");
  git("config", "user.name", "t");
  git("config", "user.email", "t@t.example");
  git("add", "-A");
  git("commit", "-q", "-m", "before");
  before = git("rev-parse", "HEAD");
  // In one process, because loading all that builds takes as long as much of a build.
  const script = `process.chdir(${JSON.stringify(copy)});
    const { execFileSync } = await import("node:child_process");
    const { readdirSync, readFileSync, rmSync, writeFileSync } = await import("node:fs");
    const { build } = await import(${JSON.stringify(pathToFileURL(join(copy, "src/build/build.mjs")).href)});
    const { release } = await import(${JSON.stringify(pathToFileURL(join(copy, "src/build/release.mjs")).href)});
    const origin = "https://functions.example";
    const git = (...words) => execFileSync("git", words, { encoding: "utf8" }).trim();
    const told = [];
    const tried = async (proved) => {
      const wanted = { origin, day: "2026-11-30", proved: () => proved };
      const came = await release(wanted).then((zip) => ({ zip }), (fault) => ({ fault: fault.message }));
      told.push({ ...came, stood: [git("rev-parse", "HEAD"), git("status", "--porcelain"), git("tag")] });
    };
    const [declaration, right, wrong] = ${JSON.stringify([DECLARATION, SOUND, BROKEN])};
    const sound = readFileSync(declaration, "utf8");
    writeFileSync(declaration, sound.replace(right, wrong));
    const broken = {
      fault: await build({ origin }).then(() => "", ({ message }) => message),
      stood: readdirSync(".").filter((name) => /^\\.?dist/.test(name)).map((name) => name + ": " + readdirSync(name)),
    };
    writeFileSync(declaration, sound);
    writeFileSync("stray.txt", "");
    await tried(true);
    rmSync("stray.txt");
    await tried(false);
    await tried(true);
    await tried(true);
    console.log(JSON.stringify({ broken, released: told }));`;
  const { stdout, stderr } = spawnSync(process.execPath, ["--input-type=module", "-e", script], { cwd: copy, encoding: "utf8" }); // prettier-ignore
  expect(stderr).toBe("");
  ({ broken, released } = JSON.parse(stdout) as { broken: typeof broken; released: typeof released });
  parts = unzipSync(readFileSync(join(copy, released[2]?.zip as string)));
}, PATIENCE);
afterAll(() => rmSync(copy, { recursive: true }), PATIENCE);

test("a build of a broken function stops, leaves what was there and nothing beside it", () => {
  expect(broken.fault).toContain('YARN.COUNT(10,"NeC","NeW") gives 10, not 15');
  expect([...broken.stood].sort()).toEqual(FOLDERS.map((folder) => `${folder}: before.txt`).sort());
  expect(readFileSync(join(copy, "dist", "before.txt"), "utf8")).toBe(BEFORE);
});

describe("a release", () => {
  test("is not made of changes that are not committed, nor where a test fails; then all stays as it was", () => {
    expect(released.slice(0, 2)).toEqual([
      { fault: "there are changes that are not committed", stood: [before, "?? stray.txt", ""] },
      { fault: "a test fails", stood: [before, "", ""] },
    ]);
  });

  test("has a dated changelog, a tag, and one zip with its checksum; YARN.VERSION() names version and commit", () => {
    const [, , { zip: name, stood }, again] = released as [Released, Released, Released, Released];
    const zip = readFileSync(join(copy, name as string));
    const digest = createHash("sha256").update(zip).digest("hex");
    expect(readFileSync(join(copy, `${name}.sha256`), "utf8")).toBe(
      `${digest}  yarn-worksheet-functions-${version}.zip\n`,
    );
    const text = (part: string) => Buffer.from(parts[part] ?? []).toString();
    expect(text("site/functions.js")).toContain(`"${version}+${git("rev-parse", "--short=7", "HEAD")}"`);
    expect(text("site/manifest.xml")).toContain('"https://functions.example/functions.json"');
    expect(text("site/manifest.xml")).not.toContain("localhost");
    expect(parts[`yarn-worksheet-functions-${version}.tgz`]?.length).toBeGreaterThan(100_000);
    expect(readFileSync(join(copy, "CHANGELOG.md"), "utf8")).toContain(`## ${version}, 2026-11-30`);
    expect(stood).toEqual([git("rev-parse", "HEAD"), "", `v${version}`]);
    expect(git("rev-parse", "HEAD^")).toBe(before);
    expect(again.fault).toContain("is released already");
  });

  test("builds for its address into a folder of its own, in the place of what was there", () => {
    const site = join(copy, "dist-functions.example");
    expect(readFileSync(join(site, "manifest.xml"))).toEqual(Buffer.from(parts["site/manifest.xml"] as Uint8Array));
    expect(existsSync(join(site, "before.txt"))).toBe(false);
    expect(readdirSync(join(copy, "dist"))).toEqual(["before.txt"]);
  });
});

describe("the package of a release", { timeout: PATIENCE }, () => {
  let home: string;
  let installed: string;
  beforeAll(() => {
    home = mkdtempSync(join(tmpdir(), "package-"));
    installed = join(home, "node_modules", "yarn-worksheet-functions");
    mkdirSync(installed, { recursive: true });
    writeFileSync(join(home, "package.tgz"), parts[`yarn-worksheet-functions-${version}.tgz`] as Uint8Array);
    execFileSync("tar", ["-xzf", "../../package.tgz", "--strip-components=1"], { cwd: installed });
    symlinkSync(resolve("node_modules/big.js"), join(home, "node_modules", "big.js"), "junction");
    writeFileSync(join(home, "package.json"), '{"type":"module"}');
  });
  afterAll(() => rmSync(home, { recursive: true }));

  const bin = (name: string, ...words: string[]) =>
    spawnSync(process.execPath, [join(installed, "lib", "bin", `${name}.mjs`), ...words], { cwd: home, encoding: "utf8" }); // prettier-ignore

  test("needs big.js alone, and every file that it names is there", () => {
    const facts = JSON.parse(readFileSync(join(installed, "package.json"), "utf8")) as Record<string, object>;
    expect(Object.keys(facts.dependencies as object)).toEqual(["big.js"]);
    expect(facts).not.toHaveProperty("private");
    expect(facts).not.toHaveProperty("scripts");
    for (const file of Object.values(facts.bin as object)) {
      expect(readFileSync(join(installed, file as string), "utf8")).toMatch(/^#!\/usr\/bin\/env node\n/);
    }
  });

  // ASTM D2260: 10 cotton is 15 worsted, both in hanks of so many yards to the pound (840 and 560).
  test("its commands work anywhere, on the files of whoever calls them", () => {
    expect(bin("calc", '=YARN.COUNT(10,"NeC","NeW")')).toMatchObject({ stdout: "15\n", stderr: "", status: 0 });
    cpSync("sample-workbooks/starter.xlsx", join(home, "book.xlsx"));
    // The book names the version that worked it out; a release has another, and nothing else differs.
    const { stdout, status } = bin("recalc", "book.xlsx", "--out", "new.xlsx");
    const [heads, ...differing] = stdout.trimEnd().split("\n");
    expect([heads, status]).toEqual(["sheet\tcell\tsaved\tnow\tmessage", 1]);
    const release = `${version}+${git("rev-parse", "--short=7", "HEAD")}`;
    expect(differing).toEqual([expect.stringMatching(/^About\t/)]);
    expect(differing[0]).toContain(`\tyes, version ${version}\tyes, version ${release}`);
    expect(bin("recalc", "new.xlsx")).toMatchObject({ status: 0 });
    expect(bin("plain", "book.xlsx", "plain.xlsx")).toMatchObject({ status: 0 });
    expect(bin("mend", "book.xlsx", "mended.xlsx")).toMatchObject({ status: 0 });
    expect(bin("vary", "none.xlsx").status).toBe(2);
  });

  const USE = `
    import { plyCount } from "yarn-worksheet-functions/counts";
    import { takeUp } from "yarn-worksheet-functions/spinning";
    import { Refusal } from "yarn-worksheet-functions/refusal";
    import { roundCash } from "yarn-worksheet-functions/rounding";
    export const figures = [plyCount, takeUp, Refusal, roundCash(1.005, 2, "half away").toNumber()];
  `;

  test("its calculations are modules", () => {
    writeFileSync(join(home, "use.mjs"), `${USE}\nconsole.log(figures.at(-1), typeof figures[0]);`);
    expect(execFileSync(process.execPath, ["use.mjs"], { cwd: home, encoding: "utf8" })).toBe("1.01 function\n");
  });

  test.each(["NodeNext", "Bundler"] as const)("its types are found by %s", (resolution) => {
    const file = join(home, "use.ts");
    writeFileSync(file, `${USE}\nexport const wrong: string = roundCash(1, 2, "half away");`);
    // The language itself is checked by those who make it.
    const options = ["--strict", "--noEmit", "--target", "es2022", "--lib", "es2022", "--types", "", "--skipDefaultLibCheck"]; // prettier-ignore
    const [module, named] = [resolution === "NodeNext" ? "nodenext" : "esnext", resolution.toLowerCase()];
    const compiler = resolve("node_modules/typescript-native/bin/tsc");
    const words = [...options, "--module", module, "--moduleResolution", named, "--pretty", "false", file];
    const { stdout } = spawnSync(process.execPath, [compiler, ...words], { cwd: home, encoding: "utf8" });
    const faults = stdout.trim().split("\n");
    // The one that is there on purpose shows that the types are those of the calculation, not any.
    expect(faults).toEqual([expect.stringContaining("is not assignable to type 'string'")]);
  });
});
