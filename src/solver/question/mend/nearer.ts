import type { PlacedActivity } from "../../network/verify.ts";
import type { Aim } from "./aim.ts";
import { nearby } from "./nearby.ts";
import { pairsOf } from "./pairs.ts";

/** Passes over a sound schedule to bring it nearer. */
const PASSES = 3;
/** Up to this many changed tasks are brought back two by two. */
const MOST_FOR_PAIRS = 40;
/** Schedules looked at between two breaths. */
const BREATH = 16;

/**
 * From a sound schedule nearer to the one aimed at, as long as that helps: everything changed on an EVA back as it was, then two tasks
 * at once, as those that stand in each other's place; what is missing put on, and what moved brought back, one by one. The nearest is proposed.
 */
export function* nearer(aim: Aim, sound: readonly PlacedActivity[]): Generator<void, void> {
  const { verifier, wasS } = aim;
  if (!verifier.holds(sound)) return;
  aim.propose(sound);
  let now = [...sound];
  for (let pass = 0; pass < PASSES; pass += 1) {
    const together = yield* backTogether(aim, now);
    let better = together !== null;
    now = together ?? now;
    for (const a of [...wasS.keys()].sort(aim.byRank)) {
      const moved = yield* broughtBack(aim, now, a);
      now = moved ?? now;
      better ||= moved !== null;
    }
    if (!better) break;
  }
  aim.propose(now);
}

/** The schedule with one task back as it was, or nearer to that; null when it can come no nearer. */
function* broughtBack(
  { verifier, wasS, own }: Aim,
  now: readonly PlacedActivity[],
  a: number,
): Generator<void, PlacedActivity[] | null> {
  const old = now.find((placing) => placing.activity === a);
  const first = own.get(a);
  if (old && first && same(old, first)) return null;
  const rest = now.filter((placing) => placing.activity !== a);
  if (!verifier.holds(rest)) return null;
  const back = first && verifier.holds([...rest, first]) ? first : null;
  const there: PlacedActivity | null = back ?? (yield* nearby(verifier, rest, a, wasS.get(a)!));
  yield;
  if (!there) return null;
  const away = (placing: PlacedActivity): number => Math.abs(placing.startS - wasS.get(a)!);
  if (old && !back && away(there) >= away(old)) return null;
  return [...rest, there];
}

/** The schedule with groups of changed tasks back as they were, where it stays sound; null when no group can go back. */
function* backTogether(
  aim: Aim,
  placings: readonly PlacedActivity[],
): Generator<void, PlacedActivity[] | null> {
  const { verifier, own, problem } = aim;
  let now = [...placings];
  let changed = false;
  const missing = (): PlacedActivity[] =>
    now.flatMap((placing) => {
      const first = own.get(placing.activity);
      return first && !same(first, placing) ? [first] : [];
    });
  const back = (group: readonly PlacedActivity[]): boolean => {
    const going = new Set(group.map((one) => one.activity));
    const tried = [...now.filter((one) => !going.has(one.activity)), ...group];
    if (!verifier.holds(tried)) return false;
    now = tried;
    changed = true;
    return true;
  };
  const evaOf = ({ activity, choice }: PlacedActivity): number =>
    problem.crewCount[activity] === 0
      ? -1
      : problem.evaOfRoute[problem.choiceRoutes[problem.choiceAt[choice]!]!]!;
  for (let e = -1; e < problem.evas; e += 1) {
    const group = missing().filter((one) => evaOf(one) === e);
    if (group.length > 1) back(group);
    yield;
  }
  const left = missing();
  if (left.length > MOST_FOR_PAIRS) return changed ? now : null;
  const home = new Set<number>();
  let looked = 0;
  for (const [a, b] of pairsOf(left)) {
    if (home.has(a.activity) || home.has(b.activity)) continue;
    looked += 1;
    if (looked % BREATH === 0) yield;
    if (back([a, b])) home.add(a.activity).add(b.activity);
  }
  return changed ? now : null;
}

function same(a: PlacedActivity, b: PlacedActivity): boolean {
  return a.startS === b.startS && a.choice === b.choice;
}
