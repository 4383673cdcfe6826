import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import proj4 from "proj4";
import { describe, expect, it } from "vitest";
import { openHeights, takeHeights } from "../../../src/exchange/index.ts";
import { projectionOfWkt } from "../../../src/exchange/heightgrid/wkt.ts";
import { opened, POLE } from "./files.ts";

/**
 * Files beside a grid, by GDAL 3.6.2 from the files of `files.ts`: polar.prj by `gdal_translate -of AAIGrid polar.tif polar.asc`;
 * ext.tif and ext.tif.msk by `gdal_translate --config GDAL_TIFF_INTERNAL_MASK NO -b 1 -mask 2 alpha-band.tif ext.tif`.
 */
const bytesOf = (name: string): ArrayBuffer => {
  const file = readFileSync(fileURLToPath(new URL(`files/${name}`, import.meta.url)));
  return file.buffer.slice(file.byteOffset, file.byteOffset + file.length);
};
const given = (name: string, as = name) => ({ name: as, bytes: bytesOf(name) });
const text = (name: string, words: string) => ({
  name,
  bytes: new TextEncoder().encode(words).buffer as ArrayBuffer,
});

/** The heights of polar.tif as an ASCII grid, its cells where polar.tif has them. */
const ASCII = `ncols 2\nnrows 2\nxllcenter 20780\nyllcenter 36380\ncellsize 40\n1 2\n3 4\n`;
const ascii = (...beside: { name: string; bytes: ArrayBuffer }[]) =>
  openHeights("polar.asc", new TextEncoder().encode(ASCII).buffer as ArrayBuffer, beside);

describe("a .prj beside a grid", () => {
  it("lays it as the same projection inside a file does", async () => {
    const found = await ascii(given("polar.prj"));
    if (!found.ok) return expect.unreachable();
    const own = await opened("polar");
    const at = [30, -88.6];
    const through = (proj: string): number[] =>
      proj4("+proj=longlat +a=1737400 +b=1737400", proj).forward(at);
    expect(through(found.value.projection!)).toEqual(
      through(own.projection!).map((one) => expect.closeTo(one, 6)),
    );
    expect(found.value.projectionWords).toBe(
      "polar stereographic, on a sphere of 1\u202f737.4 km, as polar.prj says",
    );
  });

  it("is told where it was not given, is called otherwise, or is not understood", async () => {
    const notes = async (...beside: Parameters<typeof ascii>) => {
      const found = await ascii(...beside);
      return found.ok ? { projection: found.value.projection, notes: found.value.notes.join(" ") } : null;
    };
    expect(await notes()).toMatchObject({
      projection: null,
      notes: expect.stringContaining("No .prj and no .msk beside it was given"),
    });
    expect(await notes(given("polar.prj", "other.prj"))).toMatchObject({
      projection: null,
      notes: expect.stringContaining("other.prj was not read: it is not called like polar.asc."),
    });
    expect(await notes(text("polar.prj", "Projection POLAR\nZunits METERS"))).toMatchObject({
      projection: null,
      notes: expect.stringContaining("polar.prj was not read: it holds what is no WKT 1"),
    });
    expect(await notes(text("polar.asc.aux.xml", "<PAMDataset/>"))).toMatchObject({
      notes: expect.stringContaining("polar.asc.aux.xml was not read"),
    });
    const own = await openHeights("polar.tif", bytesOf("polar.tif"), [given("polar.prj")]);
    expect(own.ok ? own.value.notes.join(" ") : "").toContain(
      "polar.prj was not read: polar.tif says itself",
    );
  });
});

const TOLD = { metresPerHeight: 1, unknown: -3.4028234663852886e38 };

describe("a .msk beside a grid", () => {
  it("makes heights unknown as the band that it was made of does", async () => {
    const band = await takeHeights(await opened("alpha-band"), POLE, TOLD);
    const bare = await openHeights("ext.tif", bytesOf("ext.tif"));
    const masked = await openHeights("ext.tif", bytesOf("ext.tif"), [given("ext.tif.msk")]);
    if (!bare.ok || !masked.ok || !band.ok) return expect.unreachable();
    const known = await takeHeights(bare.value, POLE, TOLD);
    const covered = await takeHeights(masked.value, POLE, TOLD);
    if (!known.ok || !covered.ok) return expect.unreachable();
    expect(covered.value.ground).toEqual({ ...band.value.ground, source: "ext.tif" });
    expect(covered.value.taken.unknownPoints).toBeGreaterThan(known.value.taken.unknownPoints + 10);
    expect(masked.value.notes).toEqual(["Where ext.tif.msk is transparent heights are unknown."]);
  });

  it("of another size, or no mask at all, is not read, and that is told", async () => {
    const small = await ascii(given("ext.tif.msk", "polar.msk"));
    expect(small.ok ? small.value.notes.join(" ") : "").toContain(
      "polar.msk was not read: it has 24 by 20 points, polar.asc has 2 by 2.",
    );
    const none = await ascii(text("polar.msk", "no mask"));
    expect(none.ok ? none.value.notes.join(" ") : "").toContain("polar.msk was not read: it is no TIFF");
  });
});

describe("WKT 1", () => {
  const SPHERE =
    'GEOGCS["g",DATUM["D",SPHEROID["S",1737400.0,0.0]],PRIMEM["m",0.0],UNIT["Degree",0.0174532925199433]]';
  const wkt = (projection: string, ...parameters: [string, number][]): string =>
    `PROJCS["p",${SPHERE},PROJECTION["${projection}"],${parameters.map(([name, value]) => `PARAMETER["${name}",${value}],`).join("")}UNIT["Meter",1.0]]`;
  const S = "+R=1737400 +no_defs";

  /** Systems as GDAL 3.6.2 writes them (gdalsrsinfo -o wkt_esri and wkt1), each with the PROJ words it was written from. */
  it.each<[string, string, string]>([
    [
      "polar north, scale true at 70",
      wkt("Stereographic_North_Pole", ["Central_Meridian", 10], ["Standard_Parallel_1", 70]),
      `+proj=stere +lat_0=90 +lat_ts=70 +lon_0=10 ${S}`,
    ],
    [
      "the same by the standard's names",
      wkt("Polar_Stereographic", ["latitude_of_origin", 70], ["central_meridian", 10], ["false_easting", 0]),
      `+proj=stere +lat_0=90 +lat_ts=70 +lon_0=10 ${S}`,
    ],
    [
      "equirectangular",
      wkt("Equidistant_Cylindrical", ["Central_Meridian", 0], ["Standard_Parallel_1", 30]),
      `+proj=eqc +lat_ts=30 +lon_0=0 ${S}`,
    ],
    [
      "Mercator, scale true at 20",
      wkt("Mercator", ["Central_Meridian", 0], ["Standard_Parallel_1", 20]),
      `+proj=merc +lat_ts=20 +lon_0=0 ${S}`,
    ],
    [
      "transverse Mercator",
      wkt(
        "Transverse_Mercator",
        ["False_Easting", 500000],
        ["Central_Meridian", 12],
        ["Scale_Factor", 0.9996],
        ["Latitude_Of_Origin", 0],
      ),
      `+proj=tmerc +approx +lon_0=12 +k=0.9996 +x_0=500000 ${S}`,
    ],
    [
      "conic",
      wkt(
        "Lambert_Conformal_Conic",
        ["Central_Meridian", 12],
        ["Standard_Parallel_1", 30],
        ["Standard_Parallel_2", 40],
        ["Latitude_Of_Origin", 34],
      ),
      `+proj=lcc +lat_1=30 +lat_2=40 +lat_0=34 +lon_0=12 ${S}`,
    ],
  ])("is read by its numbers: %s", (_, given, proj) => {
    const found = projectionOfWkt(given).proj!;
    const at = proj.includes("+lat_0=90") ? [30, 80] : [13, 36];
    const through = (words: string): number[] =>
      proj4("+proj=longlat +R=1737400 +no_defs", words).forward(at);
    expect(through(found)).toEqual(through(proj).map((one) => expect.closeTo(one, 6)));
  });

  it.each<[string, string, RegExp]>([
    ["a projection that is not known", wkt("Cassini", ["Central_Meridian", 0]), /the projection Cassini/],
    [
      "a projection called like what every object has",
      wkt("constructor", ["x", 0]),
      /the projection constructor/,
    ],
    [
      "a parameter called like what every object has",
      wkt("Sinusoidal", ["constructor", 5]),
      /sinusoidal with constructor 5/,
    ],
    [
      "a parameter that is not known",
      wkt("Sinusoidal", ["Central_Meridian", 0], ["Rotation", 5]),
      /sinusoidal with rotation 5/,
    ],
    [
      "a pole that is not named",
      wkt("Polar_Stereographic", ["central_meridian", 10]),
      /a pole it does not name/,
    ],
    ["angles in grads", SPHERE.replace("0.0174532925199433", "0.015707963"), /angles that are no degrees/],
    ["brackets that do not close", wkt("Sinusoidal").slice(0, -1), /no WKT 1/],
    ["another kind", 'PROJCRS["p"]', /of the kind PROJCRS/],
    ["axes to the west", wkt("Sinusoidal").replace(/\]$/, ',AXIS["X",WEST]]'), /to the west/],
  ])("is not read: %s", (_, given, why) => {
    expect(projectionOfWkt(given)).toMatchObject({ proj: null, words: expect.stringMatching(why) });
  });
});
