import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { OddsReport } from "../../src/answers/index.ts";
import { planText } from "../../src/exchange/index.ts";
import { applyPatch, parseText, type Plan } from "../../src/plan/index.ts";
import { samplePlan } from "../exchange/samplePlan.ts";
import { run, runUntil } from "./run.ts";

let folder = "";
const at = (name: string): string => join(folder, name);

const read = async (name: string): Promise<Plan> => {
  const plan = parseText(await readFile(at(name), "utf8"));
  if (!plan.ok) throw new Error(plan.error.map(({ message }) => message).join("\n"));
  return plan.value;
};

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "lope-wish-"));
  await writeFile(at("plan.json"), planText({ ...samplePlan(), schedule: { placements: [] } }));
});
afterAll(() => rm(folder, { recursive: true }));

describe("lope pack for a wish", () => {
  const pack = (...more: string[]) =>
    run("pack", at("plan.json"), "--iterations", "60", "--out", at("packed.json"), ...more);

  it("writes the wish and the caution that the day was packed for, and breaks no rule", async () => {
    const { code, out } = await pack("--holds", "0.8", "--safe", "0.95");
    expect(code).toBe(0);
    expect(out).toMatch(/home .*, wanted 95 %; on \d+ days that the search did not see/);
    expect(out).toMatch(/must-do .*, wanted 80 %: the wish is/);
    const { odds } = await read("packed.json");
    expect(odds.wish).toEqual({ home: 0.95, must: 0.8 });
    expect((await run("check", at("packed.json"))).code).toBe(0);
  });

  it("is counted by odds under the names that were wished by", async () => {
    await pack("--holds", "0.8");
    const { out } = await run("odds", at("packed.json"), "--days", "100", "--json");
    const report = JSON.parse(out) as OddsReport & Record<"safe", OddsReport["home"]>;
    for (const chance of [report.safe, report.must, report.whole])
      expect(chance.low <= chance.share && chance.share <= chance.high).toBe(true);
    expect(report.safe).toEqual(report.home);
    expect(report.worth.mean).toBeGreaterThan(0);
  });

  it("writes a day whose chances are counted where a Ctrl-C ends the search", async () => {
    const stop = AbortSignal.timeout(1);
    const { code, out } = await runUntil(
      stop,
      "pack",
      at("plan.json"),
      ...["--seconds", "3600", "--holds", "0.8", "--out", at("packed.json")],
    );
    expect(code).toBe(0);
    expect(out).toContain("stopped: cancelled");
    expect(out).toMatch(/must-do .*, wanted 80 %: the wish is/);
    expect((await read("packed.json")).schedule.placements.length).toBeGreaterThan(0);
  });

  it.each([
    ["--holds", "1.01"],
    ["--holds", "90%"],
    ["--safe", ""],
    ["--safe", "NaN"],
  ])("refuses %s %s and says what it takes", async (name, given) => {
    const { code, err } = await pack(name, given);
    expect(code).toBe(2);
    expect(err).toContain(`${name} ${given}: give a number from 0 to 1`);
  });
});

describe("lope curve", () => {
  it("gives what was found until a Ctrl-C, and says so", async () => {
    const stop = AbortSignal.timeout(1);
    const { code, out, err } = await runUntil(stop, "curve", at("plan.json"), "--seconds", "3600");
    expect(code).toBe(0);
    expect(out).toMatch(/counted on \d+ simulated days/);
    expect(err).toMatch(/^lope: stopped after \d+\.\d s; the days are of what was found until then\n$/);
  });

  it("keeps each day with the caution that its chances are counted with, and loses none that was there", async () => {
    const curve = (from: string, to: string) =>
      run("curve", at(from), "--iterations", "150", "--out", at(to), "--json");
    const { code, out } = await curve("plan.json", "once.json");
    expect(code).toBe(0);
    const days = JSON.parse(out) as {
      caution: number;
      wish: Plan["odds"]["wish"];
      schedule: Plan["schedule"];
    }[];
    expect(days.length).toBeGreaterThan(0);
    const once = await read("once.json");
    expect(once.variants).toHaveLength(days.length);
    days.forEach(({ caution, schedule }, k) => {
      const { givesUp, schedule: kept } = once.variants[k]!;
      const changed = applyPatch(once, givesUp!.patch);
      expect(changed.ok && changed.value.odds.crew.caution).toBe(caution);
      expect(kept).toEqual(schedule);
    });
    await curve("once.json", "twice.json");
    const twice = await read("twice.json");
    expect(twice.variants.slice(0, days.length)).toEqual(once.variants);
    expect(twice.variants.length).toBeGreaterThan(days.length);
    expect(new Set(twice.variants.map(({ id }) => id)).size).toBe(twice.variants.length);
  });
});
