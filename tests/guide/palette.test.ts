import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";

const text = readFileSync("src/guide/palette.css", "utf8");
const [light = "", dark = ""] = text.split("@media (prefers-color-scheme: dark)");
const coloursIn = (part: string) =>
  new Map([...part.matchAll(/--(\w+): (#[0-9a-f]{6});/g)].map(([, name = "", hex = ""]) => [name, hex]));

/** Relative luminance and contrast, WCAG 2.2. */
function luminance(hex: string): number {
  const [r = 0, g = 0, b = 0] = [1, 3, 5].map((from) => {
    const share = Number.parseInt(hex.slice(from, from + 2), 16) / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

function contrast(a: string, b: string): number {
  const [high = 0, low = 0] = [luminance(a), luminance(b)].sort((x, y) => y - x);
  return (high + 0.05) / (low + 0.05);
}

describe.each([
  ["light", coloursIn(light)],
  ["dark", coloursIn(dark)],
])("the %s palette", (_, colours) => {
  const of = (name: string) => colours.get(name) ?? "";

  test.each(["ink", "soft", "link", "mark"])("%s is read on every ground: 4.5 to 1", (name) => {
    for (const ground of ["ground", "raised", "field"])
      expect(contrast(of(name), of(ground)), ground).toBeGreaterThanOrEqual(4.5);
  });

  test.each(["link", "mark", "moss", "straw"])("%s is seen in a drawing: 3 to 1", (name) => {
    expect(contrast(of(name), of("ground"))).toBeGreaterThanOrEqual(3);
  });
});
