import type { KeepOut, LagLink, Link, Place, Plan } from "../../plan/index.ts";
import { distance, inside } from "../../terrain/index.ts";
import type { EdgeList, Origin, Pair } from "./problem.ts";

/** Straight distances are compared with this tolerance, m, as RULES.md's distances are floating point. */
export const DISTANCE_TOLERANCE_M = 1e-6;

/** Temporal edges before they are indexed. */
export interface RawEdge {
  readonly from: number;
  readonly to: number;
  readonly weight: number;
  readonly origin: Origin;
}

/** What links, keep-outs and needs say about pairs of activities. */
export interface Relations {
  readonly edges: RawEdge[];
  readonly needs: number[][];
  readonly neededBy: number[][];
  readonly pairs: Pair[][];
}

/** Reads all links (link-lag, link-needs, link-crew, link-eva, link-apart) and hot keep-outs after a task. */
export function relationsOf(plan: Plan): Relations {
  const reader = new Reader(plan);
  plan.links.forEach((link, l) => (link.type === "lag" ? reader.lag(link, l) : reader.pair(link, l)));
  plan.site.keepOuts.forEach((keepOut, k) => reader.keepOut(keepOut, k));
  return reader.relations;
}

/** What has been read of a plan's relations so far. */
class Reader {
  readonly relations: Relations;
  private readonly plan: Plan;
  private readonly index: ReadonlyMap<string, number>;
  private readonly lasts: readonly number[];

  constructor(plan: Plan) {
    const list = <T>(): T[][] => plan.tasks.map(() => []);
    this.plan = plan;
    this.index = new Map(plan.tasks.map((task, a) => [task.id, a]));
    this.lasts = plan.tasks.map((task) => task.duration.likelyS);
    this.relations = { edges: [], needs: list(), neededBy: list(), pairs: list() };
  }

  lag(link: LagLink, l: number): void {
    const { index, lasts } = this;
    const { edges } = this.relations;
    const from = index.get(link.from.task)!;
    const to = index.get(link.to.task)!;
    // Both ends become starts: end = start + length.
    const shift = (link.from.end === "end" ? lasts[from]! : 0) - (link.to.end === "end" ? lasts[to]! : 0);
    if (link.leastS !== undefined)
      edges.push({
        from,
        to,
        weight: link.leastS + shift,
        origin: { rule: "link-lag", link: l, side: "least" },
      });
    if (link.greatestS !== undefined)
      edges.push({
        from: to,
        to: from,
        weight: -(link.greatestS + shift),
        origin: { rule: "link-lag", link: l, side: "greatest" },
      });
    if (link.needs !== "none") this.need(to, from);
    if (link.needs === "both") this.need(from, to);
  }

  /** A link on crew, EVA or distance of two tasks. */
  pair(link: Exclude<Link, LagLink>, l: number): void {
    const a = this.index.get(link.tasks[0])!;
    const b = this.index.get(link.tasks[1])!;
    const relation = this.relationOf(link, a, b);
    if (relation === null) return;
    const { pairs } = this.relations;
    pairs[a]!.push({ other: b, relation, link: l });
    pairs[b]!.push({ other: a, relation, link: l });
  }

  /** A hot keep-out after a task: what stands in it ends no later than that task. */
  keepOut(keepOut: KeepOut, k: number): void {
    const { plan, lasts } = this;
    if (keepOut.kind !== "hot" || keepOut.afterTask === undefined) return;
    const source = this.index.get(keepOut.afterTask)!;
    plan.tasks.forEach((task, a) => {
      if (a === source || keepOut.exemptTasks.includes(task.id) || !standsIn(plan, a, k)) return;
      // end(task) <= end(source)
      this.relations.edges.push({
        from: a,
        to: source,
        weight: lasts[a]! - lasts[source]!,
        origin: { rule: "hot-keep-out", keepOut: k },
      });
    });
  }

  /** What a link asks of two tasks; null where it holds anyway. */
  private relationOf(link: Exclude<Link, LagLink>, a: number, b: number): Pair["relation"] | null {
    const { tasks } = this.plan;
    const [one, other] = [tasks[a]!.crew.count, tasks[b]!.crew.count];
    switch (link.type) {
      case "crew":
        if (link.crew === "different") return "different crew";
        return one === other ? "same crew" : "not both";
      case "eva":
        return one > 0 && other > 0 ? "same eva" : null;
      case "apart":
        return this.isApart(a, b, link.leastM) ? null : "not both";
    }
  }

  private isApart(a: number, b: number, leastM: number): boolean {
    const one = this.endPlace(a);
    const other = this.endPlace(b);
    return !one || !other || distance(one, other) + DISTANCE_TOLERANCE_M >= leastM;
  }

  private endPlace(a: number): Place | undefined {
    const { tasks, site } = this.plan;
    const id = tasks[a]!.endPlace ?? tasks[a]!.place;
    return id === undefined ? undefined : site.places.find((place) => place.id === id);
  }

  private need(of: number, what: number): void {
    this.relations.needs[of]!.push(what);
    this.relations.neededBy[what]!.push(of);
  }
}

/** True when the task's place or end place lies inside the keep-out. */
export function standsIn(plan: Plan, activity: number, keepOut: number): boolean {
  const task = plan.tasks[activity]!;
  return [task.place, task.endPlace].some((id) => {
    const place = plan.site.places.find((one) => one.id === id);
    return place !== undefined && inside(plan.site.keepOuts[keepOut]!.shape, place);
  });
}

/** Edges indexed by both ends. */
export function edgeList(raw: readonly RawEdge[], nodes: number): EdgeList {
  const by = (end: (edge: RawEdge) => number): [Int32Array, Int32Array] => {
    const start = new Int32Array(nodes + 1);
    for (const edge of raw) start[end(edge) + 1]! += 1;
    for (let i = 0; i < nodes; i += 1) start[i + 1]! += start[i]!;
    const list = new Int32Array(raw.length);
    const at = start.slice(0, nodes);
    raw.forEach((edge, k) => {
      list[at[end(edge)]!++] = k;
    });
    return [start, list];
  };
  const [outStart, out] = by((edge) => edge.from);
  const [intoStart, into] = by((edge) => edge.to);
  return {
    from: Int32Array.from(raw, (edge) => edge.from),
    to: Int32Array.from(raw, (edge) => edge.to),
    weight: Int32Array.from(raw, (edge) => edge.weight),
    origin: raw.map((edge) => edge.origin),
    outStart,
    out,
    intoStart,
    into,
  };
}

/** Activities that links tie together, as group numbers (union by walking the ties). */
export function clustersOf(relations: Relations, activities: number): Int32Array {
  const cluster = new Int32Array(activities).fill(-1);
  const near: number[][] = Array.from({ length: activities }, () => []);
  const tie = (a: number, b: number): void => {
    near[a]!.push(b);
    near[b]!.push(a);
  };
  for (const { from, to, origin } of relations.edges) if (origin.rule === "link-lag") tie(from, to);
  relations.needs.forEach((list, a) => {
    for (const b of list) tie(a, b);
  });
  relations.pairs.forEach((list, a) => {
    for (const { other, relation } of list) if (relation !== "not both") tie(a, other);
  });
  let groups = 0;
  for (let a = 0; a < activities; a += 1) {
    if (cluster[a]! >= 0) continue;
    const stack = [a];
    cluster[a] = groups;
    for (let b = stack.pop(); b !== undefined; b = stack.pop()) {
      for (const c of near[b]!) {
        if (cluster[c]! >= 0) continue;
        cluster[c] = groups;
        stack.push(c);
      }
    }
    groups += 1;
  }
  return cluster;
}
