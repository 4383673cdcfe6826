import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  type Gesture,
  type GestureAct,
  type GestureView,
  type GestureEvent,
  gestureStep,
  IDLE,
  layLanes,
  type Modifiers,
  targetUnder,
} from "../../src/editor/index.ts";
import { instant } from "../../src/kernel/index.ts";
import type { Plan } from "../../src/plan/index.ts";
import { fixturePlan, fixtureSchedule } from "./fixture.ts";

const plan: Plan = { ...fixturePlan(), schedule: fixtureSchedule() };
const lanes = layLanes(plan, 1, { crewPx: 100, remoteRowPx: 20, remotePadPx: 4 });
const session: GestureView = {
  plan,
  selection: [],
  lanes,
  fitting: () => [],
  lineStart: () => ({ lane: "ev1", startS: 0 }),
};

const grip = { task: "core", lane: "ev1", offsetS: 300 };
const plain: Modifiers = { free: false, other: false };
const press: GestureEvent = { type: "press", pointer: 1, grip, at: { x: 100, y: 50 }, slackPx: 4 };
const move = (x: number, y: number, pointer = 1): GestureEvent => ({
  type: "move",
  pointer,
  at: { x, y },
  modifiers: plain,
});
const release: GestureEvent = { type: "release", pointer: 1 };
const key = (name: string): GestureEvent => ({ type: "key", key: name, shift: false });

function run(
  events: readonly GestureEvent[],
  on: GestureView = session,
): { gesture: Gesture; acts: GestureAct["kind"][] } {
  let gesture: Gesture = IDLE;
  const acts: GestureAct["kind"][] = [];
  for (const event of events) {
    const step = gestureStep(gesture, event, on);
    gesture = step.gesture;
    if (step.act.kind !== "none") acts.push(step.act.kind);
  }
  return { gesture, acts };
}

describe("a gesture by the pointer", () => {
  it("is a click until the pointer has gone farther than a click wanders", () => {
    expect(run([press, move(103, 50), release]).acts).toEqual(["click"]);
  });

  it("takes hold, follows and sets down", () => {
    const { acts, gesture } = run([press, move(110, 50), move(150, 60), release]);
    expect(acts).toEqual(["start", "follow", "commit"]);
    expect(gesture).toBe(IDLE);
  });

  it("Escape takes back, and the release after it does nothing", () => {
    const { acts } = run([press, move(150, 50), key("Escape"), release]);
    expect(acts).toEqual(["start", "cancel"]);
  });

  it("a lost pointer takes back", () => {
    expect(run([press, move(150, 50), { type: "lose", pointer: 1 }]).acts).toEqual(["start", "cancel"]);
  });

  it("a second finger neither moves nor ends it", () => {
    const { acts, gesture } = run([
      press,
      move(150, 50),
      { ...press, pointer: 2 },
      move(900, 50, 2),
      { type: "release", pointer: 2 },
    ]);
    expect(acts).toEqual(["start"]);
    expect(gesture).toMatchObject({ state: "dragged", now: { x: 150, y: 50 } });
  });

  it("law: what is held depends on where the pointer is, not on how it came there", () => {
    const points = fc.array(
      fc.tuple(fc.integer({ min: -500, max: 500 }), fc.integer({ min: -500, max: 500 })),
    );
    fc.assert(
      fc.property(points, (way) => {
        const detour = run([press, move(300, 80), ...way.map(([x, y]) => move(x, y)), move(222, 33)]);
        const straight = run([press, move(222, 33)]);
        expect(detour.gesture).toEqual(straight.gesture);
      }),
    );
  });

  it("the task keeps its place under the pointer, at any zoom", () => {
    expect(targetUnder(grip, { atS: 5000, lane: "ev2" })).toEqual({ at: "line", lane: "ev2", startS: 4700 });
    expect(targetUnder(grip, { atS: 5000, lane: null })).toEqual({ at: "bench" });
  });
});

describe("a gesture by keys", () => {
  const at = { at: "line", lane: "ev1", startS: 4 * 3600 } as const;
  const take: GestureEvent = { type: "take", grip: { task: "core", lane: "ev1", offsetS: 0 }, target: at };

  it("starts where the task is, follows arrows, and commits", () => {
    const { acts, gesture } = run([take, key("ArrowRight"), key("x")]);
    expect(acts).toEqual(["start", "follow"]);
    expect(gesture).toMatchObject({ state: "keyed", target: { startS: at.startS + 60 } });
    expect(run([take, key("Enter")])).toEqual({ gesture: IDLE, acts: ["start", "commit"] });
    expect(run([take, key("Escape")])).toEqual({ gesture: IDLE, acts: ["start", "cancel"] });
  });

  it("says where a jump finds no start, and turns what others do", () => {
    expect(run([take, key("PageDown"), key("o")]).acts).toEqual(["start", "no start", "other manner"]);
  });

  it("never has hold of something twice: a press while keys hold is passed over, and so is a take while a pointer does", () => {
    expect(run([take, press, move(300, 50)]).gesture.state).toBe("keyed");
    expect(run([press, move(300, 50), take]).gesture.state).toBe("dragged");
  });

  it("an EVA goes along time alone", () => {
    const eva: GestureEvent = { ...take, grip: { task: "core", lane: "ev1", offsetS: 0, eva: "eva-1" } };
    expect(run([eva, key("ArrowDown"), key("b")]).acts).toEqual(["start"]);
    expect(run([eva, key("ArrowLeft")]).acts).toEqual(["start", "follow"]);
  });
});

describe("what a gesture takes", () => {
  const pinned: GestureView = {
    ...session,
    plan: {
      ...plan,
      tasks: plan.tasks.map((task) => (task.id === "core" ? { ...task, pin: { startS: instant(0) } } : task)),
    },
  };

  it("a pinned start is refused, and nothing is in hand", () => {
    expect(run([press, move(300, 50)], pinned)).toEqual({ gesture: IDLE, acts: ["refuse"] });
  });

  it("the end of a pinned task may be drawn, its start may not", () => {
    const edge = (end: "start" | "end"): GestureEvent => ({ ...press, grip: { ...grip, edge: end } });
    expect(run([edge("end"), move(300, 50)], pinned).acts).toEqual(["start"]);
    expect(run([edge("start"), move(300, 50)], pinned).acts).toEqual(["refuse"]);
  });

  it("a menu that opens under a press leaves no click behind", () => {
    expect(run([press, { type: "forget" }, release])).toEqual({ gesture: IDLE, acts: [] });
  });
});
