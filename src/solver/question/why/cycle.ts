import type { Board } from "../../network/board.ts";
import type { Day } from "../../network/day.ts";
import { KINDS, NEVER, type Problem } from "../../problem/problem.ts";
import type { Cause } from "./cause.ts";

/**
 * A cycle of times that cannot close: going round it, a start would have to be later than itself (Dechter, Meiri & Pearl 1991,
 * Artif Intell 49:61-95). Opening it says nothing of other cycles, so that its weight is no answer to how much is missing.
 */
export interface Cycle {
  readonly causes: readonly Cause[];
}

/** start(to) >= start(from) + weight, because of `causes`. */
interface Arc {
  readonly from: number;
  readonly to: number;
  readonly weight: number;
  readonly causes: readonly Cause[];
}

/** A cycle that cannot close in the order on the board; null when its hull of windows has none. */
export function cycleOf(day: Day): Cycle | null {
  const { board } = day;
  const arcs = arcsOf(board);
  const origin = board.problem.nodes;
  const atS = new Float64Array(origin + 1);
  const by = new Int32Array(origin + 1).fill(-1);
  const nodes = new Set(arcs.flatMap((arc) => [arc.from, arc.to]));
  for (let pass = 0; pass <= nodes.size; pass += 1) {
    let raised = -1;
    for (let k = 0; k < arcs.length; k += 1) {
      const { from, to, weight } = arcs[k]!;
      if (atS[from]! + weight <= atS[to]!) continue;
      atS[to] = atS[from]! + weight;
      by[to] = k;
      raised = to;
    }
    if (raised < 0) return null;
    const cycle = closed(arcs, by, nodes);
    if (cycle) return cycle;
  }
  return null;
}

/** A cycle among the arcs that raised each node last; null when they form none. */
function closed(arcs: readonly Arc[], by: Int32Array, nodes: ReadonlySet<number>): Cycle | null {
  const seen = new Map<number, number>();
  for (const start of nodes) {
    let node = start;
    while (by[node]! >= 0 && !seen.has(node)) {
      seen.set(node, start);
      node = arcs[by[node]!]!.from;
    }
    if (by[node]! < 0 || seen.get(node) !== start) continue;
    const causes = new Map<string, Cause>();
    let weight = 0;
    const first = node;
    do {
      const arc = arcs[by[node]!]!;
      weight += arc.weight;
      for (const cause of arc.causes) causes.set(`${cause.kind} ${cause.about}`, cause);
      node = arc.from;
    } while (node !== first);
    if (weight > 0) return { causes: [...causes.values()] };
  }
  return null;
}

function arcsOf(board: Board): Arc[] {
  const { problem, placed } = board;
  const arcs: Arc[] = [];
  for (let a = 0; a < problem.activities; a += 1)
    if (placed[a] === 1) arcs.push(...windowArcs(problem, a, problem.nodes));
  for (let e = 0; e < problem.evas; e += 1)
    if (board.onEva[e]! > 0) arcs.push(...outingArcs(board, e, problem.nodes));
  for (let lane = 0; lane < problem.routes + problem.chains; lane += 1)
    if (lane >= problem.routes || board.onRoute[lane]! > 0) arcs.push(...laneArcs(board, lane));
  arcs.push(...edgeArcs(board));
  return arcs;
}

/** What follows each other on a route or a unit of equipment. */
function laneArcs(board: Board, lane: number): Arc[] {
  const { problem, nodeOf, next } = board;
  const { routes, equipmentOfChain } = problem;
  const equipment: Cause[] =
    lane < routes ? [] : [{ kind: "equipment", about: equipmentOfChain[lane - routes]! }];
  const arcs: Arc[] = [];
  for (let p = board.head + lane; p !== board.tail + lane; p = next[p]!) {
    const from = nodeOf[p]!;
    const to = nodeOf[next[p]!]!;
    if (from === problem.source || to === problem.sink) continue;
    const causes = [...stays(problem, from), ...stays(problem, to), ...equipment];
    arcs.push({ from, to, weight: board.gapS(p, next[p]!), causes });
  }
  return arcs;
}

/** Lags, recharge and keep-outs that turn hot. */
function edgeArcs({ problem, placed }: Board): Arc[] {
  const { edges } = problem;
  return edges.origin.flatMap((origin, x): Arc[] => {
    const from = edges.from[x]!;
    const to = edges.to[x]!;
    if (placed[from] === 0 || placed[to] === 0) return [];
    const causes = [causeOf(origin), ...stays(problem, from), ...stays(problem, to)];
    return [{ from, to, weight: edges.weight[x]!, causes }];
  });
}

function causeOf(origin: Problem["edges"]["origin"][number]): Cause {
  if (origin.rule === "link-lag") return { kind: "link", about: origin.link };
  return origin.rule === "recharge" ? { kind: "recharge", about: 0 } : { kind: "hot", about: origin.keepOut };
}

/** That what is placed stays; egress and all back are nobody's to drop. */
function stays({ activities }: Problem, node: number): Cause[] {
  return node < activities ? [{ kind: "placement", about: node }] : [];
}

/** From the first opening on, to the last; what lies between them is left out. */
function windowArcs(problem: Problem, a: number, origin: number): Arc[] {
  const task = problem.plan.tasks[a]!;
  const first = problem.openStart[a]!;
  const last = problem.openStart[a + 1]! - 1;
  if (last < first) return [];
  const causes: Cause[] = [
    { kind: "placement", about: a },
    ...(task.windows.length > 0 ? [{ kind: "window", about: a } as const] : []),
    ...(task.sun ? [{ kind: "sun", about: a } as const] : []),
    ...(task.light !== undefined ? [{ kind: "light", about: a } as const] : []),
    ...(task.sunAngle ? [{ kind: "sun-angle", about: a } as const] : []),
    ...(task.relay ? [{ kind: "relay", about: a } as const] : []),
    ...(task.pin ? [{ kind: "pin", about: a } as const] : []),
    ...(task.crew.count === 0 ? [{ kind: "liftoff", about: 0 } as const] : []),
  ];
  const fromS = problem.openFromS[first]!;
  const toS = problem.openToS[last]!;
  return [
    ...(fromS > -NEVER ? [{ from: origin, to: a, weight: fromS, causes }] : []),
    ...(toS < NEVER ? [{ from: a, to: origin, weight: -toS, causes }] : []),
  ];
}

function outingArcs(board: Board, e: number, origin: number): Arc[] {
  const { problem } = board;
  const { plan, activities, lengthS } = problem;
  const first = problem.gapStart[e]!;
  const last = problem.gapStart[e + 1]! - 1;
  const egress = activities + 2 * e;
  const workS = lengthS[egress + 1]!;
  const arcs: Arc[] = [];
  if (last >= first) {
    const fromS = problem.gapFromS[first]!;
    const toS = problem.gapToS[last]!;
    const eva = plan.evas[e]!;
    const blocks = plan.stay.blocks.flatMap((block, k): Cause[] =>
      block.endS === fromS || block.startS === toS ? [{ kind: "block", about: k }] : [],
    );
    const out: Cause[] = fromS === eva.earliestEgressS ? [{ kind: "egress", about: e }] : blocks;
    const back: Cause[] =
      toS === eva.latestIngressS
        ? [{ kind: "ingress", about: e }]
        : toS === plan.stay.lengthS
          ? [{ kind: "liftoff", about: 0 }]
          : blocks;
    arcs.push({ from: origin, to: egress, weight: fromS, causes: out });
    arcs.push({ from: egress + 1, to: origin, weight: workS - toS, causes: back });
  }
  const { allowedS, causes } = allowed(board, e);
  arcs.push({ from: egress + 1, to: egress, weight: workS - allowedS, causes });
  return arcs;
}

/** Longest duration of EVA `e` with what is on it, and what bounds it: its own limit, or a consumable and all that draws it. */
function allowed(board: Board, e: number): { allowedS: number; causes: Cause[] } {
  const { problem } = board;
  const { draws, routeStart } = problem;
  let allowedS = problem.longestS[e]!;
  let causes: Cause[] = [{ kind: "longest", about: e }];
  if (!draws.binds) return { allowedS, causes };
  for (let r = routeStart[e]!; r < routeStart[e + 1]!; r += 1)
    for (let kind = 0; kind < KINDS; kind += 1) {
      const seconds = draws.kindBinds[kind] === 1 ? lastsS(board, r * KINDS + kind) : Infinity;
      if (seconds >= allowedS) continue;
      allowedS = seconds;
      const about = problem.memberOfRoute[r]! * KINDS + kind;
      causes = [{ kind: "consumable", about }, ...staysOn(board, r)];
    }
  return { allowedS, causes };
}

/** How long rest may last on what the tasks of a route leave of a consumable (`at`: route times the kinds, plus the kind); -1 where nothing is left. */
function lastsS({ problem, drawn }: Board, at: number): number {
  const { available, restRate } = problem.draws;
  const left = available[at]! - drawn[at]!;
  const rate = restRate[at]!;
  if (rate > 0) return Math.floor(left / rate);
  return left < 0 ? -1 : Infinity;
}

function staysOn({ problem, nodeOf, next, head }: Board, r: number): Cause[] {
  const causes: Cause[] = [];
  for (let s = next[head + r]!; s < head; s = next[s]!) causes.push(...stays(problem, nodeOf[s]!));
  return causes;
}
