import type { Rest, Verdict } from "../../answers/index.ts";
import { judgeFor } from "../../check/index.ts";
import { duration, instant, isEqual } from "../../kernel/index.ts";
import { type Placement, type Plan, type Schedule, tasksById } from "../../plan/index.ts";
import { type Wait, waitedS, waitsFor } from "./waits.ts";

/** A day on which one task ends late, as the judge sees it when its crew does what stands on paper. */

/** What is done about it: who moves to when, what is left out, and who goes on in another order than their pages. */
export interface Otherwise {
  readonly drop: readonly string[];
  readonly moves: readonly Placement[];
  readonly then: readonly { readonly crew: string; readonly tasks: readonly string[] }[];
}

/** How an answer is obeyed: from which rests on that no page tells of, and whether the START of pages in another order still holds. */
export interface Obeyed {
  readonly rests: readonly RestBefore[];
  /** Who goes on in another order begins each task on arrival; else never before the START of its page. */
  readonly onArrival: boolean;
  /** Tasks that begin no sooner than this, whatever else is said, s: the few on which the day hangs. */
  readonly from: readonly { readonly task: string; readonly fromS: number }[];
}

/** How START is read. */
type Starting = Pick<Obeyed, "onArrival" | "from">;

/** So many tasks are held back by an answer at the most: more of it nobody keeps in mind. */
const MOST_HELD = 2;

/** A rest that no page of the plan tells of, so that the answer has to: taken where the task is, before it begins. */
export interface RestBefore {
  readonly crew: string;
  readonly task: string;
}

interface LateTask {
  readonly task: string;
  readonly eva: string;
  /** When the task ends as planned. */
  readonly endS: number;
}

/** One lateness as the table has worked it out, and what the judge says of that. */
interface LateDay {
  readonly lateTask: LateTask;
  readonly lateS: number;
  readonly otherwise: Otherwise;
  readonly judge: ReturnType<typeof judgeFor>;
  readonly schedule: Schedule;
  /** What the judge says of `schedule` when it is so late; null where nobody has asked. */
  readonly judged: Verdict | null;
  /** Of the day as it was worked out: the ways in its order. */
  readonly outings: Verdict["outings"];
}

/**
 * Judges late days of one plan. Who is late takes every rest of `REST` on the pages that stay, and those that the answer tells of, from arrival on and
 * whole, however late it is: what is done after it begins so much later than worked out. Nobody begins before the START of a page, unless the answer
 * gives them another order and says that they begin on arrival, nor before what the page, or the ground's sheet, says that they begin AFTER. A rest that only
 * the answer tells of may be counted from arrival or from when it is told.
 */
export class LateDays {
  private readonly plan: Plan;
  private readonly verdict: Verdict;
  /** Rests that pages tell of. */
  private readonly printed: ReadonlySet<string>;
  private readonly startS: ReadonlyMap<string, number>;
  private readonly waits: ReadonlyMap<string, readonly Wait[]>;

  constructor(plan: Plan, verdict: Verdict) {
    this.plan = plan;
    this.verdict = verdict;
    this.printed = new Set(verdict.rests.map(restKey));
    this.startS = startsOf(plan.schedule);
    this.waits = new Map(plan.schedule.placements.map(({ task }) => [task, waitsFor(plan, task)]));
  }

  /**
   * How an answer has to be obeyed so that the day, `lateS` or one of `alsoS` late, breaks no more than the plan does and needs no rest that nobody is
   * told of; it was worked out for `lateS`. Null where there is no such way: it breaks a rule, or a rest cannot be told, since it is none before a task of
   * the same EVA or has to begin before anybody knows of the lateness.
   */
  answer(lateTask: LateTask, lateS: number, alsoS: readonly number[], otherwise: Otherwise): Obeyed | null {
    const day = this.worked(lateTask, lateS, otherwise);
    const rests = this.newRests(day);
    if (rests === null || !this.holds(day, rests)) return null;
    // The order, and so the ways, are those that were worked out.
    const also = alsoS.map((one): LateDay => {
      return { ...day, lateS: one, judge: judgeFor(this.longer(lateTask.task, one)), judged: null };
    });
    const ways = (otherwise.then.length > 0 ? [true, false] : [false])
      .flatMap((onArrival) => this.starting([day, ...also], rests, onArrival) ?? [])
      .toSorted((a, b) => a.from.length - b.from.length);
    return ways[0] ? { rests, ...ways[0] } : null;
  }

  private worked(lateTask: LateTask, lateS: number, otherwise: Otherwise): LateDay {
    const judge = judgeFor(this.longer(lateTask.task, lateS));
    const schedule = this.scheduleOf(otherwise);
    const judged = judge(schedule);
    return { lateTask, lateS, otherwise, judge, schedule, judged, outings: judged.outings };
  }

  /** How START has to be read in one of both ways, with as few tasks held back as the days need; null where it takes too many, or helps nothing. */
  private starting(
    days: readonly LateDay[],
    rests: readonly RestBefore[],
    onArrival: boolean,
  ): Starting | null {
    let from: Starting["from"] = [];
    for (;;) {
      const starting = { onArrival, from };
      const failing = days.find((day) => !this.obeys(day, rests, starting));
      if (!failing) return starting;
      const next = from.length < MOST_HELD ? this.early(days[0] ?? failing, failing, rests, starting) : null;
      if (!next) return null;
      from = [...from, next];
    }
  }

  /** The first task that begins sooner by the letter of a day than it was worked out to, and when it should; null where nobody can be told in time. */
  private early(
    own: LateDay,
    day: LateDay,
    rests: readonly RestBefore[],
    starting: Starting,
  ): Starting["from"][number] | null {
    const knownRests = this.knownRests(day, rests);
    const worked = startsOf(this.played(own, knownRests, ({ startS }) => startS));
    const letter = this.letter(day, knownRests, starting).placements.toSorted((a, b) => a.startS - b.startS);
    const first = letter.find(({ task, startS }) => startS < (worked.get(task) ?? 0));
    if (!first || first.startS < knownS(day)) return null;
    return { task: first.task, fromS: Math.ceil((worked.get(first.task) ?? 0) / 60) * 60 };
  }

  /** Rests that the answer has to tell of; null where one cannot be told, since its task has begun before anybody knows of the lateness. */
  private newRests(day: LateDay): readonly RestBefore[] | null {
    const added = (day.judged?.rests ?? []).filter((one) => !this.printed.has(restKey(one)));
    if (added.length === 0) return [];
    const untold = startsOf(this.letter(day, this.printed, { onArrival: false, from: [] }));
    const inTime = added.flatMap(({ eva, crew, before }) =>
      before !== null && eva === day.lateTask.eva && (untold.get(before) ?? 0) >= knownS(day)
        ? [{ crew, task: before }]
        : [],
    );
    return inTime.length === added.length ? inTime : null;
  }

  /** Whether the late day as it was worked out breaks no more than the plan does, its rests taken as told and no other one needed. */
  private holds(day: LateDay, added: readonly RestBefore[]): boolean {
    if ((day.judged?.score.breaches ?? 0) > this.verdict.score.breaches) return false;
    const knownRests = this.knownRests(day, added);
    return this.passes(
      day,
      this.played(day, knownRests, ({ startS }) => startS),
      knownRests,
    );
  }

  /** The same of the day as it comes out when paper is obeyed to the letter. */
  private obeys(day: LateDay, added: readonly RestBefore[], starting: Starting): boolean {
    const knownRests = this.knownRests(day, added);
    const counted = added.length > 0 ? [-Infinity, knownS(day)] : [-Infinity];
    return counted.every((sinceS) =>
      this.passes(day, this.letter(day, knownRests, starting, sinceS), knownRests),
    );
  }

  /** `sinceS`: a rest that no page tells of is counted from then on at the earliest. */
  private letter(
    day: LateDay,
    knownRests: ReadonlySet<string>,
    { onArrival, from }: Starting,
    sinceS = -Infinity,
  ): Schedule {
    const { otherwise } = day;
    const nowS = knownS(day);
    const notBeforeS = new Map(from.map(({ task, fromS }) => [task, fromS]));
    const turned = new Set(otherwise.then.map(({ crew }) => crew));
    const follows = (one: Placement): boolean =>
      one.crew.length > 0 &&
      one.crew.every((id) => turned.has(id)) &&
      otherwise.then.some(({ tasks }) => tasks.includes(one.task)) &&
      one.startS >= nowS;
    // What no page tells of is called for, and begins when it is said.
    const floor = (one: Placement): number => {
      const printedS = this.startS.get(one.task);
      if (printedS === undefined) return one.startS;
      const atS = onArrival && follows(one) ? this.opensS(one.task, printedS, nowS) : printedS;
      return Math.max(atS, notBeforeS.get(one.task) ?? atS);
    };
    return this.played(day, knownRests, floor, sinceS);
  }

  /** When a task may begin at the soonest: nobody begins before the window that its page says. */
  private opensS(task: string, printedS: number, nowS: number): number {
    const windows = this.plan.tasks.find(({ id }) => id === task)?.windows ?? [];
    const window = windows.find(({ startS, endS }) => startS <= printedS && printedS < endS);
    return Math.max(nowS, window?.startS ?? nowS);
  }

  private passes(
    { schedule, judged, judge }: LateDay,
    played: Schedule,
    knownRests: ReadonlySet<string>,
  ): boolean {
    const { score, rests } = judged && isEqual(played, schedule) ? judged : judge(played);
    return (
      score.breaches <= this.verdict.score.breaches && rests.every((one) => knownRests.has(restKey(one)))
    );
  }

  private knownRests({ lateTask }: LateDay, added: readonly RestBefore[]): ReadonlySet<string> {
    return new Set([
      ...this.printed,
      ...added.map(({ crew, task }) => restKey({ eva: lateTask.eva, crew, before: task })),
    ]);
  }

  private longer(task: string, lateS: number): Plan {
    const tasks = this.plan.tasks.map((one) =>
      one.id === task ? { ...one, duration: { likelyS: duration(one.duration.likelyS + lateS) } } : one,
    );
    return { ...this.plan, tasks };
  }

  private scheduleOf({ drop, moves }: Otherwise): Schedule {
    const other = new Set([...drop, ...moves.map((one) => one.task)]);
    return {
      placements: [...this.plan.schedule.placements.filter((one) => !other.has(one.task)), ...moves],
    };
  }

  /**
   * The day as it goes when nobody begins before `floor`, nor before what they wait for is done, nor before everybody is there, every told rest taken whole after
   * the way, one that no page tells of from `sinceS` on; in the order in which it was worked out.
   */
  private played(
    { schedule, outings, lateTask: { task: late }, lateS }: LateDay,
    knownRests: ReadonlySet<string>,
    floor: (one: Placement) => number,
    sinceS = -Infinity,
  ): Schedule {
    const { restS } = this.plan.rules.work;
    const tasks = tasksById(this.plan);
    const ways = new Map(outings.map((one) => [`${one.eva} ${one.crew}`, waysOf(one)]));
    /** By outing, when what was done last ends, and how much of that was rest. */
    const done = new Map<string, { readonly endS: number; readonly restedS: number }>();
    const spans = new Map<string, { readonly startS: number; readonly endS: number }>();
    for (const one of schedule.placements.toSorted((a, b) => a.startS - b.startS)) {
      const { eva, crew, task } = one;
      const ready = crew.flatMap((id) => {
        const before = done.get(`${eva} ${id}`);
        if (!before) return [];
        const key = restKey({ eva: eva ?? "", crew: id, before: task });
        const thereS = before.endS + (ways.get(`${eva} ${id}`)?.get(task) ?? 0);
        const leftS = knownRests.has(key) ? Math.max(0, restS - before.restedS) : 0;
        return [leftS > 0 && !this.printed.has(key) ? Math.max(thereS, sinceS) + leftS : thereS + leftS];
      });
      const waited = waitedS(this.waits.get(task) ?? [], (id) => spans.get(id));
      const startS = Math.max(floor(one), waited, ...ready);
      const what = tasks.get(task);
      const lastsS = (what?.duration.likelyS ?? 0) + (task === late ? lateS : 0);
      const endS = startS + lastsS;
      spans.set(task, { startS, endS });
      for (const id of crew)
        done.set(`${eva} ${id}`, { endS, restedS: what?.effort === "rest" ? lastsS : 0 });
    }
    return {
      placements: schedule.placements.map((one) => ({
        ...one,
        startS: instant(spans.get(one.task)?.startS ?? one.startS),
      })),
    };
  }
}

/** When it is known how late it is. */
function knownS({ lateTask, lateS }: LateDay): number {
  return lateTask.endS + lateS;
}

function startsOf({ placements }: Schedule): ReadonlyMap<string, number> {
  return new Map(placements.map(({ task, startS }) => [task, startS]));
}

function restKey({ eva, crew, before }: Pick<Rest, "eva" | "crew" | "before">): string {
  return [eva, crew, before].join(" ");
}

/** How long the way to each task of an outing takes from what is done before it, s. */
function waysOf({ stretches }: Verdict["outings"][number]): ReadonlyMap<string, number> {
  const ways = new Map<string, number>();
  let wayS = 0;
  for (const { kind, span, task } of stretches) {
    if (kind === "traverse") wayS += span.endS - span.startS;
    else if (task !== null) {
      ways.set(task, wayS);
      wayS = 0;
    }
  }
  return ways;
}
