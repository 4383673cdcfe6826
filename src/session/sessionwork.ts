import type { StoreApi } from "zustand/vanilla";
import { gridFrom } from "../kernel/index.ts";
import { type Plan, sameSchedule } from "../plan/index.ts";
import { gridName } from "../words/index.ts";
import type { EditCommands } from "./editing.ts";
import type { FileCommands } from "./files.ts";
import { crewSwapped, handedOver } from "./placing.ts";
import type { Command } from "./registry.ts";
import type { RunCommands } from "./running.ts";
import { isBenchCurrent, placementsByTask, redoName, shownTasks, undoName } from "./selectors.ts";
import type { SessionState } from "./state.ts";

/** What of a session the commands work with. */
interface Working extends EditCommands, RunCommands, Pick<FileCommands, "newPlan"> {
  readonly state: Pick<StoreApi<SessionState>, "getState">;
  select(tasks: readonly string[]): void;
}

/** How long a pack or mend that was begun without a chosen length may take, seconds. */
const SECONDS = 5;
const MINUTE_S = 60;

/** The commands that need nothing but the session: on the selected tasks, on the history, and the packer's. */
export function sessionWork(session: Working): readonly Command[] {
  const chosen = chosenOf(session);
  return [
    ...benchWork(session, chosen),
    ...placedWork(session, chosen),
    ...shiftWork(session, chosen),
    ...selectWork(session, chosen),
    ...historyWork(session),
    ...packerWork(session),
  ];
}

/** What is selected, and why a command on it cannot be done now. */
interface Chosen {
  all(): readonly string[];
  onLine(): readonly string[];
  pinned(): readonly string[];
  /** Why not, where something on the line has to be selected. */
  needsLine(): string | null;
  /** The same where that must be free to start at another time. */
  needsLoose(): string | null;
}

function chosenOf({ state }: Working): Chosen {
  const now = state.getState;
  const pinOf = (task: string) => shownTasks(now()).get(task)?.pin;
  const onLine = (): readonly string[] => now().selection.filter((task) => placementsByTask(now()).has(task));
  const needsLine = (): string | null => (onLine().length === 0 ? "Select a task on the line first." : null);
  return {
    all: () => now().selection,
    onLine,
    pinned: () => onLine().filter((task) => pinOf(task) !== undefined),
    needsLine,
    needsLoose: () =>
      needsLine() ??
      (onLine().some((task) => pinOf(task)?.startS !== undefined)
        ? "A selected task is pinned: unpin it first."
        : null),
  };
}

function taskCommand(
  id: string,
  name: Command["name"],
  keys: readonly string[],
  disabledReason: Command["disabledReason"],
  run: Command["run"],
): Command {
  return { id, name, group: "Tasks", keys, where: "line", disabledReason, run };
}

/** To the bench and off it, and more of what is there. */
function benchWork(session: Working, { all, onLine, needsLine }: Chosen): readonly Command[] {
  return [
    taskCommand("bench", "Send to bench", ["B", "Delete"], needsLine, () => session.bench(onLine())),
    taskCommand("put on", "Put on the line where it fits", ["Shift+B"], hinderedPut(session), () =>
      putOn(session),
    ),
    taskCommand(
      "duplicate",
      "Duplicate to the bench",
      ["Ctrl+D"],
      () => (all().length === 0 ? "Select a task first." : null),
      () => {
        const copies = session.duplicate(all());
        if (copies.length > 0) session.select(copies);
      },
    ),
    taskCommand(
      "one more",
      "One more like it, in a group",
      ["Shift+D"],
      () => (all().length === 1 ? null : "Select one task first."),
      () => {
        const [task] = all();
        const made = task === undefined ? null : session.oneMore(task);
        if (made !== null) session.select([made]);
      },
    ),
  ];
}

/** Pins, and who does it. */
function placedWork(session: Working, { onLine, pinned, needsLine }: Chosen): readonly Command[] {
  const now = session.state.getState;
  return [
    taskCommand(
      "pin",
      () => (allPinned(onLine(), pinned()) ? "Unpin" : "Pin where it is"),
      ["P"],
      needsLine,
      () => (allPinned(onLine(), pinned()) ? session.unpin(onLine()) : session.pin(onLine())),
    ),
    taskCommand(
      "hand over",
      "Hand over to the next crew member",
      ["C"],
      () => {
        const { plan } = now();
        const same = sameSchedule(handedOver(plan, plan.schedule, onLine()), plan.schedule);
        return needsLine() ?? (same ? "There is nobody else to take it over." : null);
      },
      () => session.handOver(onLine()),
    ),
    taskCommand(
      "swap crew",
      "Swap crew of two tasks",
      ["X"],
      () => {
        const [a, b, more] = onLine();
        if (a === undefined || b === undefined || more !== undefined)
          return "Select two tasks on the line first.";
        const { schedule } = now().plan;
        return sameSchedule(crewSwapped(schedule, a, b), schedule)
          ? "Their crews are the same, or not as many."
          : null;
      },
      () => session.swapCrew(onLine()[0]!, onLine()[1]!),
    ),
  ];
}

function shiftWork(session: Working, { onLine, needsLoose }: Chosen): readonly Command[] {
  const plan = (): Plan => session.state.getState().plan;
  const step = (way: "earlier" | "later", key: string, sign: number): Command =>
    taskCommand(
      `minute ${way}`,
      () => `${stepWords(plan())} ${way}`,
      [key],
      needsLoose,
      () => session.shift(onLine(), sign * stepS(plan())),
    );
  return [step("earlier", "[", -1), step("later", "]", 1)];
}

function selectWork(session: Working, { all, onLine, needsLine }: Chosen): readonly Command[] {
  const placements = () => session.state.getState().plan.schedule.placements;
  return [
    taskCommand(
      "select EVA",
      "Select all of its EVA",
      ["E"],
      () => needsLine() ?? (evasOf(session, onLine()).length === 0 ? "Work by command has no EVA." : null),
      () => {
        const evas = evasOf(session, onLine());
        session.select(
          placements()
            .filter((one) => one.eva !== null && evas.includes(one.eva))
            .map((one) => one.task),
        );
      },
    ),
    taskCommand(
      "select all",
      "Select all on the line",
      ["Ctrl+A"],
      () => (placements().length === 0 ? "Nothing is on the line." : null),
      () => session.select(placements().map((one) => one.task)),
    ),
    taskCommand(
      "select none",
      "Select none",
      ["Escape"],
      () => (all().length === 0 ? "Nothing is selected." : null),
      () => session.select([]),
    ),
  ];
}

function allPinned(onLine: readonly string[], pinned: readonly string[]): boolean {
  return onLine.length > 0 && pinned.length === onLine.length;
}

function evasOf(session: Working, tasks: readonly string[]): readonly string[] {
  const placements = placementsByTask(session.state.getState());
  return [...new Set(tasks.flatMap((task) => placements.get(task)?.eva ?? []))];
}

/** The selected tasks on the bench for which the packer knows a place. */
function fitting(session: Working): readonly string[] {
  const state = session.state.getState();
  if (!isBenchCurrent(state)) return [];
  return state.selection.filter(
    (task) => !placementsByTask(state).has(task) && Boolean(state.benchReasons.get(task)?.fitsAt),
  );
}

function hinderedPut(session: Working): () => string | null {
  return () => (fitting(session).length === 0 ? "Select a task on the bench that fits somewhere." : null);
}

/** One only: a place that fitted before the first was put on need not fit after it. */
function putOn(session: Working): void {
  const [task] = fitting(session);
  const placement = task === undefined ? null : session.state.getState().benchReasons.get(task)?.fitsAt;
  if (task !== undefined && placement) session.place(task, { ...placement, crew: [...placement.crew] });
}

function historyWork(session: Working): readonly Command[] {
  const now = session.state.getState;
  const step = (
    id: string,
    word: string,
    keys: readonly string[],
    name: () => string | null,
    run: () => void,
  ): Command => ({
    id,
    name: () => (name() === null ? word : `${word}: ${name()}`),
    group: "Plan",
    keys,
    where: "page",
    disabledReason: () => (name() === null ? `Nothing to ${id}.` : null),
    run,
  });
  return [
    step(
      "undo",
      "Undo",
      ["Ctrl+Z"],
      () => undoName(now()),
      () => void session.undo(),
    ),
    step(
      "redo",
      "Redo",
      ["Ctrl+Shift+Z", "Ctrl+Y"],
      () => redoName(now()),
      () => void session.redo(),
    ),
  ];
}

/** A minute, or the first longer step that keeps a start on the plan's grid, s. */
function stepS({ rules }: Plan): number {
  return gridFrom(MINUTE_S, rules.startGridS);
}

function stepWords(plan: Plan): string {
  const seconds = stepS(plan);
  if (seconds === MINUTE_S) return "A minute";
  return seconds % MINUTE_S === 0 ? `${seconds / MINUTE_S} minutes` : `${seconds} seconds`;
}

/** True when every start that is not pinned is on the plan's grid. */
export function isOnGrid({ rules, schedule, tasks }: Plan): boolean {
  const pinned = new Set(tasks.filter((task) => task.pin?.startS !== undefined).map(({ id }) => id));
  return schedule.placements.every(({ task, startS }) => pinned.has(task) || startS % rules.startGridS === 0);
}

function packerWork(session: Working): readonly Command[] {
  const now = session.state.getState;
  const running = (): string | null => (now().run?.running ? "The packer is at work." : null);
  const work = (
    id: string,
    name: Command["name"],
    disabledReason: Command["disabledReason"],
    run: Command["run"],
  ): Command => ({
    id,
    name,
    group: "Packer",
    keys: [],
    where: "page",
    disabledReason,
    run,
  });
  return [
    work(
      "pack",
      `Pack for ${SECONDS} seconds`,
      running,
      () => void session.pack({ seed: 1, seconds: SECONDS, aim: "wish" }),
    ),
    work(
      "mend",
      `Mend for ${SECONDS} seconds`,
      () => running() ?? (now().verdict.score.breaches === 0 ? "No rule is broken." : null),
      () => void session.mend({ seed: 1, seconds: SECONDS }),
    ),
    work(
      "on grid",
      () => `Put starts on ${gridName(now().plan.rules.startGridS)}`,
      () =>
        running() ??
        (isOnGrid(now().plan)
          ? `Every start but pinned ones is on ${gridName(now().plan.rules.startGridS)}.`
          : null),
      () => void session.putOnGrid(),
    ),
    work(
      "stop packer",
      "Stop the packer",
      () => (now().run?.running ? null : "The packer is not at work."),
      () => session.stopPack("leave"),
    ),
    {
      ...work(
        "new plan",
        "New plan",
        () => null,
        () => session.newPlan(),
      ),
      group: "Plan",
    },
  ];
}
