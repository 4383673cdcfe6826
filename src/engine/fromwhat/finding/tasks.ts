import type { Interval } from "../../../kernel/index.ts";
import type { Placement, Plan, Task } from "../../../plan/index.ts";
import { heavensOf, taskSky } from "../../../terrain/index.ts";
import { clockToSecond, nameIn } from "../../../words/index.ts";
import {
  type FindingOfDay,
  type Behind,
  given,
  madeOf,
  moment,
  subject,
  sumOf,
  table,
  type Term,
  timeBetween,
} from "./terms.ts";

/** A placed task, and when it is under way. */
interface Under {
  readonly task: Task;
  readonly placement: Placement;
  readonly startS: number;
  readonly endS: number;
}

function under({ plan, schedule }: Pick<FindingOfDay, "plan" | "schedule">, id: string): Under | null {
  const task = plan.tasks.find((one) => one.id === id);
  const own = schedule.placements.filter((one) => one.task === id);
  // Of a task placed twice the earlier one counts.
  const placement = own.toSorted((a, b) => a.startS - b.startS)[0];
  if (!task || !placement) return null;
  return { task, placement, startS: placement.startS, endS: placement.startS + task.duration.likelyS };
}

/** A table of placed tasks: when, on which EVA, by whom. */
function placements(day: FindingOfDay, caption: string, ids: readonly string[]): Behind {
  const { plan } = day;
  const rows = ids.map((id) => {
    const one = under(day, id);
    const name = nameIn(plan.tasks, id);
    if (!one) return [name, "not placed", "", "", ""];
    const crew = one.placement.crew.map((member) => nameIn(plan.crew, member)).join(", ");
    return [
      name,
      clockToSecond(one.startS),
      clockToSecond(one.endS),
      one.placement.eva === null ? "" : nameIn(plan.evas, one.placement.eva),
      crew,
    ];
  });
  return { sums: table(caption, ["Task", "begins, MET", "ends, MET", "EVA", "crew"], rows) };
}

const SPARE = "judge: seconds to spare until the stretch ends; below 0 what lies outside of it";

/** A task against the one of `stretches` that it comes closest to. */
function insideOf(day: FindingOfDay, stretches: readonly Interval[] | null, what: string): Behind {
  const { finding } = day;
  const one = under(day, subject(finding, "task"));
  if (!one) return {};
  const all = table(
    `${what}, all there are`,
    ["From MET", "to MET"],
    (stretches ?? []).map(({ startS, endS }) => [clockToSecond(startS), clockToSecond(endS)]),
  );
  const ends: Term = [`${one.task.name} ends`, one.endS];
  const begins: Term = [`${one.task.name} begins`, one.startS];
  if (finding.have === null || stretches === null)
    return { more: [], sums: all, ...placements(day, "The task", [one.task.id]) };
  const within = stretches.filter(({ startS, endS }) => startS <= one.startS && one.endS <= endS);
  const best = within.toSorted((a, b) => b.endS - a.endS)[0];
  const need = given("to spare at least", 0, "s", `${what}: from its begin to its end inside one`);
  if (best)
    return { need, have: timeBetween("to spare", ends, [`${what} ends`, best.endS], SPARE), sums: all };
  const out = ({ startS, endS }: Interval): number =>
    Math.max(0, startS - one.startS) + Math.max(0, one.endS - endS);
  const near = stretches.toSorted((a, b) => out(a) - out(b) || a.startS - b.startS)[0];
  if (!near) return { sums: all };
  return {
    need,
    have: madeOf(
      "to spare",
      -out(near),
      "s",
      "-(Math.max(0, opens - begins) + Math.max(0, ends - closes))",
      {
        opens: moment([`${what} begins`, near.startS]),
        begins: moment(begins),
        ends: moment(ends),
        closes: moment([`${what} ends`, near.endS]),
      },
      SPARE,
    ),
    sums: all,
  };
}

export function windowBehind(day: FindingOfDay): Behind {
  const task = day.plan.tasks.find(({ id }) => id === subject(day.finding, "task"));
  const whole = { startS: 0, endS: day.plan.stay.lengthS } as unknown as Interval;
  const inStay = task?.crew.count === 0 && !within(whole, under(day, task.id));
  return insideOf(day, inStay ? [whole] : (task?.windows ?? []), inStay ? "the stay" : "its window");
}

/** The window from egress as it falls on this day. */
export function egressWindowBehind(day: FindingOfDay): Behind {
  const task = day.plan.tasks.find(({ id }) => id === subject(day.finding, "task"));
  const one = task && under(day, task.id);
  const eva = day.schedule.placements.find((placement) => placement.task === task?.id)?.eva;
  const out = day.verdict.outings.find((outing) => outing.eva === eva);
  if (!task?.pet || !one || !out) return {};
  const { startS = 0, endS } = task.pet;
  const egressS: number = out.span.startS;
  const window = { startS: egressS + startS, endS: endS === undefined ? one.endS : egressS + endS };
  return insideOf(day, [window as Interval], "its time from egress");
}

function within({ startS, endS }: Interval, one: Under | null): boolean {
  return one !== null && startS <= one.startS && one.endS <= endS;
}

/** A task against when sky or relay are as it asks. */
export function skyBehind(kind: "sun" | "light" | "sunAngle" | "relay", what: string) {
  return (day: FindingOfDay): Behind => {
    const { plan, finding } = day;
    const task = plan.tasks.find(({ id }) => id === subject(finding, "task"));
    if (!task) return {};
    const sky = taskSky(heavensOf(plan), { ...plan.stay, places: plan.site.places }, task);
    return insideOf(day, sky[kind] ?? null, what);
  };
}

/** Both moments of a lag. */
export function lagBehind(day: FindingOfDay): Behind {
  const { plan, finding } = day;
  const link = plan.links.find(({ id }) => id === subject(finding, "link"));
  if (link?.type !== "lag" || finding.need === null) return {};
  const end = (of: typeof link.from): Term | null => {
    const one = under(day, of.task);
    return one && [`${one.task.name} ${of.end}s`, of.end === "start" ? one.startS : one.endS];
  };
  const [from, to] = [end(link.from), end(link.to)];
  if (!from || !to) return {};
  return {
    need: given(
      "lag asked for",
      finding.need,
      "s",
      `plan: ${finding.need === link.leastS ? "least" : "greatest"} lag of the link`,
    ),
    have: timeBetween("lag", from, to, "plan: placements and likely lengths"),
    ...placements(day, "Linked tasks", [link.from.task, link.to.task]),
  };
}

/** The tasks of a link, side by side. */
export function linkedBehind(day: FindingOfDay): Behind {
  const link = day.plan.links.find(({ id }) => id === subject(day.finding, "link"));
  if (!link) return {};
  return placements(day, "Linked tasks", link.type === "lag" ? [link.from.task, link.to.task] : link.tasks);
}

/** Crew members of a task, one by one. */
export function crewBehind(day: FindingOfDay): Behind {
  const { plan, schedule, finding } = day;
  const id = subject(finding, "task");
  const own = placements(
    day,
    "The task",
    schedule.placements.filter((one) => one.task === id).map(() => id),
  );
  const one = under(day, id);
  if (!one || finding.have === null) return own;
  const crew = [...new Set(one.placement.crew)];
  return {
    need: given("crew members asked for", one.task.crew.count, "count", `plan: ${one.task.name}`),
    have: sumOf(
      "crew members",
      "count",
      crew.map((member): Term => [nameIn(plan.crew, member), 1]),
      "plan: the placement",
    ),
    ...own,
  };
}

/** The gap between two tasks of one crew member against the way, or between two EVAs. */
export function gapBehind(day: FindingOfDay): Behind {
  const { plan, verdict, finding } = day;
  const crew = subject(finding, "crew");
  const [last, next] = [under(day, subject(finding, "task")), under(day, subject(finding, "task", 1))];
  if (last && next && finding.need !== null) {
    const place = (task: Task, end: boolean): string =>
      (end ? (task.endPlace ?? task.place) : task.place) ?? "";
    const [from, to] = [place(last.task, true), place(next.task, false)];
    const way = verdict.outings
      .find((one) => one.crew === crew && one.eva === last.placement.eva)
      ?.stretches.find(({ kind, path }) => kind === "traverse" && path[0] === from && path.at(-1) === to);
    const terms: Term[] =
      finding.need > 0
        ? [
            [
              `${nameIn(plan.site.places, from)} to ${nameIn(plan.site.places, to)}, ${way?.walkM ?? 0} m`,
              finding.need,
            ],
          ]
        : [];
    return {
      need: sumOf("the way between", "s", terms, "terrain/ways at the planned pace"),
      have: timeBetween(
        "time between",
        [`${last.task.name} ends`, last.endS],
        [`${next.task.name} begins`, next.startS],
        "plan: placements and likely lengths",
      ),
    };
  }
  const out = (nth: number) =>
    verdict.outings.find((one) => one.crew === crew && one.eva === subject(finding, "eva", nth));
  const [before, after] = [out(0), out(1)];
  if (!before || !after) return {};
  return {
    need: given("between EVAs at least", 0, "s", "nobody is on two EVAs at once"),
    have: timeBetween(
      "between EVAs",
      [`ingress complete, ${nameIn(plan.evas, before.eva)}`, before.span.endS],
      [`egress, ${nameIn(plan.evas, after.eva)}`, after.span.startS],
      "judge: S3",
    ),
  };
}

/** Who uses an equipment at the moment of most use. */
export function equipmentBehind(day: FindingOfDay): Behind {
  const { plan, schedule, finding } = day;
  const id = subject(finding, "equipment");
  const stocked = plan.equipment.find((one) => one.id === id);
  const atS = finding.span?.startS ?? 0;
  const terms = plan.tasks.flatMap((task): Term[] => {
    const one = under({ plan, schedule }, task.id);
    const uses = task.equipment.filter(({ equipment }) => equipment === id);
    if (!one || one.startS > atS || one.endS <= atS) return [];
    return uses.map(({ count }): Term => [
      `${task.name}, ${clockToSecond(one.startS)} to ${clockToSecond(one.endS)}`,
      count,
    ]);
  });
  return {
    need: sumOf(`in use at ${clockToSecond(atS)} MET`, "count", terms, "plan: equipment that tasks ask for"),
    have: given("there are", stocked?.count ?? 0, "count", `plan: ${stocked?.name ?? id}`),
  };
}

/** A pin against where the task is. */
export function pinBehind(day: FindingOfDay): Behind {
  const one = under(day, subject(day.finding, "task"));
  const pin = one?.task.pin;
  if (!one || !pin) return {};
  const { need, have } = day.finding;
  return {
    ...(need === null || have === null
      ? {}
      : {
          need: given("pinned start", need, "s", "plan: the pin"),
          have: given("start", have, "s", "plan: the placement"),
          more: [
            timeBetween(
              "later than pinned by",
              ["pinned", need],
              ["placed", have],
              "plan: pin and placement",
            ),
          ],
        }),
    ...placements(day, "The task, as placed", [one.task.id]),
  };
}

/** How many of a group are placed, against how many may or must be. */
export function groupBehind(day: FindingOfDay): Behind {
  const { plan, schedule, finding } = day;
  const group = plan.groups.find(({ id }) => id === subject(finding, "group"));
  if (!group || finding.need === null) return {};
  const most = finding.rule === "group-most";
  return {
    need: given(most ? "at most" : "at least", finding.need, "count", `plan: ${group.name}`),
    have: sumOf(
      "placed",
      "count",
      plan.tasks.flatMap((task): Term[] =>
        group.tasks.includes(task.id) && under({ plan, schedule }, task.id) ? [[task.name, 1]] : [],
      ),
      "plan: placements",
    ),
    ...placements(day, `Tasks of ${group.name}`, group.tasks),
  };
}

/** The must-do task that is not placed. */
export function openBehind(day: FindingOfDay): Behind {
  const tasks: Plan["tasks"] = day.plan.tasks.filter((task) => task.must);
  return placements(
    day,
    "Must-do tasks",
    tasks.map(({ id }) => id),
  );
}
