import type { FromAnswer } from "../../answers/index.ts";
import { check, countedWorths } from "../../check/index.ts";
import type { Plan, Schedule } from "../../plan/index.ts";
import { bare, crewName, evaName } from "../../words/index.ts";

/** From what the day's worth comes: what was given to every placed task in setup, and how much of it counts. */
export function fromWorth(plan: Plan, schedule: Schedule): FromAnswer {
  const worths = countedWorths(plan, schedule);
  const worth = worths.reduce((sum, { counts }) => sum + counts, 0);
  const shared = worths.some(({ share }) => share < 100);
  return {
    figures: [
      {
        of: "worth of the day",
        value: worth,
        unit: "points",
        formula: "sum",
        inputs: [{ name: "sum", value: worth, unit: `points of ${worths.length} placed tasks` }],
        source: `plan: each task's worth, given by the planner in setup${shared ? ", less what repeats in a group count less" : ""}`,
      },
    ],
    sums: {
      caption: "Placed tasks",
      head: ["Task", "worth", ...(shared ? ["share, %", "counts"] : [])],
      rows: worths
        .toSorted((a, b) => b.counts - a.counts)
        .map(({ task, share, counts }) => [
          task.name,
          bare(task.worth, 6),
          ...(shared ? [bare(share, 3), bare(counts, 6)] : []),
        ]),
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
