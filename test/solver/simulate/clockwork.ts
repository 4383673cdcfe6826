import type { CrewRules } from "../../../src/answers/index.ts";
import type { DaySample } from "../../../src/solver/simulate/days.ts";
import type { Script } from "../../../src/solver/simulate/script.ts";

/**
 * A simulated day again, by another method than the player's: a clock that ticks second by second, and people who look at every tick
 * at what has happened by then and at nothing else. Written from the rules O1 to O11 at the head of `simulate/crew.ts`. It shares with
 * the player what is given: who does what in which order and when it is planned, ways, draws per second, and the waits that the plan
 * has for staying together. What follows from the rules, latest starts and stretches of work among it, is worked out here anew.
 */
export type Fate = "open" | "under way" | "done" | "overran" | "broken off" | "spoilt" | "missed" | "in vain";

export interface Told {
  readonly fate: readonly Fate[];
  readonly startS: readonly number[];
  /** End; of what is missed when that was certain. */
  readonly endS: readonly number[];
  readonly closeS: readonly number[];
  /** By route, then kind: above the reserve at ingress. */
  readonly spare: readonly (readonly number[])[];
}

const KINDS = [0, 1, 2, 3];
const NO_WAY = 1_000_000_000;

interface Walker {
  readonly route: number;
  readonly eva: number;
  readonly more: number;
  /** What they are to do, in order; what is behind them is taken off. */
  readonly list: number[];
  doing: "inside" | "airlock out" | "idle" | "walking" | "working" | "home" | "airlock in" | "in";
  place: number;
  /** End of airlock work or of the way under way. */
  untilS: number;
  /** Since when they have had a pause, and since when they have been at work without a long enough one. */
  pauseS: number;
  beganS: number;
  rate: readonly number[];
  readonly spare: number[];
}

/** Plays one day. */
export function clockwork(script: Script, crew: CrewRules, draws: DaySample): Told {
  return new Clockwork(script, crew, draws).run();
}

class Clockwork {
  private readonly script: Script;
  private readonly crew: CrewRules;
  private readonly draws: DaySample;
  private readonly rank: Map<number, number>;
  private readonly fate: Fate[];
  private readonly startS: number[];
  private readonly endS: number[];
  /** Rest inside work under way until then; seconds rested inside it. */
  private readonly restUntilS: number[];
  private readonly restedS: number[];
  private readonly closesS: number[];
  /** When the own work was up (NaN before), and what is made good after it (O12). */
  private readonly ownUpS: number[];
  private readonly mending: Map<number, readonly number[]> = new Map();
  private readonly egressS: number[];
  private readonly closeS: number[];
  private readonly walkers: Walker[];
  /** By activity, where it is placed: its crew slots, who stands on them, and the units that it uses. */
  private readonly slots: readonly {
    readonly crew: readonly number[];
    readonly walkers: readonly Walker[];
    readonly units: readonly number[];
  }[];
  private readonly latest = new Map<number, number>();
  private readonly lanes = new Map<number, readonly number[]>();
  private t = -Infinity;

  constructor(script: Script, crew: CrewRules, draws: DaySample) {
    this.script = script;
    this.crew = crew;
    this.draws = draws;
    const { problem } = script;
    const each = <T>(count: number, value: T): T[] => Array.from({ length: count }, () => value);
    this.rank = new Map([...script.order].map((a, p) => [a, p]));
    this.fate = each<Fate>(problem.activities, "open");
    this.startS = each(problem.activities, NaN);
    this.endS = each(problem.activities, NaN);
    this.restUntilS = each(problem.activities, -Infinity);
    this.restedS = each(problem.activities, 0);
    this.closesS = each(problem.activities, Infinity);
    this.ownUpS = each(problem.activities, NaN);
    this.egressS = each(problem.evas, NaN);
    this.closeS = each(problem.evas, NaN);
    this.walkers = Array.from({ length: problem.routes }, (_, route) => ({
      route,
      eva: problem.evaOfRoute[route]!,
      more: draws.routeMore[route]!,
      list: [...this.onLane(route)],
      doing: "inside",
      place: problem.lander,
      untilS: NaN,
      pauseS: NaN,
      beganS: NaN,
      rate: [0, 0, 0, 0],
      spare: KINDS.map((k) => this.rates.atEgress[route * 4 + k]! - this.rates.reserve[route * 4 + k]!),
    }));
    this.slots = problem.plan.tasks.map((_, a) => {
      const slots = this.slotsOf(a);
      const crew = slots.slice(0, problem.crewCount[a]!).filter((s) => script.laneOf[s]! >= 0);
      return {
        crew,
        walkers: crew.map((s) => this.walkers[script.laneOf[s]!]!),
        units: slots
          .slice(problem.crewCount[a]!)
          .map((s) => script.laneOf[s]!)
          .filter((lane) => lane >= 0),
      };
    });
    for (const a of [...script.order].reverse()) this.latestStart(a);
  }

  private get problem() {
    return this.script.problem;
  }

  private get rates() {
    return this.script.stage.rates;
  }

  private onLane(lane: number): readonly number[] {
    let list = this.lanes.get(lane);
    if (!list) {
      list = [...this.script.order].filter((a) =>
        this.slotsOf(a).some((s) => this.script.laneOf[s] === lane),
      );
      this.lanes.set(lane, list);
    }
    return list;
  }

  private slotsOf(a: number): number[] {
    const { slotStart } = this.problem;
    return Array.from({ length: slotStart[a + 1]! - slotStart[a]! }, (_, k) => slotStart[a]! + k);
  }

  private crewSlots(a: number): readonly number[] {
    return this.slots[a]!.crew;
  }

  private crewOf(a: number): readonly Walker[] {
    return this.slots[a]!.walkers;
  }

  private unitsOf(a: number): readonly number[] {
    return this.slots[a]!.units;
  }

  private leg(w: number, from: number, to: number): number {
    return from === to ? 0 : this.problem.legS[w]![from * this.problem.places + to]!;
  }

  private homeLeg(w: number, from: number): number {
    return this.leg(w, from, this.problem.lander);
  }

  private airlockIn(e: number): number {
    return this.problem.lengthS[this.problem.activities + 2 * e + 1]!;
  }

  private over(a: number): boolean {
    return this.fate[a] !== "open" && this.fate[a] !== "under way";
  }

  private before(b: number, a: number): boolean {
    return (this.rank.get(b) ?? -1) < this.rank.get(a)!;
  }

  private limit(e: number): number {
    return Math.min(this.egressS[e]! + this.problem.longestS[e]!, this.script.latestS[e]!);
  }

  /** Length that a task ahead is taken to have. */
  private taken(a: number): number {
    const { lengthS } = this.problem;
    return lengthS[a]! + Math.ceil(this.crew.caution * (this.script.stage.highS[a]! - lengthS[a]!));
  }

  /** The needed task that comes next after `a` on a lane. */
  private nextNeeded(a: number, lane: number): number | undefined {
    return this.onLane(lane).find((b) => this.before(a, b) && this.script.needed[b] === 1);
  }

  /** O9: how late needed `a` may begin. */
  private latestStart(a: number): void {
    const { script, problem } = this;
    const { stage } = script;
    if (script.needed[a] === 0) return;
    const own = this.taken(a);
    const bounds = [Infinity];
    this.crewSlots(a).forEach((s) => {
      const r = script.laneOf[s]!;
      const e = problem.evaOfRoute[r]!;
      const limit = Math.min(script.egressS[e]! + problem.longestS[e]!, script.latestS[e]!);
      bounds.push(script.egressS[e]! + (problem.plan.tasks[a]!.pet?.endS ?? Infinity) - own);
      bounds.push(limit - this.airlockIn(e) - this.homeLeg(r, problem.endsAt[a]!) - own);
      const m = this.nextNeeded(a, r);
      if (m !== undefined)
        bounds.push(this.latest.get(m)! - this.leg(r, problem.endsAt[a]!, problem.beginsAt[m]!) - own);
    });
    for (const unit of this.unitsOf(a)) {
      const m = this.nextNeeded(a, unit);
      if (m !== undefined) bounds.push(this.latest.get(m)! - own);
    }
    for (const tie of this.tiesOut(a)) bounds.push(this.latestByTie(tie));
    const last = Math.min(...bounds);
    let best = -Infinity;
    for (let o = stage.openStart[a]!; o < stage.openStart[a + 1]!; o += 1)
      if (stage.openFromS[o]! <= last) best = Math.min(last, stage.openToS[o]! - (own - problem.lengthS[a]!));
    this.latest.set(a, best);
  }

  /** Ties out of `a` that hold up needed work planned after it. */
  private tiesOut(a: number): number[] {
    const { ties, tiesOutOf } = this.script.stage;
    const { needed } = this.script;
    return tiesOutOf[a]!.filter((t) => {
      const m = ties.to[t]!;
      return (
        this.script.placed[m] === 1 && needed[m] === 1 && this.before(a, m) && ties.leastS[t]! > -Infinity
      );
    });
  }

  private latestByTie(t: number): number {
    const { ties } = this.script.stage;
    const [a, m] = [ties.from[t]!, ties.to[t]!];
    const byS = this.latest.get(m)! + (ties.toEnd[t] === 1 ? this.taken(m) : 0) - ties.leastS[t]!;
    return byS - (ties.fromEnd[t] === 1 ? this.taken(a) : 0);
  }

  run(): Told {
    const { script, problem } = this;
    while (this.lookAround());
    const planned = [...script.order].map((a) => script.planS[a]!);
    const outs = problem.plan.evas.flatMap((_, e) => (script.flown[e] === 1 ? [script.egressS[e]!] : []));
    this.t = Math.min(...outs, ...planned) - 1;
    const lastS = problem.plan.stay.lengthS * 3 + 100_000;
    while (this.goesOn()) {
      this.t += 1;
      if (this.t > lastS) throw new Error("the day does not end");
      while (this.finish() || this.lookAround());
      this.breakOff();
      while (this.finish() || this.lookAround());
      for (const w of this.walkers) for (const k of KINDS) w.spare[k]! -= w.rate[k]!;
    }
    this.countVain();
    return {
      fate: this.fate,
      startS: this.startS,
      endS: this.endS,
      closeS: this.closeS,
      spare: this.walkers.map(({ spare }) => spare),
    };
  }

  private goesOn(): boolean {
    const { script } = this;
    return (
      [...script.order].some((a) => !this.over(a)) ||
      this.walkers.some((w) => script.flown[w.eva] === 1 && w.doing !== "in")
    );
  }

  private spend(w: Walker, base: ArrayLike<number>, more: ArrayLike<number>, at: number, rate: number): void {
    w.rate = KINDS.map((k) => Math.ceil(base[at * 4 + k]! + more[at * 4 + k]! * rate));
  }

  private rest(w: Walker): void {
    this.spend(w, this.rates.rest, this.rates.restMore, w.route, w.more);
  }

  /** What is over at this tick: ways, airlock work, tasks; true when something was. */
  private finish(): boolean {
    const { problem, script, t } = this;
    let news = false;
    for (const w of this.walkers) {
      if (w.doing === "inside" && script.flown[w.eva] === 1 && this.mayGoOut(w.eva)) {
        this.egressS[w.eva] = t;
        for (const one of this.walkers.filter(({ eva }) => eva === w.eva)) {
          one.doing = "airlock out";
          one.untilS = t + problem.lengthS[problem.activities + 2 * w.eva]!;
          one.beganS = t;
          this.spend(one, this.rates.airlock, this.rates.airlockMore, one.route, one.more);
        }
        news = true;
      } else if ((w.doing === "airlock out" || w.doing === "walking") && t >= w.untilS) {
        w.pauseS = t;
        w.doing = "idle";
        this.rest(w);
        news = true;
      } else if (w.doing === "airlock in" && t >= w.untilS) {
        w.doing = "in";
        w.rate = [0, 0, 0, 0];
        this.closeS[w.eva] = t;
        news = true;
      }
    }
    for (const a of script.order) {
      if (this.fate[a] !== "under way" || !this.workIsDone(a)) continue;
      this.endS[a] = t;
      const mended = this.mending.get(a) ?? [];
      this.fate[a] = this.ownFate(a);
      for (const b of mended) this.fate[b] = b === a ? this.inTime(a) : "done";
      for (const w of this.crewOf(a)) this.free(w, problem.endsAt[a]!, problem.restful[a] === 1);
      if (problem.restful[a] === 1)
        for (const w of this.crewOf(a)) if (t - w.pauseS >= problem.limits.restS) w.beganS = t;
      news = true;
    }
    return news;
  }

  private inTime(a: number): Fate {
    const upS = this.mending.has(a) ? this.ownUpS[a]! : this.t;
    return upS <= this.closesS[a]! ? "done" : "overran";
  }

  private ownFate(a: number): Fate {
    return this.draws.spoilt[a]! > 0 ? "spoilt" : this.inTime(a);
  }

  /** O12: what has gone wrong by now and is made good at the end of `a`. */
  private toMend(a: number): number[] {
    const { script, draws } = this;
    if (script.stage.given[a] === 1) return [];
    return this.problem.plan.tasks.flatMap((_, b) => {
      if (script.stage.hostOf[b] !== a || draws.spoilt[b] !== 2) return [];
      return b === a || (this.rank.has(b) && this.before(b, a) && this.fate[b] === "spoilt") ? [b] : [];
    });
  }

  /** True while what `a` needs has gone wrong and may still be made good before it. */
  private waitsForMending(b: number, a: number): boolean {
    const h = this.script.stage.hostOf[b]!;
    if (this.fate[b] !== "spoilt" || this.draws.spoilt[b] !== 2 || h < 0 || !this.rank.has(h)) return false;
    return this.before(b, h) && this.before(h, a) && !this.over(h);
  }

  private free(w: Walker, place: number, rested: boolean): void {
    w.doing = "idle";
    w.place = place;
    if (!rested) w.pauseS = this.t;
    w.list.shift();
    this.rest(w);
  }

  private mayGoOut(e: number): boolean {
    const { script, t } = this;
    return (
      t >= script.egressS[e]! &&
      script.before[e]!.every((o) => t >= this.closeS[o]! + script.stage.leastPauseS)
    );
  }

  /** How long `a` has been worked at by now, rests left out. */
  private workedS(a: number): number {
    const stillRestS = Math.max(0, this.restUntilS[a]! - this.t);
    return this.t - this.startS[a]! - this.restedS[a]! + stillRestS;
  }

  private workIsDone(a: number): boolean {
    const { t, draws, script, problem } = this;
    const { limits } = problem;
    if (t < this.restUntilS[a]!) return false;
    // A rest inside that is just over began the stretches of all of its crew anew.
    if (t === this.restUntilS[a]) for (const w of this.crewOf(a)) w.beganS = t;
    const doneS = this.workedS(a);
    if (doneS >= draws.durationS[a]! && Number.isNaN(this.ownUpS[a])) {
      this.ownUpS[a] = t;
      const mending = this.toMend(a);
      if (mending.length > 0) this.mending.set(a, mending);
    }
    const mendS = (this.mending.get(a) ?? []).reduce((sum, b) => sum + draws.remedyS[b]!, 0);
    if (doneS >= draws.durationS[a]! + mendS) {
      // O3: least lags to the end are waited for at work.
      const { ties, tieStart } = script.stage;
      for (let k = tieStart[a]!; k < tieStart[a + 1]!; k += 1)
        if (
          ties.toEnd[k] === 1 &&
          ties.leastS[k]! > -Infinity &&
          !this.lagIsPast(k, a, ties.leastS[k]!, "end")
        )
          return false;
      return true;
    }
    const rests = this.crew.restsByRule && problem.restful[a] === 0 && problem.crewCount[a]! > 0;
    if (!rests || limits.workS === Infinity || limits.workS <= 0) return false;
    if (this.crewOf(a).some((w) => t - w.beganS >= limits.workS)) {
      this.restUntilS[a] = t + limits.restS;
      this.restedS[a]! += limits.restS;
      for (const w of this.crewOf(a)) w.pauseS = t;
    }
    return false;
  }

  /**
   * True when `seconds` after what tie `k` into `a` counts from are over. What is planned after `a` is reckoned with as planned, and
   * waited for no longer than until `a` itself was to begin or end.
   */
  private lagIsPast(k: number, a: number, seconds: number, which: "start" | "end"): boolean {
    const { ties } = this.script.stage;
    const b = ties.from[k]!;
    const { t } = this;
    const { planS } = this.script;
    const { lengthS } = this.problem;
    if (this.script.placed[b] === 0) return true;
    if (!this.before(b, a)) {
      const plannedS = planS[a]! + (which === "end" ? lengthS[a]! : 0);
      const reckonedS = planS[b]! + (ties.fromEnd[k] === 1 ? lengthS[b]! : 0) + seconds;
      return t >= Math.min(plannedS, reckonedS);
    }
    if (this.fate[b] === "missed") return true;
    if (this.fate[b] === "open") return false;
    if (ties.fromEnd[k] === 0) return t >= this.startS[b]! + seconds;
    if (this.fate[b] !== "under way") return t >= this.endS[b]! + seconds;
    // Its likely end is reckoned with before it has ended.
    return seconds < 0 && t >= this.startS[b]! + this.problem.lengthS[b]! + seconds;
  }

  /** Everybody decides what to do now; true when something was decided. */
  private lookAround(): boolean {
    let news = false;
    for (const a of this.script.order) {
      if (this.fate[a] !== "open") continue;
      if (!this.needGone(a) && this.canStart(a)) this.start(a);
      else if (this.isOver(a)) this.miss(a);
      else continue;
      news = true;
    }
    for (const w of this.walkers) {
      if (w.doing !== "idle") continue;
      const next = w.list[0];
      const to = next === undefined ? this.problem.lander : this.problem.beginsAt[next]!;
      const wayS = this.leg(w.route, w.place, to);
      if (next === undefined && w.place === to) {
        w.doing = "home";
        news = true;
      } else if (wayS > 0 && wayS < NO_WAY) {
        this.spend(
          w,
          this.rates.way[w.route]!,
          this.rates.wayMore[w.route]!,
          w.place * this.problem.places + to,
          w.more,
        );
        w.doing = "walking";
        w.untilS = this.t + wayS;
        w.place = to;
        news = true;
      } else if (wayS === 0 && w.place !== to) {
        w.place = to;
        news = true;
      }
    }
    for (let e = 0; e < this.problem.evas; e += 1) {
      const out = this.walkers.filter(({ eva }) => eva === e);
      if (this.script.flown[e] === 0 || out.some(({ doing }) => doing !== "home")) continue;
      for (const w of out) {
        w.doing = "airlock in";
        w.untilS = this.t + this.airlockIn(e);
        this.spend(w, this.rates.airlock, this.rates.airlockMore, w.route, w.more);
      }
      news = true;
    }
    return news;
  }

  private needGone(a: number): boolean {
    return this.problem.needs[a]!.some((b) => {
      if (this.script.placed[b] === 0) return true;
      return this.before(b, a) && this.over(b) && this.fate[b] !== "done" && !this.waitsForMending(b, a);
    });
  }

  private isNext(w: Walker, a: number): boolean {
    return w.list[0] === a && (w.doing === "idle" || w.doing === "walking");
  }

  private isThere(w: Walker, a: number): boolean {
    return w.list[0] === a && w.doing === "idle" && w.place === this.problem.beginsAt[a]!;
  }

  private unitIsFree(unit: number, a: number): boolean {
    return this.onLane(unit).every((b) => !this.before(b, a) || this.over(b));
  }

  private waitsForPlan(a: number): boolean {
    const { script, crew, problem } = this;
    const goesAhead = crew.goesAhead && script.stage.pinned[a] === 0 && problem.crewCount[a]! > 0;
    return !goesAhead && this.t < script.planS[a]!;
  }

  private canStart(a: number): boolean {
    const { t, script, crew } = this;
    const { ties, tieStart } = script.stage;
    if (t === -Infinity || this.waitsForPlan(a)) return false;
    if (this.problem.needs[a]!.some((b) => this.waitsForMending(b, a))) return false;
    if (!this.crewOf(a).every((w) => this.isThere(w, a))) return false;
    if (!this.unitsOf(a).every((unit) => this.unitIsFree(unit, a))) return false;
    for (let k = tieStart[a]!; k < tieStart[a + 1]!; k += 1) {
      if (ties.leastS[k] === -Infinity) continue;
      const seconds = ties.leastS[k]! - (ties.toEnd[k] === 1 ? this.problem.lengthS[a]! : 0);
      if (!this.lagIsPast(k, a, seconds, "start")) return false;
    }
    if (crew.goesAhead)
      for (const [b, seconds] of script.holdsInto.get(a) ?? []) {
        if (!this.before(b, a) || this.fate[b] === "missed") continue;
        if (this.fate[b] === "open" || t < this.startS[b]! + seconds) return false;
      }
    if (this.openingNow(a) === null) return false;
    if (crew.restsByRule && this.crewSlots(a).some((s) => this.restsFirst(a, s))) return false;
    if (t > this.lastByLags(a) || this.tooLate(a, t)) return false;
    return !this.leavesOut(a, this.crewOf(a), t);
  }

  /** The opening of `a` that is open now and may be begun in (O7). */
  private openingNow(a: number): number | null {
    const { stage, planS } = this.script;
    const { fromS, toS } = this.fromEgress(a);
    if (this.t < fromS || this.t > toS - this.problem.lengthS[a]!) return null;
    for (let o = stage.openStart[a]!; o < stage.openStart[a + 1]!; o += 1) {
      if (this.crew.goesAhead && stage.openToS[o]! < planS[a]!) continue;
      if (this.t <= stage.openToS[o]! && this.t >= stage.openFromS[o]!) return o;
    }
    return null;
  }

  /** O10 before a task. */
  private restsFirst(a: number, s: number): boolean {
    const { problem, script, t } = this;
    const { workS, restS } = problem.limits;
    const w = this.walkers[script.laneOf[s]!]!;
    if (workS === Infinity || problem.restful[a] === 1 || t - w.pauseS >= restS) return false;
    return t + this.stretchOf(w.route, a) - w.beganS > workS;
  }

  /** Work from the start of `a` on that has to fit into one stretch. */
  private stretchOf(route: number, a: number): number {
    const { problem, script } = this;
    const list = this.onLane(route);
    const at = list.indexOf(a);
    const isLast = at === list.length - 1;
    if (!isLast && !this.plannedRest(route, list, at)) return problem.lengthS[a]!;
    let k = at;
    while (
      k + 1 < list.length &&
      !this.plannedRest(route, list, k + 1) &&
      problem.restful[list[k + 1]!] === 0
    )
      k += 1;
    const last = list[k]!;
    const doneS = script.planS[last]! + problem.lengthS[last]!;
    const e = problem.evaOfRoute[route]!;
    const untilS =
      k + 1 < list.length
        ? doneS + this.leg(route, problem.endsAt[last]!, problem.beginsAt[list[k + 1]!]!)
        : doneS + this.homeLeg(route, problem.endsAt[last]!) + this.airlockIn(e);
    return untilS - script.planS[a]!;
  }

  private plannedRest(route: number, list: readonly number[], at: number): boolean {
    const { problem, script } = this;
    const e = problem.evaOfRoute[route]!;
    const b = list[at - 1];
    const freeS =
      b === undefined
        ? script.egressS[e]! + problem.lengthS[problem.activities + 2 * e]!
        : script.planS[b]! + problem.lengthS[b]!;
    const place = b === undefined ? problem.lander : problem.endsAt[b]!;
    const hereS = freeS + this.leg(route, place, problem.beginsAt[list[at]!]!);
    return script.planS[list[at]!]! - hereS >= problem.limits.restS;
  }

  /** O4, turn-back: true when somebody who begins `a` at `startS` would not be home inside every limit. */
  private tooLate(a: number, startS: number): boolean {
    return this.crewOf(a).some((w) => this.isNext(w, a) && this.turnsBack(w, a, startS));
  }

  private turnsBack(w: Walker, a: number, startS: number): boolean {
    const { problem, rates, script, t } = this;
    const { route, eva, more } = w;
    const homeS = this.homeLeg(route, problem.endsAt[a]!);
    if (homeS >= NO_WAY) return true;
    const likelyS = problem.lengthS[a]!;
    const backS = startS + likelyS + homeS;
    if (backS + this.airlockIn(eva) > this.limit(eva)) return true;
    const cell = problem.endsAt[a]! * problem.places + problem.lander;
    // On the way there: what is left of it is drawn already in `until`.
    const walkingS = w.doing === "walking" ? w.untilS - t : 0;
    const restsS = startS - t - walkingS + Math.max(0, script.closeS[eva]! - this.airlockIn(eva) - backS);
    return KINDS.some((k) => {
      const rate = (base: ArrayLike<number>, grows: ArrayLike<number>, at: number, by: number): number =>
        Math.ceil(base[at * 4 + k]! + grows[at * 4 + k]! * by);
      const below = problem.plan.rules.reserve.level === "breach" ? 0 : rates.reserve[route * 4 + k]!;
      const wayHome = homeS > 0 ? rate(rates.way[route]!, rates.wayMore[route]!, cell, more) * homeS : 0;
      const left =
        w.spare[k]! +
        below -
        w.rate[k]! * walkingS -
        rate(rates.rest, rates.restMore, route, more) * restsS -
        rates.task[(a * problem.routes + route) * 4 + k]! * likelyS -
        wayHome -
        rate(rates.airlock, rates.airlockMore, route, more) * this.airlockIn(eva);
      return left < 0;
    });
  }

  /** Where a walker not there yet would be at the earliest; a moment that is not a start any more counts as the next one. */
  private earliest(w: Walker, a: number): number {
    if (w.doing === "walking") return w.untilS;
    const wayS = this.leg(w.route, w.place, this.problem.beginsAt[a]!);
    return wayS === 0 ? this.t + 1 : this.t + wayS;
  }

  /** True when it is certain by now that `a` is not begun (O4, O9). Asked only where it cannot start now. */
  private isOver(a: number): boolean {
    if (this.needGone(a)) return true;
    if (this.t === -Infinity) return false;
    const ready = this.crewOf(a).filter((w) => this.isNext(w, a));
    if (ready.some((w) => this.leg(w.route, w.place, this.problem.beginsAt[a]!) >= NO_WAY)) return true;
    const earliestS = Math.max(this.t + 1, ...ready.map((w) => this.earliest(w, a)));
    if (earliestS > this.lastByLags(a) || earliestS > this.lastOpening(a)) return true;
    if (earliestS > this.fromEgress(a).toS - this.problem.lengthS[a]!) return true;
    if (ready.some((w) => this.looksTooLate(w, a))) return true;
    return this.leavesOut(a, ready, this.t + 1);
  }

  /** As `turnsBack`, for the earliest start that there can still be for this walker. */
  private looksTooLate(w: Walker, a: number): boolean {
    const { problem, rates } = this;
    const startS = this.earliest(w, a);
    if (w.doing === "walking" || w.place === problem.beginsAt[a]!) return this.turnsBack(w, a, startS);
    // The way there is still to be walked: tried on a copy that walks it.
    const cell = w.place * problem.places + problem.beginsAt[a]!;
    const copy: Walker = { ...w, doing: "walking", untilS: startS };
    this.spend(copy, rates.way[w.route]!, rates.wayMore[w.route]!, cell, w.more);
    return this.turnsBack(copy, a, startS);
  }

  private lastByLags(a: number): number {
    const { ties, tieStart } = this.script.stage;
    let last = Infinity;
    for (let k = tieStart[a]!; k < tieStart[a + 1]!; k += 1) {
      if (ties.greatestS[k] === Infinity) continue;
      const seconds = ties.greatestS[k]! - (ties.toEnd[k] === 1 ? this.problem.lengthS[a]! : 0);
      const b = ties.from[k]!;
      if (this.script.placed[b] === 0 || !this.before(b, a)) continue;
      const fate = this.fate[b]!;
      if (fate === "open" || fate === "missed") continue;
      if (ties.fromEnd[k] === 0) last = Math.min(last, this.startS[b]! + seconds);
      else {
        const reckoned = this.startS[b]! + this.problem.lengthS[b]! + seconds;
        if (fate !== "under way")
          last = Math.min(
            last,
            seconds < 0 ? Math.min(reckoned, this.endS[b]! + seconds) : this.endS[b]! + seconds,
          );
        else if (seconds < 0) last = Math.min(last, reckoned);
      }
    }
    return last;
  }

  /** What a window from egress leaves; nothing is known of it before egress. */
  private fromEgress(a: number): { readonly fromS: number; readonly toS: number } {
    const window = this.problem.plan.tasks[a]!.pet;
    const [first] = this.crewSlots(a);
    const goneS = first === undefined ? NaN : this.egressS[this.walkers[this.script.laneOf[first]!]!.eva]!;
    if (!window || Number.isNaN(goneS)) return { fromS: -Infinity, toS: Infinity };
    return { fromS: goneS + (window.startS ?? 0), toS: goneS + (window.endS ?? Infinity) };
  }

  private lastOpening(a: number): number {
    const { stage } = this.script;
    let last = -Infinity;
    for (let o = stage.openStart[a]!; o < stage.openStart[a + 1]!; o += 1) last = stage.openToS[o]!;
    return last;
  }

  /** O9, where `a` can begin at `startS` at the earliest, or later when one of those who are `ready` has yet to walk there. */
  private leavesOut(a: number, ready: readonly Walker[], startS: number): boolean {
    const { problem, t } = this;
    if (!this.crew.leavesOut || this.script.needed[a] === 1) return false;
    const own = this.taken(a);
    for (const w of ready) {
      const m = this.nextNeeded(a, w.route);
      if (m === undefined) continue;
      const lastS = this.latest.get(m)! - this.leg(w.route, problem.endsAt[a]!, problem.beginsAt[m]!) - own;
      if ((this.isThere(w, a) ? startS : this.earliest(w, a)) <= lastS) continue;
      // Without it they would go straight on from here.
      if (w.doing === "idle" && t + this.leg(w.route, w.place, problem.beginsAt[m]!) <= this.latest.get(m)!)
        return true;
    }
    if (ready.length < this.crewOf(a).length) return false;
    for (const unit of this.unitsOf(a)) {
      const m = this.nextNeeded(a, unit);
      if (m === undefined || !this.unitIsFree(unit, a)) continue;
      if (startS > this.latest.get(m)! - own && t <= this.latest.get(m)!) return true;
    }
    return this.tiesOut(a).some((k) => startS > this.latestByTie(k));
  }

  private start(a: number): void {
    const { problem, rates, t } = this;
    this.fate[a] = "under way";
    this.startS[a] = t;
    const closesS = this.script.stage.openToS[this.openingNow(a)!]! + problem.lengthS[a]!;
    this.closesS[a] = Math.min(closesS, this.fromEgress(a).toS);
    this.crewSlots(a).forEach((s) => {
      const w = this.walkers[this.script.laneOf[s]!]!;
      w.doing = "working";
      if (t - w.pauseS >= problem.limits.restS) w.beganS = t;
      this.spend(w, rates.task, rates.taskMore, a * problem.routes + w.route, this.draws.slotMore[s]!);
    });
  }

  private miss(a: number): void {
    this.fate[a] = "missed";
    this.endS[a] = this.t;
    for (const w of this.crewOf(a)) w.list.splice(w.list.indexOf(a), 1);
  }

  /** O8, for everything under way. */
  private breakOff(): void {
    const { problem, t } = this;
    if (!this.crew.breaksOff) return;
    for (const a of this.script.order) {
      if (this.fate[a] !== "under way") continue;
      const [first] = this.crewOf(a);
      if (!first || !this.crewOf(a).some((w) => this.mustLeave(w, a))) continue;
      // Who leaves while making something good has done their own work.
      this.fate[a] = this.mending.has(a) ? this.ownFate(a) : "broken off";
      // Of several things made good, one after the other, those that are over by now are.
      let goodS = this.draws.durationS[a]!;
      for (const b of this.mending.get(a) ?? []) {
        goodS += this.draws.remedyS[b]!;
        if (this.workedS(a) >= goodS) this.fate[b] = b === a ? this.inTime(a) : "done";
      }
      this.endS[a] = t;
      const [from, to] = [problem.beginsAt[a]!, problem.endsAt[a]!];
      const farther = this.homeLeg(first.route, from) > this.homeLeg(first.route, to) ? from : to;
      const resting = t < this.restUntilS[a]!;
      for (const w of this.crewOf(a)) this.free(w, farther, resting || problem.restful[a] === 1);
    }
  }

  private mustLeave(w: Walker, a: number): boolean {
    const { problem, rates, script, t } = this;
    const { route, eva, more } = w;
    const [from, to] = [problem.beginsAt[a]!, problem.endsAt[a]!];
    const place = this.homeLeg(route, from) > this.homeLeg(route, to) ? from : to;
    const homeS = this.homeLeg(route, place);
    const airlockS = this.airlockIn(eva);
    const inTimeS = script.closeS[eva]! - homeS - airlockS;
    if (t + 1 + homeS + airlockS > this.limit(eva)) return true;
    return KINDS.some((k) => {
      if (w.rate[k]! <= 0) return false;
      const rate = (base: ArrayLike<number>, grows: ArrayLike<number>, at: number): number =>
        Math.ceil(base[at * 4 + k]! + grows[at * 4 + k]! * more);
      const below = problem.plan.rules.reserve.level === "breach" ? 0 : rates.reserve[route * 4 + k]!;
      const cell = place * problem.places + problem.lander;
      const wayHome = homeS > 0 ? rate(rates.way[route]!, rates.wayMore[route]!, cell) * homeS : 0;
      const keep = wayHome + rate(rates.airlock, rates.airlockMore, route) * airlockS;
      const holds = (leaveS: number): boolean =>
        w.spare[k]! +
          below -
          keep -
          w.rate[k]! * (leaveS - t) -
          rate(rates.rest, rates.restMore, route) * Math.max(0, inTimeS - leaveS) >=
        0;
      // Where waiting at the lander is dearer than working, staying longer may be what holds.
      return !holds(t + 1) && !holds(Math.max(t + 1, inTimeS));
    });
  }

  /** O5. */
  private countVain(): void {
    const { script, problem } = this;
    const { ties, tieStart } = script.stage;
    const lost: number[] = [];
    for (const a of script.order) {
      if (this.fate[a] !== "done") continue;
      for (let k = tieStart[a]!; k < tieStart[a + 1]!; k += 1) {
        const b = ties.from[k]!;
        if (script.placed[b] === 0 || this.fate[b] === "missed" || this.fate[b] === "broken off") continue;
        const fromS = ties.fromEnd[k] === 1 ? this.endS[b]! : this.startS[b]!;
        const lag = (ties.toEnd[k] === 1 ? this.endS[a]! : this.startS[a]!) - fromS;
        if (lag < ties.leastS[k]! || lag > ties.greatestS[k]!) lost.push(a);
      }
    }
    for (const a of lost) this.fate[a] = "in vain";
    for (let again = true; again;) {
      again = false;
      for (const a of script.order) {
        if (this.fate[a] !== "done") continue;
        if (problem.needs[a]!.every((b) => this.fate[b] === "done")) continue;
        this.fate[a] = "in vain";
        again = true;
      }
    }
  }
}
