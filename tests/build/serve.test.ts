import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { createServer, request, type Server } from "node:http";
import type { AddressInfo } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { serveFolder } from "../../src/build/static.mjs";

describe("the development server", () => {
  let folder: string;
  let server: Server;
  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), "served-"));
    mkdirSync(join(folder, "dist", "guide"), { recursive: true });
    writeFileSync(join(folder, "secret.json"), "{}");
    writeFileSync(join(folder, "dist", "functions.json"), "{}");
    writeFileSync(join(folder, "dist", "guide", "index.html"), "<p>guide</p>");
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
  ])("answers %s with 404", async (path) => expect((await get(path)).status).toBe(404));

  test("takes nothing in", async () => expect((await get("/functions.json", "POST")).status).toBe(404));
});
