import { changesBetween, type Placement, type Plan, type Schedule } from "../../plan/index.ts";

/** How one task differs between two days. */
export interface Difference {
  readonly task: string;
  readonly name: string;
  readonly must: boolean;
  readonly worth: number;
  /** null where it is on the bench. */
  readonly from: Placement | null;
  readonly to: Placement | null;
  /** On both days, on another EVA or by other crew. */
  readonly otherHands: boolean;
  /** Later by this much, s; 0 unless it is on both days. */
  readonly laterS: number;
}

/** Tasks that two schedules of a plan place otherwise: dropped ones first, then added, then moved, each by start. */
export function differencesOf(plan: Plan, from: Schedule, to: Schedule): readonly Difference[] {
  return changesBetween(plan, from, to)
    .map(({ task: { id, name, must, worth }, before, after, otherEva, otherCrew, byS }): Difference => ({
      task: id,
      name,
      must,
      worth,
      from: before,
      to: after,
      otherHands: otherEva || otherCrew,
      laterS: byS,
    }))
    .toSorted((a, b) => rank(a) - rank(b) || startOf(a) - startOf(b) || (a.name < b.name ? -1 : 1));
}

/** Differences that read as one: many tasks of an EVA that all move by the same time, crew and EVA as they were. */
export type DifferenceGroup = readonly [Difference, ...Difference[]];

/** Moved together: at least so many are said in one line. */
const MANY = 3;

/** The differences in their order; those that move together stand where the first of them would. */
export function grouped(differences: readonly Difference[]): readonly DifferenceGroup[] {
  const keyOf = (one: Difference): string | null =>
    one.from && one.to && !one.otherHands ? `${one.to.eva ?? ""}|${one.laterS}` : null;
  const counts = new Map<string, number>();
  for (const one of differences) {
    const key = keyOf(one);
    if (key !== null) counts.set(key, (counts.get(key) ?? 0) + 1);
  }
  const groups = new Map<string, [Difference, ...Difference[]]>();
  for (const one of differences) {
    const key = keyOf(one);
    const name = key !== null && counts.get(key)! >= MANY ? key : one.task;
    const group = groups.get(name);
    if (group) group.push(one);
    else groups.set(name, [one]);
  }
  return [...groups.values()];
}

function rank({ from, to }: Difference): number {
  return to === null ? 0 : from === null ? 1 : 2;
}

function startOf({ from, to }: Difference): number {
  return (to ?? from)?.startS ?? 0;
}
