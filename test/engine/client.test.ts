import { MessageChannel } from "node:worker_threads";
import { afterEach, describe, expect, it } from "vitest";
import { connect } from "../../src/engine/client.ts";
import type { Core } from "../../src/engine/core.ts";
import type { Turn } from "../../src/engine/drive.ts";
import type { FromWorker, Port, ToWorker } from "../../src/engine/messages.ts";
import { EngineError } from "../../src/engine/calls.ts";
import { serve } from "../../src/engine/server.ts";
import type { Plan, Schedule } from "../../src/plan/index.ts";

const plan = { title: "a plan" } as Plan;
const schedule: Schedule = { placements: [] };
const options = { seed: 1, seconds: 60 };
const breathe = (): Promise<void> => new Promise((resolve) => setImmediate(resolve));

/** A core whose pack runs until it is told to stop, and says which plan it saw. */
class EndlessCore {
  slices = 0;
  stopped = false;
  check(seen: Plan): never {
    return { title: seen.title } as never;
  }
  async pack(_: Plan, __: unknown, { report, breathe, signal }: Turn<"pack">): Promise<never> {
    while (!signal?.aborted) {
      this.slices += 1;
      report?.({ iterations: this.slices } as never);
      await breathe?.();
    }
    this.stopped = true;
    return {} as never;
  }
  fitBands(): never {
    throw new Error("no such task");
  }
}

let close = (): void => undefined;
afterEach(() => close());

function pair(core: EndlessCore) {
  const { port1, port2 } = new MessageChannel();
  serve(port2 as unknown as Port<FromWorker>, core as unknown as Core, breathe);
  const engine = connect(port1 as unknown as Port<ToWorker>, () => port1.close());
  close = () => engine.close();
  return engine;
}

describe("engine client", () => {
  it("sends the plan a call speaks of", async () => {
    const engine = pair(new EndlessCore());
    await expect(engine.check(plan, { schedule })).resolves.toEqual({ title: "a plan" });
    await expect(engine.check({ title: "another" } as Plan, { schedule })).resolves.toEqual({
      title: "another",
    });
  });

  it("answers other calls while a pack runs, reports progress, and an abort settles and stops it", async () => {
    const core = new EndlessCore();
    const engine = pair(core);
    const control = new AbortController();
    let reported = 0;
    const packing = engine.pack(plan, options, {
      report: (p) => (reported = p.iterations),
      signal: control.signal,
    });
    await expect(engine.check(plan, { schedule })).resolves.toEqual({ title: "a plan" });
    while (reported < 3) await breathe();
    control.abort();
    await expect(packing).rejects.toMatchObject({ reason: "cancelled" });
    while (!core.stopped) await breathe();
    expect(core.slices).toBeGreaterThanOrEqual(3);
  });

  it("rejects an already aborted call without sending it", async () => {
    const core = new EndlessCore();
    const engine = pair(core);
    await expect(engine.pack(plan, options, { signal: AbortSignal.abort() })).rejects.toBeInstanceOf(
      EngineError,
    );
    await engine.check(plan, { schedule });
    expect(core.slices).toBe(0);
  });

  it("carries the words of a failure", async () => {
    const engine = pair(new EndlessCore());
    await expect(engine.fitBands(plan, { schedule, task: "x" })).rejects.toMatchObject({
      reason: "failed",
      message: "no such task",
    });
  });

  it("settles a call that cannot be sent, and goes on", async () => {
    const engine = pair(new EndlessCore());
    const uncopied = { ...options, keep: [() => "x"] } as never;
    await expect(engine.pack(plan, uncopied)).rejects.toMatchObject({ reason: "failed" });
    const unsent = { title: () => "x" } as unknown as Plan;
    await expect(engine.check(unsent, { schedule })).rejects.toMatchObject({ reason: "failed" });
    await expect(engine.check(plan, { schedule })).resolves.toEqual({ title: "a plan" });
  });

  it("rejects what is pending, and every later call, when it closes", async () => {
    const engine = pair(new EndlessCore());
    const packing = engine.pack(plan, options);
    engine.close();
    await expect(packing).rejects.toMatchObject({ reason: "closed" });
    await expect(engine.check(plan, { schedule })).rejects.toMatchObject({ reason: "closed" });
  });
});
