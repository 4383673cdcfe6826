// @vitest-environment jsdom
import { act } from "react";
import { describe, expect, it } from "vitest";
import { DayContext } from "../../../src/screens/day/context.ts";
import { OpenRemarks } from "../../../src/screens/findings/openremarks.tsx";
import { planOf, smallInput } from "../../session/bench.ts";
import { click, setStage, show } from "../setup/stage.tsx";

setStage();

const part = () => document.querySelector(".open-said");

function shown() {
  return show(
    <DayContext value={{ gesture: null as never, windows: { reveal: () => undefined } as never }}>
      <OpenRemarks />
    </DayContext>,
    (session) => {
      session.open(JSON.stringify(planOf(smallInput)));
      session.setAuthor("Ada");
    },
  );
}

describe("what was said of a plan and is not done with", () => {
  it("is counted: open comments, and sign-offs that a later change has undone, each with the way to it", () => {
    const { session, view } = shown();
    expect(part()).toBeNull();
    act(() => {
      session.comment({ kind: "task", id: "two" }, "Is one bag enough?");
      session.sign({ kind: "task", id: "one" });
      session.sign({ kind: "rule", id: "walking" });
    });
    expect(part()?.querySelector("summary")?.textContent).toBe("1 comment open");
    act(() => {
      session.edit("Rename", ({ tasks }) => ({
        tasks: tasks.map((task) => (task.id === "one" ? { ...task, name: "Another" } : task)),
      }));
    });
    expect(part()?.querySelector("summary")?.textContent).toBe(
      "1 comment open, 1 sign-off undone by a change",
    );
    const rows = [...part()!.querySelectorAll<HTMLElement>(".rule-row")];
    expect(rows.map((row) => row.querySelector("b")?.textContent)).toEqual([
      "task 2 Task two",
      "task 1 Another",
    ]);
    click(rows[0]!);
    expect(session.state.getState().selection).toEqual(["two"]);
    expect(view.getState().spoken).toBe("Ada: Is one bag enough?");
    // Taken back, the change undoes the sign-off no longer; and a settled comment is done with.
    act(() => {
      session.undo();
      session.settle(session.state.getState().plan.comments[0]!, true);
    });
    expect(part()).toBeNull();
  });
});
