import { cautionsOf, stepsOf } from "../../plan/lines.ts";
import { describe, expect, it } from "vitest";
import { unsaidOnCuffs } from "../../../src/exchange/index.ts";
import { planOf, samplePlan, taskOf } from "../samplePlan.ts";

describe("what somebody may look for on cuff checklists in vain", () => {
  it("is steps and cautions that were not written, of tasks that are placed with crew, and notes that are not the crew's", () => {
    const plan = planOf(
      [
        taskOf("full", { name: "Full", steps: stepsOf("Do it"), cautions: cautionsOf("Mind it") }),
        taskOf("bare", { name: "Bare" }),
        taskOf("benched", { name: "Benched" }),
        taskOf("remote", { name: "Remote", crew: { count: 0 } }),
      ],
      [
        { task: "full", eva: "eva-1", crew: ["ev1"], startS: 6000 },
        { task: "bare", eva: "eva-1", crew: ["ev1"], startS: 9001 },
        { task: "remote", eva: null, crew: [], startS: 9000 },
      ],
      { notes: "Made for a trial." },
    );
    expect(unsaidOnCuffs(plan)).toEqual([
      { words: "no steps for 1 task", tasks: ["Bare"] },
      { words: "no caution for 1 task", tasks: ["Bare"] },
      { words: "cautions without a class for 1 task", tasks: ["Full"] },
      { words: "starts with seconds for 1 task", tasks: ["Bare"] },
      { words: "notes of the plan not printed", tasks: [] },
    ]);
  });

  it("is the one start that is off the minute where all is written", () => {
    const plan = samplePlan();
    const tasks = plan.tasks.map((task) => ({
      ...task,
      steps: stepsOf("Do it"),
      cautions: [{ class: "note" as const, text: "Mind it" }],
    }));
    expect(unsaidOnCuffs({ ...plan, tasks })).toEqual([
      { words: "starts with seconds for 1 task", tasks: ["Rim survey"] },
    ]);
  });
});
