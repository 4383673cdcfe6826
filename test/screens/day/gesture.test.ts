// @vitest-environment jsdom
import { afterEach, describe, expect, it } from "vitest";
import { timeScale } from "../../../src/editor/index.ts";
import { instant } from "../../../src/kernel/index.ts";
import { type Session, shownTasks } from "../../../src/session/index.ts";
import { dayGesture, type DayGesture } from "../../../src/screens/day/gesture.ts";
import { stuckWords } from "../../../src/screens/day/speech.ts";
import { windowing } from "../../../src/screens/day/windowing.ts";
import { layoutOf } from "../../../src/screens/day/line/geometry.ts";
import { createViewStore, type ViewStore } from "../../../src/screens/viewstate.ts";
import { sessionWith } from "../../session/bench.ts";

/** Lanes 100 px high from the page's top left, one pixel for ten seconds, MET 0 at the left edge. */
const WIDE = 3000;
const window0 = { startS: 0, endS: WIDE * 10 };

interface Table {
  readonly session: Session;
  readonly view: ViewStore;
  readonly gesture: DayGesture;
  readonly stop: () => void;
}

let table: Table;
afterEach(() => {
  table.stop();
  document.body.replaceChildren();
});

function lay(): Table {
  const { session } = sessionWith();
  const view = createViewStore("light");
  view.setState({ window: window0 });
  const ground = () => {
    const state = session.state.getState();
    const { plan, verdict } = state;
    const layout = layoutOf(plan, plan.schedule, verdict, shownTasks(state), 100);
    return { layout, scale: timeScale(view.getState().window, WIDE), left: 0, top: 0 };
  };
  const windows = windowing(
    view,
    () => session.state.getState().plan,
    () => session.state.getState().verdict,
  );
  const gesture = dayGesture({ session, view, ground, windows, walkS: () => () => 60 });
  table = { session, view, gesture, stop: gesture.listen() };
  return table;
}

// jsdom lays nothing out: the bench is told where it is.
function benchAt(top: number): void {
  const bench = document.createElement("div");
  bench.dataset["bench"] = "";
  bench.getBoundingClientRect = () => new DOMRect(0, top, WIDE, 200);
  document.body.append(bench);
}

function pointer(type: string, x: number, y: number): PointerEvent {
  const event = new MouseEvent(type, { clientX: x, clientY: y, button: 0 }) as unknown as PointerEvent;
  Object.defineProperty(event, "pointerId", { value: 1 });
  return event;
}

const move = (x: number, y: number) => window.dispatchEvent(pointer("pointermove", x, y));
const release = () => window.dispatchEvent(pointer("pointerup", 0, 0));
const key = (name: string, shift = false) =>
  table.gesture.key(new KeyboardEvent("keydown", { key: name, shiftKey: shift }));

/** Presses the middle of task one, which runs 7200 to 8100 on EV1's lane. */
function pressOne(): void {
  table.gesture.press(pointer("pointerdown", 765, 50), { task: "one", lane: "ev1", offsetS: 450 });
}

const spotOf = (task: string) =>
  table.session.state.getState().plan.schedule.placements.find((placement) => placement.task === task);

describe("a task held by the pointer", () => {
  it("has nothing beside it that was said of a key before", () => {
    const { view } = lay();
    view.setState({ hint: "Nothing is selected." });
    pressOne();
    move(805, 50);
    expect(view.getState().inHand?.tasks).toEqual(["one"]);
    expect(view.getState().hint).toBeNull();
  });

  it("is not judged anew where the pointer moved and its start on the grid did not", () => {
    const { session, view } = lay();
    pressOne();
    move(777, 50);
    const judged = session.state.getState().preview;
    const held = view.getState().inHand;
    // A pixel is ten seconds, a step of the grid a minute.
    move(778, 52);
    expect(session.state.getState().preview).toBe(judged);
    expect(view.getState().inHand).toBe(held);
    move(800, 52);
    expect(session.state.getState().preview).not.toBe(judged);
  });

  it("is judged on every move, before it is let go", () => {
    const { session, view } = lay();
    pressOne();
    expect(session.state.getState().preview).toBeNull();
    move(865, 50);
    const near = session.state.getState().preview!;
    expect(near.schedule.placements[0]!.startS).toBe(8220);
    expect(near.verdict.outings[0]!.stretches.find((one) => one.task === "one")!.span.startS).toBe(8220);
    // 200 s into the stay, long before the EVA may begin: a breach, told while the button is still down.
    move(65, 50);
    const { preview } = session.state.getState();
    expect(preview!.difference.gained.some((finding) => finding.level === "breach")).toBe(true);
    expect(view.getState().inHand).toMatchObject({ task: "one", by: "pointer" });
    expect(spotOf("one")!.startS).toBe(7200);
  });

  it("goes down as one step, whatever the way was", () => {
    const { session } = lay();
    const before = session.state.getState().history.undo.length;
    pressOne();
    for (let x = 765; x < 1400; x += 7) move(x, 50);
    move(1065, 50);
    release();
    expect(spotOf("one")).toMatchObject({ startS: 10_200, crew: ["ev1"] });
    expect(session.state.getState().history.undo.length).toBe(before + 1);
    expect(session.state.getState().preview).toBeNull();
    session.undo();
    expect(spotOf("one")!.startS).toBe(7200);
  });

  it("changes hands across lanes", () => {
    lay();
    pressOne();
    move(765, 150);
    release();
    expect(spotOf("one")).toMatchObject({ startS: 7200, crew: ["ev2"] });
  });

  it("Escape takes it back without a trace", () => {
    const { session, view } = lay();
    const { plan, history } = session.state.getState();
    pressOne();
    move(1200, 150);
    expect(key("Escape")).toBe(true);
    release();
    expect(session.state.getState().plan).toBe(plan);
    expect(session.state.getState().history).toBe(history);
    expect(view.getState().inHand).toBeNull();
  });

  it("dropped on the bench is benched, and a benched one dropped on the line is placed", () => {
    lay();
    benchAt(300);
    pressOne();
    move(765, 350);
    release();
    expect(spotOf("one")).toBeUndefined();
    table.gesture.press(pointer("pointerdown", 50, 350), { task: "two", lane: null, offsetS: 300 });
    move(930, 150);
    release();
    expect(spotOf("two")).toMatchObject({ eva: "eva-1", crew: ["ev2"], startS: 9000 });
  });

  it("a click selects and moves nothing", () => {
    const { session } = lay();
    const { plan } = session.state.getState();
    pressOne();
    move(767, 51);
    release();
    expect(session.state.getState().selection).toEqual(["one"]);
    expect(session.state.getState().plan).toBe(plan);
  });

  it("a pinned task stays and says so", () => {
    const { session, view } = lay();
    session.pin(["one"]);
    pressOne();
    move(1200, 50);
    expect(session.state.getState().preview).toBeNull();
    expect(view.getState().spoken).toContain("Pinned");
  });

  it("a pinned task offers to be unpinned, and not only in words", () => {
    const { session, view } = lay();
    session.pin(["one"]);
    pressOne();
    move(1200, 50);
    expect(view.getState().refused).toMatchObject({ tasks: ["one"], x: 1200, y: 50 });
    expect(gesture().active()).toBe(false);
  });

  it("undo while it is held ends the gesture", () => {
    const { session, view, gesture } = lay();
    pressOne();
    move(1200, 50);
    session.undo();
    expect(view.getState().inHand).toBeNull();
    expect(gesture.active()).toBe(false);
    release();
    expect(spotOf("one")!.startS).toBe(7200);
  });
});

const gesture = () => table.gesture;
const second = (startS: number, crew = ["ev1"]) =>
  table.session.place("two", { eva: "eva-1", crew, startS: instant(startS) });

describe("several in one hand", () => {
  it("all that are selected go along, as one step with one name", () => {
    const { session } = lay();
    second(9000, ["ev2"]);
    session.select(["one", "two"]);
    pressOne();
    move(825, 50);
    expect(session.state.getState().preview!.tasks).toEqual(["one", "two"]);
    release();
    expect([spotOf("one")!.startS, spotOf("two")!.startS]).toEqual([7800, 9600]);
    expect(session.state.getState().history.undo.at(-1)!.name).toBe("Move 2 tasks");
  });

  it("a click with the adding key adds and takes out", () => {
    const { session } = lay();
    second(9000);
    const press = (task: string, x: number) => {
      gesture().press(pointer("pointerdown", x, 50), { task, lane: "ev1", offsetS: 0, more: true });
      release();
    };
    press("one", 720);
    press("two", 900);
    expect(session.state.getState().selection).toEqual(["one", "two"]);
    press("one", 720);
    expect(session.state.getState().selection).toEqual(["two"]);
  });

  it("an EVA is moved by its bar, keeps its crew across lanes and never lands on the bench", () => {
    const { session } = lay();
    benchAt(300);
    second(9000, ["ev2"]);
    gesture().press(pointer("pointerdown", 800, 10), {
      task: "one",
      lane: "ev1",
      offsetS: 800,
      eva: "eva-1",
    });
    move(860, 350);
    release();
    // The tasks stand on whole minutes and keep their distances; egress follows from the first of them.
    const { verdict, history } = session.state.getState();
    // 7800 less 111 s of way (99 m at 0.9 m/s) and 600 s of egress work.
    expect(spotOf("one")!.startS).toBe(7800);
    expect(verdict.outings[0]!.span.startS).toBe(7089);
    expect(spotOf("one")!.crew).toEqual(["ev1"]);
    expect(spotOf("two")!.crew).toEqual(["ev2"]);
    expect(spotOf("two")!.startS - spotOf("one")!.startS).toBe(1800);
    expect(history.undo.at(-1)!.name).toBe("Move EVA 1");
  });
});

describe("the others", () => {
  it("stay, or slide while the key for it is down, and the step says so", () => {
    const { session, view } = lay();
    second(8400);
    pressOne();
    move(825, 50);
    expect(view.getState().inHand).toMatchObject({ manner: "stay" });
    expect(view.getState().inHand!.slid.size).toBe(0);
    const shift = (type: string, shiftKey: boolean) =>
      window.dispatchEvent(new KeyboardEvent(type, { key: "Shift", shiftKey }));
    shift("keydown", true);
    // One now runs 7800 to 8700; two is at the same place and follows at once.
    expect(view.getState().inHand!.slid).toEqual(new Map([["two", 300]]));
    shift("keyup", false);
    expect(view.getState().inHand!.slid.size).toBe(0);
    shift("keydown", true);
    release();
    expect(spotOf("two")!.startS).toBe(8700);
    expect(session.state.getState().history.undo.at(-1)!.name).toBe("Move Task one, 1 other slides");
  });
});

describe("what cannot slide, and the day before the move", () => {
  it("a pinned other stays where it is, and is told while the hand is over it", () => {
    const { session, view } = lay();
    second(8400);
    session.edit("Pin", (plan) => ({
      tasks: plan.tasks.map((one) => (one.id === "two" ? { ...one, pin: { startS: instant(8400) } } : one)),
    }));
    view.setState({ manner: "slide" });
    pressOne();
    move(825, 50);
    const { inHand } = view.getState();
    expect(inHand!.stuck).toEqual([{ task: "two", why: "pinned" }]);
    expect(inHand!.slid.size).toBe(0);
    expect(stuckWords(session.state.getState().plan, inHand!.stuck)).toBe(
      "Task two cannot slide: it is pinned.",
    );
    release();
    expect(spotOf("two")!.startS).toBe(8400);
  });

  it("is kept with its verdict when something is set down elsewhere, and not when it is where it was", () => {
    const { session, view } = lay();
    const { plan, verdict } = session.state.getState();
    pressOne();
    move(825, 50);
    expect(view.getState().before).toBeNull();
    release();
    expect(view.getState().before).toEqual({
      plan,
      verdict,
      now: session.state.getState().plan,
      tasks: ["one"],
    });
    pressOne();
    move(900, 50);
    move(825, 50);
    release();
    expect(view.getState().before).toBeNull();
  });
});

describe("an end in hand", () => {
  it("makes the task longer, as one step that undo takes back whole", () => {
    const { session } = lay();
    gesture().press(pointer("pointerdown", 810, 50), { task: "one", lane: "ev1", offsetS: 0, edge: "end" });
    move(870, 150);
    const { preview } = session.state.getState();
    expect(preview!.plan.tasks[0]!.duration.likelyS).toBe(1500);
    expect(preview!.schedule.placements[0]).toMatchObject({ startS: 7200, crew: ["ev1"] });
    release();
    expect(session.state.getState().plan.tasks[0]!.duration.likelyS).toBe(1500);
    expect(session.undo()).toBe("Duration of Task one");
    expect(session.state.getState().plan.tasks[0]!.duration.likelyS).toBe(900);
  });

  it("the start moves alone; a pinned start refuses, a pinned task's end does not", () => {
    const { session, view } = lay();
    const press = (edge: "start" | "end", x: number) =>
      gesture().press(pointer("pointerdown", x, 50), { task: "one", lane: "ev1", offsetS: 0, edge });
    press("start", 720);
    move(690, 50);
    release();
    expect(spotOf("one")!.startS).toBe(6900);
    expect(session.state.getState().plan.tasks[0]!.duration.likelyS).toBe(1200);
    session.pin(["one"]);
    press("start", 690);
    move(660, 50);
    expect(view.getState().refused).not.toBeNull();
    release();
    press("end", 810);
    move(840, 50);
    release();
    expect(session.state.getState().plan.tasks[0]!.duration.likelyS).toBe(1500);
  });
});

describe("a task held by keys", () => {
  it("is taken, moved by minutes and across lanes, and set down", () => {
    const { session, gesture } = lay();
    expect(gesture.take("one", "ev1")).toBe(true);
    expect(gesture.take("two", null)).toBe(false);
    key("ArrowRight");
    key("ArrowRight", true);
    key("ArrowDown");
    expect(session.state.getState().preview!.schedule.placements[0]).toMatchObject({
      startS: 7860,
      crew: ["ev2"],
    });
    key("Enter");
    expect(spotOf("one")).toMatchObject({ startS: 7860, crew: ["ev2"] });
    expect(gesture.active()).toBe(false);
    expect(key("ArrowRight")).toBe(false);
  });

  it("goes to the bench and comes back, and Escape takes all of it back", () => {
    const { session, gesture } = lay();
    gesture.take("one", "ev1");
    key("b");
    expect(session.state.getState().preview!.schedule.placements).toHaveLength(0);
    key("Escape");
    expect(spotOf("one")!.startS).toBe(7200);
    gesture.take("one", "ev1");
    key("b");
    key("Enter");
    expect(spotOf("one")).toBeUndefined();
  });

  it("a task from the bench lies down in the middle of what is shown", () => {
    const { gesture } = lay();
    gesture.take("two", null);
    key("Enter");
    expect(spotOf("two")).toEqual({ task: "two", eva: "eva-1", crew: ["ev1"], startS: instant(15_000) });
  });
});
