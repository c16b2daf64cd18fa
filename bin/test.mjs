import { execFileSync, spawn } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname } from "node:path";
import { prepare } from "../src/build/prepare.mjs";

/**
 * Types and style are checked beside the tests, and what they say is told at the end; words go to the test runner. What
 * nobody imports is looked for where everything is; elsewhere what was right is right until a file changes.
 */
await prepare();
const words = process.argv.slice(2);
const whole = process.env.CASES === "full";
const RIGHT = "node_modules/.cache/right";
const digest = whole ? undefined : digestOfFiles();
const beside = digest !== undefined && digest === digestKept() ? Promise.resolve([]) : checked();
const { status } = await run(process.execPath, ["node_modules/vitest/vitest.mjs", "run", ...words], "inherit");
const checks = await beside;
for (const { said } of checks) process.stderr.write(said);
process.exitCode = Math.max(status, ...checks.map((check) => check.status));

async function checked() {
  const types = await run("npm", ["run", "-s", "types"]);
  const style = await run("npm", ["run", "-s", whole ? "lint" : "style"]);
  if (digest !== undefined && types.status === 0 && style.status === 0) {
    mkdirSync(dirname(RIGHT), { recursive: true });
    writeFileSync(RIGHT, digest);
  }
  return [types, style];
}

/** Of every file that git does not ignore; nothing outside a clone. */
function digestOfFiles() {
  try {
    const names = execFileSync("git", ["ls-files", "-z", "--cached", "--others", "--exclude-standard"], {
      encoding: "utf8",
      stdio: ["ignore", "pipe", "ignore"],
    });
    const hash = createHash("sha256").update(names);
    for (const name of names.split("\0").filter(Boolean)) hash.update(readFileSync(name)).update("\0");
    return hash.digest("hex");
  } catch {
    return undefined;
  }
}

function digestKept() {
  return existsSync(RIGHT) ? readFileSync(RIGHT, "utf8") : undefined;
}

/**
 * @param {string} command
 * @param {string[]} words
 * @param {import("node:child_process").StdioOptions} [stdio]
 * @returns {Promise<{ status: number, said: string }>}
 */
function run(command, words, stdio = ["ignore", "pipe", "pipe"]) {
  return new Promise((done) => {
    /** @type {import("node:child_process").ChildProcess} */
    const child = spawn(command, words, { stdio, shell: command === "npm" && process.platform === "win32" });
    let said = "";
    for (const stream of [child.stdout, child.stderr]) stream?.on("data", (text) => (said += text));
    child.on("error", (fault) => done({ status: 1, said: `${fault.message}\n` }));
    child.on("exit", (code) => done({ status: code ?? 1, said }));
  });
}
