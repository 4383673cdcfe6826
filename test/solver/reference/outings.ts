import { drawPerSecond, metabolicW, reserves, stocks, walkingW } from "../../../src/physics/index.ts";
import { waysOf } from "../../../src/terrain/index.ts";
import type { Bit, Term, Whole } from "./flat.ts";
import type { Frame } from "./model.ts";

/** What one crew member does on one EVA: which tasks, how long and how far they walk. */
interface Round {
  readonly at: readonly Bit[];
  readonly walkS: Whole;
  readonly walkM: Whole;
}

/** task-crew, one-at-a-time, no-way, eva-bounds, stay-blocks, recharge, duty, distances, reserves. */
export function outings(frame: Frame): void {
  taskCrew(frame);
  bounds(frame);
  const { plan, model } = frame;
  const rounds = plan.crew.map(({ id }) =>
    plan.evas.map((eva, e) => (eva.crew.includes(id) ? round(frame, e) : null)),
  );
  // Who is on an EVA with a task is one of those who do it, in a round of that EVA.
  plan.tasks.forEach((_, i) =>
    plan.crew.forEach((_, c) =>
      plan.evas.forEach((_, e) => {
        const at = rounds[c]![e]?.at[i];
        const both = [frame.on[i]![e]!, frame.by[i]![c]!];
        model.clause(at ? [at] : [], both);
        if (at) for (const one of both) model.clause([one], [at]);
      }),
    ),
  );
  rounds.forEach((ofMember, c) => {
    const { evaM, stayM } = plan.rules.distance;
    const flown = ofMember.filter((one) => one !== null);
    for (const one of flown) model.atMost([[1, one.walkM]], Math.floor(evaM));
    model.atMost(
      flown.map((one): Term => [1, one.walkM]),
      Math.floor(stayM),
    );
    ofMember.forEach((one, e) => one && draws(frame, c, e, one));
  });
}

function taskCrew({ model, plan, done, on, by }: Frame): void {
  plan.tasks.forEach((task, i) => {
    const { count, named, qualification } = task.crew;
    const isDone = done[i]!;
    model.equals([...on[i]!.map((one): Term => [1, one]), [count > 0 ? -1 : 0, isDone]], 0);
    model.equals([...by[i]!.map((one): Term => [1, one]), [-count, isDone]], 0);
    plan.crew.forEach(({ id }, c) => {
      if (named.includes(id)) model.clause([by[i]![c]!], [isDone]);
    });
    if (qualification === undefined) return;
    const holders = plan.crew.flatMap((member, c) =>
      member.qualifications.includes(qualification) ? [by[i]![c]!] : [],
    );
    model.clause(holders, [isDone]);
  });
}

function bounds({ model, plan, on, used, egressS, ingressS }: Frame): void {
  const { evas, stay, rules } = plan;
  evas.forEach((eva, e) => {
    const [isUsed, outS, inS] = [used[e]!, egressS[e]!, ingressS[e]!];
    for (const task of on) model.clause([isUsed], [task[e]!]);
    model.clause(
      on.map((task) => task[e]!),
      [isUsed],
    );
    model.atLeast([[1, outS]], eva.earliestEgressS, [isUsed]);
    model.atMost([[1, inS]], eva.latestIngressS, [isUsed]);
    // An EVA that is not flown takes no time.
    model.atMost(
      [
        [1, inS],
        [-1, outS],
        [-eva.longestS, isUsed],
      ],
      0,
    );
    model.atMost(
      [
        [1, outS],
        [-1, inS],
      ],
      0,
    );
    for (const block of stay.blocks) {
      if (block.crew.length > 0 && !block.crew.some((id) => eva.crew.includes(id))) continue;
      const before = model.whetherAtMost([[1, inS]], block.startS);
      const after = model.whetherAtMost([[-1, outS]], -block.endS);
      model.clause([before, after], [isUsed]);
    }
    evas.slice(0, e).forEach((other, f) => {
      if (!other.crew.some((id) => eva.crew.includes(id))) return;
      const first = model.whetherAtMost(
        [
          [1, ingressS[f]!],
          [-1, outS],
        ],
        -rules.recharge.leastS,
      );
      const second = model.whetherAtMost(
        [
          [1, inS],
          [-1, egressS[f]!],
        ],
        -rules.recharge.leastS,
      );
      model.clause([first, second], [isUsed, used[f]!]);
    });
  });
  for (const { id } of plan.crew) {
    const out = evas.flatMap((eva, e): Term[] =>
      eva.crew.includes(id)
        ? [
            [1, ingressS[e]!],
            [-1, egressS[e]!],
          ]
        : [],
    );
    model.atMost(out, rules.duty.stayS);
  }
}

/** The steps of one crew member on EVA `e`: one round from the lander and back; their times forbid any other. */
function round({ model, plan, startS, egressS, ingressS }: Frame, e: number): Round {
  const { tasks, site, rules, stay } = plan;
  const eva = plan.evas[e]!;
  const ways = waysOf(site, rules.walking);
  const indexOf = (id: string | undefined): number => ways.index.get(id ?? "") ?? ways.lander;
  const cell = (from: number | null, to: number | null): number => {
    const left = from === null ? ways.lander : indexOf(tasks[from]!.endPlace ?? tasks[from]!.place);
    return left * ways.size + (to === null ? ways.lander : indexOf(tasks[to]!.place));
  };
  const mine = tasks.flatMap((task, i) => (task.crew.count > 0 ? [i] : []));
  const at = tasks.map(() => model.bit());
  const into = new Map<number | null, Bit[]>([[null, []], ...mine.map((i) => [i, []] as [number, Bit[]])]);
  const outOf = new Map<number | null, Bit[]>([[null, []], ...mine.map((i) => [i, []] as [number, Bit[]])]);
  const walkS: Term[] = [];
  // Who carries something walks at least the way to where it ends (W10).
  const insideM = (i: number): number => {
    const { place, endPlace = place, walkM: givenM } = tasks[i]!;
    return Math.max(Math.ceil(givenM), ways.distanceM[indexOf(place) * ways.size + indexOf(endPlace)]!);
  };
  const walkM: Term[] = mine.map((i) => [insideM(i), at[i]!]);
  for (const from of [null, ...mine]) {
    for (const to of [null, ...mine]) {
      const wayS = ways.durationS[cell(from, to)]!;
      if (from === to || wayS < 0) continue;
      const step = model.bit();
      outOf.get(from)!.push(step);
      into.get(to)!.push(step);
      walkS.push([wayS, step]);
      walkM.push([ways.distanceM[cell(from, to)]!, step]);
      const left: Term = from === null ? [1, egressS[e]!] : [1, startS[from]!];
      const leftS = from === null ? eva.egressWorkS : tasks[from]!.duration.likelyS;
      const reached: Term = to === null ? [-1, ingressS[e]!] : [-1, startS[to]!];
      const thenS = to === null ? eva.ingressWorkS : 0;
      model.atMost([left, reached], -(leftS + wayS + thenS), [step]);
    }
  }
  const sum = (bits: readonly Bit[]): Term[] => bits.map((one) => [1, one]);
  for (const i of mine) {
    model.equals([...sum(into.get(i)!), [-1, at[i]!]], 0);
    model.equals([...sum(outOf.get(i)!), [-1, at[i]!]], 0);
  }
  tasks.forEach((_, i) => {
    if (!mine.includes(i)) model.clause([], [at[i]!]);
  });
  model.atMost(sum(outOf.get(null)!), 1);
  const total = (terms: Term[], most: number): Whole => {
    const whole = model.whole(0, most);
    model.equals([...terms, [-1, whole]], 0);
    return whole;
  };
  const walk = total(walkS, stay.lengthS);
  // Follows from the rest, and spares the solver most of its search: work and ways fit between egress and ingress.
  const hatchS = eva.egressWorkS + eva.ingressWorkS;
  const work = mine.map((i): Term => [tasks[i]!.duration.likelyS, at[i]!]);
  for (const i of mine)
    model.atMost([...work, [1, walk], [1, egressS[e]!], [-1, ingressS[e]!]], -hatchS, [at[i]!]);
  return { at, walkS: walk, walkM: total(walkM, 100_000) };
}

/** oxygen-, co2-, battery-reserve: standing still from egress to ingress, and what work and walking draw beyond (S4 to S7). */
function draws({ model, plan, used, egressS, ingressS }: Frame, c: number, e: number, walked: Round): void {
  const member = plan.crew[c]!;
  const eva = plan.evas[e]!;
  const suit = plan.suits.find(({ id }) => id === member.suit)!;
  const full = stocks(suit);
  const kept = reserves(full, suit.reserve);
  const factor = member.workRateFactor;
  const { walking } = plan.rules;
  const who = { factor, massKg: member.bodyMassKg + suit.massKg };
  const walkW = walkingW(walking, who, plan.body.gravityMs2, walking.speedMs, 0);
  for (const kind of ["oxygen", "co2", "battery"] as const) {
    const rate = (watts: number): number => drawPerSecond(suit, watts)[kind];
    const rest = rate(metabolicW("rest", factor));
    const beyond = (watts: number): number => rate(watts) - rest;
    const hatch = beyond(metabolicW("egress-ingress", factor)) * (eva.egressWorkS + eva.ingressWorkS);
    model.atMost(
      [
        [rest, ingressS[e]!],
        [-rest, egressS[e]!],
        [hatch, used[e]!],
        [beyond(walkW), walked.walkS],
        ...plan.tasks.map((task, i): Term => [
          beyond(metabolicW(task.effort, factor)) * task.duration.likelyS,
          walked.at[i]!,
        ]),
      ],
      full[kind] - kept[kind],
    );
  }
}
