import type { SeparationTrack } from "../answers/index.ts";
import { instant, remembered } from "../kernel/index.ts";
import type { Eva, Schedule } from "../plan/index.ts";
import { AT_ONCE, type Departures } from "./departures.ts";
import type { Placed } from "./placed.ts";
import { type Placements, placementsOf } from "./placements.ts";
import type { Prepared } from "./prepared.ts";
import { separationTracks } from "./separation.ts";
import { type Span, waySeconds } from "./steps.ts";
import { type Out, type CrewOuting, crewOutingOf } from "./crewouting.ts";

/** A plan and a schedule, read once (S1 to S8, S10): what every rule looks at. */
export interface Walkthrough extends Placements {
  readonly prepared: Prepared;
  /** EVAs that take place, in the plan's order. */
  readonly outs: readonly Out[];
  /** All outings of a crew member in order of egress. */
  readonly crewOutingsOf: ReadonlyMap<string, readonly CrewOuting[]>;
  /** All outings in a suit, whoever wears it, in order of egress. */
  readonly crewOutingsIn: ReadonlyMap<string, readonly CrewOuting[]>;
  readonly separation: readonly SeparationTrack[];
}

/** Derives who is where, doing what, drawing what. Any schedule gives a walkthrough, sound or not. */
export function walkthroughOf(
  prepared: Prepared,
  schedule: Schedule,
  departures: Departures = AT_ONCE,
): Walkthrough {
  const placements = placementsOf(prepared, schedule);
  const lanesOf = lanesIn(prepared, placements.placed);
  const outs: Out[] = [];
  for (const eva of prepared.plan.evas) {
    const lanes = lanesOf.get(eva);
    if (lanes && lanes.size > 0) outs.push(outOf(prepared, eva, lanes, departures));
  }
  return {
    ...placements,
    prepared,
    outs,
    crewOutingsOf: sortedBy(outs, (crewOuting) => crewOuting.walker.member.id),
    crewOutingsIn: sortedBy(outs, (crewOuting) => crewOuting.walker.suit.id),
    separation: outs.flatMap((out) => separationTracks(out, prepared)),
  };
}

/** What is done on each EVA by whoever is on it and in the plan. */
function lanesIn(prepared: Prepared, placed: readonly Placed[]): ReadonlyMap<Eva, Lanes> {
  const all = new Map<Eva, Map<string, Placed[]>>();
  for (const one of placed) {
    const { eva } = one;
    if (!eva || one.task.crew.count === 0) continue;
    const lanes = all.get(eva) ?? new Map<string, Placed[]>();
    all.set(eva, lanes);
    for (const member of new Set(one.placement.crew)) {
      if (!eva.crew.includes(member) || prepared.walker(eva, member) === null) continue;
      const lane = lanes.get(member);
      if (lane) lane.push(one);
      else lanes.set(member, [one]);
    }
  }
  return all;
}

/** What each crew member does on an EVA, in order. */
type Lanes = ReadonlyMap<string, readonly Placed[]>;

/** The EVAs as they were last, everybody leaving at once, with the lanes that they were derived from. */
const lastOuts = remembered<Prepared, [], Map<Eva, { readonly lanes: Lanes; readonly out: Out }>>(
  () => new Map(),
);

/**
 * An EVA that takes place. Where its lanes are as they were last it is the one that was derived then, and all that is remembered of
 * it holds on: of a day in hand one EVA changes from frame to frame.
 */
function outOf(prepared: Prepared, eva: Eva, lanes: Lanes, departures: Departures): Out {
  if (departures !== AT_ONCE) return derived(prepared, eva, lanes, departures);
  const last = lastOuts(prepared).get(eva);
  if (last && areSame(last.lanes, lanes)) return last.out;
  const out = derived(prepared, eva, lanes, departures);
  lastOuts(prepared).set(eva, { lanes, out });
  return out;
}

function derived(prepared: Prepared, eva: Eva, lanes: Lanes, departures: Departures): Out {
  const span = spanOf(prepared, eva, [...lanes.values()], departures);
  const crewOutings = eva.crew.flatMap((member) => {
    const walker = prepared.walker(eva, member);
    return walker ? [crewOutingOf(prepared, walker, eva, span, lanes.get(member) ?? [], departures)] : [];
  });
  return { eva, span, crewOutings };
}

function areSame(a: Lanes, b: Lanes): boolean {
  if (a.size !== b.size) return false;
  for (const [member, own] of a) {
    const other = b.get(member);
    if (other?.length !== own.length || own.some((placed, k) => placed !== other[k])) return false;
  }
  return true;
}

/** Egress as late as lets everybody reach the first task in time, ingress when all are back (S3), or as given (S10). */
function spanOf(
  prepared: Prepared,
  eva: Eva,
  lanes: readonly (readonly Placed[])[],
  given: Departures,
): Span {
  let egressS = Infinity;
  let backS = -Infinity;
  for (const tasks of lanes) {
    const first = tasks[0]!;
    egressS = Math.min(egressS, first.span.startS - waySeconds(prepared, prepared.ways.lander, first.place));
    backS = Math.max(backS, backHomeS(prepared, tasks));
  }
  return {
    egressS: instant(Math.min(egressS - eva.egressWorkS, given.egressS?.get(eva.id) ?? Infinity)),
    ingressS: instant(Math.max(backS + eva.ingressWorkS, given.ingressS?.get(eva.id) ?? -Infinity)),
  };
}

/** When the last of `tasks` is done and the walker is back at the lander. */
function backHomeS(prepared: Prepared, tasks: readonly Placed[]): number {
  let endS = -Infinity;
  for (const { span } of tasks) endS = Math.max(endS, span.endS);
  return endS + waySeconds(prepared, tasks.at(-1)!.endPlace, prepared.ways.lander);
}

function sortedBy(
  outs: readonly Out[],
  keyOf: (crewOuting: CrewOuting) => string,
): Map<string, CrewOuting[]> {
  const crewOutings = new Map<string, CrewOuting[]>();
  for (const crewOuting of outs.flatMap((out) => out.crewOutings)) {
    const key = keyOf(crewOuting);
    const own = crewOutings.get(key);
    if (own) own.push(crewOuting);
    else crewOutings.set(key, [crewOuting]);
  }
  for (const own of crewOutings.values()) own.sort(inOrder);
  return crewOutings;
}

function inOrder({ outing: a }: CrewOuting, { outing: b }: CrewOuting): number {
  return (
    a.span.startS - b.span.startS ||
    (a.eva < b.eva ? -1 : a.eva > b.eva ? 1 : 0) ||
    (a.crew < b.crew ? -1 : a.crew > b.crew ? 1 : 0)
  );
}
