import type { LagLink, Placement, Plan } from "../../plan/index.ts";
import { crewName, minutes, taskNumber } from "../../words/index.ts";

/**
 * What has to be done before a task may begin or be done, and within what time of it: links of the plan that nobody keeps just by doing the pages in their order. A
 * page and the console sheet say them, so that who is early, or has a late partner, waits.
 */
export interface Wait {
  readonly task: string;
  /** From which of its ends it is counted. */
  readonly end: End;
  /** The task begins, or is done, so long after that, s. */
  readonly leastS: number;
  /** And not later than so long after, s. */
  readonly greatestS: number | null;
}

type End = LagLink["to"]["end"];

/** How one end of a task lies to an end of another one, s. */
interface Bound {
  readonly from: LagLink["from"];
  readonly to: LagLink["to"];
  readonly leastS: number | undefined;
  readonly greatestS: number | undefined;
}

/** What a placed task waits for with its `end`, in the order of planned starts; only of what is placed too. */
export function waitsFor(plan: Plan, task: string, end: End = "start"): Wait[] {
  const placed = new Map(plan.schedule.placements.map((one) => [one.task, one]));
  const own = placed.get(task);
  if (!own) return [];
  const startS = ({ from }: Bound): number => placed.get(from.task)?.startS ?? 0;
  return plan.links
    .flatMap((link) => (link.type === "lag" ? boundOn(link, task, end) : []))
    .toSorted((a, b) => startS(a) - startS(b))
    .flatMap((bound) => {
      const before = placed.get(bound.from.task);
      return before && tells(plan, bound, before, own) ? [waitOf(bound)] : [];
    });
}

/** What a link says of one end of a task; of the two ends that it ties the one waits that comes later. */
function boundOn({ from, to, leastS, greatestS }: LagLink, task: string, end: End): Bound[] {
  if (to.task === task && to.end === end) return [{ from, to, leastS, greatestS }];
  const isTurned = greatestS !== undefined && greatestS <= 0 && (leastS === undefined || leastS < 0);
  if (from.task !== task || from.end !== end || !isTurned) return [];
  return [{ from: to, to: from, leastS: -greatestS, greatestS: leastS === undefined ? undefined : -leastS }];
}

function waitOf({ from, leastS, greatestS }: Bound): Wait {
  return {
    task: from.task,
    end: from.end,
    leastS: Math.max(0, leastS ?? 0),
    greatestS: greatestS ?? null,
  };
}

/**
 * Whether a link asks for more than the order of pages: an EVA before this one is over, who did the one task only then begins the other, and where it is
 * the very next one being late makes the time between them no longer. What comes first waits for nothing: its START says when.
 */
function tells(plan: Plan, bound: Bound, before: Placement, own: Placement): boolean {
  const { from, to, greatestS } = bound;
  const least: number = bound.leastS ?? -1;
  const isOver = before.eva !== null && own.eva !== null && before.eva !== own.eva;
  const comesFirst = least < 0 && momentS(plan, own, to.end) < momentS(plan, before, from.end);
  if (isOver || comesFirst) return false;
  const follows = to.end === "end" ? before.startS < own.startS : from.end === "end";
  const isInOrder = follows && own.crew.some((id) => before.crew.includes(id));
  if (least > 0 || (least === 0 && !isInOrder)) return true;
  return greatestS !== undefined && (to.end === "end" || !isNext(plan, before, own));
}

/** When a placed task begins or is done as planned, s. */
function momentS({ tasks }: Plan, { task, startS }: Placement, end: End): number {
  return end === "start" ? startS : startS + (tasks.find(({ id }) => id === task)?.duration.likelyS ?? 0);
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

/** `EV2 16 done; 22 done, 20 to 150 min`; who does it where it is not `me`. Empty for nothing. `end`: which one of the task's waits. */
export function waitWords(plan: Plan, task: string, me: string | null, end: End = "start"): string {
  return waitsFor(plan, task, end)
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
