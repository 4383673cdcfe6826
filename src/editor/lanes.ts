import { type Plan, type Schedule, tasksById } from "../plan/index.ts";

/** A horizontal band of the day line: one crew member, or the work nobody goes out for. */
export interface Lane {
  readonly key: string;
  /** The crew member; null on the lane of remote work. */
  readonly crew: string | null;
  readonly name: string;
  readonly topPx: number;
  readonly heightPx: number;
  /** Which way from home its heights go: up from its lower edge, or down from its upper one. */
  readonly sense: "up" | "down";
  /** The lane on the other side of the same line home; null of one that has that line for itself. */
  readonly mate: string | null;
}

/** Key of the lane of remote work; no crew id looks like it. */
export const REMOTE = "@remote";

/** Sizes of lanes, pixels. */
export interface LaneSizes {
  readonly crewPx: number;
  /** One row of remote work, and the space around the rows. */
  readonly remoteRowPx: number;
  readonly remotePadPx: number;
}

/**
 * One lane a crew member in the plan's order, two by two about a line home, an odd one last and alone; then one for remote
 * work with `remoteRows` rows (none: no lane).
 */
export function layLanes(plan: Plan, remoteRows: number, sizes: LaneSizes): readonly Lane[] {
  const lanes: Lane[] = plan.crew.map((member, i) => ({
    key: member.id,
    crew: member.id,
    name: member.name,
    topPx: i * sizes.crewPx,
    heightPx: sizes.crewPx,
    sense: i % 2 === 0 ? "up" : "down",
    mate: plan.crew[i % 2 === 0 ? i + 1 : i - 1]?.id ?? null,
  }));
  if (remoteRows > 0) {
    lanes.push({
      key: REMOTE,
      crew: null,
      name: "By command",
      topPx: plan.crew.length * sizes.crewPx,
      heightPx: remoteRows * sizes.remoteRowPx + 2 * sizes.remotePadPx,
      sense: "up",
      mate: null,
    });
  }
  return lanes;
}

/** The lane at height `y`; the nearest one above or below them all; null when there is none. */
export function laneAt(lanes: readonly Lane[], y: number): Lane | null {
  return lanes.find((lane) => y < lane.topPx + lane.heightPx) ?? lanes.at(-1) ?? null;
}

/** The lane `by` lanes below (above when negative) `key`, stopped at the ends; crew lanes only. */
export function crewLaneBeside(lanes: readonly Lane[], key: string, by: number): Lane | null {
  const crewLanes = lanes.filter((lane) => lane.crew !== null);
  const at = crewLanes.findIndex((lane) => lane.key === key);
  if (at < 0) return crewLanes[0] ?? null;
  return crewLanes[Math.min(crewLanes.length - 1, Math.max(0, at + by))] ?? null;
}

/**
 * A row for every placed task without crew, so that tasks at the same time stand under each other: the first free
 * row in order of start, so that the fewest rows are used.
 */
export function remoteRowsOf(
  plan: Plan,
  schedule: Schedule,
): { readonly row: ReadonlyMap<string, number>; readonly rows: number } {
  const tasks = tasksById(plan);
  const remote = schedule.placements
    .filter((placement) => placement.crew.length === 0)
    .toSorted((a, b) => a.startS - b.startS || (a.task < b.task ? -1 : 1));
  const busyUntil: number[] = [];
  const row = new Map<string, number>();
  for (const placement of remote) {
    const free = busyUntil.findIndex((endS) => endS <= placement.startS);
    const at = free < 0 ? busyUntil.length : free;
    // A task of no length still takes up its instant.
    busyUntil[at] = placement.startS + Math.max(1, tasks.get(placement.task)?.duration.likelyS ?? 0);
    row.set(placement.task, at);
  }
  return { row, rows: busyUntil.length };
}
