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
  place(task: string, spot: PlaceOnDay): void;
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
  const { state } = core;

  const changed = (change: (plan: Plan) => Partial<Plan>): Outcome<Plan, readonly Fault[]> => {
    const { plan } = state.getState();
    const read = parse({ ...plan, ...change(plan) });
    return read.ok ? done(givenBetween(plan, read.value)) : read;
  };

  const retask = (name: string, tasks: Plan["tasks"]): void => {
    const { plan } = state.getState();
    core.step(editBetween(name, plan, { ...plan, tasks }));
  };

  const commands: EditCommands = {
    edit(name, change) {
      const next = changed(change);
      if (next.ok) core.step(editBetween(name, state.getState().plan, next.value));
      return next;
    },
    faultsOf(change) {
      const next = changed(change);
      return next.ok ? [] : next.error;
    },
    place(task, spot) {
      const { plan } = state.getState();
      const known = plan.schedule.placements.some((one) => one.task === task);
      commands.reschedule(
        stepName(known ? "Move" : "Place", plan, [task]),
        placed(plan.schedule, task, spot),
      );
    },
    bench(tasks) {
      const { plan } = state.getState();
      commands.reschedule(stepName("Bench", plan, tasks), benched(plan.schedule, tasks));
    },
    pin(tasks, parts = ALL_PARTS) {
      const { plan } = state.getState();
      const spots = new Map(plan.schedule.placements.map((one) => [one.task, one]));
      const held = tasks.filter((task) => spots.has(task));
      if (held.length === 0) return;
      const next = plan.tasks.map((task) => {
        const spot = spots.get(task.id);
        return spot && held.includes(task.id) ? pinned(task, spot, parts) : task;
      });
      retask(stepName("Pin", plan, held), next);
    },
    unpin(tasks, parts = ALL_PARTS) {
      const { plan } = state.getState();
      const held = plan.tasks.filter((task) => tasks.includes(task.id) && task.pin !== undefined);
      if (held.length === 0) return;
      const next = plan.tasks.map((task) => (held.includes(task) ? unpinned(task, parts) : task));
      retask(
        stepName(
          "Unpin",
          plan,
          held.map((task) => task.id),
        ),
        next,
      );
    },
    shift(tasks, byS) {
      const { plan } = state.getState();
      commands.reschedule(stepName("Move", plan, tasks), shifted(plan.schedule, tasks, byS));
    },
    handOver(tasks) {
      const { plan } = state.getState();
      commands.reschedule(stepName("Hand over", plan, tasks), handedOver(plan, plan.schedule, tasks));
    },
    swapCrew(a, b) {
      const { plan } = state.getState();
      commands.reschedule(stepName("Swap crew of", plan, [a, b]), crewSwapped(plan.schedule, a, b));
    },
    duplicate(tasks) {
      const { plan } = state.getState();
      const taken = new Set(plan.tasks.map((task) => task.id));
      const numbers: Pick<Task, "id" | "number">[] = [...plan.tasks];
      const copies = plan.tasks
        .filter((task) => tasks.includes(task.id))
        .map((task) => {
          let nth = 2;
          while (taken.has(`${task.id}-${nth}`)) nth += 1;
          const id = `${task.id}-${nth}`;
          taken.add(id);
          const copy = {
            ...unpinned(task, ALL_PARTS),
            id,
            number: freshNumber(numbers),
            name: `${task.name} (copy)`,
          };
          numbers.push(copy);
          return copy;
        });
      const put = commands.edit(stepName("Duplicate", plan, tasks), (now) => ({
        tasks: [...now.tasks, ...copies],
      }));
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
      const put = commands.edit(stepName("One more of", plan, [task]), () => made.parts);
      if (put.ok) return made.id;
      core.notice("problem", `No task was added: ${put.error[0]?.message ?? "the plan cannot take it"}.`);
      return null;
    },
    reschedule(name, schedule, caution) {
      const { plan } = state.getState();
      const { odds } = plan;
      const careful =
        caution === undefined || caution === odds.crew.caution
          ? odds
          : { ...odds, crew: { ...odds.crew, caution } };
      const same = sameSchedule(plan.schedule, schedule);
      if (same && careful === odds) return;
      core.step(
        editBetween(name, plan, { ...plan, schedule: same ? plan.schedule : schedule, odds: careful }),
      );
    },
    undo: () => back(core, undone),
    redo: () => back(core, redone),
  };
  return commands;
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
