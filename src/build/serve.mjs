import { spawn } from "node:child_process";
import { watch } from "node:fs";
import { createServer } from "node:http";
import { createServer as createSecureServer } from "node:https";
import { join, resolve } from "node:path";
import { folderFor } from "./addresses.mjs";
import { DIST_FROM } from "./built-from.mjs";
import { installPackages } from "./install.mjs";
import { serveFolder } from "./static.mjs";

/**
 * Builds, serves what was built on this computer, rebuilds when a file changes, and says how to try the add-in.
 * --port 3001 serves on another port, --plain serves without a certificate, --runtime shared is handed on to the build.
 */
const port = Number(option("--port") ?? 3000);
const origin = `https://localhost:${port}`;
const folder = resolve(folderFor(origin));

installPackages({ all: true });
if (!(await build())) process.exit(1);
const certificate = process.argv.includes("--plain") ? undefined : await trustedCertificate();
const answer = serveFolder(folder);
const server = certificate ? createSecureServer(certificate, answer) : createServer(answer);
server.on("error", (fault) => {
  console.error(fault.message);
  process.exit(1);
});
server.listen(port, "localhost", () => {
  console.log(certificate ? overHttps() : overHttp());
  // Whoever started this as a child waits for it.
  process.send?.({ secure: certificate !== undefined });
  rebuildOnChange();
});

/** @param {string} name */
function option(name) {
  const place = process.argv.indexOf(name);
  return place > 0 ? process.argv[place + 1] : undefined;
}

/** In a process of its own, so that every rebuild reads every file anew. */
function build() {
  return new Promise((done) => {
    const runtime = option("--runtime") ?? "own";
    const words = ["src/build/build.mjs", "--origin", origin, "--runtime", runtime];
    const child = spawn(process.execPath, words, { stdio: "inherit" });
    child.on("exit", (code) => done(code === 0));
  });
}

/** A certificate for localhost that this computer trusts; undefined where none can be made, with the reason said. */
async function trustedCertificate() {
  try {
    const { getHttpsServerOptions } = await import("office-addin-dev-certs");
    return await getHttpsServerOptions();
  } catch (fault) {
    console.error(`No certificate for localhost could be made: ${fault instanceof Error ? fault.message : fault}`);
    return undefined;
  }
}

function rebuildOnChange() {
  /** @type {NodeJS.Timeout | undefined} */
  let waiting;
  let building = false;
  let again = false;
  const rebuild = async () => {
    if (building) {
      again = true;
      return;
    }
    building = true;
    do {
      again = false;
      const started = Date.now();
      if (await build()) console.log(`Built again in ${((Date.now() - started) / 1000).toFixed(1)} s.`);
    } while (again);
    building = false;
  };
  for (const path of DIST_FROM) {
    watch(path, { recursive: true }, () => {
      clearTimeout(waiting);
      waiting = setTimeout(rebuild, 200);
    });
  }
}

function overHttp() {
  return `
Guide: http://localhost:${port}/guide/index.html

Served over plain http, without a certificate: good for the guide. Excel loads an add-in over https only, so the
manifest says ${origin}; run "npm start" where a certificate can be made to try the add-in in Excel.
`;
}

function overHttps() {
  return `
Guide:    ${origin}/guide/index.html
Manifest: ${join(folder, "manifest.xml")}

To try the add-in while this runs (npm run sideload does it on Windows and on a Mac):
  Excel on Windows  Share a folder of this computer and copy manifest.xml into it. File > Options > Trust Center >
                    Trust Center Settings > Trusted Add-in Catalogs: add the folder's network path, tick "Show in
                    Menu". Start Excel again. Home > Add-ins > More Add-ins > Shared Folder.
  Excel on a Mac    Copy manifest.xml into ~/Library/Containers/com.microsoft.Excel/Data/Documents/wef (make the
                    folder if it is missing). Start Excel again. Home > Add-ins: it stands among the developer add-ins.
  Excel on the web  Home > Add-ins > More Add-ins > My Add-ins > Upload My Add-in: choose manifest.xml.
Then type =YARN.VERSION() in a cell. Press Ctrl+C here to stop.
`;
}
