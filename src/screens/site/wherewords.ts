import type { SiteCourse, SiteLeg } from "../../answers/index.ts";
import { afootAt } from "../../editor/map/index.ts";
import type { Plan } from "../../plan/index.ts";
import { placeName } from "../../words/index.ts";

/** Where a crew member is: `at Pebble Row, Core`, `on the way to Pebble Row`, `inside`. */
export function whereWords(plan: Plan, courses: readonly SiteCourse[], crew: string, atS: number): string {
  for (const course of courses) {
    const at = course.crew === crew ? afootAt(course.legs, atS) : null;
    if (at) return legWords(plan, at.leg);
  }
  return "inside";
}

function legWords(plan: Plan, leg: SiteLeg): string {
  if (leg.kind === "traverse") return `on the way to ${placeName(plan, leg.toPlace)}`;
  const task = plan.tasks.find((one) => one.id === leg.task)?.name;
  if (leg.fromPlace !== leg.toPlace)
    return `${task ?? "walking"}, ${placeName(plan, leg.fromPlace)} to ${placeName(plan, leg.toPlace)}`;
  const doing = task ?? { egress: "egress", ingress: "ingress", wait: "waiting", task: "" }[leg.kind];
  return `at ${placeName(plan, leg.fromPlace)}, ${doing}`;
}
