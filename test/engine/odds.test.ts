import { MessageChannel } from "node:worker_threads";
import { afterEach, describe, expect, it } from "vitest";
import type { OddsProgress, LateProgress } from "../../src/answers/index.ts";
import { connect } from "../../src/engine/client.ts";
import { makeCore } from "../../src/engine/core.ts";
import type { FromWorker, Port, ToWorker } from "../../src/engine/messages.ts";
import type { Engine } from "../../src/engine/calls.ts";
import { serve } from "../../src/engine/server.ts";
import { samplePlan } from "../exchange/samplePlan.ts";

const yieldToHost = (): Promise<void> => new Promise((resolve) => setImmediate(resolve));

let close = (): void => undefined;
afterEach(() => close());

/** A whole engine over a channel, on a clock that ticks a millisecond a look. */
function engine(): Engine {
  const { port1, port2 } = new MessageChannel();
  let now = 0;
  serve(
    port2 as unknown as Port<FromWorker>,
    makeCore(() => (now += 0.001)),
    yieldToHost,
  );
  const made = connect(port1 as unknown as Port<ToWorker>, () => port1.close());
  close = () => made.close();
  return made;
}

describe("odds and late tables over the wire", () => {
  const plan = samplePlan();

  it("report how far they are and answer", async () => {
    const seen: OddsProgress[] = [];
    const odds = await engine().odds(
      plan,
      { schedule: plan.schedule, days: 120 },
      { report: (progress) => seen.push(progress) },
    );
    expect(odds).toMatchObject({ days: 120, seed: 1, shape: "pert", complete: true });
    expect(seen.length).toBeGreaterThan(1);
    expect(seen.at(-1)).toMatchObject({ days: 120, of: 120 });
  });

  it("give the late tables, row by row", async () => {
    const seen: LateProgress[] = [];
    const lateTable = await engine().lateTable(
      plan,
      { schedule: plan.schedule, minutes: [10] },
      { report: (progress) => seen.push(progress) },
    );
    expect(lateTable).toMatchObject({ sound: true, complete: true, minutes: [10] });
    const rows = lateTable.evas.flatMap((one) => one.rows).length;
    expect(rows).toBe(plan.schedule.placements.filter((one) => one.eva !== null).length);
    expect(seen.at(-1)).toMatchObject({ rows, of: rows });
    expect(seen.at(-1)!.report).toEqual(lateTable);
    // Each telling has the rows that it counts.
    for (const { rows: told, report } of seen)
      expect(report.evas.flatMap((one) => one.rows)).toHaveLength(told);
  });

  it("can be cancelled, and others are answered meanwhile", async () => {
    const made = engine();
    const control = new AbortController();
    const running = made.odds(plan, { schedule: plan.schedule, days: 10_000 }, { signal: control.signal });
    const verdict = await made.check(plan, { schedule: plan.schedule });
    expect(verdict.score.breaches).toBe(0);
    control.abort();
    await expect(running).rejects.toMatchObject({ reason: "cancelled" });
  });
});
