import type { LagLink, Placement, Plan } from "../../plan/index.ts";
import { crewName, minutes, taskNumber } from "../../words/index.ts";

/**
 * What has to be done before a task may begin, and within what time of it: links of the plan that nobody keeps just by doing the pages in their order. A page and
 * the console sheet say them, so that who is early, or has a late partner, waits.
 */
export interface Wait {
  readonly task: string;
  /** From which of its ends it is counted. */
  readonly end: "start" | "end";
  /** The task begins so long after that, s. */
  readonly leastS: number;
  /** And not later than so long after, s. */
  readonly greatestS: number | null;
}

/** What a placed task waits for, in the order of planned starts; only of what is placed too. */
export function waitsFor(plan: Plan, task: string): Wait[] {
  const placed = new Map(plan.schedule.placements.map((one) => [one.task, one]));
  const own = placed.get(task);
  if (!own) return [];
  const startS = ({ from }: LagLink): number => placed.get(from.task)?.startS ?? 0;
  return plan.links
    .filter(
      (link): link is LagLink => link.type === "lag" && link.to.task === task && link.to.end === "start",
    )
    .toSorted((a, b) => startS(a) - startS(b))
    .flatMap((link) => {
      const before = placed.get(link.from.task);
      return before && tells(plan, link, before, own) ? [waitOf(link)] : [];
    });
}

function waitOf({ from, leastS, greatestS }: LagLink): Wait {
  return {
    task: from.task,
    end: from.end,
    leastS: Math.max(0, leastS ?? 0),
    greatestS: greatestS ?? null,
  };
}

/**
 * Whether a link asks for more than the order of pages: an EVA before this one is over, who did the one task only then begins the other, and where it is
 * the very next one being late makes the time between them no longer.
 */
function tells(plan: Plan, { from, leastS, greatestS }: LagLink, before: Placement, own: Placement): boolean {
  const isOver = before.eva !== null && own.eva !== null && before.eva !== own.eva;
  if (isOver) return false;
  const isInOrder = from.end === "end" && own.crew.some((id) => before.crew.includes(id));
  const least: number = leastS ?? -1;
  if (least > 0 || (least === 0 && !isInOrder)) return true;
  return greatestS !== undefined && !isNext(plan, before, own);
}

/** Whether all who begin a task come straight from the one before. */
function isNext({ schedule }: Plan, before: Placement, own: Placement): boolean {
  const isBetween = (one: Placement, id: string): boolean =>
    one.crew.includes(id) && before.startS < one.startS && one.startS < own.startS;
  return (
    own.crew.length > 0 &&
    own.crew.every((id) => before.crew.includes(id) && !schedule.placements.some((one) => isBetween(one, id)))
  );
}

/** `EV2 16 done; 22 done, 20 to 150 min`; who does it where it is not `me`. Empty for nothing. */
export function waitWords(plan: Plan, task: string, me: string | null): string {
  return waitsFor(plan, task)
    .map((wait) => {
      const crew = plan.schedule.placements.find((one) => one.task === wait.task)?.crew ?? [];
      const who =
        me !== null && crew.includes(me)
          ? ""
          : `${crew.length === 0 ? "GROUND" : crew.map((id) => crewName(plan, id)).join("+")} `;
      return `${who}${taskNumber(plan, wait.task)} ${wait.end === "end" ? "done" : "begun"}${lagWords(wait)}`;
    })
    .join("; ");
}

function lagWords({ leastS, greatestS }: Wait): string {
  const least = minutes(leastS, "up");
  if (greatestS === null) return leastS === 0 ? "" : `, ${least} or more`;
  const greatest = minutes(greatestS, "down");
  return leastS === 0 ? `, within ${greatest}` : `, ${least.replace(/ min$/, "")} to ${greatest}`;
}

/** The soonest moment that its waits leave a task, s; of what has no span nobody waits. */
export function waitedS(
  waits: readonly Wait[],
  spanOf: (task: string) => { readonly startS: number; readonly endS: number } | undefined,
): number {
  return Math.max(
    -Infinity,
    ...waits.flatMap(({ task, end, leastS }) => {
      const span = spanOf(task);
      return span ? [(end === "end" ? span.endS : span.startS) + Math.ceil(leastS / 60) * 60] : [];
    }),
  );
}
