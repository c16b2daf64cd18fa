import {
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readlinkSync,
  realpathSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { createServer, request, type Server } from "node:http";
import { connect, type AddressInfo } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { serveFolder } from "../../src/build/static.mjs";

/** More than the system takes in before anybody reads. */
const LARGE = 2 ** 25;

/** How often a file is open in this process, as the system says. */
function timesOpen(file: string): number {
  return readdirSync("/proc/self/fd").filter((number) => {
    try {
      return readlinkSync(`/proc/self/fd/${number}`) === file;
    } catch {
      return false;
    }
  }).length;
}

async function until(holds: () => boolean): Promise<boolean> {
  for (let tries = 0; tries < 200 && !holds(); tries++) await new Promise((done) => setTimeout(done, 25));
  return holds();
}

describe("the development server", () => {
  let folder: string;
  let server: Server;
  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), "served-"));
    mkdirSync(join(folder, "dist", "guide"), { recursive: true });
    writeFileSync(join(folder, "secret.json"), "{}");
    writeFileSync(join(folder, "dist", "functions.json"), "{}");
    writeFileSync(join(folder, "dist", "guide", "index.html"), "<p>guide</p>");
    mkdirSync(join(folder, "dist-of-another"));
    writeFileSync(join(folder, "dist-of-another", "page.html"), "another");
    writeFileSync(join(folder, "dist", "large.xlsx"), Buffer.alloc(LARGE));
    symlinkSync(join(folder, "secret.json"), join(folder, "dist", "file-link.json"));
    symlinkSync(folder, join(folder, "dist", "folder-link"), "junction");
    symlinkSync(join(folder, "dist", "guide"), join(folder, "dist", "inner-link"), "junction");
    server = createServer(serveFolder(join(folder, "dist")));
    await new Promise<void>((listening) => server.listen(0, "127.0.0.1", listening));
  });
  afterAll(async () => {
    await new Promise((closed) => server.close(closed));
    rmSync(folder, { recursive: true });
  });

  /** The path as it is, without the tidying that fetch does. */
  function get(
    path: string,
    method = "GET",
  ): Promise<{ status: number; kind: string; anyOrigin: string; body: string }> {
    const { port } = server.address() as AddressInfo;
    return new Promise((answered, failed) => {
      request({ port, host: "127.0.0.1", path, method, agent: false }, (response) => {
        let body = "";
        response.on("data", (part) => (body += part));
        response.on("end", () =>
          answered({
            status: response.statusCode ?? 0,
            kind: response.headers["content-type"] ?? "",
            anyOrigin: response.headers["access-control-allow-origin"] ?? "",
            body,
          }),
        );
      })
        .on("error", failed)
        .end();
    });
  }

  test("serves files with their kind, to any origin", async () => {
    expect(await get("/functions.json?v=1")).toEqual({
      status: 200,
      kind: "application/json; charset=utf-8",
      anyOrigin: "*",
      body: "{}",
    });
    expect(await get("/guide/")).toMatchObject({ status: 200, kind: "text/html; charset=utf-8", body: "<p>guide</p>" });
    expect(await get("/guide/index.html", "HEAD")).toMatchObject({ status: 200, body: "" });
  });

  test.each([
    "/nothing.html",
    "/guide",
    "/../secret.json",
    "/%2e%2e/secret.json",
    "/..%2fsecret.json",
    "/guide/../../secret.json",
    "/%",
    "/functions.json%00.png",
    "/functions.json/x",
    "/functions.json/",
    `/${"a".repeat(5000)}`,
    `/${"a/".repeat(3000)}`,
    "//",
    "*",
    "/file-link.json",
    "/folder-link/secret.json",
    "/../dist-of-another/page.html",
  ])("answers %.40s with 404 and goes on", async (path) => {
    expect((await get(path)).status).toBe(404);
    expect((await get("/functions.json")).status).toBe(200);
  });

  test("follows a link that stays inside", async () =>
    expect(await get("/inner-link/index.html")).toMatchObject({ status: 200, body: "<p>guide</p>" }));

  test("answers with 404 while its folder is put in place", async () => {
    const absent = createServer(serveFolder(join(folder, "not-yet")));
    await new Promise<void>((listening) => absent.listen(0, "127.0.0.1", listening));
    const { port } = absent.address() as AddressInfo;
    expect((await fetch(`http://127.0.0.1:${port}/functions.json`)).status).toBe(404);
    await new Promise((closed) => absent.close(closed));
  });

  test.runIf(process.platform === "linux")("closes the file of a download that is broken off", async () => {
    const file = join(realpathSync(folder), "dist", "large.xlsx");
    const { port } = server.address() as AddressInfo;
    const reader = connect(port, "127.0.0.1");
    reader.write("GET /large.xlsx HTTP/1.1\r\nHost: localhost\r\n\r\n");
    await new Promise((came) => reader.once("data", came));
    reader.pause();
    expect(await until(() => timesOpen(file) === 1)).toBe(true);
    reader.destroy();
    expect(await until(() => timesOpen(file) === 0)).toBe(true);
    expect((await get("/functions.json")).status).toBe(200);
  });

  test("takes nothing in", async () => expect((await get("/functions.json", "POST")).status).toBe(404));
});
