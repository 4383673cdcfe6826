import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  blockBeside,
  blocksOf,
  fittingStarts,
  layLanes,
  readingOrder,
  REMOTE,
  returnMassCourse,
  type Target,
  valueAt,
} from "../../src/editor/index.ts";
import { keyStep } from "../../src/editor/keys.ts";
import { fixturePlan, fixtureSchedule } from "./fixture.ts";

const HOUR = 3600;
const plan = fixturePlan();
const lanes = layLanes(plan, 1, { crewPx: 100, remoteRowPx: 20, remotePadPx: 4 });
const held: Target = { at: "line", lane: "ev2", startS: 4 * HOUR };
const lineStart = { lane: "ev1", startS: 3 * HOUR };

function press(from: Target, ...keys: string[]): Target | string {
  return pressOn(60, from, ...keys);
}

function pressOn(gridS: number, from: Target, ...keys: string[]): Target | string {
  let now = from;
  for (const text of keys) {
    const shift = text.startsWith("shift+");
    const step = keyStep(
      now,
      { key: text.replace("shift+", ""), shift },
      lanes,
      () => [100, 20_000],
      lineStart,
      gridS,
    );
    if (step.act !== "move") return step.act;
    now = step.target;
  }
  return now;
}

describe("a task held by the keyboard", () => {
  it("moves by a minute, with shift by ten, and across lanes", () => {
    expect(press(held, "ArrowRight", "shift+ArrowLeft", "ArrowUp")).toMatchObject({
      lane: "ev1",
      startS: 4 * HOUR + 60 - 600,
    });
    expect(press({ at: "line", lane: "ev3", startS: 0 }, "ArrowDown")).toBe("none");
    expect(press({ at: "line", lane: REMOTE, startS: 0 }, "ArrowUp")).toBe("none");
  });

  it("jumps to starts that fit", () => {
    expect(press(held, "PageDown")).toMatchObject({ startS: 20_000 });
    expect(press(held, "PageUp")).toMatchObject({ startS: 100 });
    expect(press(held, "PageUp", "PageUp")).toBe("none");
    expect(press(held, "End", "Home")).toMatchObject({ startS: 100 });
  });

  it("goes to the bench and comes back to the line", () => {
    expect(press(held, "b")).toMatchObject({ at: "bench" });
    expect(press(held, "b", "ArrowRight")).toMatchObject({ at: "line", ...lineStart });
    expect(press(held, "B", "B")).toMatchObject({ at: "line", ...lineStart });
  });

  it("is committed by Enter and space and cancelled by Escape", () => {
    expect(press(held, "Enter")).toBe("commit");
    expect(press(held, " ")).toBe("commit");
    expect(press(held, "Escape")).toBe("cancel");
    expect(press(held, "x")).toBe("none");
  });

  it("moves on the plan's grid: by a whole number of its steps, and from beside it onto it", () => {
    const from = (startS: number): Target => ({ at: "line", lane: "ev2", startS });
    const to = (gridS: number, startS: number, key: string): number => {
      const next = pressOn(gridS, from(startS), key) as { startS: number };
      return next.startS;
    };
    expect([to(60, 630, "ArrowRight"), to(60, 630, "ArrowLeft")]).toEqual([660, 600]);
    expect([to(30, 630, "ArrowRight"), to(30, 630, "ArrowLeft")]).toEqual([690, 570]);
    // A minute is no step of five minutes, and ten minutes are two.
    expect([to(300, 600, "ArrowRight"), to(300, 600, "shift+ArrowRight")]).toEqual([900, 1200]);
    // Seven steps of 90 s are the first beyond ten minutes.
    expect(to(90, 900, "shift+ArrowLeft")).toBe(270);
  });

  it("law: an arrow and its opposite cancel out", () => {
    const pairs = fc.constantFrom(["ArrowLeft", "ArrowRight"], ["shift+ArrowRight", "shift+ArrowLeft"]);
    fc.assert(
      fc.property(pairs, fc.integer({ min: 0, max: 1300 }), (pair, minute) => {
        const startS = minute * 60;
        const target: Target = { at: "line", lane: "ev1", startS };
        expect(press(target, ...pair)).toEqual(target);
      }),
    );
  });

  it("knows the edges of the bands on a lane", () => {
    const bands = [
      { crew: ["ev1"], fixed: [{ startS: 100, endS: 201 }] },
      { crew: ["ev1", "ev2"], fixed: [{ startS: 50, endS: 101 }] },
      { crew: ["ev2"], fixed: [{ startS: 7, endS: 8 }] },
    ];
    expect(fittingStarts(bands, "ev1", 1)).toEqual([50, 100, 200]);
    expect(fittingStarts(bands, "ev3", 1)).toEqual([]);
    // On the grid inside the bands; 7 to 7 holds no minute.
    expect(fittingStarts(bands, "ev1", 60)).toEqual([60, 120, 180]);
    expect(fittingStarts(bands, "ev2", 60)).toEqual([7, 60]);
  });
});

describe("focus on the day line", () => {
  const blocks = blocksOf(plan, fixtureSchedule(), [], new Map());
  const name = (block: { task: string; lane: string } | null): string | null =>
    block ? `${block.task}/${block.lane}` : null;

  it("reads lane by lane, in time", () => {
    expect(readingOrder(blocks, lanes).map(name)).toEqual([
      "sample/ev1",
      "station/ev1",
      "station/ev2",
      "core/ev3",
      `listen/${REMOTE}`,
    ]);
  });

  it("goes along the lane and to the nearest block of the next lane that has one", () => {
    const from = { task: "sample", lane: "ev1" };
    expect(name(blockBeside(blocks, lanes, from, "later"))).toBe("station/ev1");
    expect(blockBeside(blocks, lanes, from, "earlier")).toBeNull();
    expect(name(blockBeside(blocks, lanes, from, "below"))).toBe("station/ev2");
    expect(name(blockBeside(blocks, lanes, { task: "listen", lane: REMOTE }, "above"))).toBe("core/ev3");
    expect(name(blockBeside(blocks, lanes, from, "last"))).toBe("station/ev1");
    expect(name(blockBeside(blocks, lanes, { task: "gone", lane: "ev1" }, "later"))).toBe("sample/ev1");
    expect(blockBeside([], lanes, from, "later")).toBeNull();
  });
});

describe("return mass", () => {
  it("rises at the end of each sampling task, with the empty container once", () => {
    // sample 1.5 kg ends 3 h 15 min, with the box of 2 kg; core 3 kg ends 15 h 30 min.
    const course = returnMassCourse(plan, fixtureSchedule());
    expect(valueAt(course, 3.25 * HOUR - 1)).toBe(0);
    expect(valueAt(course, 3.25 * HOUR)).toBe(3.5);
    expect(valueAt(course, 15.5 * HOUR)).toBe(6.5);
    expect(valueAt(course, 22 * HOUR)).toBe(6.5);
  });
});
