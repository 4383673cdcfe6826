import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  betweensOf,
  blocksOf,
  beyondHome,
  hit,
  homeY,
  layLanes,
  outerY,
  reliefTopS,
  type Slab,
  slabOf,
  timeScale,
  valueAt,
  valueNear,
} from "../../src/editor/index.ts";
import type { WalkbackCourse } from "../../src/editor/relief.ts";
import { innerY } from "../../src/editor/shape.ts";
import { fixturePlan, fixtureSchedule } from "./fixture.ts";

const HOUR = 3600;
const reach: WalkbackCourse[] = [
  {
    eva: "eva-1",
    crew: "ev1",
    points: [
      { atS: 2 * HOUR, value: 0 },
      { atS: 3 * HOUR, value: 600 },
      { atS: 6 * HOUR, value: 600 },
      { atS: 7 * HOUR, value: 0 },
    ],
    allowed: [],
  },
];

describe("courses", () => {
  it("are read off linearly, after a jump at the instant of the jump, and not beyond their ends", () => {
    const stair = { points: [0, 10, 10, 20].map((atS, i) => ({ atS, value: [0, 0, 5, 5][i]! })) };
    expect(valueAt(stair, 5)).toBe(0);
    expect(valueAt(stair, 10)).toBe(5);
    expect(valueAt(stair, 20)).toBe(5);
    expect(valueAt(stair, 21)).toBeNull();
    expect(valueAt({ points: [] }, 0)).toBeNull();
    expect(valueAt(reach[0]!, 2.5 * HOUR)).toBe(300);
    expect(valueNear(reach[0], 99 * HOUR, 7)).toBe(0);
    expect(valueNear(undefined, 0, 7)).toBe(7);
  });
});

describe("relief", () => {
  const plan = fixturePlan();

  it("stands a task as far from home as the walk home is long, on every lane it occupies", () => {
    const blocks = blocksOf(plan, fixtureSchedule(), reach, new Map([["listen", 1]]));
    expect(blocks.map((block) => [block.task, block.lane, block.homeStartS, block.row])).toEqual([
      ["sample", "ev1", 600, 0],
      ["station", "ev1", 600, 0],
      ["station", "ev2", 0, 0],
      ["core", "ev3", 0, 0],
      ["listen", "@remote", 0, 1],
    ]);
  });

  it("leaves the tasks of an outing to the blocks and keeps what lies between", () => {
    const span = (startS: number, endS: number) => ({ startS, endS });
    const stretch = (kind: "traverse" | "task", startS: number, endS: number) => ({
      kind,
      span: span(startS, endS),
      task: kind === "task" ? "sample" : null,
      path: ["lander", "rim"],
      walkM: 440,
    });
    const outing = {
      eva: "eva-1",
      crew: "ev1",
      span: span(2 * HOUR, 7 * HOUR),
      stretches: [stretch("traverse", 2.5 * HOUR, 3 * HOUR), stretch("task", 3 * HOUR, 4 * HOUR)],
    };
    const betweens = betweensOf([outing], reach, []);
    expect(betweens).toHaveLength(1);
    expect(betweens[0]).toMatchObject({ kind: "traverse", homeStartS: 300, homeEndS: 600, walkM: 440 });
  });

  it("marks the end of a wait as the rest that the work limit relies on, of its own outing only", () => {
    const span = (startS: number, endS: number) => ({ startS, endS });
    const wait = (startS: number, endS: number) => ({
      kind: "wait" as const,
      span: span(startS, endS),
      task: null,
      path: ["rim"],
      walkM: 0,
    });
    const outing = {
      eva: "eva-1",
      crew: "ev1",
      span: span(0, 9000),
      stretches: [wait(1000, 2000), wait(3000, 4000)],
    };
    const rests = (crew: string) => [{ eva: "eva-1", crew, span: span(3000, 4000), needS: 600 }];
    const marked = (crew: string) => betweensOf([outing], [], rests(crew)).map(({ rest }) => rest);
    expect(marked("ev1")).toEqual([null, { startS: 3400, endS: 4000 }]);
    expect(marked("ev2")).toEqual([null, null]);
  });

  it("has its top above the longest emergency oxygen of the crew's suits, whatever the schedule", () => {
    expect(reliefTopS(plan)).toBeCloseTo((1800 - 180) * 1.12);
  });

  it("a longer walk home is never nearer to the line home, and nothing leaves its lane, up or down", () => {
    const lanes = layLanes(plan, 0, { crewPx: 120, remoteRowPx: 20, remotePadPx: 4 });
    const relief = { thickPx: 44, skyPx: 14, topS: 1800 };
    expect(lanes.map(({ sense, mate }) => [sense, mate])).toEqual([
      ["up", "ev2"],
      ["down", "ev1"],
      ["up", null],
    ]);
    // The pair shares its line home.
    expect(homeY(lanes[0]!)).toBe(homeY(lanes[1]!));
    fc.assert(
      fc.property(
        fc.constantFrom(...lanes),
        fc.double({ min: -100, max: 5000, noNaN: true }),
        fc.nat(5000),
        (lane, homeS, more) => {
          const away = (y: number): number => (lane.sense === "up" ? homeY(lane) - y : y - homeY(lane));
          const inner = away(innerY(lane, relief, homeS));
          const outer = away(outerY(lane, relief, homeS));
          expect(inner).toBeGreaterThanOrEqual(0);
          expect(outer).toBeCloseTo(inner + relief.thickPx);
          expect(outer).toBeLessThanOrEqual(lane.heightPx - relief.skyPx + 1e-9);
          expect(away(innerY(lane, relief, homeS + more))).toBeGreaterThanOrEqual(inner - 1e-9);
          expect(away(beyondHome(lane, inner))).toBeCloseTo(inner);
        },
      ),
    );
  });

  it("what two do together reaches to the line home on both sides of it", () => {
    const lanes = layLanes(plan, 0, { crewPx: 120, remoteRowPx: 20, remotePadPx: 4 });
    const relief = { thickPx: 44, skyPx: 14, topS: 1800 };
    const part = { startS: 0, endS: 600, homeStartS: 300, homeEndS: 900 };
    const scale = timeScale({ startS: 0, endS: 600 }, 100);
    const upper = slabOf(part, lanes[0]!, relief, scale, true);
    const lower = slabOf(part, lanes[1]!, relief, scale, true);
    // Home at 120; 62 px are 1800 s, so 300 s are 10.33 px and 900 s 31 px, and 44 px of ribbon beyond them.
    expect(upper.topLeft).toBeCloseTo(120 - 44 - 62 / 6);
    expect(upper.topRight).toBeCloseTo(120 - 44 - 31);
    expect([upper.bottomLeft, upper.bottomRight, lower.topLeft, lower.topRight]).toEqual([
      120, 120, 120, 120,
    ]);
    expect(lower.bottomRight).toBeCloseTo(120 + 44 + 31);
    expect(slabOf(part, lanes[1]!, relief, scale).topRight).toBeCloseTo(120 + 31);
  });
});

describe("hit test", () => {
  const slab = (left: number, right: number, top: number): Slab => ({
    left,
    right,
    topLeft: top,
    topRight: top,
    bottomLeft: top + 20,
    bottomRight: top + 20,
  });

  it("takes what is on top where two lie over each other, and the nearest within the slack", () => {
    const slabs = [slab(0, 50, 0), slab(40, 90, 0)];
    const at = (x: number, y: number, slack: number): number =>
      slabs.indexOf(hit(slabs, (one) => one, x, y, slack)!);
    expect(at(45, 10, 0)).toBe(1);
    expect(at(20, 10, 0)).toBe(0);
    expect(at(95, 10, 4)).toBe(-1);
    expect(at(95, 10, 6)).toBe(1);
  });

  it("follows a slanted edge", () => {
    const slanted: Slab = {
      left: 0,
      right: 100,
      topLeft: 100,
      topRight: 0,
      bottomLeft: 110,
      bottomRight: 10,
    };
    expect(hit([slanted], (one) => one, 50, 55, 0)).toBe(slanted);
    expect(hit([slanted], (one) => one, 10, 20, 0)).toBeNull();
  });

  it("finds a block at the middle of where it is drawn, at any zoom", () => {
    const plan = fixturePlan();
    const lanes = layLanes(plan, 0, { crewPx: 120, remoteRowPx: 20, remotePadPx: 4 });
    const relief = { thickPx: 44, skyPx: 14, topS: 1800 };
    const blocks = blocksOf(plan, fixtureSchedule(), reach, new Map()).filter((one) => one.task !== "listen");
    fc.assert(
      fc.property(fc.integer({ min: 600, max: 90_000 }), fc.nat(blocks.length - 1), (lengthS, i) => {
        const block = blocks[i]!;
        const scale = timeScale(
          { startS: block.startS - lengthS / 2, endS: block.startS + lengthS / 2 },
          1000,
        );
        const place = (one: (typeof blocks)[number]): Slab =>
          slabOf(
            one,
            lanes.find((lane) => lane.key === one.lane)!,
            relief,
            scale,
          );
        const { left, right, topLeft, topRight, bottomLeft, bottomRight } = place(block);
        const middle = (topLeft + topRight + bottomLeft + bottomRight) / 4;
        const found = hit(blocks, place, (left + right) / 2, middle, 0);
        expect(found).toBe(block);
      }),
    );
  });
});
