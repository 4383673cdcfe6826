import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Recall } from "../../src/answers/index.ts";
import { planText } from "../../src/exchange/index.ts";
import type { Debrief } from "../../src/rehearsal/index.ts";
import { samplePlan } from "../exchange/samplePlan.ts";
import { run } from "./run.ts";

let folder = "";
const at = (name: string): string => join(folder, name);

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "lope-rehearse-"));
  await writeFile(at("sound.json"), planText(samplePlan()));
  await writeFile(at("empty.json"), planText({ ...samplePlan(), schedule: { placements: [] } }));
});
afterAll(() => rm(folder, { recursive: true }));

describe("lope rehearse", () => {
  it("plays the day the same for the same seed, and leaves the file alone", async () => {
    const before = await readFile(at("sound.json"), "utf8");
    const first = await run("rehearse", at("sound.json"), "--seed", "4", "--json");
    expect(first).toMatchObject({ code: 0, err: "" });
    expect(await run("rehearse", at("sound.json"), "--seed", "4", "--json")).toEqual(first);
    const { debrief } = JSON.parse(first.out) as { debrief: Debrief };
    expect(debrief.planned).toBe(samplePlan().schedule.placements.length);
    expect(debrief.rows.every((row) => row.outcome === "done")).toBe(true);
    expect(await readFile(at("sound.json"), "utf8")).toBe(before);
  });

  it("prints a table, or a row a task as CSV", async () => {
    const placed = samplePlan().schedule.placements.length;
    const { out } = await run("rehearse", at("sound.json"));
    expect(out).toContain(`done ${placed} of ${placed}`);
    const csv = await run("rehearse", at("sound.json"), "--csv");
    expect(csv.out.trimEnd().split("\r\n")).toHaveLength(placed + 1);
  });

  it("says of a moment how soon and how late all can be inside, and when each must start home", async () => {
    const { out, code } = await run("rehearse", at("sound.json"), "--at", "9000", "--json");
    expect(code).toBe(0);
    const { recalls } = JSON.parse(out) as { recalls: readonly Recall[] };
    expect(recalls).toHaveLength(1);
    const [recall] = recalls;
    expect(recall!.earliestS).toBeGreaterThan(9000);
    expect(recall!.latest.ingressS).toBeGreaterThan(recall!.earliestS!);
    const words = (await run("rehearse", at("sound.json"), "--at", "9000")).out;
    expect(words).toMatch(/earliest ingress \d+:\d\d if everything is dropped now, latest \d+:\d\d \(/);
    expect(words.match(/start home by \d+:\d\d, set by /g)).toHaveLength(recall!.crew.length);
    expect((await run("rehearse", at("sound.json"), "--at", "0")).out).toContain("nobody is out");
  });

  it("refuses what it cannot use", async () => {
    expect(await run("rehearse", at("sound.json"), "--seed", "-1")).toMatchObject({ code: 2 });
    expect(await run("rehearse", at("sound.json"), "--csv", "--json")).toMatchObject({ code: 2 });
    expect(await run("rehearse", at("empty.json"))).toMatchObject({ code: 2 });
  });
});
