import { writeArrayBuffer } from "geotiff";
import { describe, expect, it } from "vitest";
import { withPlaceAt } from "../../src/session/index.ts";
import { siteWork } from "../../src/session/site.ts";
import { sessionWith } from "./bench.ts";

const file = (name: string, text: string) => ({
  name,
  size: text.length,
  text: () => Promise.resolve(text),
  arrayBuffer: () => Promise.resolve(new TextEncoder().encode(text).buffer as ArrayBuffer),
});

function bench() {
  const { session, engine } = sessionWith();
  return { session, site: siteWork(session, engine), plan: () => session.state.getState().plan };
}

const GRID = "ncols 3\nnrows 2\nxllcenter 0\nyllcenter 0\ncellsize 100\n1 2 3\n4 5 6\n";

describe("the site's work", () => {
  it("moves a place as one step that undo takes back", () => {
    const { session, site, plan } = bench();
    const before = plan();
    expect(site.movePlace("ridge", 123.456, -7)).toBeNull();
    expect(plan().site.places[1]).toMatchObject({ eastM: 123.5, northM: -7 });
    expect(session.undo()).toBe("Move Ridge");
    expect(plan()).toEqual(before);
  });

  it("does not move the lander, nor a place to where it is", () => {
    const { session, site, plan } = bench();
    const steps = session.state.getState().history.undo.length;
    expect(site.movePlace("lander", 5, 5)).toContain("coordinates begin");
    expect(site.movePlace("nowhere", 5, 5)).toContain("no such place");
    expect(withPlaceAt(plan(), "ridge", 90, 0.01)).toBe(plan());
    expect(site.movePlace("ridge", 1e9, 0)).not.toBeNull();
    expect(session.state.getState().history.undo).toHaveLength(steps);
  });

  it("writes GeoJSON that it reads back as the same places", async () => {
    const { session, site, plan } = bench();
    const text = site.geoJson(null, []);
    const took = await site.addGeoJson(file("same.geojson", text));
    expect(took).toMatchObject({ ok: true });
    const { places } = plan().site;
    expect(places).toHaveLength(4);
    expect(places[3]!.eastM).toBeCloseTo(90, 1);
    expect(session.undo()).toBe("Add places from same.geojson");
    expect(plan().site.places).toHaveLength(2);
  });

  it.each([
    ["no JSON", "so", "this is not JSON"],
    ["no collection", "{}", "FeatureCollection"],
    ["nothing in it", '{"type":"FeatureCollection","features":[]}', "no points and no polygons"],
  ])("refuses a GeoJSON file and leaves the plan: %s", async (_, text, why) => {
    const { site, plan } = bench();
    const before = plan();
    const took = await site.addGeoJson(file("a.geojson", text));
    expect(took.ok).toBe(false);
    expect(took.words).toContain(why);
    expect(took.words).toContain("The plan is as it was.");
    expect(plan()).toBe(before);
  });

  it("takes heights from an ASCII grid as one step, once its unit and north are said", async () => {
    const { session, site, plan } = bench();
    const before = plan();
    const source = await site.openHeights([file("a.asc", GRID)]);
    if ("ok" in source) return expect.unreachable();
    const asked = await site.takeHeights(source, {});
    expect(asked).toMatchObject([{ about: "unit" }, { about: "projection" }]);
    expect(await site.layHeights(source, {})).toEqual(asked);
    expect(plan()).toBe(before);
    const told = { upDeg: 0, metresPerHeight: 1 };
    expect(await site.layHeights(source, told)).toMatch(/^3 by 2 heights, 100 m apart: 100 m west/);
    const took = await site.takeHeights(source, told);
    expect(took).toMatchObject({ ok: true, lines: expect.arrayContaining(["Unknown: none."]) });
    expect(plan().ground).toMatchObject({ type: "grid", columns: 3, rows: 2, cellM: 100, source: "a.asc" });
    expect(session.undo()).toBe("Ground from a.asc");
  });

  it("takes one file of heights with what lies beside it, and not two", async () => {
    const { site } = bench();
    const opened = await site.openHeights([
      file("a.prj", "+proj=longlat +R=1737400 +no_defs"),
      file("a.asc", GRID),
    ]);
    expect(opened).toMatchObject({ name: "a.asc", projection: "+proj=longlat +R=1737400 +no_defs" });
    const two = await site.openHeights([file("a.asc", GRID), file("b.asc", GRID)]);
    expect(two).toMatchObject({ ok: false, words: expect.stringMatching(/several files of heights/) });
    expect(await site.openHeights([file("a.prj", "")])).toMatchObject({ ok: false });
  });

  it("says why a file of heights is none, and leaves the plan", async () => {
    const { site, plan } = bench();
    const before = plan();
    for (const text of ["", "ncols two", GRID.replace("3\n4", "3 9\n4"), "II*\0not a tiff"]) {
      const found = await site.openHeights([file("b.asc", text)]);
      if (!("ok" in found)) return expect.unreachable();
      expect(found.ok, text).toBe(false);
      expect(found.words).toMatch(/^b\.asc was not taken: ./);
    }
    expect(await site.openHeights([{ ...file("c.tif", ""), size: 1e12 }])).toMatchObject({ ok: false });
    const unread = { ...file("d.asc", ""), arrayBuffer: () => Promise.reject(new Error("gone")) };
    expect(await site.openHeights([unread])).toMatchObject({ words: expect.stringContaining("gone") });
    expect(plan()).toBe(before);
  });

  it("knows a GeoTIFF by its first bytes, whatever it is called, and that it is of another body", async () => {
    const { site, plan } = bench();
    const before = plan();
    // The writer's own reference system is a number of a register and has no size of a body in it.
    const tiff = (await writeArrayBuffer([1, 2, 3, 4], { width: 2, height: 2 } as never)) as ArrayBuffer;
    const source = await site.openHeights([
      { ...file("heights.bin", ""), arrayBuffer: () => Promise.resolve(tiff) },
    ]);
    if ("ok" in source) return expect.unreachable();
    expect(source.projectionWords).toMatch(/named by the number 4326 alone/);
    const earth = { projection: "+proj=longlat +a=6378137 +b=6356752", metresPerHeight: 1 };
    expect(await site.takeHeights(source, earth)).toMatchObject([{ about: "body" }]);
    expect(plan()).toBe(before);
  });
});
