import { describe, expect, it } from "vitest";
import { differenceWords } from "../../src/words/index.ts";
import { planOf, smallInput } from "../session/bench.ts";

const plan = planOf(smallInput);
const said = (change: object): string[] =>
  differenceWords(plan, planOf({ ...smallInput, ...change } as never)).map(
    ({ about, sentence }) => `${about}: ${sentence}`,
  );
const [one, two, three] = smallInput.tasks;

describe("the difference between two plans in words", () => {
  it("is nothing between a plan and itself", () => {
    expect(differenceWords(plan, plan)).toEqual([]);
  });

  it("names what it is about, the field, and the values with their units", () => {
    expect(said({ title: "Another" })).toEqual(["Plan: Title: “A small day” to “Another”."]);
    expect(said({ tasks: [{ ...one!, duration: { likelyS: 1200 }, must: true }, two!, three!] })).toEqual([
      "Task 1 Task one: Duration, likely: 15 min to 20 min.",
      "Task 1 Task one: Must: no to yes.",
    ]);
    expect(said({ evas: [{ ...smallInput.evas[0]!, earliestEgressS: 5400 }] })).toEqual([
      "EVA EVA 1: Earliest egress: 1:00 MET to 1:30 MET.",
    ]);
    expect(said({ crew: [{ ...smallInput.crew[0]!, bodyMassKg: 80.5 }, smallInput.crew[1]!] })).toEqual([
      "Crew member EV1: Body mass: 75 kg to 80.5 kg.",
    ]);
    expect(said({ rules: { separation: { greatestM: 300 } } })).toEqual([
      "Rules: Separation, greatest: 500 m to 300 m.",
    ]);
  });

  it("says what a field refers to by its name", () => {
    expect(said({ evas: [{ ...smallInput.evas[0]!, crew: ["ev1"] }] })).toEqual([
      "EVA EVA 1: Crew: EV1, EV2 to EV1.",
    ]);
    const named = { ...one!, crew: { count: 1, named: ["ev2"] } };
    expect(said({ tasks: [named, two!, three!] })).toEqual(["Task 1 Task one: Crew, named: none to EV2."]);
    const elsewhere = said({ tasks: [{ ...one!, place: "lander" }, two!, three!] }).join();
    expect(elsewhere).toMatch(/^Task 1 Task one: Place: [A-Z][^“]* to [A-Z][^“]*\.$/);
  });

  it("says the numbers of windows and shares, where they go into a line", () => {
    const windows = (endS: number) => [{ startS: 3600, endS }];
    const windowed = (more: object) => ({ tasks: [{ ...one!, ...more }, two!, three!] });
    const before = planOf({ ...smallInput, ...windowed({ windows: windows(7200) }) } as never);
    const after = planOf({ ...smallInput, ...windowed({ windows: windows(5400) }) } as never);
    expect(differenceWords(before, after).map(({ sentence }) => sentence)).toEqual([
      "Windows: start 1:00 MET, end 2:00 MET to start 1:00 MET, end 1:30 MET.",
    ]);
    expect(said(windowed({ pet: { startS: 5400 } }))).toEqual(["Task 1 Task one: Pet: none to start 1:30."]);
    const steps = Array.from({ length: 5 }, (_, k) => ({ text: `Step ${k}` }));
    expect(said(windowed({ steps }))).toEqual(["Task 1 Task one: Steps: changed."]);
  });

  it("says of no list that it stands in another order where something is only new in its middle or gone from it", () => {
    const four = { ...one!, id: "four", name: "Task four", number: "9" };
    const orders = (change: object) => said(change).filter((line) => line.startsWith("Order"));
    for (const tasks of [
      [one!, two!],
      [two!, three!],
      [one!, three!],
      [four, one!, two!, three!],
      [one!, four, two!, three!],
      [],
    ])
      expect(orders({ tasks, links: [], schedule: { placements: [] } })).toEqual([]);
    expect(orders({ tasks: [two!, one!, four], links: [], schedule: { placements: [] } })).toHaveLength(1);
  });

  it("says what is new, gone, in another order, and what became of the schedule", () => {
    const four = { ...one!, id: "four", name: "Task four" };
    expect(said({ tasks: [one!, two!, three!, four] })).toEqual(["Task 4 Task four: New."]);
    expect(differenceWords(plan, { ...plan, tasks: plan.tasks.toReversed() })).toEqual([
      { about: "Order", sentence: "The tasks stand in another order." },
    ]);
    expect(said({ tasks: [one!, three!] })).toContain("Task 2 Task two: Gone.");
    const placements = [{ task: "one", eva: "eva-1", crew: ["ev2"], startS: 7500 }];
    expect(said({ schedule: { placements } })).toEqual([
      "Schedule: 1 Task one goes to EV2 and starts at 2:05 MET, 5 min later.",
    ]);
    expect(said({ schedule: { placements: [] } })).toEqual(["Schedule: 1 Task one goes back to the bench."]);
  });
});
