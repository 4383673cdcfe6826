import type { Verdict } from "../../answers/index.ts";
import type { GivesUp, Plan, Schedule } from "../../plan/index.ts";
import { type Session, PRESENT } from "../../session/index.ts";

/** A day to be compared: the open one, or a variant. */
export interface Compared {
  /** PRESENT or the variant's id. */
  readonly id: string;
  readonly name: string;
  readonly plan: Plan;
  readonly schedule: Schedule;
  readonly verdict: Verdict;
  readonly givesUp: GivesUp | null;
  /** True when the plan has changed where the variant gives something up. */
  readonly clashes: boolean;
}

/** At most so many variants beside the open day. */
export const MOST_BESIDE = 2;

/** The open day, and beside it the chosen variants that there are; the newest one when none is chosen. */
export function daysToCompare(session: Session, chosen: readonly string[]): readonly Compared[] {
  const { plan, verdict } = session.state.getState();
  const present: Compared = {
    id: PRESENT,
    name: "The day as it stands",
    plan,
    schedule: plan.schedule,
    verdict,
    givesUp: null,
    clashes: false,
  };
  return [
    present,
    ...chosenOf(plan, chosen).flatMap((id): Compared[] => {
      const day = session.variantDay(id);
      return day ? [{ ...day, clashes: day.clashes.length > 0 }] : [];
    }),
  ];
}

/** The chosen variants that there are; the newest one when there is none of them. */
export function chosenOf(plan: Plan, chosen: readonly string[]): readonly string[] {
  const known = chosen.filter((id) => plan.variants.some((one) => one.id === id)).slice(-MOST_BESIDE);
  const newest = plan.variants.at(-1);
  return known.length > 0 || !newest ? known : [newest.id];
}
