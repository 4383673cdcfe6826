import { MessageChannel } from "node:worker_threads";
import { afterEach, describe, expect, it } from "vitest";
import { connect } from "../../src/engine/client.ts";
import type { Core } from "../../src/engine/core.ts";
import type { Turn } from "../../src/engine/drive.ts";
import type { FromWorker, Port, ToWorker } from "../../src/engine/messages.ts";
import { EngineError } from "../../src/engine/calls.ts";
import { randomPlan } from "../properties/randomPlan.ts";
import { serve } from "../../src/engine/server.ts";
import type { Plan, Schedule } from "../../src/plan/index.ts";

const plan = { title: "a plan" } as Plan;
const schedule: Schedule = { placements: [] };
const options = { seed: 1, seconds: 60 };
const yieldToHost = (): Promise<void> => new Promise((resolve) => setImmediate(resolve));

/** A core whose pack runs until it is told to stop, and says which plan it saw. */
class EndlessCore {
  slices = 0;
  stopped = false;
  check(seen: Plan): never {
    return { title: seen.title } as never;
  }
  async pack(_: Plan, __: unknown, { report, yieldToHost, signal }: Turn<"pack">): Promise<never> {
    while (!signal?.aborted) {
      this.slices += 1;
      report?.({ iterations: this.slices } as never);
      await yieldToHost?.();
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

/** `watch` sees every message to the core; one that it answers with "drop" goes no further. */
function pair(core: EndlessCore, watch: (message: ToWorker) => unknown = () => undefined) {
  const { port1, port2 } = new MessageChannel();
  serve(port2 as unknown as Port<FromWorker>, core as unknown as Core, yieldToHost);
  const near = port1 as unknown as Port<ToWorker>;
  const watched: Port<ToWorker> = {
    postMessage: (message) => {
      if (watch(message) !== "drop") near.postMessage(message);
    },
    set onmessage(listener: Port<ToWorker>["onmessage"]) {
      near.onmessage = listener;
    },
  };
  const engine = connect(watched, () => port1.close());
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

  it("sends the next plan as a patch, of which the far side keeps what is the same as the same object", async () => {
    const seen: Plan[] = [];
    const core = { check: (one: Plan) => void seen.push(one) } as unknown as EndlessCore;
    const sent: ToWorker[] = [];
    const engine = pair(core, (message) => sent.push(message));
    const first = randomPlan(3, { tasks: 6, crew: 2, evas: 2, places: 4, features: 0.5 });
    const second = { ...first, title: "Another", tasks: first.tasks.toReversed() };
    for (const one of [first, second, second, first]) await engine.check(one, { schedule });
    expect(sent.map(({ type }) => type)).toEqual(["plan", "call", "patch", "call", "call", "patch", "call"]);
    expect(JSON.stringify(seen)).toBe(JSON.stringify([first, second, second, first]));
    expect(seen[1]!.site).toBe(seen[0]!.site);
    expect(seen[1]!.tasks[0]).toBe(seen[0]!.tasks.at(-1));
    expect(JSON.stringify(sent[2]).length).toBeLessThan(JSON.stringify(sent[0]).length / 10);
  });

  it("sends another plan whole", async () => {
    const core = { check: (one: Plan) => one.title } as unknown as EndlessCore;
    const sent: ToWorker[] = [];
    const engine = pair(core, (message) => sent.push(message));
    const shape = { tasks: 40, crew: 2, evas: 2, places: 4, features: 0.5 };
    for (const seed of [1, 2]) await engine.check(randomPlan(seed, shape), { schedule });
    expect(sent.map(({ type }) => type)).toEqual(["plan", "call", "plan", "call"]);
  });

  it("sends the plan whole and the call again where the far side holds another version", async () => {
    const core = { check: (one: Plan) => one.title } as unknown as EndlessCore;
    const lost: ToWorker[] = [];
    // Of the patches, the first two do not arrive.
    const engine = pair(core, (message) =>
      message.type === "patch" && lost.length < 2 && lost.push(message) > 0 ? "drop" : null,
    );
    const titled = (title: string): Plan => ({ ...plan, title });
    const titles = ["one", "two", "three", "four"];
    const answers = titles.map((title) => engine.check(titled(title), { schedule }));
    expect(await Promise.all(answers)).toEqual(titles);
    expect(lost).toHaveLength(2);
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
    while (reported < 3) await yieldToHost();
    control.abort();
    await expect(packing).rejects.toMatchObject({ reason: "cancelled" });
    while (!core.stopped) await yieldToHost();
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
