import { describe, expect, it, vi } from "vitest";
import type { Plan } from "../../src/plan/index.ts";
import type { SiteInput } from "../../src/terrain/ground.ts";
import { readyPlan } from "../readyplan.ts";

/** Terrain that remembers nothing yet, as in another thread, and how often its work has said that it goes on. */
async function afresh() {
  vi.resetModules();
  const kernel = await import("../../src/kernel/index.ts");
  const terrain = await import("../../src/terrain/index.ts");
  let pulses = 0;
  kernel.onPulse(() => (pulses += 1));
  const worked = (work: () => unknown): number => {
    const before = pulses;
    work();
    return pulses - before;
  };
  const lay = (plan: Plan) => {
    const { planned, back } = terrain.gaitsOf(plan);
    const ways = terrain.waysOf(plan.site, planned);
    return { ways, home: terrain.homeOf(plan.site, ways, back) };
  };
  return { ...terrain, worked, lay };
}

function end<T>(steps: Generator<number, T>): { readonly told: readonly number[]; readonly made: T } {
  const told: number[] = [];
  for (;;) {
    const step = steps.next();
    if (step.done) return { told, made: step.value };
    told.push(step.value);
  }
}

const demo = readyPlan("demo");
const plans: readonly (readonly [string, Plan])[] = [
  ["heights, sparing time", demo],
  ["heights, sparing energy", { ...demo, ground: { ...demo.ground!, aim: "energy" } }],
  ["no heights", { ...demo, ground: undefined }],
];

describe("ways that were worked out elsewhere", () => {
  it.each(plans)("are taken over whole and sent as plain data: %s", async (_, plan) => {
    const there = await afresh();
    const { told, made } = end(there.workedWays(plan));
    expect(told.at(-1)).toBe(plan.site.places.length);
    expect(told).toEqual([...told].sort((a, b) => a - b));
    const sent = structuredClone(made);

    const here = await afresh();
    const own = here.lay(plan);
    const other = await afresh();
    // The same plan, but not the same objects: that is how it comes over a wire.
    const received = structuredClone(plan);
    other.takeWorkedWays(received, sent);
    expect(other.worked(() => expect(other.lay(received)).toEqual(own))).toBe(0);
    // A rehearsal and a moved place ask for more; the grid is known then, and what leads to all other places.
    const moved = structuredClone(received);
    moved.site.places[3]!.eastM += 7;
    const again = here.worked(() => here.lay(moved));
    expect(other.worked(() => other.lay(moved))).toBe(again);
    expect(other.lay(moved)).toEqual(here.lay(moved));
  });

  it("are enough without what only others need, for whoever leaves places and keep-outs alone", async () => {
    const there = await afresh();
    const { made } = end(there.workedWays(demo, { bare: true }));
    expect(made.relief?.networks).toEqual([]);
    const here = await afresh();
    const received = structuredClone(demo);
    here.takeWorkedWays(received, structuredClone(made));
    expect(here.worked(() => expect(here.lay(received)).toEqual(there.lay(demo)))).toBe(0);
  });

  it("come in steps that each do no more than a place's share, so that a call to leave off is heard between them", async () => {
    const { workedWays } = await afresh();
    const flat = { ...demo, ground: undefined };
    const { told } = end(workedWays(flat));
    // Every place is come to for its ways out, for those back, and for the ways home.
    expect(told.length).toBeGreaterThan(3 * flat.site.places.length);
  });

  it("cost a page that does the work itself a great deal of it", async () => {
    const { worked, lay } = await afresh();
    expect(worked(() => lay(demo))).toBeGreaterThan(500);
    // Nothing that a day's edits change: tasks and where they lie.
    expect(worked(() => lay({ ...demo, tasks: [...demo.tasks] }))).toBe(0);
  });
});

describe("keep-outs", () => {
  it("away from every way are looked at once, not corner by corner for each way", async () => {
    const { waysOf } = await afresh();
    let read = 0;
    const points = Array.from({ length: 100 }, (_, k) => {
      const angle = (k * Math.PI) / 50;
      return {
        get eastM() {
          read += 1;
          return 5000 + 40 * Math.cos(angle);
        },
        northM: 40 * Math.sin(angle),
      };
    });
    const ground: SiteInput = {
      places: Array.from({ length: 20 }, (_, k) => ({
        ...{ id: `p${k}`, kind: k === 0 ? "lander" : "station", eastM: 30 * k, northM: (k % 5) * 40, upM: 0 },
      })),
      keepOuts: [{ kind: "walking", shape: { type: "polygon", points } }],
      legs: [],
    };
    waysOf(ground, { speedMs: 0.9, detour: 1.1, greatestSlopeDeg: 20 });
    // Its box needs each corner for both its ends.
    expect(read).toBe(200);
  });
});
