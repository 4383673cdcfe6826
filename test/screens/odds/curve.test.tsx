// @vitest-environment jsdom
import { act } from "react";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import type { CurveReport, PackProgress, WishedDay } from "../../../src/answers/index.ts";
import { Curve } from "../../../src/screens/odds/curve.tsx";
import { chanceOf } from "../../../src/solver/simulate/chance.ts";
import { type Call, scheduleWith } from "../../session/bench.ts";
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

const rows = () =>
  [...document.querySelectorAll("tbody tr")].map((row) => row.querySelector("th")!.textContent);

describe("the curve on the screen", () => {
  it("is worked out when it is looked at; a day found for two wishes stands once; each can be taken", async () => {
    const curves: Call<CurveReport, PackProgress>[] = [];
    const { session } = show(<Curve />, (_, engine) => {
      engine.curve = ((plan: never, _given: never, hearing: never) =>
        engine.call(curves, plan, hearing)) as never;
    });
    act(() => void vi.advanceTimersByTime(1500));
    expect(curves).toHaveLength(1);
    const { plan, verdict } = session.state.getState();
    const day = (must: number, startS: number, done: number): WishedDay => ({
      schedule: scheduleWith(plan, "two", startS),
      caution: 0.5,
      wish: { home: 0.99, must },
      outcome: { home: chanceOf(4000, 4000), must: chanceOf(done, 4000), meanWorth: 18.7 },
      days: 4000,
      meets: done >= must * 4000,
      verdict,
    });
    const days = [day(0.8, 9000, 3700), day(0.9, 9000, 3700), day(0.95, 9600, 3800), day(0.99, 9300, 3900)];
    await act(async () => curves[0]!.answer({ days, seconds: 1, iterations: 1, tried: 1 }));
    expect(rows()).toEqual(["80 %, 90 %the wish", "95 %", "99 %"]);
    const [sure, perhaps, short] = [...document.querySelectorAll("tbody tr")].map((one) => one.textContent);
    expect(sure).not.toContain("reached");
    // 95 % counted of 4,000 days is as likely below 95 % as above.
    expect(perhaps).toContain("may not be reached");
    expect(short).not.toContain("may not");
    // 97.5 % counted is not the 99 % asked for, and said.
    expect(document.body.textContent).toContain("not reached");
    click(button("Take it as the day: must-do 99 %, worth 18"));
    expect(session.state.getState().plan.schedule).toEqual(days[3]!.schedule);
    expect(session.state.getState().plan.odds.crew.caution).toBe(0.5);
  });

  it("says of a day that stands for several chances which of them it does not reach", async () => {
    const curves: Call<CurveReport, PackProgress>[] = [];
    const { session } = show(<Curve />, (_, engine) => {
      engine.curve = ((plan: never, _given: never, hearing: never) =>
        engine.call(curves, plan, hearing)) as never;
    });
    act(() => void vi.advanceTimersByTime(1500));
    const { plan, verdict } = session.state.getState();
    const schedule = scheduleWith(plan, "two", 9000);
    // 92 % of 4,000 days: sure to be 80 %, perhaps 92 %, and not 95 %.
    const days = [0.8, 0.92, 0.95].map((must): WishedDay => ({
      schedule,
      caution: 0.5,
      wish: { home: 0.99, must },
      outcome: { home: chanceOf(4000, 4000), must: chanceOf(3680, 4000), meanWorth: 18.7 },
      days: 4000,
      meets: 3680 >= must * 4000,
      verdict,
    }));
    await act(async () => curves[0]!.answer({ days, seconds: 1, iterations: 1, tried: 1 }));
    const [row] = [...document.querySelectorAll("tbody tr")];
    expect(row!.querySelector(".state")!.textContent).toBe("92 % may not be reached; 95 % not reached");
  });
});
