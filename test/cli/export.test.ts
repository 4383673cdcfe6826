import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { unzipSync } from "fflate";
import { afterAll, describe, expect, it } from "vitest";
import { planText } from "../../src/exchange/index.ts";
import { samplePlan } from "../exchange/samplePlan.ts";
import { sessionWith } from "../session/bench.ts";
import { run } from "./run.ts";

const folder = mkdtempSync(join(tmpdir(), "lope-export-"));
const at = (name: string): string => join(folder, name);
writeFileSync(at("plan.json"), planText(samplePlan()));
afterAll(() => rmSync(folder, { recursive: true }));

describe("lope export", () => {
  it("writes one kind, or all of them as a zip", async () => {
    expect((await run("export", "calendar", at("plan.json"), "--out", at("day.ics"))).code).toBe(0);
    expect(readFileSync(at("day.ics"), "utf8")).toMatch(/^BEGIN:VCALENDAR\r\n/);
    expect((await run("export", "zip", at("plan.json"), "--out", at("all.zip"))).code).toBe(0);
    const files = unzipSync(readFileSync(at("all.zip")));
    expect(Object.keys(files)).toContain("bench.csv");
    // Ways of the day are worked out, not left away.
    expect(new TextDecoder().decode(files["site.geojson"])).toContain('"LineString"');
  });

  it("names the kinds where it is given none of them", async () => {
    const { code, err } = await run("export", "poem", at("plan.json"), "--out", at("x"));
    expect(code).toBe(2);
    expect(err).toContain("the kinds are plan, page, tasks,");
  });

  it("writes a plan as the screen saves it, to the byte", async () => {
    expect((await run("export", "plan", at("plan.json"), "--out", at("again.json"))).code).toBe(0);
    const { session } = sessionWith();
    expect(session.open(readFileSync(at("again.json"), "utf8"))).toBe(true);
    expect(session.saveText()).toBe(readFileSync(at("again.json"), "utf8"));
  });
});
