import type { StoreApi } from "zustand/vanilla";
import { gridFrom } from "../kernel/index.ts";
import { type Plan, sameSchedule } from "../plan/index.ts";
import { gridName } from "../words/index.ts";
import type { EditCommands } from "./editing.ts";
import type { FileCommands } from "./files.ts";
import { crewSwapped, handedOver } from "./placing.ts";
import type { Command } from "./registry.ts";
import type { RunCommands } from "./running.ts";
import { benchStands, placementsByTask, redoName, tasksById, undoName } from "./selectors.ts";
import type { DeskState } from "./state.ts";

/** What of a desk the commands work with. */
interface Working extends EditCommands, RunCommands, Pick<FileCommands, "newPlan"> {
  readonly state: Pick<StoreApi<DeskState>, "getState">;
  select(tasks: readonly string[]): void;
}

/** How long a pack or mend that was begun without a chosen length may take, seconds. */
const SECONDS = 5;
const MINUTE_S = 60;

/** The commands that need nothing but the desk: on the selected tasks, on the history, and the packer's. */
export function deskWork(desk: Working): readonly Command[] {
  const now = desk.state.getState;
  const chosen = (): readonly string[] => now().selection;
  const onLine = (): readonly string[] => chosen().filter((task) => placementsByTask(now()).has(task));
  const pinned = (): readonly string[] =>
    onLine().filter((task) => tasksById(now()).get(task)?.pin !== undefined);
  const fixed = (): readonly string[] =>
    onLine().filter((task) => tasksById(now()).get(task)?.pin?.startS !== undefined);
  const needsLine = (): string | null => (onLine().length === 0 ? "Select a task on the line first." : null);
  const needsLoose = (): string | null =>
    needsLine() ?? (fixed().length > 0 ? "A selected task is pinned: unpin it first." : null);
  const tasks = (
    id: string,
    name: Command["name"],
    keys: readonly string[],
    disabledReason: Command["disabledReason"],
    run: Command["run"],
  ): Command => ({ id, name, group: "Tasks", keys, where: "line", disabledReason, run });

  return [
    tasks("bench", "Send to bench", ["B", "Delete"], needsLine, () => desk.bench(onLine())),
    tasks("put on", "Put on the line where it fits", ["Shift+B"], hinderedPut(desk), () => putOn(desk)),
    tasks(
      "duplicate",
      "Duplicate to the bench",
      ["Ctrl+D"],
      () => (chosen().length === 0 ? "Select a task first." : null),
      () => {
        const copies = desk.duplicate(chosen());
        if (copies.length > 0) desk.select(copies);
      },
    ),
    tasks(
      "one more",
      "One more like it, in a group",
      ["Shift+D"],
      () => (chosen().length === 1 ? null : "Select one task first."),
      () => {
        const [task] = chosen();
        const made = task === undefined ? null : desk.oneMore(task);
        if (made !== null) desk.select([made]);
      },
    ),
    tasks(
      "pin",
      () => (allPinned(onLine(), pinned()) ? "Unpin" : "Pin where it is"),
      ["P"],
      needsLine,
      () => (allPinned(onLine(), pinned()) ? desk.unpin(onLine()) : desk.pin(onLine())),
    ),
    tasks(
      "hand over",
      "Hand over to the next crew member",
      ["C"],
      () => {
        const { plan } = now();
        const same = sameSchedule(handedOver(plan, plan.schedule, onLine()), plan.schedule);
        return needsLine() ?? (same ? "There is nobody else to take it over." : null);
      },
      () => desk.handOver(onLine()),
    ),
    tasks(
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
      () => desk.swapCrew(onLine()[0]!, onLine()[1]!),
    ),
    tasks(
      "minute earlier",
      () => `${stepWords(now().plan)} earlier`,
      ["["],
      needsLoose,
      () => desk.shift(onLine(), -stepS(now().plan)),
    ),
    tasks(
      "minute later",
      () => `${stepWords(now().plan)} later`,
      ["]"],
      needsLoose,
      () => desk.shift(onLine(), stepS(now().plan)),
    ),
    tasks(
      "select EVA",
      "Select all of its EVA",
      ["E"],
      () => needsLine() ?? (evasOf(desk, onLine()).length === 0 ? "Work by command has no EVA." : null),
      () => {
        const evas = evasOf(desk, onLine());
        const { placements } = now().plan.schedule;
        desk.select(
          placements.filter((one) => one.eva !== null && evas.includes(one.eva)).map((one) => one.task),
        );
      },
    ),
    tasks(
      "select all",
      "Select all on the line",
      ["Ctrl+A"],
      () => (now().plan.schedule.placements.length === 0 ? "Nothing is on the line." : null),
      () => desk.select(now().plan.schedule.placements.map((one) => one.task)),
    ),
    tasks(
      "select none",
      "Select none",
      ["Escape"],
      () => (chosen().length === 0 ? "Nothing is selected." : null),
      () => desk.select([]),
    ),
    ...historyWork(desk),
    ...packerWork(desk),
  ];
}

function allPinned(onLine: readonly string[], pinned: readonly string[]): boolean {
  return onLine.length > 0 && pinned.length === onLine.length;
}

function evasOf(desk: Working, tasks: readonly string[]): readonly string[] {
  const spots = placementsByTask(desk.state.getState());
  return [...new Set(tasks.flatMap((task) => spots.get(task)?.eva ?? []))];
}

/** The selected tasks on the bench for which the packer knows a place. */
function fitting(desk: Working): readonly string[] {
  const state = desk.state.getState();
  if (!benchStands(state)) return [];
  return state.selection.filter(
    (task) => !placementsByTask(state).has(task) && Boolean(state.benchReasons.get(task)?.fitsAt),
  );
}

function hinderedPut(desk: Working): () => string | null {
  return () => (fitting(desk).length === 0 ? "Select a task on the bench that fits somewhere." : null);
}

/** One only: a place that fitted before the first was put on need not fit after it. */
function putOn(desk: Working): void {
  const [task] = fitting(desk);
  const spot = task === undefined ? null : desk.state.getState().benchReasons.get(task)?.fitsAt;
  if (task !== undefined && spot) desk.place(task, { ...spot, crew: [...spot.crew] });
}

function historyWork(desk: Working): readonly Command[] {
  const now = desk.state.getState;
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
      () => void desk.undo(),
    ),
    step(
      "redo",
      "Redo",
      ["Ctrl+Shift+Z", "Ctrl+Y"],
      () => redoName(now()),
      () => void desk.redo(),
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

function packerWork(desk: Working): readonly Command[] {
  const now = desk.state.getState;
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
      () => void desk.pack({ seed: 1, seconds: SECONDS, aim: "wish" }),
    ),
    work(
      "mend",
      `Mend for ${SECONDS} seconds`,
      () => running() ?? (now().verdict.score.breaches === 0 ? "No rule is broken." : null),
      () => void desk.mend({ seed: 1, seconds: SECONDS }),
    ),
    work(
      "on grid",
      () => `Put starts on ${gridName(now().plan.rules.startGridS)}`,
      () =>
        running() ??
        (isOnGrid(now().plan)
          ? `Every start but pinned ones is on ${gridName(now().plan.rules.startGridS)}.`
          : null),
      () => void desk.putOnGrid(),
    ),
    work(
      "stop packer",
      "Stop the packer",
      () => (now().run?.running ? null : "The packer is not at work."),
      () => desk.stopPack("leave"),
    ),
    {
      ...work(
        "new plan",
        "New plan",
        () => null,
        () => desk.newPlan(),
      ),
      group: "Plan",
    },
  ];
}
