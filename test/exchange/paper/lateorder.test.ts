import { describe, expect, it } from "vitest";
import { check } from "../../../src/check/index.ts";
import { lateAnswers, type LateCell } from "../../../src/exchange/paper/late.ts";
import { lateStrip } from "../../../src/exchange/paper/latestrip.ts";
import { instant } from "../../../src/kernel/index.ts";
import { at, eva, task, tinyPlan } from "../../check/tinyPlan.ts";

// One place, everything by ev1: a until 3000, b until 4200, c until 4800; d is on the bench.
const worked = (id: string, likelyS: number) =>
  task(id, "a", { duration: { likelyS }, crew: { named: ["ev1"] } });
const plan = tinyPlan({
  evas: [eva("eva-1")],
  tasks: [worked("a", 600), worked("b", 1200), worked("c", 600), worked("d", 300)],
  placements: [at("a", 2400, ["ev1"]), at("b", 3000, ["ev1"]), at("c", 4200, ["ev1"])],
});
const placed = (id: string, startS: number) => ({
  task: id,
  eva: "eva-1",
  crew: ["ev1"],
  startS: instant(startS),
});
const cell = (part: Partial<LateCell>): LateCell => ({
  minutes: 10,
  kind: "change",
  drop: [],
  breaks: [],
  moves: [],
  then: [],
  ...part,
});
const answersTo = (late: LateCell) => {
  const tables = {
    minutes: [10],
    sound: true,
    evas: [{ eva: "eva-1", rows: [{ task: "a", late: [late] }] }],
  };
  return lateAnswers(plan, check(plan), tables)("eva-1", "a", 3000);
};
const printed = (late: LateCell): string =>
  lateStrip(plan, answersTo(late), { crew: "ev1", tasks: new Set(["a", "b", "c"]) })
    .draw(0)
    .flatMap((mark) => (mark.kind === "text" ? [mark.text] : []))
    .join(" ");

describe("another order on paper", () => {
  // 10 min late a ends at 3600: c until 4200, then b until 5400.
  const turned = cell({
    moves: [placed("c", 3600), placed("b", 4200)],
    then: [{ crew: "ev1", tasks: ["c", "b"] }],
  });

  it("stands beside the time by which it holds, with the whole order", () => {
    expect(answersTo(turned).answers).toEqual([
      { doneByS: 3600, leaveOut: [], then: [{ crew: "ev1", tasks: ["c", "b"] }], rests: [], home: false },
    ]);
    // Tasks have the numbers 1 to 4.
    expect(printed(turned)).toContain("nothing EV1 THEN 3 2");
  });

  it("says to call for what is on no page", () => {
    const taken = cell({
      drop: ["b"],
      moves: [placed("d", 3600), placed("c", 3900)],
      then: [{ crew: "ev1", tasks: ["d", "c"] }],
    });
    expect(printed(taken)).toContain("2 EV1 THEN 4 3 call for 4");
  });

  it("never stands there when the judge finds a breach in it", () => {
    // b is still at work when c begins.
    const broken = cell({
      moves: [placed("c", 4300), placed("b", 3600)],
      then: [{ crew: "ev1", tasks: ["b", "c"] }],
    });
    expect(answersTo(broken)).toEqual({ answers: [], why: "call: no tested answer" });
  });
});
