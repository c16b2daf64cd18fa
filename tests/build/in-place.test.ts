import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { madeInPlace } from "../../src/build/in-place.mjs";

describe("a folder that is made beside its place and then put there", () => {
  let home: string;
  let out: string;
  beforeEach(() => {
    home = mkdtempSync(join(tmpdir(), "in-place-"));
    out = join(home, "dist");
    mkdirSync(out);
    writeFileSync(join(out, "before.txt"), "");
  });
  afterEach(() => rmSync(home, { recursive: true }));

  const holding = (name: string) => (fresh: string) => {
    writeFileSync(join(fresh, name), name);
    return Promise.resolve();
  };

  test("holds what was made and nothing of before, also where there was none", async () => {
    await madeInPlace(out, holding("fresh.txt"));
    await madeInPlace(join(home, "none", "yet"), holding("first.txt"));
    expect([readdirSync(out), readdirSync(join(home, "none", "yet"))]).toEqual([["fresh.txt"], ["first.txt"]]);
    expect(readdirSync(home).sort()).toEqual(["dist", "none"]);
  });

  test("stays as it was where the making fails, and nothing is left beside", async () => {
    const failing = async (fresh: string) => {
      await holding("half.txt")(fresh);
      throw new Error("no more");
    };
    await expect(madeInPlace(out, failing)).rejects.toThrow("no more");
    expect([readdirSync(out), readdirSync(home)]).toEqual([["before.txt"], ["dist"]]);
  });

  test("two at once are each whole, and the later stays", async () => {
    let first: (() => void) | undefined;
    const slow = madeInPlace(out, async (fresh) => {
      writeFileSync(join(fresh, "part.txt"), "slow");
      await new Promise<void>((done) => (first = done));
      writeFileSync(join(fresh, "rest.txt"), "slow");
    });
    await madeInPlace(out, async (fresh) => writeFileSync(join(fresh, "part.txt"), "quick"));
    expect([readdirSync(out), readFileSync(join(out, "part.txt"), "utf8")]).toEqual([["part.txt"], "quick"]);
    first?.();
    await slow;
    expect([readdirSync(out).sort(), readFileSync(join(out, "part.txt"), "utf8")]).toEqual([
      ["part.txt", "rest.txt"],
      "slow",
    ]);
    expect(readdirSync(home)).toEqual(["dist"]);
  });
});
