import type { HomeIf, Outing, Stretch } from "../../../answers/index.ts";
import type { Plan } from "../../../plan/index.ts";
import { minutes, taskNumber } from "../../../words/index.ts";
import { placeName, taskName } from "../crewday.ts";
import { remedyWords } from "../remedies.ts";
import { waitWords } from "../waits.ts";
import { type SheetGiven } from "./given.ts";

/** What one crew member does from one moment on, in words. */
export interface Doing {
  readonly startS: number;
  readonly endS: number;
  readonly kind: Stretch["kind"] | "rest" | "in";
  /** The task at work, and its number. */
  readonly task: string | null;
  readonly number: string | null;
  readonly words: string;
  /** Where HOME IF is read for it: the strictest of these holds. */
  readonly homeIf: readonly Pick<HomeIf, "at" | "task">[];
}

/** An outing stretch by stretch, with the rests that the work limit needs told apart from other waiting, to the shut hatch. */
export function doingsOf(given: SheetGiven, outing: Outing): Doing[] {
  const list: Doing[] = [];
  let noWay = "";
  outing.stretches.forEach((stretch, i) => {
    const { startS, endS } = stretch.span;
    if (startS === endS && stretch.kind !== "task") {
      // A way of no time between two points stands for one that does not exist.
      if (isNoWay(given.plan, stretch))
        noWay = `NO WAY KNOWN to ${placeName(given.plan, stretch.path.at(-1))}; `;
      return;
    }
    for (const one of doingOf(given, outing, stretch, placeIn(outing, i))) {
      list.push({ ...one, words: `${noWay}${one.words}` });
      noWay = "";
    }
  });
  const { endS } = outing.span;
  return [
    ...list,
    {
      startS: endS,
      endS,
      kind: "in",
      task: null,
      number: null,
      words: "INGRESS COMPLETE, hatch shut",
      homeIf: [],
    },
  ];
}

function doingOf(given: SheetGiven, outing: Outing, stretch: Stretch, homeIf: Doing["homeIf"]): Doing[] {
  const { plan, played } = given;
  const { kind, span, path } = stretch;
  const here = placeName(plan, path.at(-1));
  const base = { ...span, kind, task: stretch.task, number: null, homeIf };
  switch (kind) {
    case "egress":
      return [{ ...base, words: "EGRESS" }];
    case "ingress":
      return [{ ...base, words: "INGRESS" }];
    case "task": {
      const task = plan.tasks.find((one) => one.id === stretch.task);
      if (!task) return [{ ...base, words: stretch.task ?? "work" }];
      return [
        {
          ...base,
          number: taskNumber(plan, task.id),
          words: `${taskName(task)}${remedyWords(plan, task.id)}${afterWords(plan, task.id)}`,
        },
      ];
    }
    case "traverse":
      return [{ ...base, words: `walk to ${here}, ${minutes(span.endS - span.startS, "up")}` }];
    case "wait": {
      const rest = played.rests.find(
        (one) =>
          one.eva === outing.eva &&
          one.crew === outing.crew &&
          one.span.startS <= span.startS &&
          span.endS <= one.span.endS,
      );
      // What is left of the minute in which somebody comes is no line of its own.
      const tells = (startS: number, endS: number): boolean => endS - startS >= 60 || endS % 60 !== 0;
      const wait = (startS: number, endS: number): Doing[] =>
        endS > startS && tells(startS, endS)
          ? [{ ...base, startS, endS, words: `wait ${minutes(endS - startS, "given")}, ${here}` }]
          : [];
      // The last part of a pause is the rest; a pause in several places rests in each.
      const restS = rest ? Math.max(span.startS, rest.span.endS - rest.needS) : span.endS;
      if (!rest || restS >= span.endS) return wait(span.startS, span.endS);
      const words = `REST ${minutes(span.endS - restS, "given")}, ${here}`;
      return [...wait(span.startS, restS), { ...base, startS: restS, endS: span.endS, kind: "rest", words }];
    }
  }
}

/** What a task waits for, behind its name: `, after EV2 16 done, done after EV2 18 done`. */
export function afterWords(plan: Plan, task: string): string {
  const after = (words: string, end: "start" | "end"): string => {
    const waits = waitWords(plan, task, null, end);
    return waits === "" ? "" : `, ${words} ${waits}`;
  };
  return after("after", "start") + after("done after", "end");
}

function isNoWay(plan: Plan, { kind, path }: Stretch): boolean {
  if (kind !== "traverse") return false;
  const [from, to] = [path[0], path.at(-1)].map((id) => plan.site.places.find((place) => place.id === id));
  return !from || !to || from.eastM !== to.eastM || from.northM !== to.northM;
}

/**
 * Where in the list of HOME IF a stretch lies: in its task, on its way, at the lander. A pause before a way lies between what is done
 * and what comes, since the way may begin at any moment of it; one behind a way lies where the way leads.
 */
function placeIn({ stretches }: Outing, at: number): Doing["homeIf"] {
  const stretch = stretches[at];
  if (!stretch || stretch.kind === "egress" || stretch.kind === "ingress")
    return [{ at: "lander", task: null }];
  if (stretch.kind === "task") return [{ at: "task", task: stretch.task }];
  const next = stretches.slice(at).find((one) => one.task !== null)?.task ?? null;
  const way = { at: "way", task: next } as const;
  if (stretch.kind === "traverse") return [way];
  const there =
    next === null ? ({ at: "lander", task: null } as const) : ({ at: "task", task: next } as const);
  const moved = stretches.slice(0, at).findLast(({ kind }) => kind !== "wait");
  if (moved?.kind === "traverse") return [there];
  const before = stretches.slice(0, at).findLast((one) => one.task !== null)?.task ?? null;
  return [before === null ? { at: "lander", task: null } : { at: "task", task: before }, way, there];
}
