import { describe, expect, it } from "vitest";
import { guideTo } from "../../src/plan/index.ts";

describe("the guide to a field", () => {
  it("gives words and bounds of a number, also under a default", () => {
    expect(guideTo("crew.*.bodyMassKg")).toMatchObject({
      words: "Body mass, kg.",
      low: 30,
      high: 200,
      optional: false,
    });
    expect(guideTo("rules.walking.speedMs")).toMatchObject({ low: 0.05, high: 5, optional: true });
  });

  it("knows whole numbers, also behind a change of type", () => {
    expect(guideTo("tasks.*.worth")).toMatchObject({ whole: true, low: 0 });
    expect(guideTo("suits.*.emergencyOxygenS")).toMatchObject({ whole: true, low: 0 });
    expect(guideTo("suits.*.massKg").whole).toBe(false);
  });

  it("knows what may be left out and how long a list may be", () => {
    expect(guideTo("tasks.*.pin.startS").optional).toBe(true);
    expect(guideTo("tasks.*.place").optional).toBe(true);
    expect(guideTo("crew")).toMatchObject({ most: 4 });
    expect(guideTo("tasks.*.steps")).toMatchObject({ most: 60, words: "Steps for the cuff checklist." });
  });

  it("finds the fields of one form among several", () => {
    expect(guideTo("site.keepOuts.*.shape.radiusM")).toMatchObject({ low: 0.1 });
    expect(guideTo("links.*.leastM")).toMatchObject({ low: 0 });
    expect(guideTo("links.*.tasks.1").words).toMatch(/lower-case/);
  });

  it("refuses a field that is not there, by name", () => {
    expect(() => guideTo("crew.*.shoeSize")).toThrow(/no field "crew.\*.shoeSize".*"shoeSize"/);
  });
});
