import { writeArrayBuffer } from "geotiff";
import { describe, expect, it } from "vitest";
import { siteWork, withPlaceAt } from "../../src/store/index.ts";
import { deskWith } from "./bench.ts";

const file = (name: string, text: string) => ({
  name,
  size: text.length,
  text: () => Promise.resolve(text),
  arrayBuffer: () => Promise.resolve(new TextEncoder().encode(text).buffer as ArrayBuffer),
});

function bench() {
  const { desk, engine } = deskWith();
  return { desk, site: siteWork(desk, engine), plan: () => desk.state.getState().plan };
}

const GRID = "ncols 3\nnrows 2\nxllcenter 0\nyllcenter 0\ncellsize 100\n1 2 3\n4 5 6\n";

describe("the site's work", () => {
  it("moves a place as one step that undo takes back", () => {
    const { desk, site, plan } = bench();
    const before = plan();
    expect(site.movePlace("ridge", 123.456, -7)).toBeNull();
    expect(plan().site.places[1]).toMatchObject({ eastM: 123.5, northM: -7 });
    expect(desk.undo()).toBe("Move Ridge");
    expect(plan()).toEqual(before);
  });

  it("does not move the lander, nor a place to where it is", () => {
    const { desk, site, plan } = bench();
    const steps = desk.state.getState().history.undo.length;
    expect(site.movePlace("lander", 5, 5)).toContain("coordinates begin");
    expect(site.movePlace("nowhere", 5, 5)).toContain("no such place");
    expect(withPlaceAt(plan(), "ridge", 90, 0.01)).toBe(plan());
    expect(site.movePlace("ridge", 1e9, 0)).not.toBeNull();
    expect(desk.state.getState().history.undo).toHaveLength(steps);
  });

  it("writes GeoJSON that it reads back as the same places", async () => {
    const { desk, site, plan } = bench();
    const text = site.geoJson(null, []);
    const took = await site.addGeoJson(file("same.geojson", text));
    expect(took).toMatchObject({ ok: true });
    const { places } = plan().site;
    expect(places).toHaveLength(4);
    expect(places[3]!.eastM).toBeCloseTo(90, 1);
    expect(desk.undo()).toBe("Add places from same.geojson");
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

  it("takes heights from an ASCII grid as one step, and says why it takes no others", async () => {
    const { desk, site, plan } = bench();
    expect(await site.setHeights(file("a.asc", GRID))).toMatchObject({ ok: true });
    expect(plan().ground).toMatchObject({ type: "grid", columns: 3, rows: 2, cellM: 100, source: "a.asc" });
    expect(desk.undo()).toBe("Ground from a.asc");
    const before = plan();
    for (const text of ["", "ncols two", GRID.replace("3\n4", "3 9\n4"), "II*\0not a tiff"]) {
      const took = await site.setHeights(file("b.asc", text));
      expect(took.ok, text).toBe(false);
      expect(took.words).toMatch(/^b\.asc was not taken: ./);
    }
    expect(await site.setHeights({ ...file("c.tif", ""), size: 1e12 })).toMatchObject({ ok: false });
    const unread = { ...file("d.asc", ""), arrayBuffer: () => Promise.reject(new Error("gone")) };
    expect((await site.setHeights(unread)).words).toContain("gone");
    expect(plan()).toBe(before);
  });

  it("knows a GeoTIFF by its first bytes, whatever it is called, and says why one in degrees is not taken", async () => {
    const { site, plan } = bench();
    const before = plan();
    // The writer's own reference system is degrees.
    const tiff = (await writeArrayBuffer([1, 2, 3, 4], { width: 2, height: 2 } as never)) as ArrayBuffer;
    const took = await site.setHeights({
      ...file("heights.bin", ""),
      arrayBuffer: () => Promise.resolve(tiff),
    });
    expect(took.words).toContain("its coordinates are degrees; project it to metres first");
    expect(plan()).toBe(before);
  });
});
