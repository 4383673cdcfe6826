// @vitest-environment jsdom
import { act } from "react";
import { describe, expect, it } from "vitest";
import { judgeFor } from "../../../src/check/index.ts";
import { FLIGHT_RULES, RULE_IDS, rulesLimitedBy } from "../../../src/rules/index.ts";
import { Setup } from "../../../src/screens/setup/setup.tsx";
import { spareWords } from "../../../src/screens/fields/sparewords.ts";
import { planOf, scheduleWith, smallInput } from "../../session/bench.ts";
import { button, click, setStage, show } from "./stage.tsx";

setStage();

const line = (name: string): HTMLElement =>
  [...document.querySelectorAll<HTMLElement>('[data-table="rules"] tbody tr')].find((row) =>
    row.textContent?.startsWith(name),
  )!;
const spare = (name: string): HTMLElement => line(name).querySelector<HTMLElement>(".grid-beside")!;

describe("beside each flight rule", () => {
  it("stands its least to spare on the day in hand, and follows it", () => {
    const { session } = show(<Setup />);
    click(button("Flight rules"));
    const { plan, verdict } = session.state.getState();
    // Walked on the one EVA that goes out, and at most: 8 km less that.
    const walkedM = Math.max(...Object.values(verdict.walkedM));
    const before = spare("Distance walked: in one EVA").textContent;
    expect(before).toContain(" on ");
    act(
      () =>
        void session.edit("Shorter", ({ rules }) => ({
          rules: { ...rules, distance: { ...rules.distance, evaM: Math.max(1, walkedM - 30) } },
        })),
    );
    expect(walkedM).toBeGreaterThan(31);
    expect(spare("Distance walked: in one EVA").textContent).toMatch(/^short by 30 m, /);
    expect(spare("Distance walked: in one EVA").dataset["state"]).toBe("breach");
    act(() => void session.undo());
    expect(spare("Distance walked: in one EVA").textContent).toBe(before);
    // With nobody out nothing is bound.
    act(() => session.bench(plan.tasks.map(({ id }) => id)));
    expect(spare("Distance walked: in one EVA").textContent).toBe(
      "not binding: nothing on this day is tested by it",
    );
    // What is only reckoned with has nothing to spare.
    expect(spare("Walking: planned speed").textContent).toBe("");
  });

  it("is not known where the plan does not say what it would take to tell", () => {
    const plan = planOf(smallInput);
    const schedule = scheduleWith(plan, "one", 7200);
    const words = (of: typeof plan) => spareWords(of, judgeFor(of)(schedule), ["drinking-water"]);
    expect(words(plan)).toEqual({ text: "not known for EV1 on EVA 1", state: "unknown" });
    // One litre at 0.24 kg an hour lasts 4:10, to the second.
    const suits = plan.suits.map((suit) => ({ ...suit, drinkKg: 1 }));
    const known = { ...plan, suits };
    const { span } = judgeFor(known)(schedule).outings[0]!;
    const spareS = 15_000 - (span.endS - span.startS);
    const verdict = judgeFor(known)(schedule);
    expect(verdict.spares.find(({ rule }) => rule === "drinking-water")?.spare).toBe(spareS);
  });

  it("is worked out for who asks, once, and goes with a verdict from thread to thread", () => {
    const plan = planOf(smallInput);
    const verdict = judgeFor(plan)(scheduleWith(plan, "one", 7200));
    expect(Object.getOwnPropertyDescriptor(verdict, "spares")?.get).toBeDefined();
    expect(verdict.spares).toBe(verdict.spares);
    expect(structuredClone(verdict).spares).toEqual(verdict.spares);
  });

  it("is there for every rule that has a number, at the number that it is held to", () => {
    const plan = planOf(smallInput);
    const { spares } = judgeFor(plan)(plan.schedule);
    const withNumbers = RULE_IDS.filter((rule) => FLIGHT_RULES[rule].numbers !== null);
    expect(new Set(spares.map(({ rule }) => rule))).toEqual(new Set(withNumbers));
    const held = withNumbers.map((rule) => {
      const { numbers } = FLIGHT_RULES[rule];
      return numbers!.keys.filter((key) => rulesLimitedBy(numbers!.group, key).includes(rule)).length;
    });
    expect(held.every((many) => many === 1)).toBe(true);
  });
});
