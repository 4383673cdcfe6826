import type { FromAnswer } from "../../answers/index.ts";
import { check } from "../../check/index.ts";
import type { Plan, Schedule } from "../../plan/index.ts";
import { bare, crewName, evaName } from "../../words/index.ts";

/** From what the day's worth comes: what was given to every placed task in setup. */
export function fromWorth(plan: Plan, schedule: Schedule): FromAnswer {
  const placed = new Set(schedule.placements.map((one) => one.task));
  const tasks = plan.tasks.filter((task) => placed.has(task.id));
  const worth = tasks.reduce((sum, task) => sum + task.worth, 0);
  return {
    figures: [
      {
        of: "worth of the day",
        value: worth,
        unit: "points",
        formula: "sum",
        inputs: [{ name: "sum", value: worth, unit: `points of ${tasks.length} placed tasks` }],
        source: "plan: each task's worth, given by the planner in setup",
      },
    ],
    sums: {
      caption: "Placed tasks",
      head: ["Task", "worth"],
      rows: tasks.toSorted((a, b) => b.worth - a.worth).map((task) => [task.name, bare(task.worth, 6)]),
    },
  };
}

/** From what the walking of the day comes: ways between places, and what is walked inside tasks. */
export function fromWalked(plan: Plan, schedule: Schedule): FromAnswer {
  const { outings, score } = check(plan, schedule);
  return {
    figures: [
      {
        of: "walked by all",
        value: score.walkM,
        unit: "m",
        formula: "sum",
        inputs: [{ name: "sum", value: score.walkM, unit: "m of the ways and tasks below, each rounded up" }],
        source: plan.ground
          ? "terrain/ways: the cheapest trail over the height grid, with the ground's detour"
          : "terrain/ways: straight lines with the plan's detour",
      },
    ],
    sums: {
      caption: "Walked, m",
      head: ["Who and when", "ways", "in tasks"],
      rows: outings.map(({ eva, crew, stretches }) => {
        const sum = (kind: string): number =>
          stretches.reduce((metres, one) => metres + (one.kind === kind ? one.walkM : 0), 0);
        return [
          `${crewName(plan, crew)}, ${evaName(plan, eva)}`,
          bare(sum("traverse"), 6),
          bare(sum("task"), 6),
        ];
      }),
    },
  };
}
