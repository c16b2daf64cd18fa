import { readFileSync } from "node:fs";
import { join } from "node:path";
import { BUNDLED } from "./licences.mjs";

/**
 * A package whose file does not carry its licence gets it as the comment that the packer keeps.
 * @type {import("esbuild").Plugin}
 */
export const withLicences = {
  name: "with-licences",
  setup({ onLoad }) {
    for (const name of BUNDLED) {
      const folder = new RegExp(`node_modules[\\\\/]${name.replace(".", "\\.")}[\\\\/][^\\\\/]+\\.mjs$`);
      onLoad({ filter: folder }, ({ path }) => {
        const licence = readFileSync(join("node_modules", name, "LICENCE.md"), "utf8");
        return { contents: `/*! ${name}\n\n${licence}*/\n${readFileSync(path, "utf8")}`, loader: "js" };
      });
    }
  },
};
