import { describe, expect, it } from "vitest";
import { type HeightAnswers, openHeights, takeHeights } from "../../../src/exchange/index.ts";

/**
 * TIFF files made byte by byte after the TIFF 6.0 specification and OGC GeoTIFF 1.1, so that the reader is held to
 * the formats and not to a writer of its own house.
 */
interface Made {
  readonly columns: number;
  readonly rows: number;
  readonly values: readonly number[];
  readonly scale?: readonly [number, number];
  readonly tie?: readonly [number, number];
  readonly model?: number;
  readonly pixelIsPoint?: boolean;
  readonly noData?: string;
  readonly about?: string;
  readonly unit?: number;
}

function tiff(made: Made): ArrayBuffer {
  const { columns, rows, values, scale = [10, 10], tie = [1000, 2000], model = 1 } = made;
  const keys = [
    [1024, model],
    [1025, made.pixelIsPoint ? 2 : 1],
    ...(made.unit === undefined ? [] : [[3076, made.unit]]),
  ].flatMap(([key, value]) => [key!, 0, 1, value!]);
  const ascii = (text: string): number[] => [...`${text}\0`].map((one) => one.charCodeAt(0));
  type Entry = readonly [tag: number, type: 2 | 3 | 4 | 12, list: readonly number[]];
  const bytes = { 2: 1, 3: 2, 4: 4, 12: 8 } as const;
  const entries: Entry[] = [
    [256, 4, [columns]],
    [257, 4, [rows]],
    [258, 3, [32]],
    [259, 3, [1]],
    [262, 3, [1]],
    [273, 4, [0]],
    [277, 3, [1]],
    [278, 4, [rows]],
    [279, 4, [columns * rows * 4]],
    [339, 3, [3]],
    [33550, 12, [...scale, 0]],
    [33922, 12, [0, 0, 0, ...tie, 0]],
    [34735, 3, [1, 1, 0, keys.length / 4, ...keys]],
    ...(made.about === undefined ? [] : [[42112, 2, ascii(made.about)] as const]),
    ...(made.noData === undefined ? [] : [[42113, 2, ascii(made.noData)] as const]),
  ];
  const dataAt = 8 + 2 + entries.length * 12 + 4;
  const more = entries.reduce((sum, [, type, list]) => {
    const size = bytes[type] * list.length;
    return sum + (size > 4 ? size + (size % 2) : 0);
  }, 0);
  const file = new ArrayBuffer(dataAt + more + values.length * 4);
  const view = new DataView(file);
  view.setUint16(0, 0x4949);
  view.setUint16(2, 42, true);
  view.setUint32(4, 8, true);
  view.setUint16(8, entries.length, true);
  const pixelsAt = dataAt + more;
  let free = dataAt;
  entries.forEach(([tag, type, list], k) => {
    const at = 10 + 12 * k;
    const size = bytes[type] * list.length;
    view.setUint16(at, tag, true);
    view.setUint16(at + 2, type, true);
    view.setUint32(at + 4, list.length, true);
    if (size > 4) view.setUint32(at + 8, free, true);
    let to = size > 4 ? free : at + 8;
    for (const one of tag === 273 ? [pixelsAt] : list) {
      if (type === 2) view.setUint8(to, one);
      if (type === 3) view.setUint16(to, one, true);
      if (type === 4) view.setUint32(to, one, true);
      if (type === 12) view.setFloat64(to, one, true);
      to += bytes[type];
    }
    if (size > 4) free += size + (size % 2);
  });
  values.forEach((value, k) => view.setFloat32(pixelsAt + 4 * k, value, true));
  return file;
}

const site = { latDeg: 12, lonDeg: -33, radiusM: 1_737_400 };

/** What these files leave open is told: their upward side is north, their heights are metres. */
async function read(file: ArrayBuffer, answers: HeightAnswers = {}) {
  const source = await openHeights("made.tif", file);
  if (!source.ok) throw new Error(source.error);
  const found = await takeHeights(source.value, site, { upDeg: 0, metresPerHeight: 1, ...answers });
  return found.ok ? { ok: true, value: found.value.ground } : found;
}

const six = { columns: 3, rows: 2, values: [1.5, 2.25, -9999, -3, 0, 4] };

describe("a GeoTIFF of heights", () => {
  it("is read with the lander in its middle, heights in the middle of their cells", async () => {
    expect(await read(tiff({ ...six, noData: "-9999" }))).toEqual({
      ok: true,
      value: {
        type: "grid",
        westM: -10,
        southM: -5,
        cellM: 10,
        columns: 3,
        rows: 2,
        detour: 1.05,
        aim: "time",
        unit: "cm",
        heights: ["150 225 x", "-300 0 400"],
        source: "made.tif",
      },
    });
  });

  it("is read about a lander in the file's coordinates, as much as is wanted", async () => {
    // The north-west corner is 1000, 2000, so the middle row of cells stands at 1985 and 1995.
    const wish = { lander: { x: 1015, y: 1985 }, reachM: 10 };
    const big = { columns: 4, rows: 4, values: Array.from({ length: 16 }, (_, k) => k) };
    expect(await read(tiff(big), wish)).toMatchObject({
      ok: true,
      value: {
        westM: -10,
        southM: -10,
        columns: 3,
        rows: 3,
        heights: ["0 100 200", "400 500 600", "800 900 1000"],
      },
    });
  });

  it("stands on its points where it says so, and its band may be scaled", async () => {
    const about =
      '<GDALMetadata><Item name="SCALE" sample="0" role="scale">0.5</Item><Item name="OFFSET" sample="0" role="offset">10</Item></GDALMetadata>';
    const values = { ...six, values: [1.5, 2.25, 3, -3, 0, 4] };
    expect(
      await read(tiff({ ...values, pixelIsPoint: true, about }), { lander: { x: 1000, y: 1990 } }),
    ).toMatchObject({
      ok: true,
      value: { westM: 0, southM: 0, heights: ["1075 1113 1150", "850 1000 1200"] },
    });
  });

  it("is refused with a scale that no height can be worked out with", async () => {
    for (const scale of ["0", "", "half"]) {
      const about = `<GDALMetadata><Item name="SCALE" sample="0" role="scale">${scale}</Item></GDALMetadata>`;
      await expect(read(tiff({ ...six, about }))).rejects.toThrow(/the scale or the offset of its heights/);
    }
  });

  it("knows a value for unknown that was rounded to single precision in the file and not in its tag", async () => {
    // 0.1 as a float of four bytes is 0.100000001490116: the tag says 0.1, and no height is read into it.
    const values = [1.5, 0.1, 3, -3, 0, 4];
    expect(await read(tiff({ ...six, values, noData: "0.1" }))).toMatchObject({
      value: { heights: ["150 x 300", "-300 0 400"] },
    });
    const none = [1.5, NaN, Infinity, -3, 0, 4];
    expect(await read(tiff({ ...six, values: none }))).toMatchObject({
      value: { heights: ["150 x x", "-300 0 400"] },
    });
  });

  it("lays oblong cells on square ones, and coordinates in feet on metres", async () => {
    // Rows 20 m apart, columns 10: on points 10 m apart the middle row is the mean of its neighbours.
    const two = { ...six, values: [0, 10, 20, 40, 50, 60], scale: [10, 20] as const };
    expect(await read(tiff(two), { lander: { x: 1015, y: 1990 } })).toMatchObject({
      value: { columns: 3, rows: 3, heights: ["0 1000 2000", "2000 3000 4000", "4000 5000 6000"] },
    });
    // 10 international feet are 3.048 m.
    expect(await read(tiff({ ...six, unit: 9002 }))).toMatchObject({ value: { cellM: 3.048 } });
  });

  it("asks for a unit and for north where they are not said, whatever the model", async () => {
    for (const model of [1, 2]) {
      const source = await openHeights("made.tif", tiff({ ...six, model }));
      if (!source.ok) return expect.unreachable();
      const found = await takeHeights(source.value, site, {});
      expect(found).toMatchObject({ ok: false, error: [{ about: "unit" }, { about: "projection" }] });
    }
  });

  it("that is none is refused in words", async () => {
    const bytes = new TextEncoder().encode("II*\0no tiff at all").buffer as ArrayBuffer;
    expect(await openHeights("made.tif", bytes)).toMatchObject({
      ok: false,
      error: expect.stringMatching(/no GeoTIFF that can be read/),
    });
  });
});
