import { createHash } from "node:crypto";
import { describe, expect, it } from "vitest";
import {
  type About,
  fingerprint,
  handedTo,
  parse,
  type Plan,
  sameFrame,
  signedValue,
  type Signoff,
  signoffState,
} from "../../src/plan/index.ts";
import type { Hand } from "../../src/plan/remarks.ts";
import { mergePlans } from "../../src/plan/patch/together.ts";
import { differenceWords, signoffWords } from "../../src/words/index.ts";
import { samplePlan } from "../exchange/samplePlan.ts";

const plan = samplePlan();
const [task, other] = plan.tasks;
if (!task || !other) throw new Error("the sample plan has tasks");
const ofTask: About = { kind: "task", id: task.id };
const ofRule: About = { kind: "rule", id: "walkback" };
const ofPage: About = { kind: "page", id: "day" };

function signed(about: About, by = "B. Surgeon"): Signoff {
  const value = signedValue(plan, about);
  if (value === null) throw new Error("nothing to sign");
  return { id: "s1", about, by, atUtc: "2031-03-31T08:30:00Z", value };
}

const retitled = { ...plan, title: "Another title" };
const renamed = {
  ...plan,
  tasks: plan.tasks.map((one) => (one === task ? { ...one, name: "Other words" } : one)),
};
const faster = { ...plan, rules: { ...plan.rules, walkback: { ...plan.rules.walkback, speedMs: 1.4 } } };

describe("a sign-off", () => {
  it("is of the thing's own canonical JSON: whoever has the plan can work it out", () => {
    // RFC 8785 of one group of rules by hand: names sorted, no blanks.
    const { walkback } = plan.rules;
    const text = `{${Object.entries(walkback)
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([name, value]) => `${JSON.stringify(name)}:${JSON.stringify(value)}`)
      .join(",")}}`;
    expect(signedValue(plan, ofRule)).toBe(createHash("sha256").update(text).digest("hex"));
  });

  it.each([
    ["a task", ofTask, renamed, faster],
    ["a rule", ofRule, faster, renamed],
  ])("of %s is undone by a change of it, and by no other change", (_, about, changed, elsewhere) => {
    const one = signed(about);
    expect(signoffState(plan, one)).toBe("holds");
    expect(signoffState(elsewhere, one)).toBe("holds");
    expect(signoffState(changed, one)).toBe("changed");
    expect(signoffWords(plan, one)).toBe("Signed by B. Surgeon, 31 Mar 2031 08:30 UTC.");
    expect(signoffWords(changed, one)).toBe(
      "Changed since it was signed by B. Surgeon, 31 Mar 2031 08:30 UTC.",
    );
  });

  it("of a page is undone by any change of the plan but what it is called, and what is said of it", () => {
    const one = signed(ofPage);
    const said: Plan = { ...plan, signoffs: [one], revision: { name: "R1", note: "" } };
    expect(signoffState(said, one)).toBe("holds");
    expect(signoffState(retitled, one)).toBe("changed");
    expect(signoffState({ ...plan, schedule: { placements: [] } }, one)).toBe("changed");
    expect(signoffWords(retitled, one)).toContain("The plan has changed since this was signed by");
  });

  it("holds again where the change is taken back, and says of what is gone that it is", () => {
    const one = signed(ofTask);
    const back = {
      ...renamed,
      tasks: renamed.tasks.map((now) => (now.id === task.id ? { ...now, name: task.name } : now)),
    };
    expect(signoffState(back, one)).toBe("holds");
    expect(signoffState({ ...plan, tasks: plan.tasks.filter((now) => now !== task) }, one)).toBe("gone");
  });
});

describe("what is said of a plan", () => {
  const said: Plan = {
    ...plan,
    comments: [
      { id: "c1", about: ofTask, by: "A", atUtc: "2031-03-30T10:00:00Z", text: "Too far?", settled: false },
    ],
    signoffs: [signed(ofRule)],
    hands: handedTo([], "A"),
  };

  it("makes it no other day: fingerprint and frame stay", () => {
    expect(fingerprint(said)).toBe(fingerprint(plan));
    expect(sameFrame(said, plan)).toBe(true);
  });

  it("reads back, is refused with ids used twice or signs that are not seen, and outlives what it is about", () => {
    expect(parse(JSON.parse(JSON.stringify(said)))).toEqual({ ok: true, value: said });
    const [comment] = said.comments;
    expect(parse({ ...said, comments: [comment, comment] }).ok).toBe(false);
    expect(parse({ ...said, comments: [{ ...comment, by: "A\u202eB" }] }).ok).toBe(false);
    expect(parse({ ...said, signoffs: [{ ...said.signoffs[0], value: "b445" }] }).ok).toBe(false);
    const without = parse({ ...said, tasks: [], links: [], schedule: { placements: [] } });
    expect(without.ok && without.value.comments).toHaveLength(1);
  });

  it("is told in the words of a difference, by whom and of what; whose hands it was in is no difference", () => {
    const lines = differenceWords(plan, said).map(({ about, sentence }) => `${about}: ${sentence}`);
    expect(lines.toSorted()).toEqual([
      "Rule walkback: Sign-off by B. Surgeon is new.",
      `Task ${task.number} ${task.name}: Comment by A is new: “Too far?”.`,
    ]);
    const settled = { ...said, comments: said.comments.map((one) => ({ ...one, settled: true })) };
    expect(differenceWords(said, settled).map(({ sentence }) => sentence)).toEqual([
      "Comment by A, Settled: no to yes.",
    ]);
  });

  it("of two hands comes together whole, though one of them took the task out", () => {
    const mine: Plan = { ...said, hands: handedTo(plan.hands, "A") };
    const theirs: Plan = {
      ...plan,
      tasks: plan.tasks.filter((one) => one !== task),
      links: [],
      schedule: { placements: plan.schedule.placements.filter((one) => one.task !== task.id) },
      comments: [
        {
          id: "c2",
          about: ofRule,
          by: "B",
          atUtc: "2031-03-30T11:00:00Z",
          text: "Why so slow?",
          settled: false,
        },
      ],
      hands: handedTo(plan.hands, "B"),
    };
    const { plan: merged, clashes } = mergePlans(plan, mine, theirs);
    expect(clashes).toEqual([]);
    expect(merged.comments.map(({ id }) => id).toSorted()).toEqual(["c1", "c2"]);
    expect(merged.signoffs).toEqual(said.signoffs);
    expect(merged.hands.map(({ name }) => name).toSorted()).toEqual(["A", "B"]);
  });
});

describe("hands", () => {
  it("are each there once, the last of them last", () => {
    const names = (hands: readonly Hand[]) => hands.map(({ name }) => name);
    const both = handedTo(handedTo([], "A"), "B");
    expect(names(both)).toEqual(["A", "B"]);
    expect(names(handedTo(both, "A"))).toEqual(["B", "A"]);
  });
});
