import { type Instant, instant, type Interval } from "../kernel/index.ts";
import type { Amounts } from "../physics/index.ts";
import type { Eva } from "../plan/index.ts";
import { stops } from "../terrain/index.ts";
import { drawn } from "./amounts.ts";
import type { Placed } from "./placed.ts";
import type { Prepared, Walker } from "./prepared.ts";
import type { Outing, Stretch } from "./verdict.ts";

/** One stretch of an outing with what it draws and how far from home it is. */
export interface Step {
  readonly stretch: Stretch;
  /** Seconds that are charged: the full length, even where a nonsense schedule lets stretches overlap. */
  readonly seconds: number;
  /** Place indices at both ends. */
  readonly from: number;
  readonly to: number;
  /** Where tracks draw it: like the stretch's span, but never running backwards. */
  readonly drawnFromS: number;
  readonly drawnToS: number;
  /** Walk-back time at both ends and at the worst point, s; -1 where there is no way home. */
  readonly homeFromS: number;
  readonly homeToS: number;
  readonly peakS: number;
}

/** One crew member on one EVA, fully derived. */
export interface Walk {
  readonly walker: Walker;
  readonly outing: Outing;
  readonly tasks: readonly Placed[];
  readonly steps: readonly Step[];
  /** What is left before each step, and at the end: one more entry than steps. */
  readonly left: readonly Amounts[];
  readonly walkedM: number;
}

/** Both ends of an EVA (S3). */
export interface Span {
  readonly egressS: Instant;
  readonly ingressS: Instant;
}

/** An EVA that takes place. */
export interface Out {
  readonly eva: Eva;
  readonly span: Span;
  readonly walks: readonly Walk[];
}

/** Seconds on the way; none where there is no way, which is a finding of its own. */
export function waySeconds(prepared: Prepared, from: number, to: number): number {
  return Math.max(0, prepared.ways.durationS[from * prepared.ways.size + to] ?? 0);
}

/** When the last of `tasks` (in order) is done and the walker is back at the lander; null without tasks. */
export function backHomeS(prepared: Prepared, tasks: readonly Placed[]): number | null {
  const last = tasks.at(-1);
  if (!last) return null;
  let endS: number = last.span.endS;
  for (const { span } of tasks) endS = Math.max(endS, span.endS);
  return endS + waySeconds(prepared, last.endPlace, prepared.ways.lander);
}

/** The outing of `walker` with `tasks` in order, between the EVA's common egress and ingress (S4 to S7). */
export function walkOf(
  prepared: Prepared,
  walker: Walker,
  eva: Eva,
  span: Span,
  tasks: readonly Placed[],
): Walk {
  const { ways, home, plan } = prepared;
  const { lander } = ways;
  const steps: Step[] = [];
  let clockS: number = span.egressS;
  let at = lander;

  const add = (
    kind: Stretch["kind"],
    startS: number,
    seconds: number,
    to: number,
    metabolicW: number,
    more: { task?: string; path?: readonly string[]; walkM?: number; peakS?: number; drawnToS?: number },
  ): void => {
    const homeFromS = home.placeS[at] ?? -1;
    const homeToS = home.placeS[to] ?? -1;
    const drawnToS = Math.max(clockS, more.drawnToS ?? startS + seconds);
    steps.push({
      stretch: {
        kind,
        span: spanOf(startS, seconds),
        task: more.task ?? null,
        path: more.path ?? [plan.site.places[at]?.id ?? ""],
        walkM: more.walkM ?? 0,
        metabolicW,
      },
      seconds,
      from: at,
      to,
      drawnFromS: clockS,
      drawnToS,
      homeFromS,
      homeToS,
      peakS: more.peakS ?? (homeFromS < 0 || homeToS < 0 ? -1 : Math.max(homeFromS, homeToS)),
    });
    clockS = drawnToS;
    at = to;
  };

  /** Walks to `to` at once, then waits there until `untilS`. */
  const goAndWait = (to: number, untilS: number): void => {
    const startS = clockS;
    const seconds = waySeconds(prepared, at, to);
    if (to !== at) {
      const cell = at * ways.size + to;
      add("traverse", startS, seconds, to, walker.wayW(ways.slopeRad[cell] ?? 0), {
        path: pathOf(prepared, at, to),
        walkM: Math.max(0, ways.distanceM[cell] ?? 0),
        peakS: home.peakS[cell] ?? -1,
        drawnToS: Math.min(startS + seconds, Math.max(startS, untilS)),
      });
    }
    const waitS = untilS - (startS + seconds);
    if (waitS > 0) add("wait", startS + seconds, waitS, at, walker.waitW, {});
  };

  if (eva.egressWorkS > 0) add("egress", span.egressS, eva.egressWorkS, lander, walker.egressW, {});
  for (const placed of tasks) {
    goAndWait(placed.place, placed.span.startS);
    const inner = placed.endPlace !== placed.place;
    at = placed.place;
    add(
      "task",
      placed.span.startS,
      placed.span.endS - placed.span.startS,
      placed.endPlace,
      walker.taskW(placed.task),
      {
        task: placed.task.id,
        ...(inner ? { path: placesOf(prepared, [placed.place, placed.endPlace]) } : {}),
        walkM: Math.ceil(placed.task.walkM),
      },
    );
  }
  goAndWait(lander, span.ingressS - eva.ingressWorkS);
  if (eva.ingressWorkS > 0) {
    add("ingress", span.ingressS - eva.ingressWorkS, eva.ingressWorkS, lander, walker.egressW, {});
  }

  const left: Amounts[] = [walker.full];
  let walkedM = 0;
  for (const step of steps) {
    left.push(drawn(left.at(-1)!, walker.draw(step.stretch.metabolicW), step.seconds));
    walkedM += step.stretch.walkM;
  }
  const outing: Outing = {
    eva: eva.id,
    crew: walker.member.id,
    span: { startS: span.egressS, endS: span.ingressS },
    stretches: steps.map((step) => step.stretch),
  };
  return { walker, outing, tasks, steps, left, walkedM };
}

function pathOf(prepared: Prepared, from: number, to: number): string[] {
  const { ways } = prepared;
  const known = (ways.durationS[from * ways.size + to] ?? -1) >= 0;
  return placesOf(prepared, known ? stops(ways, from, to) : [from, to]);
}

function placesOf(prepared: Prepared, indices: readonly number[]): string[] {
  return indices.map((index) => prepared.plan.site.places[index]?.id ?? "");
}

function spanOf(startS: number, seconds: number): Interval {
  return { startS: instant(startS), endS: instant(startS + seconds) };
}
