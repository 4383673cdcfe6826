import { describe, expect, it } from "vitest";
import { readyPlan } from "../readyplan.ts";
import { parsed } from "../check/tinyPlan.ts";
import { largePlan } from "../../src/plan/large/index.ts";
import { compile } from "../../src/solver/problem/compile.ts";
import { Anneal } from "../../src/solver/search/anneal.ts";

describe("must-do work", () => {
  it("is on the demo day within 300 iterations by every one of 24 seeds", () => {
    const problem = compile(readyPlan("demo"));
    const leftOut = Array.from({ length: 24 }, (_, k) => {
      const search = new Anneal(problem, k + 1, null);
      for (let turn = 0; turn < 300 && search.bestValue.mustOut > 0; turn += 1) search.iterate(turn / 960);
      return search.bestValue.mustOut;
    });
    expect(leftOut).toEqual(leftOut.map(() => 0));
  });

  it("is on the large day that every one of ten seeds begins with", () => {
    const problem = compile(parsed(largePlan()));
    const leftOut = Array.from({ length: 10 }, (_, k) => new Anneal(problem, k + 1, null).bestValue.mustOut);
    expect(leftOut).toEqual(leftOut.map(() => 0));
  });
});
