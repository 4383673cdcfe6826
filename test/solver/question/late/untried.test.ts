import { expect, it } from "vitest";
import { check } from "../../../../src/check/index.ts";
import { lateTableRun } from "../../../../src/solver/question/late/index.ts";
import { at, eva, task, tinyPlan } from "../../../check/tinyPlan.ts";

/**
 * EV1 works at b, 600 m out, EV2 at a, 300 m out, until 2800 s; at most 400 m may lie between them. Both walk home at 1 m/s at once. With EV1 5 min
 * later EV2 is home by 3100 s, 600 m from b.
 */
function day(by: { ev1?: number; ev2?: number } = {}) {
  return tinyPlan({
    evas: [eva("eva-1")],
    tasks: [
      task("far", "b", { duration: { likelyS: 600 + (by.ev1 ?? 0) }, must: true }),
      task("near", "a", { duration: { likelyS: 600 + (by.ev2 ?? 0) }, must: true }),
    ],
    placements: [at("far", 2200, ["ev1"]), at("near", 2200, ["ev2"])],
    rules: { separation: { greatestM: 400, level: "breach" } },
  });
}

const breaches = (plan: ReturnType<typeof day>) =>
  check(plan, plan.schedule).findings.filter(({ level }) => level === "breach");

it("says of a crew separation that nothing left out mends that holding the partner was not tried", () => {
  expect(breaches(day())).toEqual([]);
  expect(breaches(day({ ev1: 300 })).map(({ rule }) => rule)).toEqual(["crew-separation"]);
  // It is all that it takes: EV2 stays as long.
  expect(breaches(day({ ev1: 300, ev2: 300 }))).toEqual([]);
  const plan = day();
  const run = lateTableRun(plan, plan.schedule, { clock: () => 0, minutes: [5] });
  while (run.step(1)) continue;
  const row = run.report().evas[0]!.rows.find((one) => one.task === "far")!;
  expect(row.late[0]).toMatchObject({ kind: "over", breaks: ["crew-separation"] });
  expect(row.late[0]!.sentence).toMatch(/crew separation; not tried: the others hold where they are\.$/);
});
