import { cp, mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { planText } from "../../src/exchange/index.ts";
import { parseText } from "../../src/plan/index.ts";
import { samplePlan } from "../exchange/samplePlan.ts";
import { run } from "./run.ts";

let folder = "";
const at = (name: string): string => join(folder, name);
const file = (name: string): string =>
  fileURLToPath(new URL(`../exchange/heightgrid/files/${name}`, import.meta.url));

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "lope-heights-"));
  const plan = samplePlan();
  await writeFile(at("plan.json"), planText({ ...plan, site: { ...plan.site, latDeg: -88.6, lonDeg: 30 } }));
});
afterAll(() => rm(folder, { recursive: true }));

describe("lope heights", () => {
  it("writes the plan with the heights as its ground, and says what was taken as the screen does", async () => {
    const { code, out, err } = await run(
      "heights",
      at("plan.json"),
      "--from",
      file("polar.tif"),
      "--out",
      at("out.json"),
      "--reach",
      "200",
    );
    expect({ code, err }).toEqual({ code: 0, err: "" });
    for (const said of [
      /heights, [\d.]+ m apart/,
      /true north/,
      /^Unit: metres, as the file says/m,
      /^Least [\d\u202f.]+ m, greatest [\d\u202f.]+ m/m,
      /^Unknown/m,
    ])
      expect(out).toMatch(said);
    const made = parseText(await readFile(at("out.json"), "utf8"));
    expect(made.ok ? made.value.ground : null).toMatchObject({ type: "grid", source: "polar.tif" });
  });

  it("reads a projection and a mask that are given beside it, and says where they are not", async () => {
    const grid = "ncols 9\nnrows 9\nxllcenter 20780\nyllcenter 36380\ncellsize 120\n" + "5 ".repeat(81);
    await writeFile(at("polar.asc"), grid);
    await cp(file("polar.prj"), at("polar.prj"));
    const alone = await run(
      "heights",
      at("plan.json"),
      "--from",
      at("polar.asc"),
      "--out",
      at("a.json"),
      "--unit",
      "m",
    );
    expect(alone.code).toBe(2);
    expect(alone.err).toMatch(/does not say where it lies.*Say it with --projection/);
    expect(alone.err).toContain("No .prj and no .msk beside it was given");
    const both = await run(
      ...["heights", at("plan.json"), "--from", at("polar.asc"), "--from", at("polar.prj")],
      ...["--out", at("a.json"), "--unit", "m"],
    );
    expect({ code: both.code, err: both.err }).toEqual({ code: 0, err: "" });
    expect(both.out).toContain("as polar.prj says");
  });

  it("refuses what it cannot use: no file, two grids, another unit, an unread number", async () => {
    const said = async (...more: string[]) =>
      (await run("heights", at("plan.json"), "--out", at("a.json"), ...more)).err;
    expect(await said()).toContain("say which file of heights");
    expect(await said("--from", file("polar.tif"), "--from", file("feet.tif"))).toContain(
      "several files of heights",
    );
    expect(await said("--from", at("none.tif"))).toContain("there is no such file");
    expect(await said("--from", file("polar.tif"), "--unit", "yard")).toContain("--unit yard");
    expect(await said("--from", file("polar.tif"), "--lander", "1")).toContain("--lander 1");
  });
});
