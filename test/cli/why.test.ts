import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { check } from "../../src/check/index.ts";
import { planText } from "../../src/exchange/index.ts";
import { parseText } from "../../src/plan/index.ts";
import { at, eva, task, tinyPlan } from "../check/tinyPlan.ts";
import { run } from "./run.ts";

let folder = "";
const file = (name: string): string => join(folder, name);

/** Two tasks on an outing with time for one: 500 s, so 9 whole minutes are missing. */
const parts = {
  evas: [eva("eva-1", { crew: ["ev1"], longestS: 2500 })],
  tasks: [task("one", "a", { worth: 5 }), task("two", "a", { worth: 7 })],
};

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "lope-why-"));
  await writeFile(file("short.json"), planText(tinyPlan({ ...parts, placements: [at("one", 900)] })));
  await writeFile(
    file("broken.json"),
    planText(tinyPlan({ ...parts, placements: [at("one", 900), at("two", 1500)] })),
  );
});
afterAll(() => rm(folder, { recursive: true }));

describe("lope why", () => {
  it("says as one JSON object what stands against a task and what could be given up", async () => {
    const { code, out } = await run(
      "why",
      file("short.json"),
      "--task",
      "two",
      "--iterations",
      "4",
      "--json",
    );
    expect(code).toBe(0);
    const report = JSON.parse(out) as { relaxations: { sentence: string; changes: string[] }[] };
    expect(report).toMatchObject({ task: "two", state: "conflict", stopped: "done" });
    expect(report.relaxations[0]).toMatchObject({ kind: "longest", steps: 9, changes: ["evas"] });
  });

  it("is no verdict where nothing was found out", async () => {
    const { code, err } = await run("why", file("short.json"), "--seconds", "0");
    expect([code, err]).toEqual([2, "lope: stopped before anything was found out\n"]);
    expect((await run("why", file("short.json"))).code).toBe(0);
    expect((await run("why", file("broken.json"))).code).toBe(1);
  });

  it("counts tried changes only where there is one to try", async () => {
    const sound = await run("why", file("short.json"));
    expect(sound.code).toBe(0);
    expect(sound.out.trimEnd().split("\n").slice(1)).toEqual(["  The schedule keeps every rule."]);
    const asked = await run("why", file("short.json"), "--task", "two", "--iterations", "4");
    expect(asked.out).toMatch(/^ {2}tried {5}\d+ of \d+ changes?$/m);
  });

  it("writes the plan with the one taken, which is free of breaches and has the task", async () => {
    const args = ["why", file("short.json"), "--task", "two", "--iterations", "4"];
    const { code, out } = await run(...args, "--take", "1", "--out", file("out.json"));
    expect(code).toBe(0);
    expect(out).toContain("eva-1 may last 9 min longer");
    const read = parseText(await readFile(file("out.json"), "utf8"));
    if (!read.ok) throw new Error("the written plan does not parse");
    expect(check(read.value, read.value.schedule)).toMatchObject({ placed: 2, score: { breaches: 0 } });
  });

  it("ends with 1 on a schedule that breaks rules, and says which", async () => {
    const { code, out } = await run("why", file("broken.json"), "--iterations", "4");
    expect(code).toBe(1);
    expect(out).toContain("eva-1 lasts at most 41 min");
  });

  it("refuses an unknown task and an output without a choice", async () => {
    expect(await run("why", file("short.json"), "--task", "three")).toMatchObject({
      code: 2,
      err: "lope: --task three: the plan has no such task\n",
    });
    expect((await run("why", file("short.json"), "--out", file("x.json"))).code).toBe(2);
  });
});
