import { instant } from "../../kernel/index.ts";
import { inside } from "../../terrain/index.ts";
import { met } from "../../words/index.ts";
import { about, finding, type JudgeRule } from "../finding.ts";
import { endPointOf, pointOf } from "../grounds.ts";

/**
 * hot-keep-out: once the heat is there (`afterTask` placed and ended, or always without one) no task with a place or
 * end place inside the shape is under way, but for `afterTask` itself and the exempt ones; and nobody, not even who has
 * done one of those, stays inside it before leaving (S10).
 */
export const hotKeepOut: JudgeRule = ({ prepared, placed, byTask, outs }) =>
  prepared.plan.site.keepOuts.flatMap((keepOut) => {
    if (keepOut.kind !== "hot") return [];
    const source = keepOut.afterTask;
    const hotS = source === undefined ? -Infinity : byTask.get(source)?.span.endS;
    if (hotS === undefined) return [];
    const since = source === undefined ? "always hot" : `hot from ${met(hotS)}`;
    const allowed = new Set([source, ...keepOut.exemptTasks]);
    const stays = outs
      .flatMap(({ crewOutings }) => crewOutings)
      .flatMap(({ walker, outing, steps }) => {
        const hot = steps.filter(
          (step) =>
            step.beforeLeaving &&
            step.stretch.span.endS > hotS &&
            inside(keepOut.shape, prepared.plan.site.places[step.from]!),
        );
        const last = new Map(hot.map((step) => [step.from, step]));
        return [...last.values()].map(({ from, stretch: { span } }) => {
          const { id, name } = prepared.plan.site.places[from]!;
          return finding(
            "hot-keep-out",
            "breach",
            [about("keep-out", keepOut.id), about("crew", outing.crew), about("place", id)],
            {
              span: { startS: instant(Math.max(span.startS, hotS)), endS: span.endS },
              sentence: `${walker.member.name} stays at ${name} until ${met(span.endS)}, inside ${keepOut.name}, which is ${since}.`,
            },
          );
        });
      });
    const works = placed.flatMap((one) => {
      if (allowed.has(one.task.id) || one.span.endS <= hotS) return [];
      const within = [pointOf(prepared, one), endPointOf(prepared, one)].find(
        (point) => point !== null && inside(keepOut.shape, point),
      );
      if (!within) return [];
      const fromS = Math.max(one.span.startS, hotS);
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
    return [...works, ...stays];
  });
