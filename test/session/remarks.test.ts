import { describe, expect, it } from "vitest";
import { signoffState } from "../../src/plan/index.ts";
import { sessionWith } from "./bench.ts";

const RULE = { kind: "rule", id: "walkback" } as const;

describe("what is said at the desk", () => {
  it("goes under the name that was given, as steps that can be taken back", () => {
    const { session } = sessionWith();
    const plan = () => session.state.getState().plan;
    expect(session.comment(RULE, "Too fast?").ok).toBe(false);
    session.setAuthor("  A. Planner ");
    expect(session.comment(RULE, "  Too fast? ").ok).toBe(true);
    expect(plan().comments.map(({ by, text, settled }) => [by, text, settled])).toEqual([
      ["A. Planner", "Too fast?", false],
    ]);
    const [comment] = plan().comments;
    if (!comment) throw new Error("no comment");
    session.settle(comment, true);
    expect(plan().comments[0]?.settled).toBe(true);
    expect(session.undo()).toBe("Settle a comment");
    session.takeCommentOut(comment);
    expect(plan().comments).toEqual([]);
  });

  it("signs a thing once under a name; a later change undoes it, signing again makes it hold", () => {
    const { session } = sessionWith();
    const plan = () => session.state.getState().plan;
    const states = () => plan().signoffs.map((one) => [one.by, signoffState(plan(), one)]);
    session.setAuthor("A");
    session.sign(RULE);
    session.setAuthor("B");
    session.sign(RULE);
    expect(states()).toEqual([
      ["A", "holds"],
      ["B", "holds"],
    ]);
    session.edit("Faster", ({ rules }) => ({
      rules: { ...rules, walkback: { ...rules.walkback, speedMs: 1.3 } },
    }));
    expect(states()).toEqual([
      ["A", "changed"],
      ["B", "changed"],
    ]);
    session.sign(RULE);
    expect(states()).toEqual([
      ["A", "changed"],
      ["B", "holds"],
    ]);
    session.withdraw(plan().signoffs[0]?.id ?? "");
    expect(states()).toEqual([["B", "holds"]]);
  });

  it("remembers the name where the browser keeps one", () => {
    let kept = "Remembered";
    const { session } = sessionWith({ author: { get: () => kept, set: (name: string) => (kept = name) } });
    expect(session.state.getState().author).toBe("Remembered");
    session.setAuthor("Another");
    expect(kept).toBe("Another");
  });

  it("notes whose hands a file comes from, once, and nothing where nobody gave a name", () => {
    const { session } = sessionWith();
    const before = session.saveText();
    session.noteHand();
    expect(session.saveText()).toBe(before);
    session.setAuthor("A");
    session.noteHand();
    const text = session.saveText();
    expect(session.state.getState().plan.hands.map(({ name }) => name)).toEqual(["A"]);
    session.noteHand();
    expect(session.saveText()).toBe(text);
  });
});
