import { instant } from "../kernel/index.ts";
import {
  type Eva,
  type Placement,
  type Plan,
  samePlacement,
  type Schedule,
  type Task,
} from "../plan/index.ts";
import { REMOTE } from "./lanes.ts";

/** Where a gesture puts a task. */
export type Target =
  | { readonly at: "bench" }
  /** At a place of the map: it keeps its time, or stays on the bench. */
  | { readonly at: "place"; readonly place: string }
  /** On `lane`, starting at `startS`; the EVA follows from the time and the lane. */
  | { readonly at: "line"; readonly lane: string; readonly startS: number };

/**
 * The schedule in which `task` has gone from where it is in `start` to `target`, everything else untouched. A task
 * for several moves for all of them. `fromLane` is the lane it was taken by: across lanes that crew member hands over
 * to the new lane's. Nothing is checked here: a schedule that breaks rules is proposed all the same, for the judge
 * to say so. Gives `start` itself when nothing changes or the task is unknown.
 */
export function proposed(
  plan: Plan,
  start: Schedule,
  task: string,
  fromLane: string | null,
  target: Target,
): Schedule {
  const request = plan.tasks.find((one) => one.id === task);
  if (!request) return start;
  const before = start.placements.find((one) => one.task === task);
  if (target.at === "bench") {
    return before ? { placements: start.placements.filter((one) => one !== before) } : start;
  }
  if (target.at === "place") return start;
  const placement = placementOf(
    plan,
    request,
    before ?? null,
    fromLane,
    target.lane,
    Math.round(target.startS),
  );
  if (!before) return { placements: [...start.placements, placement] };
  if (samePlacement(before, placement)) return start;
  return { placements: start.placements.map((one) => (one === before ? placement : one)) };
}

/** The EVA that a crew task at `startS` on `lane` belongs to: nearest in time, those of the lane's crew member first. */
export function evaAt(plan: Plan, lane: string, startS: number, lengthS: number): Eva | null {
  let best: Eva | null = null;
  let bestKey: readonly [number, number] = [Infinity, Infinity];
  for (const eva of plan.evas) {
    const early = Math.max(0, eva.earliestEgressS - startS);
    const late = Math.max(0, startS + lengthS - eva.latestIngressS);
    // A crew member's own EVA comes before another's, unless it is more than its own length away.
    const strange = eva.crew.includes(lane) ? 0 : 1;
    const away = early + late + strange * (eva.latestIngressS - eva.earliestEgressS);
    const key = [away, strange] as const;
    if (key[0] < bestKey[0] || (key[0] === bestKey[0] && key[1] < bestKey[1])) {
      best = eva;
      bestKey = key;
    }
  }
  return best;
}

function placementOf(
  plan: Plan,
  request: Task,
  before: Placement | null,
  fromLane: string | null,
  lane: string,
  startS: number,
): Placement {
  const at = instant(startS);
  if (before && before.startS === startS && (before.crew.includes(lane) || lane === fromLane)) return before;
  if (request.crew.count === 0) return { task: request.id, eva: null, crew: [], startS: at };
  const crewLane = lane === REMOTE ? (fromLane ?? before?.crew[0] ?? plan.crew[0]?.id ?? null) : lane;
  if (crewLane === null) return { task: request.id, eva: before?.eva ?? null, crew: [], startS: at };
  const lengthS = request.duration.likelyS;
  const here = plan.evas.find((eva) => eva.id === before?.eva);
  const stays =
    here !== undefined &&
    here.crew.includes(crewLane) &&
    startS >= here.earliestEgressS &&
    startS + lengthS <= here.latestIngressS;
  const eva = stays ? here : evaAt(plan, crewLane, startS, lengthS);
  const crew = crewFor(plan, request, eva, before, fromLane, crewLane);
  return { task: request.id, eva: eva?.id ?? null, crew, startS: at };
}

/** Who does it: the lane's crew member, then those who did it, the named ones, and others of the EVA as needed. */
function crewFor(
  plan: Plan,
  request: Task,
  eva: Eva | null,
  before: Placement | null,
  fromLane: string | null,
  lane: string,
): string[] {
  if (before && before.crew.includes(lane) && eva?.id === before.eva) return [...before.crew];
  const stayed = before
    ? before.crew.filter((member) => member !== fromLane || before.crew.includes(lane))
    : [];
  const out = (member: string): boolean => eva === null || eva.crew.includes(member);
  const wanted = [lane, ...[...stayed, ...request.crew.named, ...(eva?.crew ?? [])].filter(out)];
  const taken = new Set(
    wanted.filter((member, i) => wanted.indexOf(member) === i).slice(0, request.crew.count),
  );
  return plan.crew.map((member) => member.id).filter((member) => taken.has(member));
}
