import { instant } from "../../../kernel/index.ts";
import type { Schedule } from "../../../plan/index.ts";
import type { PlacedActivity } from "../../network/verify.ts";
import type { Problem } from "../../problem/problem.ts";

/** The routes of a placed activity, as its crew choice names them. */
export function routesOf(problem: Problem, { activity, choice }: PlacedActivity): number[] {
  const at = problem.choiceAt[choice]!;
  return Array.from({ length: problem.crewCount[activity]! }, (_, k) => problem.choiceRoutes[at + k]!);
}

/** Placed activities as a schedule. */
export function scheduleFrom(problem: Problem, placed: readonly PlacedActivity[]): Schedule {
  const { plan } = problem;
  return {
    placements: placed.map((one) => {
      const routes = routesOf(problem, one);
      return {
        task: plan.tasks[one.activity]!.id,
        eva: routes.length === 0 ? null : plan.evas[problem.evaOfRoute[routes[0]!]!]!.id,
        crew: routes.map((r) => plan.crew[problem.memberOfRoute[r]!]!.id),
        startS: instant(one.startS),
      };
    }),
  };
}
