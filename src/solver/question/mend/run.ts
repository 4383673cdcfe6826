import type { Mended } from "../../../answers/index.ts";
import { type Random, random } from "../../../kernel/index.ts";
import type { Plan, Schedule } from "../../../plan/index.ts";
import { scheduleChanges } from "../../../words/index.ts";
import { compiled } from "../../problem/known.ts";
import { type PlacedActivity, Verifier } from "../../network/verify.ts";
import { Aim, once } from "./aim.ts";
import { exchanged, type Start, startFrom } from "./exchanges.ts";
import { removeUntilSound, putBack } from "./removal.ts";
import { nearby } from "./nearby.ts";
import { nearer } from "./nearer.ts";
import { ejecting, loses, repacking } from "./regain.ts";
import { slid } from "./slid.ts";

/** Why a mend puts something on. */
const NEEDED = ": without it no day without a breach was found";

export interface MendSettings {
  readonly seed: number;
  readonly seconds?: number | undefined;
  readonly iterations?: number | undefined;
  /** Tasks that are dropped only where nothing else makes the day sound. */
  readonly keep?: readonly string[] | undefined;
  /** The caller's clock, seconds from anywhere. */
  readonly clock: () => number;
}

/** A run that is driven slice by slice, so that its caller can stop it between two. */
export interface MendRun {
  /** Goes on for at most about `sliceS` seconds of the clock; false when the run is finished. */
  step(sliceS: number): boolean;
  /** The nearest sound schedule so far; the empty one while there is none. */
  best(): Mended;
}

/** Rounds, and iterations of the packer's search, when the caller sets no limit of iterations. */
const ROUNDS = 40;
const REPACKING = 400;
/** Up to this many placements every pair is tried. */
const MOST_FOR_PAIRS = 14;

/**
 * A schedule without breach as near to `schedule` as the search finds, compared as `Cost` says: must-do tasks dropped, then worth dropped,
 * then tasks changed, then time moved. A sound schedule comes back as it is.
 *
 * One task alone is tried first, each in turn to the nearest start that is sound; then crews exchanged; then everything in its order,
 * sliding later, with one task or none put elsewhere; and in a small schedule each pair. Then placements are let go one by one, always
 * the one without which least is broken, until the rest is sound where it stands; the removed ones are put back, with the rest held where
 * it is, or held from where it is so that it may slide later; and what moved is brought back as near as it goes. What is still dropped after
 * two such rounds is put on again for what may rather be lost, at last by the packer's own search, so that a mend drops no must-do
 * task that a pack with the same seed and iterations places with all others. More rounds differ by chance in what is let go. Not proved to be the
 * fewest changes, but where one move is enough.
 */
export function mendRun(plan: Plan, schedule: Schedule, settings: MendSettings): MendRun {
  const { clock } = settings;
  const aim = new Aim(plan, schedule, new Verifier(compiled(plan, schedule)), settings.keep ?? []);
  const going = mending(aim, settings);
  const startS = clock();
  const mostS = settings.seconds ?? Infinity;
  let running = true;
  return {
    step: (sliceS) => {
      const endS = clock() + sliceS;
      while (running) {
        if (going.next().done) running = false;
        const nowS = clock();
        // However short the time, something sound is given.
        if (aim.nearest && nowS - startS > mostS) running = false;
        else if (nowS >= endS) break;
      }
      return running;
    },
    best: () => {
      const made = aim.nearest?.schedule ?? { placements: [] };
      return { schedule: made, changes: scheduleChanges(plan, schedule, made, NEEDED) };
    },
  };
}

function* mending(aim: Aim, settings: MendSettings): Generator<void, void> {
  const { before } = aim;
  const plain = startFrom(aim, once(before));
  const whole = before.placements.length === plain.placings.length;
  if (whole && plain.faults === 0) return aim.asItIs();
  yield;
  yield* single(aim, plain);
  if (aim.isNear(1)) return;
  const others = yield* exchanged(aim, once(before));
  for (const one of others) if (one.faults === 0) yield* nearer(aim, one.placings);
  const starts = [plain, ...others.filter((one) => one.faults > 0)];
  for (const start of starts) yield* slid(aim, start);
  const stream = random(settings.seed);
  const most = settings.iterations ?? ROUNDS;
  for (let round = 0; round < most; round += 1) {
    yield* removing(aim, starts[Math.floor(round / 2) % starts.length]!, round, stream);
    if (round === Math.min(1, most - 1)) yield* regaining(aim, plain, settings);
    if (aim.isNear(2)) return;
  }
}

/** What is still dropped after the first rounds, put on again: by pairs, by what may rather be lost, at last by the packer's search. */
function* regaining(aim: Aim, plain: Start, { seed, iterations }: MendSettings): Generator<void, void> {
  if (!aim.isNear(2)) yield* pairs(aim, plain);
  yield* ejecting(aim);
  if (loses(aim)) yield* repacking(aim, seed, iterations ?? REPACKING);
}

/** From `start` placements let go until the rest is sound, and what was let go put back; later rounds by more chance, and must-do tasks last. */
function* removing(aim: Aim, start: Start, round: number, stream: Random): Generator<void, void> {
  const noise = round < 2 ? 0 : 1;
  const { kept, removed } = yield* removeUntilSound(aim, start.placings, stream, noise, round % 4 > 1);
  const made = putBack(aim, kept, [...removed, ...start.missing], stream, round % 2 === 0 ? "at" : "from");
  yield;
  // The removed ones each where they stand nearest, when the board's earliest starts are far off.
  yield* nearer(aim, made ?? kept);
  if (made) yield* nearer(aim, kept);
}

/** One task to its nearest sound start, everything else where it stands. */
function* single(aim: Aim, { placings, missing }: Start): Generator<void, void> {
  const { verifier, wasS } = aim;
  if (missing.length > 1) return;
  for (const a of missing.length === 1 ? missing : placings.map((placing) => placing.activity)) {
    const rest = placings.filter((placing) => placing.activity !== a);
    const there = verifier.holds(rest) ? yield* nearby(verifier, rest, a, wasS.get(a)!) : null;
    if (there) aim.propose([...rest, there]);
    yield;
  }
}

/** Two tasks, one after the other, each to its nearest sound start. */
function* pairs(aim: Aim, { placings, missing }: Start): Generator<void, void> {
  const { wasS } = aim;
  if (placings.length > MOST_FOR_PAIRS || missing.length > 2) return;
  const all = [...wasS.keys()];
  for (const a of all) {
    for (const b of all) {
      if (a !== b && missing.every((one) => one === a || one === b)) yield* pair(aim, placings, a, b);
    }
    yield;
  }
}

function* pair(aim: Aim, placings: readonly PlacedActivity[], a: number, b: number): Generator<void, void> {
  const { verifier, wasS } = aim;
  const rest = placings.filter((placing) => placing.activity !== a && placing.activity !== b);
  if (!verifier.holds(rest)) return;
  const first = yield* nearby(verifier, rest, a, wasS.get(a)!);
  const second = first && (yield* nearby(verifier, [...rest, first], b, wasS.get(b)!));
  if (second) yield* nearer(aim, [...rest, first, second]);
}
