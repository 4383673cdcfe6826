// @vitest-environment jsdom
import { act } from "react";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { instant } from "../../../src/kernel/index.ts";
import { PRESENT } from "../../../src/session/index.ts";
import { minuteShown } from "../../../src/screens/odds/chances.tsx";
import { OddsPart } from "../../../src/screens/odds/oddspart.tsx";
import { oddsReport } from "../../session/answers.ts";
import { button, click, setStage, show } from "../setup/stage.tsx";

setStage();
beforeEach(() => {
  vi.useFakeTimers({ toFake: ["setTimeout", "clearTimeout", "performance"] });
  Object.assign(globalThis, {
    ResizeObserver: class {
      observe(): void {}
      disconnect(): void {}
    },
  });
});
afterEach(() => vi.useRealTimers());

const text = () => document.body.textContent ?? "";
const older = () => document.querySelector(".odds-report.older");
const rest = () => act(() => void vi.advanceTimersByTime(1000));
const elsewhere = (startS: number) => ({ eva: "eva-1", crew: ["ev2"], startS: instant(startS) });

/** The screen with the odds of the day answered. */
async function answered() {
  const stage = show(<OddsPart />);
  await act(async () => stage.engine.oddses[0]!.answer(oddsReport({ days: 2000, seed: 1 })));
  return stage;
}

describe("the moment by which an EVA closes", () => {
  it("is the whole minute after it, and to the second where only that keeps the limit which it keeps", () => {
    expect(minuteShown(27_781, 28_200)).toBe(27_840);
    // Limit 7:50:24: 7:50:10 is inside it, and 7:51 would not be.
    expect(minuteShown(28_209.2, 28_224)).toBe(28_210);
    expect(minuteShown(28_223.5, 28_224)).toBe(28_224);
    expect(minuteShown(28_225, 28_224)).toBe(28_260);
    expect(minuteShown(28_200, 28_200)).toBe(28_200);
  });
});

describe("the odds, when they are looked at", () => {
  it("are worked out without being asked for, and told once", async () => {
    const { session, engine } = await answered();
    expect(engine.oddses).toHaveLength(1);
    expect(text()).toContain("Of the day as it stands.");
    // Beside the chances, and not at the foot of the page.
    const spread = text().indexOf("1 of 1 placed task has no low and high duration");
    expect(spread).toBeGreaterThan(0);
    expect(spread).toBeLessThan(text().indexOf("What hurts the odds most"));
    expect(older()).toBeNull();
    rest();
    expect(engine.oddses).toHaveLength(1);
    expect(session.state.getState().odds.get(PRESENT)).toMatchObject({ end: "answered" });
    expect(button("Work out the odds").className).not.toContain("primary");
  });

  it("show no figure where no day can be played, and are not worked out over and over", async () => {
    const { engine } = show(<OddsPart />);
    await act(async () => engine.oddses[0]!.answer(oddsReport({ days: 0, unplayed: ["one"] })));
    expect(text()).toContain("No simulated day can play");
    expect(document.querySelector(".odds-report")).toBeNull();
    rest();
    expect(engine.oddses).toHaveLength(1);
  });

  it("stand once all days are played, and say what is not known yet, or was never worked out", () => {
    const { session, engine } = show(<OddsPart />);
    const report = oddsReport({ days: 2000, seed: 1, pending: ["otherwise", "offers", "sensitivities"] });
    act(() => engine.oddses[0]!.report({ seconds: 0.4, days: 2000, of: 2000, report }));
    expect(text()).toContain("90.0 %");
    expect(text()).toContain("Of the day as it stands, more being worked out…");
    expect(text().match(/Being worked out…/g)).toHaveLength(3);
    expect(text()).not.toContain("No task’s spread costs a day.");
    act(() => session.stopOdds());
    expect(text().match(/Not worked out: stopped before\./g)).toHaveLength(3);
    expect(text()).toContain("Of the day as it stands.");
  });

  it("follow the plan once it rests; the figures before stay, marked, until then", async () => {
    const { session, engine } = await answered();
    for (const startS of [9000, 9300, 9600]) act(() => session.place("two", elsewhere(startS)));
    expect(older()).not.toBeNull();
    expect(text()).toContain("Of the day before");
    expect(text()).toContain("90.0 %");
    rest();
    const asked = engine.oddses.slice(1).filter((one) => !one.cancelled());
    expect(asked).toHaveLength(1);
    expect(asked[0]!.plan).toBe(session.state.getState().plan);
    expect(older()).not.toBeNull();
    await act(async () => asked[0]!.answer(oddsReport({ days: 2000, seed: 1 })));
    expect(older()).toBeNull();
    expect(text()).toContain("Of the day as it stands.");
  });

  it("wait while the packer is at work", async () => {
    const { session, engine } = await answered();
    act(() => session.place("two", elsewhere(9000)));
    act(() => void session.pack({ seed: 1, seconds: 5 }));
    const asked = engine.oddses.length;
    act(() => session.stopOdds());
    act(() => session.place("two", elsewhere(9300)));
    act(() => void session.pack({ seed: 1, seconds: 5 }));
    rest();
    expect(engine.oddses).toHaveLength(asked);
    expect(text()).toContain("until the packer rests");
    act(() => session.stopPack("leave"));
    rest();
    expect(engine.oddses).toHaveLength(asked + 1);
  });

  it("that have failed are left alone until the day is another one or the planner asks", async () => {
    const { session, engine } = show(<OddsPart />);
    await act(async () => engine.oddses[0]!.fail("too large"));
    rest();
    rest();
    expect(engine.oddses).toHaveLength(1);
    expect(text()).toContain("could not be worked out: too large");
    click(button("Work out the odds"));
    expect(engine.oddses).toHaveLength(2);
    await act(async () => engine.oddses[1]!.fail("too large"));
    rest();
    expect(engine.oddses).toHaveLength(2);
    act(() => session.place("two", elsewhere(9000)));
    rest();
    expect(engine.oddses).toHaveLength(3);
  });

  it("are not asked of a day on which nothing is placed", () => {
    const { engine } = show(<OddsPart />, (session) => session.bench(["one"]));
    rest();
    expect(engine.oddses).toEqual([]);
    expect(text()).toContain("Nothing is placed");
    expect(button("Work out the odds").disabled).toBe(true);
  });

  it("offer other settings by the button, and keep them", async () => {
    const { session, engine } = await answered();
    const spread = [...document.querySelectorAll("select")].at(-1)!;
    act(() => {
      spread.value = "triangular";
      spread.dispatchEvent(new Event("change", { bubbles: true }));
    });
    rest();
    expect(engine.oddses).toHaveLength(1);
    expect(button("Work out the odds").className).toContain("primary");
    click(button("Work out the odds"));
    expect(session.state.getState().odds.get(PRESENT)!.options).toMatchObject({ shape: "triangular" });
    expect(text()).toContain("90.0 %");
  });

  it("have chances that say from what they come", async () => {
    await answered();
    const chance = [...document.querySelectorAll<HTMLElement>(".from-figure")].find((one) =>
      one.textContent?.startsWith("90.0 %"),
    )!;
    const box = document.getElementById(chance.getAttribute("popovertarget")!)!;
    act(() => {
      const event = new Event("toggle");
      Object.assign(event, { newState: "open" });
      box.dispatchEvent(event);
    });
    expect(box.textContent).toContain("happened / days * 100");
    expect(box.textContent).toContain("Wilson");
    expect(box.textContent).toContain("seed 1");
  });
});
