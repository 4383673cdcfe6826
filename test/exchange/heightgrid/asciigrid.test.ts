import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { asciiGrid, readAsciiGrid } from "../../../src/exchange/index.ts";
import { parse } from "../../../src/plan/index.ts";
import { reliefOf } from "../../../src/terrain/index.ts";
import { completePlan } from "../../plan/completePlan.ts";

const text = `NCOLS 3
NROWS 2
XLLCORNER 1000
YLLCORNER 2000
CELLSIZE 10
NODATA_VALUE -32768
1.5 2.25 -32768
-3 0 4
`;

const ground = (file: string, wish = {}) => {
  const read = readAsciiGrid(file, wish);
  if (!read.ok) throw new Error(read.error);
  return read.value;
};

describe("an ESRI ASCII grid", () => {
  it("is read with the lander in its middle, heights in the middle of their cells", () => {
    expect(ground(text)).toMatchObject({
      type: "grid",
      // Centres stand at 1005, 1015, 1025 east and 2005, 2015 north; their middle is 1015, 2010.
      westM: -10,
      southM: -5,
      cellM: 10,
      columns: 3,
      rows: 2,
      unit: "cm",
      heights: ["150 225 x", "-300 0 400"],
    });
  });

  it("is read about a lander, as much as is wanted", () => {
    const wish = { lander: { x: 1006, y: 2005 }, reachM: 12, unit: "mm" };
    expect(ground(text, wish)).toMatchObject({
      westM: -1,
      southM: 0,
      columns: 2,
      rows: 2,
      heights: ["1500 2250", "-3000 0"],
    });
    expect(readAsciiGrid(text, { lander: { x: 900, y: 2005 } })).toEqual({
      ok: false,
      error: "the lander lies outside the heights of the file",
    });
    expect(readAsciiGrid(text, { reachM: 4 })).toMatchObject({ ok: false });
  });

  it("gives a ground that the plan takes, and the terrain reads the same heights", () => {
    const read = parse({ ...completePlan, ground: ground(text) });
    expect(read.ok ? [] : read.error).toEqual([]);
    if (!read.ok || !read.value.ground) return expect.unreachable();
    expect([...reliefOf(read.value.ground).heightM]).toEqual([-3, 0, 4, 1.5, 2.25, NaN]);
  });

  it("comes back the same, whatever the heights", () => {
    const heights = fc.array(fc.option(fc.integer({ min: -999_999, max: 999_999 })), {
      minLength: 12,
      maxLength: 12,
    });
    fc.assert(
      fc.property(heights, (list) => {
        const heightM = list.map((one) => (one === null ? NaN : one / 100));
        const laid = { columns: 4, rows: 3, cellM: 2.5, westM: -3.5, southM: 7 };
        const again = ground(asciiGrid({ ...laid, heightM }), { lander: { x: 0, y: 7 } });
        expect(again).toMatchObject({ columns: 4, rows: 3, cellM: 2.5, westM: -3.5, southM: 0 });
        if (again.type !== "grid") return expect.unreachable();
        expect([...reliefOf(again).heightM]).toEqual(heightM.map((one) => one + 0));
      }),
    );
  });

  it.each([
    ["no head", "1 2 3", /ncols, nrows and cellsize/],
    ["no place", "ncols 2\nnrows 2\ncellsize 1\n1 2 3 4", /xllcorner or xllcenter/],
    ["too few heights", text.replace("-3 0 4", "-3 0"), /6 heights are announced, 5 are there/],
    ["a word among heights", text.replace("2.25", "high"), /height 2 must be a number, found "high"/],
    ["a word at its head", text.replace("CELLSIZE 10", "CELLSIZE ten"), /CELLSIZE must be a number/],
    ["half a column", text.replace("NCOLS 3", "NCOLS 2.5"), /whole numbers/],
  ])("with %s is refused in words", (_, file, words) => {
    expect(readAsciiGrid(file)).toMatchObject({ ok: false, error: expect.stringMatching(words) });
  });
});
