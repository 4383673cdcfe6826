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

it("says of an empty day that what fits fits as things stand: there are no others to slide", () => {
  // So many that no bands are worked out.
  const plan = tinyPlan({ tasks: Array.from({ length: 90 }, (_, k) => task(`t${k}`, "a")) });
  const said = new Set(
    benchReasons(plan, plan.schedule).map(({ sentence, slides }) => `${slides}: ${sentence}`),
  );
  expect([...said]).toEqual(["false: It fits as things stand."]);
});

it("says how near the lander an instrument would stand, and not what else might keep it out", () => {
  const place = (id: string, kind: "lander" | "station", eastM: number, northM: number) => {
    return { id, name: id, kind, eastM, northM };
  };
  const plan = tinyPlan({
    tasks: [task("foil", "near", { kind: "deployment" }), task("far", "a", { kind: "deployment" })],
    places: [
      place("lander", "lander", 0, 0),
      place("near", "station", 40, 30),
      place("a", "station", 300, 0),
    ],
  });
  const said = benchReasons(plan, plan.schedule).map(({ sentence }) => sentence);
  // 3-4-5: 50 m, against the default of 91.44 m.
  expect(said[0]).toBe("It leaves an instrument 50 m from the lander; at least 91.5 m is asked for.");
  expect(said[1]).toBe("It fits as things stand.");
});
