import { describe, expect, it } from "vitest";
import { check } from "../../../src/check/index.ts";
import { minuteWords } from "../../../src/screens/day/atminute.ts";
import { at, eva, task, tinyPlan } from "../../check/tinyPlan.ts";

/** Out from 1000 s: one at the lander alone from 1600, another at `a` for two from 4000. Ways to `a` take 300 s. */
const plan = tinyPlan({
  tasks: [task("one", "lander"), task("two", "a", { crew: { count: 2 } }), task("three", "a")],
  evas: [eva("eva-1")],
  placements: [at("one", 1600), at("two", 4000, ["ev1", "ev2"]), at("three", 5000, ["ev2"])],
});
const verdict = check(plan, plan.schedule);
const words = (atS: number): readonly string[] => minuteWords(plan, verdict, atS);

describe("who is out at a minute", () => {
  it("is said with whom and at what, and how far apart, and alone who does what the others do not", () => {
    expect(words(4300)).toEqual(["EV1 and EV2: 2 two", "0 m apart"]);
    expect(words(5300)[0]).toMatch(/^EV1 alone: /);
    expect(words(5300)[1]).toBe("EV2 alone: 3 three");
    expect(words(5300).at(-1)).toMatch(/ m apart$/);
  });

  it("is nobody before egress and after ingress", () => {
    const { span } = verdict.outings[0]!;
    expect(words(span.startS - 1)).toEqual(["nobody is out"]);
    expect(words(span.endS)).toEqual(["nobody is out"]);
    expect(words(span.startS)[0]).toBe("EV1 and EV2: egress");
  });
});
