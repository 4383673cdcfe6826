import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { duration, instant } from "../../src/kernel/index.ts";
import type { Plan } from "../../src/plan/index.ts";
import { changesBetween, readChanges, withChanges } from "../../src/session/variantchange.ts";
import { planOf, smallInput } from "./bench.ts";

const plan = planOf(smallInput);

const withEva = (of: Plan, part: Partial<Plan["evas"][number]>): Plan => ({
  ...of,
  evas: of.evas.map((eva) => ({ ...eva, ...part })),
});

const anyPlan: fc.Arbitrary<Plan> = fc
  .record({
    longestS: fc.integer({ min: 600, max: 40_000 }),
    latestS: fc.integer({ min: 10_000, max: 60_000 }),
    worths: fc.tuple(fc.nat(90), fc.nat(90), fc.nat(90)),
    window: fc.option(fc.integer({ min: 0, max: 9000 })),
    places: fc.shuffledSubarray(["hill", "rim", "dune"]),
    lack: fc.boolean(),
  })
  .map(({ longestS, latestS, worths, window, places, lack }) => ({
    ...withEva(plan, { longestS: duration(longestS), latestIngressS: instant(latestS) }),
    tasks: plan.tasks.slice(lack ? 1 : 0).map((task, i) => ({
      ...task,
      worth: worths[i]!,
      ...(window === null ? {} : { windows: [{ startS: instant(window), endS: instant(window + 600) }] }),
    })),
    site: {
      ...plan.site,
      places: [
        ...plan.site.places,
        ...places.map((id, i) => ({ ...plan.site.places[1]!, id, name: id, eastM: i })),
      ],
    },
  }));

describe("what a variant gives up", () => {
  it("turns one plan into the other, whatever differs", () => {
    fc.assert(
      fc.property(anyPlan, anyPlan, (before, after) => {
        const { parts, clashes } = withChanges(before, changesBetween(before, after));
        expect(clashes).toEqual([]);
        const made = { ...before, ...parts };
        expect(sorted(made)).toEqual(sorted(after));
      }),
    );
  });

  it("is no larger than what differs", () => {
    const after = withEva(plan, { longestS: duration(26_000) });
    expect(changesBetween(plan, after)).toEqual([
      { path: ["evas", "#eva-1", "longestS"], from: 25_000, to: 26_000 },
    ]);
  });

  it("still applies when something else of the same thing has changed", () => {
    const changes = changesBetween(plan, withEva(plan, { longestS: duration(26_000) }));
    const renamed = withEva(plan, { name: "First outing" });
    const { parts, clashes } = withChanges(renamed, changes);
    expect(clashes).toEqual([]);
    expect(parts.evas?.[0]).toMatchObject({ name: "First outing", longestS: 26_000 });
  });

  it("says where it no longer applies, and does nothing where it already holds", () => {
    const changes = changesBetween(plan, withEva(plan, { longestS: duration(26_000) }));
    const other = withEva(plan, { longestS: duration(20_000) });
    expect(withChanges(other, changes)).toEqual({ parts: {}, clashes: changes });
    const there = withEva(plan, { longestS: duration(26_000) });
    expect(withChanges(there, changes)).toEqual({ parts: {}, clashes: [] });
  });

  it("clashes with a thing that is gone", () => {
    const changes = changesBetween(plan, withEva(plan, { longestS: duration(26_000) }));
    expect(withChanges({ ...plan, evas: [] }, changes).clashes).toEqual(changes);
  });

  it("leaves schedule, variants and words alone", () => {
    const after = { ...plan, title: "Other", schedule: { placements: [] }, variants: [] };
    expect(changesBetween(plan, after)).toEqual([]);
  });

  it("is read back only when it has the form", () => {
    const changes = changesBetween(plan, withEva(plan, { longestS: duration(26_000) }));
    expect(readChanges(structuredClone(changes))).toEqual(changes);
    for (const wrong of [null, {}, [{}], [{ path: [] }], [{ path: [1] }], "x"])
      expect(readChanges(wrong)).toBeNull();
  });
});

/** Lists of things with ids in one order: a change has no place in a list. */
function sorted(of: Plan): unknown {
  const byId = <Item extends { id: string }>(list: readonly Item[]): Item[] =>
    list.toSorted((a, b) => (a.id < b.id ? -1 : 1));
  return { ...of, tasks: byId(of.tasks), site: { ...of.site, places: byId(of.site.places) } };
}
