import { describe, expect, test } from "vitest";
import { breachesOf, only, pair } from "./pair.ts";
import { at, eva, task, tinyPlan, type TaskInput } from "./tinyPlan.ts";

const plan = (pin: TaskInput["pin"], placed = true) =>
  tinyPlan({
    evas: [eva("eva-1"), eva("eva-2")],
    tasks: [task("one", "a", { pin, crew: { count: 2 } })],
    placements: placed ? [at("one", 2000, ["ev2", "ev1"])] : [],
  });

describe("pins", () => {
  pair("pin", {
    breaks: ["starts a second late", plan({ startS: 1999 })],
    says: { need: 1999, have: 2000 },
    holds: ["starts as pinned", plan({ startS: 2000 })],
  });
  pair("pin", {
    breaks: ["on another EVA", plan({ eva: "eva-2" })],
    holds: ["on the pinned EVA", plan({ eva: "eva-1" })],
  });
  pair("pin", {
    breaks: ["one of the pinned two", plan({ crew: ["ev1"] })],
    holds: ["the pinned two, in any order", plan({ crew: ["ev1", "ev2"] })],
  });

  test("pin: a pinned task may be left on the bench", () => {
    expect(breachesOf(plan({ startS: 5 }, false))).toEqual([]);
  });

  test("pin gives numbers for a start only", () => {
    expect(only(plan({ eva: "eva-2" }), "pin")).toMatchObject({ need: null, have: null, unit: "none" });
    expect(only(plan({ crew: [] }), "pin").sentence).toBe("one is pinned to nobody and is with EV1 and EV2.");
  });

  test("pin tells all that moved in one finding", () => {
    expect(only(plan({ startS: 0, eva: "eva-2" }), "pin").sentence).toBe(
      "one is pinned to start at 0:00 MET and starts at 0:33:20 MET and to eva-2 and is on eva-1.",
    );
  });
});
