// @vitest-environment jsdom
import { act } from "react";
import { describe, expect, it, vi } from "vitest";
import type { FromAnswer } from "../../../src/answers/index.ts";
import type { Plan, Schedule } from "../../../src/plan/index.ts";
import { From } from "../../../src/screens/parts/from/from.tsx";
import { button, click, setStage, show } from "../setup/stage.tsx";

setStage();

interface Asked {
  readonly schedule: Schedule;
  answer(answer: FromAnswer | null): Promise<void>;
  fail(): Promise<void>;
}

/** The worth of the day with its box open, and what the engine is asked of it. */
function opened() {
  const asked: Asked[] = [];
  const stage = show(
    <From of="worth" request={{ what: "worth" }}>
      10
    </From>,
    (_session, engine) =>
      Object.assign(engine, {
        fromWhat: (_plan: Plan, { schedule }: { schedule: Schedule }) =>
          new Promise<FromAnswer | null>((resolve, reject) =>
            asked.push({
              schedule,
              answer: (answer) => act(async () => resolve(answer)),
              fail: () => act(async () => reject(new Error("the worker is gone"))),
            }),
          ),
      }),
  );
  // The test document opens no boxes by itself.
  box().hidePopover = () => toggle("closed");
  toggle("open");
  return { ...stage, asked };
}

const box = (): HTMLElement => document.querySelector<HTMLElement>(".from")!;

function toggle(newState: "open" | "closed"): void {
  act(() => void box().dispatchEvent(Object.assign(new Event("toggle"), { newState })));
}

const says = (words: string): FromAnswer => ({ says: words, figures: [], sums: null });

describe("from what a figure comes, while its box is open", () => {
  it("is asked again when the day changes underneath it, and never shows what is of a day before as of this one", async () => {
    vi.useFakeTimers();
    try {
      const { session, asked } = opened();
      await asked[0]!.answer(says("ten, of one task"));
      expect(box().textContent).toBe("ten, of one task");

      act(() => session.bench(["one"]));
      expect(box().textContent).toContain("The day has changed");
      act(() => void vi.advanceTimersByTime(1000));
      expect(asked.map(({ schedule }) => schedule.placements.length)).toEqual([1, 0]);
      await asked[1]!.answer(says("nothing, of no task"));
      expect(box().textContent).toBe("nothing, of no task");
    } finally {
      vi.useRealTimers();
    }
  });

  it("heeds no answer that comes late for a day before", async () => {
    vi.useFakeTimers();
    try {
      const { session, asked } = opened();
      act(() => session.bench(["one"]));
      act(() => void vi.advanceTimersByTime(1000));
      await asked[1]!.answer(says("of no task"));
      await asked[0]!.answer(says("of one task"));
      expect(box().textContent).toBe("of no task");
    } finally {
      vi.useRealTimers();
    }
  });

  it("tells a figure that is gone from one that could not be worked out, which is asked again by a press", async () => {
    const { asked } = opened();
    await asked[0]!.fail();
    expect(box().textContent).toContain("could not be worked out");
    expect(box().textContent).not.toContain("any more");
    click(button("Try again"));
    await asked[1]!.answer(null);
    expect(box().textContent).toBe("The day has no such figure any more.");
  });

  it("is closed by Escape, which nobody else hears", () => {
    opened();
    const heard = vi.fn();
    window.addEventListener("keydown", heard);
    document.body.dispatchEvent(new KeyboardEvent("keydown", { key: "Escape", bubbles: true }));
    expect(box().textContent).toBe("");
    expect(heard).not.toHaveBeenCalled();
    document.body.dispatchEvent(new KeyboardEvent("keydown", { key: "Escape", bubbles: true }));
    expect(heard).toHaveBeenCalledTimes(1);
    window.removeEventListener("keydown", heard);
  });
});
