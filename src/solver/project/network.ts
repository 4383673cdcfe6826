import type { Project } from "./problem.ts";

/** Edges by node, flat: `list[start[a] .. start[a + 1])` holds edge numbers. */
export interface Adjacency {
  readonly start: Int32Array;
  readonly list: Int32Array;
}

/** Edge numbers sorted into their `nodeOf` node, in order of number. */
export function adjacency(nodes: number, nodeOf: Int32Array): Adjacency {
  const start = new Int32Array(nodes + 1);
  for (const node of nodeOf) start[node + 1]! += 1;
  for (let a = 0; a < nodes; a += 1) start[a + 1]! += start[a]!;
  const at = start.slice();
  const list = new Int32Array(nodeOf.length);
  nodeOf.forEach((node, edge) => (list[at[node]!++] = edge));
  return { start, list };
}

/** Earliest and latest starts of every activity that lags and openings allow, resources left out. */
export interface Span {
  readonly earliest: Int32Array;
  readonly latest: Int32Array;
}

/** The span of every activity, or null when lags and openings contradict each other. */
export function spanOf(project: Project): Span | null {
  if (positiveCycle(project).length > 0) return null;
  const { activities, openStart, openFrom, openTo, lagFrom, lagTo, lag } = project;
  const earliest = new Int32Array(activities);
  const latest = new Int32Array(activities);
  for (let a = 0; a < activities; a += 1) {
    if (openStart[a] === openStart[a + 1]) return null;
    earliest[a] = openFrom[openStart[a]!]!;
    latest[a] = openTo[openStart[a + 1]! - 1]!;
  }
  const span = { earliest, latest };
  for (let changed = true; changed;) {
    changed = false;
    for (let e = 0; e < lag.length; e += 1) {
      if (narrow(project, span, e)) changed = true;
      const from = lagFrom[e]!;
      const to = lagTo[e]!;
      if (earliest[to]! > latest[to]! || earliest[from]! > latest[from]!) return null;
    }
  }
  return span;
}

/** Narrows the span by edge `e`; true when that changed it. */
function narrow(project: Project, { earliest, latest }: Span, e: number): boolean {
  const { lagFrom, lagTo, lag } = project;
  const from = lagFrom[e]!;
  const to = lagTo[e]!;
  let changed = false;
  const atLeast = earliest[from]! + lag[e]!;
  if (atLeast > earliest[to]!) {
    earliest[to] = openingFrom(project, to, atLeast);
    changed = true;
  }
  const atMost = latest[to]! - lag[e]!;
  if (atMost < latest[from]!) {
    latest[from] = openingUntil(project, from, atMost);
    changed = true;
  }
  return changed;
}

/** The first allowed start of `a` at or after `at`; past every opening when there is none. */
export function openingFrom(project: Project, a: number, at: number): number {
  const { openStart, openFrom, openTo } = project;
  const end = openStart[a + 1]!;
  for (let k = openStart[a]!; k < end; k += 1) {
    if (at <= openTo[k]!) return Math.max(at, openFrom[k]!);
  }
  return Math.max(at, openTo[end - 1]! + 1);
}

/** The last allowed start of `a` at or before `at`; before every opening when there is none. */
export function openingUntil(project: Project, a: number, at: number): number {
  const { openStart, openFrom, openTo } = project;
  const first = openStart[a]!;
  for (let k = openStart[a + 1]! - 1; k >= first; k -= 1) {
    if (at >= openFrom[k]!) return Math.min(at, openTo[k]!);
  }
  return Math.min(at, openFrom[first]! - 1);
}

/**
 * Edges of a cycle of lags whose sum is positive: no start times can satisfy them. Empty when there is none.
 * Longest paths after Bellman and Ford, with parents, as for simple temporal problems (Dechter, Meiri & Pearl 1991).
 */
export function positiveCycle({ activities, lagFrom, lagTo, lag }: Project): number[] {
  const distance = new Float64Array(activities);
  const parent = new Int32Array(activities).fill(-1);
  let last = -1;
  for (let round = 0; round <= activities; round += 1) {
    last = -1;
    for (let e = 0; e < lag.length; e += 1) {
      const reach = distance[lagFrom[e]!]! + lag[e]!;
      if (reach > distance[lagTo[e]!]!) {
        distance[lagTo[e]!] = reach;
        parent[lagTo[e]!] = e;
        last = lagTo[e]!;
      }
    }
    if (last < 0) return [];
  }
  // After as many steps back as there are nodes, the walk is on the cycle.
  for (let step = 0; step < activities; step += 1) last = lagFrom[parent[last]!]!;
  const cycle: number[] = [];
  let at = last;
  do {
    cycle.push(parent[at]!);
    at = lagFrom[parent[at]!]!;
  } while (at !== last);
  return cycle.reverse();
}

/** Activities in an order that puts the tail of every edge before its head; null when edges go in circles. */
export function orderOf({ activities, lagFrom, lagTo }: Project): Int32Array | null {
  const out = adjacency(activities, lagFrom);
  const waits = new Int32Array(activities);
  for (const to of lagTo) waits[to]! += 1;
  const order = new Int32Array(activities);
  let filled = 0;
  for (let a = 0; a < activities; a += 1) if (waits[a] === 0) order[filled++] = a;
  for (let read = 0; read < filled; read += 1) {
    const a = order[read]!;
    for (let k = out.start[a]!; k < out.start[a + 1]!; k += 1) {
      const to = lagTo[out.list[k]!]!;
      waits[to]! -= 1;
      if (waits[to] === 0) order[filled++] = to;
    }
  }
  return filled === activities ? order : null;
}
