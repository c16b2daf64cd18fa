import { execFileSync } from "node:child_process";
import { chmodSync, cpSync, mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { build } from "esbuild";
import { ts } from "../documentation/typescript.mjs";
import { compileCommands } from "./commands.mjs";

/** The commands that work on a person's own files, wherever the package is installed. */
const BINARIES = ["calc", "recalc", "plain", "mend", "vary"];

/** @param {string} name */
const STARTER = (name) => `#!/usr/bin/env node
import { main } from "../recalculate/${name}.mjs";

// "| head" stops reading when it has enough; that is no fault.
process.stdout.on("error", (fault) => process.exit(fault.code === "EPIPE" ? 0 : 1));
process.exitCode = await main(process.argv.slice(2), process.cwd());
`;

/**
 * Writes the package as a registry takes it: the commands compiled whole, the calculations as modules with types, and
 * the packed functions of a build. What the commands need is in them, so the package brings big.js alone.
 * @param {string} folder
 * @param {string} site the folder of a build
 */
export async function writePackage(folder, site) {
  rmSync(folder, { recursive: true, force: true });
  const lib = join(folder, "lib");
  await compileCommands(lib);
  await compileCalculations(lib);
  mkdirSync(join(lib, "bin"));
  for (const name of BINARIES) {
    const file = join(lib, "bin", `${name}.mjs`);
    writeFileSync(file, STARTER(name));
    chmodSync(file, 0o755);
  }
  mkdirSync(join(folder, "dist"));
  for (const file of ["functions.js", "functions.js.LEGAL.txt", "functions.json"])
    cpSync(join(site, file), join(folder, "dist", file));
  for (const file of ["LICENSE", "README.md", "MANUAL.md", "CHANGELOG.md"]) cpSync(file, join(folder, file));
  const facts = JSON.parse(readFileSync("package.json", "utf8"));
  const own = { ...facts, dependencies: { "big.js": facts.dependencies["big.js"] } };
  delete own.scripts;
  delete own.devDependencies;
  writeFileSync(join(folder, "package.json"), `${JSON.stringify(own, null, 2)}\n`);
}

/**
 * The rooms of src/trade as modules, with their types.
 * @param {string} lib
 */
async function compileCalculations(lib) {
  const entries = ts.sys.readDirectory("src/trade", [".ts"], undefined, ["*.ts", "*/index.ts"]);
  await build({
    ...{ bundle: true, splitting: true, format: "esm", platform: "neutral", target: "es2020" },
    ...{ entryPoints: entries, outdir: lib, outbase: "src", outExtension: { ".js": ".mjs" } },
    ...{ chunkNames: "trade/part-[hash]", external: ["big.js"], tsconfigRaw: {}, logLevel: "error" },
  });
  const compiler = ["node_modules/typescript-native/bin/tsc", "--project", "src/build/tsconfig.package.json"];
  execFileSync(process.execPath, [...compiler, "--outDir", lib], { stdio: "inherit" });
  // Strict resolvers want the ending of a file.
  for (const file of ts.sys.readDirectory(lib, [".d.ts"]))
    writeFileSync(file, readFileSync(file, "utf8").replace(/((?:from|import\() ?")(\.[^"]+)"/g, '$1$2.js"'));
}
