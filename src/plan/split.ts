import { done, duration, failed, instant, type Outcome } from "../kernel/index.ts";
import { freshId } from "./freshid.ts";
import { leavesInstrument } from "./instrument.ts";
import type { Plan } from "./plan.ts";
import type { Schedule } from "./schedule.ts";
import { partNames } from "./partname.ts";
import { rehung } from "./remedy.ts";
import { sharedAmount, sharedWhole } from "./sharing.ts";
import type { KeepOut } from "./site.ts";
import type { LagLink, Link, Task } from "./task.ts";
import { partNumber, taskNumbers } from "./tasknumber.ts";

/** A task in two: the branches of the plan that change, and the ids of the parts in order. */
export interface Split {
  readonly parts: Partial<Plan>;
  readonly tasks: readonly [first: string, second: string];
}

const MINUTE_S = 60;
/** Kilograms and litres in hundredths, small ones in thousandths; metres whole, as the rules count them. */
const MASS_GRAINS = [100, 1000];
const WALK_GRAINS = [1];

/**
 * How long the first part would last, seconds: up to the minute `cursorS` (MET) where the task is placed and both
 * parts last a minute at least, else half of it in whole minutes. Null where the task is too short, or not there.
 */
export function splitAfterS(plan: Plan, id: string, cursorS: number | null): number | null {
  const task = plan.tasks.find((one) => one.id === id);
  if (!task || task.duration.likelyS < 2 * MINUTE_S) return null;
  const { likelyS } = task.duration;
  const placement = plan.schedule.placements.find((one) => one.task === id);
  if (placement && cursorS !== null) {
    const afterS = Math.round(cursorS / MINUTE_S) * MINUTE_S - placement.startS;
    if (afterS >= MINUTE_S && likelyS - afterS >= MINUTE_S) return afterS;
  }
  return Math.max(1, Math.floor(likelyS / (2 * MINUTE_S))) * MINUTE_S;
}

/**
 * The task `id` in two parts, the first of `afterS` seconds; words why not where it cannot be split there.
 *
 * Divided, so that both add up to the whole: durations, worth, distance walked, sample. On both: must-do, windows, from egress too,
 * sun, ground, relay, crew, effort, equipment, cautions of the whole task, the pin. On the first only: steps with what guards them,
 * notes, and what is carried out, since it is out when work begins (to share it would halve a load that is carried in one go). On the second
 * only: the end place, the instrument, what may go wrong, and a sun angle that is counted from the walk to the end place; the first
 * stays where it begins. Placements are divided, in variants as well. The first part keeps id and number, the second has that
 * number with a letter.
 *
 * The parts are bound by a lag link (the second from the end of the first on, neither without the other) and, where
 * not all of the crew are named, by a same-crew link. Every other link goes to the part that has the end it counts from:
 * lags from the start to the first, from the end to the second; apart to the second, since end places count. Same or other
 * crew and same EVA ask for all of the work and hold for both parts. A keep-out that is hot after the task is so after
 * the second part; one that exempts it exempts both. What is made good at its end is so at the end of the second part. In its groups the first
 * part stands for both; one with shares is in the way, since it would count but that part for less.
 *
 * On an unchanged day the judge finds the same, but for rules that look at tasks one by one: must-do, time-window,
 * sun, light, sun-angle, relay, task-crew, pin, hot-keep-out, one-at-a-time, link-crew and link-eva tell of each part for itself, so
 * that one finding may become two, or two parts may hold where the whole did not. A walk to an end place is another
 * one afterwards: it begins with the second part. The climb of what is carried out is charged to the first part alone: as much in all,
 * up to the rounding of whole amounts a second, but sooner.
 */
export function splitTask(plan: Plan, id: string, afterS: number): Outcome<Split, string> {
  const task = plan.tasks.find((one) => one.id === id);
  if (!task) return failed("There is no such task.");
  const { likelyS } = task.duration;
  if (!Number.isInteger(afterS) || afterS <= 0 || afterS >= likelyS)
    return failed(`${task.name} cannot be split there: both parts need some time.`);
  const shared = plan.groups.find(({ shares, tasks }) => shares.length > 0 && tasks.includes(id));
  if (shared)
    return failed(
      `${task.name} cannot be split: what it counts is said by group ${shared.name}. Take it out of the group first.`,
    );
  const second = freshId(id, new Set(plan.tasks.map((one) => one.id)));
  const number = partNumber(plan.tasks, taskNumbers(plan.tasks).get(id) ?? id);
  const schedule = (from: Schedule): Schedule => inTwo(from, id, second, afterS);
  return done({
    tasks: [id, second],
    parts: {
      tasks: plan.tasks
        .flatMap((one) => (one === task ? twoOf(task, second, number, afterS) : [one]))
        .map((one) => rehung(one, id, second)),
      links: relinked(plan.links, task, second),
      ...(namesTask(plan, id)
        ? { site: { ...plan.site, keepOuts: plan.site.keepOuts.map((one) => kept(one, id, second)) } }
        : {}),
      schedule: schedule(plan.schedule),
      variants: plan.variants.map((one) => ({ ...one, schedule: schedule(one.schedule) })),
    },
  });
}

/** True for a link that binds the parts of a split: neither without the other, the second from the end of the first on. */
export function bindsParts(link: Link): link is LagLink {
  return (
    link.type === "lag" &&
    link.from.end === "end" &&
    link.to.end === "start" &&
    link.leastS === 0 &&
    link.greatestS === undefined &&
    link.needs === "both"
  );
}

/** What the id of the link between the parts of task `first` begins with. */
export function partsId(first: string): string {
  return `${first}-parts`;
}

function twoOf(task: Task, second: string, number: string, afterS: number): [Task, Task] {
  const share = afterS / task.duration.likelyS;
  const [worth, worthLeft] = sharedWhole(task.worth, share);
  const [walkM, walkLeftM] = sharedAmount(task.walkM, share, WALK_GRAINS);
  const lengths = twoDurations(task.duration, afterS);
  const names = partNames(task.name);
  const samples = task.sample ? twoSamples(task.sample, share) : [];
  const { endPlace, sunAngle, sample, pin, ...both } = task;
  // It is left where the work ends, by the second part.
  const nothingLeft = leavesInstrument(task) ? { instrument: false } : {};
  // What may go wrong may do so once: by the second part it has gone well or not.
  const { returns, mishap, ...rest } = both;
  const startS = pin?.startS;
  const byWalk = sunAngle !== undefined && sunAngle.facingDeg === undefined;
  return [
    {
      ...rest,
      name: names[0],
      duration: lengths[0],
      worth,
      walkM,
      ...nothingLeft,
      ...(returns === undefined ? {} : { returns }),
      ...(sunAngle && !byWalk ? { sunAngle } : {}),
      ...(sample ? { sample: samples[0] } : {}),
      ...(pin ? { pin } : {}),
    },
    {
      ...rest,
      id: second,
      number,
      name: names[1],
      duration: lengths[1],
      worth: worthLeft,
      walkM: walkLeftM,
      massOutKg: 0,
      steps: [],
      notes: "",
      ...(endPlace === undefined ? {} : { endPlace }),
      ...(sunAngle ? { sunAngle } : {}),
      ...(sample ? { sample: samples[1] } : {}),
      ...(mishap ? { mishap } : {}),
      ...(pin ? { pin: startS === undefined ? pin : { ...pin, startS: instant(startS + afterS) } } : {}),
    },
  ];
}

/** Both keep low <= likely <= high, whatever the rounding. */
function twoDurations(
  { likelyS, lowS, highS }: Task["duration"],
  afterS: number,
): [Task["duration"], Task["duration"]] {
  const leftS = likelyS - afterS;
  const share = afterS / likelyS;
  const low = lowS === undefined ? null : clamped(sharedWhole(lowS, share)[0], lowS - leftS, afterS);
  const high = highS === undefined ? null : clamped(sharedWhole(highS, share)[0], afterS, highS - leftS);
  return [
    {
      likelyS: duration(afterS),
      ...(low === null ? {} : { lowS: duration(low) }),
      ...(high === null ? {} : { highS: duration(high) }),
    },
    {
      likelyS: duration(leftS),
      ...(lowS === undefined || low === null ? {} : { lowS: duration(lowS - low) }),
      ...(highS === undefined || high === null ? {} : { highS: duration(highS - high) }),
    },
  ];
}

function twoSamples(sample: NonNullable<Task["sample"]>, share: number): NonNullable<Task["sample"]>[] {
  const masses = sharedAmount(sample.massKg, share, MASS_GRAINS);
  const volumes = sharedAmount(sample.volumeL, share, MASS_GRAINS);
  const bags = twoBags(sample.bags, share);
  return masses.map((massKg, k) => ({ ...withoutBags(sample), massKg, volumeL: volumes[k]!, ...bags[k] }));
}

function withoutBags({
  container,
  massKg,
  volumeL,
}: NonNullable<Task["sample"]>): NonNullable<Task["sample"]> {
  return { container, massKg, volumeL };
}

type Bags = NonNullable<Task["sample"]>["bags"];

/** Bags for both parts, which together are all; a part that gets none does not say how many it has. */
function twoBags(bags: Bags, share: number): readonly [{ bags?: Bags }, { bags?: Bags }] {
  if (bags === undefined) return [{}, {}];
  if (typeof bags === "number") {
    const [first, second] = sharedWhole(bags, share);
    return [first > 0 ? { bags: first } : {}, { bags: second }];
  }
  const [first] = sharedWhole(bags.length, share);
  return [first > 0 ? { bags: bags.slice(0, first) } : {}, { bags: bags.slice(first) }];
}

function clamped(value: number, low: number, high: number): number {
  return Math.max(low, Math.min(high, value));
}

function relinked(links: readonly Link[], task: Task, second: string): Link[] {
  const { id, crew } = task;
  const taken = new Set(links.map((link) => link.id));
  const end = (at: LagLink["from"]): LagLink["from"] =>
    at.task === id && at.end === "end" ? { ...at, task: second } : at;
  const onSecond = (tasks: [string, string]): [string, string] => [
    tasks[0] === id ? second : tasks[0],
    tasks[1] === id ? second : tasks[1],
  ];
  const others = links.flatMap((link): Link[] => {
    if (link.type === "lag") return [{ ...link, from: end(link.from), to: end(link.to) }];
    if (!link.tasks.includes(id)) return [link];
    const moved = { ...link, tasks: onSecond(link.tasks) };
    return link.type === "apart" ? [moved] : [link, { ...moved, id: freshId(link.id, taken) }];
  });
  const bound: Link[] = [
    {
      id: freshId(partsId(id), taken),
      type: "lag",
      from: { task: id, end: "end" },
      to: { task: second, end: "start" },
      leastS: duration(0),
      needs: "both",
    },
  ];
  if (crew.named.length < crew.count)
    bound.push({ id: freshId(`${id}-crew`, taken), type: "crew", tasks: [id, second], crew: "same" });
  return [...others, ...bound];
}

function namesTask(plan: Plan, id: string): boolean {
  return plan.site.keepOuts.some((one) => one.afterTask === id || one.exemptTasks.includes(id));
}

function kept(keepOut: KeepOut, id: string, second: string): KeepOut {
  return {
    ...keepOut,
    ...(keepOut.afterTask === id ? { afterTask: second } : {}),
    exemptTasks: keepOut.exemptTasks.flatMap((one) => (one === id ? [id, second] : [one])),
  };
}

function inTwo(schedule: Schedule, id: string, second: string, afterS: number): Schedule {
  if (!schedule.placements.some((one) => one.task === id)) return schedule;
  return {
    placements: schedule.placements.flatMap((one) =>
      one.task === id
        ? [one, { ...one, crew: [...one.crew], task: second, startS: instant(one.startS + afterS) }]
        : [one],
    ),
  };
}
