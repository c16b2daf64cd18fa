import { createReadStream, statSync } from "node:fs";
import { extname, join, normalize, sep } from "node:path";

const KINDS = {
  ".css": "text/css; charset=utf-8",
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".json": "application/json; charset=utf-8",
  ".png": "image/png",
  ".svg": "image/svg+xml",
  ".xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
  ".xml": "application/xml; charset=utf-8",
  ".zip": "application/zip",
};

/** Answers requests with the files of one folder, and with nothing outside it. */
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
    else
      createReadStream(file)
        .on("error", () => response.destroy())
        .pipe(response);
  };
}

function fileFor(folder, address) {
  let path;
  try {
    path = decodeURIComponent(address.replace(/[?#].*$/, ""));
  } catch {
    return undefined;
  }
  const file = normalize(join(folder, path.endsWith("/") ? `${path}index.html` : path));
  if (path.includes("\0") || !file.startsWith(normalize(folder + sep))) return undefined;
  return statSync(file, { throwIfNoEntry: false })?.isFile() ? file : undefined;
}
