import type { Limit, Rest, Verdict } from "../../../answers/index.ts";
import { type Departures, ingressLimitsByEva } from "../../../check/index.ts";
import { instant, type Instant } from "../../../kernel/index.ts";
import type { Plan } from "../../../plan/index.ts";
import { type Gap, gapsOf, wholeMinute } from "./gaps.ts";
import { departuresOf, type Leaving, type PlayedDay, playedDay, waysToPlay } from "./played.ts";

/** When to leave for a task: by a moment that the judge has tested, or as soon as what is done before it ends. */
export type Leave =
  { readonly kind: "by"; readonly atS: Instant } | { readonly kind: "at once"; readonly atS: Instant };

/** The moments of a day that are printed, each as the judge has tested it. */
export interface PrintedDay {
  /** Egress and ingress complete of an EVA that takes place: on whole minutes where the day can be played so. */
  readonly egressS: ReadonlyMap<string, Instant>;
  readonly ingressS: ReadonlyMap<string, Instant>;
  /** Ingress complete of an EVA no later than this, whatever sets it, when everybody leaves as late as printed. */
  readonly limit: ReadonlyMap<string, Limit>;
  /** When `crew` leaves for `task`; null where no walk leads to it. */
  leave(crew: string, task: string): Leave | null;
  /** Pauses that the work limit relies on, when everybody leaves as late as printed. */
  readonly rests: readonly Rest[];
}

const known = new WeakMap<Plan, PrintedDay>();

/**
 * The printed moments of the plan's own schedule. Everybody may leave as late as a task still starts in time, to the
 * whole minute, where the judge finds nothing in a day that is played so; where it does, the walks of that EVA are taken
 * one after the other, and each may begin as late as it still says yes.
 */
export function printedDay(plan: Plan): PrintedDay {
  let day = known.get(plan);
  if (!day) known.set(plan, (day = printed(plan)));
  return day;
}

function printed(plan: Plan): PrintedDay {
  const played = playedDay(plan);
  const bounds = wholeBounds(played);
  const gaps = gapsOf(played.verdict(bounds));
  const leaving = withoutRuns(played, bounds, latest(played, bounds, gaps));
  const departures = departuresOf(bounds, leaving);
  const verdict = played.verdict(departures);
  const limits = ingressLimitsByEva(plan, plan.schedule, departures);
  const leaves = new Map<string, Leave>();
  for (const gap of gaps) {
    const atS = leaving.get(gap)!;
    leaves.set(
      `${gap.crew} ${gap.task}`,
      atS > gap.doneS ? { kind: "by", atS } : { kind: "at once", atS: gap.doneS },
    );
  }
  return {
    egressS: new Map(verdict.outings.map((one) => [one.eva, one.span.startS])),
    ingressS: new Map(verdict.outings.map((one) => [one.eva, one.span.endS])),
    limit: new Map([...limits].flatMap(([eva, [first]]): [string, Limit][] => (first ? [[eva, first]] : []))),
    leave: (crew, task) => leaves.get(`${crew} ${task}`) ?? null,
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
function latest(played: PlayedDay, bounds: Departures, gaps: readonly Gap[]): Leaving {
  const crewsOf = (list: readonly Gap[]): Set<string> => new Set(list.map(({ crew }) => crew));
  // Of a walk only its own EVA is changed, so only who is on it need be asked about.
  const fits = (leaving: Leaving, crews: ReadonlySet<string>): boolean =>
    waysToPlay(bounds, leaving, crews).every((departures) => played.holds(departures)) &&
    played.cornersHold(bounds, departuresOf(bounds, leaving));
  const all: Leaving = new Map(gaps.map((gap) => [gap, later(gap)]));
  if (fits(all, crewsOf(gaps))) return all;
  let leaving: Leaving = new Map(gaps.map((gap) => [gap, gap.doneS]));
  for (const eva of new Set(gaps.map((gap) => gap.eva))) {
    const own = gaps.filter((gap) => gap.eva === eva).sort((a, b) => a.doneS - b.doneS);
    const whole = new Map([...leaving, ...own.map((gap): [Gap, Instant] => [gap, later(gap)])]);
    const crews = crewsOf(own);
    if (fits(whole, crews)) leaving = whole;
    else for (const gap of own) leaving = latestFor(gap, leaving, (one) => fits(one, crews));
  }
  return leaving;
}

function later({ doneS, latestS }: Gap): Instant {
  return latestS > doneS ? latestS : doneS;
}

/** One walk begun as late as fits with the others as they are, on a whole minute after what is done before it. */
function latestFor(gap: Gap, leaving: Leaving, fits: (leaving: Leaving) => boolean): Leaving {
  let best = leaving;
  let low = Math.floor(gap.doneS / 60);
  let high = gap.latestS / 60;
  const tried = (minute: number): Leaving => new Map([...leaving, [gap, instant(minute * 60)]]);
  // The whole freedom first, since it mostly fits; then halves of what is open.
  for (let minute = high; minute > low; minute = Math.ceil((low + high) / 2)) {
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
function withoutRuns(played: PlayedDay, bounds: Departures, leaving: Leaving): Leaving {
  if (played.base.heat.length === 0) return leaving;
  let kept = leaving;
  for (const gap of leaving.keys()) {
    if (kept.get(gap)! <= gap.doneS) continue;
    if (played.holds(departuresOf(bounds, kept, (one) => one !== gap))) continue;
    kept = new Map(
      [...kept].map(([one, atS]) => [one, one.crew === gap.crew && one.eva === gap.eva ? one.doneS : atS]),
    );
  }
  return kept;
}
