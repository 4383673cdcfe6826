import type { Rest, Verdict } from "../../answers/index.ts";
import { judgeFor } from "../../check/index.ts";
import { duration, instant } from "../../kernel/index.ts";
import type { Placement, Plan, Schedule } from "../../plan/index.ts";

/** A day on which one task ends late, as the judge sees it when its crew does what stands on paper. */

/** What is done about it: who moves to when, and what is left out. */
export interface Otherwise {
  readonly drop: readonly string[];
  readonly moves: readonly Placement[];
}

/** A rest that no page of the plan tells of, so that the answer has to: taken where the task is, before it begins. */
export interface RestBefore {
  readonly crew: string;
  readonly task: string;
}

interface Asked {
  readonly task: string;
  readonly eva: string;
  /** When the task ends as planned. */
  readonly endS: number;
}

/**
 * Judges late days of one plan. Who is late takes every rest of `REST` on the pages that stay, and those that the answer tells of, from arrival on and
 * whole, however late it is: what is done after it begins so much later than worked out.
 */
export class LateDays {
  private readonly plan: Plan;
  private readonly verdict: Verdict;
  /** Rests that pages tell of. */
  private readonly printed: ReadonlySet<string>;

  constructor(plan: Plan, verdict: Verdict) {
    this.plan = plan;
    this.verdict = verdict;
    this.printed = new Set(verdict.rests.map(restKey));
  }

  /**
   * Rests of the late day that no page tells of. Null where one cannot be told: it is no rest before a task of the same EVA, or has to begin
   * before anybody knows of the lateness.
   */
  newRests(asked: Asked, minutes: number, otherwise: Otherwise): readonly RestBefore[] | null {
    const longer = this.longer(asked.task, minutes);
    const { rests } = judgeFor(longer)(this.scheduleOf(otherwise));
    const added = rests.filter((one) => !this.printed.has(restKey(one)));
    const knownS = asked.endS + minutes * 60;
    const told = added.flatMap(({ eva, crew, before, span, needS }) =>
      before !== null && eva === asked.eva && span.endS - needS >= knownS ? [{ crew, task: before }] : [],
    );
    return told.length === added.length ? told : null;
  }

  /** Whether the late day breaks no more than the plan does, its rests taken as told and no other one needed. */
  holds(asked: Asked, minutes: number, otherwise: Otherwise, added: readonly RestBefore[]): boolean {
    const judge = judgeFor(this.longer(asked.task, minutes));
    const told = new Set([
      ...this.printed,
      ...added.map(({ crew, task }) => restKey({ eva: asked.eva, crew, before: task })),
    ]);
    const worked = this.scheduleOf(otherwise);
    const first = judge(worked);
    if (first.score.breaches > this.verdict.score.breaches) return false;
    const rested = this.rested(worked, first, asked, minutes, told);
    const then = rested === worked ? first : judge(rested);
    return (
      then.score.breaches <= this.verdict.score.breaches && then.rests.every((one) => told.has(restKey(one)))
    );
  }

  private longer(task: string, minutes: number): Plan {
    const tasks = this.plan.tasks.map((one) =>
      one.id === task
        ? { ...one, duration: { likelyS: duration(one.duration.likelyS + minutes * 60) } }
        : one,
    );
    return { ...this.plan, tasks };
  }

  private scheduleOf({ drop, moves }: Otherwise): Schedule {
    const other = new Set([...drop, ...moves.map((one) => one.task)]);
    return {
      placements: [...this.plan.schedule.placements.filter((one) => !other.has(one.task)), ...moves],
    };
  }

  /** The schedule with every told rest taken whole after the way there; the same one where all of them have room. */
  private rested(
    schedule: Schedule,
    { outings }: Verdict,
    { task: late }: Asked,
    minutes: number,
    told: ReadonlySet<string>,
  ): Schedule {
    const { restS } = this.plan.rules.work;
    const tasks = new Map(this.plan.tasks.map((task) => [task.id, task]));
    const ways = new Map(outings.map((one) => [`${one.eva} ${one.crew}`, waysOf(one)]));
    /** By outing, when what was done last ends, and how much of that was rest. */
    const done = new Map<string, { readonly endS: number; readonly restedS: number }>();
    let moved = false;
    const placements = schedule.placements
      .toSorted((a, b) => a.startS - b.startS)
      .map((one) => {
        const { eva, crew, task } = one;
        if (eva === null || crew.length === 0) return one;
        const ready = crew.flatMap((id) => {
          const before = done.get(`${eva} ${id}`);
          if (!before) return [];
          const restsS = told.has(restKey({ eva, crew: id, before: task })) ? restS - before.restedS : 0;
          return [before.endS + (ways.get(`${eva} ${id}`)?.get(task) ?? 0) + Math.max(0, restsS)];
        });
        const startS = instant(Math.max(one.startS, ...ready));
        const what = tasks.get(task);
        const lastsS = (what?.duration.likelyS ?? 0) + (task === late ? minutes * 60 : 0);
        for (const id of crew)
          done.set(`${eva} ${id}`, {
            endS: startS + lastsS,
            restedS: what?.effort === "rest" ? lastsS : 0,
          });
        moved ||= startS > one.startS;
        return startS > one.startS ? { ...one, startS } : one;
      });
    return moved ? { placements } : schedule;
  }
}

function restKey({ eva, crew, before }: Pick<Rest, "eva" | "crew" | "before">): string {
  return [eva, crew, before].join(" ");
}

/** How long the way to each task of an outing takes from what is done before it, s. */
function waysOf({ stretches }: Verdict["outings"][number]): ReadonlyMap<string, number> {
  const ways = new Map<string, number>();
  let wayS = 0;
  for (const { kind, span, task } of stretches) {
    if (kind === "traverse") wayS += span.endS - span.startS;
    else if (task !== null) {
      ways.set(task, wayS);
      wayS = 0;
    }
  }
  return ways;
}
