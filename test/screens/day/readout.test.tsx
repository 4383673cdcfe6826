// @vitest-environment jsdom
import { act } from "react";
import { describe, expect, it, vi } from "vitest";
import { shortFingerprint } from "../../../src/plan/index.ts";
import { Readout } from "../../../src/screens/day/readout.tsx";
import { FEW_DAYS } from "../../../src/session/chances.ts";
import { chancesReport } from "../../session/answers.ts";
import { setStage, show } from "../setup/stage.tsx";

setStage();

const foot = (): string => document.querySelector(".readout")?.textContent ?? "";

describe("the line at the foot of the day", () => {
  it("says by what the plan is known, as its pages do, and never that of a plan before", () => {
    vi.useFakeTimers();
    try {
      const { session } = show(<Readout />);
      const known = (): string => `Plan ${shortFingerprint(session.state.getState().plan)}`;
      const before = known();
      expect(foot()).toContain(before);

      act(() => session.bench(["one"]));
      expect(known()).not.toBe(before);
      expect(foot()).not.toContain(before);
      act(() => void vi.advanceTimersByTime(2000));
      expect(foot()).toContain(known());
    } finally {
      vi.useRealTimers();
    }
  });

  it("says of a slack what it is reckoned by: consumables are not in it", async () => {
    const { session, engine } = show(<Readout />, (one) => one.select(["one"]));
    const stop = session.watchChances();
    await act(async () => engine.glances[0]!.answer(chancesReport({ days: FEW_DAYS })));
    expect(foot()).toContain("slack 10 min by times alone");
    stop();
  });

  it("leaves it out where a great many measured heights would have to be read through for it", () => {
    show(<Readout />, (session) => {
      const rows = 210;
      const row = Array.from({ length: rows }, () => "0").join(" ");
      const ground = {
        ...{ type: "grid", westM: -1000, southM: -1000, cellM: 10, columns: rows, rows },
        heights: Array.from({ length: rows }, () => row),
      };
      session.open(JSON.stringify({ ...session.state.getState().plan, ground }));
      expect(session.state.getState().plan.ground?.type).toBe("grid");
    });
    expect(foot()).toContain("Nothing");
    expect(foot()).not.toContain("Plan ");
  });
});
