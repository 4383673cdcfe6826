import { describe, expect, it } from "vitest";
import { signoffState } from "../../src/plan/index.ts";
import { deskWith } from "./bench.ts";

const RULE = { kind: "rule", id: "walkback" } as const;

describe("what is said at the desk", () => {
  it("goes under the name that was given, as steps that can be taken back", () => {
    const { desk } = deskWith();
    const plan = () => desk.state.getState().plan;
    expect(desk.comment(RULE, "Too fast?").ok).toBe(false);
    desk.setAuthor("  A. Planner ");
    expect(desk.comment(RULE, "  Too fast? ").ok).toBe(true);
    expect(plan().comments.map(({ by, text, settled }) => [by, text, settled])).toEqual([
      ["A. Planner", "Too fast?", false],
    ]);
    const [comment] = plan().comments;
    if (!comment) throw new Error("no comment");
    desk.settle(comment, true);
    expect(plan().comments[0]?.settled).toBe(true);
    expect(desk.undo()).toBe("Settle a comment");
    desk.takeCommentOut(comment);
    expect(plan().comments).toEqual([]);
  });

  it("signs a thing once under a name; a later change undoes it, signing again makes it hold", () => {
    const { desk } = deskWith();
    const plan = () => desk.state.getState().plan;
    const states = () => plan().signoffs.map((one) => [one.by, signoffState(plan(), one)]);
    desk.setAuthor("A");
    desk.sign(RULE);
    desk.setAuthor("B");
    desk.sign(RULE);
    expect(states()).toEqual([
      ["A", "holds"],
      ["B", "holds"],
    ]);
    desk.edit("Faster", ({ rules }) => ({
      rules: { ...rules, walkback: { ...rules.walkback, speedMs: 1.3 } },
    }));
    expect(states()).toEqual([
      ["A", "changed"],
      ["B", "changed"],
    ]);
    desk.sign(RULE);
    expect(states()).toEqual([
      ["A", "changed"],
      ["B", "holds"],
    ]);
    desk.withdraw(plan().signoffs[0]?.id ?? "");
    expect(states()).toEqual([["B", "holds"]]);
  });

  it("remembers the name where the browser keeps one", () => {
    let kept = "Remembered";
    const { desk } = deskWith({ author: { get: () => kept, set: (name: string) => (kept = name) } });
    expect(desk.state.getState().author).toBe("Remembered");
    desk.setAuthor("Another");
    expect(kept).toBe("Another");
  });

  it("notes whose hands a file comes from, once, and nothing where nobody gave a name", () => {
    const { desk } = deskWith();
    const before = desk.saveText();
    desk.noteHand();
    expect(desk.saveText()).toBe(before);
    desk.setAuthor("A");
    desk.noteHand();
    const text = desk.saveText();
    expect(desk.state.getState().plan.hands.map(({ name }) => name)).toEqual(["A"]);
    desk.noteHand();
    expect(desk.saveText()).toBe(text);
  });
});
