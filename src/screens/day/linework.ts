import { MANNER_WORDS, otherManner, placeHindered, withLength } from "../../editor/index.ts";
import {
  type Command,
  type Session,
  placementsByTask,
  shownVerdict,
  shownTasks,
} from "../../session/index.ts";
import type { ClockKind } from "../../words/index.ts";
import type { ViewStore } from "../viewstate.ts";
import { findingKey, readFindings } from "../words.ts";
import type { DayGesture } from "./gesture.ts";
import { goToFinding } from "./findingway.ts";
import { isWide, MAP_FROM_PX } from "./mapbeside.ts";
import type { Windowing } from "./windowing.ts";

const MINUTE_S = 60;
const CLOCKS: readonly { readonly id: ClockKind; readonly name: string }[] = [
  { id: "met", name: "Read mission elapsed time" },
  { id: "pet", name: "Read phase elapsed time" },
  { id: "utc", name: "Read universal time" },
];

/** What the commands of the line work with. */
interface LineWork {
  readonly session: Session;
  readonly view: ViewStore;
  readonly gesture: DayGesture;
  readonly windows: Windowing;
}

/** The commands of the day line: taking in hand, durations, what is shown and how it is read. */
export function lineWork(
  session: Session,
  view: ViewStore,
  gesture: DayGesture,
  windows: Windowing,
): readonly Command[] {
  const work = { session, view, gesture, windows };
  return [
    ...takingWork(work),
    ...lengthWork(work),
    ...handWork(work),
    ...viewWork(work),
    ...findingWork(work),
    ...readingWork(work),
  ];
}

function line(
  id: string,
  name: Command["name"],
  keys: readonly string[],
  run: Command["run"],
  disabledReason: Command["disabledReason"] = () => null,
): Command {
  return { id, name, group: "Line", keys, where: "line", disabledReason, run };
}

/** A command on the selected tasks. */
function onTasks(...of: Parameters<typeof line>): Command {
  return { ...line(...of), group: "Tasks" };
}

function needsOne({ session }: LineWork): string | null {
  return session.state.getState().selection.length === 0 ? "Select a task first." : null;
}

/** Taking in hand, and what a hand could do with the map. */
function takingWork(work: LineWork): readonly Command[] {
  const { session, view, gesture } = work;
  const now = session.state.getState;
  return [
    onTasks(
      "take",
      () => (now().selection.length > 1 ? "Take all selected in hand" : "Take in hand"),
      [],
      () => void gesture.take(anchorOf(session, view), view.getState().focus?.lane ?? null),
      () => needsOne(work),
    ),
    onTasks(
      "place",
      "Put at another place",
      ["G"],
      () => view.setState({ details: true, detailsAt: "place", sideOpen: true }),
      () => {
        const { plan, selection } = now();
        const [anchor = ""] = selection;
        const taken = { anchor, tasks: selection, edge: null, eva: null, fromLane: null };
        const why = placeHindered(plan, taken);
        return needsOne(work) ?? (why && `It keeps its place: ${why}.`);
      },
    ),
  ];
}

/** How long the selected tasks last. */
function lengthWork(work: LineWork): readonly Command[] {
  const { session } = work;
  const needsLonger = (): string | null => {
    const { selection, plan } = session.state.getState();
    const some = plan.tasks.some(({ id, duration }) => selection.includes(id) && duration.likelyS > MINUTE_S);
    return needsOne(work) ?? (some ? null : "A task lasts a minute at least.");
  };
  return [
    onTasks("minute shorter", "A minute shorter", [","], () => lengthen(session, -MINUTE_S), needsLonger),
    onTasks(
      "minute longer",
      "A minute longer",
      ["."],
      () => lengthen(session, MINUTE_S),
      () => needsOne(work),
    ),
  ];
}

function lengthen(session: Session, byS: number): void {
  const { selection, plan } = session.state.getState();
  const chosen = new Set(selection);
  const names = plan.tasks.filter((task) => chosen.has(task.id));
  const what = names.length === 1 ? names[0]!.name : `${names.length} tasks`;
  session.edit(`Make ${what} ${byS > 0 ? "longer" : "shorter"}`, ({ tasks }) => ({
    tasks: tasks.map((task) =>
      chosen.has(task.id) ? withLength(task, Math.max(MINUTE_S, task.duration.likelyS + byS)) : task,
    ),
  }));
}

/** What others do when something is moved, and what dragging the ground does. */
function handWork({ view }: LineWork): readonly Command[] {
  return [
    line(
      "manner",
      () => `${MANNER_WORDS[otherManner(view.getState().manner)]} from now on`,
      ["O"],
      () => {
        const manner = otherManner(view.getState().manner);
        view.setState({ manner, spoken: `${MANNER_WORDS[manner]}.` });
      },
    ),
    line(
      "lasso",
      () => (view.getState().tool === "pan" ? "Drag the ground to select" : "Drag the ground to pan"),
      ["L"],
      () => {
        const tool = view.getState().tool === "pan" ? "lasso" : "pan";
        view.setState({ tool, spoken: tool === "lasso" ? "Select." : "Pan." });
      },
    ),
  ];
}

/** Which part of the stay is shown, and whether the map is. */
function viewWork({ session, view, windows }: LineWork): readonly Command[] {
  const middle = (): number => {
    const { window, cursorS } = view.getState();
    return cursorS ?? (window.startS + window.endS) / 2;
  };
  const evas = session.state.getState().plan.evas.slice(0, 9);
  return [
    line(
      "map beside",
      () => (view.getState().mapAway ? "Show the map beside the lanes" : "Put the map away"),
      [],
      () => view.setState(({ mapAway }) => ({ mapAway: !mapAway })),
      () => (isWide() ? null : `The map stands beside the lanes from ${MAP_FROM_PX} px of width.`),
    ),
    line("zoom in", "Zoom in", ["+", "="], () => windows.zoomAbout(middle(), 0.7)),
    line("zoom out", "Zoom out", ["-", "_"], () => windows.zoomAbout(middle(), 1 / 0.7)),
    line("whole stay", "Show the whole stay", ["0"], () => windows.whole()),
    ...evas.map(({ name }, i) =>
      line(`show eva ${i}`, `Show ${name}`, [String(i + 1)], () => windows.eva(i)),
    ),
    line(
      "zoom selection",
      "Zoom to the selection",
      ["Z"],
      () => windows.frame(spansOf(session)),
      () => (spansOf(session).length === 0 ? "Select a task on the line first." : null),
    ),
    line("minute a centimetre", "Zoom to a minute a centimetre", ["M"], () => windows.centimetre(middle())),
  ];
}

function findingWork({ session, view, windows }: LineWork): readonly Command[] {
  const goTo = (id: string, name: string, key: string, by: 1 | -1): Command =>
    line(
      id,
      name,
      [key],
      () => step(session, view, windows, by),
      () => noFinding(session),
    );
  return [
    goTo("next finding", "Go to the next finding", "F", 1),
    goTo("previous finding", "Go to the previous finding", "Shift+F", -1),
  ];
}

/** The clock that is read, and the bench. */
function readingWork({ view }: LineWork): readonly Command[] {
  return [
    ...CLOCKS.map(({ id, name }) => line(`clock ${id}`, name, [], () => view.setState({ clock: id }))),
    line("next clock", "Read the next clock", ["T"], () => {
      const ids = CLOCKS.map((one) => one.id);
      const clock = ids[(ids.indexOf(view.getState().clock) + 1) % ids.length] ?? "met";
      view.setState({ clock, spoken: `${clock.toUpperCase()}.` });
    }),
    line("search bench", "Find on the bench", ["/"], () =>
      document.querySelector<HTMLInputElement>("[data-bench] input[type=search]")?.focus(),
    ),
  ];
}

/** The task that a hand takes by: the one with the keyboard's place when it is selected, else the first selected. */
function anchorOf(session: Session, view: ViewStore): string {
  const { selection } = session.state.getState();
  const focus = view.getState().focus?.task;
  return focus !== undefined && selection.includes(focus) ? focus : (selection[0] ?? "");
}

function spansOf(session: Session): readonly { readonly startS: number; readonly endS: number }[] {
  const state = session.state.getState();
  const placements = placementsByTask(state);
  return state.selection.flatMap((task) => {
    const placement = placements.get(task);
    const lengthS = shownTasks(state).get(task)?.duration.likelyS ?? 0;
    return placement ? [{ startS: placement.startS, endS: placement.startS + lengthS }] : [];
  });
}

function noFinding(session: Session): string | null {
  return shownVerdict(session.state.getState()).findings.length === 0 ? "There is no finding." : null;
}

/** Goes through the findings as the list has them, round at its ends. */
function step(session: Session, view: ViewStore, windows: Windowing, by: 1 | -1): void {
  const inOrder = readFindings(shownVerdict(session.state.getState()).findings);
  const { chosen } = view.getState();
  const at = inOrder.findIndex((one) => chosen !== null && findingKey(one) === findingKey(chosen));
  const next =
    inOrder[at < 0 ? (by > 0 ? 0 : inOrder.length - 1) : (at + by + inOrder.length) % inOrder.length];
  if (next) goToFinding(session, view, windows, next);
}
