import { existsSync } from "node:fs";
import { dirname, resolve } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { prepare } from "../src/build/prepare.mjs";

/**
 * Starts a command on any machine that has Node: installs what is missing, builds what is out of date, then hands over
 * to the TypeScript of the command. Standard output belongs to the command alone.
 */
const COMMANDS = {
  calc: "src/recalculate/calc.ts",
  recalc: "src/recalculate/recalc.ts",
  plain: "src/recalculate/plain.ts",
  mend: "src/recalculate/mend.ts",
  vary: "src/recalculate/vary.ts",
  corpus: "src/recalculate/corpus.ts",
  demo: "src/recalculate/demo.ts",
  workbooks: "sample-workbooks/build.ts",
  bench: "tests/bench/bench.ts",
  fuzz: "tests/fuzz/fuzz.ts",
};

const root = resolve(dirname(fileURLToPath(import.meta.url)), "..");
const [command, ...words] = process.argv.slice(2);
const file = Object.hasOwn(COMMANDS, command ?? "") ? resolve(root, COMMANDS[command]) : undefined;
if (file === undefined || !existsSync(file)) {
  console.error(`usage: node bin/run.mjs ${Object.keys(COMMANDS).join("|")} …`);
  process.exit(2);
}

// npm runs a script in the project's folder and says in INIT_CWD where the person stands.
const standing = process.env.npm_lifecycle_event === command ? process.env.INIT_CWD : undefined;
const startedIn = standing ?? process.cwd();
process.chdir(root);

// "| head" stops reading when it has enough; that is no fault.
process.stdout.on("error", (fault) => process.exit(fault.code === "EPIPE" ? 0 : 1));

await prepare();
const { register } = await import("tsx/esm/api");
register();
const { main } = await import(pathToFileURL(file).href);
process.exitCode = await main(words, startedIn);
