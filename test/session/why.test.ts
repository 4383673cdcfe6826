import { describe, expect, it } from "vitest";
import { duration, instant } from "../../src/kernel/index.ts";
import { benchSays, whyIsStale } from "../../src/session/index.ts";
import { longerEva, whyReport, withoutOne } from "./answers.ts";
import { sessionWith, settled } from "./bench.ts";

async function answered() {
  const made = sessionWith();
  const { plan } = made.session.state.getState();
  const asked = made.session.askWhy("two");
  await made.engine.whys[0]!.answer(whyReport(plan));
  await asked;
  return { ...made, plan };
}

describe("a question why", () => {
  it("grows while it is looked into and ends with the answer", async () => {
    const { session, engine } = sessionWith();
    const { plan } = session.state.getState();
    const asked = session.askWhy("two", { finding: "Task two is left out." });
    expect(session.state.getState().why).toMatchObject({ task: "two", running: true, report: null });
    const first = whyReport(plan, { relaxations: [], tried: 1 });
    engine.whys[0]!.report(first);
    expect(session.state.getState().why?.report).toBe(first);
    await engine.whys[0]!.answer(whyReport(plan));
    await asked;
    const { why } = session.state.getState();
    expect(why).toMatchObject({ running: false, end: "answered", finding: "Task two is left out." });
    expect(why?.report?.relaxations).toHaveLength(2);
    expect(session.state.getState().plan).toBe(plan);
  });

  it("is stopped with what was found, and a late answer is dropped", async () => {
    const { session, engine } = sessionWith();
    engine.deaf = true;
    const { plan } = session.state.getState();
    const asked = session.askWhy("two");
    const first = whyReport(plan, { tried: 1, stopped: null });
    engine.whys[0]!.report(first);
    session.stopWhy();
    expect(engine.whys[0]!.cancelled()).toBe(true);
    await engine.whys[0]!.answer(whyReport(plan));
    await asked;
    expect(session.state.getState().why).toMatchObject({ running: false, end: "stopped", report: first });
  });

  it("gives way to the next one", async () => {
    const { session, engine } = sessionWith();
    void session.askWhy("two");
    void session.askWhy("three");
    expect(engine.whys[0]!.cancelled()).toBe(true);
    expect(session.state.getState().why).toMatchObject({ task: "three", running: true });
    await engine.whys[1]!.answer(whyReport(session.state.getState().plan, { task: "three" }));
    expect(session.state.getState().why).toMatchObject({ task: "three", end: "answered" });
  });

  it("is stale when the day has changed, and no more when that is undone", async () => {
    const { session } = await answered();
    expect(whyIsStale(session.state.getState())).toBe(false);
    session.place("three", { eva: "eva-1", crew: ["ev2"], startS: instant(9000) });
    expect(whyIsStale(session.state.getState())).toBe(true);
    session.undo();
    expect(whyIsStale(session.state.getState())).toBe(false);
    session.edit("Shorten", (plan) => ({
      evas: plan.evas.map((eva) => ({ ...eva, longestS: duration(20_000) })),
    }));
    expect(whyIsStale(session.state.getState())).toBe(true);
  });

  it("is not stale for a new title or a kept variant", async () => {
    const { session } = await answered();
    session.edit("Rename", () => ({ title: "Other" }));
    session.keepVariant("Now");
    expect(whyIsStale(session.state.getState())).toBe(false);
  });

  it("that the day overtakes ends, and is asked again of the day as it is", async () => {
    const { session, engine } = sessionWith();
    void session.askWhy("two", { finding: "It is left out." });
    session.place("three", { eva: "eva-1", crew: ["ev2"], startS: instant(9000) });
    expect(engine.whys[0]!.cancelled()).toBe(true);
    expect(session.state.getState().why).toMatchObject({ running: false, end: "overtaken" });
    void session.askAgain(20);
    expect(engine.whys[1]!.plan).toBe(session.state.getState().plan);
    expect(session.state.getState().why).toMatchObject({ seconds: 20, finding: "It is left out." });
    await settled();
  });

  it("goes on while a variant is kept", () => {
    const { session, engine } = sessionWith();
    void session.askWhy("two");
    session.keepVariant("Now");
    expect(engine.whys[0]!.cancelled()).toBe(false);
  });

  it("is put away with its task", async () => {
    const { session } = await answered();
    session.edit("Remove", (plan) => ({ tasks: plan.tasks.filter((task) => task.id !== "two") }));
    expect(session.state.getState().why).toBeNull();
  });

  it("that fails says so", async () => {
    const { session, engine } = sessionWith();
    const asked = session.askWhy(null);
    await engine.whys[0]!.fail("out of memory");
    await asked;
    expect(session.state.getState().why).toMatchObject({ end: "failed", message: "out of memory" });
  });
});

describe("a relaxation that is tried", () => {
  it("becomes a variant with a name, once, and never edits the open day", async () => {
    const { session, plan } = await answered();
    const way = session.state.getState().why!.report!.relaxations[0]!;
    const id = session.tryRelaxation(way)!;
    const now = session.state.getState();
    expect(now.plan.schedule).toBe(plan.schedule);
    expect(now.plan.evas).toBe(plan.evas);
    expect(now.plan.variants).toHaveLength(1);
    expect(now.plan.variants[0]!.name).toBe("Task two: EVA 1 may last 5 min longer");
    expect(now.why?.taken.get(way.sentence)).toBe(id);
    expect(session.tryRelaxation(way)).toBe(id);
    expect(session.state.getState().plan.variants).toHaveLength(1);
    expect(session.variantDay(id)?.verdict.score).toEqual(longerEva(plan).score);
  });

  it("is named after what is dropped, and says who has to agree", async () => {
    const { session, plan } = await answered();
    const id = session.tryRelaxation(withoutOne(plan))!;
    expect(session.variantDay(id)?.name).toBe("Task two: without Task one");
    expect(session.variantDay(id)?.givesUp?.owner).toBe("the flight director");
  });

  it("can be tried anew when its variant was removed", async () => {
    const { session, plan } = await answered();
    const way = longerEva(plan);
    session.removeVariant(session.tryRelaxation(way)!);
    expect(session.tryRelaxation(way)).not.toBeNull();
    expect(session.state.getState().plan.variants).toHaveLength(1);
  });

  it("is nothing without a question", () => {
    const { session } = sessionWith();
    expect(session.tryRelaxation(longerEva(session.state.getState().plan))).toBeNull();
  });
});

describe("what the bench says of a task", () => {
  it("is what the open question why found out, as the offer has it, as long as it is of this task and this day", async () => {
    const { session } = await answered();
    const [first] = session.state.getState().why!.report!.relaxations;
    expect(benchSays(session.state.getState(), "two")).toBe(`What would give: ${first!.sentence}`);
    // Of other tasks the bench's own reason, if there is one.
    const other = session.state.getState().benchReasons.get("three")?.sentence ?? null;
    expect(benchSays(session.state.getState(), "three")).toBe(other);
    session.place("three", { eva: "eva-1", crew: ["ev2"], startS: instant(9000) });
    expect(benchSays(session.state.getState(), "two") ?? "").not.toContain("What would give");
    session.undo();
    session.closeWhy();
    expect(benchSays(session.state.getState(), "two") ?? "").not.toContain("What would give");
  });
});
