import type { Schedule } from "../../../plan/index.ts";
import { tollOf } from "../../problem/groups.ts";
import type { Problem } from "../../problem/problem.ts";
import { read } from "../../network/verify.ts";
import { scheduleFrom } from "../trial/placed.ts";
import { type Dropped, type Lost, lossOf } from "./dropping.ts";
import type { Played } from "./played.ts";
import { Reorder } from "./reorder.ts";
import type { Remainder } from "./remainder.ts";

/** Another way to go on. */
export interface Change extends Lost {
  readonly schedule: Schedule;
  readonly drop: readonly number[];
  readonly add: readonly number[];
  readonly voided: readonly number[];
}

/** What another order or set to leave out has to gain on average over the simplest, in mean worths of a task: a crew that is late is told the simplest that does as much. */
export const GAIN = 0.25;

/**
 * For each lateness another order that does more than leaving `dropped` out: fewer must-do tasks lost, or as few and more by what a crew
 * that follows it comes to on the simulated days. null where none was found. Looked for around what loses `least` as planned. Who is less late
 * may do as if later.
 */
export function* changes(
  base: Problem,
  schedule: Schedule,
  remainder: Remainder,
  eva: number,
  least: readonly (Dropped | null)[],
  dropped: readonly (Dropped | null)[],
  lengthsS: readonly number[],
  lost: readonly ReadonlySet<number>[],
  played: Played,
): Generator<void, (Change | null)[]> {
  const reorder = new Reorder(base, schedule, remainder, eva);
  const mean = base.worth.reduce((sum, one) => sum + one, 0) / Math.max(1, base.activities);
  const gain = GAIN * mean;
  const made: (Change | null)[] = dropped.map(() => null);
  let later: Change | null = null;
  for (let n = dropped.length - 1; n >= 0; n -= 1) {
    const alone = dropped[n];
    const around = least[n];
    if (!alone || !around || around.drop.length === 0) continue;
    // There is not that much to gain.
    if (alone.mustLost === 0 && alone.worthLost <= gain) continue;
    const lengthS = lengthsS[n]!;
    remainder.take(lengthS, alone.tolerant, lost[n]!);
    const seed = remainder.present * dropped.length + n;
    const found: Schedule[] = [];
    for (const { placings } of new Set([around, alone])) {
      const from = scheduleFrom(remainder.problem, placings);
      found.push(...(yield* reorder.orders(lengthS, alone.tolerant, from, seed)));
    }
    if (later) found.push(later.schedule);
    made[n] = yield* bestChange({ base, schedule, remainder, played, lengthS, gain }, alone, found);
    later = made[n] ?? later;
  }
  return made;
}

/** What one lateness is asked with. */
interface LateQuestion {
  readonly base: Problem;
  readonly schedule: Schedule;
  readonly remainder: Remainder;
  readonly played: Played;
  readonly lengthS: number;
  readonly gain: number;
}

/** Of `orders` the one that does most, where that is more than `alone` by what an order has to gain; null where none does. */
function* bestChange(
  { base, schedule, remainder, played, lengthS, gain }: LateQuestion,
  alone: Dropped,
  orders: readonly Schedule[],
): Generator<void, Change | null> {
  const { verifier } = remainder.lasting(base, lengthS, alone.tolerant);
  const planned = tollOf(base, (a) => remainder.placed.has(a), [...remainder.placed]).worthLost;
  let best: Change | null = null;
  let leastMust = alone.mustLost;
  let most = played.value(remainder, lengthS, scheduleFrom(remainder.problem, alone.placings)) + gain;
  for (const order of orders) {
    yield;
    const change = changeOf(base, schedule, remainder, order);
    const more = change.mustLost - leastMust;
    // What is planned bounds what is done: it need not be played to see that it is no better.
    if (more > 0 || (more === 0 && planned - change.worthLost <= most)) continue;
    if (!remainder.holdsFor(verifier, read(base, order).placings)) continue;
    const value = played.value(remainder, lengthS, order);
    if (more === 0 && value <= most) continue;
    best = change;
    leastMust = change.mustLost;
    most = value;
  }
  return best;
}

function changeOf(base: Problem, before: Schedule, remainder: Remainder, schedule: Schedule): Change {
  const index = new Map(base.plan.tasks.map((task, a) => [task.id, a]));
  const numbers = ({ placements }: Schedule): number[] => placements.map(({ task }) => index.get(task)!);
  const there = new Set(numbers(schedule));
  const planned = new Set(numbers(before));
  const drop = remainder.open.filter((a) => !there.has(a));
  const add = numbers(schedule).filter((a) => !planned.has(a));
  const { voided } = lossOf(base, remainder, drop);
  // Of groups it matters what else is there: what goes, and what has come, are each taken off all of both days.
  const either = (a: number): boolean => planned.has(a) || there.has(a);
  const gone = tollOf(base, either, [...drop, ...voided]);
  const came = tollOf(base, either, add);
  return {
    schedule,
    drop,
    add,
    voided,
    mustLost: gone.mustLost - came.mustLost,
    worthLost: gone.worthLost - came.worthLost,
  };
}
