import { finishOf, type Project } from "../problem.ts";
import { openingFrom, openingUntil, type Span } from "../network.ts";
import { type ArcParts, Arcs, difference } from "./arcs.ts";
import { Bounds, LIST, reasonOf } from "./bounds.ts";
import { Timetable } from "./timetable.ts";

/**
 * A project as variables and propagators: a start for each activity, the finish, and for each two activities that can
 * never run at once, which of them comes first.
 */
export interface Model {
  readonly bounds: Bounds;
  readonly arcs: Arcs;
  readonly timetables: readonly Timetable[];
  /** Numbers of the timetables each variable is in. */
  readonly tablesOf: readonly (readonly number[])[];
  /** The variable of the finish; starts are variables 0 .. activities - 1. */
  readonly finish: number;
  /** By order variable from `firstOrder` on: 1 when the first of the two activities is the earlier one. */
  readonly firstOrder: number;
  readonly orders: readonly (readonly [number, number])[];
  /** Tells whether a risen bound of a start has come to lie between two openings, and raises it past the gap. */
  leap(bound: number): boolean;
}

/** Lays out `project` with a finish of at most `atMost` units. */
export function modelOf(project: Project, span: Span, atMost: number): Model {
  const { activities, length, lagFrom, lagTo, lag } = project;
  const orders = ordersOf(project, span);
  const finish = activities;
  const firstOrder = finish + 1;
  const bounds = new Bounds(firstOrder + orders.length);
  for (let a = 0; a < activities; a += 1) bounds.initialise(a, span.earliest[a]!, span.latest[a]!);
  bounds.initialise(
    finish,
    finishOf(project, span.earliest),
    Math.max(atMost, finishOf(project, span.earliest) - 1),
  );
  orders.forEach((_, k) => bounds.initialise(firstOrder + k, 0, 1));

  const arcs: ArcParts[] = [];
  const followed = new Uint8Array(activities);
  lag.forEach((least, e) => {
    arcs.push(...difference(lagFrom[e]!, lagTo[e]!, least));
    if (least >= length[lagFrom[e]!]!) followed[lagFrom[e]!] = 1;
  });
  for (let a = 0; a < activities; a += 1) {
    if (followed[a] === 0) arcs.push(...difference(a, finish, length[a]!));
  }
  orders.forEach(([a, b], k) => {
    const x = firstOrder + k;
    arcs.push(...difference(a, b, length[a]!, { guard: 2 * x, guardValue: 1 }));
    arcs.push(...difference(b, a, length[b]!, { guard: 2 * x + 1, guardValue: 0 }));
  });
  const timetables = tablesOf(project, bounds);
  const tables: number[][] = Array.from({ length: firstOrder + orders.length }, () => []);
  timetables.forEach((table, k) => table.users.forEach((a) => tables[a]!.push(k)));
  return {
    bounds,
    arcs: new Arcs(bounds, arcs),
    timetables,
    tablesOf: tables,
    finish,
    firstOrder,
    orders,
    leap: (bound) => leap(project, bounds, bound),
  };
}

function tablesOf(project: Project, bounds: Bounds): Timetable[] {
  const { resources, capacity, demand, length } = project;
  return Array.from({ length: resources }, (_, r) => {
    const users = usersOf(project, r);
    return new Timetable(
      bounds,
      capacity[r]!,
      Int32Array.from(users),
      Int32Array.from(users, (a) => length[a]!),
      Int32Array.from(users, (a) => demand[a * resources + r]!),
    );
  }).filter((table) => table.users.length > 1);
}

/** Beyond so many pairs their variables cost more than they help; the time-tables still keep them apart. */
const MOST_ORDERS = 20_000;

/**
 * Pairs that ask together for more of a resource than there is, and are not in order already; where those are too many, pairs on
 * resources of capacity one alone.
 */
function ordersOf(project: Project, span: Span): [number, number][] {
  const { resources, capacity } = project;
  const all = Array.from({ length: resources }, (_, r) => r);
  const single = all.filter((r) => capacity[r] === 1);
  return pairsOn(project, span, all) ?? pairsOn(project, span, single) ?? [];
}

/** Pairs for which one of `resources` has no room at once, not in order already; null where they are too many. */
function pairsOn(project: Project, span: Span, resources: readonly number[]): [number, number][] | null {
  const { activities, capacity, demand } = project;
  const of = (a: number, r: number): number => demand[a * project.resources + r]!;
  const pairs: [number, number][] = [];
  for (let a = 0; a < activities; a += 1)
    for (let b = a + 1; b < activities; b += 1) {
      if (!resources.some((r) => of(a, r) + of(b, r) > capacity[r]!)) continue;
      if (isOrdered(project, span, a, b)) continue;
      if (pairs.length === MOST_ORDERS) return null;
      pairs.push([a, b]);
    }
  return pairs;
}

/** True when one of two activities surely ends before the other starts. */
function isOrdered({ length }: Project, { earliest, latest }: Span, a: number, b: number): boolean {
  return latest[a]! + length[a]! <= earliest[b]! || latest[b]! + length[b]! <= earliest[a]!;
}

/** Activities that use resource `r`. */
function usersOf({ activities, resources, demand }: Project, r: number): number[] {
  const users: number[] = [];
  for (let a = 0; a < activities; a += 1) if (demand[a * resources + r]! > 0) users.push(a);
  return users;
}

function leap(project: Project, bounds: Bounds, bound: number): boolean {
  const a = bound >> 1;
  if (a >= project.activities || project.openStart[a + 1]! - project.openStart[a]! === 1) return true;
  const at = bounds.low[bound]!;
  const open = (bound & 1) === 0 ? openingFrom(project, a, at) : -openingUntil(project, a, -at);
  if (open === at) return true;
  // The gap begins where the opening before it ends: any value inside it leads to the same opening.
  const gap = (bound & 1) === 0 ? openingUntil(project, a, at) + 1 : 1 - openingFrom(project, a, -at);
  const ref = bounds.openList(1);
  bounds.addToList(ref, bound, gap);
  return bounds.raise(bound, open, reasonOf(LIST, ref));
}
