import { expect, it } from "vitest";
import { benchReasons } from "../../../src/solver/index.ts";
import { numberedSentence } from "../../../src/words/index.ts";
import { at, task, tinyPlan } from "../../check/tinyPlan.ts";

it("names what a task needs by its number: another of that name may be on the day", () => {
  const plan = tinyPlan({
    tasks: [task("done", "a", { name: "Core" }), task("left", "a", { name: "Core" }), task("last", "a")],
    placements: [at("done", 2000)],
    more: {
      links: [
        {
          id: "link",
          type: "lag",
          from: { task: "left", end: "end" },
          to: { task: "last", end: "start" },
          needs: "from",
        },
      ],
    },
  });
  const { sentence } = benchReasons(plan, plan.schedule).find((one) => one.task === "last")!;
  expect(sentence).toBe("It needs 2 Core, which is on the bench too.");
  // Where it is read it stays so.
  expect(numberedSentence(plan, sentence)).toBe(sentence);
});
