import { existsSync, mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { basename, dirname, relative, resolve } from "node:path";
import { pathToFileURL } from "node:url";
import { compileFunction } from "node:vm";
import { declareClassPlugin, PluginKind } from "@stryker-mutator/api/plugin";
import {
  determineHitLimitReached,
  DryRunStatus,
  TestStatus,
  toMutantRunResult,
} from "@stryker-mutator/api/test-runner";
import { chai, expect as vitestExpect, vi } from "vitest";
import { buildConstants } from "./constants.mjs";

/**
 * Runs the tests of StrykerJS's mutants in the process that is there already: each file of tests is bundled once, with
 * the sources that hold all mutants at once, and loaded anew for each. To start vitest for each takes twenty times as long.
 *
 * @typedef {import("@stryker-mutator/api/test-runner").TestResult} TestResult
 * @typedef {{ id: string, name: string, file: string, body: () => unknown }} Test
 * @typedef {(require: (name: string) => unknown, module: object, exports: object) => void} Loaded
 */

const HERE = process.cwd();
const require = createRequire(`${HERE}/package.json`);
process.env.ONLY_SOURCES = "1";
process.env.CASES ??= "12";

/** What StrykerJS writes into the sources reads and writes this. */
const stryker =
  /** @type {{ activeMutant?: string | undefined, currentTestId?: string | undefined, mutantCoverage?: any, hitCount?: number | undefined, hitLimit?: number | undefined }} */ (
    /** @type {any} */ (globalThis).__stryker__ ??= {}
  );

/** Vitest's own, without its count of what was expected of each test, which takes as long again. */
const expect = Object.assign(
  (/** @type {unknown} */ value, /** @type {string | undefined} */ message) => chai.expect(value, message),
  vitestExpect,
);

/** The tests of the file that is being loaded, under the names of what they stand in. */
const collected = { file: "", names: /** @type {string[]} */ ([]), tests: /** @type {Test[]} */ ([]) };

/** @param {string} name @param {() => unknown} body */
function test(name, body) {
  const { file, names, tests } = collected;
  tests.push({ id: `${file}#${tests.length}`, name: [...names, name].join(" "), file, body });
}

/** @param {string} name @param {() => void} body */
function describe(name, body) {
  collected.names.push(name);
  body();
  collected.names.pop();
}

/** @param {(name: string, body: () => unknown) => void} one */
const each =
  (one) =>
  (/** @type {unknown[]} */ cases) =>
  (/** @type {string} */ name, /** @type {(...values: unknown[]) => unknown} */ body) =>
    cases.forEach((values) => one(name, () => (Array.isArray(values) ? body(...values) : body(values))));

const VITEST = {
  test: Object.assign(test, {
    each: each(test),
    runIf: (/** @type {unknown} */ asked) => (asked ? test : () => {}),
  }),
  describe: Object.assign(describe, { each: each(describe) }),
  expect,
  vi,
};

const BUNDLES = ".bundles";

/** @type {Map<string, Loaded>} */
const bundles = new Map();

/** @param {string} file @returns {Promise<Loaded>} */
async function bundleOf(file) {
  const known = bundles.get(file);
  if (known !== undefined) return known;
  // Beside the sources with the mutants, where the next process finds it: each that runs out of time ends its own.
  const stored = resolve(BUNDLES, file);
  if (!existsSync(stored)) {
    mkdirSync(dirname(stored), { recursive: true });
    writeFileSync(`${stored}.${process.pid}`, await bundled(file));
    renameSync(`${stored}.${process.pid}`, stored);
  }
  const code = readFileSync(stored, "utf8");
  const bundle = /** @type {Loaded} */ (compileFunction(code, ["require", "module", "exports"], { filename: file }));
  bundles.set(file, bundle);
  return bundle;
}

/** @param {string} file */
async function bundled(file) {
  const [{ build }, { documentedFunctions }] = await Promise.all([
    import("esbuild"),
    import("../documentation/docblocks.mjs"),
  ]);
  const { outputFiles } = await build({
    stdin: { contents: `import "./tests/support/runtime"; import "./${file}";`, resolveDir: HERE, loader: "ts" },
    bundle: true,
    write: false,
    format: "cjs",
    platform: "node",
    target: "node20",
    define: buildConstants(documentedFunctions(), "0.0.0"),
    plugins: [
      {
        name: "packages from outside, few random cases, every file in its place",
        setup({ onResolve, onLoad }) {
          onLoad({ filter: /\.(ts|mjs)$/ }, ({ path }) => ({
            contents: readFileSync(path, "utf8")
              .replaceAll("import.meta.url", JSON.stringify(pathToFileURL(path).href))
              .replaceAll("import.meta.dirname", JSON.stringify(dirname(path))),
            loader: "ts",
          }));
          onResolve({ filter: /^fast-check$/ }, () => ({ path: resolve("tests/support/random-cases.ts") }));
          onResolve({ filter: /fast-check\.js$/ }, () => ({ path: "fast-check", external: true }));
          onResolve({ filter: /^[^./]/ }, ({ path }) => ({ path, external: true }));
        },
      },
    ],
  });
  return /** @type {{ text: string }} */ (outputFiles[0]).text;
}

/** The tests of a file, on modules of their own that no mutant has touched. @param {string} file */
async function testsOf(file) {
  const bundle = await bundleOf(file);
  const started = performance.now();
  Object.assign(collected, { file, names: [], tests: [] });
  const module = { exports: {} };
  bundle((name) => (name === "vitest" ? VITEST : require(name)), module, module.exports);
  milliseconds.set(file, performance.now() - started);
  return collected.tests;
}

/** How long each test took when it last ran, and each file of tests to load: the first failure ends a mutant, so what is quick comes first. */
const milliseconds = /** @type {Map<string, number>} */ (new Map());

/** @param {Test} test @returns {Promise<TestResult>} */
async function resultOf({ id, name, file, body }) {
  const started = performance.now();
  /** @type {string | undefined} */
  let failure;
  stryker.currentTestId = id;
  try {
    await body();
  } catch (thrown) {
    failure = String(thrown);
  }
  stryker.currentTestId = undefined;
  const timeSpentMs = performance.now() - started;
  milliseconds.set(id, timeSpentMs);
  const result = { id, name, fileName: resolve(HERE, file), timeSpentMs };
  return failure === undefined
    ? { ...result, status: TestStatus.Success }
    : { ...result, status: TestStatus.Failed, failureMessage: failure };
}

class InThisProcess {
  static inject = /** @type {[]} */ ([]);

  capabilities() {
    return { reloadEnvironment: true };
  }

  /** Every test once, without a mutant, to see which mutants each one meets. @param {{ testFiles?: string[] }} given @returns {Promise<import("@stryker-mutator/api/test-runner").DryRunResult>} */
  async dryRun({ testFiles = [] }) {
    rmSync(BUNDLES, { recursive: true, force: true });
    stryker.mutantCoverage = { static: {}, perTest: {} };
    const tests = [];
    if (testFiles.length === 0) throw new Error("say which tests to run: --testFiles tests/…");
    for (const file of testFiles) {
      for (const test of await testsOf(relative(HERE, resolve(file)))) tests.push(await resultOf(test));
    }
    return { status: DryRunStatus.Complete, tests, mutantCoverage: stryker.mutantCoverage };
  }

  /** The tests that meet a mutant, until one fails. @param {import("@stryker-mutator/api/test-runner").MutantRunOptions} given */
  async mutantRun({ testFilter = [], activeMutant, hitLimit }) {
    /** @type {TestResult[]} */
    const tests = [];
    Object.assign(stryker, { mutantCoverage: undefined, hitCount: hitLimit === undefined ? undefined : 0, hitLimit });
    const failed = () => tests.some(({ status }) => status === TestStatus.Failed);
    const idea = basename(activeMutant.fileName, ".ts");
    const wait = /** @type {Map<string, number>} */ (new Map());
    for (const id of testFilter) {
      const file = id.slice(0, id.indexOf("#"));
      wait.set(file, (wait.get(file) ?? milliseconds.get(file) ?? 0) + (milliseconds.get(id) ?? 0));
    }
    // The tests of the mutated file itself come first, then the quick files.
    for (const file of wait.keys()) if (basename(file).startsWith(`${idea}.`)) wait.set(file, 0);
    for (const [file] of [...wait].sort(([, a], [, b]) => a - b)) {
      const meeting = (await testsOf(file)).filter(({ id }) => testFilter.includes(id));
      meeting.sort((a, b) => (milliseconds.get(a.id) ?? 0) - (milliseconds.get(b.id) ?? 0));
      stryker.activeMutant = activeMutant.id;
      for (const test of meeting) if (!failed()) tests.push(await resultOf(test));
      stryker.activeMutant = undefined;
      if (failed()) break;
    }
    const endless = determineHitLimitReached(stryker.hitCount, hitLimit);
    return toMutantRunResult(endless ?? { status: DryRunStatus.Complete, tests });
  }
}

export const strykerPlugins = [declareClassPlugin(PluginKind.TestRunner, "in-this-process", InThisProcess)];
