import { done, isEqual, type Outcome } from "../kernel/index.ts";
import {
  applyPatch,
  editBetween,
  type Fault,
  freshNumber,
  givenBetween,
  oneMore,
  parse,
  type Plan,
  sameSchedule,
  type Schedule,
  type Task,
} from "../plan/index.ts";
import type { Core } from "./core.ts";
import { emptyHistory, redone, undone } from "./history.ts";
import {
  benched,
  crewSwapped,
  handedOver,
  type PinPart,
  pinned,
  placed,
  shifted,
  type PlaceOnDay,
  stepName,
  unpinned,
} from "./placing.ts";

/** Commands that change the plan, each one step of the history. */
export interface EditCommands {
  /**
   * Replaces branches of the plan by those that `change` gives. The whole is parsed first: with faults, the plan
   * stays as it was and the faults are the answer.
   */
  edit(name: string, change: (plan: Plan) => Partial<Plan>): Outcome<Plan, readonly Fault[]>;
  /** The faults that an edit would have, without doing it; empty when it is sound. */
  faultsOf(change: (plan: Plan) => Partial<Plan>): readonly Fault[];
  /** Puts a task on the day line or moves it there. Ids and times must be the plan's own. */
  place(task: string, placement: PlaceOnDay): void;
  /** Takes tasks off the day line. */
  bench(tasks: readonly string[]): void;
  /** Pins placed tasks where they are, in the given parts; all three when left out. Tasks on the bench are left alone. */
  pin(tasks: readonly string[], parts?: readonly PinPart[]): void;
  unpin(tasks: readonly string[], parts?: readonly PinPart[]): void;
  /** Moves placed tasks by `byS` seconds together. */
  shift(tasks: readonly string[], byS: number): void;
  /** Hands tasks of one crew member each to the next one of their EVA. */
  handOver(tasks: readonly string[]): void;
  /** Two placed tasks exchange crew and EVA. */
  swapCrew(a: string, b: string): void;
  /** Copies of tasks, unpinned and on the bench; the answer is their ids. Links are not copied. */
  duplicate(tasks: readonly string[]): readonly string[];
  /** One more task like this one, on the bench and in a group with it (`plan/repeat`); its id, null where the plan cannot take it. */
  oneMore(task: string): string | null;
  /** Replaces the schedule as one step, with the crew's caution that it was packed for; the same of both leaves no mark. */
  reschedule(name: string, schedule: Schedule, caution?: number): void;
  /** Takes the last step back; what it was called, or null when there is none. A gesture under way is cancelled instead. */
  undo(): string | null;
  redo(): string | null;
}

const ALL_PARTS: readonly PinPart[] = ["start", "eva", "crew"];

export function editCommands(core: Core): EditCommands {
  const parts = partEdits(core);
  const reschedule = rescheduling(core);
  return {
    ...parts,
    reschedule,
    ...placementEdits(core, reschedule),
    ...pinEdits(core),
    ...copyEdits(core, parts.edit),
    undo: () => back(core, undone),
    redo: () => back(core, redone),
  };
}

function partEdits(core: Core): Pick<EditCommands, "edit" | "faultsOf"> {
  const { state } = core;
  const changed = (change: (plan: Plan) => Partial<Plan>): Outcome<Plan, readonly Fault[]> => {
    const { plan } = state.getState();
    const read = parse({ ...plan, ...change(plan) });
    return read.ok ? done(givenBetween(plan, read.value)) : read;
  };
  return {
    edit(name, change) {
      const next = changed(change);
      if (next.ok) core.step(editBetween(name, state.getState().plan, next.value));
      return next;
    },
    faultsOf(change) {
      const next = changed(change);
      return next.ok ? [] : next.error;
    },
  };
}

function rescheduling(core: Core): EditCommands["reschedule"] {
  return (name, schedule, caution) => {
    const { plan } = core.state.getState();
    const { odds } = plan;
    const careful =
      caution === undefined || caution === odds.crew.caution
        ? odds
        : { ...odds, crew: { ...odds.crew, caution } };
    const same = sameSchedule(plan.schedule, schedule);
    if (same && careful === odds) return;
    core.step(editBetween(name, plan, { ...plan, schedule: same ? plan.schedule : schedule, odds: careful }));
  };
}

function placementEdits(
  { state }: Core,
  reschedule: EditCommands["reschedule"],
): Pick<EditCommands, "place" | "bench" | "shift" | "handOver" | "swapCrew"> {
  /** One step, called by what is done with `tasks`. */
  const step = (word: string, tasks: readonly string[], change: (plan: Plan) => Schedule): void => {
    const { plan } = state.getState();
    reschedule(stepName(word, plan, tasks), change(plan));
  };
  return {
    place(task, placement) {
      const known = state.getState().plan.schedule.placements.some((one) => one.task === task);
      step(known ? "Move" : "Place", [task], ({ schedule }) => placed(schedule, task, placement));
    },
    bench: (tasks) => step("Bench", tasks, ({ schedule }) => benched(schedule, tasks)),
    shift: (tasks, byS) => step("Move", tasks, ({ schedule }) => shifted(schedule, tasks, byS)),
    handOver: (tasks) => step("Hand over", tasks, (plan) => handedOver(plan, plan.schedule, tasks)),
    swapCrew: (a, b) => step("Swap crew of", [a, b], ({ schedule }) => crewSwapped(schedule, a, b)),
  };
}

function pinEdits(core: Core): Pick<EditCommands, "pin" | "unpin"> {
  const { state } = core;
  /** One step on the tasks that `change` gives another form; none where that is no task. */
  const step = (word: string, plan: Plan, change: (task: Task) => Task | null): void => {
    const next = plan.tasks.map((task) => change(task));
    const touched = plan.tasks.filter((_, i) => next[i] !== null).map(({ id }) => id);
    if (touched.length === 0) return;
    const tasks = plan.tasks.map((task, i) => next[i] ?? task);
    core.step(editBetween(stepName(word, plan, touched), plan, { ...plan, tasks }));
  };
  return {
    pin(tasks, parts = ALL_PARTS) {
      const { plan } = state.getState();
      const placements = new Map(plan.schedule.placements.map((one) => [one.task, one]));
      step("Pin", plan, (task) => {
        const placement = tasks.includes(task.id) ? placements.get(task.id) : undefined;
        return placement ? pinned(task, placement, parts) : null;
      });
    },
    unpin(tasks, parts = ALL_PARTS) {
      step("Unpin", state.getState().plan, (task) =>
        tasks.includes(task.id) && task.pin !== undefined ? unpinned(task, parts) : null,
      );
    },
  };
}

function copyEdits(core: Core, edit: EditCommands["edit"]): Pick<EditCommands, "duplicate" | "oneMore"> {
  const { state } = core;
  return {
    duplicate(tasks) {
      const { plan } = state.getState();
      const copies = copiesOf(plan, tasks);
      const put = edit(stepName("Duplicate", plan, tasks), (now) => ({ tasks: [...now.tasks, ...copies] }));
      if (put.ok) return copies.map((copy) => copy.id);
      core.notice(
        "problem",
        `Nothing was duplicated: ${put.error[0]?.message ?? "the plan cannot take it"}.`,
      );
      return [];
    },
    oneMore(task) {
      const { plan } = state.getState();
      const made = oneMore(plan, task);
      if (!made) return null;
      const put = edit(stepName("One more of", plan, [task]), () => made.parts);
      if (put.ok) return made.id;
      core.notice("problem", `No task was added: ${put.error[0]?.message ?? "the plan cannot take it"}.`);
      return null;
    },
  };
}

/** Copies of tasks under ids and numbers of their own, without pins. */
function copiesOf(plan: Plan, tasks: readonly string[]): readonly Task[] {
  const taken = new Set(plan.tasks.map((task) => task.id));
  const numbers: Pick<Task, "id" | "number">[] = [...plan.tasks];
  return plan.tasks
    .filter((task) => tasks.includes(task.id))
    .map((task) => {
      let nth = 2;
      while (taken.has(`${task.id}-${nth}`)) nth += 1;
      const id = `${task.id}-${nth}`;
      taken.add(id);
      const number = freshNumber(numbers);
      const copy = { ...unpinned(task, ALL_PARTS), id, number, name: `${task.name} (copy)` };
      numbers.push(copy);
      return copy;
    });
}

function back(core: Core, turn: typeof undone): string | null {
  const now = core.state.getState();
  if (now.preview) {
    core.state.setState({ preview: null, fitBands: null });
    return null;
  }
  if (core.heavy?.breakOff()) return null;
  const turned = turn(now.history);
  if (!turned || !core.mayWrite()) return null;
  // A step may come from a store: it is tried like anything from outside.
  const made = applyPatch(now.plan, turned.edit.patch);
  if (!made.ok || !parse(made.value).ok) {
    core.notice(
      "problem",
      `"${turned.edit.name}" no longer fits the plan. Steps of earlier can no longer be taken back.`,
    );
    core.state.setState({ history: emptyHistory });
    return null;
  }
  const later = {
    name: turned.edit.name,
    make(from: Pick<typeof now, "plan" | "history">) {
      const again = turn(from.history);
      const plan = again && isEqual(again.edit, turned.edit) ? applyPatch(from.plan, again.edit.patch) : null;
      return again && plan?.ok && parse(plan.value).ok ? { plan: plan.value, history: again.history } : null;
    },
  };
  if (core.heavy?.takes(later, now.plan, made.value)) return null;
  core.show(made.value, turned.history);
  return turned.edit.name;
}
