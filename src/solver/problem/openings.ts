import { duration, instant, type Interval } from "../../kernel/index.ts";
import type { Plan, Task } from "../../plan/index.ts";
import { heavensOf, taskSky } from "../../terrain/index.ts";
import { NEVER } from "./problem.ts";

/** Stretches of the start of a task, both ends allowed. */
export interface Opening {
  readonly fromS: number;
  readonly toS: number;
}

/**
 * When each task may start: inside one of its windows, one stretch of its sun, light and sun angle and one relay pass from
 * start to end (time-window, sun, light, sun-angle, relay), at its pinned start (pin), inside the stay when it has no crew.
 * Ascending and apart.
 */
export function openingsOf(plan: Plan): (task: Task) => Opening[] {
  const heavens = heavensOf(plan);
  const ground = { ...plan.stay, places: plan.site.places };
  const stay = { startS: instant(0), endS: instant(plan.stay.lengthS) };
  return (task) => {
    const lasts = task.duration.likelyS;
    let openings: Opening[] = [{ fromS: -NEVER, toS: NEVER }];
    const within = (spans: readonly Interval[]): void => {
      openings = spans.flatMap((span) =>
        openings.flatMap((one) => {
          const fromS = Math.max(one.fromS, span.startS);
          const toS = Math.min(one.toS, span.endS - lasts);
          return fromS <= toS ? [{ fromS, toS }] : [];
        }),
      );
    };
    if (task.crew.count === 0) within([stay]);
    if (task.windows.length > 0) within(task.windows);
    // What is unknown never opens.
    const { sun, light, sunAngle, relay } = taskSky(heavens, ground, task);
    for (const stretches of [sun, light, sunAngle, relay])
      if (stretches !== undefined) within(stretches ?? []);
    const at = task.pin?.startS;
    if (at !== undefined) within([{ startS: at, endS: instant(at + duration(lasts)) }]);
    return joined(openings);
  };
}

/** Whole seconds: stretches that overlap or follow without a gap become one. */
function joined(openings: Opening[]): Opening[] {
  const list: Opening[] = [];
  for (const next of [...openings].sort((a, b) => a.fromS - b.fromS)) {
    const last = list.at(-1);
    if (last && next.fromS <= last.toS + 1)
      list[list.length - 1] = { fromS: last.fromS, toS: Math.max(last.toS, next.toS) };
    else list.push(next);
  }
  return list;
}
