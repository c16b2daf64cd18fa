import { createReadStream, realpathSync, statSync } from "node:fs";
import { extname, join, sep } from "node:path";
import { pipeline } from "node:stream";

/** @type {Record<string, string>} */
const KINDS = {
  ".css": "text/css; charset=utf-8",
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".oxt": "application/vnd.openofficeorg.extension",
  ".json": "application/json; charset=utf-8",
  ".png": "image/png",
  ".svg": "image/svg+xml",
  ".xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
  ".xml": "application/xml; charset=utf-8",
  ".zip": "application/zip",
};

/**
 * Answers requests with the files of one folder, and with nothing outside it.
 * @param {string} folder
 * @returns {import("node:http").RequestListener}
 */
export function serveFolder(folder) {
  return (request, response) => {
    const file = fileFor(folder, request.url ?? "/");
    if (file === undefined || !["GET", "HEAD"].includes(request.method ?? "")) {
      response.writeHead(404, { "Content-Type": "text/plain; charset=utf-8" }).end("There is no such file here.\n");
      return;
    }
    response.writeHead(200, {
      "Content-Type": KINDS[extname(file)] ?? "application/octet-stream",
      "Cache-Control": "no-cache",
      // Excel on the web reads functions.json from another origin.
      "Access-Control-Allow-Origin": "*",
    });
    if (request.method === "HEAD") response.end();
    // Whichever of the two ends first closes the other: a download that is broken off leaves no file open.
    else pipeline(createReadStream(file), response, () => {});
  };
}

/**
 * The file for an address, or nothing: also where the address cannot be one, or a link leads out of the folder.
 * @param {string} folder
 * @param {string} address
 */
function fileFor(folder, address) {
  try {
    const path = decodeURIComponent(address.replace(/[?#].*$/, ""));
    const inside = realpathSync(folder) + sep;
    const file = realpathSync(join(folder, path.endsWith("/") ? `${path}index.html` : path));
    return file.startsWith(inside) && statSync(file).isFile() ? file : undefined;
  } catch {
    // Half an escape, a zero byte, a file taken for a folder, a name longer than the disk allows, a file just gone …
    return undefined;
  }
}
