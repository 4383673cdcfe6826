import { describe, expect, it } from "vitest";
import { type HeightAnswers, takeHeights, takenWords } from "../../../src/exchange/index.ts";
import type { SiteOnBody } from "../../../src/exchange/heightgrid/placing.ts";
import { MOST_POINTS } from "../../../src/plan/index.ts";
import { heightAt, reliefOf } from "../../../src/terrain/index.ts";
import { MARE, opened, POLE } from "./files.ts";

async function taken(name: string, site: SiteOnBody, answers: HeightAnswers = {}) {
  const found = await takeHeights(await opened(name), site, answers);
  if (!found.ok) throw new Error(JSON.stringify(found.error));
  return { ...found.value, grid: reliefOf(found.value.ground) };
}

async function refused(name: string, site: SiteOnBody, answers: HeightAnswers = {}) {
  const found = await takeHeights(await opened(name), site, answers);
  if (found.ok) throw new Error("it was taken");
  return found.error;
}

type Spot = readonly [eastM: number, northM: number, heightM: number];

/**
 * Heights at places east and north of the lander, by GDAL alone:
 * `gdalwarp -t_srs "+proj=aeqd +lat_0=-88.6 +lon_0=30 +R=1737400 +no_defs" -te -220 -220 220 220 -tr 40 40 -r bilinear
 * -wo XSCALE=1 -wo YSCALE=1 -et 0`, then `gdal_translate -of XYZ`.
 */
const POLAR: readonly Spot[] = [
  [-200, 200, 1027.858],
  [-120, 160, 1026.06],
  [-40, 120, 1023.541],
  [40, 80, 1022.491],
  [120, 40, 1018.136],
  [200, 0, 1005.798],
  [-160, -80, 1006.804],
  [-80, -120, 1002.335],
  [0, -160, 1001.912],
  [80, -200, 1001.641],
];
const SOUTH_UP: readonly Spot[] = [
  [-200, 200, 995.024],
  [-120, 160, 1002.123],
  [-40, 120, 1008.15],
  [40, 80, 1013.919],
  [120, 40, 1022.248],
  [200, 0, 1031.471],
  [-160, -80, 1002.083],
  [-80, -120, 1015.404],
  [80, -200, 1026.155],
];
const TURNED: readonly Spot[] = [
  [-200, 200, 1030.765],
  [-120, 160, 1027.37],
  [-40, 120, 1023.549],
  [40, 80, 1018.515],
  [120, 40, 1010.719],
  [200, 0, 1005.276],
  [-160, -80, 1019.692],
  [-80, -120, 1003.543],
  [80, -200, 995.05],
];
/** The same about latitude 34, longitude 12, 20 m apart; what is stored by its scale and offset, in metres. */
const EQUIRECT: readonly Spot[] = [
  [-100, 100, 1138.407],
  [20, 80, 1125.401],
  [-80, 40, 1114.825],
  [40, 20, 1122.649],
  [-60, -20, 1106.805],
  [60, -40, 1112.753],
  [-40, -80, 1105.25],
  [80, -100, 1100.191],
];
/** The same 26 m apart. */
const DEGREES: readonly Spot[] = [
  [-130, 130, 1029.749],
  [26, 104, 1022.449],
  [-104, 52, 1014.774],
  [52, 26, 1017.395],
  [-78, -26, 999.704],
  [78, -52, 1012.601],
  [-52, -104, 996.445],
  [104, -130, 1005.651],
];

describe("heights on the plan's net, against gdalwarp", () => {
  it.each([
    ["polar", POLE, { spacingM: 40 }, POLAR],
    ["south-up", POLE, { spacingM: 40 }, SOUTH_UP],
    ["turned", POLE, { spacingM: 40 }, TURNED],
    ["equirect-km", MARE, { spacingM: 20 }, EQUIRECT],
    ["degrees", MARE, { spacingM: 26, metresPerHeight: 1 }, DEGREES],
  ] as const)("%s", async (name, site, answers, spots) => {
    // The net's points stand as far apart as gdalwarp's, one on the lander: they are the same to the centimetre kept.
    const { grid } = await taken(name, site, answers);
    for (const [eastM, northM, heightM] of spots) {
      const ours = heightAt(grid, eastM, northM);
      expect(Math.abs(ours - heightM), `${eastM}, ${northM}`).toBeLessThan(0.0056);
    }
  });

  it("turns polar map north to true north and says by how much", async () => {
    const { taken: what } = await taken("polar", POLE);
    // About the south pole at longitude 30 the map's upward side points 30 degrees clockwise of local north:
    // gdaltransform of -88.6 30 and -88.59 30 moves by (151.59, 262.57): atan2 is 30 degrees.
    expect(what.laying.upDeg).toBeCloseTo(330, 1);
    expect(what.laying.isMirrored).toBe(false);
    expect(takenWords(what).join("\n")).toMatch(/30 degrees anticlockwise of true north/);
    const south = await taken("south-up", POLE);
    expect(south.taken.laying.isMirrored).toBe(true);
  });

  it("leaves unknown what one of the four about it does not know, and beyond the file", async () => {
    const { grid, taken: what } = await taken("polar", POLE);
    // c 20, r 3 stands at (21580, 37020) in the file; local: turned by 30 degrees about (21227.4, 36766.9).
    const [right, up] = [21580 - 21227.4, 37020 - 36766.94];
    const [sine, cosine] = [0.5, Math.sqrt(3) / 2];
    const spot = [right * cosine - up * sine, up * cosine + right * sine] as const;
    expect(heightAt(grid, ...spot)).toBeNaN();
    expect(what.unknownPoints).toBeGreaterThan(3);
    expect(takenWords(what).join("\n")).toContain(`${what.unknownPoints} of ${what.points} points`);
  });
});

describe("what a file says and does not say", () => {
  it("reads kilometres and feet, and asks for a unit that is not said", async () => {
    const km = await taken("equirect-km", MARE);
    expect(km.taken.metresPerHeight).toBe(1000);
    // feet.tif has no value for unknown: it is named by hand. 1 US survey foot is 1200 / 3937 m.
    const unknown = { unknown: -3.4028234663852886e38 };
    const feet = await taken("feet", POLE, unknown);
    const metres = await taken("polar", POLE);
    const [a, b] = [heightAt(feet.grid, 0, 0), heightAt(metres.grid, 0, 0)];
    expect(Math.abs(a - (b * 1200) / 3937)).toBeLessThan(0.006);
    expect(await refused("masked", POLE)).toMatchObject([{ about: "unit" }]);
    expect(await refused("bare", POLE)).toMatchObject([{ about: "unit" }, { about: "projection" }]);
  });

  it("asks which value is unknown when heights are none that ground can have", async () => {
    const [only] = await refused("feet", POLE);
    expect(only).toMatchObject({ about: "unknown", words: expect.stringMatching(/from -\d\.\de\+3[78] to/) });
  });

  it("uses a transparency band and a mask inside the file alike", async () => {
    const answers = { metresPerHeight: 1, unknown: -3.4028234663852886e38 };
    const [mask, alpha, plain] = [
      await taken("masked", POLE, answers),
      await taken("alpha-band", POLE, answers),
      await taken("polar", POLE, answers),
    ];
    // 4 by 3 points of 960 m by 800 m are unknown.
    expect(mask.taken.unknownPoints).toBeGreaterThan(plain.taken.unknownPoints + 10);
    expect(alpha.taken.unknownPoints).toBe(mask.taken.unknownPoints);
    expect(takenWords(mask.taken).join("\n")).toContain("mask is transparent");
  });

  it("refuses a plan that lies elsewhere, and says how far, and another body", async () => {
    // 0.1 degrees of latitude are 3032 m on this sphere; the file reaches some 400 m from its middle.
    const [away] = await refused("polar", { ...POLE, latDeg: -88.5 });
    expect(away!.about).toBe("place");
    const metres = 1000 * Number(/lies (\d\.\d\d) km outside/.exec(away!.words)![1]);
    expect(metres).toBeGreaterThan(3032 - 800);
    expect(metres).toBeLessThan(3032);
    expect((await refused("polar", MARE))[0]!.words).toMatch(/lies [\d\u202f]+ km outside/);
    expect(await refused("polar", { ...POLE, radiusM: 1_740_000 })).toMatchObject([{ about: "body" }]);
  });

  it("lays a file without projection as it is told, and with the projection's own words as gdalwarp does", async () => {
    const answers = { metresPerHeight: 1, upDeg: 0 };
    const straight = await taken("bare", POLE, answers);
    expect(straight.taken.laying.isPointByPoint).toBe(true);
    expect(straight.ground).toMatchObject({ columns: 24, rows: 20, cellM: 40 });
    // Turned by a quarter the first row lies in the east: what was north of the lander is east of it.
    const quarter = await taken("bare", POLE, { ...answers, upDeg: 90 });
    expect(heightAt(quarter.grid, 100, 0)).toBeCloseTo(heightAt(straight.grid, 0, 100), 1);
    expect(takenWords(straight.taken).join("\n")).toContain("given by hand");
    const proj = "+proj=stere +lat_0=-90 +lon_0=0 +k=1 +x_0=-20760 +y_0=-36360 +R=1737400 +no_defs";
    const told = await taken("bare", POLE, { metresPerHeight: 1, projection: proj, spacingM: 40 });
    for (const [eastM, northM, heightM] of POLAR)
      expect(Math.abs(heightAt(told.grid, eastM, northM) - heightM)).toBeLessThan(0.0056);
    const wrong = await refused("bare", POLE, { metresPerHeight: 1, projection: "+proj=nothing" });
    expect(wrong).toMatchObject([{ about: "projection", words: expect.stringContaining("cannot be read") }]);
  });
});

describe("as much of it as is wanted", () => {
  it("crops about the lander and thins, and says what thinning does to slopes", async () => {
    const near = await taken("polar", POLE, { reachM: 200, spacingM: 40 });
    expect(near.ground).toMatchObject({ westM: -200, southM: -200, columns: 11, rows: 11 });
    const thin = await taken("polar", POLE, { spacingM: 160 });
    expect(thin.ground.cellM).toBe(160);
    expect(thin.taken.steepestDeg).toBeLessThan(thin.taken.fileSteepestDeg);
    expect(takenWords(thin.taken).join("\n")).toMatch(
      /in the file, .* as taken: slopes shorter than 160 m are not seen/,
    );
    expect(await refused("polar", POLE, { spacingM: 10 })).toMatchObject([{ about: "size" }]);
  });

  it("says how a file of too many points can be taken, and takes it so", async () => {
    const side = 2400;
    const source = {
      ...(await opened("bare")),
      columns: side,
      rows: side,
      net: { x0: 0, xByColumn: 5, xByRow: 0, y0: 0, yByColumn: 0, yByRow: -5 },
      read: (cut: { firstColumn: number; lastColumn: number; firstRow: number; lastRow: number }) =>
        Promise.resolve(
          new Float64Array((cut.lastColumn - cut.firstColumn + 1) * (cut.lastRow - cut.firstRow + 1)),
        ),
    };
    const answers = { metresPerHeight: 1, upDeg: 0 };
    const all = await takeHeights(source, POLE, answers);
    if (all.ok) return expect.unreachable();
    const words = all.error[0]!.words;
    const reachM = Number(/within (\d+) m/.exec(words)![1]);
    const spacingM = Number(/at least ([\d.]+) m apart/.exec(words)![1]);
    for (const more of [{ reachM }, { spacingM }]) {
      const some = await takeHeights(source, POLE, { ...answers, ...more });
      if (!some.ok) throw new Error(some.error[0]!.words);
      const points = some.value.ground.columns * some.value.ground.rows;
      expect(points).toBeLessThanOrEqual(MOST_POINTS);
      expect(points).toBeGreaterThan(0.9 * MOST_POINTS);
    }
  });
});
