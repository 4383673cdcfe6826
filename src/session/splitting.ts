import { mergeTasks, splitTask } from "../plan/index.ts";
import type { Core } from "./core.ts";
import type { EditCommands } from "./editing.ts";
import { stepName } from "./placing.ts";

/** Commands that make two tasks of one and one of two, each one step of the history. */
export interface SplitCommands {
  /** Splits a task after `afterS` seconds of it and selects both parts. Why not, in words; null when it is done. */
  splitTask(task: string, afterS: number): string | null;
  /** Makes one task of two, in whatever order, and selects it. Why not, in words; null when it is done. */
  mergeTasks(a: string, b: string): string | null;
  /** Why the task cannot be split there, or the two be one, without doing it; null when it can be done. */
  hinderedSplit(task: string, afterS: number): string | null;
  hinderedMerge(a: string, b: string): string | null;
}

export function splitCommands(core: Core, edits: EditCommands): SplitCommands {
  const { state } = core;

  /** A change that a variant makes to a task would hold for one part of it only, unseen. */
  const changedByVariant = (...tasks: readonly string[]): string | null => {
    const { plan } = state.getState();
    for (const { name, givesUp } of plan.variants) {
      const changed = givesUp?.patch.find(
        ({ path }) => path[0] === "tasks" && tasks.some((task) => path[1] === `#${task}`),
      );
      if (!changed) continue;
      const task = plan.tasks.find((one) => `#${one.id}` === changed.path[1]);
      return `Variant ${name} gives up something of ${task?.name ?? "it"}: take the variant up or remove it first.`;
    }
    return null;
  };
  const split = (task: string, afterS: number) => {
    const made = splitTask(state.getState().plan, task, afterS);
    const why = made.ok ? changedByVariant(task) : made.error;
    return why === null && made.ok ? { made: made.value, why: null } : { made: null, why };
  };
  const merge = (a: string, b: string) => {
    const made = mergeTasks(state.getState().plan, a, b);
    const why = made.ok ? changedByVariant(a, b) : made.error;
    return why === null && made.ok ? { made: made.value, why: null } : { made: null, why };
  };
  /** Faults are of the plan as it would be: too many tasks, a text too long. */
  const put = (...[name, change]: Parameters<EditCommands["edit"]>): string | null => {
    const made = edits.edit(name, change);
    return made.ok ? null : `The plan cannot take it: ${made.error[0]?.message ?? "it has faults"}.`;
  };

  return {
    splitTask(task, afterS) {
      const { made, why } = split(task, afterS);
      if (!made) return why;
      const refused = put(stepName("Split", state.getState().plan, [task]), () => made.parts);
      if (refused === null) state.setState({ selection: [...made.tasks] });
      return refused;
    },
    mergeTasks(a, b) {
      const { made, why } = merge(a, b);
      if (!made) return why;
      const refused = put(`Merge into ${made.name}`, () => made.parts);
      if (refused === null) state.setState({ selection: [made.task] });
      return refused;
    },
    hinderedSplit: (task, afterS) => split(task, afterS).why,
    hinderedMerge: (a, b) => merge(a, b).why,
  };
}
