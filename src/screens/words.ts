import type { Finding, Level, MarginTrack, Verdict } from "../answers/index.ts";
import { isStockGiven, type Plan, type Task } from "../plan/index.ts";
import { crewName, evaName } from "../words/index.ts";

export const CONSUMABLE_WORDS: Readonly<Record<MarginTrack["consumable"], string>> = {
  oxygen: "Oxygen",
  co2: "CO2 capacity",
  water: "Cooling water",
  battery: "Battery",
};

/** A consumable inside a line: `cooling water`. */
export function consumableWords(consumable: MarginTrack["consumable"]): string {
  const words = CONSUMABLE_WORDS[consumable];
  return words.startsWith("CO2") ? words : words.toLowerCase();
}

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

/** The least margin of all suits and whose it is; null when nobody goes out. */
export function worstMargin(verdict: Verdict): MarginTrack | null {
  return verdict.margins.reduce<MarginTrack | null>(
    (worst, track) => (worst === null || track.margin < worst.margin ? track : worst),
    null,
  );
}

/** Stands beside a margin that rests on what nobody has given: the figure is what the plan goes on with, and not a margin that is known. */
export const ASSUMED = "assumed";

/** A figure as it is painted or spoken, with that word behind it where it is assumed. */
export function orAssumed(figure: string, assumed: boolean | undefined): string {
  return assumed === true ? `${figure}, ${ASSUMED}` : figure;
}

/** Whether a margin rests on a stock that nobody has given. */
export function isAssumed(plan: Plan, track: MarginTrack): boolean {
  return !isStockGiven(plan, track, track.consumable);
}

/** Whether the worst margin of a day is assumed: where one is, which is the worst is not known. */
export function isWorstAssumed(plan: Plan, { margins }: Pick<Verdict, "margins">): boolean {
  return margins.some((track) => isAssumed(plan, track));
}

/** How the worst margin of a day stands; null where nobody goes out. What is assumed is never known to be enough. */
export function marginState(
  { rules }: Plan,
  margin: number | null,
  assumed: boolean,
): "plain" | "breach" | "tight" | "fine" {
  if (margin !== null && margin < 0) return "breach";
  if (margin === null || assumed) return "plain";
  return margin < rules.reserve.tight ? "tight" : "fine";
}

/** `EV2 cooling water, EVA 1`; `named` says how names are said, such as `briefly` beside a figure. */
export function marginCause(
  plan: Plan,
  track: MarginTrack,
  named: (name: string) => string = (name) => name,
): string {
  return `${named(crewName(plan, track.crew))} ${consumableWords(track.consumable)}, ${named(evaName(plan, track.eva))}`;
}
