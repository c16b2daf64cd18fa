import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import type Net from "node:net";
import { createContext, runInContext } from "node:vm";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { documentedFunctions } from "../../src/documentation/docblocks.mjs";
import { BUNDLED, licences } from "../../src/build/licences.mjs";
import { customFunctionsRuntime, type Implementation } from "../../src/recalculate/bundle";
import { evaluate, CellError } from "../../src/recalculate/engine";

const { dependencies, devDependencies } = JSON.parse(readFileSync("package.json", "utf8")) as Record<
  "dependencies" | "devDependencies",
  Record<string, string>
>;
const lock = JSON.parse(readFileSync("package-lock.json", "utf8")) as {
  packages: Record<string, { version: string; dev?: boolean; hasInstallScript?: boolean; integrity?: string }>;
};

describe("dependencies", () => {
  test("are pinned to one version each, and the lock file has that version with its checksum", () => {
    for (const [name, version] of Object.entries({ ...dependencies, ...devDependencies })) {
      // One package can be there twice, under a name of our own for the newer one.
      expect(version, name).toMatch(/^(npm:[a-z-]+@)?\d+\.\d+\.\d+$/);
      expect(lock.packages[`node_modules/${name}`], name).toMatchObject({ version: version.split("@").at(-1) });
    }
    const unchecked = Object.entries(lock.packages).filter(([place, { integrity }]) => place !== "" && !integrity);
    expect(unchecked.map(([place]) => place)).toEqual([]);
  });

  test("of the commands are few and free to use, and bring nothing but their own parts", () => {
    const used = licences().filter(({ use }) => use !== "tests");
    // What is made for each system; the types of one packer, and a package of it without code.
    const parts = /^@esbuild\/|^@swc\/(core-|types$|counter$)/;
    const named = used.filter(({ name }) => !parts.test(name)).map(({ name }) => name);
    expect(named.sort()).toEqual(Object.keys(dependencies).sort());
    for (const { name, licence } of used)
      expect([name, licence]).toEqual([name, expect.stringMatching(/^(MIT|Apache-2.0)( AND MIT)?$/)]);
  });

  test("of the functions need no install script and are free to use", () => {
    const functions = licences().filter(({ use }) => use === "functions");
    expect(functions.map(({ name }) => name)).toEqual(BUNDLED);
    for (const { name, licence, script } of functions) {
      expect([name, licence]).toEqual([name, "MIT"]);
      expect([name, script]).toEqual([name, false]);
      const own = JSON.parse(readFileSync(`node_modules/${name}/package.json`, "utf8")) as {
        scripts?: Record<string, string>;
      };
      expect(Object.keys(own.scripts ?? {}).filter((script) => /^(pre|post)?install$/.test(script))).toEqual([]);
    }
  });

  test("state a licence each", () => {
    expect(licences().length).toBeGreaterThan(100);
    expect(licences().filter(({ licence }) => licence === "none stated")).toEqual([]);
  });
});

describe("the network", () => {
  const require = createRequire(import.meta.url);
  const attempts: string[] = [];
  const restorers: (() => void)[] = [];

  function forbid(owner: object, ownerName: string, name: string): void {
    const before = Object.getOwnPropertyDescriptor(owner, name);
    restorers.push(() =>
      before ? Object.defineProperty(owner, name, before) : delete (owner as Record<string, unknown>)[name],
    );
    Object.defineProperty(owner, name, {
      configurable: true,
      writable: true,
      value: forbidden(`${ownerName}.${name}`),
    });
  }

  function forbidden(name: string): () => never {
    return function () {
      attempts.push(name);
      throw new Error(`${name} was called`);
    };
  }

  const BROWSER = ["fetch", "XMLHttpRequest", "WebSocket", "EventSource", "WebTransport", "Worker", "importScripts"];
  const NODE: Record<string, string[]> = {
    http: ["request", "get"],
    https: ["request", "get"],
    http2: ["connect"],
    net: ["connect", "createConnection", "Socket"],
    tls: ["connect"],
    dgram: ["createSocket"],
    dns: ["lookup", "resolve"],
  };

  beforeAll(() => {
    for (const name of BROWSER) forbid(globalThis, "globalThis", name);
    for (const [module, names] of Object.entries(NODE))
      for (const name of names) forbid(require(module) as object, module, name);
  });
  afterAll(() => restorers.forEach((restore) => restore()));

  test("is really closed here", () => {
    expect(() => fetch("https://localhost")).toThrow("globalThis.fetch was called");
    expect(() => (require("net") as typeof Net).connect(1)).toThrow("net.connect was called");
    attempts.length = 0;
  });

  test("is touched neither by loading the bundle nor by any example", () => {
    const functions = new Map<string, Implementation>();
    // A context of its own, in which these names stand for nothing but the refusal.
    const closed = Object.fromEntries(
      [...BROWSER, "require", "process", "setTimeout"].map((name) => [name, forbidden(name)]),
    );
    const context = createContext({ ...closed, CustomFunctions: customFunctionsRuntime(functions) });
    runInContext(readFileSync("dist/functions.js", "utf8"), context);
    const examples = documentedFunctions().flatMap(({ examples: all }) => all.map(({ formula }) => formula));
    const outcomes = evaluate(examples, functions);
    expect(outcomes.length).toBeGreaterThan(functions.size - 1);
    expect(
      outcomes.filter((outcome) => outcome instanceof CellError && outcome.message.includes("was called")),
    ).toEqual([]);
    expect(attempts).toEqual([]);
  });
});
