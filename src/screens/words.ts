import type { Finding, Level, MarginTrack, Verdict } from "../answers/index.ts";
import type { Plan, Task } from "../plan/index.ts";

/** Names of things as screens say them. */

export const CONSUMABLE_WORDS: Readonly<Record<MarginTrack["consumable"], string>> = {
  oxygen: "Oxygen",
  co2: "CO2 capacity",
  water: "Cooling water",
  battery: "Battery",
};

export const KIND_WORDS: Readonly<Record<Task["kind"], string>> = {
  sampling: "Sampling",
  deployment: "Deployment",
  survey: "Survey",
  upkeep: "Upkeep",
};

/** The letter that stands for a kind wherever there is no room for its word. */
export const KIND_LETTERS: Readonly<Record<Task["kind"], string>> = {
  sampling: "S",
  deployment: "D",
  survey: "V",
  upkeep: "U",
};

export const LEVEL_WORDS: Readonly<Record<Level, string>> = {
  breach: "Breach",
  open: "Open",
  tight: "Tight",
};

/** Order in which findings are read: breaches, must-do tasks left out, tight ones. */
const LEVEL_ORDER: Readonly<Record<Level, number>> = { breach: 0, open: 1, tight: 2 };

/** Findings in the order in which they are read: by level, then in time; those without a time first. */
export function readFindings(findings: readonly Finding[]): readonly Finding[] {
  return findings.toSorted(
    (a, b) =>
      LEVEL_ORDER[a.level] - LEVEL_ORDER[b.level] ||
      (a.span?.startS ?? -Infinity) - (b.span?.startS ?? -Infinity) ||
      (a.sentence < b.sentence ? -1 : 1),
  );
}

/** A name for a finding that lasts while the same thing is wrong, whatever the numbers. */
export function findingKey(finding: Finding): string {
  return [finding.rule, finding.level, ...finding.subjects.map(({ kind, id }) => `${kind} ${id}`)].join("|");
}

/** A crew member's name by id. */
export function crewName(plan: Plan, id: string): string {
  return plan.crew.find((member) => member.id === id)?.name ?? id;
}

/** An EVA's name by id; remote work has none. */
export function evaName(plan: Plan, id: string | null): string {
  return id === null ? "Remote" : (plan.evas.find((eva) => eva.id === id)?.name ?? id);
}

/** A place's name by id; "anywhere" where a task has none. */
export function placeName(plan: Plan, id: string | undefined): string {
  return id === undefined ? "no place" : (plan.site.places.find((place) => place.id === id)?.name ?? id);
}

/** The least margin of all suits and whose it is; null when nobody goes out. */
export function worstMargin(verdict: Verdict): MarginTrack | null {
  return verdict.margins.reduce<MarginTrack | null>(
    (worst, track) => (worst === null || track.margin < worst.margin ? track : worst),
    null,
  );
}

/** `EV2 cooling water, EVA 1`. */
export function marginCause(plan: Plan, track: MarginTrack): string {
  const words = CONSUMABLE_WORDS[track.consumable];
  const plain = words.startsWith("CO2") ? words : words.toLowerCase();
  return `${crewName(plan, track.crew)} ${plain}, ${evaName(plan, track.eva)}`;
}

/** `1 breach`, `2 breaches`. */
export function counted(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`;
}

/** The sky over the plan's touchdown, milliseconds since 1970. */
export function touchdownMs(plan: Plan): number {
  return Date.parse(plan.stay.touchdownUtc);
}

/** A share as a percentage, as the plan has it. */
export function wholePercent(share: number): string {
  return `${Number((share * 100).toFixed(2))} %`;
}
