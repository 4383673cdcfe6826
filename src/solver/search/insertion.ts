import { gridFrom, type Random } from "../../kernel/index.ts";
import { nextStart } from "../problem/starts.ts";
import type { Day } from "../network/day.ts";
import { NEVER, type Problem } from "../problem/problem.ts";

/**
 * Best insertion: where an activity costs least, by slack.
 *
 * Between neighbours p and q on a route it fits when `max(open, E[p] + way) <= min(close, L[q] - way)`, a few additions
 * (Savelsbergh 1992; Vansteenwegen et al. 2009); on k routes at once the greatest arrival meets the least slack (Drexl
 * 2012). The start is moved up to the grid first, on which L already lies, so that the test stays exact. Cost: how much later q gets, plus a quarter of the way added. Where more than slack counts, the few best
 * places are tried for good (Day.tryLink).
 */

/** Places kept for trying where slack alone does not decide. */
const KEPT = 5;
/** Part of the added way in the cost of a place. */
const WAY_SHARE = 0.25;

interface Spot {
  cost: number;
  choice: number;
  readonly behind: Int32Array;
}

/** The places of one route, side by side: what goes before each, what comes after it, and its slack. */
interface Strip {
  version: number;
  count: number;
  readonly slot: Int32Array;
  readonly leftS: Int32Array;
  readonly row: Int32Array;
  readonly latestS: Int32Array;
  readonly column: Int32Array;
  readonly acrossS: Int32Array;
  readonly nextS: Int32Array;
}

export class Insertion {
  private readonly day: Day;
  private readonly problem: Problem;
  private readonly spots: Spot[];
  private found = 0;
  private readonly kept: number;
  private readonly behind: Int32Array;
  private readonly random: Random;
  // The activity in hand.
  private activity = 0;
  private fromS = 0;
  private toS = 0;
  private blink = 0;
  private choice = 0;
  private eva = -1;
  private crew = 0;
  /** Versions of the routes that the search comes back to when it gives a step up. */
  base: Int32Array;
  /** Where slack decides alone: by activity and route the best places found, for two versions of the route. */
  private readonly knownFor: Int32Array;
  private readonly knownCost: Float64Array;
  private readonly knownBehind: Int32Array;
  private readonly strips: readonly Strip[];
  /** Whether the units found last make another activity later. */
  private pushes = false;
  private scanned = 0;
  private scannedBehind = 0;
  /** Extra cost of the best spot taken last, and its start. */
  lastCost = 0;

  constructor(day: Day, random: Random) {
    this.day = day;
    this.problem = day.problem;
    this.random = random;
    const { problem } = day;
    let widest = 4;
    for (let a = 0; a < problem.activities; a += 1)
      widest = Math.max(widest, problem.slotStart[a + 1]! - problem.slotStart[a]!);
    const room = problem.activities + 1;
    this.strips = Array.from({ length: problem.reach === "slack" ? problem.routes : 0 }, () => ({
      version: -1,
      count: 0,
      slot: new Int32Array(room),
      leftS: new Int32Array(room),
      row: new Int32Array(room),
      latestS: new Int32Array(room),
      column: new Int32Array(room),
      acrossS: new Int32Array(room),
      nextS: new Int32Array(room),
    }));
    this.base = day.board.version;
    this.kept = problem.reach === "slack" ? 1 : KEPT;
    this.spots = Array.from({ length: this.kept }, () => ({
      cost: 0,
      choice: 0,
      behind: new Int32Array(widest),
    }));
    this.behind = new Int32Array(widest);
    const size = problem.reach === "slack" ? 2 * problem.activities * problem.routes : 0;
    this.knownFor = new Int32Array(size).fill(-1);
    this.knownCost = new Float64Array(size);
    this.knownBehind = new Int32Array(size);
  }

  /** Places `activity` where it costs least; each place is overlooked with probability `blink`. False: nowhere. */
  place(activity: number, blink: number): boolean {
    if (!this.look(activity, blink)) return false;
    return this.take();
  }

  /** Finds the places of least cost without taking one; false when slack leaves none. */
  look(activity: number, blink: number): boolean {
    const { day, problem } = this;
    const { board } = day;
    this.found = 0;
    this.activity = activity;
    this.blink = blink;
    if (!board.holdsSample(activity) || !this.bounds(activity)) return false;
    this.crew = problem.crewCount[activity]!;
    const end = problem.choiceStart[activity + 1]!;
    for (let c = problem.choiceStart[activity]!; c < end; c += 1) {
      const at = problem.choiceAt[c]!;
      this.choice = c;
      this.eva = this.crew === 0 ? -1 : problem.evaOfRoute[problem.choiceRoutes[at]!]!;
      if (problem.pairs[activity]!.length > 0 && !this.pairsAllow(at)) continue;
      if (problem.reach === "slack") this.onRoute(problem.choiceRoutes[at]!);
      else this.acrossRoutes(0, this.fromS, this.toS, 0);
    }
    return this.found > 0;
  }

  /** Takes the best place found that every rule allows; false when there is none. */
  take(): boolean {
    const { problem, day, activity } = this;
    for (let k = 0; k < this.found; k += 1) {
      const spot = this.spots[k]!;
      const at = problem.choiceAt[spot.choice]!;
      const eva = problem.crewCount[activity] === 0 ? -1 : problem.evaOfRoute[problem.choiceRoutes[at]!]!;
      if (!day.tryLink(activity, spot.behind, eva)) continue;
      this.lastCost = spot.cost;
      return true;
    }
    return false;
  }

  /** Cost of the best place of the last look. */
  leastCost(): number {
    return this.spots[0]!.cost;
  }

  /** Bounds of the start from windows and from edges to what is placed. */
  private bounds(a: number): boolean {
    const { problem } = this;
    const { board } = this.day;
    const { edges } = problem;
    const first = problem.openStart[a]!;
    const end = problem.openStart[a + 1]!;
    if (first === end) return false;
    let fromS = problem.openFromS[first]!;
    let toS = problem.openToS[end - 1]!;
    for (let k = edges.intoStart[a]!; k < edges.intoStart[a + 1]!; k += 1) {
      const x = edges.into[k]!;
      const i = edges.from[x]!;
      if (board.placed[i] === 1) fromS = Math.max(fromS, board.earliest[i]! + edges.weight[x]!);
    }
    for (let k = edges.outStart[a]!; k < edges.outStart[a + 1]!; k += 1) {
      const x = edges.out[k]!;
      const j = edges.to[x]!;
      if (board.placed[j] === 1) toS = Math.min(toS, board.latest[j]! - edges.weight[x]!);
    }
    this.fromS = fromS;
    this.toS = toS;
    return fromS <= toS;
  }

  /** link-crew, link-eva and pairs that exclude each other, against what is placed. */
  private pairsAllow(at: number): boolean {
    const { problem } = this;
    const { board } = this.day;
    for (const { other, asks } of problem.pairs[this.activity]!) {
      if (board.placed[other] === 0) continue;
      if (asks === "not both") return false;
      if (asks === "same eva") {
        if (board.evaOf[other] !== this.eva) return false;
        continue;
      }
      let common = 0;
      const crew = problem.crewCount[other]!;
      for (let k = 0; k < this.crew; k += 1) {
        const member = problem.memberOfRoute[problem.choiceRoutes[at + k]!]!;
        for (let s = 0; s < crew; s += 1) {
          const r = board.lane[problem.slotStart[other]! + s]!;
          if (problem.memberOfRoute[r] === member) common += 1;
        }
      }
      if (asks === "same crew" ? common !== crew : common > 0) return false;
    }
    return true;
  }

  /** Earliest start at or after `atS` that may be chosen; NEVER when there is none. */
  private openAt(atS: number): number {
    return nextStart(this.problem, this.activity, atS) ?? NEVER;
  }

  /**
   * The best place on one route, looked up where the route has not changed since it was found. Overlooking it (blink) means
   * taking the next best one.
   */
  private onRoute(r: number): void {
    let at = 2 * (this.activity * this.problem.routes + r);
    const version = this.day.board.version[r]!;
    if (this.knownFor[at] !== version) at += 1;
    if (this.knownFor[at] !== version) {
      // The place for the order that the search comes back to is kept, the other one makes room.
      if (this.knownFor[at] === this.base[r]) at -= 1;
      this.scan(r, -1);
      this.knownFor[at] = version;
      this.knownCost[at] = this.scanned;
      this.knownBehind[at] = this.scannedBehind;
    }
    let cost = this.knownCost[at]!;
    let behind = this.knownBehind[at]!;
    if (cost === Infinity) return;
    if (this.blink > 0 && this.random.next() < this.blink) {
      this.scan(r, behind);
      cost = this.scanned;
      behind = this.scannedBehind;
      if (cost === Infinity) return;
    }
    if (this.found === 1 && cost >= this.spots[0]!.cost) return;
    this.behind[0] = behind;
    this.keep(cost);
  }

  /** Finds the best place on one route but the one behind slot `but`; into `scanned` and `scannedBehind`. */
  private scan(r: number, but: number): void {
    const { problem, activity, fromS, toS } = this;
    const { places, legM, gridS } = problem;
    const strip = this.stripOf(r);
    const { slot, leftS, row, latestS, column, acrossS, nextS } = strip;
    const legs = problem.legS[r]!;
    const begin = problem.beginsAt[activity]!;
    const own = problem.endsAt[activity]! * places;
    const lasts = problem.lengthS[activity]!;
    const doneS = fromS + lasts;
    const first = problem.openStart[activity]!;
    const oneOpening = problem.openStart[activity + 1]! - first === 1;
    const opensS = problem.openFromS[first]!;
    const spareM = problem.limits.evaM - this.day.board.walkedM[r]! - problem.innerM[activity]!;
    this.scanned = Infinity;
    for (let k = 0; k < strip.count; k += 1) {
      const byS = latestS[k]!;
      if (byS < doneS) continue;
      const goesS = leftS[k]!;
      if (goesS > toS) return;
      const intoS = legs[row[k]! + begin]!;
      let startS = goesS + intoS;
      if (startS < fromS) startS = fromS;
      if (startS > toS) continue;
      const outS = legs[own + column[k]!]!;
      if (startS + lasts + outS > byS) continue;
      if (!oneOpening) startS = this.openAt(startS);
      else if (startS > opensS) startS = gridFrom(startS, gridS);
      const arrivesS = startS + lasts + outS;
      const laterS = arrivesS > nextS[k]! ? arrivesS - nextS[k]! : 0;
      const cost = laterS + WAY_SHARE * (intoS + outS - acrossS[k]!);
      if (cost >= this.scanned || slot[k] === but || startS > toS || arrivesS > byS) continue;
      const wayM = legM[row[k]! + begin]! + legM[own + column[k]!]! - legM[row[k]! + column[k]!]!;
      if (wayM > spareM) continue;
      this.scanned = cost;
      this.scannedBehind = slot[k]!;
    }
  }

  /** Route `r` laid out flat for scanning, made anew when its order has changed. */
  private stripOf(r: number): Strip {
    const { problem } = this;
    const { board } = this.day;
    const strip = this.strips[r]!;
    if (strip.version === board.version[r]) return strip;
    const { next, nodeOf, earliest, latest } = board;
    const { lengthS, endsAt, beginsAt, places } = problem;
    const legs = problem.legS[r]!;
    const tail = board.tail + r;
    let k = 0;
    for (let p = board.head + r; p !== tail; p = next[p]!) {
      const q = next[p]!;
      const i = nodeOf[p]!;
      const j = nodeOf[q]!;
      strip.slot[k] = p;
      strip.leftS[k] = earliest[i]! + lengthS[i]!;
      strip.row[k] = endsAt[i]! * places;
      strip.latestS[k] = latest[j]!;
      strip.column[k] = beginsAt[j]!;
      strip.acrossS[k] = legs[strip.row[k]! + strip.column[k]!]!;
      strip.nextS[k] = q === tail ? strip.leftS[k]! + strip.acrossS[k]! : earliest[j]!;
      k += 1;
    }
    strip.count = k;
    strip.version = board.version[r]!;
    return strip;
  }

  /** All places on several routes at once, route by route. */
  private acrossRoutes(level: number, startS: number, byS: number, cost: number): void {
    const { problem, activity } = this;
    if (level === this.crew) {
      const openS = this.openAt(startS);
      if (openS > byS) return;
      let laterS = 0;
      const { board } = this.day;
      const at = problem.choiceAt[this.choice]!;
      for (let k = 0; k < this.crew; k += 1) {
        const p = this.behind[k]!;
        const q = board.next[p]!;
        const i = board.nodeOf[p]!;
        const j = board.nodeOf[q]!;
        const legs = problem.legS[problem.choiceRoutes[at + k]!]!;
        const to = problem.beginsAt[j]!;
        const arrivesS =
          openS + problem.lengthS[activity]! + legs[problem.endsAt[activity]! * problem.places + to]!;
        const nowS =
          q >= board.tail
            ? board.earliest[i]! + problem.lengthS[i]! + legs[problem.endsAt[i]! * problem.places + to]!
            : board.earliest[j]!;
        if (arrivesS > nowS) laterS += arrivesS - nowS;
      }
      const whole = cost + laterS;
      if (this.blink > 0 && this.random.next() < this.blink) return;
      this.withUnits(openS, byS, whole);
      return;
    }
    const { board } = this.day;
    const { next, nodeOf, earliest, latest } = board;
    const { lengthS, endsAt, beginsAt, places, legM } = problem;
    const r = problem.choiceRoutes[problem.choiceAt[this.choice]! + level]!;
    const legs = problem.legS[r]!;
    const row = endsAt[activity]! * places;
    const begin = beginsAt[activity]!;
    const spareM = problem.limits.evaM - board.walkedM[r]! - problem.innerM[activity]!;
    const tail = board.tail + r;
    for (let p = board.head + r; p !== tail; p = next[p]!) {
      const q = next[p]!;
      const i = nodeOf[p]!;
      const j = nodeOf[q]!;
      const leftS = earliest[i]! + lengthS[i]!;
      if (leftS > byS) return;
      const before = endsAt[i]! * places;
      const to = beginsAt[j]!;
      const intoS = legs[before + begin]!;
      const outS = legs[row + to]!;
      const meetS = Math.max(startS, leftS + intoS);
      const endS = Math.min(byS, latest[j]! - lengthS[activity]! - outS);
      if (meetS > endS) continue;
      if (legM[before + begin]! + legM[row + to]! - legM[before + to]! > spareM) continue;
      this.behind[level] = p;
      this.acrossRoutes(level + 1, meetS, endS, cost + WAY_SHARE * (intoS + outS - legs[before + to]!));
    }
  }

  /** Adds the units of equipment to a place: for each the chain gaps that are free first. */
  private withUnits(startS: number, byS: number, cost: number): void {
    const { problem, activity } = this;
    const first = problem.slotStart[activity]!;
    const count = problem.slotStart[activity + 1]! - first;
    if (count === this.crew) {
      this.keep(cost);
      return;
    }
    let atS = startS;
    // A unit that is free later may make the start later; then all have to be found free again.
    for (let round = 0; round < 8; round += 1) {
      const freeS = this.standInChains(atS, false);
      if (freeS > byS) return;
      if (freeS === atS) {
        this.keep(cost + (atS - startS));
        if (this.pushes && this.standInChains(atS, true) === atS) this.keep(cost + (atS - startS));
        return;
      }
      atS = this.openAt(freeS);
      if (atS > byS) return;
    }
  }

  /**
   * Puts each unit slot into the chain gap that is free soonest at or after `atS`, where it is `gently` without making anything later;
   * gives when all of them are.
   */
  private standInChains(atS: number, gently: boolean): number {
    const { problem, activity } = this;
    const { board } = this.day;
    const { next, nodeOf, earliest, latest } = board;
    const first = problem.slotStart[activity]!;
    const count = problem.slotStart[activity + 1]! - first;
    const lasts = problem.lengthS[activity]!;
    let allS = atS;
    this.pushes = false;
    for (let k = this.crew; k < count; k += 1) {
      const equipment = problem.slotEquipment[first + k]!;
      let bestS = NEVER;
      let best = -1;
      for (let c = problem.chainStart[equipment]!; c < problem.chainStart[equipment + 1]!; c += 1) {
        const head = board.head + problem.routes + c;
        if (this.takenBy(k, head)) continue;
        const tail = board.tail + problem.routes + c;
        for (let p = head; p !== tail; p = next[p]!) {
          const i = nodeOf[p]!;
          const freeS = p === head ? atS : Math.max(atS, earliest[i]! + problem.lengthS[i]!);
          if (freeS >= bestS) break;
          const q = next[p]!;
          if (q !== tail && freeS + lasts > (gently ? earliest : latest)[nodeOf[q]!]!) continue;
          bestS = freeS;
          best = p;
          break;
        }
      }
      if (best < 0) return NEVER;
      this.behind[k] = best;
      allS = Math.max(allS, bestS);
      if (board.next[best]! < board.tail && bestS + lasts > earliest[nodeOf[next[best]!]!]!)
        this.pushes = true;
    }
    return allS;
  }

  /** True when an earlier unit slot of this place already stands in the chain with this head. */
  private takenBy(k: number, head: number): boolean {
    const { board } = this.day;
    for (let before = this.crew; before < k; before += 1)
      if (board.lane[this.behind[before]!] === board.lane[head]) return true;
    return false;
  }

  private keep(cost: number): void {
    const { spots } = this;
    let at = this.found;
    if (at === this.kept) {
      at -= 1;
      if (cost >= spots[at]!.cost) return;
    } else this.found += 1;
    const spot = spots[at]!;
    spot.cost = cost;
    spot.choice = this.choice;
    const count = this.problem.slotStart[this.activity + 1]! - this.problem.slotStart[this.activity]!;
    for (let k = 0; k < count; k += 1) spot.behind[k] = this.behind[k]!;
    for (; at > 0 && spots[at - 1]!.cost > spots[at]!.cost; at -= 1) {
      const lower = spots[at]!;
      spots[at] = spots[at - 1]!;
      spots[at - 1] = lower;
    }
  }
}
