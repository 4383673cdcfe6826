// @vitest-environment jsdom
import { act } from "react";
import { describe, expect, it } from "vitest";
import type { WordedChange } from "../../../src/words/index.ts";
import { check } from "../../../src/check/index.ts";
import { Mended } from "../../../src/screens/mended/mended.tsx";
import { MANY_DAYS } from "../../../src/session/index.ts";
import { chanceOf } from "../../../src/solver/simulate/chance.ts";
import { chancesReport } from "../../session/answers.ts";
import { scheduleWith } from "../../session/bench.ts";
import { button, click, setStage, show } from "../setup/stage.tsx";

setStage();

const change = (name: string, must: boolean, kind: WordedChange["kind"], worth: number): WordedChange => ({
  task: name,
  name: `Task ${name}`,
  must,
  worth,
  kind,
  sentence: `Task ${name} ${kind}.`,
});

async function mended(changes: readonly WordedChange[]) {
  const stage = show(<Mended />);
  const { session, engine } = stage;
  const { plan } = session.state.getState();
  const schedule = scheduleWith(plan, "one", 9000);
  act(() => void session.mend({ seed: 1, seconds: 1 }));
  await act(async () => engine.mends[0]!.answer({ schedule, verdict: check(plan, schedule), changes }));
  return stage;
}

const states = (): string[] =>
  [...document.querySelectorAll(".changes-dropped .state")].map(
    (one) => `${one.className}: ${one.textContent}`,
  );

describe("what a mend made of the day", () => {
  it("tells what drops, must-do first and as a breach, counted and every one named; and all that moves", async () => {
    const moved = Array.from({ length: 25 }, (_, k) => change(`m${k}`, false, "moved", 1));
    await mended([
      change("a", true, "dropped", 5),
      change("b", true, "dropped", 3),
      change("c", false, "dropped", 40),
      change("d", false, "dropped", 2),
      ...moved,
    ]);
    // By number and name: what has no number is known by its id.
    expect(states()).toEqual([
      "state breach: 2 must-do tasks dropped: a Task a, b Task b.",
      "state tight: 2 optional tasks dropped, worth 42: c Task c, d Task d.",
    ]);
    expect(document.querySelectorAll(".mended-tasks li")).toHaveLength(25);
    expect(document.body.textContent).toContain("25 other tasks change");
    expect(document.querySelector(".mended .beside-body")?.getAttribute("tabindex")).toBe("0");
  });

  it("says when nothing is dropped, and is taken back with one press", async () => {
    const { session } = await mended([change("one", false, "moved", 10)]);
    expect(states()).toEqual(["state fine: No task is dropped."]);
    const before = session.state.getState().plan.schedule;
    click(button("Take the mend back"));
    expect(session.state.getState().plan.schedule).not.toBe(before);
    expect(document.querySelector(".mended")).toBeNull();
  });

  it("goes with its step, though the day from before the move that broke it is the same as the mended one", async () => {
    const stage = show(<Mended />);
    const { session, engine } = stage;
    const { plan } = session.state.getState();
    const broken = scheduleWith(plan, "one", 9000);
    act(() => session.reschedule("Move one", broken));
    act(() => void session.mend({ seed: 1, seconds: 1 }));
    await act(async () =>
      engine.mends[0]!.answer({
        schedule: plan.schedule,
        verdict: check(plan, plan.schedule),
        changes: [change("one", false, "moved", 10)],
      }),
    );
    expect(document.querySelector(".mended")).not.toBeNull();
    act(() => void session.undo());
    expect(document.querySelector(".mended")).toBeNull();
    act(() => void session.undo());
    expect(session.state.getState().plan.schedule).toEqual(plan.schedule);
    expect(document.querySelector(".mended")).toBeNull();
  });

  it("is taken back by its button only while it is the last step", async () => {
    const { session } = await mended([change("one", false, "moved", 10)]);
    act(() => void session.edit("Rename", () => ({ title: "Another title" })));
    expect(document.querySelector(".mended")).not.toBeNull();
    expect(document.body.textContent).not.toContain("Take the mend back");
    act(() => void session.undo());
    expect(document.body.textContent).toContain("Take the mend back");
  });

  it("tells the chances that the score tells, as soon as they are there, and has nothing counted twice", async () => {
    const { session, engine } = await mended([change("one", false, "moved", 10)]);
    const said = () => document.querySelector(".mended .day-chance")!.textContent;
    expect(said()).toBe("everybody home being worked out…");
    const home = chanceOf(1940, MANY_DAYS);
    const { schedule } = session.state.getState().plan;
    expect(engine.glances).toHaveLength(1);
    await act(async () => engine.glances[0]!.answer(chancesReport({ days: MANY_DAYS, home })));
    expect(session.state.getState().chances!.schedule).toBe(schedule);
    expect(said()).toContain("everybody home 97 %");
    expect(engine.glances).toHaveLength(1);
  });

  it("goes when it is put away, when the day changes, and gives way to a question why", async () => {
    const { session } = await mended([change("one", false, "moved", 10)]);
    act(() => void session.askWhy(null));
    expect(document.querySelector(".mended")).toBeNull();
    act(() => session.closeWhy());
    expect(document.querySelector(".mended")).not.toBeNull();
    click(button("Close what was mended"));
    expect(document.querySelector(".mended")).toBeNull();
    expect(session.state.getState().run).toBeNull();
  });
});
