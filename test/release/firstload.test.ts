import { build, type Rolldown } from "vite";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { firstLoad, type LoadedFile } from "../../.config/release/firstload.ts";

let files: readonly LoadedFile[] = [];
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
  packages = files.flatMap(({ file }) => {
    const one = byName.get(file);
    const modules = one?.type === "chunk" ? one.moduleIds : [];
    return modules.flatMap((id) => /node_modules\/((?:@[^/]+\/)?[^/]+)/.exec(id)?.[1] ?? []);
  });
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
  });

  it("stays within its size, compressed as most hosts do", () => {
    const kilobytes = files.reduce((sum, { gzip }) => sum + gzip, 0) / 1000;
    expect(kilobytes).toBeGreaterThan(100);
    // 297 kB as measured, with room for a page or two: what is larger has taken in what should come on demand.
    expect(kilobytes).toBeLessThan(310);
  });
});
