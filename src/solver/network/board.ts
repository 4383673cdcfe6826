import { lessIn } from "../problem/groups.ts";
import { type Groups, KINDS, NEVER, type Problem } from "../problem/problem.ts";

/**
 * The state of the search: which activity stands where on which routes and chains, and the earliest and latest start
 * of every node that follow from it.
 *
 * Routes and chains are doubly linked lists of slots. A head and a tail slot stand at the ends of each: for a route
 * they belong to the egress and the all-back node of its EVA, for a chain to the source and the sink. An activity
 * that needs several crew members has one slot in each of their routes, and one start time.
 */
export class Board {
  readonly problem: Problem;
  /** Slots: next and previous in the route or chain, and which one that is (-1 when not placed). */
  readonly next: Int32Array;
  readonly prev: Int32Array;
  readonly lane: Int32Array;
  /** Node that a slot belongs to, heads and tails included. */
  readonly nodeOf: Int32Array;
  readonly head: number;
  readonly tail: number;
  /** 1 for activities that are placed and for both nodes of an EVA that takes place. */
  readonly placed: Uint8Array;
  readonly evaOf: Int32Array;
  readonly earliest: Int32Array;
  readonly latest: Int32Array;
  /** Start of an activity that it is not brought forward from while it stands; NO_FLOOR without one. */
  readonly floorS: Int32Array;
  /** Rest that must be taken on arrival before a slot's activity, s. */
  readonly restS: Int32Array;
  /** Placements by EVA and by route. */
  readonly onEva: Int32Array;
  readonly onRoute: Int32Array;
  /** By route or chain: changes with what stands on it; the same number means the same order. */
  readonly version: Int32Array;
  /** By EVA: as `version`, with what stands on any of its routes. */
  readonly evaVersion: Int32Array;
  /** Changes with anything that stands on the board and whenever its times are worked out anew; the same number means the same board. */
  state = 0;
  private changes = 0;
  /** By route: metres walked; draws over rest by kind, egress and ingress work included. */
  readonly walkedM: Float64Array;
  readonly drawn: Float64Array;
  /** By EVA: longest duration that bounds and budgets allow now. */
  readonly allowedS: Int32Array;
  readonly grams: Float64Array;
  readonly millilitres: Float64Array;
  readonly inContainer: Int32Array;
  returnGrams = 0;
  walkM = 0;
  /** Holds laid between two activities so that crew members stay together; see rules/separation. */
  holds = 0;
  readonly holdFrom: Int32Array;
  readonly holdTo: Int32Array;
  readonly holdS: Int32Array;
  /** Holds that begin and end at each node. */
  readonly holdsFrom: Uint16Array;
  readonly holdsTo: Uint16Array;
  count = 0;
  worth = 0;
  /** Must-do activities that are left out, and what is missing of what is least wanted of groups. */
  mustOut: number;
  /** By group: members placed, and how much less than whole their worth counts. */
  readonly inGroup: Int32Array;
  private readonly lessWorth: Float64Array;

  constructor(problem: Problem) {
    this.problem = problem;
    const { slots, routes, chains, nodes, activities, evas } = problem;
    const lanes = routes + chains;
    const all = slots + 2 * lanes;
    this.head = slots;
    this.tail = slots + lanes;
    this.next = new Int32Array(all).fill(-1);
    this.prev = new Int32Array(all).fill(-1);
    this.lane = new Int32Array(all).fill(-1);
    this.nodeOf = new Int32Array(all);
    for (let a = 0; a < activities; a += 1)
      for (let s = problem.slotStart[a]!; s < problem.slotStart[a + 1]!; s += 1) this.nodeOf[s] = a;
    for (let r = 0; r < lanes; r += 1) {
      const h = this.head + r;
      const t = this.tail + r;
      this.next[h] = t;
      this.prev[t] = h;
      this.lane[h] = r;
      this.lane[t] = r;
      const e = r < routes ? problem.evaOfRoute[r]! : -1;
      this.nodeOf[h] = e < 0 ? problem.source : activities + 2 * e;
      this.nodeOf[t] = e < 0 ? problem.sink : activities + 2 * e + 1;
    }
    this.placed = new Uint8Array(nodes);
    this.evaOf = new Int32Array(activities).fill(-1);
    this.earliest = new Int32Array(nodes);
    this.latest = new Int32Array(nodes);
    this.floorS = new Int32Array(activities).fill(NO_FLOOR);
    this.restS = new Int32Array(all);
    this.onEva = new Int32Array(evas);
    this.onRoute = new Int32Array(routes);
    this.version = new Int32Array(lanes);
    this.evaVersion = new Int32Array(evas);
    this.walkedM = new Float64Array(routes);
    this.drawn = new Float64Array(routes * KINDS);
    this.allowedS = Int32Array.from(problem.longestS);
    const containers = problem.loads.emptyGrams.length;
    this.grams = new Float64Array(containers);
    this.millilitres = new Float64Array(containers);
    this.inContainer = new Int32Array(containers);
    this.holdFrom = new Int32Array(MOST_HOLDS);
    this.holdTo = new Int32Array(MOST_HOLDS);
    this.holdS = new Int32Array(MOST_HOLDS);
    this.holdsFrom = new Uint16Array(nodes);
    this.holdsTo = new Uint16Array(nodes);
    const groups = problem.groups?.members.length ?? 0;
    this.inGroup = new Int32Array(groups);
    this.lessWorth = new Float64Array(groups);
    this.mustOut = problem.must.reduce((sum, one) => sum + one, 0);
    for (let g = 0; g < groups; g += 1) this.mustOut += problem.groups!.least[g]!;
    for (let r = 0; r < routes; r += 1) this.drawAirlock(r);
    for (let e = 0; e < evas; e += 1) this.allow(e);
    this.latest[problem.sink] = NEVER;
    this.earliest[problem.sink] = NEVER;
    this.earliest[problem.source] = -NEVER;
    this.latest[problem.source] = -NEVER;
  }

  /** Least time from the start of the activity in slot `before` to that of slot `after` when they follow each other. */
  gapS(before: number, after: number): number {
    const { problem, nodeOf } = this;
    const i = nodeOf[before]!;
    const r = this.lane[before]!;
    if (r >= problem.routes) return problem.lengthS[i]!;
    const cell = problem.endsAt[i]! * problem.places + problem.beginsAt[nodeOf[after]!]!;
    return problem.lengthS[i]! + problem.legS[r]![cell]! + this.restS[after]!;
  }

  /** Places `activity` behind the slots `behind[0..]`, one for each of its own, on EVA `eva` (-1 without crew). */
  link(activity: number, behind: ArrayLike<number>, eva: number): void {
    const { problem, next, prev, lane } = this;
    const first = problem.slotStart[activity]!;
    const count = problem.slotStart[activity + 1]! - first;
    for (let k = 0; k < count; k += 1) {
      const s = first + k;
      const p = behind[k]!;
      const q = next[p]!;
      next[p] = s;
      prev[s] = p;
      next[s] = q;
      prev[q] = s;
      const r = lane[p]!;
      lane[s] = r;
      this.restS[s] = 0;
      this.version[r] = ++this.changes;
      if (r < problem.routes) this.pass(r, s, 1);
    }
    this.touch();
    this.placed[activity] = 1;
    this.evaOf[activity] = eva;
    this.tally(activity, 1);
    if (eva >= 0) {
      this.evaVersion[eva] = ++this.changes;
      if (this.onEva[eva]!++ === 0) this.open(eva, 1);
      this.allow(eva);
    }
  }

  /** Says that times are worked out anew. */
  touch(): void {
    this.state = ++this.changes;
  }

  /** Takes `activity` off; times are left as they are (see propagate). */
  unlink(activity: number): void {
    const { problem, next, prev, lane } = this;
    const first = problem.slotStart[activity]!;
    const end = problem.slotStart[activity + 1]!;
    for (let s = first; s < end; s += 1) {
      const r = lane[s]!;
      this.version[r] = ++this.changes;
      if (r < problem.routes) this.pass(r, s, -1);
      const p = prev[s]!;
      const q = next[s]!;
      next[p] = q;
      prev[q] = p;
      lane[s] = -1;
      this.restS[s] = 0;
    }
    const eva = this.evaOf[activity]!;
    this.touch();
    this.placed[activity] = 0;
    this.floorS[activity] = NO_FLOOR;
    this.evaOf[activity] = -1;
    this.tally(activity, -1);
    this.dropHoldsOf(activity);
    if (eva >= 0) {
      this.evaVersion[eva] = ++this.changes;
      if (--this.onEva[eva]! === 0) this.open(eva, 0);
      this.allow(eva);
    }
  }

  /** True when `activity` is one more than its groups take, or brings back more than still fits (group-most, container, return-mass). */
  isOver(activity: number): boolean {
    return this.fullGroup(activity) >= 0 || !this.holdsSample(activity);
  }

  /** A group of `activity` that takes no more; -1 where there is none. */
  fullGroup(activity: number): number {
    const { groups } = this.problem;
    if (groups !== null)
      for (const g of groups.of[activity]!) if (this.inGroup[g]! >= groups.most[g]!) return g;
    return -1;
  }

  /** True when `activity` is a must-do, or one of a group of which too few are placed. */
  isRequired(activity: number): boolean {
    const { groups, must } = this.problem;
    if (must[activity] === 1) return true;
    if (groups !== null)
      for (const g of groups.of[activity]!) if (this.inGroup[g]! < groups.least[g]!) return true;
    return false;
  }

  /** What `activity`, which is left out, would count if it were placed with all that is there now. */
  worthWith(activity: number): number {
    const { groups, worth } = this.problem;
    if (groups === null) return worth[activity]!;
    let gain = worth[activity]!;
    for (const g of groups.of[activity]!)
      if (groups.shares[g]!.length > 0) {
        this.placed[activity] = 1;
        gain += this.lessWorth[g]! - this.lessNow(groups, g);
        this.placed[activity] = 0;
      }
    return gain;
  }

  /** True when what `activity` brings back still fits (container, return-mass). */
  holdsSample(activity: number): boolean {
    const { loads } = this.problem;
    const c = loads.container[activity]!;
    if (c < 0) return true;
    const grams = loads.grams[activity]!;
    if (this.grams[c]! + grams > loads.holdsGrams[c]!) return false;
    if (this.millilitres[c]! + loads.millilitres[activity]! > loads.holdsMillilitres[c]!) return false;
    const box = this.inContainer[c] === 0 ? loads.emptyGrams[c]! : 0;
    return this.returnGrams + grams + box <= loads.returnGrams;
  }

  /** True when neither of two activities together is over. */
  holdsBoth(one: number, two: number): boolean {
    if (this.isOver(one)) return false;
    this.tally(one, 1);
    const holds = !this.isOver(two);
    this.tally(one, -1);
    return holds;
  }

  /** Copies everything of `other`, a board of the same problem. */
  copy(other: Board): void {
    this.next.set(other.next);
    this.prev.set(other.prev);
    this.lane.set(other.lane);
    this.placed.set(other.placed);
    this.evaOf.set(other.evaOf);
    this.earliest.set(other.earliest);
    this.latest.set(other.latest);
    this.floorS.set(other.floorS);
    this.restS.set(other.restS);
    this.onEva.set(other.onEva);
    this.onRoute.set(other.onRoute);
    this.version.set(other.version);
    this.evaVersion.set(other.evaVersion);
    this.state = other.state;
    this.walkedM.set(other.walkedM);
    this.drawn.set(other.drawn);
    this.allowedS.set(other.allowedS);
    this.grams.set(other.grams);
    this.millilitres.set(other.millilitres);
    this.inContainer.set(other.inContainer);
    this.returnGrams = other.returnGrams;
    this.walkM = other.walkM;
    this.copyHolds(other);
    this.count = other.count;
    this.worth = other.worth;
    this.mustOut = other.mustOut;
    this.inGroup.set(other.inGroup);
    this.lessWorth.set(other.lessWorth);
  }

  /** As copy, of a board that did not come from this one: what is known of its versions is not known here. */
  adopt(other: Board): void {
    this.copy(other);
    for (let r = 0; r < this.version.length; r += 1) this.version[r] = ++this.changes;
    for (let e = 0; e < this.evaVersion.length; e += 1) this.evaVersion[e] = ++this.changes;
    this.touch();
  }

  /** Copies the holds of `other`. */
  copyHolds(other: Board): void {
    this.cutHolds(0);
    for (let k = 0; k < other.holds; k += 1) this.hold(other.holdFrom[k]!, other.holdTo[k]!, other.holdS[k]!);
  }

  /** Lays a hold: `to` starts at least `seconds` after `from`. False when there are too many. */
  hold(from: number, to: number, seconds: number): boolean {
    if (this.holds === MOST_HOLDS) return false;
    this.holdFrom[this.holds] = from;
    this.holdTo[this.holds] = to;
    this.holdS[this.holds] = seconds;
    this.holdsFrom[from]! += 1;
    this.holdsTo[to]! += 1;
    this.holds += 1;
    return true;
  }

  /** Takes away the holds that were laid after the first `count`. */
  cutHolds(count: number): void {
    while (this.holds > count) this.dropHold(this.holds - 1);
  }

  /** Takes away the holds on EVA `eva`, or all of them when it is negative. */
  dropHolds(eva: number): void {
    if (eva < 0) this.cutHolds(0);
    else for (let k = this.holds; k-- > 0;) if (this.evaOf[this.holdTo[k]!] === eva) this.dropHold(k);
  }

  private dropHoldsOf(activity: number): void {
    if (this.holdsFrom[activity] === 0 && this.holdsTo[activity] === 0) return;
    for (let k = this.holds; k-- > 0;)
      if (this.holdFrom[k] === activity || this.holdTo[k] === activity) this.dropHold(k);
  }

  /** Takes hold `k` away; those after it move up, in their order. */
  private dropHold(k: number): void {
    this.holdsFrom[this.holdFrom[k]!]! -= 1;
    this.holdsTo[this.holdTo[k]!]! -= 1;
    this.holds -= 1;
    for (const list of [this.holdFrom, this.holdTo, this.holdS]) list.copyWithin(k, k + 1, this.holds + 1);
  }

  /** Way and draws of slot `s` come onto (`sign` 1) or off (-1) route `r`. */
  private pass(r: number, s: number, sign: number): void {
    const { problem } = this;
    const { places, legM, endsAt, beginsAt, draws } = problem;
    const a = this.nodeOf[s]!;
    const from = endsAt[this.nodeOf[this.prev[s]!]!]! * places;
    const to = beginsAt[this.nodeOf[this.next[s]!]!]!;
    const into = from + beginsAt[a]!;
    const out = endsAt[a]! * places + to;
    const across = from + to;
    const metres = sign * (legM[into]! + legM[out]! - legM[across]! + problem.innerM[a]!);
    this.walkedM[r]! += metres;
    this.walkM += metres;
    this.onRoute[r]! += sign;
    if (!draws.binds) return;
    const leg = draws.leg[r]!;
    const task = (a * problem.routes + r) * KINDS;
    for (let kind = 0; kind < KINDS; kind += 1) {
      this.drawn[r * KINDS + kind]! +=
        sign *
        (draws.task[task + kind]! +
          leg[into * KINDS + kind]! +
          leg[out * KINDS + kind]! -
          leg[across * KINDS + kind]!);
    }
  }

  /**
   * The longest that the EVA of route `r` may last with `activity` behind slot `p`, by what that member's suit carries; NEVER where the
   * activity draws nothing more than standing still.
   */
  allowedWith(activity: number, r: number, p: number): number {
    const { problem } = this;
    const { draws, places, endsAt, beginsAt } = problem;
    if (!draws.binds) return NEVER;
    const from = endsAt[this.nodeOf[p]!]! * places;
    const to = beginsAt[this.nodeOf[this.next[p]!]!]!;
    const into = (from + beginsAt[activity]!) * KINDS;
    const out = (endsAt[activity]! * places + to) * KINDS;
    const across = (from + to) * KINDS;
    const leg = draws.leg[r]!;
    const task = (activity * problem.routes + r) * KINDS;
    let most = NEVER;
    for (let kind = 0; kind < KINDS; kind += 1) {
      if (draws.kindBinds[kind] === 0) continue;
      const more = draws.task[task + kind]! + leg[into + kind]! + leg[out + kind]! - leg[across + kind]!;
      const left = draws.available[r * KINDS + kind]! - this.drawn[r * KINDS + kind]! - more;
      const rate = draws.restRate[r * KINDS + kind]!;
      if (more <= 0) continue;
      if (left < 0) return -1;
      if (rate > 0) most = Math.min(most, Math.floor(left / rate));
    }
    return most;
  }

  private tally(activity: number, sign: number): void {
    const { loads, worth, must, groups } = this.problem;
    this.count += sign;
    this.worth += sign * worth[activity]!;
    this.mustOut -= sign * must[activity]!;
    if (groups !== null) this.tallyGroups(groups, activity, sign);
    const c = loads.container[activity]!;
    if (c < 0) return;
    if (this.inContainer[c] === 0) this.returnGrams += loads.emptyGrams[c]!;
    this.inContainer[c]! += sign;
    if (this.inContainer[c] === 0) this.returnGrams -= loads.emptyGrams[c]!;
    this.grams[c]! += sign * loads.grams[activity]!;
    this.millilitres[c]! += sign * loads.millilitres[activity]!;
    this.returnGrams += sign * loads.grams[activity]!;
  }

  private tallyGroups(groups: Groups, activity: number, sign: number): void {
    for (const g of groups.of[activity]!) {
      const least = groups.least[g]!;
      this.mustOut -= Math.max(0, least - this.inGroup[g]!);
      this.inGroup[g]! += sign;
      this.mustOut += Math.max(0, least - this.inGroup[g]!);
      if (groups.shares[g]!.length === 0) continue;
      this.worth += this.lessWorth[g]!;
      this.lessWorth[g] = this.lessNow(groups, g);
      this.worth -= this.lessWorth[g]!;
    }
  }

  private lessNow(groups: Groups, g: number): number {
    return lessIn(this.problem, groups, g, (a) => this.placed[a] === 1);
  }

  private open(eva: number, placed: number): void {
    const egress = this.problem.activities + 2 * eva;
    this.placed[egress] = placed;
    this.placed[egress + 1] = placed;
  }

  private drawAirlock(r: number): void {
    const { problem } = this;
    const egress = problem.activities + 2 * problem.evaOfRoute[r]!;
    const seconds = problem.lengthS[egress]! + problem.lengthS[egress + 1]!;
    for (let kind = 0; kind < KINDS; kind += 1)
      this.drawn[r * KINDS + kind] = problem.draws.airlockRate[r * KINDS + kind]! * seconds;
  }

  /** Longest duration of `eva` that its bound and what its suits carry allow; negative when none does. */
  private allow(eva: number): void {
    const { problem } = this;
    const { draws } = problem;
    if (!draws.binds) return;
    let most = problem.longestS[eva]!;
    for (let r = problem.routeStart[eva]!; r < problem.routeStart[eva + 1]!; r += 1)
      most = Math.min(most, this.suitLastsS(r));
    this.allowedS[eva] = most;
  }

  /** How long what the suit on route `r` carries lasts with what is drawn there; negative when it is too little whatever is done. */
  private suitLastsS(r: number): number {
    const { draws } = this.problem;
    let most = NEVER;
    for (let kind = 0; kind < KINDS; kind += 1) {
      if (draws.kindBinds[kind] === 0) continue;
      const left = draws.available[r * KINDS + kind]! - this.drawn[r * KINDS + kind]!;
      const rate = draws.restRate[r * KINDS + kind]!;
      if (left < 0) return -1;
      if (rate > 0) most = Math.min(most, Math.floor(left / rate));
    }
    return most;
  }
}

/** Before any start that can be reached. */
export const NO_FLOOR = 1 - NEVER;

/** Holds that one board can lay; a day that needs more is given up. */
const MOST_HOLDS = 256;
