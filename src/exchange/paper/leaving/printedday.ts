import type { Leave, Limit, PrintedDay, PrintingProgress, Verdict } from "../../../answers/index.ts";
import { type Departures, ingressLimitsByEva } from "../../../check/index.ts";
import { instant, type Instant, invariant } from "../../../kernel/index.ts";
import type { Plan } from "../../../plan/index.ts";
import { type Gap, gapsOf, wholeMinute } from "./gaps.ts";
import { departuresOf, type Leaving, type PlayedDay, playedDay, waysToPlay } from "./played.ts";

/** What is asked of the printed moments besides the plan. */
export interface PrintingSettings {
  /** Walks that had to begin before this have been walked: nothing is worked out of them, and they count as begun at once. */
  readonly fromS?: number | undefined;
  /** Seconds from anywhere, for slices. */
  readonly clock: () => number;
}

/** The printed moments, worked out slice by slice. */
export interface PrintingRun {
  /** Works on for about so many seconds; false when all is done. */
  step(sliceS: number): boolean;
  progress(): PrintingProgress;
  /** The day; throws InvariantError before all is done. */
  day(): PrintedDay;
}

export function printingRun(plan: Plan, { fromS = -Infinity, clock }: PrintingSettings): PrintingRun {
  const work = printing(plan, fromS);
  let progress: PrintingProgress = { walks: 0, of: 0 };
  let day: PrintedDay | null = null;
  return {
    step(sliceS) {
      const untilS = clock() + sliceS;
      do {
        if (day) return false;
        const next = work.next();
        if (next.done) day = next.value;
        else progress = next.value;
      } while (clock() < untilS);
      return day === null;
    },
    progress: () => progress,
    day() {
      invariant(day !== null, "the printed moments are not worked out yet");
      return day;
    },
  };
}

/**
 * The printed moments of the plan's own schedule. Everybody may leave as late as a task still starts in time, to the
 * whole minute, where the judge finds nothing in a day that is played so; where it does, the walks of that EVA are taken
 * one after the other, and each may begin as late as it still says yes.
 */
export function printedDay(plan: Plan): PrintedDay {
  const run = printingRun(plan, { clock: () => 0 });
  while (run.step(1));
  return run.day();
}

function* printing(plan: Plan, fromS: number): Generator<PrintingProgress, PrintedDay> {
  const played = playedDay(plan);
  const bounds = wholeBounds(played);
  const gaps = gapsOf(played.verdict(bounds)).filter((gap) => gap.latestS >= fromS);
  const leaving = yield* withoutRuns(played, bounds, yield* latest(played, bounds, gaps));
  const departures = departuresOf(bounds, leaving);
  const verdict = played.verdict(departures);
  const limits = ingressLimitsByEva(plan, plan.schedule, departures);
  const leaves = new Map<string, Map<string, Leave>>();
  for (const gap of gaps) {
    const atS = leaving.get(gap)!;
    const own = leaves.get(gap.crew) ?? new Map<string, Leave>();
    leaves.set(
      gap.crew,
      own.set(gap.task, atS > gap.doneS ? { kind: "by", atS } : { kind: "at once", atS: gap.doneS }),
    );
  }
  return {
    egressS: new Map(verdict.outings.map((one) => [one.eva, one.span.startS])),
    ingressS: new Map(verdict.outings.map((one) => [one.eva, one.span.endS])),
    limit: new Map([...limits].flatMap(([eva, [first]]): [string, Limit][] => (first ? [[eva, first]] : []))),
    leaves,
    rests: verdict.rests,
  };
}

/** Egress a begun minute earlier and ingress a begun minute later, for every EVA on which the judge lets that pass. */
function wholeBounds({ base, holds }: PlayedDay): Departures {
  const ends = (of: (span: Verdict["outings"][number]["span"]) => Instant): Map<string, Instant> =>
    new Map(base.outings.map((one) => [one.eva, of(one.span)]));
  const egressS = ends(({ startS }) => wholeMinute(startS));
  const ingressS = ends(({ endS }) => instant(Math.ceil(endS / 60) * 60));
  if (holds({ egressS, ingressS })) return { egressS, ingressS };
  const kept = { egressS: new Map<string, Instant>(), ingressS: new Map<string, Instant>() };
  for (const [eva, atS] of egressS) {
    kept.egressS.set(eva, atS);
    if (!holds(kept)) kept.egressS.delete(eva);
  }
  for (const [eva, atS] of ingressS) {
    kept.ingressS.set(eva, atS);
    if (!holds(kept)) kept.ingressS.delete(eva);
  }
  return kept;
}

/** Every walk begun as late as the judge lets it. */
function* latest(
  played: PlayedDay,
  bounds: Departures,
  gaps: readonly Gap[],
): Generator<PrintingProgress, Leaving> {
  const crewsOf = (list: readonly Gap[]): Set<string> => new Set(list.map(({ crew }) => crew));
  // Of a walk only its own EVA is changed, so only who is on it need be asked about.
  const fits = (leaving: Leaving, crews: ReadonlySet<string>): boolean =>
    waysToPlay(bounds, leaving, crews).every((departures) => played.holds(departures)) &&
    played.cornersHold(bounds, departuresOf(bounds, leaving));
  const of = gaps.length;
  yield { walks: 0, of };
  const all: Leaving = new Map(gaps.map((gap) => [gap, later(gap)]));
  if (fits(all, crewsOf(gaps))) return all;
  let leaving: Leaving = new Map(gaps.map((gap) => [gap, gap.doneS]));
  let walks = 0;
  for (const eva of new Set(gaps.map((gap) => gap.eva))) {
    const own = gaps.filter((gap) => gap.eva === eva).sort((a, b) => a.doneS - b.doneS);
    const whole = new Map([...leaving, ...own.map((gap): [Gap, Instant] => [gap, later(gap)])]);
    const crews = crewsOf(own);
    yield { walks, of };
    if (fits(whole, crews)) leaving = whole;
    else
      for (const [k, gap] of own.entries()) {
        leaving = yield* latestFor(gap, leaving, (one) => fits(one, crews), { walks: walks + k, of });
      }
    walks += own.length;
  }
  return leaving;
}

function later({ doneS, latestS }: Gap): Instant {
  return latestS > doneS ? latestS : doneS;
}

/** One walk begun as late as fits with the others as they are, on a whole minute after what is done before it. */
function* latestFor(
  gap: Gap,
  leaving: Leaving,
  fits: (leaving: Leaving) => boolean,
  progress: PrintingProgress,
): Generator<PrintingProgress, Leaving> {
  let best = leaving;
  let low = Math.floor(gap.doneS / 60);
  let high = gap.latestS / 60;
  const tried = (minute: number): Leaving => new Map([...leaving, [gap, instant(minute * 60)]]);
  // The whole freedom first, since it mostly fits; then halves of what is open.
  for (let minute = high; minute > low; minute = Math.ceil((low + high) / 2)) {
    yield progress;
    const next = tried(minute);
    if (fits(next)) {
      best = next;
      low = minute;
    } else high = minute - 1;
  }
  return best;
}

/**
 * Heat stored before a walk is most where all walks before it began late, and at its end where it begins at once. That
 * is asked of each walk by itself; where it breaks something, its crew member leaves at once all through that EVA.
 */
function* withoutRuns(
  played: PlayedDay,
  bounds: Departures,
  leaving: Leaving,
): Generator<PrintingProgress, Leaving> {
  if (played.base.heat.length === 0) return leaving;
  let kept = leaving;
  for (const gap of leaving.keys()) {
    if (kept.get(gap)! <= gap.doneS) continue;
    yield { walks: leaving.size, of: leaving.size };
    if (played.holds(departuresOf(bounds, kept, (one) => one !== gap))) continue;
    kept = new Map(
      [...kept].map(([one, atS]) => [one, one.crew === gap.crew && one.eva === gap.eva ? one.doneS : atS]),
    );
  }
  return kept;
}
