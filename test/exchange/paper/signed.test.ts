import { describe, expect, it } from "vitest";
import { signedFacts } from "../../../src/exchange/paper/signed.ts";
import { type Plan, type Signoff, signedValue } from "../../../src/plan/index.ts";
import { samplePlan } from "../samplePlan.ts";

const plan = samplePlan();
const [first, second] = plan.tasks.map(({ id }) => id);

function signed(by: string, about: Signoff["about"], value = signedValue(plan, about)!): Signoff {
  return { id: `${by}-${about.id}`, about, by, atUtc: "2031-04-05T06:07:00Z", value };
}

const factsOf = (signoffs: Signoff[], of: Plan = plan) =>
  signedFacts({ ...of, signoffs }, [first!, second!]).map((fact) => fact.join(": "));

describe("sign-offs on a booklet", () => {
  it("say nothing where nobody signs anything", () => {
    expect(factsOf([])).toEqual([]);
  });

  it("say who signed it, and that it is not signed where something else is", () => {
    expect(factsOf([signed("Ada", { kind: "page", id: "cuff" })])).toEqual(["SIGNED: booklet by Ada"]);
    expect(factsOf([signed("Bo", { kind: "rule", id: "work" })])).toEqual([
      "SIGNED: rule work by Bo",
      "NOT SIGNED: booklet",
    ]);
    // A sheet is no booklet.
    expect(factsOf([signed("Bo", { kind: "page", id: "console" })])).toEqual(["NOT SIGNED: booklet"]);
  });

  it("name tasks by number, those that nobody signed too, once one is signed", () => {
    expect(factsOf([signed("Ada", { kind: "task", id: first! })])).toEqual([
      "SIGNED: 1 by Ada",
      "NOT SIGNED: booklet 2",
    ]);
  });

  it("take no sign-off for one of what has changed since", () => {
    const old = signed("Ada", { kind: "page", id: "cuff" }, "0".repeat(64));
    expect(factsOf([old])).toEqual(["NOT SIGNED: booklet", "CHANGED SINCE SIGNED: booklet"]);
  });
});
