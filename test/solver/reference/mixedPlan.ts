import { random } from "../../../src/kernel/index.ts";
import { type Plan } from "../../../src/plan/index.ts";
import type { PlanInput } from "../../../src/plan/plan.ts";
import { eva, parsed, place, type TaskInput, tinyInput } from "../../check/tinyPlan.ts";

/**
 * A small day with a little of everything that the reference model knows: two crew members, one or two EVAs, six to
 * ten tasks with windows, passes, two-person and remote work, links of every type, equipment, samples, pins, and budgets of
 * oxygen, CO2, battery and distance that are shorter than the list. The same seed gives the same plan.
 *
 * So that the model stays exact, walk-back and work and rest are warnings, separation and cooling water are wide, ground is
 * level, and there is no sun range and no hot keep-out. A task lasts longer than what is walked in it.
 */
export function mixedPlan(seed: number): Plan {
  const stream = random(seed);
  const chance = (p: number): boolean => stream.next() < p;
  const whole = (low: number, high: number): number => low + stream.below(high - low + 1);
  const pick = <V>(list: readonly V[]): V => list[stream.below(list.length)]!;
  const crew = ["ev1", "ev2"];
  const evas = chance(0.45) ? ["eva-1", "eva-2"] : ["eva-1"];
  const dayS = whole(6000, 9000);
  const stayS = evas.length * (dayS + 3000);
  const stations = ["a", "b", "c", "d"];
  const tasks = Array.from({ length: whole(6, 10) }, (_, k) => `t${k + 1}`);
  const span = (leastS: number) => {
    const startS = whole(0, stayS - leastS);
    return { startS, endS: startS + leastS + whole(200, 2500) };
  };

  const taskInput = (id: string): TaskInput => {
    const remote = chance(0.12);
    const likelyS = remote ? whole(900, 3000) : whole(600, 2000);
    const two = !remote && chance(0.25);
    const more: Partial<TaskInput> = remote
      ? {}
      : {
          place: pick(chance(0.1) ? ["lander"] : stations),
          ...(chance(0.15) ? { endPlace: pick(stations) } : {}),
          ...(chance(0.2) ? { walkM: whole(20, 200) } : {}),
          ...(chance(0.15) ? { instrument: true } : {}),
          ...(chance(0.5)
            ? {
                sample: {
                  container: pick(["box", "bag"]),
                  massKg: whole(5, 60) / 10,
                  volumeL: whole(1, 30) / 10,
                },
              }
            : {}),
        };
    return {
      id,
      name: id,
      kind: "survey",
      duration: { likelyS },
      crew: {
        count: remote ? 0 : two ? 2 : 1,
        named: !remote && !two && chance(0.15) ? [pick(crew)] : [],
        ...(!remote && chance(0.15) ? { qualification: "geologist" } : {}),
      },
      effort: pick(["geology", "deployment", "overall", { watts: whole(200, 420) }]),
      worth: whole(1, 60),
      must: chance(0.2),
      windows: chance(0.35) ? Array.from({ length: whole(1, 2) }, () => span(likelyS)) : [],
      relay: chance(0.12),
      equipment: chance(0.25)
        ? [{ equipment: "drill" }]
        : chance(0.2)
          ? [{ equipment: "rake", count: whole(1, 2) }]
          : [],
      ...more,
      ...pinned(remote),
    };
  };
  const pinned = (remote: boolean): Partial<TaskInput> => {
    if (!chance(0.12)) return {};
    if (remote || chance(0.4)) return { pin: { startS: whole(1200, Math.floor(stayS / 2)) } };
    return { pin: chance(0.5) ? { eva: pick(evas) } : { crew: [pick(crew)] } };
  };
  const list = tasks.map(taskInput);

  const links = Array.from({ length: whole(2, 4) }, (_, k): NonNullable<PlanInput["links"]> => {
    const id = `l${k + 1}`;
    const [a, b] = [pick(tasks), pick(tasks)];
    if (a === b) return [];
    const kind = stream.next();
    if (kind < 0.3) return [{ id, type: "crew", tasks: [a, b], crew: pick(["same", "different"]) }];
    if (kind < 0.38) return [{ id, type: "eva", tasks: [a, b] }];
    if (kind < 0.45) return [{ id, type: "apart", tasks: [a, b], leastM: whole(100, 500) }];
    const leastS = whole(-5, 12) * 130;
    const bounded = chance(0.5);
    return [
      {
        id,
        type: "lag",
        from: { task: a, end: pick(["start", "end"]) },
        to: { task: b, end: pick(["start", "end"]) },
        ...(bounded && chance(0.3) ? {} : { leastS }),
        ...(bounded ? { greatestS: leastS + whole(0, 20) * 90 } : {}),
        needs: pick(["none", "from", "both"]),
      },
    ];
  }).flat();

  // Somebody out all day at a mean rate draws about this much.
  const oxygenKg = dayS * 2.2e-5 * (0.6 + 0.6 * stream.next());
  const input = tinyInput({
    tasks: list,
    places: [place("lander", 0, 0), ...stations.map((id) => place(id, whole(-500, 500), whole(-500, 500)))],
    crew: crew.map((id, c) => ({
      id,
      name: id,
      bodyMassKg: whole(60, 90),
      workRateFactor: whole(90, 110) / 100,
      qualifications: c === 0 ? ["geologist"] : [],
      suit: "suit",
    })),
    suit: {
      oxygenKg: chance(0.6) ? oxygenKg : 2,
      co2Kg: chance(0.3) ? oxygenKg * 1.2 : 2,
      batteryWh: chance(0.2) ? (dayS * 50) / 3600 : 500,
    },
    evas: evas.map((id, e) =>
      eva(id, {
        crew: chance(0.8) ? crew : [pick(crew)],
        earliestEgressS: e * (dayS + 1500),
        latestIngressS: e * (dayS + 1500) + dayS,
        longestS: whole(5000, 8000),
        egressWorkS: whole(300, 600),
        ingressWorkS: whole(300, 600),
      }),
    ),
    stay: {
      lengthS: stayS,
      relayPasses: Array.from({ length: 2 }, (_, k) => ({ id: `p${k}`, name: `p${k}`, ...span(2000) })),
      blocks: chance(0.25)
        ? [
            {
              id: "meal",
              name: "meal",
              kind: "meal",
              crew: chance(0.5) ? [] : [pick(crew)],
              startS: whole(Math.floor(stayS * 0.3), Math.floor(stayS * 0.6)),
              endS: whole(Math.floor(stayS * 0.6), Math.floor(stayS * 0.65)),
            },
          ]
        : [],
    },
    rules: {
      walkback: { level: "warning" },
      work: { level: "warning", longestS: 86_400 },
      distance: { evaM: chance(0.5) ? whole(1500, 3500) : 50_000, stayM: whole(3000, 9000) },
      duty: { stayS: chance(0.3) ? whole(6000, 12_000) : 86_400 },
      recharge: { leastS: whole(0, 3000) },
      returnMass: { greatestKg: whole(6, 30) },
    },
    more: {
      links,
      equipment: [
        { id: "drill", name: "drill", count: 1 },
        { id: "rake", name: "rake", count: 2 },
      ],
      containers: ["box", "bag"].map((id) => ({
        id,
        name: id,
        emptyMassKg: whole(1, 3),
        capacityKg: whole(4, 15),
        volumeL: whole(3, 12),
      })),
    },
  });
  return parsed({ ...input, title: `mixed ${seed}` });
}

/** The same with two groups: at most and at least so many, and each further one for less. */
export function groupedPlan(seed: number): Plan {
  const plan = mixedPlan(seed);
  const stream = random(seed + 271_828);
  const groups = ["first", "second"].map((id, g) => {
    const tasks = plan.tasks.map((task) => task.id).filter(() => stream.next() < 0.6);
    const most = stream.below(tasks.length + 1);
    return {
      ...{ id, name: id, tasks },
      ...(stream.next() < 0.7 ? { most } : {}),
      least: stream.next() < 0.5 ? stream.below(most + 1) : 0,
      shares: g === 0 ? [100, 30 + stream.below(60), stream.below(30)] : [],
    };
  });
  return parsed({ ...plan, groups, title: `grouped ${seed}` });
}
