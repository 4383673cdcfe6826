import { describe, expect, it } from "vitest";
import { allCautions, bagNumbers, classOf, parse, stepCrew } from "../../src/plan/index.ts";
import { cautionLine, doersOf, stepLine } from "../../src/words/index.ts";
import { completePlan } from "./completePlan.ts";
import { readyPlan } from "../readyplan.ts";

const CREW = [{ id: "ev1" }, { id: "ev2" }, { id: "ev3" }];

describe("whose a step is", () => {
  it("is everybody's who takes part, or that of one, counted in the order of the plan's crew", () => {
    expect(stepCrew({}, ["ev3", "ev1"], CREW)).toEqual(["ev1", "ev3"]);
    expect(stepCrew({ by: 2 }, ["ev3", "ev1"], CREW)).toEqual(["ev3"]);
    expect(stepCrew({ by: 1 }, ["ev2", "ev3"], CREW)).toEqual(["ev2"]);
  });

  it("is everybody's where fewer take part than it counts, never nobody's", () => {
    expect(stepCrew({ by: 2 }, ["ev2"], CREW)).toEqual(["ev2"]);
  });
});

describe("a caution", () => {
  it("that nobody has classed is set as a caution and says that its class is missing", () => {
    expect(classOf({ text: "Hot lid" })).toBe("caution");
    expect(cautionLine({ text: "Hot lid" })).toBe("CLASS?: Hot lid");
    expect(cautionLine({ class: "warning", text: "Hot lid" })).toBe("WARNING: Hot lid");
  });

  it("of the whole task comes before those that guard a step", () => {
    const read = parse(completePlan);
    if (!read.ok) throw new Error("faults");
    expect(allCautions(read.value.tasks[0]!).map(({ text }) => text)).toEqual([
      "Fins cut: keep clear of them.",
      "The cover is stiff.",
    ]);
  });
});

describe("a step as a line of text", () => {
  it("says whose it is, its condition and its blank", () => {
    const step = { text: "key back", cautions: [] };
    expect(stepLine(step, [])).toBe("key back");
    expect(
      stepLine({ ...step, by: 2, when: "lamp red", blank: { of: "reading", unit: "V" } }, ["EV1", "EV2"]),
    ).toBe("EV2: IF lamp red THEN key back [reading, V]");
    expect(stepLine({ ...step, by: 2, blank: { of: "mass", unit: "" } }, [])).toBe("2nd: key back [mass]");
  });

  it("calls who does it by name only where that is settled", () => {
    const [two, four] = [readyPlan("demo"), readyPlan("large")];
    const pair = two.tasks.find((task) => task.crew.count === 2)!;
    const single = two.tasks.find((task) => task.crew.count === 1 && task.crew.named.length === 0)!;
    expect(doersOf(two, pair)).toEqual(["EV1", "EV2"]);
    expect(doersOf(two, single)).toEqual(["1st"]);
    expect(doersOf(two, { crew: { count: 1, named: ["ev2"] } })).toEqual(["EV2"]);
    expect(doersOf(four, { crew: { count: 2, named: [] } })).toEqual(["1st", "2nd"]);
    expect(doersOf(four, { crew: { count: 2, named: ["ev4", "ev3"] } })).toEqual(["EV3", "EV4"]);
    // Everybody goes out on every EVA of the demo; on the large plan's EVAs go pairs.
    expect(doersOf(two, null)).toEqual(["EV1", "EV2"]);
    expect(doersOf(four, null)).toEqual(["1st", "2nd", "3rd", "4th"]);
  });
});

describe("the numbers of bags", () => {
  const sample = { container: "box", massKg: 1, volumeL: 1 };
  it("are their own, else the task's with a count, and not known where nobody says how many", () => {
    expect(bagNumbers({}, "32")).toEqual([]);
    expect(bagNumbers({ sample }, "32")).toBeNull();
    expect(bagNumbers({ sample: { ...sample, bags: 3 } }, "32")).toEqual(["32-1", "32-2", "32-3"]);
    expect(bagNumbers({ sample: { ...sample, bags: ["T1", "T2"] } }, "32")).toEqual(["T1", "T2"]);
  });
});
