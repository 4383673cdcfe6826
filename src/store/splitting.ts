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
}

export function splitCommands(core: Core, edits: EditCommands): SplitCommands {
  const { state } = core;
  /** Faults are of the plan as it would be: too many tasks, a text too long. */
  const put = (...[name, change]: Parameters<EditCommands["edit"]>): string | null => {
    const made = edits.edit(name, change);
    return made.ok ? null : `The plan cannot take it: ${made.error[0]?.message ?? "it has faults"}.`;
  };
  return {
    splitTask(task, afterS) {
      const { plan } = state.getState();
      const split = splitTask(plan, task, afterS);
      if (!split.ok) return split.error;
      const refused = put(stepName("Split", plan, [task]), () => split.value.parts);
      if (refused === null) state.setState({ selection: [...split.value.tasks] });
      return refused;
    },
    mergeTasks(a, b) {
      const merge = mergeTasks(state.getState().plan, a, b);
      if (!merge.ok) return merge.error;
      const refused = put(`Merge into ${merge.value.name}`, () => merge.value.parts);
      if (refused === null) state.setState({ selection: [merge.value.task] });
      return refused;
    },
  };
}
