import type { Finding, Level, Quantity, Score, Shift, Verdict, VerdictChange } from "../answers/index.ts";
import { FLIGHT_RULES, type Unit } from "../rules/index.ts";
import { amountWords } from "./amountwords.ts";

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

/** Those of `findings` that break a rule as `planned` did not, in their order: one that is told with other figures is another one. */
export function newBreaches(planned: Verdict, findings: readonly Finding[]): readonly Finding[] {
  const known = new Set(planned.findings.map(({ rule, sentence }) => `${rule} ${sentence}`));
  return findings.filter(
    ({ rule, sentence, level }) => level === "breach" && !known.has(`${rule} ${sentence}`),
  );
}

/** What changes from `before` to `after`. */
export function subtract(before: Verdict, after: Verdict): VerdictChange {
  const known = new Map(before.findings.map((finding) => [keyOf(finding), finding]));
  const kept = new Set(after.findings.map(keyOf));
  const gained: Finding[] = [];
  const lost = before.findings.filter((finding) => !kept.has(keyOf(finding)));
  const worse: Shift[] = [];
  const eased: Shift[] = [];
  for (const finding of after.findings) {
    const was = known.get(keyOf(finding));
    if (!was || WEIGHT[finding.level] > WEIGHT[was.level]) {
      gained.push(finding);
      continue;
    }
    const { by, unit } = shiftOf(was, finding);
    if (WEIGHT[finding.level] < WEIGHT[was.level] && by >= 0) {
      // Not broken any more for a reason that is no amount.
      lost.push(was);
      gained.push(finding);
      continue;
    }
    if (by > 0) worse.push({ finding, by, unit });
    if (by < 0) eased.push({ finding, by: -by, unit });
  }
  return {
    gained,
    lost,
    worse,
    eased,
    score: scoreGain(before.score, after.score),
  };
}

/** `after` less `before`, number by number. */
export function scoreGain(before: Score, after: Score): Score {
  return {
    breaches: after.breaches - before.breaches,
    mustLeftOut: after.mustLeftOut - before.mustLeftOut,
    worth: after.worth - before.worth,
    worstMargin: after.worstMargin - before.worstMargin,
    changes: after.changes - before.changes,
    walkM: after.walkM - before.walkM,
    finishS: after.finishS - before.finishS,
  };
}

/** `worse by 4 min`, rounded up. */
export function worseWords({ by, unit }: Shift): string {
  return `worse by ${amountWords(by, unit, "up")}`;
}

/** `better by 4 min`, rounded down. */
export function easedWords({ by, unit }: Shift): string {
  return `better by ${amountWords(by, unit, "down")}`;
}

/**
 * The least that any of these findings leaves to spare, or the most that one is over by: never rounded to the better. Null where they
 * are of no quantity, or of several that cannot be held against each other.
 */
export function spareWords(
  findings: readonly Finding[],
): { readonly amount: string; readonly says: "spare" | "over" } | null {
  // What is open is missing, neither over nor spare.
  const all = findings.filter(({ level }) => level !== "open").flatMap(quantitiesOf);
  const unit = all[0]?.unit;
  if (unit === undefined || unit === "none" || all.some((one) => one.unit !== unit)) return null;
  const over = Math.max(...all.map(overOf));
  return over > NOISE
    ? { amount: amountWords(over, unit, "up"), says: "over" }
    : { amount: amountWords(Math.max(0, -over), unit, "down"), says: "spare" };
}

const WEIGHT: Readonly<Record<Level, number>> = { tight: 0, open: 1, breach: 2 };

function keyOf({ rule, subjects }: Finding): string {
  return [rule, ...subjects.map((subject) => `${subject.kind} ${subject.id}`)].join("|");
}

/** How much farther over, or nearer to it, `is` has come than `was`: of what has changed for the worse most, if anything has. */
function shiftOf(was: Finding, is: Finding): { readonly by: number; readonly unit: Unit } {
  const before = new Map(quantitiesOf(was).map((one) => [one.of, one]));
  const shifts = quantitiesOf(is).flatMap((now) => {
    const old = before.get(now.of);
    before.delete(now.of);
    // What was not said before held by more than is said: it was at its limit at the worst.
    if (!old || old.unit !== now.unit)
      return is.level === "breach" ? [{ by: overOf(now), unit: now.unit }] : [];
    const by = overOf(now) - overOf(old);
    return Math.abs(by) < NOISE ? [] : [{ by, unit: now.unit }];
  });
  const gone =
    was.level === "breach" ? [...before.values()].map((old) => ({ by: -overOf(old), unit: old.unit })) : [];
  const all = [...shifts, ...gone];
  return all.reduce((a, b) => (b.by > a.by ? b : a), all[0] ?? { by: 0, unit: "none" });
}

/** Binary noise of amounts in kg and m. */
const NOISE = 1e-9;

/** How far over what is allowed; negative where there is something to spare. */
function overOf({ need, have, sense }: Quantity): number {
  return sense === "most" ? have - need : need - have;
}

function quantitiesOf({ rule, level, need, have, unit, parts }: Finding): readonly Quantity[] {
  if (parts) return parts;
  if (need === null || have === null) return [];
  const known = FLIGHT_RULES[rule].amounts[unit];
  // Where a bound may be missed on either side, a breach is over by what lies between.
  const sense =
    known === "least" || known === "most" ? known : level === "breach" && have > need ? "most" : "least";
  return [{ of: "all", need, have, unit, sense }];
}
