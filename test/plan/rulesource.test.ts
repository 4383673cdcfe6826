import { expect, test } from "vitest";
import { type Plan, ruleSource } from "../../src/plan/index.ts";
import { ruleRows } from "../../src/exchange/paper/sheets/flightrules.ts";
import { readyPlan } from "../readyplan.ts";

const NOT_GIVEN = /^not given: /;

function withRules(rules: Partial<Plan["rules"]>): Plan {
  const plan = readyPlan("demo");
  return { ...plan, rules: { ...plan.rules, ...rules } };
}

test("a default's source is said of the default's numbers", () => {
  const plan = readyPlan("demo");
  expect(ruleSource(plan, "distance")).toBe("Project default.");
  expect(ruleSource(plan, "separation")).toBe("Common practice, no source.");
});

test("a default's source is not said of other numbers, nor on paper", () => {
  const usual = readyPlan("demo").rules.separation;
  const plan = withRules({ separation: { ...usual, greatestM: 700 } });
  expect(ruleSource(plan, "separation")).toMatch(NOT_GIVEN);
  expect(ruleRows({ plan }).find(({ rule }) => rule === "crew-separation")?.source).toMatch(NOT_GIVEN);
  // What breaking it counts as is the planner's, and no number.
  const eased = withRules({ separation: { ...usual, level: "warning" } });
  expect(ruleSource(eased, "separation")).toBe(usual.source);
});

test("the planner's own source stands, and none is not given", () => {
  const usual = readyPlan("demo").rules.separation;
  const source = "Flight rule book, revision 3.";
  expect(ruleSource(withRules({ separation: { ...usual, greatestM: 700, source } }), "separation")).toBe(
    source,
  );
  expect(ruleSource(withRules({ separation: { ...usual, source: " " } }), "separation")).toBe("not given");
});

test("reserves that differ from the default's in any suit have no source from the default", () => {
  const plan = readyPlan("demo");
  const [first, ...others] = plan.suits;
  const bare = { ...plan, suits: [] };
  expect(ruleSource(bare, "reserve")).toBe(plan.rules.reserve.source);
  const more = { ...first!, reserve: { ...first!.reserve, oxygen: first!.reserve.oxygen + 0.01 } };
  expect(ruleSource({ ...plan, suits: [more, ...others] }, "reserve")).toMatch(NOT_GIVEN);
});
