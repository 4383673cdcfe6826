import { duration, instant } from "../../../kernel/index.ts";
import type { LagLink, Link, Plan, Task } from "../../../plan/index.ts";
import { FLIGHT_RULES, mostEased } from "../../../rules/index.ts";
import { lasting, linkWords, met, pet, taskName } from "../../../words/index.ts";
import { type Relaxation, withOne } from "./relaxation.ts";

const GIVEN = { drops: [], owner: null } as const;

/** A condition taken away: there is only yes or no. */
function givenUp(
  kind: Relaxation["kind"],
  subject: string,
  change: (plan: Plan) => Plan,
  words: string,
): Relaxation {
  return { ...GIVEN, kind, subject, most: 1, change, size: () => 1, say: () => words };
}

/** `plan` with `change` made to the task `id`. */
function withTask(plan: Plan, id: string, change: (task: Task) => Task): Plan {
  return { ...plan, tasks: withOne(plan.tasks, id, change) };
}

/** Every window of a task opened earlier or closed later. */
export function windowRelaxations(task: Task): Relaxation[] {
  return task.windows.flatMap((window, w) => {
    const lastsS = Math.max(60, window.endS - window.startS);
    const put = (plan: Plan, startS: number, endS: number): Plan =>
      withTask(plan, task.id, (one) => ({
        ...one,
        windows: one.windows.map((old, k) =>
          k === w ? { startS: instant(startS), endS: instant(endS) } : old,
        ),
      }));
    const base = { ...GIVEN, kind: "window", subject: task.id, most: mostEased("time-window") } as const;
    const size = (steps: number): number => (steps * 60) / lastsS;
    return [
      {
        ...base,
        size,
        change: (plan, steps) => put(plan, window.startS - steps * 60, window.endS),
        say: (steps) =>
          `The window of ${task.name} from ${met(window.startS)} opens ${lasting(steps * 60, "up")} earlier: ${met(window.startS - steps * 60)}.`,
      },
      {
        ...base,
        size,
        change: (plan, steps) => put(plan, window.startS, window.endS + steps * 60),
        say: (steps) =>
          `The window of ${task.name} to ${met(window.endS)} closes ${lasting(steps * 60, "up")} later: ${met(window.endS + steps * 60)}.`,
      },
    ] satisfies Relaxation[];
  });
}

/** The window from egress opened earlier or closed later. */
export function petRelaxations(task: Task): Relaxation[] {
  if (!task.pet) return [];
  const startS = task.pet.startS ?? duration(0);
  const { endS } = task.pet;
  const put = (plan: Plan, window: NonNullable<Task["pet"]>): Plan =>
    withTask(plan, task.id, (one) => ({ ...one, pet: window }));
  const base = { ...GIVEN, kind: "pet", subject: task.id } as const;
  const size = (steps: number): number => (steps * 60) / Math.max(60, (endS ?? 2 * startS) - startS);
  const most = mostEased("egress-window");
  const closes: Relaxation[] =
    endS === undefined
      ? []
      : [
          {
            ...base,
            most,
            size,
            change: (plan, steps) => put(plan, { startS, endS: duration(endS + steps * 60) }),
            say: (steps) =>
              `The window of ${task.name} from egress closes ${lasting(steps * 60, "up")} later: ${pet(endS + steps * 60)}.`,
          },
        ];
  const wholeMin = Math.ceil(startS / 60);
  if (wholeMin === 0) return closes;
  return [
    {
      ...base,
      most: Math.min(most, wholeMin),
      size,
      change: (plan, steps) => put(plan, { ...task.pet, startS: duration(Math.max(0, startS - steps * 60)) }),
      say: (steps) =>
        `The window of ${task.name} from egress opens ${lasting(Math.min(startS, steps * 60), "up")} earlier: ${pet(Math.max(0, startS - steps * 60))}.`,
    },
    ...closes,
  ];
}

/** The sun range of a task made wider at either end, by tenths of a degree. */
export function sunRelaxations(task: Task): Relaxation[] {
  const { sun } = task;
  if (!sun) return [];
  const wide = Math.max(0.1, sun.greatestDeg - sun.leastDeg);
  const tenths = (value: number): number => Math.round(value * 10) / 10;
  const end = (name: "leastDeg" | "greatestDeg", sign: number, words: string): Relaxation => ({
    ...GIVEN,
    kind: "sun",
    subject: task.id,
    most: mostEased("sun"),
    change: (plan, steps) =>
      withTask(plan, task.id, (one) => ({
        ...one,
        sun: { ...sun, [name]: tenths(sun[name] + (sign * steps) / 10) },
      })),
    size: (steps) => steps / 10 / wide,
    say: (steps) =>
      `${task.name} is done with the sun ${words} ${tenths(sun[name] + (sign * steps) / 10)} degrees instead of ${sun[name]}.`,
  });
  return [end("leastDeg", -1, "down to"), end("greatestDeg", 1, "up to")];
}

/** The light or the sun's direction that a task wants, given up. */
export function lightRelaxation({ id, name }: Task, what: "light" | "sun-angle"): Relaxation {
  return givenUp(
    what,
    id,
    (plan) => withTask(plan, id, (one) => without(one, what === "light" ? "light" : "sunAngle")),
    `${name} is done ${what === "light" ? "in whatever light there is" : "wherever the sun stands"}.`,
  );
}

/** A relay pass moved; a move that helps one task can take another's pass away. */
export function relayRelaxations(plan: Plan): Relaxation[] {
  return plan.stay.relayPasses.flatMap((pass) =>
    [-1, 1].map((sign): Relaxation => ({
      ...GIVEN,
      owner: FLIGHT_RULES.relay.decides,
      kind: "relay",
      subject: pass.id,
      most: mostEased("relay"),
      uneven: true,
      change: (now, steps) => ({
        ...now,
        stay: {
          ...now.stay,
          relayPasses: withOne(now.stay.relayPasses, pass.id, (one) => ({
            ...one,
            startS: instant(one.startS + sign * steps * 60),
            endS: instant(one.endS + sign * steps * 60),
          })),
        },
      }),
      size: (steps) => (steps * 60) / Math.max(60, pass.endS - pass.startS),
      say: (steps) =>
        `${pass.name} comes ${lasting(steps * 60, "up")} ${sign < 0 ? "earlier" : "later"}: from ${met(pass.startS + sign * steps * 60)}.`,
    })),
  );
}

/** A lag made wider at either end; another link taken away. */
export function linkRelaxations(plan: Plan, link: Link): Relaxation[] {
  if (link.type !== "lag") {
    const words = `The link is given up: ${linkWords(plan, link)}`;
    const change = (now: Plan): Plan => ({ ...now, links: now.links.filter((one) => one.id !== link.id) });
    return [givenUp("link", link.id, change, words)];
  }
  const between = `${taskName(plan, link.from.task)} and ${taskName(plan, link.to.task)}`;
  const bound = (which: "leastS" | "greatestS", sign: number, words: string): Relaxation[] => {
    const nowS = link[which];
    if (nowS === undefined) return [];
    const put = (one: Link, byS: number): Link =>
      one.type === "lag" ? ({ ...one, [which]: duration(nowS + sign * byS) } satisfies LagLink) : one;
    return [
      {
        ...GIVEN,
        kind: "lag",
        subject: link.id,
        most: mostEased("link-lag"),
        change: (now, steps) => ({
          ...now,
          links: withOne(now.links, link.id, (one) => put(one, steps * 60)),
        }),
        size: (steps) => (steps * 60) / Math.max(60, Math.abs(nowS)),
        say: (steps) =>
          `The ${words} lag between ${between} is ${lasting(nowS + sign * steps * 60, sign < 0 ? "down" : "up")} instead of ${lasting(nowS, sign < 0 ? "up" : "down")}.`,
      },
    ];
  };
  return [...bound("leastS", -1, "least"), ...bound("greatestS", 1, "greatest")];
}

/** A pin pulled, or the named crew let go. */
export function crewRelaxations(task: Task, what: "pin" | "crew"): Relaxation[] {
  const { id, name, crew } = task;
  if (what === "crew" && crew.named.length === 0) return [];
  const free = (one: Task): Task =>
    what === "pin" ? without(one, "pin") : { ...one, crew: { ...one.crew, named: [] } };
  const words =
    what === "pin" ? `${name} is no longer pinned.` : `${name} may be done by others than those named.`;
  return [givenUp(what, id, (plan) => withTask(plan, id, free), words)];
}

function without(task: Task, what: "pin" | "light" | "sunAngle"): Task {
  const free = { ...task };
  delete free[what];
  return free;
}

/** More units of an equipment. */
export function equipmentRelaxation(plan: Plan, q: number): Relaxation {
  const { id, name, count } = plan.equipment[q]!;
  return {
    ...moreOf("equipment", id, mostEased("equipment"), count),
    change: (now, steps) => ({
      ...now,
      equipment: withOne(now.equipment, id, (one) => ({ ...one, count: count + steps })),
    }),
    say: (steps) =>
      `There ${count + steps === 1 ? "is 1" : `are ${count + steps}`} of ${name} instead of ${count === 0 ? "none" : count}.`,
  };
}

/** More of a group than may be done. */
export function groupRelaxation(plan: Plan, g: number): Relaxation {
  const { id, name, most = 0 } = plan.groups[g]!;
  return {
    ...moreOf("group", id, mostEased("group-most"), most),
    change: (now, steps) => ({
      ...now,
      groups: withOne(now.groups, id, (one) => ({ ...one, most: most + steps })),
    }),
    say: (steps) => `Of ${name} ${most + steps} may be done instead of ${most}.`,
  };
}

/** More of something than its `count`, one a step. */
function moreOf(kind: Relaxation["kind"], subject: string, most: number, count: number) {
  return { ...GIVEN, kind, subject, most, size: (steps: number) => steps / Math.max(1, count) };
}

/** The sample of a task into another container. */
export function containerRelaxations(plan: Plan, { id, name, sample }: Task): Relaxation[] {
  if (!sample) return [];
  return plan.containers
    .filter((one) => one.id !== sample.container)
    .map((one) =>
      givenUp(
        "container",
        id,
        (now) => withTask(now, id, (old) => ({ ...old, sample: { ...sample, container: one.id } })),
        `The sample of ${name} goes into ${one.name}.`,
      ),
    );
}
