import { instant } from "../../kernel/index.ts";
import { inside } from "../../terrain/index.ts";
import { about, finding, type FlightRule } from "../finding.ts";
import { endPointOf, pointOf } from "../grounds.ts";
import { met } from "../phrases.ts";

/**
 * hot-keep-out: once the heat is there (`afterTask` placed and ended, or always without one) no task with a place or
 * end place inside the shape is under way, but for `afterTask` itself and the exempt ones.
 */
export const hotKeepOut: FlightRule = ({ prepared, placed, byTask }) =>
  prepared.plan.site.keepOuts.flatMap((keepOut) => {
    if (keepOut.kind !== "hot") return [];
    const source = keepOut.afterTask;
    const hotS = source === undefined ? -Infinity : byTask.get(source)?.span.endS;
    if (hotS === undefined) return [];
    const allowed = new Set([source, ...keepOut.exemptTasks]);
    return placed.flatMap((one) => {
      if (allowed.has(one.task.id) || one.span.endS <= hotS) return [];
      const within = [pointOf(prepared, one), endPointOf(prepared, one)].find(
        (point) => point !== null && inside(keepOut.shape, point),
      );
      if (!within) return [];
      const fromS = Math.max(one.span.startS, hotS);
      const since = source === undefined ? "always hot" : `hot from ${met(hotS)}`;
      return [
        finding(
          "hot-keep-out",
          "breach",
          [about("keep-out", keepOut.id), about("task", one.task.id), about("place", within.id)],
          {
            span: { startS: instant(fromS), endS: one.span.endS },
            sentence: `${one.task.name} is under way at ${within.name} until ${met(one.span.endS)}, inside ${keepOut.name}, which is ${since}.`,
          },
        ),
      ];
    });
  });
