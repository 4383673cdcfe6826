import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { isEqual } from "../../src/kernel/index.ts";
import { patchBetween, type Plan } from "../../src/plan/index.ts";
import { mergePlans, takeTheirs, valueAt } from "../../src/plan/patch/together.ts";
import { randomPlan } from "../properties/randomPlan.ts";
import { anyPlan, anyStep } from "./anyPlan.ts";

/** A plan, and what two hands made of it. */
const hands = fc
  .tuple(anyPlan, fc.array(anyStep, { maxLength: 4 }), fc.array(anyStep, { maxLength: 4 }))
  .map(([base, one, other]) => ({
    base,
    mine: one.reduce((plan, step) => step(plan), base),
    theirs: other.reduce((plan, step) => step(plan), base),
  }));

/** What differs, but for the order of lists. */
const changes = (before: Plan, after: Plan) =>
  patchBetween(before, after).filter(({ path }) => !path.at(-1)!.startsWith(">"));
const touches = (path: readonly string[], other: readonly string[]): boolean =>
  path.slice(0, other.length).every((step, k) => step === other[k]);

describe("two hands on one plan", () => {
  it("give the same whichever is merged into the other, where they do not clash", () => {
    let clean = 0;
    fc.assert(
      fc.property(hands, ({ base, mine, theirs }) => {
        const [one, other] = [mergePlans(base, mine, theirs), mergePlans(base, theirs, mine)];
        expect(one.clashes.length === 0).toBe(other.clashes.length === 0);
        if (one.clashes.length > 0) return;
        expect(one.plan.tasks.length).toBe(other.plan.tasks.length);
        // Where both added under one id or number, that of mine stays, whoever I am.
        if (!isEqual(one.theirs, theirs) || one.renumbered.length > 0) return;
        clean += 1;
        expect(changes(one.plan, other.plan)).toEqual([]);
      }),
      { numRuns: 300 },
    );
    expect(clean).toBeGreaterThan(5);
  });

  it("lose nothing that no clash tells of: every change of either is there", () => {
    let clashing = 0;
    fc.assert(
      fc.property(hands, ({ base, mine, theirs: sent }) => {
        const { plan, clashes, theirs, renumbered } = mergePlans(base, mine, sent);
        if (clashes.length > 0) clashing += 1;
        expect(theirs.tasks.length).toBe(sent.tasks.length);
        const told = (path: readonly string[]): boolean =>
          clashes.some((clash) => touches(path, clash.path) || touches(clash.path, path));
        for (const { path, to } of changes(base, theirs))
          if (!told(path)) {
            const other = renumbered.find(({ task }) => path[0] === "tasks" && path[1] === `#${task}`);
            const is = other && path.length === 2 ? { ...(to as object), number: other.is } : to;
            if (path[2] !== "number" || !other) expect([path, valueAt(plan, path)]).toEqual([path, is]);
          }
        for (const { path, to } of changes(base, mine)) {
          const there = valueAt(plan, path);
          // Inside of what I added or changed theirs may have changed something else, which is its own change.
          const both = changes(base, theirs).some(
            (one) => touches(one.path, path) || touches(path, one.path),
          );
          if (!both) expect([path, there]).toEqual([path, to]);
        }
        for (const clash of clashes) {
          expect(isEqual(clash.mine, clash.theirs)).toBe(false);
          expect(valueAt(plan, clash.path)).toEqual(valueAt(mine, clash.path));
        }
      }),
      { numRuns: 300 },
    );
    expect(clashing).toBeGreaterThan(5);
  });

  it("of which one did nothing give what the other did", () => {
    fc.assert(
      fc.property(hands, ({ base, mine, theirs }) => {
        expect(mergePlans(base, mine, base)).toEqual({
          plan: mine,
          clashes: [],
          theirs: base,
          renumbered: [],
        });
        expect(changes(mergePlans(base, base, theirs).plan, theirs)).toEqual([]);
        expect(mergePlans(base, mine, mine).clashes).toEqual([]);
        expect(changes(mergePlans(base, mine, mine).plan, mine)).toEqual([]);
      }),
    );
  });

  it("that did the same clash in nothing, and it is done once", () => {
    fc.assert(
      fc.property(hands, ({ base, mine }) => {
        const { plan, clashes } = mergePlans(base, mine, structuredClone(mine));
        expect(clashes).toEqual([]);
        expect(changes(plan, mine)).toEqual([]);
      }),
      { numRuns: 150 },
    );
  });

  it("give theirs at every clash that is taken, and mine at every one that is left", () => {
    fc.assert(
      fc.property(hands, ({ base, mine, theirs }) => {
        const { plan, clashes } = mergePlans(base, mine, theirs);
        const taken = clashes.reduce((one, clash, k) => (k % 2 === 0 ? takeTheirs(one, clash) : one), plan);
        for (const [k, clash] of clashes.entries())
          expect(valueAt(taken, clash.path)).toEqual(k % 2 === 0 ? clash.theirs : clash.mine);
      }),
      { numRuns: 300 },
    );
  });

  it("clash as a whole where one took out what the other changed, and over a placement", () => {
    const base = randomPlan(5, { tasks: 6, crew: 2, evas: 2, places: 4, features: 0 });
    const [first, second] = base.tasks;
    const without = (plan: Plan): Plan => ({ ...plan, tasks: plan.tasks.slice(1) });
    const worth = (plan: Plan, to: number): Plan => ({
      ...plan,
      tasks: plan.tasks.map((task) => (task === first ? { ...task, worth: to } : task)),
    });
    const gone = mergePlans(base, without(base), worth(base, first!.worth + 5));
    expect(gone.clashes).toMatchObject([
      { path: ["tasks", `#${first!.id}`], base: first, mine: undefined, theirs: { worth: first!.worth + 5 } },
    ]);
    expect(
      takeTheirs(gone.plan, gone.clashes[0]!)
        .tasks.map(({ id }) => id)
        .sort(),
    ).toEqual(base.tasks.map(({ id }) => id).sort());
    const changed = mergePlans(base, worth(base, first!.worth + 5), without(base));
    expect(changed.clashes).toMatchObject([{ path: ["tasks", `#${first!.id}`], theirs: undefined }]);
    expect(takeTheirs(changed.plan, changed.clashes[0]!).tasks[0]).toEqual(second);

    const at = (startS: number, crew: string[]): Plan => ({
      ...base,
      schedule: { placements: [{ task: first!.id, eva: "eva-1", crew, startS: startS as never }] },
    });
    const placed = mergePlans(at(5000, ["ev1"]), at(5600, ["ev1"]), at(6200, ["ev2"]));
    expect(placed.clashes.map(({ path }) => path)).toEqual([["schedule", "placements", `#${first!.id}`]]);
    expect(placed.plan.schedule).toEqual(at(5600, ["ev1"]).schedule);
    expect(takeTheirs(placed.plan, placed.clashes[0]!).schedule).toEqual(at(6200, ["ev2"]).schedule);
  });
});
