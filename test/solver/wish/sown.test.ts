import { describe, expect, it } from "vitest";
import { check } from "../../../src/check/index.ts";
import { random } from "../../../src/kernel/index.ts";
import { Day } from "../../../src/solver/network/day.ts";
import { loadSchedule, scheduleOf } from "../../../src/solver/network/placing.ts";
import { compile } from "../../../src/solver/problem/compile.ts";
import { restretch } from "../../../src/solver/wish/restretch.ts";
import { sown } from "../../../src/solver/wish/sown.ts";
import { readyPlan } from "../../readyplan.ts";

describe("a sown beginning of a day", () => {
  it("has every task once, holds but for what ties EVAs together, and begins an EVA in many places", () => {
    const plan = readyPlan("demo");
    const problem = compile(plan);
    const firstPlaces = new Set<string>();
    let placed = 0;
    let lost = 0;
    for (let seed = 1; seed <= 12; seed += 1) {
      const { placements } = sown(problem, random(seed));
      expect(new Set(placements.map(({ task }) => task)).size, `seed ${seed}`).toBe(placements.length);
      placed += placements.length;
      lost += loadSchedule(new Day(problem), { placements });
      const onFirst = placements.filter(({ eva }) => eva === plan.evas[0]!.id);
      const place = plan.tasks.find(({ id }) => id === onFirst[0]?.task)?.place;
      if (place !== undefined) firstPlaces.add(place);
    }
    expect(placed).toBeGreaterThan(12);
    expect(lost).toBeLessThan(placed / 4);
    // By worth a second it would always be the same.
    expect(firstPlaces.size).toBeGreaterThan(2);
  });

  it("keeps every link on a day that has less room, whatever of it is lost there", () => {
    for (const name of ["demo", "large"] as const) {
      const plan = readyPlan(name);
      const problem = compile(plan);
      const stretched = restretch(problem, () => 0.05);
      let lost = 0;
      for (let seed = 1; seed <= 12; seed += 1) {
        const day = new Day(stretched);
        lost += loadSchedule(day, sown(problem, random(seed)));
        const broken = check(plan, scheduleOf(day.board)).findings.filter(({ level }) => level === "breach");
        expect(
          broken.filter(({ rule }) => rule.startsWith("link-")),
          `${name}, seed ${seed}`,
        ).toEqual([]);
      }
      expect(lost, name).toBeGreaterThan(0);
    }
  });

  it("is the same for the same numbers drawn", () => {
    const problem = compile(readyPlan("demo"));
    expect(sown(problem, random(5))).toEqual(sown(problem, random(5)));
  });
});
