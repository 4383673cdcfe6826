import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { REMOTE, type Target } from "../../src/editor/index.ts";
import { evaAt, proposed } from "../../src/editor/propose.ts";
import { instant } from "../../src/kernel/index.ts";
import type { Placement, Schedule } from "../../src/plan/index.ts";
import { fixturePlan, fixtureSchedule } from "./fixture.ts";

const HOUR = 3600;
const plan = fixturePlan();
const start = fixtureSchedule();
const of = (schedule: Schedule, task: string): Placement | undefined =>
  schedule.placements.find((one) => one.task === task);
const line = (lane: string, startS: number): Target => ({ at: "line", lane, startS });

describe("a proposed schedule", () => {
  it("moves a task for one in time", () => {
    const next = proposed(plan, start, "sample", "ev1", line("ev1", 3.5 * HOUR));
    expect(of(next, "sample")).toEqual({ task: "sample", eva: "eva-1", crew: ["ev1"], startS: 3.5 * HOUR });
  });

  it("moves a task for two for both, whichever of their lanes it was taken by", () => {
    for (const lane of ["ev1", "ev2"]) {
      const next = proposed(plan, start, "station", lane, line(lane, 5 * HOUR));
      expect(of(next, "station")).toMatchObject({ crew: ["ev1", "ev2"], startS: 5 * HOUR });
    }
    const across = proposed(plan, start, "station", "ev1", line("ev2", 5 * HOUR));
    expect(of(across, "station")!.crew).toEqual(["ev1", "ev2"]);
  });

  it("changes the crew across lanes", () => {
    const next = proposed(plan, start, "sample", "ev1", line("ev2", 3 * HOUR));
    expect(of(next, "sample")).toMatchObject({ eva: "eva-1", crew: ["ev2"], startS: 3 * HOUR });
  });

  it("changes the EVA with the time, and who goes with it", () => {
    const next = proposed(plan, start, "station", "ev2", line("ev2", 16 * HOUR));
    expect(of(next, "station")).toMatchObject({ eva: "eva-2", crew: ["ev2", "ev3"], startS: 16 * HOUR });
  });

  it("places a benched task with as many as it asks for, the lane's crew member among them", () => {
    const next = proposed(plan, { placements: [] }, "station", null, line("ev3", 15 * HOUR));
    expect(of(next, "station")).toMatchObject({ eva: "eva-2", crew: ["ev2", "ev3"] });
    const alone = proposed(plan, start, "panorama", null, line("ev2", 3 * HOUR));
    expect(of(alone, "panorama")).toMatchObject({ eva: "eva-1", crew: ["ev2"] });
  });

  it("leaves a remote task without EVA and crew on any lane, and a crew task with its crew on the remote lane", () => {
    const next = proposed(plan, start, "listen", REMOTE, line("ev1", 6 * HOUR));
    expect(of(next, "listen")).toEqual({ task: "listen", eva: null, crew: [], startS: 6 * HOUR });
    const kept = proposed(plan, start, "sample", "ev1", line(REMOTE, 4 * HOUR));
    expect(of(kept, "sample")).toMatchObject({ eva: "eva-1", crew: ["ev1"], startS: 4 * HOUR });
  });

  it("takes a task to the bench, and knows nothing to do for one that is there", () => {
    expect(of(proposed(plan, start, "core", "ev3", { at: "bench" }), "core")).toBeUndefined();
    expect(proposed(plan, start, "panorama", null, { at: "bench" })).toBe(start);
    expect(proposed(plan, start, "no-such", null, line("ev1", 0))).toBe(start);
  });

  it("proposes what breaks rules all the same: the lane's crew member takes part even where not on the EVA", () => {
    const next = proposed(plan, start, "core", "ev3", line("ev1", 15.5 * HOUR));
    expect(of(next, "core")!.crew).toEqual(["ev1"]);
  });

  const tasks = fc.constantFrom("sample", "station", "core", "listen", "panorama", "beacon");
  const targets = fc.oneof(
    fc.constant<Target>({ at: "bench" }),
    fc
      .tuple(fc.constantFrom("ev1", "ev2", "ev3", REMOTE), fc.integer({ min: -7200, max: 90_000 }))
      .map(([lane, startS]) => line(lane, startS)),
  );
  const laneOf = (task: string): string | null => {
    const placement = of(start, task);
    return placement ? (placement.crew[0] ?? REMOTE) : null;
  };

  it("law: every other placement is the same object, and the task is placed at most once", () => {
    fc.assert(
      fc.property(tasks, targets, (task, target) => {
        const next = proposed(plan, start, task, laneOf(task), target);
        const others = (schedule: Schedule) => schedule.placements.filter((one) => one.task !== task);
        expect(others(next)).toEqual(others(start));
        others(next).forEach((one, i) => expect(one).toBe(others(start)[i]));
        expect(next.placements.filter((one) => one.task === task).length).toBe(target.at === "bench" ? 0 : 1);
      }),
    );
  });

  it("law: putting a task where it was is no change at all", () => {
    for (const placement of start.placements) {
      const lane = placement.crew[0] ?? REMOTE;
      expect(proposed(plan, start, placement.task, lane, line(lane, placement.startS))).toBe(start);
    }
    // Even where it stood outside of every EVA.
    const odd: Schedule = {
      placements: [{ task: "sample", eva: "eva-2", crew: ["ev1"], startS: instant(100) }],
    };
    expect(proposed(plan, odd, "sample", "ev1", line("ev1", 100))).toBe(odd);
  });

  it("law: a crew task keeps the number of crew it asks for where the EVA has them, each once", () => {
    fc.assert(
      fc.property(fc.constantFrom("sample", "station", "core", "panorama"), targets, (task, target) => {
        if (target.at === "bench") return;
        const spot = of(proposed(plan, start, task, laneOf(task), target), task)!;
        expect(new Set(spot.crew).size).toBe(spot.crew.length);
        expect(spot.crew.length).toBe(plan.tasks.find((one) => one.id === task)!.crew.count);
        expect(spot.eva).not.toBeNull();
      }),
    );
  });
});

describe("the EVA at a time", () => {
  it("is the one whose time it is, those of the lane's crew member first", () => {
    expect(evaAt(plan, "ev1", 3 * HOUR, 600)?.id).toBe("eva-1");
    expect(evaAt(plan, "ev2", 15 * HOUR, 600)?.id).toBe("eva-2");
    expect(evaAt(plan, "ev2", 10 * HOUR, 600)?.id).toBe("eva-1");
    expect(evaAt(plan, "ev2", 13 * HOUR, 600)?.id).toBe("eva-2");
    expect(evaAt(fixturePlan({ evas: [], tasks: [] }), "ev1", 0, 600)).toBeNull();
  });
});
