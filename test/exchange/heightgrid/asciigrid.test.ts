import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type HeightAnswers, openHeights, takeHeights, takenWords } from "../../../src/exchange/index.ts";
import { parse } from "../../../src/plan/index.ts";
import { reliefOf } from "../../../src/terrain/index.ts";
import { completePlan } from "../../plan/completePlan.ts";
import { asciiGrid } from "./asciiwriter.ts";

const text = `NCOLS 3
NROWS 2
XLLCORNER 1000
YLLCORNER 2000
CELLSIZE 10
NODATA_VALUE -32768
1.5 2.25 -32768
-3 0 4
`;

const site = { latDeg: 12, lonDeg: -33, radiusM: 1_737_400 };
/** What the format leaves open: its upward side is north, its heights are metres. */
const told: HeightAnswers = { upDeg: 0, metresPerHeight: 1 };

async function opened(file: string) {
  return openHeights("grid.asc", new TextEncoder().encode(file).buffer as ArrayBuffer);
}

async function taken(file: string, answers: HeightAnswers = {}) {
  const source = await opened(file);
  if (!source.ok) throw new Error(source.error);
  return takeHeights(source.value, site, { ...told, ...answers });
}

async function ground(file: string, answers: HeightAnswers = {}) {
  const found = await taken(file, answers);
  if (!found.ok) throw new Error(found.error[0]!.words);
  return found.value.ground;
}

describe("an ESRI ASCII grid", () => {
  it("says neither its unit nor where north is, and both are asked for", async () => {
    const source = await opened(text);
    if (!source.ok) return expect.unreachable();
    const found = await takeHeights(source.value, site, {});
    expect(found).toMatchObject({ ok: false, error: [{ about: "unit" }, { about: "projection" }] });
    const unit = await takeHeights(source.value, site, { upDeg: 0 });
    expect(unit).toMatchObject({ ok: false, error: [{ about: "unit" }] });
  });

  it("lies about the point from which the plan counts, which is called the lander only where that stands there", async () => {
    const source = await opened(text);
    if (!source.ok) return expect.unreachable();
    const laidWith = async (lander: { eastM: number; northM: number }, more: HeightAnswers = {}) => {
      const found = await takeHeights(source.value, { ...site, lander }, { ...told, ...more });
      return found.ok
        ? { ...found.value.ground, words: takenWords(found.value.taken).join(" ") }
        : { words: found.error[0]!.words };
    };
    const there = await laidWith({ eastM: 0, northM: 0 });
    expect(there).toMatchObject({ westM: -10, southM: -5 });
    expect(there.words).toContain("5 m north of the lander");
    // The lander is in the middle of the file, or where it is said to be, and 10 m east of where the plan counts from.
    const beside = await laidWith({ eastM: 10, northM: 0 });
    expect(beside).toMatchObject({ westM: 0, southM: -5 });
    expect(await laidWith({ eastM: 10, northM: 0 }, { lander: { x: 1015, y: 2010 } })).toEqual(beside);
    expect(beside.words).toContain("5 m north of the plan's 0 east, 0 north.");
    expect(beside.words).not.toContain("the lander");
    const far = await laidWith({ eastM: 900, northM: 0 });
    expect(far.words).toBe("The plan's 0 east, 0 north lies outside the heights of the file.");
    // Turned a quarter, the file's upward side to the east: east of the lander is up in the file.
    const turned = await laidWith({ eastM: 5, northM: 0 }, { upDeg: 90 });
    expect(turned).toMatchObject({ westM: 0, southM: -10 });
  });

  it("is read with the lander in its middle, heights in the middle of their cells", async () => {
    expect(await ground(text)).toMatchObject({
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

  it("is read about a lander, as much as is wanted", async () => {
    const wish = { lander: { x: 1006, y: 2005 }, reachM: 12, unit: "mm" as const };
    expect(await ground(text, wish)).toMatchObject({
      westM: -1,
      southM: 0,
      columns: 2,
      rows: 2,
      heights: ["1500 2250", "-3000 0"],
    });
    expect(await taken(text, { lander: { x: 900, y: 2005 } })).toMatchObject({
      ok: false,
      error: [{ about: "place", words: "The lander lies outside the heights of the file." }],
    });
    expect(await taken(text, { reachM: 4 })).toMatchObject({ ok: false, error: [{ about: "size" }] });
  });

  it("knows its unknown value however many digits it was written with", async () => {
    // Half a unit of single precision apart: the head was written by one program, the heights by another.
    const grid = text.replace("NODATA_VALUE -32768", "NODATA_VALUE -3.4028234663852886e+38");
    const found = await ground(
      grid.replace("2.25 -32768", "2.25 -3.40282346639e+38").replace("-3 0", "nan 0"),
    );
    expect(found).toMatchObject({ heights: ["150 225 x", "x 0 400"] });
  });

  it("gives a ground that the plan takes, and the terrain reads the same heights", async () => {
    const read = parse({ ...completePlan, ground: await ground(text) });
    expect(read.ok ? [] : read.error).toEqual([]);
    if (!read.ok || !read.value.ground) return expect.unreachable();
    expect([...reliefOf(read.value.ground).heightM]).toEqual([-3, 0, 4, 1.5, 2.25, NaN]);
  });

  it("comes back the same, whatever the heights", async () => {
    const heights = fc.array(fc.option(fc.integer({ min: -999_999, max: 999_999 })), {
      minLength: 12,
      maxLength: 12,
    });
    await fc.assert(
      fc.asyncProperty(heights, async (list) => {
        fc.pre(list.some((one) => one !== null));
        const heightM = list.map((one) => (one === null ? NaN : one / 100));
        const laid = { columns: 4, rows: 3, cellM: 2.5, westM: -3.5, southM: 7 };
        const again = await ground(asciiGrid({ ...laid, heightM }), { lander: { x: 0, y: 7 } });
        expect(again).toMatchObject({ columns: 4, rows: 3, cellM: 2.5, westM: -3.5, southM: 0 });
        if (again.type !== "grid") return expect.unreachable();
        expect([...reliefOf(again).heightM]).toEqual(heightM.map((one) => one + 0));
      }),
    );
  });

  it("may say that what is no number stands for unknown", async () => {
    const found = await ground(
      text.replace("NODATA_VALUE -32768", "NODATA_VALUE nan").replace("2.25 -32768", "2.25 nan"),
    );
    expect(found).toMatchObject({ heights: ["150 225 x", "-300 0 400"] });
  });

  it.each([
    ["no head", "1 2 3", /ncols, nrows and cellsize/],
    ["no place", "ncols 2\nnrows 2\ncellsize 1\n1 2 3 4", /xllcorner or xllcenter/],
    ["too few heights", text.replace("-3 0 4", "-3 0"), /6 heights are announced, 5 are there/],
    ["a word among heights", text.replace("2.25", "high"), /height 2 must be a number, found "high"/],
    ["a word at its head", text.replace("CELLSIZE 10", "CELLSIZE ten"), /CELLSIZE must be a number/],
    [
      "two sayings of where it lies",
      text.replace("CELLSIZE 10", "XLLCENTER 990\nCELLSIZE 10"),
      /xllcorner and xllcenter both/,
    ],
    [
      "a word of its head twice",
      text.replace("CELLSIZE 10", "CELLSIZE 10\ncellsize 20"),
      /cellsize stands twice/,
    ],
    ["half a column", text.replace("NCOLS 3", "NCOLS 2.5"), /whole numbers/],
  ])("with %s is refused in words", async (_, file, words) => {
    expect(await opened(file)).toMatchObject({ ok: false, error: expect.stringMatching(words) });
  });
});
