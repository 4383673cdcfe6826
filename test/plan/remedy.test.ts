import { describe, expect, it } from "vitest";
import { duration } from "../../src/kernel/index.ts";
import { mergeTasks, parse, type Plan, remediesAfter, remedyHost, splitTask } from "../../src/plan/index.ts";
import { removalOf } from "../../src/session/index.ts";
import { task, type TaskInput, tinyPlan } from "../check/tinyPlan.ts";

/** Common practice, no source: a command that may fail, and a switch beside the unit. */
type MishapInput = NonNullable<TaskInput["mishap"]>;

const byHand = (more: object = {}, spoils = true): MishapInput => ({
  what: "no answer",
  chance: 0.3,
  spoils,
  remedy: { name: "Switch on by hand", duration: { likelyS: 300 }, ...more },
});

const made = (mishap: MishapInput, crew = 1): Plan =>
  tinyPlan({
    tasks: [task("unit", crew === 0 ? null : "a", { mishap }), task("look", "a"), task("ground", null)],
  });

/** The faults of a plan made by hand, which the door would not let in. */
function faults(mishap: MishapInput, crew = 1): string[] {
  const sound = made({ what: "no answer", chance: 0.3 }, crew);
  const spoilt = {
    ...sound,
    tasks: sound.tasks.map((one) => (one.id === "unit" ? { ...one, mishap } : one)),
  };
  const read = parse(JSON.parse(JSON.stringify(spoilt)));
  return read.ok ? [] : read.error.map(({ path }) => path);
}

describe("S19: what makes good what went wrong", () => {
  it("hangs on the task itself, or on another one that it names", () => {
    const own = made(byHand());
    expect(remedyHost(own.tasks[0]!)).toBe("unit");
    expect(remediesAfter(own, "unit").map(({ what }) => what)).toEqual(["no answer"]);
    const other = made(byHand({ after: "look" }));
    expect(remedyHost(other.tasks[0]!)).toBe("look");
    expect(remediesAfter(other, "unit")).toEqual([]);
    expect(remediesAfter(other, "look").map(({ of }) => of.id)).toEqual(["unit"]);
  });

  it("is refused where the task is unknown, nobody is at work, nothing is lost, or durations are out of order", () => {
    expect(faults(byHand())).toEqual([]);
    expect(faults(byHand({ after: "nowhere" }))).toEqual(["tasks.0.mishap.remedy.after"]);
    expect(faults(byHand({ after: "ground" }))).toEqual(["tasks.0.mishap.remedy.after"]);
    expect(faults(byHand(), 0)).toEqual(["tasks.0.mishap.remedy.after"]);
    expect(faults(byHand({ after: "look" }), 0)).toEqual([]);
    expect(faults(byHand({}, false))).toEqual(["tasks.0.mishap.remedy"]);
    expect(faults(byHand({ duration: { likelyS: 300, lowS: 301 } }))).toEqual([
      "tasks.0.mishap.remedy.duration",
    ]);
  });

  it("goes with the end of the task that it hangs on when that is split, and comes back when it is one again", () => {
    const plan = made(byHand({ after: "look" }));
    const split = splitTask(plan, "look", 300);
    if (!split.ok) throw new Error(split.error);
    const parted: Plan = { ...plan, ...split.value.parts };
    expect(remedyHost(parted.tasks[0]!)).toBe(split.value.tasks[1]);
    const merged = mergeTasks(parted, ...split.value.tasks);
    if (!merged.ok) throw new Error(merged.error);
    expect(remedyHost({ ...parted, ...merged.value.parts }.tasks[0]!)).toBe("look");
  });

  it("goes when the task that it hangs on goes, which is said", () => {
    const plan = made(byHand({ after: "look" }));
    const removal = removalOf(plan, "task", "look");
    expect(removal.consequences.join(" ")).toContain("is no longer made good");
    const left: Plan = { ...plan, ...removal.change(plan) };
    expect(left.tasks[0]!.mishap).toEqual({ what: "no answer", chance: 0.3, spoils: true });
    expect(parse(JSON.parse(JSON.stringify(left))).ok).toBe(true);
    expect(duration(left.tasks[0]!.duration.likelyS)).toBe(plan.tasks[0]!.duration.likelyS);
  });
});
