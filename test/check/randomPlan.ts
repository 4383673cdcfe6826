import fc from "fast-check";
import { type PlacementInput, type TaskInput, at, eva, remote, task, type TinyParts } from "./tinyPlan.ts";

/**
 * Tiny plans with a few tasks, links and limits and a schedule that is often nonsense: overlaps, wrong crew, missing
 * EVAs, work before touchdown. Whatever the schema allows may come.
 */
const ids = ["t0", "t1", "t2", "t3", "t4", "t5"];
const seconds = fc.integer({ min: -2000, max: 30_000 });

const taskArb = (id: string): fc.Arbitrary<TaskInput> =>
  fc
    .record({
      place: fc.constantFrom("lander", "a", "b", "c"),
      endPlace: fc.option(fc.constantFrom("a", "b", "c"), { nil: undefined }),
      likelyS: fc.integer({ min: 0, max: 3000 }),
      count: fc.integer({ min: 0, max: 2 }),
      must: fc.boolean(),
      worth: fc.integer({ min: 0, max: 9 }),
      effort: fc.constantFrom("geology" as const, "rest" as const, "deployment" as const),
      window: fc.option(fc.tuple(seconds, fc.integer({ min: 1, max: 9000 })), { nil: undefined }),
      drill: fc.boolean(),
      massKg: fc.integer({ min: 0, max: 5 }),
      relay: fc.boolean(),
      pinnedS: fc.option(seconds, { nil: undefined }),
      instrument: fc.boolean(),
    })
    .map(({ place, endPlace, likelyS, count, window, drill, massKg, pinnedS, ...more }) =>
      task(id, count === 0 ? null : place, {
        duration: { likelyS },
        crew: { count },
        ...(endPlace && count > 0 ? { endPlace } : {}),
        ...(window ? { windows: [{ startS: window[0], endS: window[0] + window[1] }] } : {}),
        ...(drill ? { equipment: [{ equipment: "drill" }] } : {}),
        ...(massKg > 0 ? { sample: { container: "box", massKg } } : {}),
        ...(pinnedS === undefined ? {} : { pin: { startS: pinnedS } }),
        ...more,
      }),
    );

const placementArb = (id: string): fc.Arbitrary<PlacementInput | null> =>
  fc.oneof(
    { weight: 1, arbitrary: fc.constant(null) },
    { weight: 1, arbitrary: seconds.map((startS) => remote(id, startS)) },
    {
      weight: 5,
      arbitrary: fc
        .record({
          startS: seconds,
          crew: fc.constantFrom<string[]>(["ev1"], ["ev2"], ["ev1", "ev2"], ["ev3"], []),
          on: fc.constantFrom("eva-1", "eva-1", "eva-2", null),
        })
        .map(({ startS, crew, on }) => at(id, startS, crew, on)),
    },
  );

const linkArb = fc
  .record({
    pair: fc.tuple(fc.constantFrom(...ids), fc.constantFrom(...ids)).filter(([from, to]) => from !== to),
    leastS: fc.integer({ min: -3000, max: 3000 }),
    widthS: fc.option(fc.integer({ min: 0, max: 9000 }), { nil: undefined }),
    needs: fc.constantFrom("none" as const, "from" as const, "both" as const),
    type: fc.constantFrom("lag" as const, "lag" as const, "crew" as const, "eva" as const, "apart" as const),
  })
  .map(({ pair: [from, to], leastS, widthS, needs, type }) => {
    const tasks: [string, string] = [from, to];
    if (type === "crew")
      return { type, tasks, crew: leastS > 0 ? ("same" as const) : ("different" as const) };
    if (type === "eva") return { type, tasks };
    if (type === "apart") return { type, tasks, leastM: Math.abs(leastS) };
    return {
      type,
      from: { task: from, end: "end" as const },
      to: { task: to, end: "start" as const },
      leastS,
      ...(widthS === undefined ? {} : { greatestS: leastS + widthS }),
      needs,
    };
  });

/** Everything the laws vary, as parts of a tiny plan. */
export const partsArb: fc.Arbitrary<TinyParts> = fc
  .record({
    tasks: fc.tuple(...ids.map(taskArb)),
    placements: fc.tuple(...ids.map(placementArb)),
    links: fc.array(linkArb, { maxLength: 5 }),
    limits: fc.record({
      separationM: fc.integer({ min: 0, max: 900 }),
      evaM: fc.integer({ min: 0, max: 4000 }),
      workS: fc.integer({ min: 1000, max: 20_000 }),
      restS: fc.integer({ min: 0, max: 2000 }),
      rechargeS: fc.integer({ min: 0, max: 9000 }),
      returnKg: fc.integer({ min: 0, max: 20 }),
      dutyS: fc.integer({ min: 1000, max: 40_000 }),
      emergencyS: fc.integer({ min: 0, max: 900 }),
      keptS: fc.integer({ min: 0, max: 200 }),
      oxygenKg: fc.integer({ min: 0, max: 60 }).map((hundredths) => hundredths / 100),
      // Airlock work of 600 s at both ends is the least that an EVA may last.
      longestS: fc.integer({ min: 1200, max: 30_000 }),
      tightS: fc.integer({ min: 0, max: 600 }),
    }),
  })
  .map(({ tasks, placements, links, limits }) => ({
    tasks,
    placements: placements.filter((one) => one !== null),
    crew: ["ev1", "ev2", "ev3"].map((id) => ({ id, name: id.toUpperCase(), bodyMassKg: 80, suit: "suit" })),
    evas: [
      eva("eva-1", { longestS: limits.longestS }),
      eva("eva-2", { earliestEgressS: 9000, crew: ["ev1"], egressWorkS: 300 }),
    ],
    suit: { emergencyOxygenS: limits.emergencyS, oxygenKg: limits.oxygenKg },
    stay: {
      blocks: [{ id: "meal", name: "Meal", kind: "meal" as const, startS: 6000, endS: 9000 }],
      relayPasses: [{ id: "pass", name: "pass", startS: 2000, endS: 8000 }],
    },
    rules: {
      walkback: { emergencyReserveS: limits.keptS },
      separation: { greatestM: limits.separationM },
      distance: { evaM: limits.evaM, stayM: limits.evaM },
      work: { longestS: limits.workS, restS: limits.restS },
      recharge: { leastS: limits.rechargeS },
      returnMass: { greatestKg: limits.returnKg },
      duty: { stayS: limits.dutyS },
      tightS: limits.tightS,
    },
    site: {
      keepOuts: [
        {
          id: "hot",
          name: "hot unit",
          kind: "hot" as const,
          shape: { type: "disc" as const, eastM: 600, northM: 0, radiusM: 50 },
          afterTask: "t0",
        },
      ],
    },
    more: {
      equipment: [{ id: "drill", name: "Drill", count: 1 }],
      containers: [{ id: "box", name: "box", emptyMassKg: 2, capacityKg: 6, volumeL: 10 }],
      links: links.map((link, i) => ({ id: `link-${i}`, ...link })),
    },
  }));
