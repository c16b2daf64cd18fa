import { existsSync } from "node:fs";
import { dirname, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { prepare } from "../build/prepare.mjs";

/**
 * Starts a command of this folder on any machine that has Node: installs what is missing, builds what is out of date,
 * then hands over to the TypeScript of the command. Standard output belongs to the command alone.
 */
const COMMANDS = {
  calc: "./calc.ts",
  recalc: "./recalc.ts",
  plain: "./plain.ts",
  mend: "./mend.ts",
  vary: "./vary.ts",
  demo: "./demo.ts",
  workbooks: "../../sample-workbooks/build.ts",
  bench: "../../tests/bench/bench.ts",
  fuzz: "../../tests/fuzz/fuzz.ts",
};

const [command, ...words] = process.argv.slice(2);
const file = COMMANDS[command];
if (file === undefined || !existsSync(fileURLToPath(new URL(file, import.meta.url)))) {
  console.error(`usage: node src/recalculate/run.mjs ${Object.keys(COMMANDS).join("|")} …`);
  process.exit(2);
}

// npm runs a script in the project's folder and says in INIT_CWD where the person stands.
const standing = process.env.npm_lifecycle_event === command ? process.env.INIT_CWD : undefined;
const startedIn = standing ?? process.cwd();
process.chdir(resolve(dirname(fileURLToPath(import.meta.url)), "../.."));

// "| head" stops reading when it has enough; that is no fault.
process.stdout.on("error", (fault) => process.exit(fault.code === "EPIPE" ? 0 : 1));

await prepare();
const { register } = await import("tsx/esm/api");
register();
const { main } = await import(new URL(file, import.meta.url).href);
process.exitCode = await main(words, startedIn);
