import type { Finding, Score, Verdict } from "./verdict.ts";

/** Negative when `a` is better, positive when `b` is, 0 when they are equal; in the order that RULES.md gives. */
export function compareScores(a: Score, b: Score): number {
  return (
    a.breaches - b.breaches ||
    a.mustLeftOut - b.mustLeftOut ||
    b.worth - a.worth ||
    b.worstMargin - a.worstMargin ||
    a.changes - b.changes ||
    a.walkM - b.walkM ||
    a.finishS - b.finishS
  );
}

/** What one verdict has over another. */
export interface VerdictChange {
  /** Findings of `after` that `before` has not, by rule, level and subjects. */
  readonly gained: readonly Finding[];
  /** Findings of `before` that `after` has no more. */
  readonly lost: readonly Finding[];
  /** After less before, number by number. */
  readonly score: Score;
}

/** What changes from `before` to `after`. A finding that goes from tight to breach is one lost and one gained. */
export function subtract(before: Verdict, after: Verdict): VerdictChange {
  const known = new Set(before.findings.map(keyOf));
  const kept = new Set(after.findings.map(keyOf));
  return {
    gained: after.findings.filter((finding) => !known.has(keyOf(finding))),
    lost: before.findings.filter((finding) => !kept.has(keyOf(finding))),
    score: {
      breaches: after.score.breaches - before.score.breaches,
      mustLeftOut: after.score.mustLeftOut - before.score.mustLeftOut,
      worth: after.score.worth - before.score.worth,
      worstMargin: after.score.worstMargin - before.score.worstMargin,
      changes: after.score.changes - before.score.changes,
      walkM: after.score.walkM - before.score.walkM,
      finishS: after.score.finishS - before.score.finishS,
    },
  };
}

function keyOf({ rule, level, subjects }: Finding): string {
  return [rule, level, ...subjects.map((subject) => `${subject.kind} ${subject.id}`)].join("|");
}
