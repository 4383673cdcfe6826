import { gridFrom, instant } from "../kernel/index.ts";
import {
  type LagLink,
  type Link,
  type Placement,
  type Plan,
  type Schedule,
  type Task,
  tasksById,
} from "../plan/index.ts";

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
 * The schedule in which the tasks in hand push what follows them: on each crew member's line, inside the EVA, a task that
 * would begin before the one ahead is done and the way is walked begins as soon as it is; and a task that a lag link
 * holds to a moved one goes as far as the link asks, each on to the next start on the plan's grid. The push goes on from
 * task to task, over all who share one, until there is slack enough. The order is kept; nothing is moved earlier; a pinned
 * start is not moved; what the tasks in hand do not reach stays. What cannot give way is told in `stuck`, and the judge says
 * what is wrong with it.
 *
 * A task in hand that was put down on the second half of another comes after it. Gives `schedule` when nothing slides, and
 * where pushes go round in a circle. Lags that leave no step of the grid free are kept to the second.
 */
export function slid(plan: Plan, schedule: Schedule, inHand: readonly string[], walkS: WalkS): Slid {
  const onGrid = pushed(plan, schedule, inHand, walkS, plan.rules.startGridS);
  const circles = onGrid.stuck.some(({ why }) => why === "circle");
  return circles ? pushed(plan, schedule, inHand, walkS, 1) : onGrid;
}

function pushed(
  plan: Plan,
  schedule: Schedule,
  inHand: readonly string[],
  walkS: WalkS,
  gridS: number,
): Slid {
  const going = new Set(inHand);
  const tasks = tasksById(plan);
  const placements = schedule.placements.filter((one) => tasks.has(one.task));
  const startS = new Map(placements.map((one): [string, number] => [one.task, one.startS]));
  const pinned = (task: string): boolean => tasks.get(task)?.pin?.startS !== undefined;
  const pushes = [...orderPushes(placements, tasks, going, walkS), ...lagPushes(plan.links, tasks, startS)];
  const { moved, stuck, circle } = pushOn(pushes, startS, { inHand: going, pinned, gridS });
  if (circle !== null) return { schedule, stuck: [{ task: circle, why: "circle" }] };
  const late = tooLate(plan.links, tasks, startS, (id) => going.has(id) || pinned(id)).filter(
    (task) => !going.has(task) && !stuck.has(task),
  );
  const unmoved: readonly Stuck[] = [
    ...[...stuck].map((task) => ({ task, why: "pinned" as const })),
    ...[...new Set(late)].map((task) => ({ task, why: "earlier" as const })),
  ];
  return { schedule: moved.size === 0 ? schedule : startingAt(schedule, moved, startS), stuck: unmoved };
}

/** The schedule with new starts of what has moved. */
function startingAt(
  { placements }: Schedule,
  moved: ReadonlySet<string>,
  startS: ReadonlyMap<string, number>,
): Schedule {
  return {
    placements: placements.map((one) =>
      moved.has(one.task) ? { ...one, startS: instant(startS.get(one.task)!) } : one,
    ),
  };
}

/** What a push meets. */
interface PushGround {
  readonly inHand: ReadonlySet<string>;
  readonly pinned: (task: string) => boolean;
  readonly gridS: number;
}

/**
 * Pushes on from what is in hand until nothing gives way any more, writing the new starts to `startS`; what moved, what a pin
 * kept, and a task that pushes come back to for ever, null where none does.
 */
function pushOn(
  pushes: readonly Push[],
  startS: Map<string, number>,
  { inHand, pinned, gridS }: PushGround,
): {
  readonly moved: ReadonlySet<string>;
  readonly stuck: ReadonlySet<string>;
  readonly circle: string | null;
} {
  const stuck = new Set<string>();
  const times = new Map<string, number>();
  const queue: string[] = [...inHand];
  const apply = ({ from, to, leastS }: Push): void => {
    const needS = startS.get(from)! + leastS;
    if (needS <= startS.get(to)!) return;
    if (pinned(to)) {
      stuck.add(to);
      return;
    }
    startS.set(to, gridFrom(needS, gridS));
    times.set(to, (times.get(to) ?? 0) + 1);
    queue.push(to);
  };
  // What is in hand keeps its distance inside, and its links are for the hand to mind; it waits for what is ahead of it.
  const waits = (push: Push): boolean => push.order && inHand.has(push.to) && !inHand.has(push.from);
  for (const push of pushes.filter(waits)) apply(push);
  const bySource = bySourceOf(pushes.filter((push) => !inHand.has(push.to) || waits(push)));
  let circle: string | null = null;
  for (let task = queue.shift(); task !== undefined && circle === null; task = queue.shift()) {
    for (const push of bySource.get(task) ?? []) apply(push);
    // Without a circle no task is pushed oftener than there are others.
    circle = [...times].find(([, count]) => count > startS.size)?.[0] ?? null;
  }
  return { moved: new Set(times.keys()), stuck, circle };
}

function bySourceOf(pushes: readonly Push[]): ReadonlyMap<string, readonly Push[]> {
  const bySource = new Map<string, Push[]>();
  for (const push of pushes) bySource.set(push.from, [...(bySource.get(push.from) ?? []), push]);
  return bySource;
}

/** Each task on a line after the one ahead of it in the same EVA: its duration and the way. */
function orderPushes(
  placements: readonly Placement[],
  tasks: ReadonlyMap<string, Task>,
  going: ReadonlySet<string>,
  walkS: WalkS,
): readonly Push[] {
  const lengthOf = (one: Placement): number => tasks.get(one.task)?.duration.likelyS ?? 0;
  const turnOf = (one: Placement): number => one.startS + (going.has(one.task) ? 0 : lengthOf(one) / 2);
  const inTurn = placements
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

/** The tasks besides those in hand that begin later in `after` than in `before`, with by how much, seconds. */
export function slidBy(
  before: Schedule,
  after: Schedule,
  inHand: readonly string[],
): ReadonlyMap<string, number> {
  if (before === after) return new Map();
  const was = new Map(before.placements.map((one) => [one.task, one.startS as number]));
  const moved = new Map<string, number>();
  for (const one of after.placements) {
    const startS = was.get(one.task);
    if (startS !== undefined && one.startS !== startS && !inHand.includes(one.task)) {
      moved.set(one.task, one.startS - startS);
    }
  }
  return moved;
}

function walkedS(walkS: WalkS, from: string | undefined, to: string | undefined): number {
  return from === undefined || to === undefined || from === to ? 0 : (walkS(from, to) ?? 0);
}
