import { dirname, resolve } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { prepare, prepareCommands } from "../src/build/prepare.mjs";

/**
 * Starts a command on any machine that has Node: installs what is missing and builds what is out of date, as far as
 * this command needs it. Standard output belongs to the command alone.
 */
const COMMANDS = ["calc", "recalc", "plain", "mend", "vary", "corpus", "demo"];

/**
 * What makes and proves the project, from its sources.
 * @type {Record<string, string>}
 */
const TOOLS = {
  workbooks: "sample-workbooks/build.ts",
  lights: "src/build/light-tables.ts",
  bench: "tests/bench/bench.ts",
  fuzz: "tests/fuzz/fuzz.ts",
  pictures: "tests/browser/pictures.ts",
};

const root = resolve(dirname(fileURLToPath(import.meta.url)), "..");
const [command = "", ...words] = process.argv.slice(2);
if (!COMMANDS.includes(command) && !Object.hasOwn(TOOLS, command)) {
  console.error(`usage: node bin/run.mjs ${[...COMMANDS, ...Object.keys(TOOLS)].join("|")} …`);
  process.exit(2);
}

// npm runs a script in the project's folder and says in INIT_CWD where the person stands.
const standing = process.env.npm_lifecycle_event === command ? process.env.INIT_CWD : undefined;
const startedIn = standing ?? process.cwd();
process.chdir(root);

// "| head" stops reading when it has enough; that is no fault.
process.stdout.on("error", (fault) => process.exit(fault.code === "EPIPE" ? 0 : 1));

process.exitCode = await (await mainOf(command))(words, startedIn);

/** @param {string} name @returns {Promise<(words: string[], startedIn: string) => Promise<number>>} */
async function mainOf(name) {
  if (COMMANDS.includes(name)) {
    await prepareCommands();
    return (await import(pathToFileURL(resolve(root, `lib/recalculate/${name}.mjs`)).href)).main;
  }
  await prepare();
  const { register } = await import("tsx/esm/api");
  register();
  return (await import(pathToFileURL(resolve(root, TOOLS[name] ?? name)).href)).main;
}
