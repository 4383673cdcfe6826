import type { WhyCause } from "../../../src/answers/index.ts";
// @vitest-environment jsdom
import { act } from "react";
import { describe, expect, it } from "vitest";
import { instant } from "../../../src/kernel/index.ts";
import { WhyPanel } from "../../../src/screens/why/whypanel.tsx";
import type { StoreApi } from "zustand/vanilla";
import { benchSays, type SessionState } from "../../../src/session/index.ts";
import { longerEva, whyReport } from "../../session/answers.ts";
import { button, click, here, press, setStage, show } from "../setup/stage.tsx";

setStage();

const text = () => document.body.textContent ?? "";

async function asked(report?: Parameters<typeof whyReport>[1]) {
  const stage = show(<WhyPanel />);
  const { plan } = stage.session.state.getState();
  act(() => void stage.session.askWhy("two"));
  await act(async () => stage.engine.whys[0]!.answer(whyReport(plan, report)));
  return { ...stage, plan };
}

describe("the answer to why not", () => {
  it("is not there before anything is asked", () => {
    show(<WhyPanel />);
    expect(document.querySelector(".why")).toBeNull();
  });

  it("shows progress, and can be stopped", () => {
    const { session, engine } = show(<WhyPanel />);
    act(() => void session.askWhy("two"));
    expect(document.querySelector("progress")).not.toBeNull();
    act(() => engine.whys[0]!.report(whyReport(session.state.getState().plan, { tried: 1, stopped: null })));
    expect(text()).toContain("1 of 2 changes tried");
    click(button("Stop"));
    expect(engine.whys[0]!.cancelled()).toBe(true);
    expect(text()).toContain("1 of 2 changes tried, then stopped.");
    expect(text()).toContain("EVA 1 may last 5 min longer");
    click(button("Look longer"));
    expect(engine.whys).toHaveLength(2);
  });

  it("gives the conflict with how sure it is, and what could give with cost, owner and how it was tried", async () => {
    await asked();
    expect(text()).toContain("Each one alone is enough: tried");
    // No figure but those of what was tried.
    expect(text()).not.toMatch(/missing|short/);
    expect(text()).toContain(
      "Proved: there are no times at which all of it can be had in this order. None of them can be left out of the list.",
    );
    const ways = [...document.querySelectorAll(".why-way")].map((one) => one.textContent ?? "");
    expect(ways[0]).toContain("no task lost");
    expect(ways[0]).toContain("the planner");
    expect(ways[0]).toContain("worth 20 (+10)");
    expect(ways[1]).toContain("worth 10 lost");
    expect(ways[1]).toContain("the flight director");
  });

  it("says with its figures what the bench says, before how many conditions that is", async () => {
    const { session, engine } = show(<WhyPanel />);
    const { plan } = session.state.getState();
    const sentence = "The walk back from its place takes 32 min; emergency oxygen allows 27 min.";
    (session.state as StoreApi<SessionState>).setState({
      benchReasons: new Map([["two", { task: "two", sentence, fitsAt: null, slides: false }]]),
    });
    act(() => void session.askWhy("two"));
    const whole = whyReport(plan);
    const one = { ...whole.conflict!, causes: whole.conflict!.causes.slice(0, 1) };
    await act(async () => engine.whys[0]!.answer({ ...whole, conflict: one, relaxations: [] }));
    expect(text()).toContain(sentence);
    expect(text()).not.toContain("None of them");
    expect(text()).toContain("there are no times at which this holds in this order.");
    expect(benchSays(session.state.getState(), "two")).toBe(sentence);
  });

  it("says what is gained as groups count it: half of each task's worth where that is the group's share", async () => {
    const { session, engine } = show(<WhyPanel />, (one) => {
      const group = { id: "pair", name: "Pair", tasks: ["one", "two"], least: 0, shares: [50] };
      expect(one.edit("Grouped", () => ({ groups: [group] })).ok).toBe(true);
    });
    const { plan } = session.state.getState();
    act(() => void session.askWhy("two"));
    await act(async () => engine.whys[0]!.answer(whyReport(plan)));
    // Task one alone counts 5 of 10, both together 10 of 20.
    expect(document.querySelector(".why-way")?.textContent).toContain("worth 10 (+5)");
  });

  it("reads what could give before a long conflict, which is folded", async () => {
    const causes = Array.from({ length: 30 }, (_, i): WhyCause => ({
      key: `placement ${i}`,
      kind: "placement",
      subject: "one",
      sentence: `Task ${i} stays.`,
      owner: null,
    }));
    const { conflict } = whyReport(show(<WhyPanel />).session.state.getState().plan);
    await asked({ conflict: { ...conflict!, causes, minimal: false, certainty: "searched" } });
    const order = [...document.querySelectorAll(".why-body section")].map((one) =>
      one.getAttribute("aria-label"),
    );
    expect(order).toEqual(["What could give", "What stands against it"]);
    expect(text()).toContain("Searched, not proved");
    expect(text()).toContain("The list may name more than it takes.");
    const folded = [...document.querySelectorAll("details")].find((one) =>
      one.textContent?.startsWith("Placed tasks: 30"),
    );
    expect(folded?.open).toBe(false);
  });

  it("makes a variant by keyboard alone, keeps the keyboard's place, and leaves the day as it was", async () => {
    const { session, plan } = await asked();
    act(() => button("Try as a variant: EVA 1").focus());
    click(here());
    expect(session.state.getState().plan.schedule).toBe(plan.schedule);
    expect(session.state.getState().plan.variants).toHaveLength(1);
    expect(here().textContent).toBe("Compare");
    press("Escape");
    expect(document.querySelector(".why")).toBeNull();
  });

  it("marks an answer about another day, takes nothing from it, and asks again", async () => {
    const { session, engine } = await asked();
    act(() => session.place("three", { eva: "eva-1", crew: ["ev2"], startS: instant(9000) }));
    expect(text()).toContain("The day has changed since");
    expect(button("Try as a variant").disabled).toBe(true);
    click(button("Ask again"));
    expect(engine.whys[1]!.plan).toBe(session.state.getState().plan);
    expect(text()).not.toContain("The day has changed since");
  });

  it("names every task that moves where it fits after all", async () => {
    const moves = Array.from({ length: 12 }, (_, k) => `Task ${k} starts at 2:00 MET, 5 min later.`);
    const { session } = await asked({
      state: "fits",
      conflict: null,
      sentence: "Task two fits when others start at other times.",
      relaxations: [
        { ...longerEva(show(<WhyPanel />).session.state.getState().plan), kind: "rearrange", moves },
      ],
    });
    expect(text()).toContain("How it fits");
    expect(text()).toContain("12 placed tasks move");
    for (const one of moves) expect(text()).toContain(one);
    expect(text()).not.toContain("Each one alone is enough");
    expect(session.state.getState().why?.end).toBe("answered");
  });

  it("says so when the time was too short to find out", async () => {
    await asked({
      state: "looking",
      conflict: null,
      sentence: "",
      relaxations: [],
      offers: 0,
      stopped: "time",
    });
    expect(text()).toContain("What stands against it was not found out in this time.");
    expect(button("Look longer").disabled).toBe(false);
  });

  it("says when a broken day comes first", async () => {
    await asked({ task: null, state: "rearranged" });
    expect(text()).toContain("The day breaks a rule as it stands. That comes first");
  });

  it("says when nothing that was tried helps", async () => {
    await asked({ relaxations: [] });
    expect(text()).toContain("No single change that was tried makes it fit.");
  });

  it("says nothing of changes where none was tried", async () => {
    await asked({ relaxations: [], tried: 0, offers: 33, stopped: "time" });
    expect(text()).toContain("0 of 33 changes tried, then stopped.");
    expect(text()).not.toContain("makes it fit");
    expect(text()).not.toContain("What could give");
  });
});
