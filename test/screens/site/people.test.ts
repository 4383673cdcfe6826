import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import type { SiteCourse, SiteLeg } from "../../../src/answers/index.ts";
import { siteWalks } from "../../../src/engine/sitework.ts";
import { parseText } from "../../../src/plan/index.ts";
import { apartWords, peopleAt, personWords, signPoints } from "../../../src/screens/beside/people.ts";
import { tasksByPlace } from "../../../src/screens/site/placenumbers.ts";
import { lasting, taskName, taskNumber } from "../../../src/words/index.ts";
import { demoDay } from "../../solver/question/late/demoDay.ts";

const read = parseText(readFileSync("public/plans/demo.json", "utf8"));
if (!read.ok) throw new Error(JSON.stringify(read.error));
const plan = { ...read.value, schedule: demoDay };
const walks = siteWalks(plan, plan.schedule);

const leg = (kind: SiteLeg["kind"], startS: number, endS: number, eastM: number): SiteLeg => ({
  ...{ kind, task: null, startS, endS, fromPlace: "a", toPlace: "a", walkM: 0 },
  course: Float64Array.from([eastM, 0, startS]),
});
const course = (...legs: readonly SiteLeg[]): SiteCourse => ({ eva: "eva-1", crew: "ev1", legs });

describe("who is where at a minute", () => {
  it("is where the judge's day has each, by their number in the crew", () => {
    const out = walks.verdict.outings[0]!;
    const done = out.stretches.find((one) => one.task !== null)!;
    const atS = done.span.startS + 60;
    const person = peopleAt(plan, walks.courses, atS).find((one) => one.crew === out.crew)!;
    expect(person.state).toBe("outside");
    expect(person.at?.leg.task).toBe(done.task);
    const place = plan.site.places.find((one) => one.id === person.at?.leg.fromPlace)!;
    expect(person.at).toMatchObject({ eastM: place.eastM, northM: place.northM });
    const homeS = walks.verdict.walkbackS[done.task!]!;
    expect(personWords(plan, walks, person)).toBe(
      `${taskNumber(plan, done.task!)} ${taskName(plan, done.task!)}, home in ${lasting(homeS, "up")}`,
    );
    expect(apartWords(plan, walks, atS).join()).toMatch(/ apart of /);
  });

  it("is inside before the first egress and after the last ingress", () => {
    expect(peopleAt(plan, walks.courses, 0).map(({ state, at }) => [state, at])).toEqual([
      ["inside", null],
      ["inside", null],
    ]);
    expect(apartWords(plan, walks, 0)).toEqual([]);
  });

  it("is not known, and no place, where two stretches are under way at once or none is", () => {
    const at = (one: SiteCourse, atS: number) => peopleAt(plan, [one], atS)[0]!;
    const twice = course(leg("wait", 0, 100, 5), leg("task", 50, 200, 90));
    expect(at(twice, 40)).toMatchObject({ state: "outside", at: { eastM: 5 } });
    expect(at(twice, 70)).toMatchObject({ state: "unknown", at: null });
    expect(at(twice, 150)).toMatchObject({ state: "outside", at: { eastM: 90 } });
    const gap = course(leg("wait", 0, 100, 5), leg("wait", 150, 200, 90));
    expect(at(gap, 120)).toMatchObject({ state: "unknown", at: null });
    const both = peopleAt(plan, [course(leg("wait", 0, 100, 5)), course(leg("wait", 0, 100, 9))], 50)[0]!;
    expect(both).toMatchObject({ state: "unknown", at: null });
    expect(personWords(plan, walks, both)).toContain("not known");
  });
});

describe("the tasks at each place", () => {
  it("are those of the window in order of start, and one that ends elsewhere stands at both places", () => {
    const window = { startS: 0, endS: plan.stay.lengthS };
    const all = tasksByPlace(plan, plan.schedule, window);
    const start = new Map(plan.schedule.placements.map((one) => [one.task, one.startS as number]));
    for (const tasks of all.values()) {
      const starts = tasks.map((task) => start.get(task)!);
      expect(starts).toEqual(starts.toSorted((a, b) => a - b));
    }
    const carry = plan.tasks.find(
      (task) => task.endPlace !== undefined && task.endPlace !== task.place && start.has(task.id),
    )!;
    expect(all.get(carry.place!)).toContain(carry.id);
    expect(all.get(carry.endPlace!)).toContain(carry.id);
  });

  it("are none that begin at its end or end at its begin", () => {
    const [first] = plan.schedule.placements;
    const lengthS = plan.tasks.find((task) => task.id === first!.task)!.duration.likelyS;
    const has = (startS: number, endS: number): boolean =>
      [...tasksByPlace(plan, plan.schedule, { startS, endS }).values()].flat().includes(first!.task);
    expect(has(0, first!.startS)).toBe(false);
    expect(has(first!.startS + lengthS, plan.stay.lengthS)).toBe(false);
    expect(has(first!.startS, first!.startS + 1)).toBe(true);
  });
});

describe("where the signs of people stand", () => {
  const at = { x: 100, y: 50 };

  it("is where they are, and beside it for who stands there too", () => {
    expect(signPoints([at, { x: 300, y: 50 }, at], [])).toEqual([at, { x: 300, y: 50 }, { x: 83, y: 50 }]);
  });

  it("is round the plates for who stands aside, never one on the other", () => {
    // The plate of the place lies at its left, from 20 to 85: steps to the left would lie on it.
    const plate = { left: 20, top: 40, right: 85, bottom: 60 };
    const spots = signPoints([at, at, at, at], [plate]);
    expect(spots[0]).toEqual(at);
    for (const { x, y } of spots.slice(1)) expect(x > 95 || y < 30 || y > 70).toBe(true);
    const apart = spots.flatMap((one, k) =>
      spots.slice(0, k).map((two) => Math.hypot(one.x - two.x, one.y - two.y)),
    );
    expect(Math.min(...apart)).toBeGreaterThanOrEqual(17);
  });

  it("is on a plate where there is no way round it", () => {
    const plate = { left: -1000, top: -1000, right: 1000, bottom: 1000 };
    expect(signPoints([at, at], [plate])).toEqual([at, { x: 83, y: 50 }]);
  });
});
