import { fork } from "node:child_process";
import { join } from "node:path";
import { DEFAULT_ORIGIN, folderFor } from "./addresses.mjs";
import { installPackages } from "./install.mjs";

/**
 * Loads the add-in into Excel on this computer while its local server runs, and takes it out again on Ctrl+C.
 * --stop takes out what was left behind; --runtime shared is handed on to the build.
 */

const MANIFEST = join(folderFor(DEFAULT_ORIGIN), "manifest.xml");

/**
 * Registers the manifest and opens a workbook with it.
 * @param {{ sideloadAddIn: Function }} tools office-addin-dev-settings
 * @param {(file: string) => Promise<{ isValid: boolean }>} validate says no, or throws with the reason
 */
export async function load(tools, validate, manifest = MANIFEST) {
  // The check of the XML manifest asks a server of Microsoft; the unified one holds the same facts and is checked here.
  const { isValid } = await validate(manifest.replace(/\.xml$/, ".json"));
  if (!isValid) throw new Error(`${manifest} is not valid`);
  await tools.sideloadAddIn(manifest, "excel");
}

/** @param {{ unregisterAddIn: (manifest: string) => Promise<void> }} tools office-addin-dev-settings */
export async function unload(tools, manifest = MANIFEST) {
  await tools.unregisterAddIn(manifest);
}

/** Why Excel cannot be reached from here; nothing where it can. */
export function hindrance(platform = process.platform) {
  if (["win32", "darwin"].includes(platform)) return undefined;
  return `Excel for the desktop runs on Windows and on a Mac. For Excel on the web: npm start, then Home > Add-ins >
More Add-ins > My Add-ins > Upload My Add-in, and choose ${MANIFEST}.`;
}

/** The local server in a process of its own; comes back when it serves over https. */
function server() {
  const passedOn = process.argv.slice(2);
  const child = fork("src/build/serve.mjs", passedOn, { stdio: ["ignore", "inherit", "inherit", "ipc"] });
  return new Promise((serving, failed) => {
    child.once("message", (message) => {
      if (/** @type {{ secure: boolean }} */ (message).secure) return serving(child);
      child.kill();
      failed(new Error("Excel loads add-ins over https only, and no certificate could be made"));
    });
    child.once("exit", () => failed(new Error("the server has ended")));
  });
}

async function main() {
  const why = hindrance();
  if (why !== undefined) throw new Error(why);
  installPackages({ all: true });
  const tools = await import("office-addin-dev-settings");
  if (process.argv.includes("--stop")) {
    await unload(tools);
    console.log("The add-in is taken out of Excel; start Excel again. The certificate of localhost stays trusted:");
    console.log("npx office-addin-dev-certs uninstall takes that back.");
    return;
  }
  const { validateManifest } = await import("office-addin-manifest");
  const child = await server();
  const stop = () => {
    child.kill();
    unload(tools).then(
      () => process.exit(0),
      () => process.exit(1),
    );
  };
  process.once("SIGINT", stop);
  process.once("SIGTERM", stop);
  await load(tools, validateManifest).catch((fault) => {
    child.kill();
    throw fault;
  });
  console.log("Excel opens a workbook with the add-in. Press Ctrl+C here to stop and take it out again.");
}

if (process.argv[1]?.endsWith("sideload.mjs")) {
  main().catch((fault) => {
    console.error(fault instanceof Error ? fault.message : fault);
    process.exit(1);
  });
}
