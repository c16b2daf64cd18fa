import { execFileSync, spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { pathToFileURL } from "node:url";
import { unzipSync } from "fflate";
import ts from "typescript";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { writePackage } from "../../src/build/package.mjs";

/** Much is compiled here; on a busy machine that takes its time. */
const PATIENCE = 240_000;

describe("the package", { timeout: PATIENCE }, () => {
  let home: string;
  let installed: string;
  beforeAll(async () => {
    home = mkdtempSync(join(tmpdir(), "package-"));
    installed = join(home, "node_modules", "yarn-worksheet-functions");
    mkdirSync(installed, { recursive: true });
    await writePackage(installed, "dist");
    symlinkSync(resolve("node_modules/big.js"), join(home, "node_modules", "big.js"), "junction");
    writeFileSync(join(home, "package.json"), '{"type":"module"}');
  }, PATIENCE);
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
    expect(bin("recalc", "book.xlsx", "--out", "new.xlsx")).toMatchObject({ status: 0 });
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
    const program = ts.createProgram([file], {
      ...{ strict: true, noEmit: true, target: ts.ScriptTarget.ES2022, types: [] },
      module: resolution === "NodeNext" ? ts.ModuleKind.NodeNext : ts.ModuleKind.ESNext,
      moduleResolution: ts.ModuleResolutionKind[resolution],
    });
    const faults = ts.getPreEmitDiagnostics(program).map(({ messageText }) => ts.flattenDiagnosticMessageText(messageText, " ")); // prettier-ignore
    // The one that is there on purpose shows that the types are those of the calculation, not any.
    expect(faults).toEqual([expect.stringContaining("is not assignable to type 'string'")]);
  });
});

describe("a release", { timeout: PATIENCE }, () => {
  let copy: string;
  const git = (...words: string[]) =>
    execFileSync("git", ["-c", "user.name=t", "-c", "user.email=t@t.example", ...words], { cwd: copy, encoding: "utf8" }).trim(); // prettier-ignore
  const KEPT = ["src", "bin", "manifest", "sample-workbooks", "package.json", "package-lock.json", "LICENSE", "README.md", "MANUAL.md", "CHANGELOG.md", "tsconfig.json", ".gitignore"]; // prettier-ignore

  beforeAll(() => {
    copy = mkdtempSync(join(tmpdir(), "release-"));
    for (const name of KEPT) cpSync(name, join(copy, name), { recursive: true });
    symlinkSync(resolve("node_modules"), join(copy, "node_modules"), "junction");
    // The link is no folder, which is what is passed over otherwise.
    writeFileSync(join(copy, ".gitignore"), `${readFileSync(".gitignore", "utf8")}node_modules\n`);
    git("init", "-q");
    git("config", "user.name", "t");
    git("config", "user.email", "t@t.example");
    git("add", "-A");
    git("commit", "-q", "-m", "before");
  }, PATIENCE);
  afterAll(() => rmSync(copy, { recursive: true }), PATIENCE);

  function released(proved: boolean): { status: number | null; stdout: string; stderr: string } {
    const script = `process.chdir(${JSON.stringify(copy)});
      const { release } = await import(${JSON.stringify(pathToFileURL(join(copy, "src/build/release.mjs")).href)});
      await release({ origin: "https://functions.example", day: "2026-11-30", proved: () => ${proved} })
        .then((zip) => console.log(zip), (fault) => { console.error(fault.message); process.exit(1); });`;
    return spawnSync(process.execPath, ["--input-type=module", "-e", script], { cwd: copy, encoding: "utf8" });
  }

  test("is not made of changes that are not committed, nor where a test fails; then all stays as it was", () => {
    const before = git("rev-parse", "HEAD");
    writeFileSync(join(copy, "stray.txt"), "");
    expect(released(true)).toMatchObject({ status: 1, stderr: "there are changes that are not committed\n" });
    rmSync(join(copy, "stray.txt"));
    expect(released(false)).toMatchObject({ status: 1, stderr: "a test fails\n" });
    expect([git("rev-parse", "HEAD"), git("status", "--porcelain"), git("tag")]).toEqual([before, "", ""]);
  });

  test("has a dated changelog, a tag, and one zip with its checksum; YARN.VERSION() names version and commit", () => {
    const { version } = JSON.parse(readFileSync("package.json", "utf8")) as { version: string };
    const { status, stdout, stderr } = released(true);
    expect([status, stderr]).toEqual([0, ""]);
    const zip = readFileSync(join(copy, stdout.trim()));
    const digest = createHash("sha256").update(zip).digest("hex");
    expect(readFileSync(join(copy, `${stdout.trim()}.sha256`), "utf8")).toBe(
      `${digest}  yarn-worksheet-functions-${version}.zip\n`,
    );
    const parts = unzipSync(zip);
    const text = (name: string) => Buffer.from(parts[name] ?? []).toString();
    expect(text("site/functions.js")).toContain(`"${version}+${git("rev-parse", "--short=7", "HEAD")}"`);
    expect(text("site/manifest.xml")).toContain("https://functions.example/functions.json");
    expect(parts[`yarn-worksheet-functions-${version}.tgz`]?.length).toBeGreaterThan(100_000);
    expect(readFileSync(join(copy, "CHANGELOG.md"), "utf8")).toContain(`## ${version}, 2026-11-30`);
    expect([git("tag"), git("status", "--porcelain")]).toEqual([`v${version}`, ""]);
    expect(released(true).stderr).toContain("is released already");
  });
});
