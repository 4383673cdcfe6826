import { about, finding, type JudgeRule } from "../finding.ts";

/** must-do: every must-do task is placed; one that is not is `open`, not a breach. */
export const mustDo: JudgeRule = ({ prepared, byTask }) =>
  prepared.plan.tasks.flatMap((task) =>
    task.must && !byTask.has(task.id)
      ? [
          finding("must-do", "open", [about("task", task.id)], {
            sentence: `${task.name} must be done and is on the bench.`,
          }),
        ]
      : [],
  );
