import { describe, expect, it } from "vitest";
import { random } from "../../../src/kernel/index.ts";
import { Day } from "../../../src/solver/network/day.ts";
import { loadSchedule } from "../../../src/solver/network/placing.ts";
import { compile } from "../../../src/solver/problem/compile.ts";
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

  it("is the same for the same numbers drawn", () => {
    const problem = compile(readyPlan("demo"));
    expect(sown(problem, random(5))).toEqual(sown(problem, random(5)));
  });
});
