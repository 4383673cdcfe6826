import type { Outing, Stretch, Verdict } from "../../../answers/index.ts";
import { instant, type Instant } from "../../../kernel/index.ts";

/** A walk to a task, and how much freedom there is as to when it begins. */
export interface Gap {
  readonly eva: string;
  readonly crew: string;
  /** The task walked to. */
  readonly task: string;
  /** When what was done before it ends: leaving at once is leaving then. */
  readonly doneS: Instant;
  /** The last whole minute from which the task still starts in time; not later than `doneS` where there is none. */
  readonly latestS: Instant;
}

/** Every walk to a task of a day on which everybody leaves at once, by outing and time. */
export function gapsOf(verdict: Verdict): Gap[] {
  return verdict.outings.flatMap((outing) => outing.stretches.flatMap((_, k) => gapAt(outing, k)));
}

function gapAt({ eva, crew, stretches }: Outing, k: number): Gap[] {
  const way = stretches[k]!;
  const work = stretches.slice(k + 1).find(({ kind }) => kind !== "wait");
  if (way.kind !== "traverse" || !work || work.task === null) return [];
  const latestS = work.span.startS - lengthOf(way);
  return [{ eva, crew, task: work.task, doneS: way.span.startS, latestS: wholeMinute(latestS) }];
}

function lengthOf({ span }: Stretch): number {
  return span.endS - span.startS;
}

/** The whole minute at or before a moment. */
export function wholeMinute(atS: number): Instant {
  return instant(Math.floor(atS / 60) * 60);
}
