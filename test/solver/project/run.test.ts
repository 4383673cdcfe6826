import { describe, expect, it } from "vitest";
import { check } from "../../../src/check/index.ts";
import { parse, type Plan } from "../../../src/plan/index.ts";
import type { PlanInput } from "../../../src/plan/plan.ts";
import { projectOf, projectRun } from "../../../src/solver/project/index.ts";
import { breachesOf } from "./naive.ts";

const base: PlanInput = {
  format: "lopeline-plan",
  version: 3,
  title: "Remote work",
  body: { ephemeris: "none" },
  site: {
    name: "Flat ground",
    latDeg: 0,
    lonDeg: 0,
    places: [{ id: "lander", name: "Lander", kind: "lander", eastM: 0, northM: 0 }],
  },
  stay: {
    touchdownUtc: "2031-01-01T00:00:00Z",
    lengthS: 7200,
    relayPasses: [{ id: "pass", name: "Pass", startS: 1200, endS: 3000 }],
  },
  crew: [],
  suits: [],
  evas: [],
  equipment: [{ id: "heater", name: "Heater", count: 2 }],
  tasks: [],
  rules: { startGridS: 1 },
};

function task(id: string, likelyS: number, more: object = {}) {
  return {
    id,
    name: id,
    kind: "upkeep" as const,
    duration: { likelyS },
    crew: { count: 0 },
    must: true,
    worth: 5,
    ...more,
  };
}

function planWith(parts: Partial<PlanInput>): Plan {
  const outcome = parse({ ...base, ...parts });
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.error));
  return outcome.value;
}

const heated = { equipment: [{ equipment: "heater", count: 2 }] };

/** Three heatings of 10, 20 and 10 min one at a time, one inside the relay pass, one ending 5 min before another starts. */
const plan = planWith({
  tasks: [
    task("warm", 600, heated),
    task("dry", 1200, heated),
    task("send", 600, { ...heated, relay: true }),
  ],
  links: [
    {
      id: "soon",
      type: "lag",
      from: { task: "warm", end: "end" },
      to: { task: "send", end: "end" },
      leastS: 900,
      greatestS: 1500,
    },
  ],
});

/** Sixty heatings of uneven length, one to four of five heaters each: more than is proved in a few hundred iterations. */
const long = planWith({
  stay: { ...base.stay, lengthS: 86_400, relayPasses: [] },
  equipment: [{ id: "heater", name: "Heater", count: 5 }],
  tasks: Array.from({ length: 60 }, (_, k) =>
    task(`heat-${k}`, 60 * (3 + ((k * 7) % 11)), {
      equipment: [{ equipment: "heater", count: 1 + ((k * 5) % 4) }],
    }),
  ),
});

const clock = () => 0;

function finished(of: Plan, iterations = 2000) {
  const run = projectRun(projectOf(of)!, { seed: 1, iterations, clock });
  while (run.step(1)) continue;
  return run;
}

describe("projectOf", () => {
  it("counts in the largest unit that divides every number, and turns ends into starts", () => {
    const problem = projectOf(plan)!;
    expect(problem.unitS).toBe(300);
    expect([...problem.length]).toEqual([2, 4, 2]);
    // send.end - warm.end in 900..1500 with equal lengths: starts apart by 3 to 5 units.
    expect([...problem.lag]).toEqual([3, -5]);
    // The least lag from the first of the two to the other, the greatest one back.
    const [from, to] = [problem.lagFrom[0]!, problem.lagTo[0]!];
    expect([problem.plan.tasks[from]!.id, problem.plan.tasks[to]!.id]).toEqual(["warm", "send"]);
    expect([problem.lagFrom[1], problem.lagTo[1]]).toEqual([to, from]);
    // The pass 1200..3000 holds 600 s: starts 4 to 8.
    expect([problem.openFrom[2], problem.openTo[2]]).toEqual([4, 8]);
  });

  it("holds a pinned start", () => {
    const problem = projectOf(planWith({ tasks: [task("warm", 600, { pin: { startS: 1000 } })] }))!;
    expect([problem.openFrom[0]! * problem.unitS, problem.openTo[0]! * problem.unitS]).toEqual([1000, 1000]);
  });

  it("leaves what is more than a project to the packer", () => {
    const others: Partial<PlanInput>[] = [
      { tasks: [] },
      { tasks: [task("one", 60, { must: false })] },
      { tasks: [task("one", 60, { instrument: true, place: "lander" })] },
      {
        tasks: [task("one", 60, { place: "lander" })],
        site: {
          ...base.site,
          keepOuts: [
            { id: "hot", name: "Hot", kind: "hot", shape: { type: "disc", eastM: 0, northM: 0, radiusM: 9 } },
          ],
        },
      },
      {
        tasks: [task("one", 60, { place: "lander" }), task("two", 60, { place: "lander" })],
        links: [{ id: "far", type: "apart", tasks: ["one", "two"], leastM: 10 }],
      },
    ];
    for (const parts of others) expect(projectOf(planWith(parts))).toBeNull();
  });
});

describe("projectRun", () => {
  it("finds and proves the earliest finish, judged without a breach", () => {
    // One at a time because each heating takes both heaters. send starts in the pass at 1200 at the earliest, and 900
    // to 1500 after warm starts; dry (1200) fits before or after both, or between warm's end and send.
    // warm 0, send 1200, dry 1800: 3000. dry 0, warm 1200, send 2100: 2700. warm 0, dry 600, send 1800: needs 1800
    // after warm, above 1500. So 2700.
    const run = finished(plan);
    expect(run.progress()).toMatchObject({
      finishS: 2700,
      floorS: 2700,
      stopped: "proved",
      placed: 3,
      mustPlaced: 3,
      worth: 15,
    });
    const { score, findings } = check(plan, run.best());
    expect(findings.filter(({ level }) => level === "breach")).toEqual([]);
    expect(score).toMatchObject({ breaches: 0, mustLeftOut: 0, finishS: 2700 });
    const problem = projectOf(plan)!;
    const starts = run.best().placements.map(({ startS }) => startS / problem.unitS);
    expect(breachesOf(problem, starts)).toEqual([]);
  });

  it("says that there is no schedule only when that is proved", () => {
    const tight = planWith({
      tasks: [task("one", 4000, heated), task("two", 4000, heated)],
    });
    const run = finished(tight);
    expect(run.progress()).toMatchObject({ finishS: null, floorS: Infinity, stopped: "proved", placed: 0 });
    expect(run.best().placements).toEqual([]);
  });

  it("stops by iterations and by its clock, and starts from a sound schedule it is given", () => {
    const from = finished(plan).best();
    const held = projectRun(projectOf(plan)!, { seed: 1, iterations: 0, clock, from });
    expect(held.step(1)).toBe(false);
    expect(held.best()).toEqual(from);
    let now = 0;
    const timed = projectRun(projectOf(plan)!, { seed: 1, seconds: 0, clock: () => (now += 1) });
    expect(timed.step(1)).toBe(false);
    expect(timed.progress().stopped).toBe("time");
  });

  it("gives control back at the first look at the clock past its slice, wherever it is", () => {
    let now = 0;
    const run = projectRun(projectOf(long)!, { seed: 1, iterations: 400, clock: () => (now += 0.01) });
    for (let before = 0; ; before = run.progress().iterations) {
      const from = now;
      if (!run.step(0.05)) break;
      expect(now - from).toBeLessThanOrEqual(0.075);
      expect(run.progress().iterations - before).toBeLessThanOrEqual(5);
    }
    expect(run.progress().iterations).toBe(400);
  });

  it("gives the same schedule and floor for a seed and a number of iterations, however it is sliced", () => {
    const ends = [1, 1, 0.01].map((sliceS) => {
      let now = 0;
      const run = projectRun(projectOf(long)!, { seed: 4, iterations: 400, clock: () => (now += 0.002) });
      while (run.step(sliceS)) continue;
      const { finishS, floorS, iterations, stopped } = run.progress();
      return { finishS, floorS, iterations, stopped, best: run.best() };
    });
    expect(ends[0]!.stopped).toBe("iterations");
    expect(ends[1]).toEqual(ends[0]);
    expect(ends[2]).toEqual(ends[0]);
  });

  it("does not start from a schedule that breaks a rule", () => {
    const from = {
      placements: finished(plan)
        .best()
        .placements.map((one) => ({ ...one, startS: from0 })),
    };
    expect(projectRun(projectOf(plan)!, { seed: 1, iterations: 0, clock, from }).best().placements).toEqual(
      [],
    );
  });
});

const from0 = finished(plan).best().placements[0]!.startS;
