import { readFileSync } from "node:fs";
import { setFlagsFromString } from "node:v8";
import { runInNewContext } from "node:vm";
import { expect, it } from "vitest";
import { parseText, type Plan } from "../../src/plan/index.ts";
import { fitBands, packRun } from "../../src/solver/index.ts";

/** What 100 packs may leave behind, MB; a run kept from each leaves about 150. */
const LEFT_MB = 8;

setFlagsFromString("--expose-gc");
const collect = runInNewContext("gc") as () => void;

/** Megabytes alive: objects, and the typed arrays beside them, which are freed a turn of the event loop after their owners. */
async function aliveMb(): Promise<number> {
  for (let turn = 0; turn < 3; turn += 1) {
    collect();
    await new Promise((resolve) => setImmediate(resolve));
  }
  const { heapUsed, arrayBuffers } = process.memoryUsage();
  return (heapUsed + arrayBuffers) / 1e6;
}

it("memory is flat over 100 packs of the large plan, each with a plan object of its own", async () => {
  const read = parseText(readFileSync("public/plans/large.json", "utf8"));
  if (!read.ok) throw new Error("the large plan does not parse");
  const large = read.value;
  let placed = 0;
  const pack = (seed: number): void => {
    const plan: Plan = { ...large };
    const run = packRun(plan, { seed, iterations: 2, clock: () => 0 });
    while (run.step(1)) continue;
    placed += run.best().placements.length;
    fitBands(plan, { placements: [] }, plan.tasks[0]!.id);
  };
  for (let k = 0; k < 10; k += 1) pack(k);
  const before = await aliveMb();
  for (let k = 0; k < 100; k += 1) pack(k);
  const after = await aliveMb();
  // A pack that does nothing leaves nothing.
  expect(placed).toBeGreaterThan(110 * 50);
  expect(after - before).toBeLessThan(LEFT_MB);
});
