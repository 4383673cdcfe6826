import { describe, expect, it } from "vitest";
import { duration, instant } from "../../src/kernel/index.ts";
import { benchSays, whyIsStale } from "../../src/session/index.ts";
import { longerEva, whyReport, withoutOne } from "./answers.ts";
import { deskWith, settled } from "./bench.ts";

async function answered() {
  const made = deskWith();
  const { plan } = made.desk.state.getState();
  const asked = made.desk.askWhy("two");
  await made.engine.whys[0]!.answer(whyReport(plan));
  await asked;
  return { ...made, plan };
}

describe("a question why", () => {
  it("grows while it is looked into and ends with the answer", async () => {
    const { desk, engine } = deskWith();
    const { plan } = desk.state.getState();
    const asked = desk.askWhy("two", { finding: "Task two is left out." });
    expect(desk.state.getState().why).toMatchObject({ task: "two", running: true, report: null });
    const first = whyReport(plan, { relaxations: [], tried: 1 });
    engine.whys[0]!.report(first);
    expect(desk.state.getState().why?.report).toBe(first);
    await engine.whys[0]!.answer(whyReport(plan));
    await asked;
    const { why } = desk.state.getState();
    expect(why).toMatchObject({ running: false, end: "answered", finding: "Task two is left out." });
    expect(why?.report?.relaxations).toHaveLength(2);
    expect(desk.state.getState().plan).toBe(plan);
  });

  it("is stopped with what was found, and a late answer is dropped", async () => {
    const { desk, engine } = deskWith();
    engine.deaf = true;
    const { plan } = desk.state.getState();
    const asked = desk.askWhy("two");
    const first = whyReport(plan, { tried: 1, stopped: null });
    engine.whys[0]!.report(first);
    desk.stopWhy();
    expect(engine.whys[0]!.cancelled()).toBe(true);
    await engine.whys[0]!.answer(whyReport(plan));
    await asked;
    expect(desk.state.getState().why).toMatchObject({ running: false, end: "stopped", report: first });
  });

  it("gives way to the next one", async () => {
    const { desk, engine } = deskWith();
    void desk.askWhy("two");
    void desk.askWhy("three");
    expect(engine.whys[0]!.cancelled()).toBe(true);
    expect(desk.state.getState().why).toMatchObject({ task: "three", running: true });
    await engine.whys[1]!.answer(whyReport(desk.state.getState().plan, { task: "three" }));
    expect(desk.state.getState().why).toMatchObject({ task: "three", end: "answered" });
  });

  it("is stale when the day has changed, and no more when that is undone", async () => {
    const { desk } = await answered();
    expect(whyIsStale(desk.state.getState())).toBe(false);
    desk.place("three", { eva: "eva-1", crew: ["ev2"], startS: instant(9000) });
    expect(whyIsStale(desk.state.getState())).toBe(true);
    desk.undo();
    expect(whyIsStale(desk.state.getState())).toBe(false);
    desk.edit("Shorten", (plan) => ({
      evas: plan.evas.map((eva) => ({ ...eva, longestS: duration(20_000) })),
    }));
    expect(whyIsStale(desk.state.getState())).toBe(true);
  });

  it("is not stale for a new title or a kept variant", async () => {
    const { desk } = await answered();
    desk.edit("Rename", () => ({ title: "Other" }));
    desk.keepVariant("Now");
    expect(whyIsStale(desk.state.getState())).toBe(false);
  });

  it("that the day overtakes ends, and is asked again of the day as it is", async () => {
    const { desk, engine } = deskWith();
    void desk.askWhy("two", { finding: "It is left out." });
    desk.place("three", { eva: "eva-1", crew: ["ev2"], startS: instant(9000) });
    expect(engine.whys[0]!.cancelled()).toBe(true);
    expect(desk.state.getState().why).toMatchObject({ running: false, end: "overtaken" });
    void desk.askAgain(20);
    expect(engine.whys[1]!.plan).toBe(desk.state.getState().plan);
    expect(desk.state.getState().why).toMatchObject({ seconds: 20, finding: "It is left out." });
    await settled();
  });

  it("goes on while a variant is kept", () => {
    const { desk, engine } = deskWith();
    void desk.askWhy("two");
    desk.keepVariant("Now");
    expect(engine.whys[0]!.cancelled()).toBe(false);
  });

  it("is put away with its task", async () => {
    const { desk } = await answered();
    desk.edit("Remove", (plan) => ({ tasks: plan.tasks.filter((task) => task.id !== "two") }));
    expect(desk.state.getState().why).toBeNull();
  });

  it("that fails says so", async () => {
    const { desk, engine } = deskWith();
    const asked = desk.askWhy(null);
    await engine.whys[0]!.fail("out of memory");
    await asked;
    expect(desk.state.getState().why).toMatchObject({ end: "failed", message: "out of memory" });
  });
});

describe("a relaxation that is tried", () => {
  it("becomes a variant with a name, once, and never edits the open day", async () => {
    const { desk, plan } = await answered();
    const way = desk.state.getState().why!.report!.relaxations[0]!;
    const id = desk.tryRelaxation(way)!;
    const now = desk.state.getState();
    expect(now.plan.schedule).toBe(plan.schedule);
    expect(now.plan.evas).toBe(plan.evas);
    expect(now.plan.variants).toHaveLength(1);
    expect(now.plan.variants[0]!.name).toBe("Task two: EVA 1 may last 5 min longer");
    expect(now.why?.taken.get(way.sentence)).toBe(id);
    expect(desk.tryRelaxation(way)).toBe(id);
    expect(desk.state.getState().plan.variants).toHaveLength(1);
    expect(desk.variantDay(id)?.verdict.score).toEqual(longerEva(plan).score);
  });

  it("is named after what is dropped, and says who has to agree", async () => {
    const { desk, plan } = await answered();
    const id = desk.tryRelaxation(withoutOne(plan))!;
    expect(desk.variantDay(id)?.name).toBe("Task two: without Task one");
    expect(desk.variantDay(id)?.givesUp?.owner).toBe("the flight director");
  });

  it("can be tried anew when its variant was removed", async () => {
    const { desk, plan } = await answered();
    const way = longerEva(plan);
    desk.removeVariant(desk.tryRelaxation(way)!);
    expect(desk.tryRelaxation(way)).not.toBeNull();
    expect(desk.state.getState().plan.variants).toHaveLength(1);
  });

  it("is nothing without a question", () => {
    const { desk } = deskWith();
    expect(desk.tryRelaxation(longerEva(desk.state.getState().plan))).toBeNull();
  });
});

describe("what the bench says of a task", () => {
  it("is what the open question why found out, as the offer has it, as long as it is of this task and this day", async () => {
    const { desk } = await answered();
    const [first] = desk.state.getState().why!.report!.relaxations;
    expect(benchSays(desk.state.getState(), "two")).toBe(`What would give: ${first!.sentence}`);
    // Of other tasks the bench's own reason, if there is one.
    const other = desk.state.getState().benchReasons.get("three")?.sentence ?? null;
    expect(benchSays(desk.state.getState(), "three")).toBe(other);
    desk.place("three", { eva: "eva-1", crew: ["ev2"], startS: instant(9000) });
    expect(benchSays(desk.state.getState(), "two") ?? "").not.toContain("What would give");
    desk.undo();
    desk.closeWhy();
    expect(benchSays(desk.state.getState(), "two") ?? "").not.toContain("What would give");
  });
});
