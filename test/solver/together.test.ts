import { expect, it } from "vitest";
import { compile } from "../../src/solver/problem/compile.ts";
import { Anneal } from "../../src/solver/search/anneal.ts";
import { eva, place, task, tinyPlan } from "../check/tinyPlan.ts";

/**
 * Two people who may be 400 m apart at most, and 5400 s outside. At `near` (300 m) there is work of worth 2 for both all day; at `far` (1500 m, 1500 s
 * each way: 5400 - 2 x 600 - 2 x 1500 = 1200 s there, two tasks each) work of worth 10. While both are at near neither can go to
 * far alone, so the day of worth 40 is not a small step away from the one of worth 16.
 */
const plan = tinyPlan({
  evas: [eva("eva-1", { longestS: 5400 })],
  places: [place("lander", 0, 0), place("near", 300, 0), place("far", -1500, 0)],
  tasks: [
    ...Array.from({ length: 10 }, (_, k) => task(`near-${k}`, "near", { worth: 2 })),
    ...Array.from({ length: 4 }, (_, k) => task(`far-${k}`, "far", { worth: 10 })),
  ],
  rules: { separation: { greatestM: 400 } },
});

it("leads both of a crew that has to stay together to a place where neither could go alone", () => {
  for (let seed = 1; seed <= 10; seed += 1) {
    const anneal = new Anneal(compile(plan), seed, null);
    for (let k = 0; k < 150; k += 1) anneal.iterate(k / 150);
    expect(anneal.bestValue.worth, `seed ${seed}`).toBe(40);
  }
});
