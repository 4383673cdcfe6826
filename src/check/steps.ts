import type { Stretch } from "../answers/index.ts";
import { type Instant, instant } from "../kernel/index.ts";
import type { Mode } from "../physics/index.ts";
import type { Eva } from "../plan/index.ts";
import { stops } from "../terrain/index.ts";
import { AT_ONCE, type Departures } from "./departures.ts";
import type { Placed } from "./placed.ts";
import type { Prepared, Walker } from "./prepared.ts";

/** One stretch of an outing with what it draws and how far from home it is. */
export interface Step {
  readonly stretch: Stretch;
  /** Seconds that are charged: the full length, even where a nonsense schedule lets stretches overlap. */
  readonly seconds: number;
  /** What the suit's electrical load goes by (S7). */
  readonly mode: Mode;
  /** A pause before leaving, as long as departures have it: it is no rest (S10). */
  readonly beforeLeaving: boolean;
  /** Place indices at both ends. */
  readonly from: number;
  readonly to: number;
  /** Where tracks draw it: like the stretch's span, but never running backwards. */
  readonly drawnFromS: number;
  readonly drawnToS: number;
  /** How far a walk inside a task may lead off the way between its ends, m (S5). */
  readonly roamM: number;
  /** Walk-back time at both ends and at the worst point, s; -1 where there is no way home. */
  readonly homeFromS: number;
  readonly homeToS: number;
  readonly peakS: number;
  /** Slope angles that these walk-backs count with, radians. */
  readonly slopeFromRad: number;
  readonly slopeToRad: number;
  readonly slopePeakRad: number;
}

/** Both ends of an EVA (S3). */
export interface Span {
  readonly egressS: Instant;
  readonly ingressS: Instant;
}

/** Seconds on the way; none where there is no way, which is a finding of its own. */
export function waySeconds({ ways }: Prepared, from: number, to: number): number {
  return Math.max(0, ways.durationS[from * ways.size + to]!);
}

/** What `walker` does with `tasks` in order between the EVA's common egress and ingress (S4 to S6, S10). */
export function stepsOf(
  prepared: Prepared,
  walker: Walker,
  eva: Eva,
  { egressS, ingressS }: Span,
  tasks: readonly Placed[],
  { leaveS }: Departures = AT_ONCE,
): Step[] {
  const leaves = leaveS?.get(walker.member.id);
  const course = new Course(prepared, walker, egressS);
  const homeS = ingressS - eva.ingressWorkS;
  course.stand("egress", egressS, eva.egressWorkS, walker.egressW);
  for (const placed of tasks) {
    course.go(placed.place, placed.span.startS, leaves?.get(placed.task.id));
    course.work(placed);
  }
  course.go(prepared.ways.lander, homeS);
  course.stand("ingress", homeS, eva.ingressWorkS, walker.egressW);
  return course.steps;
}

const MODE: Readonly<Record<Stretch["kind"], Mode>> = {
  egress: "working",
  traverse: "walking",
  task: "working",
  wait: "standing",
  ingress: "working",
};

/** Somebody on their way through an outing: where they are, until when all is told, and the steps so far. */
class Course {
  readonly steps: Step[] = [];
  private readonly prepared: Prepared;
  private readonly walker: Walker;
  private clockS: number;
  private at: number;

  constructor(prepared: Prepared, walker: Walker, startS: number) {
    this.prepared = prepared;
    this.walker = walker;
    this.clockS = startS;
    this.at = prepared.ways.lander;
  }

  /** Stays where they are; nothing where that takes no time. */
  stand(
    kind: "egress" | "wait" | "ingress",
    startS: number,
    seconds: number,
    metabolicW: number,
    beforeLeaving = false,
  ): void {
    if (seconds <= 0) return;
    this.add(kind, startS, seconds, this.at, metabolicW, { path: [this.at], beforeLeaving });
  }

  /** Leaves for `to` at `leaveS`, or at once, and waits there until `untilS`. */
  go(to: number, untilS: number, leaveS = this.clockS): void {
    const { ways, home } = this.prepared;
    const cell = this.at * ways.size + to;
    const seconds = waySeconds(this.prepared, this.at, to);
    if (to !== this.at) {
      const staysS = Math.min(leaveS, untilS - seconds) - this.clockS;
      this.stand("wait", this.clockS, staysS, this.walker.waitW, true);
    }
    const startS = this.clockS;
    if (to !== this.at) {
      const path = ways.durationS[cell]! < 0 ? [this.at, to] : stops(ways, this.at, to);
      this.add("traverse", startS, seconds, to, this.walker.wayW(cell), {
        path,
        walkM: Math.max(0, ways.distanceM[cell]!),
        peakS: home.peakS[cell]!,
        slopePeakRad: home.peakSlopeRad[cell]!,
        // Who cannot be there in time is drawn there in time all the same: one-at-a-time tells the truth of it.
        drawnToS: Math.min(startS + seconds, Math.max(startS, untilS)),
      });
    }
    this.stand("wait", startS + seconds, untilS - startS - seconds, this.walker.waitW);
  }

  /** Does a task where they are and ends where it ends. */
  work({ task, span, endPlace }: Placed): void {
    const { ways } = this.prepared;
    const inside = this.prepared.inside(task);
    const { seconds, slopeRad } = this.prepared.insideHome(inside);
    const isWay = inside.cell >= 0 && ways.durationS[inside.cell]! >= 0;
    this.add("task", span.startS, task.duration.likelyS, endPlace, this.walker.taskW(task), {
      path: isWay ? stops(ways, this.at, endPlace) : [...new Set([this.at, endPlace])],
      walkM: inside.walkM,
      roamM: inside.roamM,
      task: task.id,
      peakS: seconds,
      slopePeakRad: slopeRad,
    });
  }

  private add(
    kind: Stretch["kind"],
    startS: number,
    seconds: number,
    to: number,
    metabolicW: number,
    more: {
      path: readonly number[];
      task?: string;
      walkM?: number;
      peakS?: number;
      slopePeakRad?: number;
      roamM?: number;
      drawnToS?: number;
      beforeLeaving?: boolean;
    },
  ): void {
    const { home, plan } = this.prepared;
    const homeFromS = home.placeS[this.at]!;
    const homeToS = home.placeS[to]!;
    const drawnFromS = this.clockS;
    this.clockS = Math.max(drawnFromS, more.drawnToS ?? startS + seconds);
    this.steps.push({
      stretch: {
        kind,
        span: { startS: instant(startS), endS: instant(startS + seconds) },
        task: more.task ?? null,
        path: more.path.map((index) => plan.site.places[index]!.id),
        walkM: more.walkM ?? 0,
        metabolicW,
      },
      seconds,
      mode: MODE[kind],
      beforeLeaving: more.beforeLeaving ?? false,
      from: this.at,
      to,
      drawnFromS,
      drawnToS: this.clockS,
      roamM: more.roamM ?? 0,
      slopeFromRad: home.placeSlopeRad[this.at]!,
      slopeToRad: home.placeSlopeRad[to]!,
      slopePeakRad: more.slopePeakRad ?? 0,
      homeFromS,
      homeToS,
      peakS: more.peakS ?? Math.max(homeFromS, homeToS),
    });
    this.at = to;
  }
}
