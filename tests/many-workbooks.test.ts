import { spawn, spawnSync } from "node:child_process";
import { appendFileSync, copyFileSync, existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs"; // prettier-ignore
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { afterAll, beforeEach, describe, expect, test } from "vitest";
import type { Recalculated } from "../src/recalculate/recalculation";
import { command, partsOf, rows, written } from "./support/workbooks";

const sound = written("sound.xlsx", partsOf({ S: rows([10, '=_xldudf_YARN_COUNT(A1,"NeC","NeW")|15']) }));
const stale = written("stale-among-many.xlsx", partsOf({ S: rows([10, '=_xldudf_YARN_COUNT(A1,"NeC","NeW")|16']) }));

const folders: string[] = [];
afterAll(() => folders.forEach((folder) => rmSync(folder, { recursive: true })));

/** A folder with so many workbooks, every seventh stale, and their list. */
function many(count: number) {
  const folder = mkdtempSync(join(tmpdir(), "many-"));
  folders.push(folder);
  mkdirSync(join(folder, "copies"));
  const names = Array.from({ length: count }, (_, index) => join(folder, `book-${index}.xlsx`));
  names.forEach((name, index) => copyFileSync(index % 7 === 6 ? stale : sound, name));
  writeFileSync(join(folder, "list.txt"), names.map((name) => `${name}\n`).join(""));
  const [list, copies, lines] = ["list.txt", "copies", "lines.jsonl"].map((name) => join(folder, name)) as [string, string, string]; // prettier-ignore
  return { folder, names, list, copies, lines, words: ["--from", list, "--out-dir", copies, "--resume", lines] };
}

function told(file: string): Recalculated[] {
  return readFileSync(file, "utf8").trimEnd().split("\n").map((line) => JSON.parse(line) as Recalculated); // prettier-ignore
}

describe("many workbooks", () => {
  let given: ReturnType<typeof many>;
  beforeEach(() => (given = many(12)));

  test("a list is worked through, with a copy and a line each, and a second run finds all done", async () => {
    const { names, copies, lines, words } = given;
    expect(await command("recalc", ...words)).toMatchObject({ code: 1, err: `${lines}: 12 done, 0 before\n`, out: "" });
    expect(told(lines).map(({ workbook }) => workbook).sort()).toEqual([...names].sort()); // prettier-ignore
    expect(told(lines).filter(({ differences }) => differences.length > 0).map(({ workbook }) => workbook)).toEqual([names[6]]); // prettier-ignore
    expect(readdirSync(copies)).toHaveLength(12);
    expect(await command("recalc", ...words)).toMatchObject({ code: 1, err: `${lines}: 0 done, 12 before\n` });
    expect(told(lines)).toHaveLength(12);
  });

  test("half a line counts as none; a changed workbook, a missing copy and one that broke off are done again", async () => {
    const { names, copies, lines, words } = given;
    await command("recalc", ...words);
    const all = told(lines);
    const brokenOff = { ...(all[0] as Recalculated), error: "it was given up", code: "internal" as const };
    writeFileSync(lines, [brokenOff, ...all.slice(1, 11)].map((line) => `${JSON.stringify(line)}\n`).join(""));
    appendFileSync(lines, JSON.stringify(all[11]).slice(0, 40));
    const others = all.slice(1, 11).map(({ workbook }) => workbook);
    const [changed, lost] = others.filter((name) => name !== names[6]) as [string, string];
    copyFileSync(stale, changed);
    rmSync(join(copies, lost.split("/").at(-1) as string));
    expect((await command("recalc", ...words)).err).toBe(`${lines}: 4 done, 8 before\n`);
    const again = [all[0], all[11]]
      .map((line) => line?.workbook as string)
      .concat(changed, lost)
      .sort();
    expect(told(lines).slice(11).map(({ workbook }) => workbook).sort()).toEqual(again); // prettier-ignore
  });

  test("what cannot be read is told once and never tried again", async () => {
    const { names, lines, words } = given;
    writeFileSync(names[3] as string, "no workbook");
    expect((await command("recalc", ...words)).code).toBe(2);
    expect(told(lines).find(({ code }) => code !== undefined)).toMatchObject({
      workbook: names[3],
      code: "unreadable",
    });
    expect(await command("recalc", ...words)).toMatchObject({ code: 2, err: `${lines}: 0 done, 12 before\n` });
  });

  test("a run that is killed half way goes on, with nothing lost and nothing told twice", async () => {
    const { names, lines, words } = many(60);
    const run = spawn(process.execPath, ["bin/run.mjs", "recalc", ...words], { stdio: "ignore" });
    const gone = new Promise((done) => run.once("exit", done));
    // The last line may be half there, at any time.
    const ended = () => (existsSync(lines) ? readFileSync(lines, "utf8").split("\n").length - 1 : 0);
    while (run.exitCode === null && ended() < 15) await new Promise((done) => setTimeout(done, 20)); // prettier-ignore
    run.kill("SIGKILL");
    await gone;
    expect(ended()).toBeLessThan(60);
    await command("recalc", ...words);
    expect(told(lines).map(({ workbook }) => workbook).sort()).toEqual([...names].sort()); // prettier-ignore
  });

  test("a list may come by standard input; mistakes in the call are told", async () => {
    const { list, copies, lines, folder } = given;
    const input = readFileSync(list, "utf8");
    const piped = spawnSync(process.execPath, ["bin/run.mjs", "recalc", "--from", "-", "--json"], { input, encoding: "utf8" }); // prettier-ignore
    expect(piped.stdout.trimEnd().split("\n")).toHaveLength(12);
    const empty = join(folder, "empty.txt");
    writeFileSync(empty, "\n");
    mkdirSync(join(folder, "other"));
    copyFileSync(sound, join(folder, "other", "book-1.xlsx"));
    const refused: [string[], RegExp][] = [
      [["--from", empty], /names no workbook/],
      [["--from", join(folder, "none.txt")], /cannot be read/],
      [["--from", list, "--out-dir", copies, "--out", "x.xlsx"], /--out or --out-dir, not both/],
      [["--from", list, "--out-dir", folder], /is the original/],
      [["--from", list, join(folder, "other", "book-1.xlsx"), "--out-dir", copies], /would be one file/],
      [["--from", list, "--resume", lines, "--report", "r.html"], /cannot go with --resume/],
    ];
    for (const [words, message] of refused) {
      const { code, err } = await command("recalc", ...words);
      expect([words, code]).toEqual([words, 2]);
      expect(err).toMatch(message);
    }
  });
});

const has = (name: string) => spawnSync(name, ["--version"]).status === 0;

/** Many processes start one after the other here. */
const PATIENCE = 240_000;

describe("the files of the guide", { timeout: PATIENCE }, () => {
  const files = resolve("src/guide/many-workbooks");
  const recalc = `${process.execPath} ${resolve("bin/run.mjs")} recalc`;

  test.skipIf(!has("parallel"))("batches.sh works through a list, and again after a stop", () => {
    const { folder, list, names } = many(60);
    // The command in the place of the installed one.
    const command = join(folder, "recalc");
    writeFileSync(command, `#!/bin/sh\nexec ${recalc} "$@"\n`, { mode: 0o755 });
    const audit = join(folder, "audit");
    const run = () => spawnSync("sh", [join(files, "batches.sh"), list, audit], { encoding: "utf8", env: { ...process.env, RECALC: command } }); // prettier-ignore
    expect(run()).toMatchObject({ status: 0, stdout: expect.stringContaining("60 of 60 workbooks told") as string });
    expect(readdirSync(join(audit, "lines")).sort()).toEqual(["00000.jsonl", "00001.jsonl"]);
    // As after a kill in the second batch.
    rmSync(join(audit, "jobs.log"));
    const second = join(audit, "lines", "00001.jsonl");
    const lines = readFileSync(second, "utf8");
    writeFileSync(second, lines.slice(0, lines.length / 2));
    expect(run().status).toBe(0);
    const all = readdirSync(join(audit, "lines")).flatMap((file) => told(join(audit, "lines", file)));
    expect(all.map(({ workbook }) => workbook).sort()).toEqual([...names].sort());
    expect(readdirSync(join(audit, "copies"))).toHaveLength(60);
  });

  test.skipIf(!has("make"))("Makefile does the same", () => {
    const { folder, list, names } = many(60);
    const words = ["-f", join(files, "Makefile"), `LIST=${list}`, `OUT=${join(folder, "audit")}`, `RECALC=${recalc}`];
    const made = spawnSync("make", words, { encoding: "utf8" });
    expect([made.status, made.status === 0 ? "" : made.stderr]).toEqual([0, ""]);
    const lines = join(folder, "audit", "lines");
    const all = readdirSync(lines).filter((file) => file.endsWith(".jsonl")).flatMap((file) => told(join(lines, file))); // prettier-ignore
    expect(all.map(({ workbook }) => workbook).sort()).toEqual([...names].sort());
    expect(spawnSync("make", words, { encoding: "utf8" }).stdout).toContain("Nothing to be done");
  });

  test("job.yaml names the same command and is indexed", () => {
    const text = readFileSync(join(files, "job.yaml"), "utf8");
    expect(text).toMatch(/^apiVersion: batch\/v1\nkind: Job$/m);
    expect(text).toContain("completionMode: Indexed");
    expect(text).toContain('recalc --from "batches/$batch" --out-dir copies --resume "lines/$batch.jsonl"');
    expect(text).not.toContain("\t");
  });
});
