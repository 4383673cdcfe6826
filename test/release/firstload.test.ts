import { build, type Rolldown } from "vite";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { firstLoad, type LoadedFile } from "../../.config/release/firstload.ts";

let files: readonly LoadedFile[] = [];
let modules: readonly string[] = [];
let packages: readonly string[] = [];

beforeAll(async () => {
  // As it is built to be used: what is built for tests is larger.
  vi.stubEnv("NODE_ENV", "production");
  const built = (await build({ logLevel: "silent", build: { write: false } })) as Rolldown.RolldownOutput;
  const byName = new Map(built.output.map((one) => [one.fileName, one]));
  files = firstLoad((name) => {
    const one = byName.get(name);
    if (!one) throw new Error(`the build has no ${name}`);
    return one.type === "chunk" ? one.code : String(one.source);
  });
  modules = files.flatMap(({ file }) => {
    const one = byName.get(file);
    return one?.type === "chunk" ? one.moduleIds : [];
  });
  packages = modules.flatMap((id) => /node_modules\/((?:@[^/]+\/)?[^/]+)/.exec(id)?.[1] ?? []);
  // Against a build that hangs, and nothing else.
}, 1_800_000);
afterAll(() => {
  vi.unstubAllEnvs();
});

describe("the first load", () => {
  it("has none of what only one screen or one kind of file needs", () => {
    expect(packages).toContain("react-dom");
    for (const late of ["pdfkit", "fontkit", "geotiff", "proj4", "papaparse", "fflate", "saxes"])
      expect(packages).not.toContain(late);
    // The judge and where the sun stands come when the first picture of the plan is on screen.
    expect(packages).not.toContain("astronomy-engine");
    expect(modules.filter((id) => /src\/(check\/rules|terrain|solver)\//.test(id))).toEqual([]);
  });

  it("stays within its size, compressed as most hosts do", () => {
    const kilobytes = files.reduce((sum, { gzip }) => sum + gzip, 0) / 1000;
    expect(kilobytes).toBeGreaterThan(100);
    // Page, styles and scripts, each compressed by itself; faces come as they are, while text already stands in the system's.
    expect(kilobytes).toBeLessThan(250);
  });
});
