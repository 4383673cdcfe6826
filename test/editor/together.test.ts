import { describe, expect, it } from "vitest";
import { selectedBy, edgeUnder, lassoed, withLength } from "../../src/editor/index.ts";
import { stretched } from "../../src/editor/stretch.ts";
import { movedTogether, type Movers } from "../../src/editor/together.ts";
import { duration } from "../../src/kernel/index.ts";
import { fixturePlan, fixtureSchedule } from "./fixture.ts";

const HOUR = 3600;
const plan = fixturePlan();
const start = fixtureSchedule();
const held = (part: Partial<Movers>): Movers => ({
  anchor: "sample",
  tasks: ["sample", "station"],
  fromLane: "ev1",
  eva: null,
  ...part,
});
const spot = (schedule: typeof start, task: string) => schedule.placements.find((one) => one.task === task)!;

describe("several tasks in one hand", () => {
  it("go by the same time, all else untouched", () => {
    const after = movedTogether(plan, start, held({}), { at: "line", lane: "ev1", startS: 3 * HOUR + 600 });
    expect(spot(after, "sample").startS).toBe(3 * HOUR + 600);
    expect(spot(after, "station").startS).toBe(4 * HOUR + 600);
    expect(spot(after, "core")).toBe(spot(start, "core"));
    expect(movedTogether(plan, start, held({}), { at: "line", lane: "ev1", startS: 3 * HOUR })).toBe(start);
  });

  it("those of the lane they were taken by change hands, a task for both keeps both", () => {
    const after = movedTogether(plan, start, held({}), { at: "line", lane: "ev2", startS: 3 * HOUR });
    expect(spot(after, "sample").crew).toEqual(["ev2"]);
    expect(spot(after, "station").crew).toEqual(["ev1", "ev2"]);
  });

  it("a whole EVA keeps its EVA and crew wherever it is put", () => {
    const eva = held({ eva: "eva-1" });
    const after = movedTogether(plan, start, eva, { at: "line", lane: "ev3", startS: 13 * HOUR });
    expect(spot(after, "sample")).toMatchObject({ eva: "eva-1", crew: ["ev1"], startS: 13 * HOUR });
    expect(spot(after, "station")).toMatchObject({ eva: "eva-1", startS: 14 * HOUR });
  });

  it("go to the bench together", () => {
    const after = movedTogether(plan, start, held({}), { at: "bench" });
    expect(after.placements.map((one) => one.task)).toEqual(["core", "listen"]);
  });
});

describe("an end in hand", () => {
  it("moves alone and leaves at least a minute", () => {
    const span = { startS: 1000, endS: 2000 };
    expect(stretched(span, "end", 2600.4)).toEqual({ startS: 1000, lengthS: 1600 });
    expect(stretched(span, "end", 500)).toEqual({ startS: 1000, lengthS: 60 });
    expect(stretched(span, "start", 700)).toEqual({ startS: 700, lengthS: 1300 });
    expect(stretched(span, "start", 5000)).toEqual({ startS: 1940, lengthS: 60 });
  });

  it("takes the short and long case along so that they stay in order", () => {
    const task = {
      ...plan.tasks[0]!,
      duration: { likelyS: duration(900), lowS: duration(600), highS: duration(1200) },
    };
    expect(withLength(task, 1500).duration).toEqual({ likelyS: 1500, lowS: 600, highS: 1500 });
    expect(withLength(task, 300).duration).toEqual({ likelyS: 300, lowS: 300, highS: 1200 });
    expect(withLength(task, 900)).toBe(task);
  });

  it("is found near the sides of a slab wide enough to be moved as well", () => {
    const slab = { left: 100, right: 160 };
    expect(edgeUnder(slab, 103, 6)).toBe("start");
    expect(edgeUnder(slab, 157, 6)).toBe("end");
    expect(edgeUnder(slab, 130, 6)).toBeNull();
    expect(edgeUnder({ left: 100, right: 115 }, 100, 6)).toBeNull();
  });
});

describe("choosing", () => {
  it("a lasso takes all it touches, drawn either way", () => {
    const slab = (left: number) => ({
      left,
      right: left + 10,
      topLeft: 20,
      topRight: 40,
      bottomLeft: 30,
      bottomRight: 50,
    });
    const lasso = { from: { x: 35, y: 45 }, to: { x: 5, y: 35 } };
    expect(lassoed([0, 20, 40], slab, lasso)).toEqual([0, 20]);
    expect(lassoed([0, 20, 40], slab, { from: { x: 0, y: 0 }, to: { x: 90, y: 10 } })).toEqual([]);
  });

  it("a click with the adding key puts in or takes out", () => {
    expect(selectedBy(plan, ["a"], { task: "b", lane: null, offsetS: 0, more: false })).toEqual(["b"]);
    expect(selectedBy(plan, ["a"], { task: "b", lane: null, offsetS: 0, more: true })).toEqual(["a", "b"]);
    expect(selectedBy(plan, ["a", "b"], { task: "a", lane: null, offsetS: 0, more: true })).toEqual(["b"]);
  });
});
