import type { Schedule } from "../../../plan/index.ts";
import { read, type PlacedActivity } from "../../network/verify.ts";
import type { Aim } from "./aim.ts";
import { pairsOf } from "./pairs.ts";

/** Exchanges made one after the other on the way to a schedule that breaks less. */
const STEPS = 6;
/** Schedules that are gone on from beside the best one. */
const KEPT = 3;
/** Up to this many placements the crews of every two tasks are exchanged. */
const MOST_FOR_TASKS = 60;
/** Exchanges looked at between two breaths. */
const BREATH = 16;

/** A schedule to repair from: what can be read of it, and the tasks whose crew cannot. */
export interface Start {
  readonly placings: readonly PlacedActivity[];
  readonly missing: readonly number[];
  readonly faults: number;
}

/** `schedule` as a start for a repair. */
export function startFrom(aim: Aim, schedule: Schedule): Start {
  const { placings, unread } = read(aim.problem, schedule);
  const there = new Set(placings.map((placing) => placing.activity));
  return {
    placings,
    missing: [...aim.wasS.keys()].filter((a) => !there.has(a)),
    faults: unread.length + aim.verifier.faults(placings).length,
  };
}

/**
 * Schedules that come from `schedule` by exchanging crews and break less: two people exchanged everywhere, or in everything that
 * they do on one EVA; the crews of two tasks of an EVA exchanged. From the least broken one on again, as long as less is broken. What
 * breaks nothing is proposed. Least broken first.
 */
export function* exchanged(aim: Aim, schedule: Schedule): Generator<void, Start[]> {
  const starts: Start[] = [];
  let now = schedule;
  let least = startFrom(aim, schedule).faults;
  for (let step = 0; step < STEPS && least > 0; step += 1) {
    const better: { readonly schedule: Schedule; readonly start: Start }[] = [];
    for (const [k, one] of [...exchangesOf(aim, now)].entries()) {
      if (k % BREATH === BREATH - 1) yield;
      const start = startFrom(aim, one);
      if (start.faults >= least) continue;
      better.push({ schedule: one, start });
      if (start.faults === 0) aim.propose(start.placings);
    }
    yield;
    starts.push(...better.map(({ start }) => start));
    const [best] = better.toSorted((a, b) => a.start.faults - b.start.faults);
    if (!best) break;
    now = best.schedule;
    least = best.start.faults;
  }
  return starts.sort((a, b) => a.faults - b.faults).slice(0, KEPT);
}

function* exchangesOf(aim: Aim, schedule: Schedule): Generator<Schedule, void> {
  yield* peopleExchanged(aim, schedule);
  if (schedule.placements.length <= MOST_FOR_TASKS) yield* tasksExchanged(schedule);
}

/** Two people exchanged everywhere, or in everything that they do on one EVA. */
function* peopleExchanged({ plan }: Aim, { placements }: Schedule): Generator<Schedule, void> {
  for (const [{ id: p }, { id: q }] of pairsOf(plan.crew)) {
    const both = plan.evas.filter((eva) => eva.crew.includes(p) && eva.crew.includes(q)).map((eva) => eva.id);
    const scopes = [...(both.length > 1 ? [both] : []), ...both.map((eva) => [eva])];
    for (const evas of scopes) {
      const made = placements.map((one) =>
        one.eva !== null && evas.includes(one.eva) && one.crew.includes(p) !== one.crew.includes(q)
          ? { ...one, crew: one.crew.map((id) => (id === p ? q : id === q ? p : id)) }
          : one,
      );
      if (made.some((placement, k) => placement !== placements[k])) yield { placements: made };
    }
  }
}

/** The crews of two tasks of an EVA exchanged. */
function* tasksExchanged({ placements }: Schedule): Generator<Schedule, void> {
  for (const [one, other] of pairsOf(placements)) {
    if (one.eva === null || one.eva !== other.eva || one.crew.length !== other.crew.length) continue;
    if (one.crew.every((id) => other.crew.includes(id))) continue;
    const crews = new Map([
      [one, other.crew],
      [other, one.crew],
    ]);
    yield {
      placements: placements.map((each) => {
        const crew = crews.get(each);
        return crew ? { ...each, crew } : each;
      }),
    };
  }
}
