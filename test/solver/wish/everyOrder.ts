import { duration, random } from "../../../src/kernel/index.ts";
import type { Plan } from "../../../src/plan/index.ts";
import { type Board, NO_FLOOR } from "../../../src/solver/network/board.ts";
import { Day } from "../../../src/solver/network/day.ts";
import { compile } from "../../../src/solver/problem/compile.ts";
import type { Problem } from "../../../src/solver/problem/problem.ts";
import { Count } from "../../../src/solver/simulate/count.ts";
import type { Seen } from "../../../src/solver/simulate/seen.ts";
import { acting } from "../../../src/solver/simulate/crew.ts";
import { Days, type DaySample } from "../../../src/solver/simulate/days.ts";
import { Player } from "../../../src/solver/simulate/player.ts";
import { Script } from "../../../src/solver/simulate/script.ts";
import { stageOf } from "../../../src/solver/simulate/stage.ts";
import { CAUTIONS } from "../../../src/solver/wish/trial.ts";
import { eva, task, tinyPlan } from "../../check/tinyPlan.ts";

/** Starts are told in these steps, s. */
const GRID_S = 300;

/**
 * `count` tasks for one crew member on an EVA too short for all of them, two of them must-do, some with a window. Starts in steps of five
 * minutes, so that every wait can be gone through.
 */
export function smallPlan(seed: number, count: number): Plan {
  const stream = random(seed);
  const tasks = Array.from({ length: count }, (_, k) => {
    const likelyS = 60 * (6 + stream.below(12));
    const window = stream.next() < 0.4;
    const startS = 4000 + 300 * stream.below(8);
    return task(`t${k}`, ["a", "b", "c"][stream.below(3)]!, {
      duration: { lowS: likelyS, likelyS, highS: likelyS + 60 * (1 + stream.below(12)) },
      worth: 1 + stream.below(40),
      must: k < 2,
      ...(window ? { windows: [{ startS, endS: startS + likelyS + 600 + 300 * stream.below(8) }] } : {}),
    });
  });
  return tinyPlan({
    tasks,
    crew: [{ id: "ev1", name: "EV1", bodyMassKg: 80, suit: "suit", workRateSpread: 0 }],
    evas: [eva("eva-1", { crew: ["ev1"], longestS: duration(5400 + stream.below(1200)) })],
    rules: { startGridS: GRID_S },
  });
}

/** Every day of durations that are either likely or high, each as often as the other: two to the number of tasks. */
export class EveryDay extends Days {
  private readonly of: Problem;

  constructor(of: Problem) {
    super(of, "pert", 2 ** of.activities, 1);
    this.of = of;
  }

  override deal(day: number, order: Int32Array, _laneOf: Int32Array, draws: DaySample): void {
    // An odd factor only changes the order of the days, so that the first few are not all alike.
    const long = Math.imul(day, 0x9e3779b1);
    for (const a of order) {
      const { likelyS, highS } = this.of.plan.tasks[a]!.duration;
      draws.durationS[a] = ((long >>> a) & 1) === 1 ? highS! : likelyS;
    }
  }
}

/** Every order of every choice of tasks that breaks no rule, with every must-do task, the most worth as planned first. */
function ordersOf(day: Day): readonly (readonly [order: readonly number[], worth: number])[] {
  const { problem, board } = day;
  const list: [number[], number][] = [];
  const goOn = (order: readonly number[]): void => {
    if (board.mustOut === 0) list.push([[...order], board.worth]);
    for (let a = 0; a < problem.activities; a += 1) {
      if (board.placed[a] === 1) continue;
      linkLast(board, a);
      // What breaks a rule, one more task at the end does not mend.
      if (day.settle()) goOn([...order, a]);
      board.unlink(a);
    }
  };
  goOn([]);
  return list.sort(([, x], [, y]) => y - x);
}

function linkLast(board: Board, a: number): void {
  board.link(a, [board.prev[board.tail]!], 0);
}

/**
 * The most worth on average, by exact chances, of all days that meet the wish: every order of every choice of tasks, each at its
 * earliest starts and, where it has a window, with egress later by every number of steps that the rules have room for, and each caution of
 * the crew. A crew that goes ahead waits nowhere else: later starts inside an outing change nothing on the day, nor does a later outing
 * without a window. Null where no day meets the wish.
 */
export function bestOfAll(plan: Plan): Seen | null {
  const problem = compile(plan);
  const day = new Day(problem);
  const { board } = day;
  const script = new Script(stageOf(problem));
  const player = new Player(script, acting(0));
  const days = new EveryDay(problem);
  const count = new Count(player, days);
  const { home, must } = plan.odds.wish;
  let best: Seen | null = null;

  /** Counts what the player has taken up, until it is certain that it is not the best. */
  const consider = (planned: number): void => {
    count.begin();
    while (count.days < days.count) {
      count.until(Math.min(days.count, count.days + 8));
      const left = days.count - count.days;
      if (best && count.worth + left * planned <= best.worth * days.count) return;
      if (count.must + left < must * days.count || count.home + left < home * days.count) return;
    }
    best = count.seen;
  };

  for (const [order, planned] of ordersOf(day)) {
    // What is planned bounds what is done.
    if (best && planned <= (best as Seen).worth) break;
    for (let a = 0; a < problem.activities; a += 1) if (board.placed[a] === 1) board.unlink(a);
    for (const a of order) linkLast(board, a);
    day.settle();
    const first = order[0]!;
    const windowed = order.some((a) => plan.tasks[a]!.windows.length > 0);
    const lastS = windowed ? Infinity : board.earliest[first]!;
    for (let startS = board.earliest[first]!; startS <= lastS; startS += GRID_S) {
      board.floorS[first] = startS;
      if (!day.settle()) break;
      script.takeBoard(board);
      for (const caution of CAUTIONS) {
        player.take(acting(caution));
        consider(planned);
      }
    }
    board.floorS[first] = NO_FLOOR;
  }
  return best;
}
