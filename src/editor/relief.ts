import { remembered } from "../kernel/index.ts";
import { type Plan, type Schedule, suitsOf, tasksById } from "../plan/index.ts";
import { type Course, valueNear } from "./course.ts";
import { REMOTE } from "./lanes.ts";

/**
 * The relief: in its lane a task stands as far from the line home as the walk home from there is long, so the ribbon of a crew
 * member is the shape of the outing and the ceiling beyond it is the longest walk home that the suit still carries.
 */

/** Walk-back over time of one crew member on one EVA, seconds, and the longest allowed. */
export interface WalkbackCourse extends Course {
  readonly eva: string;
  readonly crew: string;
  readonly allowed: Course["points"];
}

/** One stretch of an outing, as the judge tells it. */
interface OutingStretch {
  readonly kind: "egress" | "traverse" | "task" | "wait" | "ingress";
  readonly span: { readonly startS: number; readonly endS: number };
  readonly task: string | null;
  readonly path: readonly string[];
  readonly walkM: number;
}

/** One crew member on one EVA, as the judge tells it. */
export interface OutingCourse {
  readonly eva: string;
  readonly crew: string;
  readonly span: { readonly startS: number; readonly endS: number };
  readonly stretches: readonly OutingStretch[];
}

/** A pause that the work limit relies on, as the judge tells it: its last `needS` seconds are enough. */
export interface RestPause {
  readonly eva: string;
  readonly crew: string;
  readonly span: { readonly startS: number; readonly endS: number };
  readonly needS: number;
}

/** A task on one lane; a task for two stands on two lanes. Heights are walk-back seconds. */
export interface Block {
  readonly task: string;
  readonly lane: string;
  readonly eva: string | null;
  readonly startS: number;
  readonly endS: number;
  readonly homeStartS: number;
  readonly homeEndS: number;
  /** All who do it together. */
  readonly crew: readonly string[];
  /** Row inside the lane of remote work; 0 elsewhere. */
  readonly row: number;
}

/** What lies between the tasks of one lane. */
export interface Between {
  readonly kind: "egress" | "traverse" | "wait" | "ingress";
  readonly lane: string;
  readonly eva: string;
  readonly startS: number;
  readonly endS: number;
  readonly homeStartS: number;
  readonly homeEndS: number;
  readonly walkM: number;
  readonly path: readonly string[];
  /** The part of a wait that is a rest which the work limit relies on; null elsewhere. */
  readonly rest: { readonly startS: number; readonly endS: number } | null;
}

/** Walk-back time at the top of a lane, seconds: a little above the longest emergency oxygen, whatever the schedule. */
export function reliefTopS(plan: Plan): number {
  const longest = plan.crew
    .flatMap((member) => suitsOf(plan, member.id))
    .map((suit) => suit.emergencyOxygenS - plan.rules.walkback.emergencyReserveS);
  return Math.max(600, ...longest) * 1.12;
}

/** Every placed task on every lane it occupies, in order of placement. `rows` of remote tasks from remoteRowsOf. */
export function blocksOf(
  plan: Plan,
  schedule: Schedule,
  reach: readonly WalkbackCourse[],
  rows: ReadonlyMap<string, number>,
): readonly Block[] {
  const tasks = tasksById(plan);
  const course = new Map(reach.map((one) => [`${one.eva} ${one.crew}`, one]));
  return schedule.placements.flatMap((placement) => {
    const { task, eva } = placement;
    const startS: number = placement.startS;
    const endS = startS + (tasks.get(task)?.duration.likelyS ?? 0);
    if (placement.crew.length === 0) {
      const row = rows.get(task) ?? 0;
      return [{ task, lane: REMOTE, eva, startS, endS, homeStartS: 0, homeEndS: 0, crew: [], row }];
    }
    return placement.crew.map((member) => {
      const home = course.get(`${eva} ${member}`);
      return {
        task,
        lane: member,
        eva,
        startS,
        endS,
        homeStartS: valueNear(home, startS, 0),
        homeEndS: valueNear(home, endS, 0),
        crew: placement.crew,
        row: 0,
      };
    });
  });
}

/** Egress and ingress work, ways and waits of every outing. */
export function betweensOf(
  outings: readonly OutingCourse[],
  reach: readonly WalkbackCourse[],
  rests: readonly RestPause[],
): readonly Between[] {
  const course = new Map(reach.map((one) => [`${one.eva} ${one.crew}`, one]));
  return outings.flatMap((outing) => {
    const home: Course = course.get(`${outing.eva} ${outing.crew}`) ?? NO_COURSE;
    const taken = rests.filter((one) => own(one, outing));
    const all = betweensIn(outing)(home);
    return taken.length === 0 ? all : all.map((between) => withRest(between, taken));
  });
}

const NO_COURSE: Course = { points: [] };

/** Those of one outing, no rest told yet: the judge tells the same outing and walk-backs while its tasks stay as they are. */
const betweensIn = remembered((outing: OutingCourse) =>
  remembered((home: Course): readonly Between[] =>
    outing.stretches.flatMap(({ kind, span, walkM, path }) => {
      if (kind === "task") return [];
      return [
        {
          kind,
          lane: outing.crew,
          eva: outing.eva,
          startS: span.startS,
          endS: span.endS,
          homeStartS: valueNear(home, span.startS, 0),
          homeEndS: valueNear(home, span.endS, 0),
          walkM,
          path,
          rest: null,
        },
      ];
    }),
  ),
);

function withRest(between: Between, rests: readonly RestPause[]): Between {
  const rest = between.kind === "wait" ? restIn(between, rests) : null;
  return rest ? { ...between, rest } : between;
}

function own(rest: RestPause, outing: OutingCourse): boolean {
  return rest.eva === outing.eva && rest.crew === outing.crew;
}

/** The part of a wait in which one of `rests` is taken. */
function restIn(wait: Pick<Between, "startS" | "endS">, rests: readonly RestPause[]): Between["rest"] {
  for (const { span, needS } of rests) {
    const startS = Math.max(wait.startS, span.endS - needS);
    const endS = Math.min(wait.endS, span.endS);
    if (startS < endS) return { startS, endS };
  }
  return null;
}
