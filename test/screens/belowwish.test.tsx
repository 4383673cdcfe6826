// @vitest-environment jsdom
import { act } from "react";
import { afterEach, describe, expect, it, vi } from "vitest";
import { MANY_DAYS } from "../../src/session/index.ts";
import { DayContext } from "../../src/screens/day/context.ts";
import { BelowWish } from "../../src/screens/findings/belowwish.tsx";
import { chanceOf } from "../../src/solver/simulate/chance.ts";
import { chancesReport } from "../session/answers.ts";
import { click, setStage, show } from "./setup/stage.tsx";

setStage();
afterEach(() => vi.unstubAllGlobals());

const list = () => document.querySelector('[aria-label="Below the wish"]');

/** The list with an answer: must-do task one done on so many of 2,000 days, with must-do tasks on the bench. */
async function answered(done: number, mustOnBench: readonly string[] = []) {
  const stage = show(
    <DayContext value={{ gesture: null as never, windows: { reveal: () => undefined } as never }}>
      <BelowWish />
    </DayContext>,
    (session) => void session.watchChances(),
  );
  const tasks = [
    { task: "one", must: true, done: chanceOf(done, MANY_DAYS), reason: "its window was over", slackS: 60 },
  ];
  const all = chanceOf(2000, MANY_DAYS);
  await act(async () =>
    stage.engine.glances[0]!.answer(
      chancesReport({ days: MANY_DAYS, home: all, must: chanceOf(done, MANY_DAYS), tasks, mustOnBench }),
    ),
  );
  return stage;
}

describe("what the simulated days find", () => {
  it("names the chance below its wish, then each must-do task that is, with its reason", async () => {
    const { session } = await answered(1601);
    const rows = [...list()!.querySelectorAll(".rule-row")];
    expect(rows.map((row) => [...row.children].map((one) => one.textContent))).toEqual([
      ["!", "Every must-do task done", "below the wish of 90 %", "80 % of days"],
      ["!", "1 Task one", "below the wish of 90 %, mostly because its window was over", "80 % of days"],
    ]);
    click(list()!.querySelector<HTMLElement>("button")!);
    expect(session.state.getState().selection).toEqual(["one"]);
  });

  it("has something to read where the window is low, also while must-do work is on the bench", async () => {
    vi.stubGlobal("matchMedia", () => ({
      matches: true,
      addEventListener: () => undefined,
      removeEventListener: () => undefined,
    }));
    await answered(1601, ["two"]);
    expect(list()!.querySelectorAll(".rule-row")).toHaveLength(1);
    expect(list()!.textContent).toContain("1 Task one");
  });

  it("says nothing where every wish is met", async () => {
    await answered(1950);
    expect(list()).toBeNull();
  });
});
