import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { prepare } from "./prepare.mjs";

/**
 * What mutation testing found, file by file: kept between runs, which take hours for all files, and written as the table
 * of tests/MUTATION.md.
 *
 * @typedef {{ mutants: number, killed: number, on: string, digest: string }} Score digest: of the file that was mutated
 * @typedef {Record<string, Score>} Scores by the path of the file
 */

const REPORT = "reports/mutation.json";
const SCORES = "tests/mutation-scores.json";
const PAGE = "tests/MUTATION.md";
const [BEGIN, END] = ["<!-- scores -->\n", "\n<!-- end of scores -->"];

/** @param {string} text */
export function digestOf(text) {
  return createHash("sha256").update(text.replace(/\r\n/g, "\n")).digest("hex").slice(0, 16);
}

/**
 * The scores with those of one run: a file run again replaces what was known of it, if it was mutated whole.
 * @param {Scores} known
 * @param {{ files: Record<string, { source: string, mutants: { status: string }[] }> }} report in the form of mutation-testing-elements
 * @param {string} on the day of the run
 * @returns {Scores}
 */
export function withRun(known, report, on) {
  const scores = { ...known };
  for (const [file, { source, mutants }] of Object.entries(report.files)) {
    const counted = mutants.filter(({ status }) => ["Killed", "Timeout", "Survived", "NoCoverage"].includes(status));
    if (counted.length === 0) continue;
    const killed = counted.filter(({ status }) => status === "Killed" || status === "Timeout").length;
    scores[file] = { mutants: counted.length, killed, on, digest: digestOf(source) };
  }
  return scores;
}

/**
 * The table, with what is not known said: files that have changed since, and files that were never run.
 * @param {Scores} scores
 * @param {Record<string, string>} sources the text of every file that can be mutated, by its path
 */
export function scoreTable(scores, sources) {
  const files = Object.keys(sources).sort();
  const known = files.flatMap((file) => {
    const score = scores[file];
    return score === undefined ? [] : [{ file, ...score, changed: score.digest !== digestOf(sources[file] ?? "") }];
  });
  const rows = known.map(({ file, mutants, killed, on, changed }) =>
    row(
      `\`${file.replace(/^src\//, "").replace(/\.ts$/, "")}\``,
      mutants,
      killed,
      changed ? `${on}, changed since` : on,
    ),
  );
  const total = (/** @type {"mutants" | "killed"} */ what) => known.reduce((sum, score) => sum + score[what], 0);
  const never = files.filter((file) => scores[file] === undefined);
  return [
    "| file | mutants | killed | survived | score | run on |",
    "|---|---:|---:|---:|---:|---|",
    ...rows,
    row("together", total("mutants"), total("killed"), ""),
    "",
    `${known.filter(({ changed }) => changed).length} of the ${known.length} files run have changed since. Never run, or nothing in them to change: ${never.length === 0 ? "none" : never.map((file) => `\`${file.replace(/^src\//, "").replace(/\.ts$/, "")}\``).join(", ")}.`,
  ].join("\n");
}

/** @param {string} name @param {number} mutants @param {number} killed @param {string} when */
function row(name, mutants, killed, when) {
  const score = mutants === 0 ? "" : `${((100 * killed) / mutants).toFixed(1)} %`;
  return `| ${name} | ${mutants} | ${killed} | ${mutants - killed} | ${score} | ${when} |`;
}

/**
 * The page with its table as the scores and the files have it now.
 * @param {string} page @param {Scores} scores @param {Record<string, string>} sources
 */
export function pageWith(page, scores, sources) {
  const [from, to] = [page.indexOf(BEGIN), page.indexOf(END)];
  if (from < 0 || to < from) throw new Error(`${PAGE} has no place for the scores`);
  return page.slice(0, from + BEGIN.length) + scoreTable(scores, sources) + page.slice(to);
}

/** @returns {Record<string, string>} */
export function mutableSources() {
  /** @param {string} folder @returns {string[]} */
  const filesOf = (folder) =>
    readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
      const path = `${folder}/${entry.name}`;
      if (entry.isDirectory()) return filesOf(path);
      return /\.ts$/.test(path) && !/(\.d|\/index)\.ts$/.test(path) ? [path] : [];
    });
  return Object.fromEntries(
    ["src/sheet", "src/trade"].flatMap(filesOf).map((file) => [file, readFileSync(file, "utf8")]),
  );
}

/** @returns {Scores} */
export function keptScores() {
  return JSON.parse(readFileSync(SCORES, "utf8"));
}

if (process.argv[1]?.endsWith("mutation-report.mjs")) {
  const words = process.argv.slice(2);
  let status = 0;
  let scores = keptScores();
  if (!words.includes("--report-only")) {
    await prepare();
    rmSync(REPORT, { force: true });
    const started = Date.now();
    const run = spawnSync("npx", ["stryker", "run", ...words], {
      stdio: "inherit",
      shell: process.platform === "win32",
    });
    status = run.status ?? 1;
    // A part of a file, "lift.ts:70-90", tells nothing of the whole.
    if (existsSync(REPORT) && !words.some((word) => /:\d/.test(word))) {
      scores = withRun(scores, JSON.parse(readFileSync(REPORT, "utf8")), new Date(started).toISOString().slice(0, 10));
      const sorted = Object.fromEntries(Object.entries(scores).sort(([a], [b]) => (a < b ? -1 : 1)));
      writeFileSync(SCORES, `${JSON.stringify(sorted, null, 2)}\n`);
    }
  }
  writeFileSync(PAGE, pageWith(readFileSync(PAGE, "utf8"), scores, mutableSources()));
  process.exitCode = status;
}
