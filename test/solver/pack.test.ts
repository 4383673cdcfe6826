import { describe, expect, it } from "vitest";
import { check } from "../../src/check/index.ts";
import { parse, type Plan } from "../../src/plan/index.ts";
import { packRun } from "../../src/solver/index.ts";

/** Remote work only: three must-do tasks on one shared tool, one more beside them. */
function remotePlan(tasks: readonly object[]): Plan {
  const read = parse({
    format: "lopeline-plan",
    version: 1,
    title: "remote work",
    site: {
      name: "flat",
      latDeg: 0,
      lonDeg: 0,
      places: [{ id: "lander", name: "lander", kind: "lander", eastM: 0, northM: 0 }],
    },
    stay: { touchdownUtc: "2034-01-01T00:00:00Z", lengthS: 86_400 },
    crew: [],
    suits: [],
    evas: [],
    equipment: [{ id: "tool", name: "tool", count: 1 }],
    tasks,
  });
  if (!read.ok) throw new Error(JSON.stringify(read.error));
  return read.value;
}

const task = (id: string, likelyS: number, more: object = {}): object => ({
  id,
  name: id,
  kind: "upkeep",
  crew: { count: 0 },
  duration: { likelyS },
  must: true,
  ...more,
});
const onTool = { equipment: [{ equipment: "tool" }] };

describe("packRun", () => {
  it("proves the earliest finish where nobody goes out and all must be done", () => {
    const plan = remotePlan([
      task("a", 600, onTool),
      task("b", 900, onTool),
      task("c", 300, onTool),
      task("d", 1000),
    ]);
    const run = packRun(plan, { seed: 1, iterations: 500, clock: () => 0 });
    while (run.step(1)) continue;
    const { score } = check(plan, run.best());
    // One tool: 600 + 900 + 300 = 1800 s; the fourth runs beside them.
    expect(score).toMatchObject({ breaches: 0, mustLeftOut: 0, finishS: 1800 });
    expect(run.progress().stopped).toBe("proved");
  });

  it("finishes at once when there is nothing to do", () => {
    const run = packRun(remotePlan([]), { seed: 1, iterations: 5, clock: () => 0 });
    while (run.step(1)) continue;
    expect(run.best()).toEqual({ placements: [] });
  });
});
