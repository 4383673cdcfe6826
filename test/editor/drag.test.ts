import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  type Drag,
  dragStep,
  type DragAct,
  type DragEvent,
  IDLE,
  targetUnder,
} from "../../src/editor/index.ts";

const grip = { task: "core", lane: "ev1", offsetS: 300 };
const press: DragEvent = { type: "press", pointer: 1, grip, at: { x: 100, y: 50 } };
const move = (x: number, y: number, pointer = 1): DragEvent => ({ type: "move", pointer, at: { x, y } });

function run(events: readonly DragEvent[]): { drag: Drag; acts: DragAct[] } {
  let drag: Drag = IDLE;
  const acts: DragAct[] = [];
  for (const event of events) {
    const step = dragStep(drag, event, 4);
    drag = step.drag;
    if (step.act !== "none") acts.push(step.act);
  }
  return { drag, acts };
}

describe("drag", () => {
  it("is a click until the pointer has gone farther than a click wanders", () => {
    expect(run([press, move(103, 50), { type: "release", pointer: 1 }]).acts).toEqual(["click"]);
  });

  it("takes hold, follows and sets down", () => {
    const { acts, drag } = run([press, move(110, 50), move(150, 60), { type: "release", pointer: 1 }]);
    expect(acts).toEqual(["begin", "follow", "set down"]);
    expect(drag).toBe(IDLE);
  });

  it("Escape takes back, and the release after it does nothing", () => {
    const { acts } = run([press, move(150, 50), { type: "escape" }, { type: "release", pointer: 1 }]);
    expect(acts).toEqual(["begin", "take back"]);
  });

  it("a lost pointer takes back", () => {
    expect(run([press, move(150, 50), { type: "lose", pointer: 1 }]).acts).toEqual(["begin", "take back"]);
  });

  it("a second finger neither moves nor ends it", () => {
    const { acts, drag } = run([
      press,
      move(150, 50),
      { ...press, pointer: 2 },
      move(900, 50, 2),
      { type: "release", pointer: 2 },
    ]);
    expect(acts).toEqual(["begin"]);
    expect(drag).toMatchObject({ state: "held", now: { x: 150, y: 50 } });
  });

  it("law: what is held depends on where the pointer is, not on how it came there", () => {
    const points = fc.array(
      fc.tuple(fc.integer({ min: -500, max: 500 }), fc.integer({ min: -500, max: 500 })),
    );
    fc.assert(
      fc.property(points, (way) => {
        const detour = run([press, move(300, 80), ...way.map(([x, y]) => move(x, y)), move(222, 33)]);
        const straight = run([press, move(222, 33)]);
        expect(detour.drag).toEqual(straight.drag);
      }),
    );
  });

  it("the task keeps its place under the pointer, at any zoom", () => {
    expect(targetUnder(grip, { atS: 5000, lane: "ev2" })).toEqual({ at: "line", lane: "ev2", startS: 4700 });
    expect(targetUnder(grip, { atS: 5000, lane: null })).toEqual({ at: "bench" });
  });
});
