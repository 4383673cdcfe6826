import { readFileSync } from "node:fs";
import { MessageChannel } from "node:worker_threads";
import { afterEach, describe, expect, it } from "vitest";
import { check } from "../../src/check/index.ts";
import { connect } from "../../src/engine/client.ts";
import { type Core, makeCore } from "../../src/engine/core.ts";
import type { FromWorker, Port, ToWorker } from "../../src/engine/messages.ts";
import { serve } from "../../src/engine/server.ts";
import { parseText, type Plan } from "../../src/plan/index.ts";
import { fitBands } from "../../src/solver/index.ts";
import { frozen } from "../solver/frozen.ts";
import { sessionWith } from "../session/bench.ts";

/** Cancelling against the real core, behind a real channel, in the thread of the test. */

const text = readFileSync("public/plans/demo.json", "utf8");
const ENDLESS_S = 3600;
/** The core's slice, s: what a cancelled pack may still take of its own clock, and a few looks at it. */
const SLICE_S = 0.012;
const TICK_S = 0.001;

function demo(): Plan {
  const read = parseText(text);
  if (!read.ok) throw new Error(JSON.stringify(read.error));
  return frozen(read.value);
}

let close = (): void => undefined;
afterEach(() => close());

/** The core with a clock that ticks at every look, its client, and what can be seen of its packs. */
function engineWithCore() {
  let nowS = 0;
  const core = makeCore(() => (nowS += TICK_S));
  const seen = { ended: 0, nowS: () => nowS };
  const watched: Core = {
    ...core,
    pack: async (...args) => {
      try {
        return await core.pack(...args);
      } finally {
        seen.ended += 1;
      }
    },
  };
  const { port1, port2 } = new MessageChannel();
  serve(port2 as unknown as Port<FromWorker>, watched, yieldToHost);
  const engine = connect(port1 as unknown as Port<ToWorker>, () => port1.close());
  close = () => engine.close();
  return { engine, seen };
}

function yieldToHost(): Promise<void> {
  return new Promise((resolve) => setImmediate(resolve));
}

async function until(holds: () => boolean): Promise<void> {
  while (!holds()) await yieldToHost();
}

describe("a cancelled pack", () => {
  it("ends within one slice of the core's clock", async () => {
    let nowS = 0;
    let abortedS = -1;
    const control = new AbortController();
    let breaths = 0;
    const report = await makeCore(() => (nowS += TICK_S)).pack(
      demo(),
      { seed: 1, seconds: ENDLESS_S },
      {
        yieldToHost: async () => {
          breaths += 1;
          if (breaths === 3) {
            abortedS = nowS;
            control.abort();
          }
        },
        signal: control.signal,
      },
    );
    expect(report.stopped).toBe("cancelled");
    expect(breaths).toBe(3);
    expect(abortedS).toBeGreaterThan(0);
    expect(nowS - abortedS).toBeLessThan(SLICE_S + 10 * TICK_S);
  });

  it("leaves the plan as it was, and the worker goes on to answer", async () => {
    const plan = demo();
    const before = structuredClone(plan);
    const { engine, seen } = engineWithCore();
    const control = new AbortController();
    let reports = 0;
    const packing = engine.pack(
      plan,
      { seed: 1, seconds: ENDLESS_S },
      { report: () => (reports += 1), signal: control.signal },
    );
    await until(() => reports >= 2);
    expect(seen.ended).toBe(0);
    control.abort();
    await expect(packing).rejects.toMatchObject({ reason: "cancelled" });
    await until(() => seen.ended === 1);
    expect(plan).toEqual(before);
    const late = reports;
    await expect(engine.check(plan, { schedule: plan.schedule })).resolves.toEqual(
      check(plan, plan.schedule),
    );
    const task = plan.tasks[0]!.id;
    await expect(engine.fitBands(plan, { schedule: plan.schedule, task })).resolves.toEqual(
      fitBands(plan, plan.schedule, task),
    );
    expect(reports).toBe(late);
    const again = await engine.pack(plan, { seed: 1, seconds: ENDLESS_S, iterations: 30 });
    expect(again.verdict.score.breaches).toBe(0);
  });

  it("leaves the open plan and its history as they were, and the next pack is taken over as one step", async () => {
    const { engine } = engineWithCore();
    const { session } = sessionWith({ engine });
    session.open(text);
    const { plan, history } = session.state.getState();
    frozen(plan);
    const over = session.pack({ seed: 1, seconds: ENDLESS_S });
    await until(() => session.state.getState().run?.best !== null);
    session.stopPack();
    await over;
    const stopped = session.state.getState();
    expect(stopped.plan).toBe(plan);
    expect(stopped.history).toBe(history);
    expect(stopped.run).toMatchObject({ running: false, end: "stopped" });
    await session.pack({ seed: 1, seconds: ENDLESS_S, iterations: 30 });
    const taken = session.state.getState();
    expect(taken.history.undo.length).toBe(history.undo.length + 1);
    expect(check(taken.plan, taken.plan.schedule).score.breaches).toBe(0);
    session.undo();
    expect(session.state.getState().plan).toEqual(plan);
  });
});
