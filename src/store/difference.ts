import type { Finding, Verdict } from "../check/index.ts";

/** What changes from one verdict to another. */
export interface Difference {
  /** Findings that were not there before. */
  readonly arisen: readonly Finding[];
  /** Findings that are there no more. */
  readonly gone: readonly Finding[];
}

/** The difference from `before` to `after`. Findings are the same when rule, level, subjects and sentence are. */
export function differenceOf(before: Verdict, after: Verdict): Difference {
  const earlier = new Set(before.findings.map(keyOf));
  const later = new Set(after.findings.map(keyOf));
  return {
    arisen: after.findings.filter((one) => !earlier.has(keyOf(one))),
    gone: before.findings.filter((one) => !later.has(keyOf(one))),
  };
}

function keyOf(finding: Finding): string {
  const subjects = finding.subjects.map((subject) => `${subject.kind}:${subject.id}`).join(",");
  return `${finding.rule}|${finding.level}|${subjects}|${finding.sentence}`;
}
