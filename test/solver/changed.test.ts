import { setFlagsFromString } from "node:v8";
import { describe, expect, it } from "vitest";
import { changed } from "../../src/solver/problem/changed.ts";
import { compile } from "../../src/solver/problem/compile.ts";
import { withChoices } from "../../src/solver/problem/crewing.ts";
import { restricted } from "../../src/solver/problem/restricted.ts";
import { restretch } from "../../src/solver/wish/restretch.ts";
import { workingPlan } from "../bench/inner.plan.ts";

/** True when the engine keeps both alike, so that code made quick for one is quick for the other. */
function shapeIs(a: object, b: object): boolean {
  setFlagsFromString("--allow-natives-syntax");
  return new Function("a", "b", "return %HaveSameMap(a, b)")(a, b) as boolean;
}

describe("a changed problem", () => {
  const problem = compile(workingPlan(1, 20));
  const others = {
    "with changes": changed(problem, { gridS: 1 }),
    stretched: restretch(problem, () => 0.1),
    "stretched twice": restretch(
      restretch(problem, () => 0.1),
      () => 0.2,
    ),
    "with fewer choices": withChoices(problem, (_, c) => c === 0),
    "with fewer tasks": restricted(problem, new Set([problem.plan.tasks[0]!.id])),
    "of another plan": compile(workingPlan(2, 20)),
  };

  it("has what was changed, and everything else as it was", () => {
    const worth = problem.worth.map((one) => one + 1);
    const draws = { ...problem.draws, binds: !problem.draws.binds };
    expect(changed(problem, { worth, draws })).toEqual({ ...problem, worth, draws });
  });

  it.each(Object.entries(others))("has one shape in memory %s", (_, other) => {
    expect(shapeIs(other, problem)).toBe(true);
    expect(shapeIs(other.draws, problem.draws)).toBe(true);
    expect(shapeIs(other.edges, problem.edges)).toBe(true);
    expect(shapeIs(other.limits, problem.limits)).toBe(true);
  });
});
