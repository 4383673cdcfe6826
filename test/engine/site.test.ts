import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { check } from "../../src/check/index.ts";
import { siteGround, siteLight, siteRings, siteWalks } from "../../src/engine/sitework.ts";
import type { Explained } from "../../src/kernel/index.ts";
import { parseText, type Plan, type Schedule } from "../../src/plan/index.ts";
import { gaitsOf, heavensOf, heightAt, reachOn, reliefOf } from "../../src/terrain/index.ts";
import { levelHomeM } from "../../src/terrain/reach.ts";
import { place, tinyPlan } from "../check/tinyPlan.ts";
import { smallAll } from "../plan/witness.ts";
import { demoDay } from "../solver/question/late/demoDay.ts";

function ready(name: string, schedule: Schedule): Plan {
  const read = parseText(readFileSync(`public/plans/${name}.json`, "utf8"));
  if (!read.ok) throw new Error(JSON.stringify(read.error));
  return { ...read.value, schedule };
}

const demo = ready("demo", demoDay);
const small = ready("small", smallAll);
const walksOf = (plan: Plan) => siteWalks(plan, plan.schedule);
const ringsOf = (plan: Plan, left: Parameters<typeof leftOf>) => siteRings(plan, leftOf(...left));

/** What the judge says that a suit has at one of the points of its courses. */
function leftOf(plan: Plan, eva: string, crew: string, point: number) {
  const { margins } = check(plan, plan.schedule);
  const of = (consumable: string): number =>
    margins.find((one) => one.eva === eva && one.crew === crew && one.consumable === consumable)!.points[
      point
    ]!.value;
  return [
    {
      eva,
      crew,
      amounts: { oxygen: of("oxygen"), co2: of("co2"), water: of("water"), battery: of("battery") },
    },
  ];
}

describe("the site's ground", () => {
  it("is counted from the lander's, with contours that lie at their height", () => {
    const ground = siteGround(demo)!;
    const grid = reliefOf(demo.ground!);
    const baseM = heightAt(grid, 0, 0);
    expect(ground.lowM).toBeLessThan(0);
    expect(ground.highM).toBeGreaterThan(20);
    expect(ground.contours.length).toBeGreaterThan(5);
    expect(ground.contours.length).toBeLessThan(20);
    let corners = 0;
    for (const { levelM, lines } of ground.contours)
      for (const line of lines)
        for (let k = 0; k < line.length; k += 20) {
          if (k % 2 !== 0) continue;
          // Corners lie on grid edges, where the surface is a straight line between two heights.
          expect(heightAt(grid, line[k]!, line[k + 1]!) - baseM).toBeCloseTo(levelM, 3);
          corners += 1;
        }
    expect(corners).toBeGreaterThan(200);
  });

  it("is none where the plan has none", () => {
    expect(siteGround(small)).toBeNull();
  });
});

describe("the light at a minute", () => {
  it("comes from the true sun, and a low sun leaves some of the ground in shadow", () => {
    const grid = reliefOf(demo.ground!);
    for (const atS of [0, 20_000, 60_000]) {
      const light = siteLight(demo, atS);
      expect(light.by).toBe("sun");
      expect(light.sun).toEqual(heavensOf(demo).sunAt(atS));
      const dark = [...light.lit!].filter((one) => one === 0).length / light.lit!.length;
      expect(dark).toBeGreaterThan(0.001);
      expect(dark).toBeLessThan(0.2);
      expect(light.shade).toHaveLength(grid.heightM.length);
    }
  });

  it("says that it is a convention where the sun is not known", () => {
    const nowhere: Plan = { ...demo, body: { ...demo.body, ephemeris: "none" } };
    const light = siteLight(nowhere, 0);
    expect(light).toMatchObject({ sun: null, by: "convention", lit: null, from: [] });
    expect(walksOf(nowhere).places.every((one) => one.lit === null)).toBe(true);
  });
});

describe("the limits of the walk back", () => {
  it("are lines on which the walk back takes as long, over the grid", () => {
    const { back } = gaitsOf(demo);
    const reach = reachOn(demo.site, back)!;
    const [emergency, shared, stock] = ringsOf(demo, [demo, "eva-2", "ev1", 30]);
    expect(emergency).toMatchObject({ kind: "emergency", seconds: 2160, over: "grid", crew: ["ev1", "ev2"] });
    // 39 min alone are 97.5 with cooling shared; 3 min of either are kept.
    expect(shared).toMatchObject({ kind: "shared", seconds: 5670, crew: ["ev1", "ev2"] });
    expect(stock).toMatchObject({ kind: "stock", crew: ["ev1"] });
    let looked = 0;
    for (const line of emergency!.lines)
      for (let k = 0; k < line.length; k += 2) {
        const backS = levelHomeM(reach, { eastM: line[k]!, northM: line[k + 1]! }, 0) / back.speedMs;
        // Off the grid points the walk back is looked for about the point, at the worst a cell farther.
        if (backS < Infinity) expect(Math.abs(backS - 2160)).toBeLessThan(15);
        looked += backS < Infinity ? 1 : 0;
      }
    expect(looked).toBeGreaterThan(30);
  });

  it("are those that the judge tests, never more: emergency oxygen and the suit's stock at every point of a day", () => {
    for (const plan of [demo, small]) {
      const verdict = check(plan, plan.schedule);
      for (const { eva, crew, allowed } of verdict.reach) {
        allowed.forEach(({ value }, point) => {
          const rings = ringsOf(plan, [plan, eva, crew, point]);
          const least = Math.min(...rings.filter((one) => one.crew.includes(crew)).map((one) => one.seconds));
          expect(least).toBeLessThanOrEqual(Math.max(0, value));
          expect(least).toBeGreaterThanOrEqual(value - 1);
        });
      }
    }
  });

  it("are circles over level ground where there is no grid", () => {
    const [emergency] = ringsOf(small, [small, "eva-1", "ev1", 0]);
    const { speedMs } = small.rules.walkback;
    expect(emergency!.over).toBe("level");
    const [line] = emergency!.lines;
    for (let k = 0; k < line!.length; k += 2)
      expect(Math.hypot(line![k]!, line![k + 1]!)).toBeCloseTo(
        (emergency!.seconds * speedMs) / small.rules.walking.detour,
        6,
      );
  });
});

describe("who walks where", () => {
  it.each([
    ["demo", demo],
    ["small", small],
  ] as const)("follows the judge's outings without a gap, corner by corner: %s", (_, plan) => {
    const { courses, verdict } = walksOf(plan);
    expect(verdict).toEqual(check(plan, plan.schedule));
    expect(courses).toHaveLength(verdict.outings.length);
    for (const [k, { legs }] of courses.entries()) {
      expect(legs.map((leg) => leg.kind)).toEqual(verdict.outings[k]!.stretches.map((one) => one.kind));
      legs.forEach((leg, i) => {
        const { course } = leg;
        expect(course[2]).toBe(leg.startS);
        for (let c = 5; c < course.length; c += 3) expect(course[c]!).toBeGreaterThan(course[c - 3]!);
        const end = plan.site.places.find((one) => one.id === leg.toPlace)!;
        expect([course.at(-3), course.at(-2)]).toEqual([end.eastM, end.northM]);
        const next = legs[i + 1];
        if (next) expect([next.course[0], next.course[1]]).toEqual([course.at(-3), course.at(-2)]);
      });
    }
  });

  it("says the walk back as the judge does, and from what it comes", () => {
    const { places, verdict } = walksOf(demo);
    for (const { task, place, endPlace } of demo.tasks.map(({ id, place, endPlace }) => ({
      task: id,
      place,
      endPlace,
    }))) {
      const backS = verdict.walkbackS[task];
      if (backS === undefined || backS === null || place === undefined) continue;
      // A task's own figure is the worst of it: of both ends at least, and more where a walk between may lead off.
      const ends = [place, endPlace ?? place].map((id) => places.find((one) => one.id === id)!.homeS);
      expect(backS).toBeGreaterThanOrEqual(Math.max(...ends));
      const { walkM } = demo.tasks.find((one) => one.id === task)!;
      if (endPlace === undefined && walkM === 0) expect(backS).toBe(ends[0]);
    }
    const worked = (one: Explained): number => {
      const names = one.inputs.map((input) => input.name);
      const work = new Function(...names, `"use strict"; return ${one.formula};`) as (
        ...v: number[]
      ) => number;
      return work(...one.inputs.map((input) => input.value));
    };
    let looked = 0;
    for (const place of places) {
      const [from] = place.from;
      if (!from || place.homeS === 0) continue;
      // The metres are written to the centimetre, the time is rounded up to the second.
      expect(from.value).toBe(place.homeS);
      expect(place.homeS - worked(from)).toBeGreaterThan(-0.02);
      expect(place.homeS - worked(from)).toBeLessThan(1.02);
      looked += 1;
    }
    expect(looked).toBeGreaterThan(15);
  });

  it("shows the formula that gives the walk back: of a line, of a leg by its pace or its slope, of hops added up", () => {
    const legs = [
      { from: "lander", to: "rough", distanceM: 450, durationS: 1200 },
      { from: "lander", to: "pit", distanceM: 500, durationS: 500 },
      { from: "pit", to: "far", distanceM: 600, durationS: 900 },
    ];
    const plan = tinyPlan({
      places: [
        place("lander", 0, 0),
        place("plain", 300, 0),
        place("rough", 0, 400),
        { ...place("pit", 0, -400), upM: -40 },
        // Steeper than 20 degrees from everywhere: only the leg leads there.
        { ...place("far", 0, -700), upM: -420 },
      ],
      site: { legs },
      rules: { walkback: { speedMs: 0.8 } },
    });
    const { places } = walksOf(plan);
    const worked = (one: Explained): number =>
      (
        new Function(...one.inputs.map((input) => input.name), `return ${one.formula};`) as (
          ...v: number[]
        ) => number
      )(...one.inputs.map((input) => input.value));
    for (const { id, homeS, from } of places) {
      expect({ id, value: from[0]!.value }).toEqual({ id, value: homeS });
      for (const one of from) expect(Math.abs(worked(one) - one.value)).toBeLessThanOrEqual(1.02);
    }
    const of = (id: string) => places.find((one) => one.id === id)!;
    // 300 m at 0.8 m/s. 1200 s planned at 1 m/s are 1500 s at 0.8. 500 m up 1 in 10 at 0.8 exp(-0.35) m/s are 886.9 s.
    expect([of("plain").homeS, of("rough").homeS, of("pit").homeS]).toEqual([375, 1500, 887]);
    expect(of("far").from[0]!.formula).toBe("hop1 + hop2");
    expect(of("far").homeS).toBe(of("far").from[1]!.value + 887);
  });
});

describe("a lander that stands elsewhere than where coordinates begin", () => {
  /** Everything so much farther east and north. */
  const moved = (plan: Plan, byEastM: number, byNorthM: number): Plan => ({
    ...plan,
    site: {
      ...plan.site,
      places: plan.site.places.map((one) => ({
        ...one,
        eastM: one.eastM + byEastM,
        northM: one.northM + byNorthM,
      })),
    },
  });

  it("has places as far and in the same direction from it, and limits about it", () => {
    const elsewhere = moved(small, 500, -300);
    const was = walksOf(small).places;
    walksOf(elsewhere).places.forEach(({ distanceM, bearingDeg }, k) => {
      expect(distanceM).toBeCloseTo(was[k]!.distanceM, 6);
      if (k > 0) expect(bearingDeg).toBeCloseTo(was[k]!.bearingDeg, 6);
      else expect(bearingDeg).toBeNaN();
    });
    const rings = ringsOf(small, [small, "eva-1", "ev1", 0]);
    expect(rings.some(({ lines }) => lines.length > 0)).toBe(true);
    ringsOf(elsewhere, [elsewhere, "eva-1", "ev1", 0]).forEach(({ lines }, k) =>
      lines.forEach((line, i) =>
        line.forEach((value, at) =>
          expect(value).toBeCloseTo(rings[k]!.lines[i]![at]! + (at % 2 === 0 ? 500 : -300), 6),
        ),
      ),
    );
  });

  it("has heights counted from the ground under it", () => {
    const places = demo.site.places.map((one) =>
      one.kind === "lander" ? { ...one, eastM: one.eastM + 200, northM: one.northM - 150 } : one,
    );
    const elsewhere = { ...demo, site: { ...demo.site, places } };
    const lander = walksOf(elsewhere).places[places.findIndex(({ kind }) => kind === "lander")]!;
    expect(lander.upM).toBeCloseTo(0, 6);
    const grid = reliefOf(demo.ground!);
    const baseM = heightAt(grid, 200, -150);
    expect(Math.abs(baseM - heightAt(grid, 0, 0))).toBeGreaterThan(0.1);
    expect(siteGround(elsewhere)!.lowM).toBeCloseTo(Math.min(...grid.heightM) - baseM, 3);
  });
});
