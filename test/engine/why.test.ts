import { MessageChannel } from "node:worker_threads";
import { afterEach, describe, expect, it } from "vitest";
import type { WhyReport } from "../../src/answers/index.ts";
import { check } from "../../src/check/index.ts";
import { connect } from "../../src/engine/client.ts";
import { makeCore } from "../../src/engine/core.ts";
import type { FromWorker, Port, ToWorker } from "../../src/engine/messages.ts";
import { serve } from "../../src/engine/server.ts";
import { applyEdit, type Plan } from "../../src/plan/index.ts";
import { at, eva, task, tinyPlan } from "../check/tinyPlan.ts";

const yieldToHost = (): Promise<void> => new Promise((resolve) => setImmediate(resolve));
let close = (): void => undefined;
afterEach(() => close());

function engine() {
  const { port1, port2 } = new MessageChannel();
  let ticks = 0;
  serve(
    port2 as unknown as Port<FromWorker>,
    makeCore(() => (ticks += 0.01)),
    yieldToHost,
  );
  const client = connect(port1 as unknown as Port<ToWorker>, () => port1.close());
  close = () => client.close();
  return client;
}

/** Two tasks on an outing with time for one: 500 s are missing. */
function shortPlan(): Plan {
  return tinyPlan({
    evas: [eva("eva-1", { crew: ["ev1"], longestS: 2500 })],
    tasks: [task("one", "a", { worth: 5 }), task("two", "a", { worth: 7 })],
    placements: [at("one", 900)],
  });
}

describe("the call why", () => {
  it("reports as it goes and answers with relaxations that can be applied to the plan in hand", async () => {
    const plan = shortPlan();
    const seen: WhyReport[] = [];
    const report = await engine().why(
      plan,
      { schedule: plan.schedule, task: "two", seed: 1, seconds: 1e6, iterations: 4 },
      { report: (now) => seen.push(now) },
    );
    expect(report).toMatchObject({ task: "two", state: "conflict", stopped: "done" });
    expect(seen.length).toBeGreaterThan(0);
    expect(report.relaxations.map((one) => one.kind)).toEqual(["longest", "exchange"]);
    for (const { edit, schedule, score } of report.relaxations) {
      const verdict = check(applyEdit(plan, edit), schedule);
      expect(verdict.score).toEqual(score);
      expect(score.breaches).toBe(0);
    }
  });

  it("settles at once when it is cancelled, and the engine goes on to answer", async () => {
    const plan = shortPlan();
    const client = engine();
    const control = new AbortController();
    const asking = client.why(
      plan,
      { schedule: plan.schedule, task: "two", seed: 1 },
      { signal: control.signal },
    );
    control.abort();
    await expect(asking).rejects.toMatchObject({ reason: "cancelled" });
    await expect(client.check(plan, { schedule: plan.schedule })).resolves.toMatchObject({
      score: { breaches: 0 },
    });
  });

  it("fails in words for a task that the plan does not have", async () => {
    const plan = shortPlan();
    await expect(
      engine().why(plan, { schedule: plan.schedule, task: "three", seed: 1 }),
    ).rejects.toMatchObject({ reason: "failed", message: 'the plan has no task "three"' });
  });
});
