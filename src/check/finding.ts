import type { Finding, Level, Quantity, Subject } from "../answers/index.ts";
import type { Interval } from "../kernel/index.ts";
import type { RuleLevel } from "../plan/index.ts";
import type { RuleId, Unit } from "../rules/index.ts";
import type { Walkthrough } from "./walkthrough.ts";

/** A flight rule as the judge tests it: what it finds in a walkthrough. At most one finding for the same rule and subjects. */
export type JudgeRule = (walkthrough: Walkthrough) => Finding[];

/** What a finding says beside its rule, level and subjects. */
interface FindingDetails {
  readonly span?: Interval | null;
  readonly need?: number | null;
  readonly have?: number | null;
  readonly unit?: Unit;
  readonly parts?: readonly Quantity[];
  readonly sentence: string;
}

/** A finding; what is left out is "not about a time" and "not a quantity". */
export function finding(
  rule: RuleId,
  level: Level,
  subjects: readonly Subject[],
  details: FindingDetails,
): Finding {
  return {
    rule,
    level,
    subjects,
    span: details.span ?? null,
    need: details.need ?? null,
    have: details.have ?? null,
    unit: details.unit ?? "none",
    ...(details.parts ? { parts: details.parts } : {}),
    sentence: details.sentence,
  };
}

/** A subject of one kind. */
export function about(kind: Subject["kind"], id: string): Subject {
  return { kind, id };
}

/** What breaking a rule with this standing counts as (S9); what physics forbids is a breach under any standing. */
export function broken(standing: RuleLevel): Level {
  return standing === "warning" ? "tight" : "breach";
}
