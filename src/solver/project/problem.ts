import { invariant } from "../../kernel/index.ts";

/**
 * A project: activities without crew that must all be done, shared resources with capacity, least lags between starts
 * of either sign, and starts confined to openings. Flat and read-only. Times are whole units from touchdown; a unit
 * is `unitS` seconds, the largest that divides every length, lag and opening, so that nothing is lost by it.
 */
export interface Project {
  readonly unitS: number;
  readonly activities: number;
  readonly length: Int32Array;
  readonly resources: number;
  readonly capacity: Int32Array;
  /** Flat, activity * resources + resource. */
  readonly demand: Int32Array;
  /** start(to) >= start(from) + lag, by edge. */
  readonly lagFrom: Int32Array;
  readonly lagTo: Int32Array;
  readonly lag: Int32Array;
  /** Allowed starts, both ends in, ascending and apart: openStart[a] .. openStart[a + 1]. */
  readonly openStart: Int32Array;
  readonly openFrom: Int32Array;
  readonly openTo: Int32Array;
}

/** A project in the making; lists may come in any order. */
export interface ProjectParts {
  readonly unitS?: number;
  readonly lengths: readonly number[];
  readonly capacities: readonly number[];
  /** By activity, by resource. */
  readonly demands: readonly (readonly number[])[];
  readonly lags: readonly { from: number; to: number; lag: number }[];
  /** By activity: allowed starts, both ends in, ascending and apart. */
  readonly openings: readonly (readonly { from: number; to: number }[])[];
}

/** Lays out `parts` flat. An activity without length uses nothing. Throws InvariantError on uneven lists. */
export function projectFrom(parts: ProjectParts): Project {
  const activities = parts.lengths.length;
  const resources = parts.capacities.length;
  invariant(
    parts.demands.length === activities && parts.openings.length === activities,
    `${activities} lengths, ${parts.demands.length} demands, ${parts.openings.length} openings; maybe one list is short`,
  );
  const demand = new Int32Array(activities * resources);
  parts.demands.forEach((row, a) => {
    if (parts.lengths[a] !== 0) demand.set(row.slice(0, resources), a * resources);
  });
  const openStart = new Int32Array(activities + 1);
  parts.openings.forEach((list, a) => (openStart[a + 1] = openStart[a]! + list.length));
  const open = parts.openings.flat();
  return {
    unitS: parts.unitS ?? 1,
    activities,
    length: Int32Array.from(parts.lengths),
    resources,
    capacity: Int32Array.from(parts.capacities),
    demand,
    lagFrom: Int32Array.from(parts.lags, (edge) => edge.from),
    lagTo: Int32Array.from(parts.lags, (edge) => edge.to),
    lag: Int32Array.from(parts.lags, (edge) => edge.lag),
    openStart,
    openFrom: Int32Array.from(open, (one) => one.from),
    openTo: Int32Array.from(open, (one) => one.to),
  };
}

/** The end of the last activity, units. */
export function finishOf(project: Project, start: Int32Array): number {
  let finish = 0;
  for (let a = 0; a < project.activities; a += 1) finish = Math.max(finish, start[a]! + project.length[a]!);
  return finish;
}
