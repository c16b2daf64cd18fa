import { describe, expect, test } from "vitest";
import { fibre, fibreForm, regainSchedule, yieldKind } from "../../src/sheet/wool-words";
import { refusalOf } from "../support/refusals";
import "../support/runtime";

describe("words of the wool trade", () => {
  test("are found by their other names", () => {
    expect(fibre("LLAMA", "fibre")).toBe("llama");
    expect(regainSchedule("EU 1007/2011", "schedule")).toBe("EU label");
    expect(yieldKind("Scoured 16%", "yield_kind").is).toEqual({ rule: "scoured", regain: 0.16 });
  });

  test("that no table has are not found, with the nearest there is", () => {
    const lists = "not in the regain tables; ";
    expect(refusalOf(() => fibre("mohairr", "fibre"))).toBe(
      `#N/A fibre is "mohairr"; ${lists}the nearest is mohair; REGAINS lists them`,
    );
    expect(refusalOf(() => fibre("xyz", "fibre"))).toBe(`#N/A fibre is "xyz"; ${lists}REGAINS lists them`);
    expect(refusalOf(() => fibreForm("xyz", "form"))).toBe(`#N/A form is "xyz"; ${lists}REGAINS lists them`);
    expect(refusalOf(() => yieldKind("xyz", "yield_kind"))).toBe(
      '#N/A yield_kind is "xyz"; known: scoured 16/17, clean fibre, customs clean, top and noil; else the certificate\'s figure',
    );
  });
});
