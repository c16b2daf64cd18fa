import { build } from "esbuild";
import { madeInPlace } from "./in-place.mjs";
import { withLicences } from "./with-licences.mjs";

/** The commands of src/recalculate, and the process that does their work. */
export const COMMANDS = ["calc", "recalc", "plain", "mend", "vary", "corpus", "demo"];

/**
 * Compiles the commands into lib, whole: they start in a fraction of the time that loading their sources and packages
 * file by file would take. Every file lies as deep as its source, so that what it finds beside itself is there.
 */
export async function compileCommands(out = "lib") {
  await madeInPlace(out, async (fresh) => {
    await build({
      ...{ bundle: true, splitting: true, minify: true, format: "esm", platform: "node", target: "node20" },
      entryPoints: [...[...COMMANDS, "child"].map((name) => `src/recalculate/${name}.ts`), "src/build/examples.ts"],
      ...{ outdir: fresh, outbase: "src", outExtension: { ".js": ".mjs" }, chunkNames: "recalculate/part-[hash]" },
      ...{ tsconfigRaw: {}, plugins: [withLicences], legalComments: "linked", logLevel: "error" },
    });
  });
}
