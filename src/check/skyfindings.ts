import type { Finding } from "../answers/index.ts";
import type { Interval } from "../kernel/index.ts";
import type { RuleId } from "../rules/index.ts";
import type { Plan } from "../plan/index.ts";
import { lasting, met, skyUnknownWords } from "../words/index.ts";
import { about, finding } from "./finding.ts";
import { runsWords } from "./names.ts";
import type { Placed } from "./placed.ts";
import type { Prepared } from "./prepared.ts";
import { nearestOf, outsideOf, slipS } from "./spans.ts";

/** How a rule about the sky speaks. */
interface Words {
  /** What the task wants: "the sun 5 to 14 degrees up". */
  readonly wanted: string;
  /** Why it cannot be told. */
  readonly unknown: string;
}

/** Why nothing can be said of a task that asks for the sun. */
export function sunUnknown(plan: Plan): string {
  return `where the sun stands is unknown ${skyUnknownWords(plan) ?? "outside the stay"}`;
}

/**
 * What a task that must lie inside one of `stretches` comes to; null stretches are unknown, and unknown is a breach.
 */
export function skyFindings(
  prepared: Prepared,
  one: Placed,
  rule: RuleId,
  stretches: readonly Interval[] | null,
  { wanted, unknown }: Words,
): Finding[] {
  const { task, span } = one;
  const runs = runsWords(one);
  const say = (level: "breach" | "tight", have: number | null, sentence: string) => [
    finding(rule, level, [about("task", task.id)], {
      span,
      need: have === null ? null : 0,
      have,
      unit: have === null ? "none" : "s",
      sentence,
    }),
  ];
  if (stretches === null) return say("breach", null, `${task.name} wants ${wanted}; ${unknown}.`);
  const spareS = slipS(stretches, span);
  if (spareS >= prepared.plan.rules.tightS) return [];
  if (spareS >= 0) return say("tight", spareS, `${runs}, ${lasting(spareS, "down")} before ${wanted} ends.`);
  const nearest = nearestOf(stretches, span);
  if (!nearest) return say("breach", null, `${runs} and wants ${wanted}; that is never so in this stay.`);
  const outsideS = outsideOf(nearest, span);
  const when = `that is so from ${met(nearest.startS)} to ${met(nearest.endS)}`;
  return say(
    "breach",
    -outsideS,
    `${runs} and wants ${wanted}; ${when}: outside by ${lasting(outsideS, "up")}.`,
  );
}
