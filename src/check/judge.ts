import type { Finding, Verdict } from "../answers/index.ts";
import { duration, type Duration } from "../kernel/index.ts";
import type { Plan, Schedule } from "../plan/index.ts";
import { RULE_IDS } from "../rules/index.ts";
import { boxesIn } from "./boxes.ts";
import type { Departures } from "./departures.ts";
import { cornersApart, type TooFarApart } from "./freedom.ts";
import { endPointOf } from "./grounds.ts";
import { heatTracks, marginTracks } from "./margins.ts";
import { type Prepared, prepare } from "./prepared.ts";
import { reachTrack } from "./reach.ts";
import { findingsOf } from "./rules/index.ts";
import { restsOf } from "./rests.ts";
import { changesFrom, scoreOf } from "./score.ts";
import { sparesOf } from "./spares.ts";
import { type Walkthrough, walkthroughOf } from "./walkthrough.ts";

/**
 * A judge of schedules for `plan`: ways, walk-backs, sun and rates are worked out once, then each schedule is judged
 * by itself, whatever was judged before (what an EVA comes to is remembered while its tasks are the same), with everybody leaving at once where no departures are given. Never throws for a schedule that the schema allows, however senseless.
 */
export function judgeFor(plan: Plan): Judge["judge"] {
  return judgeOf(plan).judge;
}

/** A judge that is also asked what may happen between two ways to play a day. */
export interface Judge {
  judge(schedule: Schedule, departures?: Departures): Verdict;
  cornersApart(schedule: Schedule, earliest: Departures, latest: Departures): TooFarApart[];
}

/** The judge of `judgeFor` with `cornersApart` at its side: what depends on the plan only is worked out once for both. */
export function judgeOf(plan: Plan): Judge {
  const prepared = prepare(plan);
  return {
    judge: judging(plan, prepared),
    cornersApart: (schedule, earliest, latest) => cornersApart(prepared, schedule, earliest, latest),
  };
}

function judging(plan: Plan, prepared: Prepared): Judge["judge"] {
  const changes = changesFrom(plan.schedule);
  const mustTotal =
    plan.tasks.filter((task) => task.must).length + plan.groups.reduce((sum, { least }) => sum + least, 0);
  return (schedule, departures) => {
    const walkthrough = walkthroughOf(prepared, schedule, departures);
    const crewOutings = walkthrough.outs.flatMap((out) => out.crewOutings);
    const findings = findingsOf(walkthrough).sort(inReadingOrder);
    const score = scoreOf(walkthrough, findings, changes(schedule));
    let spares: Verdict["spares"] | undefined;
    return {
      findings,
      score,
      outings: crewOutings.map((crewOuting) => crewOuting.outing),
      margins: crewOutings.flatMap((crewOuting) => marginTracks(crewOuting)),
      reach: crewOutings.map((crewOuting) => reachTrack(crewOuting, prepared)),
      separation: walkthrough.separation,
      heat: crewOutings.flatMap((crewOuting) => heatTracks(crewOuting)),
      placed: walkthrough.placed.length,
      mustPlaced: mustTotal - score.mustLeftOut,
      mustTotal,
      returnKg: boxesIn(walkthrough).reduce((sum, box) => sum + box.emptyG + box.sampleG, 0) / 1000,
      walkedM: walked(walkthrough),
      walkbackS: walkbacks(walkthrough),
      rests: crewOutings.flatMap((crewOuting) => restsOf(crewOuting, prepared)),
      // Worked out for who asks: a fifth of a verdict, and nobody looks at it while a task is dragged.
      get spares() {
        return (spares ??= sparesOf(walkthrough));
      },
    };
  };
}

/** The verdict on `schedule`, the plan's own where none is given, everybody leaving at once where nothing else is given. */
export function check(plan: Plan, schedule: Schedule = plan.schedule, departures?: Departures): Verdict {
  return judgeFor(plan)(schedule, departures);
}

function walked({ prepared, crewOutingsOf }: Walkthrough): Record<string, number> {
  return Object.fromEntries(
    prepared.plan.crew.map(({ id }) => [
      id,
      (crewOutingsOf.get(id) ?? []).reduce((sum, crewOuting) => sum + crewOuting.walkedM, 0),
    ]),
  );
}

function walkbacks({ prepared, placed }: Walkthrough): Record<string, Duration | null> {
  return Object.fromEntries(
    placed.map((one) => {
      const inside = prepared.inside(one.task);
      const { placeS } = prepared.home;
      const all = [placeS[inside.from]!, placeS[inside.to]!, prepared.insideHome(inside).seconds];
      const known = endPointOf(prepared, one) && all.every((seconds) => seconds >= 0);
      return [one.task.id, known ? duration(Math.max(...all)) : null];
    }),
  );
}

const LEVEL_RANK = { breach: 0, open: 1, tight: 2 } as const;
const RULE_RANK = new Map(RULE_IDS.map((rule, rank) => [rule, rank]));

/** Breaches first, then by rule, time and subjects: the same whatever the order of the plan's lists. */
function inReadingOrder(a: Finding, b: Finding): number {
  return (
    LEVEL_RANK[a.level] - LEVEL_RANK[b.level] ||
    RULE_RANK.get(a.rule)! - RULE_RANK.get(b.rule)! ||
    startOf(a) - startOf(b) ||
    compareTexts(subjectsOf(a), subjectsOf(b))
  );
}

function startOf({ span }: Finding): number {
  return span?.startS ?? Number.MAX_SAFE_INTEGER;
}

function subjectsOf({ subjects }: Finding): string {
  return subjects.map(({ kind, id }) => `${kind} ${id}`).join(" ");
}

function compareTexts(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
