import { readFile } from "node:fs/promises";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { check } from "../../src/check/index.ts";
import { madeFiles } from "../../src/cli/plans.ts";
import { moonEarth, moonSun } from "../../src/physics/index.ts";
import { cautionUse, stepUse } from "../../src/exchange/paper/oneline.ts";
import { fitsOneLine } from "../exchange/paper/fitsoneline.ts";
import { allCautions, parse, type Plan, type Task, VERSION } from "../../src/plan/index.ts";
import { largePlan } from "../../src/plan/large/index.ts";
import { distance, gaitsOf, homeOf, inside, waysOf } from "../../src/terrain/index.ts";
import { READY_NAMES, readyPlan, readyText } from "../readyplan.ts";
import { demoMusts, smallAll } from "./witness.ts";

const demo = readyPlan("demo");
const small = readyPlan("small");
const large = readyPlan("large");

function task(plan: Plan, id: string): Task {
  const found = plan.tasks.find((one) => one.id === id);
  if (!found) throw new Error(`no task ${id}`);
  return found;
}

function skyOf(plan: Plan) {
  const observer = {
    latDeg: plan.site.latDeg,
    lonDeg: plan.site.lonDeg,
    radiusM: plan.body.radiusM + plan.site.elevationM,
  };
  const touchdownMs = Date.parse(plan.stay.touchdownUtc);
  return {
    sunDeg: (atS: number) => moonSun(touchdownMs + atS * 1000, observer).elevationDeg,
    earth: (atS: number) => moonEarth(touchdownMs + atS * 1000, observer),
  };
}

function groundOf(plan: Plan) {
  const { planned, back } = gaitsOf(plan);
  const ways = waysOf(plan.site, planned);
  return { ways, home: homeOf(plan.site, ways, back) };
}

/** Crew seconds between the fixed work at both ends of all outings. */
function crewSeconds(plan: Plan): number {
  return plan.evas.reduce(
    (sum, eva) => sum + (eva.longestS - eva.egressWorkS - eva.ingressWorkS) * eva.crew.length,
    0,
  );
}

/** Crew seconds asked for by all tasks. */
function taskSeconds(plan: Plan): number {
  return plan.tasks.reduce((sum, one) => sum + one.duration.likelyS * one.crew.count, 0);
}

/** One round from the lander through all places of work, always on to the nearest one not yet seen, and home, s. */
function roundSeconds(plan: Plan): number {
  const { ways } = groundOf(plan);
  const left = new Set(
    plan.tasks
      .filter((one) => one.crew.count > 0)
      .flatMap((one) => [one.place, one.endPlace])
      .filter((id) => id !== undefined)
      .map((id) => ways.index.get(id)!),
  );
  left.delete(ways.lander);
  const walkS = (from: number, to: number) => ways.durationS[from * ways.size + to]!;
  let at = ways.lander;
  let total = 0;
  while (left.size > 0) {
    const next = [...left].reduce((a, b) => (walkS(at, b) < walkS(at, a) ? b : a));
    total += walkS(at, next);
    left.delete(next);
    at = next;
  }
  return total + walkS(at, ways.lander);
}

describe.each(READY_NAMES)("the ready plan %s", (name) => {
  const plan = readyPlan(name);

  it("starts with everything on the bench", () => {
    expect(plan.schedule.placements).toEqual([]);
    expect(plan.variants).toEqual([]);
  });

  it("never makes a must-do task need an optional one", () => {
    const must = new Set(plan.tasks.filter((one) => one.must).map((one) => one.id));
    const needing = plan.links.flatMap((link) => {
      if (link.type !== "lag" || link.needs === "none") return [];
      const { from, to } = { from: link.from.task, to: link.to.task };
      const both = link.needs === "both" && must.has(from) && !must.has(to);
      return both || (must.has(to) && !must.has(from)) ? [link.id] : [];
    });
    expect(needing).toEqual([]);
  });

  it("gives every task a low and a high duration, steps and cautions of one line at 14 pt each, and cautions to the crew", () => {
    for (const one of plan.tasks) {
      const { lowS, likelyS, highS } = one.duration;
      expect([one.id, lowS! < likelyS && likelyS < highS!]).toEqual([one.id, true]);
      expect(one.steps.length, one.id).toBeGreaterThanOrEqual(3);
      expect(one.steps.length, one.id).toBeLessThanOrEqual(8);
      const over = [
        ...one.steps.filter((step) => !fitsOneLine(stepUse(step))).map(({ text }) => text),
        ...allCautions(one)
          .filter((caution) => !fitsOneLine(cautionUse(caution)))
          .map(({ text }) => text),
      ];
      expect(over, one.id).toEqual([]);
      expect(allCautions(one).every((caution) => caution.class !== undefined)).toBe(true);
      if (one.crew.count > 0) expect(allCautions(one).length, one.id).toBeGreaterThan(0);
    }
  });

  it("has every place within reach of the emergency oxygen less its reserve", () => {
    const { home } = groundOf(plan);
    const leastS = Math.min(...plan.suits.map((suit) => suit.emergencyOxygenS));
    for (const backS of home.placeS) {
      expect(backS).toBeGreaterThanOrEqual(0);
      expect(backS).toBeLessThanOrEqual(leastS - plan.rules.walkback.emergencyReserveS);
    }
  });

  it("leaves instruments clear of the ascent blast", () => {
    const lander = plan.site.places.find((place) => place.kind === "lander")!;
    const instruments = plan.tasks.filter((one) => one.instrument);
    expect(instruments.length).toBeGreaterThan(0);
    for (const one of instruments) {
      const end = plan.site.places.find((place) => place.id === (one.endPlace ?? one.place))!;
      expect(distance(lander, end), one.id).toBeGreaterThanOrEqual(plan.rules.blast.leastM);
    }
  });
});

describe("the files in public", () => {
  it.each(madeFiles())(
    "$path is what its builder gives; run `npm run plans` when it is stale",
    async ({ path, text }) => {
      expect(await readFile(join("public", path), "utf8")).toBe(text);
    },
  );

  it.each(READY_NAMES)(
    "%s is of the newest version of the format; run `npm run plans` when it is not",
    (name) => {
      expect(JSON.parse(readyText(name))).toMatchObject({ version: VERSION });
    },
  );
});

describe("the demo plan", () => {
  it("is a stay of 22 h 30 min with the sun between 5 and 15 degrees all through", () => {
    expect(demo.stay.lengthS).toBe(81_000);
    const { sunDeg } = skyOf(demo);
    for (let atS = 0; atS <= demo.stay.lengthS; atS += 300) {
      expect(sunDeg(atS)).toBeGreaterThan(5);
      expect(sunDeg(atS)).toBeLessThan(15);
    }
  });

  it("lies at middle latitude", () => {
    expect(Math.abs(demo.site.latDeg)).toBeGreaterThan(30);
    expect(Math.abs(demo.site.latDeg)).toBeLessThan(60);
  });

  it("has tasks, boxes, tools and outings in the numbers it promises", () => {
    expect(demo.tasks).toHaveLength(45);
    expect(demo.tasks.filter((one) => one.must)).toHaveLength(14);
    expect(demo.evas.map((eva) => [eva.crew.join(" "), eva.longestS / 60])).toEqual([
      ["ev1 ev2", 390],
      ["ev1 ev2", 420],
    ]);
    expect(demo.containers).toHaveLength(3);
    const shared = demo.equipment.filter((one) => ["drill", "core-rammer"].includes(one.id));
    expect(shared.map((one) => one.count)).toEqual([1, 1]);
    for (const tool of demo.equipment)
      expect(
        demo.tasks.some((one) => one.equipment.some((use) => use.equipment === tool.id)),
        tool.id,
      ).toBe(true);
  });

  it("asks for about 40 % more crew time than there is", () => {
    // Tasks 99,060 crew-seconds; one round past all places walked by both, 2 x 10,377 = 20,754.
    // There are 2 x (390 - 18 - 22) + 2 x (420 - 15 - 25) = 1460 crew-minutes = 87,600 crew-seconds.
    // 119,814 / 87,600 = 1.37; with the two rests of 10 min that each of the four outings needs, 1.42.
    expect(crewSeconds(demo)).toBe(87_600);
    const walkedS = 2 * roundSeconds(demo);
    const restS = 4 * 2 * demo.rules.work.restS;
    const asked = (taskSeconds(demo) + walkedS) / crewSeconds(demo);
    expect(asked).toBeGreaterThan(1.3);
    expect((taskSeconds(demo) + walkedS + restS) / crewSeconds(demo)).toBeLessThan(1.5);
  });

  it("asks for more samples than the ascent may lift", () => {
    const samples = demo.tasks.reduce((sum, one) => sum + (one.sample?.massKg ?? 0), 0);
    const empty = demo.containers.reduce((sum, box) => sum + box.emptyMassKg, 0);
    expect(samples + empty).toBeGreaterThan(demo.rules.returnMass.greatestKg);
  });

  it("keeps its stations between 60 m and 1.6 km from the lander", () => {
    const outM = demo.site.places
      .filter((place) => place.kind !== "lander")
      .map((place) => distance(place, { eastM: 0, northM: 0 }));
    expect(Math.min(...outM)).toBeGreaterThanOrEqual(60);
    expect(Math.min(...outM)).toBeLessThan(70);
    expect(Math.max(...outM)).toBeLessThanOrEqual(1600);
    expect(Math.max(...outM)).toBeGreaterThan(1500);
  });

  it("states no walk-back in words of its own, and from the farthest place needs more than 30 min of oxygen", () => {
    const { ways, home } = groundOf(demo);
    const backS = home.placeS[ways.index.get("osier-far-lip")!]!;
    expect(backS).toBe(Math.max(...home.placeS));
    expect(backS + demo.rules.walkback.emergencyReserveS).toBeGreaterThan(1800);
    // The page prints the walk-back that was worked out; no text of a task states one of its own.
    const texts = demo.tasks.flatMap((one) => [...allCautions(one), ...one.steps]).map(({ text }) => text);
    expect(texts.filter((text) => /walk-back is|\d+ min back/i.test(text))).toEqual([]);
  });

  it("has relay passes over about 60 % of the stay", () => {
    const seenS = demo.stay.relayPasses.reduce((sum, pass) => sum + pass.endS - pass.startS, 0);
    expect(demo.stay.relayPasses.length).toBeGreaterThan(5);
    expect(seenS / demo.stay.lengthS).toBeGreaterThan(0.57);
    expect(seenS / demo.stay.lengthS).toBeLessThan(0.63);
    expect(demo.stay.relayPasses.at(-1)!.endS).toBeLessThanOrEqual(demo.stay.lengthS);
  });

  it("leaves time for recharge and sleep between the outings", () => {
    const [first, second] = demo.evas;
    expect(second!.earliestEgressS - first!.latestIngressS).toBeGreaterThanOrEqual(
      demo.rules.recharge.leastS,
    );
    const sleep = demo.stay.blocks.find((block) => block.kind === "sleep")!;
    expect(sleep.startS).toBeGreaterThan(first!.latestIngressS);
    expect(sleep.endS).toBeLessThan(second!.earliestEgressS);
  });

  it("has only the well inside its hot zone, and tasks there that are allowed to be", () => {
    const hot = demo.site.keepOuts.find((one) => one.kind === "hot")!;
    expect(hot.afterTask).toBe("lower-bank");
    expect(demo.site.places.filter((place) => inside(hot.shape, place)).map((place) => place.id)).toEqual([
      "heat-well",
    ]);
    expect(hot.exemptTasks).toEqual(["connect-bank"]);
    const joined = demo.links.find((link) => link.id === "lower-bank-then-connect-bank")!;
    expect(joined).toMatchObject({ leastS: 0, greatestS: 180, needs: "both" });
  });

  it("warns of what its work may do: heat, radiation, loads on a line, torque, shadow, ladder, umbilicals", () => {
    const cautionsOf = (test: (one: Task) => boolean): string[][] =>
      demo.tasks.filter(test).map((one) => allCautions(one).map(({ text }) => text));
    const uses = (tool: string) => (one: Task) => one.equipment.some((use) => use.equipment === tool);
    const each = (lists: string[][], word: RegExp): boolean =>
      lists.length > 0 && lists.every((list) => list.some((text) => word.test(text)));
    // Everybody but the one who connects stays as far from the hot well as the keep-out asks.
    const { shape } = demo.site.keepOuts.find((one) => one.kind === "hot")!;
    expect(shape).toMatchObject({ type: "disc", radiusM: 6 });
    expect(
      each(
        cautionsOf((one) => one.id === "connect-bank"),
        /partner: outside 6 m/i,
      ),
    ).toBe(true);
    expect(
      each(
        cautionsOf((one) => one.id === "station-record"),
        /outside 6 m/,
      ),
    ).toBe(true);
    const source = cautionsOf(uses("source-staff"));
    expect(each(source, /45 min, 2 m off/) && each(source, /dropped/i)).toBe(true);
    expect(each(cautionsOf(uses("well-hoist")), /takes \d+ kg/)).toBe(true);
    const atLander = (one: Task): boolean => one.kind === "upkeep" && one.place === "lander";
    expect(each(cautionsOf(atLander), /takes \d+ kg/) && each(cautionsOf(atLander), /ladder/i)).toBe(true);
    expect(each(cautionsOf(uses("drill")), /turns you/)).toBe(true);
    expect(
      each(
        cautionsOf((one) => /shadow/i.test(one.name)),
        /alone in shadow/i,
      ),
    ).toBe(true);
    expect(
      each(
        cautionsOf((one) => one.id === "unload-racks"),
        /umbilicals/i,
      ),
    ).toBe(true);
  });

  it("aims its link to where the Earth stands while the station is set up", () => {
    const [azimuth, elevation] = task(demo, "aim-link").steps.map(({ text }) =>
      Number(/\d+/.exec(text)?.[0]),
    );
    for (const atS of [demo.evas[0]!.earliestEgressS, demo.evas[0]!.latestIngressS]) {
      const earth = skyOf(demo).earth(atS);
      expect(Math.abs(earth.azimuthDeg - azimuth!)).toBeLessThan(1);
      expect(Math.abs(earth.elevationDeg - elevation!)).toBeLessThan(1);
    }
  });

  it("lights what asks for low or higher sun on one of its outings", () => {
    const { sunDeg } = skyOf(demo);
    for (const one of demo.tasks.filter((each) => each.sun)) {
      const fits = demo.evas.some((eva) => {
        for (
          let atS: number = eva.earliestEgressS;
          atS + one.duration.likelyS <= eva.latestIngressS;
          atS += 600
        ) {
          const ends = [sunDeg(atS), sunDeg(atS + one.duration.likelyS)];
          if (Math.min(...ends) >= one.sun!.leastDeg && Math.max(...ends) <= one.sun!.greatestDeg)
            return true;
        }
        return false;
      });
      expect(fits, one.id).toBe(true);
    }
  });

  it("can have all its must-do tasks done within every rule", () => {
    const verdict = check(demo, demoMusts);
    expect(verdict.findings.filter((finding) => finding.level !== "tight")).toEqual([]);
    expect([verdict.mustPlaced, verdict.mustTotal, verdict.placed]).toEqual([14, 14, 14]);
  });
});

describe("the small plan", () => {
  it("has eight tasks, two crew members, one outing, one task for two", () => {
    expect([small.tasks.length, small.crew.length, small.evas.length]).toEqual([8, 2, 1]);
    expect(small.tasks.filter((one) => one.crew.count === 2).map((one) => one.id)).toEqual(["stone-core"]);
    expect(small.links.length).toBeGreaterThan(2);
  });

  it("fits whole, with little to spare", () => {
    const verdict = check(small, smallAll);
    expect(verdict.findings.filter((finding) => finding.level !== "tight")).toEqual([]);
    expect(verdict.placed).toBe(8);
    // Out at 1:30; the longest outing is 2 h 05 min.
    const spanS = verdict.outings[0]!.span.endS - verdict.outings[0]!.span.startS;
    expect(small.evas[0]!.longestS - spanS).toBeLessThan(600);
  });
});

describe("the large plan", () => {
  it("has 300 tasks, 4 crew members and 6 outings by pairs", () => {
    expect([large.tasks.length, large.crew.length, large.evas.length]).toEqual([300, 4, 6]);
    expect(large.evas.every((eva) => eva.crew.length === 2)).toBe(true);
    expect(taskSeconds(large)).toBeGreaterThan(crewSeconds(large));
  });

  it("uses every kind of link, windows, sun, relay and shared tools", () => {
    expect(new Set(large.links.map((link) => link.type))).toEqual(new Set(["lag", "crew", "eva", "apart"]));
    for (const has of [
      (one: Task) => one.windows.length > 0,
      (one: Task) => one.sun !== undefined,
      (one: Task) => one.relay,
      (one: Task) => one.equipment.length > 0,
      (one: Task) => one.endPlace !== undefined,
      (one: Task) => one.crew.count === 2,
    ])
      expect(large.tasks.filter(has).length).toBeGreaterThan(5);
  });

  it("comes from its seed alone", () => {
    expect(largePlan(7)).toEqual(largePlan(7));
    expect(largePlan(7).tasks).not.toEqual(largePlan(8).tasks);
    for (let seed = 2; seed < 8; seed += 1) expect(parse(largePlan(seed)).ok).toBe(true);
  });
});
