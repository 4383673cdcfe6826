import type { Placement, Plan, Schedule } from "../../plan/index.ts";

/** How one task differs between two days. */
export interface Difference {
  readonly task: string;
  readonly name: string;
  readonly must: boolean;
  readonly worth: number;
  /** null where it is on the bench. */
  readonly from: Placement | null;
  readonly to: Placement | null;
  /** Later by this much, s; 0 unless it is on both days. */
  readonly laterS: number;
}

/** Tasks that two schedules of a plan place otherwise: dropped ones first, then added, then moved, each by start. */
export function differencesOf(plan: Plan, from: Schedule, to: Schedule): readonly Difference[] {
  const before = new Map(from.placements.map((one) => [one.task, one]));
  const after = new Map(to.placements.map((one) => [one.task, one]));
  return plan.tasks
    .flatMap(({ id, name, must, worth }): Difference[] => {
      const a = before.get(id) ?? null;
      const b = after.get(id) ?? null;
      if (a && b ? alike(a, b) : a === b) return [];
      return [{ task: id, name, must, worth, from: a, to: b, laterS: a && b ? b.startS - a.startS : 0 }];
    })
    .toSorted((a, b) => rank(a) - rank(b) || startOf(a) - startOf(b) || (a.name < b.name ? -1 : 1));
}

/** Differences that read as one: many tasks of an EVA that all move by the same time, crew and EVA as they were. */
export type DifferenceGroup = readonly [Difference, ...Difference[]];

/** Moved together: at least so many are said in one line. */
const MANY = 3;

/** The differences in their order; those that move together stand where the first of them would. */
export function grouped(differences: readonly Difference[]): readonly DifferenceGroup[] {
  const keyOf = (one: Difference): string | null =>
    one.from && one.to && sameHands(one.from, one.to) ? `${one.to.eva ?? ""}|${one.laterS}` : null;
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

function alike(a: Placement, b: Placement): boolean {
  return a.startS === b.startS && sameHands(a, b);
}

function sameHands(a: Placement, b: Placement): boolean {
  return (
    a.eva === b.eva && a.crew.length === b.crew.length && a.crew.every((member) => b.crew.includes(member))
  );
}
