import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Plan } from "../../src/plan/index.ts";
import { readPdf } from "../exchange/paper/readpdf.ts";
import { samplePlan } from "../exchange/samplePlan.ts";
import { stepsOf } from "../plan/lines.ts";
import { run } from "./run.ts";

let folder = "";
const at = (name: string): string => join(folder, name);
const write = (name: string, plan: Plan): void => writeFileSync(at(name), JSON.stringify(plan));

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "lope-diff-"));
  const plan = samplePlan();
  write("before.json", plan);
  write("step.json", {
    ...plan,
    tasks: plan.tasks.map((task) =>
      task.id === "rim-survey" ? { ...task, steps: stepsOf("Panorama at the start", "Call") } : task,
    ),
  });
  write("place.json", {
    ...plan,
    site: {
      ...plan.site,
      places: plan.site.places.map((place) => (place.id === "rim" ? { ...place, name: "South rim" } : place)),
    },
  });
});
afterAll(() => rmSync(folder, { recursive: true }));

describe("lope diff", () => {
  it("has nothing to replace between a plan and itself", async () => {
    const { code, out } = await run("diff", at("before.json"), at("before.json"), "--no-shed");
    expect([code, out]).toEqual([0, "No page has to be replaced.\n"]);
  });

  it("tells the change and the pages of everybody who reads it", async () => {
    const { code, out } = await run("diff", at("before.json"), at("step.json"), "--no-shed");
    expect(code).toBe(0);
    expect(out).toMatch(/^Task 5 Rim survey: /);
    // The glance page has the fingerprint to be read out, the task's page the step; both crew do it.
    expect(out).toMatch(/EV1, EVA 1, page \d+, Rim survey/);
    expect(out).toMatch(/EV2, EVA 1, page \d+, Rim survey/);
    expect(out).not.toMatch(/Rake sample|Manifest|Site map/);
  });

  it("goes over every sheet: another name of a place is on map, stations, manifest and console", async () => {
    const { out } = await run("diff", at("before.json"), at("place.json"), "--no-shed");
    for (const sheet of ["Site map", "Tasks by station", "Container manifest", "Console timeline"])
      expect(out).toContain(sheet);
    expect(out).not.toMatch(/Flight rules/);
  });

  it("writes the changes and the pages to replace, and says how many", async () => {
    const args = ["diff", at("before.json"), at("step.json"), "--no-shed", "--out", at("x.pdf")];
    const { code, out } = await run(...args, "--paper", "cuff");
    expect(code).toBe(0);
    const { pages } = await readPdf(new Uint8Array(readFileSync(at("x.pdf"))));
    expect(out).toContain(`${pages.length} pages written to ${at("x.pdf")}`);
    for (const { widthMm, heightMm } of pages) expect([widthMm, heightMm].map(Math.round)).toEqual([98, 132]);
  });

  it.each([
    [["diff"], /./],
    [["diff", "a.json", "b.json", "--paper", "a5"], /--paper a5: give a4, letter or cuff/],
  ])("refuses %j with a word", async (args, words) => {
    const { code, err } = await run(...args);
    expect(code).toBe(2);
    expect(err).toMatch(words);
  });
});
