import { type EdgeList, KINDS, type Problem } from "../problem/problem.ts";
import { edgeList } from "../problem/relations.ts";
import { detoured, freely } from "./detours.ts";
import { changed } from "../problem/changed.ts";

/**
 * `problem` without the rules that a day keeps by waiting (rests, stored heat, staying near, the walk-back on consumables, duty, lander stores), and
 * with ways no longer than a detour; EVAs that could be flown the other way round are not held to their order. An order of activities that does not hold here holds in no schedule,
 * nor does any order that has more in it.
 */
export function relaxed(problem: Problem): Problem {
  const { draws, limits, places } = problem;
  const free = freely(places);
  const closed = new Map<Int32Array, Int32Array>();
  const close = (leg: Int32Array): Int32Array => {
    const known = closed.get(leg);
    if (known) return known;
    const made = Int32Array.from(detoured(Float64Array.from(leg), free));
    closed.set(leg, made);
    return made;
  };
  return changed(problem, {
    checkLevel: "network",
    heat: null,
    edges: withoutTurning(problem),
    legS: problem.legS.map(close),
    legM: close(problem.legM),
    limits: {
      ...limits,
      apartM: Infinity,
      workS: Infinity,
      dutyS: Infinity,
      storesBind: false,
    },
    draws: {
      ...draws,
      walkbackBinds: new Uint8Array(KINDS),
      leg: draws.leg.map((leg, r) => {
        const made = leg.slice();
        for (let kind = 0; kind < KINDS; kind += 1) {
          const one = Float64Array.from({ length: places * places }, (_, cell) => leg[cell * KINDS + kind]!);
          byTasks(problem, r, kind, one);
          detoured(one, free).forEach((value, cell) => {
            made[cell * KINDS + kind] = value;
          });
        }
        return made;
      }),
    },
  });
}

/**
 * Work that ends elsewhere than it began may draw less than the way between: leaving it out must not make an order dearer, so the way
 * costs no more than the work does.
 */
function byTasks(
  { activities, beginsAt, endsAt, places, routes, draws }: Problem,
  r: number,
  kind: number,
  leg: Float64Array,
): void {
  for (let a = 0; a < activities; a += 1) {
    if (beginsAt[a] === endsAt[a]) continue;
    const at = beginsAt[a]! * places + endsAt[a]!;
    leg[at] = Math.min(leg[at]!, Math.max(0, draws.task[(a * routes + r) * KINDS + kind]!));
  }
}

/** The temporal edges but for those between two EVAs of which the later one could be flown first. */
function withoutTurning(problem: Problem): EdgeList {
  const { activities, edges, gapStart, gapFromS, gapToS, lengthS, nodes } = problem;
  const turns = (x: number): boolean => {
    if (edges.origin[x]!.rule !== "recharge") return false;
    const before = (edges.from[x]! - 1 - activities) >> 1;
    const next = (edges.to[x]! - activities) >> 1;
    if (gapStart[before] === gapStart[before + 1] || gapStart[next] === gapStart[next + 1]) return false;
    const airlockS = (e: number): number => lengthS[activities + 2 * e]! + lengthS[activities + 2 * e + 1]!;
    const pauseS = edges.weight[x]! - lengthS[edges.from[x]!]!;
    const backS = gapFromS[gapStart[next]!]! + airlockS(next);
    return backS + pauseS + airlockS(before) <= gapToS[gapStart[before + 1]! - 1]!;
  };
  const kept = Array.from(edges.from, (_, x) => x).filter((x) => !turns(x));
  if (kept.length === edges.from.length) return edges;
  return edgeList(
    kept.map((x) => ({
      from: edges.from[x]!,
      to: edges.to[x]!,
      weight: edges.weight[x]!,
      origin: edges.origin[x]!,
    })),
    nodes,
  );
}
