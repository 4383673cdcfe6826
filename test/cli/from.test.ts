import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { planText } from "../../src/exchange/index.ts";
import { at, eva, task, tinyPlan } from "../check/tinyPlan.ts";
import { run } from "./run.ts";

let folder = "";
const file = (): string => join(folder, "plan.json");

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "lope-from-"));
  const plan = tinyPlan({
    evas: [eva("eva-1", { crew: ["ev1"] })],
    tasks: [task("one", "a", { worth: 5 })],
    placements: [at("one", 900)],
    suit: { electricalW: 36, batteryWh: 100, reserve: { battery: 0.1 } },
  });
  await writeFile(file(), planText(plan));
});
afterAll(() => rm(folder, { recursive: true }));

describe("lope from", () => {
  // Egress work 600, way 300, task 600, way 300, ingress work 600 s at 36 W: 24 Wh of 100.
  it("says a margin with its formula and its lines", async () => {
    const { code, out } = await run("from", file(), "--of", "battery", "--eva", "eva-1", "--crew", "ev1");
    expect(code).toBe(0);
    expect(out).toContain("battery left: 76 Wh\n  = stock - drawn\n  stock  100 Wh\n  drawn  24 Wh");
    expect(out).toMatch(/^one +0:15:00 +0:10:00 +\d+\.\d+ +36000 +6$/m);
  });

  it("gives the same as one JSON object, at a moment", async () => {
    const asked = ["--of", "battery", "--eva", "eva-1", "--crew", "ev1", "--at", "900", "--json"];
    const { code, out } = await run("from", file(), ...asked);
    expect(code).toBe(0);
    // 900 s since egress at 0 have drawn 9 Wh.
    expect((JSON.parse(out) as { figures: { value: number }[] }).figures[0]!.value).toBe(91);
  });

  it("refuses what the plan does not have", async () => {
    for (const bad of [
      [],
      ["--of", "salt"],
      ["--of", "oxygen", "--eva", "eva-9", "--crew", "ev1"],
      ["--of", "oxygen"],
      ["--task", "two"],
      ["--rule", "gravity"],
    ]) {
      const { code, out } = await run("from", file(), ...bad);
      expect(code).toBe(2);
      expect(out).toBe("");
    }
  });

  it("leads from a finding, as check lists them, to the sums behind it", async () => {
    const over = join(folder, "over.json");
    // In at 2400 + 600 for an EVA that may take until 2900.
    const plan = tinyPlan({
      evas: [eva("eva-1", { crew: ["ev1"], latestIngressS: 2900 })],
      tasks: [task("one", "a")],
      placements: [at("one", 1500)],
    });
    await writeFile(over, planText(plan));
    const { code, out } = await run("from", over, "--finding", "1");
    expect(code).toBe(0);
    expect(out).toContain("latest ingress: 2900 s");
    expect(out).toContain(
      "ingress complete: 3000 s MET\n  = ends + way + work\n  ends  2100 s MET, 0:35:00: one ends, EV1",
    );
    expect((await run("from", over, "--finding", "2")).code).toBe(2);
    expect((await run("from", file(), "--finding", "1")).code).toBe(2);
  });

  it("says a rule in its sentence", async () => {
    const { code, out } = await run("from", file(), "--rule", "drinking-water");
    expect(code).toBe(0);
    expect(out).toContain("NASA-STD-3001");
  });
});
