import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Cell, Cells } from "../../src/sheet/cells";
import { shadeColumn, shadeList } from "../../src/sheet/shade-rows";
import { labRow, reflectanceRow, shadeRow } from "../../src/sheet/shades";
import { textile } from "../support/measured-textiles";
import { refusalOf } from "../support/refusals";

const labsOf = (cells: Cells) => {
  const { shades, along } = shadeList({ solids: cells }, labRow);
  return { shades, names: along.names, blanks: along.blanks };
};
const MOSS = [50, -20, 10];
const SLATE = [40, 1, -8];

describe("shades with names and headings", () => {
  test("a first column of names", () => {
    const named = { shades: [MOSS, SLATE], names: ["moss", "slate"] };
    expect(labsOf([["moss", ...MOSS], ["slate", ...SLATE]])).toMatchObject(named); // prettier-ignore
    expect(labsOf([["colour", "L*", "a*", "b*"], ["moss", ...MOSS], ["slate", ...SLATE]])).toMatchObject(named); // prettier-ignore
    expect(labsOf([MOSS, SLATE])).toMatchObject({ shades: [MOSS, SLATE], names: undefined });
  });

  test("columns by their headings, in any order, among others", () => {
    const columns: Record<string, Cell[]> = {
      "L*": [50, 40],
      "a*": [-20, 1],
      "b*": [10, -8],
      Colour: ["moss", "slate"],
      "Price (per kg)": [12, 14],
      Remark: ["", "new lot"],
    };
    fc.assert(
      fc.property(fc.shuffledSubarray(Object.keys(columns), { minLength: 6 }), (order) => {
        const cells = [order, ...[0, 1].map((row) => order.map((heading) => columns[heading]?.[row]))];
        expect(labsOf(cells)).toMatchObject({ shades: [MOSS, SLATE], names: ["moss", "slate"] });
      }),
    );
  });

  test("wavelengths as headings are found among others, in any order, and set the bands", () => {
    const bands = textile(47);
    const every = bands.map((value, band) => ({ heading: 400 + 10 * band, value }));
    const turned = [...every].reverse();
    const written = [
      (nm: number): Cell => nm,
      (nm: number): Cell => `${nm} nm`,
      (nm: number): Cell => `R${nm}`,
      (nm: number): Cell => `${nm} (nm)`,
      (nm: number): Cell => `R (${nm} nm)`,
    ];
    for (const write of written) {
      const cells = [
        ["shade", ...turned.map(({ heading }) => write(heading)), "remark"],
        ["sock", ...turned.map(({ value }) => value), "dry"],
      ];
      expect(shadeList({ solids: cells }, shadeRow)).toMatchObject({
        shades: [{ measured: true, reflectance: bands }],
        along: { names: ["sock"] },
      });
    }
    // Wider than 400 to 700 nm, as many instruments write it.
    const wide = [
      [null, 390, ...every.map(({ heading }) => heading), 710],
      ["sock", 0.1, ...bands, 0.9],
    ];
    expect(shadeList({ solids: wide }, shadeRow).shades).toEqual([{ measured: true, reflectance: bands }]);
  });

  test("headings that are none of a shade are refused with what was seen", () => {
    expect(
      refusalOf(() =>
        labsOf([
          ["colour", "price", "regain", "lot"],
          ["moss", ...MOSS],
        ]),
      ),
    ).toBe(
      // prettier-ignore
      "#VALUE! solids is headed colour, price, regain, lot; must have L*, a*, b* once each",
    );
    const uneven = [400, 410, 420, 450];
    expect(
      refusalOf(() =>
        shadeList(
          {
            solids: [
              ["x", ...uneven],
              ["a", 0.1, 0.2, 0.3, 0.4],
            ],
          },
          shadeRow,
        ),
      ),
    ).toBe(
      // prettier-ignore
      "#VALUE! solids is headed 400, 410, 420, 450; must have wavelengths in equal steps",
    );
  });

  test("a table with both forms gives each reader its own, and either alone is refused by who cannot use it", () => {
    const bands = textile(47);
    const nm = bands.map((_, band) => 400 + 10 * band);
    const both = [["name", "L*", "a*", "b*", ...nm], ["moss", ...MOSS, ...bands]]; // prettier-ignore
    expect(shadeList({ solids: both }, labRow).shades).toEqual([MOSS]);
    expect(shadeList({ solids: both }, reflectanceRow).shades).toEqual([bands]);
    expect(shadeList({ solids: both }, shadeRow).shades).toEqual([{ measured: true, reflectance: bands }]);
    const lab = [["name", "L*", "a*", "b*"], ["moss", ...MOSS]]; // prettier-ignore
    expect(refusalOf(() => shadeList({ solids: lab }, reflectanceRow))).toBe(
      "#VALUE! solids is headed name, L*, a*, b*; must have wavelengths such as 400, 410",
    );
    expect(refusalOf(() => shadeList({ solids: [nm.slice(0, 4), bands.slice(0, 4)] }, labRow))).toBe(
      "#VALUE! solids is headed 400, 410, 420, 430; must have L*, a*, b* once each",
    );
    expect(refusalOf(() => shadeList({ solids: [["name", "lot"], ["moss", "7"]] }, shadeRow))).toBe(
      "#VALUE! solids is headed name, lot; must have L*, a*, b* once each, or wavelengths such as 400, 410",
    ); // prettier-ignore
  });

  test("a first row of data is never taken for headings", () => {
    const reflectance = fc.array(fc.double({ min: 0, max: 1.5, noNaN: true }), { minLength: 31, maxLength: 31 });
    const lab = fc.tuple(
      fc.double({ min: 0, max: 110, noNaN: true }),
      fc.double({ min: -128, max: 128, noNaN: true }),
      fc.double({ min: -128, max: 128, noNaN: true }),
    );
    fc.assert(
      fc.property(fc.array(fc.oneof(reflectance, lab), { minLength: 1, maxLength: 4 }), fc.boolean(), (rows, named) => {
        const cells = rows.map((row, place) => (named ? [`shade ${place}`, ...row] : [...row]));
        const { items, names } = shadeColumn({ target: cells }, (row) => row);
        expect(items.map(([item]) => item)).toEqual(rows);
        expect(names).toEqual(named ? rows.map((_, place) => `shade ${place}`) : undefined);
      }),
    );
  });

  test("rows without name and figures are left out, also where blanks arrive as zeros beside names", () => {
    const blanks = [false, true, false];
    expect(labsOf([MOSS, [null, "", null], SLATE])).toMatchObject({ shades: [MOSS, SLATE], blanks });
    const zeros = [["moss", ...MOSS], ["", 0, 0, 0], ["slate", ...SLATE]]; // prettier-ignore
    expect(labsOf(zeros)).toEqual({ shades: [MOSS, SLATE], names: ["moss", "slate"], blanks });
    expect(refusalOf(() => labsOf([["moss", ...MOSS], ["flint", "", "", ""]]))).toContain("solids row 2 is 0 cells wide"); // prettier-ignore
  });

  test("a totals row is refused, and a bad row is named as it lies", () => {
    expect(
      refusalOf(() =>
        labsOf([
          ["moss", ...MOSS],
          ["Total", 50, 0, 0],
        ]),
      ),
    ).toBe(
      // prettier-ignore
      "#VALUE! solids row 2 is called Total; leave totals out",
    );
    expect(
      refusalOf(() =>
        labsOf([
          ["", "L*", "a*", "b*"],
          ["moss", 500, 0, 0],
        ]),
      ),
    ).toBe(
      // prettier-ignore
      "#VALUE! solids row 2 is 500; L* must be 0 to 110",
    );
  });

  test("headings of wavelengths are three digits of the light there is, with or without their unit", () => {
    const sock = ["sock", 0.1, 0.2, 0.3, 0.4];
    const grids: unknown[] = [];
    const read = (headings: Cell[], figures: Cell[] = sock) =>
      shadeList({ lab: [headings, figures] }, (row, _, grid) => (grids.push(grid), [...row]));
    for (const write of [String, (nm: number) => ` ${nm}  nm `, (nm: number) => `nm ${nm}`, (nm: number) => `${nm}(NM)`]) {
      expect(read(["", ...[300, 310, 320, 330].map(write)]).shades).toEqual([[0.1, 0.2, 0.3, 0.4]]);
    }
    expect(read(["", 800, 810, 820, 830]).shades).toHaveLength(1);
    expect(grids[0]).toEqual({ first: 300, step: 10 });
    expect(grids[4]).toEqual({ first: 800, step: 10 });
    // Not light, not whole, more than a wavelength: a table of words that has no shade in it, or data.
    for (const headings of [["x", "299", "300", "301", "302"], ["x", "820", "830", "831", "840"]]) {
      expect(refusalOf(() => read(headings))).toContain("must have L*, a*, b* once each, or wavelengths");
    }
    for (const write of [(nm: number) => `mean${nm}`, (nm: number) => `${nm} nm of D65`, (nm: number) => `1${nm}`]) {
      expect(refusalOf(() => read(["x", ...[400, 410, 420, 430].map(write)]))).toContain("lab is headed x, ");
    }
    for (const data of [[400, 410, 420, 299], [400, 410, 420, 831], [400, 410, 420, ""]]) {
      expect(read(["x", ...data]).shades).toEqual([data, sock.slice(1)]);
    }
  }); // prettier-ignore

  test("of four wavelengths at the least; a single row is a shade, and a single column no heading", () => {
    expect(refusalOf(() => shadeList({ lab: [["x", 400, 410, 420], ["a", 0.1, 0.2, 0.3]] }, shadeRow))).toContain("lab is headed x, 400, 410, 420"); // prettier-ignore
    const whole = (row: readonly Cell[]) => [...row];
    expect(shadeList({ lab: [[400, 410, 420, 430]] }, whole).shades).toEqual([[400, 410, 420, 430]]);
    expect(shadeList({ lab: [[400], [410]] }, whole).shades).toEqual([[400], [410]]);
  });

  test("the names are in the column headed so, or else in the first that holds any text; a blank one is none", () => {
    const rows = [[50, -20, 10, 7, "wool", " moss "], [40, 1, -8, 8, "", ""]]; // prettier-ignore
    const headed = (...others: string[]) => labsOf([["L*", "a*", "b*", ...others], ...rows]).names;
    expect(headed("week", "made of", "name")).toEqual(["moss", ""]);
    expect(headed("week", "made of", "remark")).toEqual(["wool", ""]);
    expect(labsOf([["L*", "a*", "b*", "week", "month"], [...MOSS, 7, " "], [...SLATE, 8, null]]).names).toBeUndefined(); // prettier-ignore
    expect(labsOf([["week", "L*", "a*", "b*"], [7, ...MOSS]]).names).toBeUndefined(); // prettier-ignore
    // A corner over the names may be blank, no other heading.
    expect(labsOf([["", "L*", "a*", "b*"], ["moss", ...MOSS]])).toMatchObject({ shades: [MOSS], names: ["moss"] }); // prettier-ignore
    expect(refusalOf(() => labsOf([["L*", "a*", "b*", ""], [...MOSS, 5]]))).toContain("solids row 1"); // prettier-ignore
  });

  test("each of L*, a* and b* must stand once", () => {
    expect(refusalOf(() => labsOf([["L*", "a*", "b*", "L*"], [...MOSS, 5]]))).toContain("must have L*, a*, b* once each"); // prettier-ignore
  });

  test("blank rows at the end are no shades, and zeros are one where no row has a name", () => {
    const black = [0, 0, 0];
    expect(labsOf([MOSS, black, ["", null, ""]])).toEqual({ shades: [MOSS, black], names: undefined, blanks: [false, false] }); // prettier-ignore
    expect(refusalOf(() => labsOf([["", null, ""], [null, null, null]]))).toBe("#VALUE! solids is blank; must hold one shade a row"); // prettier-ignore
    const named = [["moss", ...MOSS], ["black", ...black], ["", 0, 0, 0]]; // prettier-ignore
    expect(labsOf(named)).toEqual({ shades: [MOSS, black], names: ["moss", "black"], blanks: [false, false, true] });
    expect(labsOf([...named, ["", "", "", ""]]).blanks).toEqual([false, false, true]); // prettier-ignore
  });

  test("the place of a bad shade is its row, and the argument alone where there is one", () => {
    expect(refusalOf(() => labsOf([[500, 0, 0]]))).toBe("#VALUE! solids is 500; L* must be 0 to 110");
    expect(refusalOf(() => labsOf([MOSS, [500, 0, 0]]))).toBe("#VALUE! solids row 2 is 500; L* must be 0 to 110");
  });

  test("an error value among the cells is the error of the row", () => {
    const column = shadeColumn({ lab: [[50, 0, 0], [50, { code: "#N/A" }, 0]] }, labRow); // prettier-ignore
    expect([column.rows, column.columns]).toEqual([2, 1]);
    // It goes before whatever else is wrong with the row.
    expect(refusalOf(() => labsOf([[500, { code: "#N/A" }, 0]]))).toBe("#N/A");
    expect(refusalOf(() => column.read((column.items[1] as Cell[])[0], "lab"))).toBe("#N/A");
  });
});
