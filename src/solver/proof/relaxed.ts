import { KINDS, type Problem } from "../problem.ts";
import { detoured } from "./detours.ts";

/**
 * `problem` without the rules that a day keeps by waiting (rests, stored heat, staying near, the walk-back on consumables, duty, lander stores), and
 * with ways no longer than a detour. An order of activities that does not hold here holds in no schedule,
 * nor does any order that has more in it.
 */
export function relaxed(problem: Problem): Problem {
  const { draws, limits, places } = problem;
  // Passing through a place costs nothing.
  const free = new Uint8Array(places);
  const closed = new Map<Int32Array, Int32Array>();
  const close = (leg: Int32Array): Int32Array => {
    const known = closed.get(leg);
    if (known) return known;
    const made = Int32Array.from(detoured(Float64Array.from(leg), free));
    closed.set(leg, made);
    return made;
  };
  return {
    ...problem,
    reach: "network",
    heat: null,
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
      leg: draws.leg.map((leg) => {
        const made = leg.slice();
        for (let kind = 0; kind < KINDS; kind += 1) {
          const one = Float64Array.from({ length: places * places }, (_, cell) => leg[cell * KINDS + kind]!);
          detoured(one, free).forEach((value, cell) => {
            made[cell * KINDS + kind] = value;
          });
        }
        return made;
      }),
    },
  };
}
