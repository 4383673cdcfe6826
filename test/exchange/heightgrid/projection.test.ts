import proj4 from "proj4";
import { describe, expect, it } from "vitest";
import { type GeoKeys, projectionOf } from "../../../src/exchange/heightgrid/projection.ts";

const MOON = {
  GeogSemiMajorAxisGeoKey: 1_737_400,
  GeogSemiMinorAxisGeoKey: 1_737_400,
  GeogAngularUnitsGeoKey: 9102,
  GTModelTypeGeoKey: 1,
  ProjectedCSTypeGeoKey: 32767,
  ProjLinearUnitsGeoKey: 9001,
};

/** Map coordinates of a longitude and latitude on a sphere of 1737.4 km. */
function mapped(proj: string, lonDeg: number, latDeg: number): readonly [number, number] {
  return proj4("+proj=longlat +R=1737400 +no_defs", proj).forward([lonDeg, latDeg]) as [number, number];
}

describe("the projection that a file's keys describe", () => {
  /**
   * Coordinates by GDAL 3.6.2: `echo LON LAT | gdaltransform -s_srs "+proj=longlat +R=1737400 +no_defs" -t_srs PROJ`, PROJ
   * being the projection named, with the parameters of the keys.
   */
  it.each([
    [
      "polar stereographic, pole and scale",
      {
        ProjCoordTransGeoKey: 15,
        ProjNatOriginLatGeoKey: -90,
        ProjScaleAtNatOriginGeoKey: 1,
        ProjStraightVertPoleLongGeoKey: 0,
      },
      [30, -88.6],
      [21227.401, 36766.938],
    ],
    [
      "polar stereographic, true at a parallel",
      { ProjCoordTransGeoKey: 15, ProjNatOriginLatGeoKey: 80, ProjStraightVertPoleLongGeoKey: 45 },
      [30, 88.6],
      [-10904.644, -40696.687],
    ],
    [
      "equirectangular",
      {
        ProjCoordTransGeoKey: 17,
        ProjStdParallel1GeoKey: 30,
        ProjCenterLongGeoKey: 0,
        ProjCenterLatGeoKey: 0,
      },
      [12, 34],
      [315129.502, 1030993.914],
    ],
    [
      "transverse Mercator",
      {
        ProjCoordTransGeoKey: 1,
        ProjNatOriginLatGeoKey: 0,
        ProjNatOriginLongGeoKey: 15,
        ProjScaleAtNatOriginGeoKey: 0.99,
        ProjFalseEastingGeoKey: 1000,
      },
      [12, 34],
      [-73676.188, 1021777.801],
    ],
    [
      "Lambert conformal conic",
      {
        ProjCoordTransGeoKey: 8,
        ProjFalseOriginLatGeoKey: 30,
        ProjFalseOriginLongGeoKey: 10,
        ProjStdParallel1GeoKey: 25,
        ProjStdParallel2GeoKey: 40,
      },
      [12, 34],
      [49859.831, 120754.804],
    ],
    [
      "Lambert azimuthal equal area",
      { ProjCoordTransGeoKey: 10, ProjCenterLatGeoKey: 33, ProjCenterLongGeoKey: 11 },
      [12, 34],
      [25139.543, 30443.256],
    ],
    [
      "orthographic, in kilometres",
      {
        ProjCoordTransGeoKey: 21,
        ProjCenterLatGeoKey: 33,
        ProjCenterLongGeoKey: 11,
        ProjLinearUnitsGeoKey: 9036,
      },
      [12, 34],
      [25.138, 30.441],
    ],
    [
      "sinusoidal",
      { ProjCoordTransGeoKey: 24, ProjCenterLongGeoKey: 5 },
      [12, 34],
      [175974.378, 1030993.914],
    ],
  ] as const)("%s", (_, keys, [lonDeg, latDeg], [x, y]) => {
    const { proj } = projectionOf({ ...MOON, ...keys } as GeoKeys);
    const found = mapped(proj!, lonDeg, latDeg);
    expect(found[0]).toBeCloseTo(x, 2);
    expect(found[1]).toBeCloseTo(y, 2);
  });

  it("is read from a citation where the numbers do not give it", () => {
    const wkt =
      'GEOGCS["Moon",DATUM["D",SPHEROID["S",1737400,0]],PRIMEM["m",0],UNIT["degree",0.0174532925199433]]';
    const keys = {
      GTModelTypeGeoKey: 2,
      GeographicTypeGeoKey: 32767,
      GeogCitationGeoKey: `ESRI PE String = ${wkt}`,
    };
    expect(projectionOf(keys).proj).toBe("+proj=longlat +a=1737400 +b=1737400 +no_defs");
  });

  it.each([
    ["nothing", {}, /no reference system/],
    ["a register's number", { GTModelTypeGeoKey: 1, ProjectedCSTypeGeoKey: 32633 }, /number 32633 alone/],
    ["a method that is not read", { ...MOON, ProjCoordTransGeoKey: 27 }, /number 27/],
    [
      "no size of the body",
      { ...MOON, GeogSemiMajorAxisGeoKey: undefined, ProjCoordTransGeoKey: 17 },
      /size it does not give/,
    ],
    ["no pole", { ...MOON, ProjCoordTransGeoKey: 15 }, /pole it does not name/],
    ["grads", { ...MOON, GTModelTypeGeoKey: 2, GeogAngularUnitsGeoKey: 9105 }, /angles in unit 9105/],
  ])("is not known from %s", (_, keys, words) => {
    expect(projectionOf(keys as GeoKeys)).toEqual({ proj: null, words: expect.stringMatching(words) });
  });
});
