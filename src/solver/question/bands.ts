import type { FitBand } from "../../answers/index.ts";
import { instant, intersect, type Instant, type Interval, normalise } from "../../kernel/index.ts";
import type { Plan, Schedule } from "../../plan/index.ts";
import { compiled } from "../problem/known.ts";
import { openingsOfActivity } from "../problem/starts.ts";
import type { Problem } from "../problem/problem.ts";
import { egressS } from "../network/rules/outing.ts";
import { slidingBand } from "../network/sliding.ts";
import { read, type PlacedActivity, Verifier } from "../network/verify.ts";
import { Trial } from "./trial/trial.ts";

/**
 * Every start on every lane (crew members and EVA) where `task` fits beside the rest of `schedule`. What is broken without the
 * task does not count against it. Unknown task: no bands.
 *
 * Between neighbours the bands are worked out; rules on the whole day are then tested at both ends of each stretch, where
 * the task touches a rest or an end of the EVA, and inside at least once in GRAIN_S; where the answer changes, the border is
 * found to the second.
 */
export function fitBands(plan: Plan, schedule: Schedule, task: string): FitBand[] {
  return new Bands(compiled(plan, schedule), schedule).of(task);
}

/** Longest stretch that is believed to be like both its ends without a look inside, s. */
const GRAIN_S = 60;

/** Bands of tasks beside one schedule. */
export class Bands {
  private readonly problem: Problem;
  private readonly verifier: Verifier;
  private readonly schedule: Schedule;

  constructor(problem: Problem, schedule: Schedule) {
    this.problem = problem;
    this.verifier = new Verifier(problem);
    this.schedule = schedule;
  }

  of(task: string): FitBand[] {
    const { problem } = this;
    const { plan } = problem;
    const a = plan.tasks.findIndex((one) => one.id === task);
    if (a < 0) return [];
    const others = { placements: this.schedule.placements.filter((one) => one.task !== task) };
    const sliding = Trial.of(problem, others);
    const bands: FitBand[] = [];
    const { fixed, related } = this.beside(a, others);
    for (let c = problem.choiceStart[a]!; c < problem.choiceStart[a + 1]!; c += 1) {
      const at = problem.choiceAt[c]!;
      const crew = problem.crewCount[a]!;
      const routes = Array.from({ length: crew }, (_, k) => problem.choiceRoutes[at + k]!);
      const here = fixed(c);
      bands.push({
        eva: crew === 0 ? null : plan.evas[problem.evaOfRoute[routes[0]!]!]!.id,
        crew: routes.map((r) => plan.crew[problem.memberOfRoute[r]!]!.id),
        fixed: here,
        sliding: sliding && related(c) ? normalise(slidingBand(sliding.day, a, c, here)) : here,
      });
    }
    return bands;
  }

  /**
   * With all others where they are: `fixed`, the stretches of the start on a crew choice, and `related`, whether that choice
   * keeps all links that are not about time.
   */
  private beside(
    a: number,
    others: Schedule,
  ): { readonly fixed: (c: number) => Interval[]; readonly related: (c: number) => boolean } {
    const { problem, verifier } = this;
    const { placings } = read(problem, others);
    const broken = new Set<string>();
    verifier.test(placings, (rule, about) => {
      broken.add(`${rule} ${about}`);
      return true;
    });
    const known = (rule: string, about: number): boolean => broken.has(`${rule} ${about}`);
    const anywhere = normalise(this.whenever(a, placings));
    const fixed = (c: number): Interval[] => {
      let starts = anywhere;
      const at = problem.choiceAt[c]!;
      for (let k = 0; k < problem.crewCount[a]!; k += 1)
        starts = intersect(starts, this.between(a, problem.choiceRoutes[at + k]!));
      const fits = (startS: number): boolean => {
        let fresh = false;
        verifier.testWith({ activity: a, choice: c, startS }, (rule, about) => {
          fresh = !known(rule, about);
          return !fresh;
        });
        return !fresh;
      };
      const touching = this.touching(a, c);
      return normalise(starts.flatMap((stretch) => borders(stretch, touching, fits)));
    };
    const related = (c: number): boolean => {
      let holds = true;
      // Links come first in the verifier's order, whatever the start; the first other fault ends it.
      verifier.testWith({ activity: a, choice: c, startS: 0 }, (rule, about) => {
        if (rule !== "link" && rule !== "link-needs") return false;
        if (!known(rule, about)) holds = false;
        return holds;
      });
      return holds;
    };
    return { fixed, related };
  }

  /**
   * Starts at which choice `c` gains or loses a rest beside a neighbour, begins to move an end of the EVA, or meets an end of its window from egress: the whole day may
   * hold there and nowhere near.
   */
  private touching(a: number, c: number): number[] {
    const { problem, verifier } = this;
    const board = verifier.laid;
    const { beginsAt, endsAt, lengthS, places, lander, limits } = problem;
    const at = problem.choiceAt[c]!;
    const crew = problem.crewCount[a]!;
    const list: number[] = [];
    for (let k = 0; k < crew; k += 1) {
      const r = problem.choiceRoutes[at + k]!;
      const e = problem.evaOfRoute[r]!;
      const legs = problem.legS[r]!;
      if (board.onEva[e] === 0) continue;
      const egress = problem.activities + 2 * e;
      const outS = egressS(board, e) + lengthS[egress]!;
      list.push(outS + legs[lander * places + beginsAt[a]!]!);
      if (problem.pet) {
        const goesS = egressS(board, e);
        list.push(goesS + problem.pet.fromS[a]!, goesS + problem.pet.toS[a]! - lengthS[a]!);
      }
      list.push(board.earliest[egress + 1]! - legs[endsAt[a]! * places + lander]! - lengthS[a]!);
      if (limits.workS === Infinity) continue;
      for (let p = board.head + r; p !== board.tail + r; p = board.next[p]!) {
        const i = board.nodeOf[p]!;
        const j = board.nodeOf[board.next[p]!]!;
        const leftS = p >= board.head ? outS : board.earliest[i]! + lengthS[i]!;
        const nextS = board.earliest[j]!;
        list.push(leftS + legs[endsAt[i]! * places + beginsAt[a]!]! + limits.restS);
        list.push(nextS - legs[endsAt[a]! * places + beginsAt[j]!]! - lengthS[a]! - limits.restS);
      }
    }
    return list.sort((x, y) => x - y);
  }

  /** Starts that windows, lags to what is placed and equipment allow. */
  private whenever(a: number, placings: readonly PlacedActivity[]): Interval[] {
    const { problem } = this;
    const { edges } = problem;
    const startOf = new Map(placings.map((placing) => [placing.activity, placing.startS]));
    let fromS = -Infinity;
    let toS = Infinity;
    for (let x = 0; x < edges.from.length; x += 1) {
      if (edges.to[x] === a)
        fromS = Math.max(fromS, (startOf.get(edges.from[x]!) ?? -Infinity) + edges.weight[x]!);
      if (edges.from[x] === a)
        toS = Math.min(toS, (startOf.get(edges.to[x]!) ?? Infinity) - edges.weight[x]!);
    }
    const free: Interval[] = [];
    for (const window of openingsOfActivity(problem.windows, a)) {
      const low = Math.max(fromS, window.fromS);
      const high = Math.min(toS, window.toS);
      if (low <= high) free.push(...this.withEquipment(a, placings, low, high));
    }
    return free;
  }

  /** Starts from `low` to `high` at which no equipment is asked for more than there is. */
  private withEquipment(
    a: number,
    placings: readonly PlacedActivity[],
    low: number,
    high: number,
  ): Interval[] {
    const { problem } = this;
    const use = problem.plan.tasks[a]!.equipment;
    const lasts = problem.lengthS[a]!;
    const needed = new Map<string, number>();
    for (const one of use) needed.set(one.equipment, (needed.get(one.equipment) ?? 0) + one.count);
    let barred: Interval[] = [];
    for (const [equipment, count] of needed) {
      const spare = problem.plan.equipment.find((one) => one.id === equipment)!.count - count;
      const uses = placings.flatMap((placing) => {
        const taken = problem.plan.tasks[placing.activity]!.equipment.filter(
          (one) => one.equipment === equipment,
        ).reduce((sum, one) => sum + one.count, 0);
        const endS = placing.startS + problem.lengthS[placing.activity]!;
        return taken > 0 && endS > placing.startS ? [{ startS: placing.startS, endS, taken }] : [];
      });
      for (const { startS } of uses) {
        const during = uses.filter((one) => one.startS <= startS && startS < one.endS);
        if (during.reduce((sum, one) => sum + one.taken, 0) <= spare) continue;
        const endS = Math.min(...during.map((one) => one.endS));
        if (lasts > 0) barred.push(span(startS - lasts + 1, endS));
      }
    }
    barred = normalise(barred);
    let free: Interval[] = [span(low, high + 1)];
    for (const bar of barred)
      free = free.flatMap((one) => [
        ...(one.startS < bar.startS ? [span(one.startS, Math.min(one.endS, bar.startS))] : []),
        ...(bar.endS < one.endS ? [span(Math.max(one.startS, bar.endS), one.endS)] : []),
      ]);
    return free;
  }

  /** Starts between neighbours on route `r`, ways walked. */
  private between(a: number, r: number): Interval[] {
    const { problem, verifier } = this;
    const board = verifier.laid;
    const { beginsAt, endsAt, lengthS, places } = problem;
    const legs = problem.legS[r]!;
    const e = problem.evaOfRoute[r]!;
    const egress = problem.activities + 2 * e;
    const first = problem.gapStart[e]!;
    const last = problem.gapStart[e + 1]! - 1;
    if (last < first) return [];
    const outFromS = problem.gapFromS[first]!;
    const backByS = problem.gapToS[last]! - lengthS[egress + 1]!;
    const list: Interval[] = [];
    for (let p = board.head + r; p !== board.tail + r; p = board.next[p]!) {
      const q = board.next[p]!;
      const i = board.nodeOf[p]!;
      const j = board.nodeOf[q]!;
      const leftS = (p >= board.head ? outFromS : board.earliest[i]!) + lengthS[i]!;
      const nextS = q >= board.tail ? backByS : board.earliest[j]!;
      const fromS = leftS + legs[endsAt[i]! * places + beginsAt[a]!]!;
      const toS = nextS - legs[endsAt[a]! * places + beginsAt[j]!]! - lengthS[a]!;
      if (fromS <= toS) list.push(span(fromS, toS + 1));
    }
    return normalise(list);
  }
}

function span(startS: number, endS: number): Interval {
  return { startS: instant(startS), endS: instant(endS) };
}

/** The parts of `stretch` where `fits` holds, borders to the second; `touching` are ascending starts to look at besides. */
function borders(
  stretch: Interval,
  touching: readonly number[],
  fits: (startS: number) => boolean,
): Interval[] {
  const parts: { startS: Instant; endS: Instant }[] = [];
  const add = (fromS: number, toS: number): void => {
    parts.push(span(fromS, toS + 1));
  };
  const search = (lowS: number, lowFits: boolean, highS: number, highFits: boolean): void => {
    if (highS - lowS <= 1 || (lowFits === highFits && highS - lowS <= GRAIN_S)) {
      if (lowFits) add(lowS, highFits ? highS : lowS);
      else if (highFits) add(highS, highS);
      return;
    }
    const middleS = Math.floor((lowS + highS) / 2);
    const middleFits = fits(middleS);
    search(lowS, lowFits, middleS, middleFits);
    search(middleS, middleFits, highS, highFits);
  };
  let lowS: number = stretch.startS;
  let lowFits = fits(lowS);
  const lastS = stretch.endS - 1;
  for (const highS of [...touching.filter((one) => one > lowS && one < lastS), lastS]) {
    if (highS === lowS && highS !== lastS) continue;
    const highFits = fits(highS);
    // Both ends of a piece may be such starts, and nothing between them.
    const middleS = Math.floor((lowS + highS) / 2);
    const middleFits = middleS === lowS ? lowFits : fits(middleS);
    search(lowS, lowFits, middleS, middleFits);
    search(middleS, middleFits, highS, highFits);
    lowS = highS;
    lowFits = highFits;
  }
  return parts;
}
