import { spawn } from "node:child_process";
import { prepare } from "../src/build/prepare.mjs";

/**
 * Types and style are checked beside the tests, and what they say is told at the end; words go to the test runner. What
 * nobody imports is looked for where everything is.
 */
await prepare();
const words = process.argv.slice(2);
const beside = run("npm", ["run", "-s", "types"]).then(async (types) => [
  types,
  await run("npm", ["run", "-s", process.env.CASES === "full" ? "lint" : "style"]),
]);
const { status } = await run(process.execPath, ["node_modules/vitest/vitest.mjs", "run", ...words], "inherit");
const checks = await beside;
for (const { said } of checks) process.stderr.write(said);
process.exitCode = Math.max(status, ...checks.map((check) => check.status));

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
