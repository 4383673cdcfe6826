import { describe, expect, it } from "vitest";
import { check } from "../../../src/check/index.ts";
import { lateAnswers, type LateCell } from "../../../src/exchange/paper/late.ts";
import { lateStrip } from "../../../src/exchange/paper/latestrip.ts";
import { duration, instant } from "../../../src/kernel/index.ts";
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
/** Of c, which begins at 4200. */
const CLOSED = { startS: instant(4200), endS: instant(6000) };
const tablesOf = (late: LateCell) => ({
  minutes: [10],
  sound: true,
  evas: [{ eva: "eva-1", rows: [{ task: "a", late: [late] }] }],
});
const answersTo = (late: LateCell) => lateAnswers(plan, check(plan), tablesOf(late))("eva-1", "a", 3000);
const printed = (late: LateCell): string =>
  lateStrip(plan, answersTo(late), { crew: "ev1", tasks: new Set(["a", "b", "c"]) })
    .draw(0)
    .flatMap((mark) => (mark.kind === "text" ? [mark.text] : []))
    .join(" ");

/** The second begins so long after the first ends, s. */
const lag = (from: string, to: string, leastS: number) => ({
  ...{ id: "gap", type: "lag" as const, needs: "both" as const },
  ...{ from: { task: from, end: "end" as const }, to: { task: to, end: "start" as const } },
  leastS: duration(leastS),
});

/** The same, counted to the end of the second: no page tells of it. */
const toEnd = (link: ReturnType<typeof lag>) => ({ ...link, to: { ...link.to, end: "end" as const } });

describe("another order on paper", () => {
  // 10 min late a ends at 3600: c until 4200, then b until 5400.
  const turned = cell({
    moves: [placed("c", 3600), placed("b", 4200)],
    then: [{ crew: "ev1", tasks: ["c", "b"] }],
  });

  it("stands beside the time by which it holds, with the whole order", () => {
    expect(answersTo(turned).answers).toEqual([
      {
        doneByS: 3600,
        leaveOut: [],
        then: [{ crew: "ev1", tasks: ["c", "b"] }],
        ...{ rests: [], onArrival: true, from: [], home: false },
      },
    ]);
    // Tasks have the numbers 1 to 4.
    expect(printed(turned)).toContain("nothing EV1 THEN 3 2");
  });

  it("says that START falls where each task begins on arrival, and that it holds where only that was found sound", () => {
    expect(printed(turned)).toContain("START on arrival");
    // c may not begin before its window, which its page says: whoever is there before it waits, and b still fits behind it.
    const held = {
      ...plan,
      tasks: plan.tasks.map((one) => (one.id === "c" ? { ...one, windows: [CLOSED] } : one)),
    };
    const late = lateAnswers(
      held,
      check(held),
      tablesOf(cell({ ...turned, moves: [placed("c", 4200), placed("b", 4800)] })),
    );
    expect(late("eva-1", "a", 3000).answers).toMatchObject([{ onArrival: true }]);
    // A lag that no page tells of, since it counts to an end: on arrival c would come too soon after a, at its START it does not.
    const lagged = {
      ...plan,
      links: [toEnd(lag("a", "c", 1200))],
    };
    const after = cell({ ...turned, moves: [placed("c", 4200), placed("b", 4800)] });
    expect(check(lagged).score.breaches).toBe(0);
    expect(lateAnswers(lagged, check(lagged), tablesOf(after))("eva-1", "a", 3000).answers).toMatchObject([
      { onArrival: false },
    ]);
  });

  it("holds a task back where a crew that goes by its pages would break a rule, though the worked-out day does not", () => {
    // c is to end 1200 s after b does; its page says only START 4800, and b slides.
    const gap = {
      ...plan,
      schedule: { placements: [placed("a", 2400), placed("b", 3000), placed("c", 4800)] },
      links: [toEnd(lag("b", "c", 1200))],
    };
    expect(check(gap).score.breaches).toBe(0);
    const slid = cell({ kind: "keep", moves: [placed("b", 3600), placed("c", 5400)] });
    const late = lateAnswers(gap, check(gap), tablesOf(slid))("eva-1", "a", 3000);
    expect(late.answers).toMatchObject([{ onArrival: false, from: [{ task: "c", fromS: 5400 }] }]);
    const words = (crew: string): string =>
      lateStrip(gap, late, { crew, tasks: new Set(["a", "b", "c"]) })
        .draw(0)
        .flatMap((mark) => (mark.kind === "text" ? [mark.text] : []))
        .join(" ");
    expect(words("ev1")).toBe("DONE BY 1:00 later LEAVE OUT nothing call START as printed 3 from 1:30");
    expect(words("ev2")).toContain("EV1 3 from 1:30");
    // Where the page says it, the page is enough.
    const told = { ...gap, links: [lag("b", "c", 600)] };
    expect(lateAnswers(told, check(told), tablesOf(slid))("eva-1", "a", 3000).answers).toMatchObject([
      { onArrival: false, from: [] },
    ]);
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

describe("rests of a late day", () => {
  // Egress from 1500 (work of 600 s and a way of 300 s), a until 3000, b until 4200, c until 4800, in by 5700: 4200 s of work in all.
  const restful = (
    longestS: number,
    cFromS: number,
    windows: readonly (readonly [number, number])[] = [],
  ) => {
    const spans = windows.map(([startS, endS]) => ({ startS, endS }));
    const c = task("c", "a", { duration: { likelyS: 600 }, crew: { named: ["ev1"] }, windows: spans });
    return tinyPlan({
      evas: [eva("eva-1", { crew: ["ev1"] })],
      tasks: [worked("a", 600), worked("b", 1200), c],
      placements: [at("a", 2400, ["ev1"]), at("b", 3000, ["ev1"]), at("c", cFromS, ["ev1"])],
      rules: { work: { longestS, restS: 600 } },
    });
  };
  const given = (one: ReturnType<typeof tinyPlan>, late: LateCell) =>
    lateAnswers(one, check(one), {
      minutes: [10],
      sound: true,
      evas: [{ eva: "eva-1", rows: [{ task: "a", late: [late] }] }],
    })("eva-1", "a", 3000);
  const strip = (one: ReturnType<typeof tinyPlan>, late: ReturnType<typeof given>, crew: string): string =>
    lateStrip(one, late, { crew, tasks: new Set(["a", "b", "c"]) })
      .draw(0)
      .flatMap((mark) => (mark.kind === "text" ? [mark.text] : []))
      .join(" ");
  const kept = (cFromS: number) => cell({ kind: "keep", moves: [placed("b", 3600), placed("c", cFromS)] });

  it("are told where no page tells of them", () => {
    // The limit is just all of the work as planned; 10 min more of it, and there has to be a rest.
    const one = restful(4200, 4200);
    expect(check(one).score.breaches).toBe(0);
    expect(check(one).rests).toEqual([]);
    const late = given(one, kept(5400));
    expect(late.answers).toEqual([
      {
        doneByS: 3600,
        ...{ leaveOut: [], then: [], onArrival: false, from: [], home: false },
        rests: [{ crew: "ev1", task: "c" }],
      },
    ]);
    expect(strip(one, late, "ev1")).toBe("DONE BY 1:00 later LEAVE OUT nothing call REST 10 MIN before 3");
    expect(strip(one, late, "ev2")).toContain("EV1 before 3");
    // Without it the limit is broken.
    expect(given(one, kept(4800)).answers).toEqual([]);
  });

  it("are taken where a page tells of them, needed or not: what follows begins so much later", () => {
    // A rest is printed before c. With b left out, c could begin when a is done, at 3600, and nobody would need it.
    const open = [
      [3600, 4200],
      [4800, 5400],
    ] as const;
    const late = (cFromS: number) => cell({ kind: "drop", drop: ["b"], moves: [placed("c", cFromS)] });
    const one = restful(3600, 4800, open);
    expect(check(one).score.breaches).toBe(0);
    expect(check(one).rests.map(({ before }) => before)).toEqual(["c"]);
    // Who obeys the page of c rests until 4200 and is there between its windows.
    expect(given(one, late(3600)).answers).toEqual([]);
    expect(given(one, late(4800)).answers).toHaveLength(1);
    expect(given(restful(3600, 4800), late(3600)).answers).toHaveLength(1);
  });

  it("say which rule being late breaks by itself", () => {
    const late = given(restful(36_000, 4200), cell({ kind: "over", minutes: 5, breaks: ["work-and-rest"] }));
    expect(late).toEqual({ answers: [], why: "call: 5 min breaks work and rest" });
  });
});
