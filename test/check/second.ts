import type { Level } from "../../src/answers/index.ts";
import type { Plan } from "../../src/plan/index.ts";

/**
 * A second judge of some rules, written from RULES.md alone and sharing nothing with the first: on level ground without keep-outs and given legs,
 * where a way is its straight line times the detour. It knows S1 to S3, S8, S11, S17 and S18, and of the rules eva-bounds, egress-window,
 * time-window, duty, group-most, group-least and must-do.
 */

type Placement = Plan["schedule"]["placements"][number];
type Task = Plan["tasks"][number];

/** A finding as far as both say it alike: `rule level subject need have`. */
export type Said = string;

interface Standing extends Placement {
  readonly of: Task;
  readonly endS: number;
}

interface Out {
  readonly eva: Plan["evas"][number];
  readonly egressS: number;
  readonly ingressS: number;
}

interface Bounds {
  readonly startS: number;
  readonly endS: number;
}

/** What the second judge says of the plan's schedule, and how much it counts. */
export function second(plan: Plan): { readonly said: readonly Said[]; readonly worth: number } {
  const standing = plan.schedule.placements.map((one): Standing => {
    const of = plan.tasks.find(({ id }) => id === one.task)!;
    return { ...one, of, endS: one.startS + of.duration.likelyS };
  });
  const outs = plan.evas.flatMap((eva) => outOf(plan, eva, standing));
  return {
    said: [
      ...outs.flatMap((out) => boundsOf(plan, out)),
      ...standing.flatMap((one) => windowsOf(plan, one, outs)),
      ...plan.crew.flatMap(({ id }) => dutyOf(plan, id, outs)),
      ...groupsOf(plan, standing),
      ...plan.tasks
        .filter(({ id, must }) => must && !standing.some(({ task }) => task === id))
        .map(({ id }) => say("must-do", "open", id)),
    ].toSorted(),
    worth: worthOf(plan, standing),
  };
}

export function say(rule: string, level: Level, subject: string, need?: number | null, have?: number | null) {
  return [rule, level, subject, need ?? "-", have ?? "-"].join(" ");
}

function wayS({ site, rules: { walking } }: Plan, from: string, to: string): number {
  const [a, b] = [from, to].map((id) => site.places.find((place) => place.id === id)!);
  const metres = Math.hypot(a!.eastM - b!.eastM, a!.northM - b!.northM) * walking.detour;
  return Math.ceil(metres / walking.speedMs);
}

/** S3, S11. */
function outOf(plan: Plan, eva: Plan["evas"][number], standing: readonly Standing[]): Out[] {
  const lander = plan.site.places.find(({ kind }) => kind === "lander")!.id;
  const lists = eva.crew
    .map((id) =>
      standing
        .filter((one) => one.eva === eva.id && one.crew.includes(id) && one.of.crew.count > 0)
        .toSorted((a, b) => a.startS - b.startS || a.endS - b.endS || (a.task < b.task ? -1 : 1)),
    )
    .filter((list) => list.length > 0);
  if (lists.length === 0) return [];
  const leaveS = lists.map(([first]) => first!.startS - wayS(plan, lander, first!.of.place!));
  const backS = lists.map((list) => {
    const last = list.at(-1)!.of;
    return Math.max(...list.map(({ endS }) => endS)) + wayS(plan, last.endPlace ?? last.place!, lander);
  });
  return [
    {
      eva,
      egressS: Math.min(...leaveS) - eva.egressWorkS,
      ingressS: Math.max(...backS) + eva.ingressWorkS,
    },
  ];
}

/** eva-bounds: that of all with the least to spare; going out early is no close thing. */
function boundsOf({ stay, rules }: Plan, { eva, egressS, ingressS }: Out): Said[] {
  const lasts = ingressS - egressS;
  const from = (leastS: number) => ({
    spareS: egressS < leastS ? egressS - leastS : Infinity,
    need: leastS,
    have: egressS,
  });
  const to = (most: number, have: number) => ({ spareS: most - have, need: most, have });
  const worst = [
    from(eva.earliestEgressS),
    from(0),
    to(eva.latestIngressS, ingressS),
    to(eva.longestS, lasts),
    to(stay.lengthS, ingressS),
  ].reduce((a, b) => (b.spareS < a.spareS ? b : a));
  if (worst.spareS >= rules.tightS) return [];
  return [say("eva-bounds", worst.spareS < 0 ? "breach" : "tight", eva.id, worst.need, worst.have)];
}

/** Seconds to slip in the best of `windows`, or minus what sticks out of the one it sticks out of least. */
function spareOf(windows: readonly Bounds[], { startS, endS }: Bounds): number {
  return Math.max(
    ...windows.map((window) => {
      const out = Math.max(0, window.startS - startS) + Math.max(0, endS - window.endS);
      return out > 0 ? -out : window.endS - endS;
    }),
  );
}

/** time-window, egress-window (S18), S8. */
function windowsOf({ stay, rules }: Plan, one: Standing, outs: readonly Out[]): Said[] {
  const { of } = one;
  const told = (rule: string, windows: readonly Bounds[]): Said[] => {
    const spareS = windows.length === 0 ? Infinity : spareOf(windows, one);
    return spareS >= rules.tightS ? [] : [say(rule, spareS < 0 ? "breach" : "tight", of.id, 0, spareS)];
  };
  const outsideS = of.crew.count > 0 ? 0 : spareOf([{ startS: 0, endS: stay.lengthS }], one);
  if (outsideS < 0) return [say("time-window", "breach", of.id, 0, outsideS)];
  const out = outs.find(({ eva }) => eva.id === one.eva);
  const { startS = 0, endS = Infinity } = of.pet ?? {};
  const fromEgress =
    of.pet && out ? [{ startS: out.egressS + startS, endS: out.egressS + endS }] : ([] as Bounds[]);
  return [...told("time-window", of.windows), ...told("egress-window", fromEgress)];
}

function dutyOf({ rules }: Plan, member: string, outs: readonly Out[]): Said[] {
  const own = outs.filter(({ eva }) => eva.crew.includes(member));
  const { stayS, level } = rules.duty;
  const outS = own.reduce((sum, { egressS, ingressS }) => sum + ingressS - egressS, 0);
  if (own.length === 0 || stayS - outS >= rules.tightS) return [];
  const broken = outS > stayS && level === "breach";
  return [say("duty", broken ? "breach" : "tight", member, stayS, outS)];
}

function groupsOf({ groups }: Plan, standing: readonly Standing[]): Said[] {
  return groups.flatMap(({ id, tasks, least, most }) => {
    const placed = standing.filter(({ task }) => tasks.includes(task)).length;
    return [
      ...(most !== undefined && placed > most ? [say("group-most", "breach", id, most, placed)] : []),
      ...(placed < least ? [say("group-least", "open", id, least, placed)] : []),
    ];
  });
}

/** S17. */
function worthOf({ groups }: Plan, standing: readonly Standing[]): number {
  return standing.reduce((sum, one) => {
    const group = groups.find(({ tasks, shares }) => shares.length > 0 && tasks.includes(one.task));
    if (!group) return sum + one.of.worth;
    const better = standing.filter(
      (other) =>
        group.tasks.includes(other.task) &&
        (other.of.worth > one.of.worth || (other.of.worth === one.of.worth && other.task < one.task)),
    );
    const share = group.shares[Math.min(better.length, group.shares.length - 1)]!;
    return sum + Math.floor((one.of.worth * share) / 100);
  }, 0);
}
