import type { Rest } from "../answers/index.ts";
import { type Interval, instant, remembered } from "../kernel/index.ts";
import type { Prepared } from "./prepared.ts";
import type { Step } from "./steps.ts";
import type { CrewOuting } from "./crewouting.ts";

/** An outing as work-and-rest sees it: stretches of work, and the pause before each of them but the first. */
export interface Spell {
  readonly work: Interval;
  /** Restful steps one after the other, together at least as long as a rest; empty before the first stretch. */
  readonly pause: readonly Step[];
  /** The first step of work after the pause. */
  readonly next: Step;
}

/** The stretches of work of an outing, parted by pauses that are long enough to end one (work-and-rest). */
export const spellsOf = remembered((crewOuting: CrewOuting, prepared: Prepared): readonly Spell[] => {
  const { restS } = prepared.plan.rules.work;
  const spells: Spell[] = [];
  let pause: Step[] = [];
  let restedS = 0;
  for (const step of crewOuting.steps) {
    const { span } = step.stretch;
    if (span.startS === span.endS) continue;
    if (isRest(prepared, step)) {
      pause.push(step);
      restedS += step.seconds;
      continue;
    }
    const last = spells.at(-1);
    // Where a rest may be as short as one likes there still has to be one.
    if (last && restedS < Math.max(1, restS)) {
      // Of stretches that overlap the later end counts (S11).
      const endS = instant(Math.max(last.work.endS, span.endS));
      spells[spells.length - 1] = { ...last, work: { startS: last.work.startS, endS } };
    } else spells.push({ work: span, pause: last ? pause : [], next: step });
    pause = [];
    restedS = 0;
  }
  return spells;
});

/**
 * The pauses that the work limit relies on: going through the outing, each one without which the work since the last
 * such pause would be longer than the limit. All others may be cut short without breaking the rule.
 */
export const restsOf = remembered((crewOuting: CrewOuting, prepared: Prepared): readonly Rest[] => {
  const { longestS, restS } = prepared.plan.rules.work;
  const rests: Rest[] = [];
  let beganS: number | undefined;
  for (const { work, pause, next } of spellsOf(crewOuting, prepared)) {
    beganS ??= work.startS;
    if (pause.length === 0 || work.endS - beganS <= longestS) continue;
    beganS = work.startS;
    const at = crewOuting.steps.indexOf(next);
    rests.push({
      eva: crewOuting.outing.eva,
      crew: crewOuting.outing.crew,
      span: { startS: pause[0]!.stretch.span.startS, endS: instant(next.stretch.span.startS) },
      needS: restS,
      places: [...new Set(pause.flatMap(({ stretch }) => stretch.path))],
      before: crewOuting.steps.slice(at).find(({ stretch }) => stretch.task !== null)?.stretch.task ?? null,
    });
  }
  return rests;
});

/** Waiting and restful work; a pause before leaving may be cut short at will and is none (S10). */
function isRest(prepared: Prepared, { stretch, beforeLeaving }: Step): boolean {
  if (stretch.kind === "wait") return !beforeLeaving;
  return stretch.task !== null && prepared.tasks.get(stretch.task)?.effort === "rest";
}
