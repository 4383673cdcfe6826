import { gridFrom, type Random } from "../../kernel/index.ts";
import { nextStart } from "../problem/starts.ts";
import type { Day } from "../network/day.ts";
import { NO_FLOOR } from "../network/board.ts";
import { pairsAllow } from "../network/rules/pairs.ts";
import { Linger } from "./linger.ts";
import { Outlook } from "./outlook.ts";
import { Refusals } from "./refusals.ts";
import { Spans } from "./spans.ts";
import { Strips } from "./strips.ts";
import { Units } from "./units.ts";
import { type FromEgress, NEVER, type Problem } from "../problem/problem.ts";

/**
 * Best insertion: where an activity costs least, by slack.
 *
 * Between neighbours p and q on a route it fits when `max(open, E[p] + way) <= min(close, L[q] - way)`, a few additions
 * (Savelsbergh 1992; Vansteenwegen et al. 2009); on k routes at once the greatest arrival meets the least slack (Drexl
 * 2012). The start is moved up to the grid first, on which L already lies, so that the test stays exact. Cost: how much later q gets, plus a quarter of the way added. Where more than slack counts, the few best
 * places are tried for good: with all rests and holds of their EVA worked out anew (Day.tryLink), or quickly, beside those that are
 * taken (Day.tryBeside).
 */

/** Places kept for trying where slack alone does not decide. */
const KEPT = 3;
/** Part of the places refused by a rule that are tried once more with a later start. */
const LATER = 0.25;
/** Part of the added way in the cost of a place. */
const WAY_SHARE = 0.25;

interface CandidatePlace {
  cost: number;
  choice: number;
  readonly behind: Int32Array;
}

export class Insertion {
  private readonly day: Day;
  private readonly quick: boolean;
  private readonly problem: Problem;
  private readonly linger: Linger | null;
  private readonly refusals = new Refusals();
  /** What an EVA takes at the least, where places are tried beside what stands. */
  private readonly spans: Spans | null;
  /** 1 for activities whose place on an EVA depends on that EVA alone: no links, no shared equipment. */
  private readonly standsAlone: Uint8Array;
  /** By activity and EVA: the order on it at which the activity fitted nowhere; other EVAs may have moved meanwhile. */
  private readonly fullAt: Int32Array;
  /** By EVA: 1 where the activity in hand fits, or was overlooked. */
  private readonly fits: Uint8Array;
  private readonly candidates: CandidatePlace[];
  private found = 0;
  private readonly kept: number;
  private readonly behind: Int32Array;
  /** Where in the strips of the routes the places in hand are. */
  private readonly places: Int32Array;
  private readonly random: Random;
  // The activity in hand.
  private activity = 0;
  private fromS = 0;
  private toS = 0;
  private blink = 0;
  private choice = 0;
  private eva = -1;
  private crew = 0;
  private slots = 0;
  /** Versions of the routes that the search comes back to when it gives a step up. */
  base: Int32Array;
  /** Where slack decides alone: by activity and route the best places found, for two versions of the route. */
  private readonly knownFor: Int32Array;
  private readonly knownCost: Float64Array;
  private readonly knownBehind: Int32Array;
  private readonly strips: Strips;
  private readonly units: Units;
  private readonly outlook: Outlook;
  private scanned = 0;
  private scannedBehind = 0;
  /** The one EVA on which places are looked for; -1 for any, and for what needs nobody. */
  onlyEva = -1;

  constructor(day: Day, random: Random, quick = false) {
    this.day = day;
    this.quick = quick;
    const isTriedBeside = quick && day.problem.checkLevel === "rules";
    this.linger = isTriedBeside ? new Linger(day.board, random) : null;
    this.spans = isTriedBeside ? new Spans(day.board) : null;
    this.problem = day.problem;
    this.random = random;
    const { problem } = day;
    let widest = 4;
    for (let a = 0; a < problem.activities; a += 1)
      widest = Math.max(widest, problem.slotStart[a + 1]! - problem.slotStart[a]!);
    this.standsAlone = Uint8Array.from({ length: problem.activities }, (_, a) =>
      isAlone(problem, a) ? 1 : 0,
    );
    this.fullAt = new Int32Array(quick ? problem.activities * problem.evas : 0).fill(-1);
    this.fits = new Uint8Array(problem.evas);
    this.strips = new Strips(day.board);
    this.units = new Units(day.board);
    this.base = day.board.version;
    this.kept = problem.checkLevel === "slack" ? 1 : KEPT;
    this.candidates = Array.from({ length: this.kept }, () => ({
      cost: 0,
      choice: 0,
      behind: new Int32Array(widest),
    }));
    this.behind = new Int32Array(widest);
    this.places = new Int32Array(widest);
    this.outlook = new Outlook(day.board, this.strips, this.behind, this.places);
    const size = problem.checkLevel === "slack" ? 2 * problem.activities * problem.routes : 0;
    this.knownFor = new Int32Array(size).fill(-1);
    this.knownCost = new Float64Array(size);
    this.knownBehind = new Int32Array(size);
  }

  /** Places `activity` where it costs least; each place is overlooked with probability `blink`. False: nowhere. */
  place(activity: number, blink: number): boolean {
    if (!this.view(activity, blink)) return false;
    return this.take();
  }

  /** Finds the places of least cost without taking one; false when slack leaves none. */
  view(activity: number, blink: number): boolean {
    const { day, problem } = this;
    const { board } = day;
    this.found = 0;
    this.activity = activity;
    this.blink = blink;
    if (board.isOver(activity) || !this.bounds(activity)) return false;
    this.crew = problem.crewCount[activity]!;
    this.slots = problem.slotStart[activity + 1]! - problem.slotStart[activity]!;
    const end = problem.choiceStart[activity + 1]!;
    const remembers = this.quick && this.standsAlone[activity] === 1;
    if (remembers) this.fits.fill(0);
    for (let c = problem.choiceStart[activity]!; c < end; c += 1) {
      const at = problem.choiceAt[c]!;
      this.choice = c;
      this.eva = this.crew === 0 ? -1 : problem.evaOfRoute[problem.choiceRoutes[at]!]!;
      if (this.isPassedOver(remembers)) continue;
      if (problem.pairs[activity]!.length > 0 && !pairsAllow(board, activity, c)) continue;
      this.onChoice(at);
    }
    if (remembers) this.noteFull();
    return this.found > 0;
  }

  /** True where the EVA in hand is not to be looked at, or is remembered as full for the activity in hand. */
  private isPassedOver(remembers: boolean): boolean {
    const { eva, onlyEva, problem } = this;
    if (onlyEva < 0 || eva === onlyEva)
      return remembers && this.fullAt[this.activity * problem.evas + eva] === this.orderOn(eva);
    // What was not looked at is not full.
    if (remembers) this.fits[eva] = 1;
    return true;
  }

  /** The places of the crew choice in hand, whose routes begin at number `at`. */
  private onChoice(at: number): void {
    const { problem, eva } = this;
    if (problem.checkLevel === "slack") this.onRoute(problem.choiceRoutes[at]!);
    else if (problem.pet && eva >= 0 && this.day.board.onEva[eva]! > 0) this.fromEgress(problem.pet);
    else this.acrossRoutes(0, this.fromS, this.toS, 0);
  }

  /** A number for the order on EVA `e`, what other EVAs leave it of time, and when the activity in hand may begin. */
  private orderOn(e: number): number {
    const { problem } = this;
    const { evaVersion, earliest, latest } = this.day.board;
    const egress = problem.activities + 2 * e;
    let hash = Math.imul(evaVersion[e]!, 0x85ebca6b);
    hash = Math.imul(hash ^ earliest[egress]!, 0xc2b2ae35) ^ latest[egress + 1]!;
    return Math.imul(hash ^ this.fromS, 0x27d4eb2f) ^ Math.imul(this.toS, 0x165667b1);
  }

  /** Remembers the EVAs on which the activity in hand fits nowhere. */
  private noteFull(): void {
    const { problem, activity } = this;
    for (let e = 0; e < problem.evas; e += 1)
      if (this.fits[e] === 0) this.fullAt[activity * problem.evas + e] = this.orderOn(e);
  }

  /** Takes the best place found that every rule allows; false when there is none. */
  take(): boolean {
    const { problem, day, activity } = this;
    for (let k = 0; k < this.found; k += 1) {
      const candidate = this.candidates[k]!;
      const at = problem.choiceAt[candidate.choice]!;
      const eva = problem.crewCount[activity] === 0 ? -1 : problem.evaOfRoute[problem.choiceRoutes[at]!]!;
      if (this.holds(candidate, eva)) return true;
      // What is short over all EVAs may be enough once another one is shorter.
      if (this.quick && eva >= 0 && day.broke !== "totals")
        this.refusals.note(this.orderOn(eva), activity, candidate.behind, this.slots);
    }
    return false;
  }

  /** Takes a place where every rule allows it, perhaps with a later start; not tried where the EVA gets too long for sure. */
  private holds(candidate: CandidatePlace, eva: number): boolean {
    const { day, activity, spans } = this;
    if (spans && eva >= 0 && !spans.mayHold(activity, candidate.behind, eva)) {
      day.broke = "time";
      return false;
    }
    const taken = this.quick
      ? day.tryBeside(activity, candidate.behind, eva)
      : day.tryLink(activity, candidate.behind, eva);
    return taken || this.placesLater(candidate, eva);
  }

  /** Where a rule refused a place: sometimes tries it there with a start that is later on purpose. */
  private placesLater(candidate: CandidatePlace, eva: number): boolean {
    const { day, activity, linger, random } = this;
    if (!linger || eva < 0 || day.broke === "time" || random.next() >= LATER) return false;
    day.board.floorS[activity] = linger.laterStartS(activity, candidate.behind[0]!);
    if (day.tryBeside(activity, candidate.behind, eva)) return true;
    day.board.floorS[activity] = NO_FLOOR;
    return false;
  }

  /** Cost of the best place of the last look. */
  leastCost(): number {
    return this.candidates[0]!.cost;
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
    if (this.found === 1 && cost >= this.candidates[0]!.cost) return;
    this.behind[0] = behind;
    this.keep(cost);
  }

  /** Finds the best place on one route but the one behind slot `but`; into `scanned` and `scannedBehind`. */
  // eslint-disable-next-line sonarjs/cognitive-complexity -- the innermost loop: split, the search loses three iterations in a hundred
  private scan(r: number, but: number): void {
    const { problem, activity, fromS, toS } = this;
    const { places, legM, gridS } = problem;
    const strip = this.strips.of(r);
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

  /** As acrossRoutes, inside the window that counts from an egress which may be from its earliest to its latest. */
  private fromEgress({ fromS, toS }: FromEgress): void {
    const { problem, activity } = this;
    const { earliest, latest } = this.day.board;
    const egress = problem.activities + 2 * this.eva;
    const byS = latest[egress]! + toS[activity]! - problem.lengthS[activity]!;
    this.acrossRoutes(
      0,
      Math.max(this.fromS, earliest[egress]! + fromS[activity]!),
      Math.min(this.toS, byS),
      0,
    );
  }

  /** All places on several routes at once, route by route. */
  private acrossRoutes(level: number, startS: number, byS: number, cost: number): void {
    if (level === this.crew) {
      this.hereOnAll(startS, byS, cost);
      return;
    }
    const { problem, activity } = this;
    const { places, legM } = problem;
    const r = problem.choiceRoutes[problem.choiceAt[this.choice]! + level]!;
    const { count, slot, leftS, row, latestS, column, acrossS } = this.strips.of(r);
    const legs = problem.legS[r]!;
    const own = problem.endsAt[activity]! * places;
    const begin = problem.beginsAt[activity]!;
    const lasts = problem.lengthS[activity]!;
    const spareM = problem.limits.evaM - this.day.board.walkedM[r]! - problem.innerM[activity]!;
    for (let k = 0; k < count; k += 1) {
      if (leftS[k]! > byS) return;
      const into = row[k]! + begin;
      const out = own + column[k]!;
      const meetS = Math.max(startS, leftS[k]! + legs[into]!);
      const endS = Math.min(byS, latestS[k]! - lasts - legs[out]!);
      if (meetS > endS) continue;
      if (legM[into]! + legM[out]! - legM[row[k]! + column[k]!]! > spareM) continue;
      this.behind[level] = slot[k]!;
      this.places[level] = k;
      const wayS = legs[into]! + legs[out]! - acrossS[k]!;
      this.acrossRoutes(level + 1, meetS, endS, cost + WAY_SHARE * wayS);
    }
  }

  /** A place on each of the routes: what it makes later, and its units. */
  private hereOnAll(startS: number, byS: number, cost: number): void {
    const { problem, activity } = this;
    const openS = this.openAt(startS);
    if (openS > byS) return;
    const doneS = openS + problem.lengthS[activity]!;
    const own = problem.endsAt[activity]! * problem.places;
    const at = problem.choiceAt[this.choice]!;
    let laterS = 0;
    for (let level = 0; level < this.crew; level += 1) {
      const r = problem.choiceRoutes[at + level]!;
      const strip = this.strips.at(r);
      const k = this.places[level]!;
      const arrivesS = doneS + problem.legS[r]![own + strip.column[k]!]!;
      if (arrivesS > strip.nextS[k]!) laterS += arrivesS - strip.nextS[k]!;
    }
    if (this.blink > 0 && this.random.next() < this.blink) {
      this.fits[this.eva] = 1;
      return;
    }
    const whole = cost + laterS;
    if (this.found === this.kept && whole >= this.candidates[this.kept - 1]!.cost) {
      this.fits[this.eva] = 1;
      return;
    }
    if (this.quick && this.crew > 0) {
      if (!this.outlook.lastsLongEnough(activity, at, openS, byS)) return;
      if (problem.limits.apartM < Infinity && !this.outlook.othersComeNear(activity, at, openS, byS)) return;
    }
    this.withUnits(openS, byS, whole);
  }

  /** Adds the units of equipment to a place: for each the chain gaps that are free first. */
  private withUnits(startS: number, byS: number, cost: number): void {
    const { activity, behind, units } = this;
    if (this.slots === this.crew) {
      this.keep(cost);
      return;
    }
    let atS = startS;
    // A unit that is free later may make the start later; then all have to be found free again.
    for (let round = 0; round < 8; round += 1) {
      const freeS = units.putIn(activity, behind, atS, false);
      if (freeS > byS) return;
      if (freeS === atS) {
        this.keep(cost + (atS - startS));
        if (units.pushes && units.putIn(activity, behind, atS, true) === atS)
          this.keep(cost + (atS - startS));
        return;
      }
      atS = this.openAt(freeS);
      if (atS > byS) return;
    }
  }

  private keep(cost: number): void {
    const { candidates, eva } = this;
    let at = this.found;
    if (at === this.kept) {
      at -= 1;
      if (cost >= candidates[at]!.cost) {
        this.fits[eva] = 1;
        return;
      }
    }
    if (this.quick && eva >= 0) {
      const version = this.orderOn(eva);
      if (this.refusals.knows(version, this.activity, this.behind, this.slots)) return;
    }
    this.fits[eva] = 1;
    if (this.found < this.kept) this.found += 1;
    const candidate = candidates[at]!;
    candidate.cost = cost;
    candidate.choice = this.choice;
    for (let k = 0; k < this.slots; k += 1) candidate.behind[k] = this.behind[k]!;
    for (; at > 0 && candidates[at - 1]!.cost > candidates[at]!.cost; at -= 1) {
      const lower = candidates[at]!;
      candidates[at] = candidates[at - 1]!;
      candidates[at - 1] = lower;
    }
  }
}

function isAlone(problem: Problem, a: number): boolean {
  const { edges, needs, pairs, slotStart, crewCount } = problem;
  return (
    crewCount[a]! > 0 &&
    slotStart[a + 1]! - slotStart[a]! === crewCount[a] &&
    edges.outStart[a] === edges.outStart[a + 1] &&
    edges.intoStart[a] === edges.intoStart[a + 1] &&
    needs[a]!.length + pairs[a]!.length === 0
  );
}
