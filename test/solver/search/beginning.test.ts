import { expect, it } from "vitest";
import { scheduleOf } from "../../../src/solver/network/placing.ts";
import { compile } from "../../../src/solver/problem/compile.ts";
import { Anneal } from "../../../src/solver/search/anneal.ts";
import { searchParameters } from "../../../src/solver/search/parameters.ts";
import { better } from "../../../src/solver/search/score.ts";
import { readyPlan } from "../../readyplan.ts";

it("a search that begins in steps has a day after the first, only better ones after that, and goes on as one that begins at once", () => {
  const problem = compile(readyPlan("large"));
  const whole = new Anneal(problem, 1, null);
  const search = new Anneal(problem, 1, null, searchParameters(), "in steps");
  let steps = 0;
  while (search.isBeginning) {
    const before = { ...search.bestValue };
    expect(search.best.count).toBeGreaterThan(0);
    search.begin();
    if (search.isBeginning) expect(better(search.bestValue, before)).toBe(true);
    else expect(search.bestValue).toEqual(before);
    steps += 1;
  }
  expect(steps).toBeGreaterThan(2);
  expect(scheduleOf(search.best)).toEqual(scheduleOf(whole.best));
  for (let k = 0; k < 40; k += 1) {
    search.iterate(k / 40);
    whole.iterate(k / 40);
  }
  expect(scheduleOf(search.best)).toEqual(scheduleOf(whole.best));
});
