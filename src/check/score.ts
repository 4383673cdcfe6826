import type { Finding, Score } from "../answers/index.ts";
import type { Placement, Schedule } from "../plan/index.ts";
import { CONSUMABLES } from "../physics/index.ts";
import { groupsOf, missingOf, worthsOf } from "./groups.ts";
import { spare } from "./margins.ts";
import type { CrewOuting } from "./crewouting.ts";
import type { Walkthrough } from "./walkthrough.ts";

const WHOLE = 10_000;

/** The score of a walkthrough with its findings; `changesFrom` counts against the plan's own schedule. */
export function scoreOf(walkthrough: Walkthrough, findings: readonly Finding[], changes: number): Score {
  const { placed, outs, crewOutingsOf } = walkthrough;
  const crewOutings = [...crewOutingsOf.values()].flat();
  let breaches = 0;
  let mustLeftOut = groupsOf(walkthrough).reduce((sum, group) => sum + missingOf(group), 0);
  for (const { level, rule } of findings) {
    if (level === "breach") breaches += 1;
    if (rule === "must-do") mustLeftOut += 1;
  }
  let finishS = 0;
  for (const { span } of outs) finishS = Math.max(finishS, span.ingressS);
  for (const { span } of placed) finishS = Math.max(finishS, span.endS);
  return {
    breaches,
    mustLeftOut,
    worth: worthsOf(walkthrough).reduce((sum, { counts }) => sum + counts, 0),
    worstMargin: crewOutings.reduce((least, crewOuting) => Math.min(least, worstMargin(crewOuting)), WHOLE),
    changes,
    walkM: crewOutings.reduce((sum, crewOuting) => sum + crewOuting.walkedM, 0),
    finishS,
  };
}

/** Least margin of one outing in 1/10000 of the stock, rounded down. */
function worstMargin(crewOuting: CrewOuting): number {
  let least = WHOLE;
  for (const consumable of CONSUMABLES) {
    const stock = crewOuting.walker.full[consumable];
    const above = spare(crewOuting, consumable);
    const share = stock === 0 ? (above < 0 ? -WHOLE : 0) : Math.floor((above * WHOLE) / stock);
    least = Math.min(least, share);
  }
  return least;
}

/**
 * Tasks that `schedule` places otherwise than `own` does: start, EVA or crew (in any order) differ, or only one of the
 * two places it.
 */
export function changesFrom(own: Schedule): (schedule: Schedule) => number {
  const before = new Map(own.placements.map((placement) => [placement.task, signature(placement)]));
  return (schedule) => {
    const now = new Map(schedule.placements.map((placement) => [placement.task, placement]));
    let same = 0;
    for (const [task, placement] of now) if (before.get(task) === signature(placement)) same += 1;
    const onlyBefore = [...before.keys()].filter((task) => !now.has(task)).length;
    return now.size - same + onlyBefore;
  };
}

function signature({ startS, eva, crew }: Placement): string {
  return `${startS} ${eva ?? ""} ${[...crew].sort().join(" ")}`;
}
