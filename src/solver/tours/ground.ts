import type { Problem } from "../problem/problem.ts";

/**
 * A day on which routes do not depend on each other, laid out for tours: nothing but ways, lengths and openings decides what fits. Node
 * `lander` stands for both ends of every tour.
 */
export interface TourGround {
  readonly problem: Problem;
  readonly routes: number;
  /** Nodes: the activities, and the lander. */
  readonly size: number;
  readonly lander: number;
  /** By route: how long each node lasts, and the way from node i to node j, at [i * size + j]; and the same at [j * size + i]. */
  readonly lastsS: readonly Int32Array[];
  readonly goS: readonly Int32Array[];
  readonly comeS: readonly Int32Array[];
  /** By route: first moment of egress, and by when all are back at the lander. */
  readonly outS: Int32Array;
  readonly backByS: Int32Array;
  /** By activity: first and last start that may be chosen; 1 where every second between may be. */
  readonly fromS: Int32Array;
  readonly toS: Int32Array;
  readonly isPlain: Uint8Array;
  /** By activity and route: 1 where it may stand on it. */
  readonly allows: Uint8Array;
  /** Activities that may stand somewhere, in order of their first start. */
  readonly possible: Int32Array;
}

/** True where routes do not depend on each other and all that decides is time. */
export function isApart(problem: Problem): boolean {
  const { checkLevel, groups, pairs, needs, loads, limits } = problem;
  return (
    checkLevel === "slack" &&
    groups === null &&
    pairs.every((list) => list.length === 0) &&
    needs.every((list) => list.length === 0) &&
    loads.container.every((c) => c < 0) &&
    limits.evaM === Infinity
  );
}

/** Lays out `problem`, which isApart. */
export function groundOf(problem: Problem): TourGround {
  const { activities, routes, openStart, openFromS, openToS, gapStart, gapFromS, gapToS } = problem;
  const { evaOfRoute, lengthS, gridS } = problem;
  const size = activities + 1;
  const allows = allowedOn(problem);
  const ways = waysOf(problem, size);
  const outS = new Int32Array(routes);
  const backByS = new Int32Array(routes);
  for (let r = 0; r < routes; r += 1) {
    const e = evaOfRoute[r]!;
    const isFlown = gapStart[e]! < gapStart[e + 1]!;
    outS[r] = isFlown ? gapFromS[gapStart[e]!]! : 0;
    backByS[r] = isFlown ? gapToS[gapStart[e + 1]! - 1]! - lengthS[activities + 2 * e + 1]! : -1;
  }
  const possible: number[] = [];
  for (let a = 0; a < activities; a += 1)
    if (openStart[a]! < openStart[a + 1]! && allows.subarray(a * routes, (a + 1) * routes).includes(1))
      possible.push(a);
  possible.sort((a, b) => openFromS[openStart[a]!]! - openFromS[openStart[b]!]! || a - b);
  const of = (value: (a: number) => number): Int32Array =>
    Int32Array.from({ length: activities }, (_, a) => value(a));
  return {
    problem,
    routes,
    size,
    lander: activities,
    ...ways,
    outS,
    backByS,
    fromS: of((a) => openFromS[openStart[a]!] ?? 0),
    toS: of((a) => openToS[openStart[a + 1]! - 1] ?? -1),
    isPlain: Uint8Array.from(of((a) => (gridS === 1 && openStart[a + 1]! - openStart[a]! === 1 ? 1 : 0))),
    allows,
    possible: Int32Array.from(possible),
  };
}

function allowedOn({ activities, routes, choiceStart, choiceAt, choiceRoutes }: Problem): Uint8Array {
  const allows = new Uint8Array(activities * routes);
  for (let a = 0; a < activities; a += 1)
    for (let c = choiceStart[a]!; c < choiceStart[a + 1]!; c += 1)
      allows[a * routes + choiceRoutes[choiceAt[c]!]!] = 1;
  return allows;
}

/** Ways between nodes, laid out once for routes that have the same ones. */
function waysOf(problem: Problem, size: number): Pick<TourGround, "lastsS" | "goS" | "comeS"> {
  const { activities, routes, evaOfRoute, legS, lengthS } = problem;
  const ways = new Map([...new Set(legS)].map((legs) => [legs, layOut(problem, legs, size)]));
  return {
    lastsS: Array.from({ length: routes }, (_, r) => {
      const lasts = new Int32Array(size);
      lasts.set(lengthS.subarray(0, activities));
      lasts[activities] = lengthS[activities + 2 * evaOfRoute[r]!]!;
      return lasts;
    }),
    goS: legS.map((legs) => ways.get(legs)!.go),
    comeS: legS.map((legs) => ways.get(legs)!.come),
  };
}

/** Ways from node to node and the same turned round; one array for both where they are alike, so that half as much is read. */
function layOut(
  { activities, beginsAt, endsAt, places, lander }: Problem,
  legs: Int32Array,
  size: number,
): Readonly<Record<"go" | "come", Int32Array>> {
  const go = new Int32Array(size * size);
  const come = new Int32Array(size * size);
  for (let i = 0; i < size; i += 1) {
    const row = (i < activities ? endsAt[i]! : lander) * places;
    for (let j = 0; j < size; j += 1) {
      const seconds = legs[row + (j < activities ? beginsAt[j]! : lander)]!;
      go[i * size + j] = seconds;
      come[j * size + i] = seconds;
    }
  }
  return { go, come: go.every((seconds, at) => seconds === come[at]) ? go : come };
}
