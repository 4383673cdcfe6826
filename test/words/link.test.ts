import { describe, expect, it } from "vitest";
import { linkWords } from "../../src/words/index.ts";
import { planOf, smallInput } from "../session/bench.ts";

const plan = planOf({
  ...smallInput,
  links: [
    { id: "a", type: "crew", tasks: ["one", "two"], crew: "same" },
    { id: "b", type: "crew", tasks: ["one", "two"], crew: "different" },
    { id: "c", type: "eva", tasks: ["one", "two"] },
    { id: "d", type: "apart", tasks: ["one", "two"], leastM: 30 },
  ],
});

const lag = (bounds: { leastS?: number; greatestS?: number }, needs: "none" | "from" | "both" = "none") =>
  linkWords(
    plan,
    planOf({
      ...smallInput,
      links: [
        {
          id: "l",
          type: "lag",
          from: { task: "one", end: "end" },
          to: { task: "two", end: "start" },
          needs,
          ...bounds,
        },
      ],
    }).links[0]!,
  );

describe("a link in words", () => {
  it.each([
    [{ leastS: 0 }, "Task two starts no earlier than Task one ends."],
    [{ leastS: 3900 }, "Task two starts at least 1:05 after Task one ends."],
    [{ leastS: -90 }, "Task two starts at most 1 min 30 s before Task one ends."],
    [{ greatestS: 0 }, "Task two starts no later than Task one ends."],
    [{ greatestS: 600 }, "Task two starts at most 10 min after Task one ends."],
    [{ greatestS: -600 }, "Task two starts at least 10 min before Task one ends."],
    [{ leastS: 0, greatestS: 180 }, "Task two starts within 3 min after Task one ends."],
    [{ leastS: 60, greatestS: 180 }, "Task two starts 1 min to 3 min after Task one ends."],
    [
      { leastS: -60, greatestS: 180 },
      "Task two starts at most 1 min before Task one ends and at most 3 min after Task one ends.",
    ],
    [{ leastS: 60, greatestS: 60 }, "Task two starts exactly 1 min after Task one ends."],
    [{ leastS: 0, greatestS: 0 }, "Task two starts just when Task one ends."],
  ])("%o", (bounds, words) => expect(lag(bounds)).toBe(words));

  it("says what needs what", () => {
    expect(lag({ leastS: 0 }, "from")).toBe("Task two starts no earlier than Task one ends; not without it.");
    expect(lag({ leastS: 0 }, "both")).toMatch(/; neither without the other\.$/);
    expect(lag({}, "from")).toBe("Task two is done only if Task one is.");
    expect(lag({}, "both")).toBe("Task one and Task two: neither without the other.");
  });

  it("says crew, EVA and distance", () => {
    expect(plan.links.map((link) => linkWords(plan, link))).toEqual([
      "Task one and Task two are done by the same crew.",
      "Task one and Task two have no crew member in common.",
      "Task one and Task two are done on the same EVA.",
      "Task one and Task two end at least 30 m apart.",
    ]);
  });
});
