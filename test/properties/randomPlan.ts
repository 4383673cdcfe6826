import { type Random, random } from "../../src/kernel/index.ts";
import { parse, type Plan } from "../../src/plan/index.ts";

/** Sizes and tightness of a random plan. */
export interface Shape {
  readonly tasks: number;
  readonly crew: number;
  readonly evas: number;
  readonly places: number;
  /** Probability of each of the rarer features. */
  readonly features: number;
}

/**
 * A random plan that parses and uses every kind of rule now and then: several windows, relay passes, sun ranges, two-person and
 * crew-less tasks, named and qualified crew, equipment, containers, links of all types, keep-outs, blocks, pins, carries,
 * given legs, closed ways, and budgets near their limits. The same seed gives the same plan.
 */
export function randomPlan(seed: number, shape: Shape): Plan {
  const stream = random(seed);
  // A stream of their own, so that the rest of the plan does not depend on these.
  const worn = random(seed + 7919);
  const unsaid = random(seed + 104_729);
  const paces = random(seed + 1_299_709);
  const dressed = random(seed + 15_485_863);
  const grouped = random(seed + 32_452_843);
  const counted = random(seed + 49_979_687);
  const chance = (p: number): boolean => stream.next() < p;
  const rare = (p: number): boolean => stream.next() < p * shape.features;
  const whole = (low: number, high: number): number => low + stream.below(high - low + 1);
  const pick = <T>(list: readonly T[]): T => list[stream.below(list.length)]!;
  const ids = (name: string, count: number): string[] =>
    Array.from({ length: count }, (_, i) => `${name}${i + 1}`);

  const reachM = whole(150, 900);
  const places = ids("place", shape.places);
  const crew = ids("ev", shape.crew);
  const evas = ids("eva", shape.evas);
  const tasks = ids("task", shape.tasks);
  const dayS = 3600 * whole(3, 8);
  const restS = whole(0, 2) * 1800;
  const lengthS = shape.evas * (dayS + restS + 3600);
  const time = (): number => whole(0, lengthS);
  const stretch = (leastS: number): { startS: number; endS: number } => {
    const startS = whole(0, Math.max(1, lengthS - leastS));
    return { startS, endS: startS + leastS + whole(0, Math.floor(dayS / 2)) };
  };
  const level = (p: number) => ({ level: rare(p) ? ("warning" as const) : ("breach" as const) });
  const capacity = (kg: number): number => kg * (0.35 + 1.2 * stream.next());

  const body = rare(0.1) ? { ephemeris: "none" } : {};
  const [latDeg, lonDeg] = [whole(-40, 40), whole(-60, 60)];
  const spots: Spot[] = [
    { id: "lander", name: "lander", kind: "lander", eastM: 0, northM: 0, upM: 0 },
    ...places.map((id) => ({
      id,
      name: id,
      kind: "station",
      eastM: whole(-reachM, reachM),
      northM: whole(-reachM, reachM),
      upM: rare(0.5) ? whole(-20, 20) : 0,
    })),
  ];

  const data = {
    format: "lopeline-plan",
    version: 3,
    title: `random ${seed}`,
    body,
    site: {
      name: "somewhere",
      latDeg,
      lonDeg,
      places: spots,
      legs: rare(0.3)
        ? walkable(
            spots,
            ids("leg", whole(1, 3)).map(() => ({
              from: pick(spots.map(({ id }) => id)),
              to: pick(places),
              longer: whole(0, 850) / 850,
              pace: whole(0, 840),
              bothWays: chance(0.7),
              peak: chance(0.3) ? whole(0, 1400) / 1400 : null,
            })),
          )
        : [],
      keepOuts: [
        ...(rare(0.3)
          ? [
              {
                id: "pit",
                name: "pit",
                kind: "walking",
                shape: disc(whole(-reachM, reachM), whole(-reachM, reachM), 60),
              },
            ]
          : []),
        ...(rare(0.4)
          ? [
              {
                id: "unit",
                name: "unit",
                kind: "hot",
                shape: disc(whole(-reachM, reachM), whole(-reachM, reachM), Math.floor(reachM / 2)),
                ...(chance(0.8) ? { afterTask: pick(tasks) } : {}),
                exemptTasks: chance(0.4) ? [pick(tasks)] : [],
              },
            ]
          : []),
      ],
    },
    stay: {
      touchdownUtc: `2031-0${whole(1, 9)}-${whole(10, 28)}T0${whole(0, 9)}:00:00Z`,
      lengthS,
      blocks: rare(0.4)
        ? [
            {
              id: "sleep",
              name: "sleep",
              kind: "sleep",
              crew: chance(0.5) ? [] : [pick(crew)],
              ...stretch(1800),
            },
          ]
        : [],
      relayPasses: ids("pass", whole(0, 3)).map((id) => ({ id, name: id, ...stretch(1800) })),
    },
    crew: crew.map((id, i) => ({
      id,
      name: id,
      bodyMassKg: whole(60, 95),
      workRateFactor: 0.9 + 0.2 * stream.next(),
      qualifications: chance(0.5) ? ["geologist"] : [],
      // Of one of two makes, and now and then one that somebody else wears as well.
      make: chance(0.5) ? 0 : i % 2,
      suit: `suit${i > 0 && unsaid.next() < 0.1 * shape.features ? i : i + 1}`,
    })),
    suits: ["suit1", "suit2"].map((id) => ({
      id,
      name: id,
      massKg: whole(80, 120),
      oxygenKg: capacity(dayS * 2.4e-5),
      co2Kg: capacity(dayS * 2.8e-5),
      waterKg: capacity(dayS * 1.5e-4),
      batteryWh: capacity((dayS / 3600) * 60),
      emergencyOxygenS: whole(Math.floor(reachM * 0.8), 2400),
      leakKgH: 0.005,
      purgeKg: 0,
      heatFrom: "given" as "given" | "sun",
      absorbentKjKg: 2030,
      ...wornNumbers(worn, shape.features, dayS),
      reserve: { oxygen: 0.1, co2: 0.1, water: 0.05, battery: 0.05 },
    })),
    stores: rare(0.2)
      ? { oxygenKg: dayS * 4e-5, waterKg: dayS * 3e-4, batteryWh: 800, absorbentChanges: whole(0, 4) }
      : {},
    evas: evas.map((id, e) => {
      const crewOut = crew.filter(() => chance(0.8));
      const earliestEgressS = e * (dayS + restS) + whole(0, 1800);
      return {
        id,
        name: id,
        crew: crewOut.length > 0 ? crewOut : [pick(crew)],
        earliestEgressS,
        latestIngressS: earliestEgressS + dayS + whole(0, 1800),
        longestS: Math.floor(dayS * (0.5 + 0.6 * stream.next())),
        egressWorkS: whole(0, 3) * 200,
        ingressWorkS: whole(0, 3) * 200,
      };
    }),
    equipment: [
      { id: "drill", name: "drill", count: unsaid.next() < 0.15 * shape.features ? 0 : 1 },
      { id: "rake", name: "rake", count: 2 },
    ],
    containers: ["box", "bag"].map((id) => ({
      id,
      name: id,
      emptyMassKg: whole(1, 6),
      capacityKg: whole(2, 15),
      volumeL: whole(2, 15),
    })),
    tasks: tasks.map((id) => {
      const remote = rare(0.15);
      const likelyS = whole(2, 20) * 150 + whole(0, 59);
      const place = pick(chance(0.15) ? ["lander"] : places);
      return {
        id,
        name: id,
        kind: pick(["sampling", "deployment", "survey", "upkeep"]),
        ...(remote && chance(0.5) ? {} : { place }),
        ...(!remote && rare(0.3) ? { endPlace: pick(places) } : {}),
        walkM: rare(0.2) ? whole(0, 300) : 0,
        duration: { likelyS },
        crew: {
          count: remote ? 0 : rare(0.4) ? Math.min(2, shape.crew) : 1,
          named: !remote && rare(0.2) ? [pick(crew)] : [],
          ...(!remote && rare(0.2) ? { qualification: "geologist" } : {}),
        },
        effort: pick(["geology", "deployment", "rest", "overall", { watts: whole(200, 450) }]),
        worth: whole(1, 60),
        must: rare(0.2),
        windows: rare(0.6) ? ids("w", whole(1, 3)).map(() => stretch(likelyS)) : [],
        ...(rare(0.1) ? { sun: { leastDeg: whole(-60, 10), greatestDeg: whole(20, 90) } } : {}),
        relay: rare(0.15),
        equipment: rare(0.4)
          ? [{ equipment: "drill" }]
          : rare(0.4)
            ? [{ equipment: "rake", count: whole(1, 2) }]
            : [],
        ...(rare(0.5)
          ? {
              sample: {
                container: pick(["box", "bag"]),
                massKg: whole(1, 60) / 10,
                volumeL: whole(0, 40) / 10,
              },
            }
          : {}),
        ...saidOfInstrument(rare(0.2), unsaid.next()),
        // Now and then more than the crew may carry.
        massOutKg: worn.next() < 0.4 * shape.features ? worn.below(250) : 0,
        ...(rare(0.15)
          ? {
              pin: remote
                ? { startS: time() }
                : chance(0.5)
                  ? { startS: time() }
                  : chance(0.5)
                    ? { eva: pick(evas) }
                    : { crew: [pick(crew)] },
            }
          : {}),
      };
    }),
    links: ids("link", Math.floor(shape.tasks * 0.5)).flatMap((id): unknown[] => {
      if (!rare(0.9)) return [];
      const a = pick(tasks);
      const b = pick(tasks);
      if (a === b) return [];
      const kind = stream.next();
      if (kind < 0.2) return [{ id, type: "crew", tasks: [a, b], crew: pick(["same", "different"]) }];
      if (kind < 0.3) return [{ id, type: "eva", tasks: [a, b] }];
      if (kind < 0.4) return [{ id, type: "apart", tasks: [a, b], leastM: whole(50, 400) }];
      const leastS = whole(-10, 10) * 120;
      return [
        {
          id,
          type: "lag",
          from: { task: a, end: pick(["start", "end"]) },
          to: { task: b, end: pick(["start", "end"]) },
          ...(chance(0.8) ? { leastS } : { greatestS: leastS + whole(0, 40) * 120 }),
          ...(chance(0.3) ? { greatestS: leastS + whole(0, 40) * 120 } : {}),
          needs: pick(["none", "from", "both"]),
        },
      ];
    }),
    rules: {
      startGridS: [1, 60, 300][random(seed + 15_485).below(3)]!,
      walking: {
        speedMs: 0.9,
        greatestSlopeDeg: rare(0.3) ? 8 : 20,
        ...paceNumbers(paces, shape.features),
      },
      reserve: level(0.2),
      carry: { greatestN: 308 },
      walkback: { ...level(0.2), speedMs: 1, emergencyReserveS: 60 },
      separation: {
        ...level(0.3),
        greatestM: chance(0.5) ? 4 * reachM : whole(Math.floor(reachM / 2), 2 * reachM),
      },
      distance: {
        ...level(0.2),
        evaM: whole(reachM * 2, reachM * 12),
        stayM: whole(reachM * 3, reachM * 20),
      },
      blast: { ...level(0.2), leastM: whole(0, 200) },
      work: { ...level(0.2), longestS: whole(3000, 12_000), restS: whole(1, 6) * 120 },
      duty: { ...level(0.2), stayS: Math.floor(lengthS * (0.4 + stream.next())) },
      recharge: { ...level(0.2), leastS: restS },
      returnMass: { ...level(0.2), greatestKg: whole(3, 30) },
    },
  };
  const read = parse({
    ...data,
    groups: groupsFrom(grouped, tasks, shape.features),
    tasks: data.tasks.map((task) => ({ ...task, ...petFrom(counted, task, dayS, shape.features) })),
    crew: data.crew.map(({ id, name, bodyMassKg, workRateFactor, qualifications, suit }) => ({
      ...{ id, name, bodyMassKg, workRateFactor, qualifications },
      suit,
    })),
    // Now and then somebody goes out in another's suit, or in one that is nobody's own.
    evas: data.evas.map((eva) => ({
      ...eva,
      suits: Object.fromEntries(
        eva.crew.flatMap((id) =>
          dressed.next() < 0.12 * shape.features
            ? [[id, `suit${1 + dressed.below(data.crew.length + 1)}`] as const]
            : [],
        ),
      ),
    })),
    suits: [...data.crew, { make: seed % 2 }].map(({ make }, i) => ({
      ...data.suits[make],
      id: `suit${i + 1}`,
      name: `suit${i + 1}`,
    })),
  });
  if (!read.ok)
    throw new Error(
      `seed ${seed}: ${read.error.map((fault) => `${fault.path}: ${fault.message}`).join("; ")}`,
    );
  return read.value;
}

interface Spot {
  readonly id: string;
  readonly name: string;
  readonly kind: string;
  readonly eastM: number;
  readonly northM: number;
  readonly upM: number;
}

/** Now and then a window from egress, bounded at either end. */
function petFrom(
  stream: Random,
  {
    crew,
    duration,
  }: { readonly crew: { readonly count: number }; readonly duration: { readonly likelyS: number } },
  dayS: number,
  features: number,
) {
  const [has, early, late, ends] = [stream.next(), stream.next(), stream.next(), stream.next()];
  if (crew.count === 0 || has >= 0.2 * features) return {};
  const startS = Math.floor(early * early * dayS * 0.6);
  return {
    pet: {
      ...(ends < 0.3 ? {} : { startS }),
      ...(ends > 0.7 ? {} : { endS: startS + duration.likelyS + Math.floor(late * dayS * 0.5) }),
    },
  };
}

/**
 * Now and then one or two groups, also with tasks in common: at most, at least so many, each further one for less. Shares are the first's
 * alone, since a task counts by one group's.
 */
function groupsFrom(stream: Random, tasks: readonly string[], features: number) {
  if (stream.next() >= 0.4 * features) return [];
  const pick = (ways: number): boolean => stream.below(ways) === 0;
  return ["group1", "group2"].slice(0, 1 + stream.below(2)).map((id, g) => {
    const of = tasks.filter(() => pick(2));
    const most = pick(3) ? undefined : stream.below(of.length + 1);
    return {
      ...{ id, name: id, tasks: of },
      ...(most === undefined ? {} : { most }),
      least: pick(3) ? stream.below((most ?? of.length) + 1) : 0,
      shares: g === 0 && pick(2) ? [100, 33 + stream.below(50), stream.below(34)] : [],
    };
  });
}

/** A leg as it is drawn: shares of what it may be. */
interface LegDraw {
  readonly from: string;
  readonly to: string;
  readonly longer: number;
  readonly pace: number;
  readonly bothWays: boolean;
  readonly peak: number | null;
}

/** Legs between different pairs of places, as long as people walk and as fast, but for one in seven that nobody can walk. */
function walkable(spots: readonly Spot[], drawn: readonly LegDraw[]) {
  const spotOf = (id: string): Spot => spots.find((one) => one.id === id)!;
  const far = (a: Spot, b: Spot): number => Math.hypot(a.eastM - b.eastM, a.northM - b.northM, a.upM - b.upM);
  const legs = new Map<string, object>();
  for (const { from, to, longer, pace, bothWays, peak } of drawn) {
    const pair = [from, to].sort().join();
    if (from === to || legs.has(pair)) continue;
    const [a, b] = [spotOf(from), spotOf(to)];
    const lawful = pace % 7 !== 0;
    const distanceM = Math.ceil(far(a, b) * (lawful ? 1 + longer : 0.9 * longer));
    const speedMs = lawful ? 0.4 + (1.5 * pace) / 840 : 0.1 + longer * 3;
    const farthestM = Math.max(far(a, spots[0]!), far(b, spots[0]!));
    legs.set(pair, {
      ...{ from, to, distanceM, bothWays, durationS: Math.ceil(distanceM / speedMs) },
      ...(peak === null ? {} : { walkbackPeakM: Math.ceil(farthestM * (1 + 0.5 * peak)) }),
    });
  }
  return [...legs.values()];
}

function disc(eastM: number, northM: number, radiusM: number) {
  return { type: "disc", eastM, northM, radiusM };
}

/** An instrument, none, or nothing said: then the kind of the task decides. */
function saidOfInstrument(leaves: boolean, draw: number): { instrument?: boolean } {
  if (leaves) return { instrument: true };
  return draw < 0.7 ? { instrument: false } : {};
}

/** Now and then another pace and rate of walking, slow and fast, sometimes for less than a metre costs at least. */
function paceNumbers(stream: Random, features: number) {
  const rare = (p: number): boolean => stream.next() < p * features;
  return {
    ...(rare(0.3) ? { speedMs: 0.6 + 1.3 * stream.next() } : {}),
    ...(rare(0.3) ? { metabolicW: 50 + stream.below(450), rateAtMs: 0.4 + 1.4 * stream.next() } : {}),
  };
}

/** What a suit draws by mode and sun, and the limits of cooling and drinking, each now and then near what a day asks for. */
function wornNumbers(stream: Random, features: number, dayS: number) {
  const rare = (p: number): boolean => stream.next() < p * features;
  return {
    ...(rare(0.4) ? { walkingW: 60 + stream.below(40), workingW: 40 + stream.below(60) } : {}),
    ...(rare(0.4) ? { heatFrom: "sun" as const, insulationM2: 0.1 + 0.4 * stream.next() } : {}),
    // Standing gives off some 210 W, work 330 to 450 W.
    ...(rare(0.5) ? { coolingW: 230 + stream.below(180) } : {}),
    ...(rare(0.3) ? { drinkKg: (dayS / 3600) * 0.24 * (0.4 + 0.8 * stream.next()) } : {}),
    ...(rare(0.3) ? { purgeKg: 0.02 + 0.06 * stream.next() } : {}),
  };
}
