import { gridFrom, instant } from "../kernel/index.ts";
import type { LagLink, Link, Placement, Plan, Schedule, Task } from "../plan/index.ts";

/** What others do when something is moved among them. */
export type Manner = "stay" | "slide";

export const MANNER_WORDS: Readonly<Record<Manner, string>> = {
  stay: "Others stay",
  slide: "Others slide",
};

export function otherManner(manner: Manner): Manner {
  return manner === "stay" ? "slide" : "stay";
}

/** Seconds to walk from one place to another; null where there is no way. */
export type WalkS = (from: string, to: string) => number | null;

/** A task that should give way and cannot, and why. */
export interface Stuck {
  readonly task: string;
  /** Its start is pinned; a link would have it begin earlier; links and order push each other in a circle. */
  readonly why: "pinned" | "earlier" | "circle";
}

export interface Slid {
  readonly schedule: Schedule;
  readonly stuck: readonly Stuck[];
}

/** One task begins at least so many seconds after another does. */
interface Push {
  readonly from: string;
  readonly to: string;
  readonly leastS: number;
  /** From the order on a line, and not from a link. */
  readonly order: boolean;
}

/**
 * The schedule in which the held tasks push what follows them: on each crew member's line, inside the EVA, a task that
 * would begin before the one ahead is done and the way is walked begins as soon as it is; and a task that a lag link
 * holds to a moved one goes as far as the link asks, each on to the next start on the plan's grid. The push goes on from
 * task to task, over all who share one, until there is slack enough. The order is kept; nothing is moved earlier; a pinned
 * start is not moved; what the held tasks do not reach stays. What cannot give way is told in `stuck`, and the judge says
 * what is wrong with it.
 *
 * A held task that was put down on the second half of another comes after it. Gives `schedule` when nothing slides, and
 * where pushes go round in a circle. Lags that leave no step of the grid free are kept to the second.
 */
export function slid(plan: Plan, schedule: Schedule, held: readonly string[], walkS: WalkS): Slid {
  const onGrid = pushed(plan, schedule, held, walkS, plan.rules.startGridS);
  const circles = onGrid.stuck.some(({ why }) => why === "circle");
  return circles ? pushed(plan, schedule, held, walkS, 1) : onGrid;
}

function pushed(plan: Plan, schedule: Schedule, held: readonly string[], walkS: WalkS, gridS: number): Slid {
  const going = new Set(held);
  const tasks = new Map(plan.tasks.map((task) => [task.id, task]));
  const spots = schedule.placements.filter((one) => tasks.has(one.task));
  const startS = new Map(spots.map((one): [string, number] => [one.task, one.startS]));
  const pinned = (task: string): boolean => tasks.get(task)?.pin?.startS !== undefined;
  const pushes = [...orderPushes(spots, tasks, going, walkS), ...lagPushes(plan.links, tasks, startS)];
  const bySource = new Map<string, Push[]>();
  for (const push of pushes) bySource.set(push.from, [...(bySource.get(push.from) ?? []), push]);

  const stuck = new Map<string, Stuck["why"]>();
  const moves = new Map<string, number>();
  const queue: string[] = [...held];
  const apply = (push: Push): void => {
    const leastS = startS.get(push.from)! + push.leastS;
    if (leastS <= startS.get(push.to)!) return;
    const needS = gridFrom(leastS, gridS);
    if (pinned(push.to)) {
      stuck.set(push.to, "pinned");
      return;
    }
    startS.set(push.to, needS);
    moves.set(push.to, (moves.get(push.to) ?? 0) + 1);
    queue.push(push.to);
  };
  // What is held keeps its distance inside, and its links are for the hand to mind; it waits for what is ahead of it.
  for (const push of pushes) if (push.order && going.has(push.to) && !going.has(push.from)) apply(push);
  for (let task = queue.shift(); task !== undefined; task = queue.shift()) {
    for (const push of bySource.get(task) ?? [])
      if (!going.has(push.to) || (push.order && !going.has(push.from))) apply(push);
    // Without a circle no task is pushed oftener than there are others.
    const round = [...moves].find(([, times]) => times > spots.length);
    if (round) return { schedule, stuck: [{ task: round[0], why: "circle" }] };
  }
  for (const task of tooLate(plan.links, tasks, startS, (id) => going.has(id) || pinned(id)))
    if (!going.has(task) && !stuck.has(task)) stuck.set(task, "earlier");

  const told = [...stuck].map(([task, why]) => ({ task, why }));
  if (moves.size === 0) return { schedule, stuck: told };
  return {
    schedule: {
      placements: schedule.placements.map((one) =>
        moves.has(one.task) ? { ...one, startS: instant(startS.get(one.task)!) } : one,
      ),
    },
    stuck: told,
  };
}

/** Each task on a line after the one ahead of it in the same EVA: its duration and the way. */
function orderPushes(
  spots: readonly Placement[],
  tasks: ReadonlyMap<string, Task>,
  going: ReadonlySet<string>,
  walkS: WalkS,
): readonly Push[] {
  const lengthOf = (one: Placement): number => tasks.get(one.task)?.duration.likelyS ?? 0;
  const turnOf = (one: Placement): number => one.startS + (going.has(one.task) ? 0 : lengthOf(one) / 2);
  const inTurn = spots
    .filter((one) => one.crew.length > 0)
    .toSorted((a, b) => turnOf(a) - turnOf(b) || a.startS - b.startS || (a.task < b.task ? -1 : 1));
  const last = new Map<string, Placement>();
  return inTurn.flatMap((one) =>
    one.crew.flatMap((member): Push[] => {
      const ahead = last.get(member);
      last.set(member, one);
      if (!ahead || ahead.eva !== one.eva) return [];
      const from = tasks.get(ahead.task);
      const wayS = walkedS(walkS, from?.endPlace ?? from?.place, tasks.get(one.task)?.place);
      return [{ from: ahead.task, to: one.task, leastS: lengthOf(ahead) + wayS, order: true }];
    }),
  );
}

/** What the lag links between placed tasks ask of their starts. */
function lagPushes(
  links: readonly Link[],
  tasks: ReadonlyMap<string, Task>,
  startS: ReadonlyMap<string, number>,
): readonly Push[] {
  return links.flatMap((link): Push[] => {
    if (link.type !== "lag" || !startS.has(link.from.task) || !startS.has(link.to.task)) return [];
    const { leastS, greatestS } = link;
    const apartS = endS(tasks, link.to) - endS(tasks, link.from);
    const [from, to] = [link.from.task, link.to.task];
    return [
      ...(leastS === undefined ? [] : [{ from, to, leastS: leastS - apartS, order: false }]),
      ...(greatestS === undefined ? [] : [{ from: to, to: from, leastS: apartS - greatestS, order: false }]),
    ];
  });
}

/** Tasks that end a lag which is too long because the task it is counted from does not move. */
function tooLate(
  links: readonly Link[],
  tasks: ReadonlyMap<string, Task>,
  startS: ReadonlyMap<string, number>,
  fixed: (task: string) => boolean,
): readonly string[] {
  return links.flatMap((link) => {
    if (link.type !== "lag" || link.greatestS === undefined || !fixed(link.from.task)) return [];
    const [fromS, toS] = [startS.get(link.from.task), startS.get(link.to.task)];
    if (fromS === undefined || toS === undefined) return [];
    const lagS = toS + endS(tasks, link.to) - fromS - endS(tasks, link.from);
    return lagS > link.greatestS ? [link.to.task] : [];
  });
}

/** Seconds from the start of a task to the end of it that a link means. */
function endS(tasks: ReadonlyMap<string, Task>, at: LagLink["from"]): number {
  return at.end === "start" ? 0 : (tasks.get(at.task)?.duration.likelyS ?? 0);
}

/** The tasks besides the held ones that begin later in `after` than in `before`, with by how much, seconds. */
export function slidBy(
  before: Schedule,
  after: Schedule,
  held: readonly string[],
): ReadonlyMap<string, number> {
  if (before === after) return new Map();
  const was = new Map(before.placements.map((one) => [one.task, one.startS as number]));
  const moved = new Map<string, number>();
  for (const one of after.placements) {
    const startS = was.get(one.task);
    if (startS !== undefined && one.startS !== startS && !held.includes(one.task)) {
      moved.set(one.task, one.startS - startS);
    }
  }
  return moved;
}

function walkedS(walkS: WalkS, from: string | undefined, to: string | undefined): number {
  return from === undefined || to === undefined || from === to ? 0 : (walkS(from, to) ?? 0);
}
