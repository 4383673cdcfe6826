import { describe, expect, it } from "vitest";
import { random } from "../../../src/kernel/index.ts";
import { compile } from "../../../src/solver/problem/compile.ts";
import { Anneal } from "../../../src/solver/search/anneal.ts";
import { drawn } from "../../../src/solver/search/drawn.ts";
import { searchParameters } from "../../../src/solver/search/parameters.ts";
import { randomPlan } from "../../properties/randomPlan.ts";

describe("what steers the search", () => {
  it("is checked when it is given", () => {
    expect(searchParameters({ heldBack: 0.3 })).toMatchObject({ heldBack: 0.3, hot: 1 });
    expect(() => searchParameters({ heldBack: 1.5 })).toThrow("heldBack is 1.5; a share is 0 to 1");
    expect(() => searchParameters({ cooling: 0 })).toThrow("cooling is 0; a count is 1 or more");
    expect(() => searchParameters({ cold: 2 })).toThrow("cooling from 1 to 2");
    expect(() => searchParameters({ cold: 0 })).toThrow("the end is above 0");
    expect(() => searchParameters({ endShare: 1 })).toThrow("it only breaks ties");
    expect(() => searchParameters({ swapped: Number.NaN })).toThrow("swapped is NaN");
  });

  it("draws operators as often as their shares say", () => {
    const operators = [
      { name: "often", share: 0.7 },
      { name: "seldom", share: 0.05 },
      { name: "now and then", share: 0.25 },
    ];
    const stream = random(1);
    const counts = new Map<string, number>();
    for (let k = 0; k < 10_000; k += 1) {
      const { name } = drawn(operators, stream.next());
      counts.set(name, (counts.get(name) ?? 0) + 1);
    }
    // Standard deviations of 46, 22 and 43 in 10,000.
    expect(Math.abs(counts.get("often")! - 7000)).toBeLessThan(200);
    expect(Math.abs(counts.get("seldom")! - 500)).toBeLessThan(100);
    expect(Math.abs(counts.get("now and then")! - 2500)).toBeLessThan(200);
    expect(drawn(operators, 1 - Number.EPSILON).name).toBe("now and then");
  });

  it("never begins anew, holds back or places two where its shares are nothing", () => {
    const problem = compile(randomPlan(3, { tasks: 14, crew: 2, evas: 2, places: 5, features: 0.6 }));
    const none = searchParameters({ begunAnew: 0, begunForMust: 0, heldBack: 0, twoAtOnce: 0, ejected: 0 });
    const search = new Anneal(problem, 1, null, none);
    for (let k = 0; k < 400; k += 1) search.iterate(k / 400);
    const names = search.statistics().ruins.map(({ name }) => name);
    expect(names).not.toContain("begun anew");
    expect(names).not.toContain("ejected");
    expect(names).toContain("strings");
  });
});

describe("statistics of a run", () => {
  it("count every turn once, and those that led to the best day of all", () => {
    const problem = compile(randomPlan(5, { tasks: 16, crew: 2, evas: 2, places: 5, features: 0.6 }));
    const search = new Anneal(problem, 2, null);
    let accepted = 0;
    search.onAccept = () => (accepted += 1);
    for (let k = 0; k < 500; k += 1) search.iterate(k / 500);
    const { turns, ruins } = search.statistics();
    expect(turns).toBe(500);
    // Routes are put together anew beside the turns, and only where they do not depend on each other.
    const went = ruins.reduce((sum, one) => sum + one.accepted + one.best, 0);
    expect(went).toBeLessThanOrEqual(accepted);
    expect(went).toBeGreaterThan(0);
    expect(ruins.reduce((sum, one) => sum + one.best, 0)).toBeGreaterThan(0);
  });
});
