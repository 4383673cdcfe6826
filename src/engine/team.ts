import type { Outcome, PackProgress, PackReport } from "../answers/index.ts";
import { compareScores } from "../check/index.ts";
import type { Plan } from "../plan/index.ts";
import type { WorkedWays } from "../terrain/index.ts";
import { type Engine, EngineError, type Hearing, type PackOptions } from "./calls.ts";
import { meetingsOf } from "./meetings.ts";

/**
 * `first`, with packs shared out: it and the engines of `mates` pack side by side, each from a seed of its own, tell each other now and
 * then of the day in hand, and the best schedule is the answer; of equals that of the lowest seed. So the same seed, iterations and number of engines give the same
 * schedule, whichever engine is done first. `mates` is asked once, when the first pack begins.
 */
export function inTeam(first: Engine, mates: () => readonly Engine[]): Engine {
  let team: readonly Engine[] | null = null;
  return {
    ...first,
    pack: (plan, options, hearing = {}) => {
      team ??= [first, ...mates()];
      return packTogether(team, plan, options, hearing);
    },
    close: () => {
      for (const engine of team ?? [first]) engine.close();
    },
  };
}

async function packTogether(
  team: readonly Engine[],
  plan: Plan,
  options: PackOptions,
  { report, signal, enough }: Hearing<"pack">,
): Promise<PackReport> {
  const ended = new AbortController();
  const stop = (): void => ended.abort();
  signal?.addEventListener("abort", stop, { once: true });
  if (signal?.aborted) stop();
  const tell = teller(team.length, report ?? (() => undefined));
  const ways = await sharedWays(team, plan, ended.signal);
  // Where iterations are counted, who is done first must not matter.
  const meetings = meetingsOf(team.length, options.iterations !== undefined);
  const packed = async (engine: Engine, k: number): Promise<PackReport> => {
    const seed = (options.seed + k * SEED_STEP) % 2 ** 32;
    // The first one has them.
    const seeded = { ...options, seed, ...(k > 0 && ways ? { ways } : {}) };
    const made = await engine.pack(plan, seeded, {
      report: (now) => tell(k, now),
      signal: ended.signal,
      enough,
      ...(team.length > 1 ? { meet: (handed) => meetings.meet(k, handed) } : {}),
    });
    // Nothing better is left to be found; where iterations are counted, when that is must not matter.
    if (options.iterations === undefined && (made.stopped === "proved" || made.stopped === "all placed"))
      stop();
    return made;
  };
  const packs = team.map((engine, k) => packed(engine, k).finally(() => meetings.leave(k)));
  try {
    const settled = await Promise.allSettled(packs);
    if (signal?.aborted) throw new EngineError("cancelled", "pack was cancelled");
    const made = settled.flatMap((one) => (one.status === "fulfilled" ? [one.value] : []));
    if (made.length > 0) return best(made);
    throw settled.find((one) => one.status === "rejected")!.reason;
  } finally {
    signal?.removeEventListener("abort", stop);
  }
}

/** What is dear of the plan's ways, worked out by the first of the team for all; null where they cost little, or that failed: then each does. */
async function sharedWays(
  team: readonly Engine[],
  plan: Plan,
  signal: AbortSignal,
): Promise<WorkedWays | null> {
  if (team.length === 1 || !plan.ground || signal.aborted) return null;
  try {
    return await team[0]!.ways(plan, { bare: true }, { signal });
  } catch {
    return null;
  }
}

/** Between the seeds of two engines: seeds next to each other are asked for by hand. */
const SEED_STEP = 7919;

/** The best report, with what all of them proved and did. */
function best(made: readonly PackReport[]): PackReport {
  const one = made.reduce((a, b) => (isBetter(b, a) ? b : a));
  const bounds = made.flatMap(({ bound, verdict }) =>
    bound === null || verdict.mustPlaced !== one.verdict.mustPlaced ? [] : [bound],
  );
  const ended = made.find(({ stopped }) => stopped === "proved" || stopped === "all placed");
  return {
    ...one,
    iterations: made.reduce((sum, { iterations }) => sum + iterations, 0),
    seconds: made.reduce((most, { seconds }) => Math.max(most, seconds), 0),
    bound: bounds.length === 0 ? null : Math.max(one.verdict.score.worth, Math.min(...bounds)),
    stopped: ended?.stopped ?? one.stopped,
  };
}

/** By the wish where both were packed for it: who meets it, then worth on average; else by the judge's score. */
function isBetter(a: PackReport, b: PackReport): boolean {
  if (!a.wished || !b.wished)
    return a.wished || b.wished
      ? a.wished !== undefined
      : compareScores(a.verdict.score, b.verdict.score) < 0;
  if (a.wished.meets !== b.wished.meets) return a.wished.meets;
  if (a.wished.meets) return a.wished.outcome.meanWorth > b.wished.outcome.meanWorth;
  return chances(a.wished.outcome) > chances(b.wished.outcome);
}

function chances({ home, must }: Outcome): number {
  return home.share + must.share;
}

/** One story of progress from several: the best of all so far, its schedule only when it is new. */
function teller(
  count: number,
  report: (progress: PackProgress) => void,
): (k: number, now: PackProgress) => void {
  const iterations = new Array<number>(count).fill(0);
  let top: PackProgress | null = null;
  return (k, now) => {
    iterations[k] = now.iterations;
    const better =
      top === null ||
      now.mustPlaced > top.mustPlaced ||
      (now.mustPlaced === top.mustPlaced && now.worth > top.worth);
    if (better && now.schedule) top = now;
    report({
      ...(top ?? now),
      seconds: now.seconds,
      iterations: iterations.reduce((sum, one) => sum + one, 0),
      schedule: better ? now.schedule : null,
    });
  };
}
