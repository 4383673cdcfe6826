import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { slidBy } from "../../src/editor/index.ts";
import { slid as slidWith } from "../../src/editor/slide.ts";
import { type Duration, duration, instant } from "../../src/kernel/index.ts";
import type { Plan, Schedule } from "../../src/plan/index.ts";
import { fixturePlan } from "./fixture.ts";

const WAY_S = 120;
const slid = (...given: Parameters<typeof slidWith>): Schedule => slidWith(...given).schedule;
const walk = (from: string, to: string) => (from === to ? 0 : WAY_S);

/** Eight crew tasks of ten minutes to an hour, by turns at two places, the sixth for two. */
const plan: Plan = fixturePlan({
  tasks: Array.from({ length: 8 }, (_, i) => ({
    id: `t${i}`,
    name: `T${i}`,
    kind: "survey" as const,
    place: i % 2 === 0 ? "lander" : "rim",
    duration: { likelyS: 600 * ((i % 6) + 1) },
    crew: { count: i === 5 ? 2 : 1 },
  })),
});
const lengthS = (task: string): number => plan.tasks.find((one) => one.id === task)!.duration.likelyS;
const placeOf = (task: string): string => plan.tasks.find((one) => one.id === task)!.place!;

function schedule(...spots: readonly [task: string, crew: string, startS: number][]): Schedule {
  return {
    placements: spots.map(([task, crew, startS]) => ({
      task,
      eva: "eva-1",
      crew: crew.split(" "),
      startS: instant(startS),
    })),
  };
}
const starts = (one: Schedule): Record<string, number> =>
  Object.fromEntries(one.placements.map((spot) => [spot.task, spot.startS]));

describe("others slide", () => {
  it("push from task to task by way and duration until there is slack enough", () => {
    // t0 lasts 600, t1 1200, t2 1800: 10600 + 120, then 11920 + 120; t3 has slack and stays.
    const moved = schedule(
      ["t0", "ev1", 10_000],
      ["t1", "ev1", 10_400],
      ["t2", "ev1", 11_700],
      ["t3", "ev1", 15_000],
    );
    expect(starts(slid(plan, moved, ["t0"], walk))).toEqual({
      t0: 10_000,
      t1: 10_720,
      t2: 12_040,
      t3: 15_000,
    });
  });

  it("go over to the other crew member with a task for two", () => {
    const moved = schedule(["t0", "ev1", 10_000], ["t5", "ev1 ev2", 10_200], ["t2", "ev2", 13_700]);
    const after = starts(slid(plan, moved, ["t0"], walk));
    expect(after).toEqual({ t0: 10_000, t5: 10_720, t2: 10_720 + 3600 + WAY_S });
  });

  it("leave a pinned start and what is not reached alone, and give the same schedule when nothing slides", () => {
    const pinned: Plan = {
      ...plan,
      tasks: plan.tasks.map((one) => (one.id === "t1" ? { ...one, pin: { startS: instant(10_400) } } : one)),
    };
    const moved = schedule(["t0", "ev1", 10_000], ["t1", "ev1", 10_400], ["t2", "ev1", 11_000]);
    expect(slid(pinned, moved, ["t0"], walk)).toBe(moved);
    const other = schedule(["t0", "ev1", 10_000], ["t1", "ev2", 10_000], ["t2", "ev2", 10_100]);
    expect(slid(plan, other, ["t0"], walk)).toBe(other);
  });

  it("do not reach into another EVA", () => {
    const moved = schedule(["t0", "ev2", 10_000], ["t1", "ev2", 10_100]);
    const apart: Schedule = {
      placements: moved.placements.map((one) => (one.task === "t1" ? { ...one, eva: "eva-2" } : one)),
    };
    expect(slid(plan, apart, ["t0"], walk)).toBe(apart);
  });

  it("go on to the next start on the plan's grid, and to the second where lags leave none", () => {
    const onMinutes = { ...plan, rules: { ...plan.rules, startGridS: 60 } };
    // t1 could begin at 10,000 + 600 + 120 = 10,720: 10,740. t2 1200 + 120 after it: 12,060.
    const moved = schedule(["t0", "ev1", 10_000], ["t1", "ev1", 10_400], ["t2", "ev1", 11_700]);
    expect(starts(slid(onMinutes, moved, ["t0"], walk))).toEqual({ t0: 10_000, t1: 10_740, t2: 12_060 });
    // t1 90 s after t3, no sooner and no later: never both on whole minutes. t3 is pushed to 10,720, t1 to 10,810.
    const exact: Plan = {
      ...onMinutes,
      links: [
        {
          id: "lag",
          type: "lag",
          from: { task: "t3", end: "start" },
          to: { task: "t1", end: "start" },
          leastS: duration(90),
          greatestS: duration(90),
          needs: "none",
        },
      ],
    };
    const tied = schedule(["t0", "ev1", 10_000], ["t3", "ev1", 10_400], ["t1", "ev2", 10_490]);
    expect(starts(slid(exact, tied, ["t0"], walk))).toEqual({ t0: 10_000, t3: 10_720, t1: 10_810 });
  });

  it("a task put on the second half of another comes after it, on the first half before it", () => {
    const late = schedule(["t4", "ev1", 10_000], ["t0", "ev1", 12_000]);
    expect(starts(slid(plan, late, ["t0"], walk))).toEqual({ t4: 10_000, t0: 13_000 });
    const early = schedule(["t4", "ev1", 10_000], ["t0", "ev1", 10_500]);
    expect(starts(slid(plan, early, ["t0"], walk))).toEqual({ t0: 10_500, t4: 11_100 });
  });

  it("from any sound line leave a sound one: never earlier, order kept, room for every task and way", () => {
    const gaps = fc.array(fc.record({ crew: fc.constantFrom("ev1", "ev2"), gapS: fc.nat(1500) }), {
      minLength: 8,
      maxLength: 8,
    });
    fc.assert(
      fc.property(gaps, fc.nat(7), fc.integer({ min: -6000, max: 9000 }), (where, index, byS) => {
        const held = `t${index}`;
        const before = soundLine(where);
        const moved: Schedule = {
          placements: before.placements.map((one) =>
            one.task === held ? { ...one, startS: instant(one.startS + byS) } : one,
          ),
        };
        const after = slid(plan, moved, [held], walk);
        const was = starts(moved);
        const is = starts(after);
        for (const task of Object.keys(was)) expect(is[task]).toBeGreaterThanOrEqual(was[task]!);
        expect([...slidBy(moved, after, [held]).values()].every((one) => one > 0)).toBe(true);
        for (const member of ["ev1", "ev2"]) {
          expect(lineOf(after, member).filter((task) => task !== held)).toEqual(
            lineOf(before, member).filter((task) => task !== held),
          );
          const line = lineOf(after, member);
          for (const [i, task] of line.entries()) {
            const next = line[i + 1];
            if (next === undefined) continue;
            const needS = lengthS(task) + walk(placeOf(task), placeOf(next));
            expect(is[next]).toBeGreaterThanOrEqual(is[task]! + needS);
          }
        }
      }),
      { numRuns: 400 },
    );
  });
});

describe("links among those that slide", () => {
  const linked = (
    bounds: { leastS?: Duration; greatestS?: Duration },
    pin?: { task: string; startS: number },
    from = "t0",
    to = "t1",
  ): Plan => ({
    ...plan,
    tasks: plan.tasks.map((one) =>
      one.id === pin?.task ? { ...one, pin: { startS: instant(pin.startS) } } : one,
    ),
    links: [
      {
        id: "lag",
        type: "lag",
        from: { task: from, end: "end" },
        to: { task: to, end: "start" },
        needs: "none",
        ...bounds,
      },
    ],
  });

  it("a least lag pushes across lanes, and what follows there by its way", () => {
    // t0 ends at 10600; t1 on the other lane not before 10600 + 900 = 11500; it lasts 1200, then the way.
    const moved = schedule(["t0", "ev1", 10_000], ["t1", "ev2", 10_700], ["t2", "ev2", 12_100]);
    const { schedule: after, stuck } = slidWith(linked({ leastS: duration(900) }), moved, ["t0"], walk);
    expect(starts(after)).toEqual({ t0: 10_000, t1: 11_500, t2: 11_500 + 1200 + WAY_S });
    expect(stuck).toEqual([]);
  });

  it("a greatest lag takes the earlier task along when the later one is moved", () => {
    // t1 is moved to 15000; t0 must end within 600 before it: it starts at 15000 - 600 - 600 at the earliest.
    const moved = schedule(["t0", "ev1", 10_000], ["t1", "ev2", 15_000]);
    const { schedule: after, stuck } = slidWith(linked({ greatestS: duration(600) }), moved, ["t1"], walk);
    expect(starts(after)).toEqual({ t0: 13_800, t1: 15_000 });
    expect(stuck).toEqual([]);
  });

  it("a pinned start stays and is told, whether a link or the order would push it", () => {
    const byLink = schedule(["t0", "ev1", 10_000], ["t1", "ev2", 10_700]);
    const pinned = linked({ leastS: duration(900) }, { task: "t1", startS: 10_700 });
    expect(slidWith(pinned, byLink, ["t0"], walk)).toEqual({
      schedule: byLink,
      stuck: [{ task: "t1", why: "pinned" }],
    });
    const byOrder = schedule(["t0", "ev1", 10_000], ["t1", "ev1", 10_400]);
    expect(slidWith(linked({}, { task: "t1", startS: 10_400 }), byOrder, ["t0"], walk).stuck).toEqual([
      { task: "t1", why: "pinned" },
    ]);
  });

  it("nothing begins earlier for a link: it is told that it would have to", () => {
    const moved = schedule(["t0", "ev1", 8000], ["t1", "ev2", 10_700]);
    expect(slidWith(linked({ greatestS: duration(600) }), moved, ["t0"], walk)).toEqual({
      schedule: moved,
      stuck: [{ task: "t1", why: "earlier" }],
    });
  });

  it("ends where order and link push each other in a circle, and leaves all where it is", () => {
    // t2 begins at most 600 s after t1 ends, but t3 of 40 minutes stands between them on the lane.
    const moved = schedule(
      ["t0", "ev1", 10_000],
      ["t1", "ev1", 10_100],
      ["t3", "ev1", 11_500],
      ["t2", "ev1", 14_200],
    );
    const circle = linked({ greatestS: duration(600) }, undefined, "t1", "t2");
    const { schedule: after, stuck } = slidWith(circle, moved, ["t0"], walk);
    expect(after).toBe(moved);
    expect(stuck.map((one) => one.why)).toEqual(["circle"]);
  });
});

/** All eight tasks one after the other on their lanes, with so much time to spare before each. */
function soundLine(where: readonly { readonly crew: string; readonly gapS: number }[]): Schedule {
  const free = new Map<string, { endS: number; place: string }>();
  return schedule(
    ...where.map(({ crew, gapS }, i): [string, string, number] => {
      const task = `t${i}`;
      const members = i === 5 ? ["ev1", "ev2"] : [crew];
      const readyS = members.map((member) => {
        const last = free.get(member);
        return last ? last.endS + walk(last.place, placeOf(task)) : 10_000;
      });
      const startS = Math.max(...readyS) + gapS;
      for (const member of members) free.set(member, { endS: startS + lengthS(task), place: placeOf(task) });
      return [task, members.join(" "), startS];
    }),
  );
}

function lineOf(one: Schedule, member: string): readonly string[] {
  return one.placements
    .filter((spot) => spot.crew.includes(member))
    .toSorted((a, b) => a.startS - b.startS)
    .map((spot) => spot.task);
}
