import type { Plan } from "../../../src/plan/index.ts";
import { distance } from "../../../src/terrain/index.ts";
import type { Frame } from "./model.ts";

/** time-window, relay, pin, blast-keep-out and all kinds of links. */
export function conditions(frame: Frame): void {
  const { plan } = frame;
  plan.tasks.forEach((_, i) => {
    times(frame, i);
    pin(frame, i);
    blast(frame, i);
  });
  for (const link of plan.links) {
    if (link.type === "lag") lag(frame, link);
    else tie(frame, link);
  }
}

/** Inside the stay, one of the windows, one of the passes. */
function times({ model, plan, done, startS }: Frame, i: number): void {
  const task = plan.tasks[i]!;
  const lastsS = task.duration.likelyS;
  const insideOne = (spans: readonly { readonly startS: number; readonly endS: number }[]): void => {
    const inside = spans.map((span) => {
      const bit = model.bit();
      model.atLeast([[1, startS[i]!]], span.startS, [bit]);
      model.atMost([[1, startS[i]!]], span.endS - lastsS, [bit]);
      return bit;
    });
    model.clause(inside, [done[i]!]);
  };
  insideOne([{ startS: 0, endS: plan.stay.lengthS }]);
  if (task.windows.length > 0) insideOne(task.windows);
  if (task.relay) insideOne(plan.stay.relayPasses);
}

function pin({ model, plan, done, startS, on, by }: Frame, i: number): void {
  const pinned = plan.tasks[i]!.pin;
  if (!pinned) return;
  const isDone = done[i]!;
  if (pinned.startS !== undefined) {
    model.atLeast([[1, startS[i]!]], pinned.startS, [isDone]);
    model.atMost([[1, startS[i]!]], pinned.startS, [isDone]);
  }
  plan.evas.forEach(({ id }, e) => {
    if (pinned.eva === id) model.clause([on[i]![e]!], [isDone]);
  });
  plan.crew.forEach(({ id }, c) => {
    if (!pinned.crew) return;
    const takesPart = by[i]![c]!;
    if (pinned.crew.includes(id)) model.clause([takesPart], [isDone]);
    else model.clause([], [isDone, takesPart]);
  });
}

function blast({ model, plan, done }: Frame, i: number): void {
  const task = plan.tasks[i]!;
  const lander = plan.site.places.find(({ kind }) => kind === "lander")!;
  const end = plan.site.places.find(({ id }) => id === (task.endPlace ?? task.place));
  if (task.instrument && end && distance(end, lander) < plan.rules.blast.leastM) model.clause([], [done[i]!]);
}

type Link = Plan["links"][number];

/** link-lag, link-needs */
function lag({ model, plan, done, startS }: Frame, link: Extract<Link, { type: "lag" }>): void {
  const indexOf = (id: string): number => plan.tasks.findIndex((task) => task.id === id);
  const [a, b] = [indexOf(link.from.task), indexOf(link.to.task)];
  const endS = ({ end }: { end: string }, i: number): number =>
    end === "end" ? plan.tasks[i]!.duration.likelyS : 0;
  const shiftS = endS(link.to, b) - endS(link.from, a);
  const both = [done[a]!, done[b]!];
  if (link.leastS !== undefined)
    model.atLeast(
      [
        [1, startS[b]!],
        [-1, startS[a]!],
      ],
      link.leastS - shiftS,
      both,
    );
  if (link.greatestS !== undefined)
    model.atMost(
      [
        [1, startS[b]!],
        [-1, startS[a]!],
      ],
      link.greatestS - shiftS,
      both,
    );
  if (link.needs !== "none") model.clause([done[a]!], [done[b]!]);
  if (link.needs === "both") model.clause([done[b]!], [done[a]!]);
}

/** link-crew, link-eva, link-apart */
function tie({ model, plan, done, on, by }: Frame, link: Exclude<Link, { type: "lag" }>): void {
  const [a, b] = link.tasks.map((id) => plan.tasks.findIndex((task) => task.id === id)) as [number, number];
  const both = [done[a]!, done[b]!];
  if (link.type === "crew")
    plan.crew.forEach((_, c) => {
      const [one, other] = [by[a]![c]!, by[b]![c]!];
      if (link.crew === "different") model.clause([], [...both, one, other]);
      else {
        model.clause([other], [...both, one]);
        model.clause([one], [...both, other]);
      }
    });
  else if (link.type === "eva") {
    if (plan.tasks[a]!.crew.count === 0 || plan.tasks[b]!.crew.count === 0) return;
    plan.evas.forEach((_, e) => model.clause([on[b]![e]!], [...both, on[a]![e]!]));
  } else {
    const [one, other] = [a, b].map((i) => {
      const task = plan.tasks[i]!;
      return plan.site.places.find(({ id }) => id === (task.endPlace ?? task.place));
    });
    if (one && other && distance(one, other) < link.leastM) model.clause([], both);
  }
}
